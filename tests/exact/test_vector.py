from __future__ import annotations

import copy
import math

import pytest
from exact.strategies import convergent, numbers, rationals, vectors
from hypothesis import given, settings
from hypothesis import strategies as st
from piecewright.exact import Exact, OutsideNumbers, Vector, orientation

R2, R3, R5 = (Exact.root(n) for n in (2, 3, 5))
directions = st.one_of(
    st.integers(-30, 30).map(lambda n: Vector.at(15 * n)),
    st.sampled_from([(3, 4, 5), (5, 12, 13), (8, 15, 17)]).map(lambda t: Vector(Exact(t[0], t[2]), Exact(t[1], t[2]))),
    st.just(Vector(1, 2).unit()),
)


@given(vectors, vectors, numbers)
def test_a_vector_space(v: Vector, w: Vector, k: Exact) -> None:
    assert v + w == w + v
    assert v - w == v + -w
    assert (v + w) * k == v * k + w * k == k * (v + w)
    assert v.dot(w) == w.dot(v)
    assert v.cross(w) == -w.cross(v)
    assert v.squared() == v.dot(v)
    # Lagrange's identity in the plane
    assert v.dot(w) * v.dot(w) + v.cross(w) * v.cross(w) == v.squared() * w.squared()
    assert bool(v) == (v != Vector(0, 0))
    if k:
        assert v * k / k == v
    assert hash(v + w - w) == hash(v)


@given(vectors)
def test_quarter_turns(v: Vector) -> None:
    assert v.left() == v.turned(Vector.at(90))
    assert v.right() == v.turned(Vector.at(-90))
    assert v.left().right() == v
    assert v.left().left() == -v
    assert v.dot(v.left()) == 0
    assert v.cross(v.left()) == v.squared()
    assert v.conjugate().conjugate() == v


@given(vectors, vectors, directions, directions)
def test_turning_keeps_lengths_and_angles(v: Vector, w: Vector, u: Vector, t: Vector) -> None:
    assert u.squared() == 1
    assert v.turned(u).dot(w.turned(u)) == v.dot(w)
    assert v.turned(u).cross(w.turned(u)) == v.cross(w)
    assert v.turned(u).turned(t) == v.turned(u.turned(t))
    assert v.turned(u).turned(u.conjugate()) == v


@pytest.mark.parametrize("degrees", range(-360, 720, 15))
def test_directions_by_degrees(degrees: int) -> None:
    v = Vector.at(degrees)
    assert v.squared() == 1
    assert v.floats == pytest.approx((math.cos(math.radians(degrees)), math.sin(math.radians(degrees))), abs=1e-14)
    assert v.turned(Vector.at(-degrees)) == Vector(1, 0)


@pytest.mark.parametrize("degrees", [1, 36, 22, 89])
def test_directions_outside(degrees: int) -> None:
    with pytest.raises(OutsideNumbers):
        Vector.at(degrees)


@settings(deadline=None)
@given(st.one_of(rationals, st.sampled_from([R2, 1 + R2, 2 - R3, R5 / 3])).filter(bool), directions)
def test_unit_of_any_multiple_of_a_direction(k: Exact, u: Vector) -> None:
    assert (u * k).unit() == (u if k > 0 else -u)


@given(rationals, rationals)
def test_length_of_a_rational_vector(x: Exact, y: Exact) -> None:
    v = Vector(x, y)
    length = v.length()
    assert length * length == v.squared() and length >= 0
    if v:
        assert v.unit() * length == v


def test_lengths_and_units_outside() -> None:
    with pytest.raises(OutsideNumbers):
        Vector(1, 1 + R2).unit()  # 67.5 degrees
    with pytest.raises(OutsideNumbers):
        Vector(1, R2 + 1).length()
    with pytest.raises(ZeroDivisionError):
        Vector(0, 0).unit()
    assert Vector(0, -3).unit() == Vector(0, -1)
    assert Vector(R2, 0).unit() == Vector(1, 0)
    assert Vector(0, 0).length() == 0
    assert Vector(0, -R2).length() == R2


@given(vectors, vectors, vectors)
def test_signs_by_floats_are_the_exact_ones(a: Vector, b: Vector, c: Vector) -> None:
    assert b.cross_sign(c) == b.cross(c).sign()
    assert b.dot_sign(c) == b.dot(c).sign()
    assert orientation(a, b, c) == (b - a).cross(c - a).sign()
    assert orientation(a, b, c) == orientation(b, c, a) == -orientation(b, a, c)


@given(vectors, vectors, numbers)
def test_points_on_a_line(a: Vector, b: Vector, k: Exact) -> None:
    assert orientation(a, b, a + (b - a) * k) == 0
    assert (b - a).cross_sign((b - a) * k) == 0


@pytest.mark.parametrize("n", [10, 30, 60, 200, 900, 2000])
def test_nearly_on_a_line(n: int) -> None:
    p, q = convergent(n)
    sign = 1 if p * p > 2 * q * q else -1
    assert Vector(R2, 1).cross_sign(Vector(p, q)) == -sign
    assert Vector(p, q).cross_sign(Vector(R2, 1)) == sign
    assert orientation(Vector(0, 0), Vector(p, q), Vector(R2, 1)) == sign
    assert orientation(Vector(1, 1), Vector(p + 1, q + 1), Vector(R2 + 1, 2)) == sign
    assert Vector(p, -q).dot_sign(Vector(1, R2)) == sign


def test_never_changed() -> None:
    v = Vector(1, 2)
    key = hash(v)
    for name in ("x", "y", "z", "_floats"):
        with pytest.raises(AttributeError):
            setattr(v, name, Exact(3))
    with pytest.raises(AttributeError):
        del v.x
    assert v.floats == (1.0, 2.0) and v.floats is v.floats
    assert v == Vector(1, 2) and hash(v) == key
    assert type(v) is type(v + v) is type(v.left()) is Vector
    assert copy.copy(v) == copy.deepcopy(v) == v


def test_forms() -> None:
    v = Vector(1, R2 / 2)
    assert repr(v) == "Vector(1, 1/2*sqrt(2))"
    assert v.x == 1 and v.y * 2 == R2
    assert v != (1, R2 / 2)
    assert len({v, Vector(1, R2 / 2), -v}) == 2
