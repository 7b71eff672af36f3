"""The outer end of a seam at every pair of angles, against complex numbers: raw lines lie one allowance outside the
finished ones, an allowance goes under as far as its own raw line, and what sticks out beyond both is an ear."""

from __future__ import annotations

from cmath import exp
from math import pi, sin

import pytest
from piecewright.exact import Exact, Vector
from piecewright.kernel.errors import SewingError
from piecewright.kernel.junction import Closed, Junction, close_junction
from piecewright.kernel.unit import Corner

S = 0.25
SPOT = Vector(3, 2)
F = 3 + 2j
ANGLES = (30, 45, 60, 90, 120, 135, 150)
NEAR = 1e-9


def unit(degrees: float) -> complex:
    return exp(1j * pi * degrees / 180)


def number(p: Vector) -> complex:
    return complex(*p.floats)


def meet(p: complex, along: complex, q: complex, other: complex) -> complex:
    """Where two lines cross, by the areas they span."""
    across = (along.conjugate() * other).imag
    return p + along * (((q - p).conjugate() * other).imag / across)


def right(way: complex) -> complex:
    return way * -1j


def closed(first: int, second: int, seam: int, at_start: bool) -> tuple[Closed, complex, complex, complex]:
    """A seam that runs `seam` degrees, and angles of the outlines that come in and go out; with the outline's
    directions into and out of the corner, and the way that the sewn edges leave it."""
    leave = seam if at_start else seam + 180
    into, out = leave - (180 - first), leave + 180 + (180 - second)
    ends = []
    for ways in ((into, leave), (leave + 180, out)):
        one, other = (unit(way) for way in ways)
        angle = (one.conjugate() * other).imag
        raw = meet(F + right(one) * S, one, F + right(other) * S, other) if abs(angle) > NEAR else F + right(one) * S
        ends.append(raw)
    corners = [Corner(finished=SPOT, raw=(vector(raw),)) for raw in ends]
    done = close_junction(
        Junction(
            incoming=Vector.at(into), outgoing=Vector.at(out), seam=Vector.at(seam), in_corner=corners[0],
            out_corner=corners[1], at_start=at_start, allowance=Exact(1, 4),
        )
    )  # fmt: skip
    return done, unit(into), unit(out), unit(leave)


def vector(p: complex) -> Vector:
    """Near enough: the raw points of a convex corner are not read."""
    return Vector(Exact(round(p.real * 2**40), 2**40), Exact(round(p.imag * 2**40), 2**40))


def same(found: Vector, wanted: complex) -> bool:
    return abs(number(found) - wanted) < NEAR


@pytest.mark.parametrize("first", ANGLES)
@pytest.mark.parametrize("second", ANGLES)
@pytest.mark.parametrize(("seam", "at_start"), [(0, True), (0, False), (60, True), (135, False)])
def test_two_convex_corners(first: int, second: int, seam: int, at_start: bool) -> None:
    done, into, out, leave = closed(first, second, seam, at_start)
    # each allowance goes under up to its own raw line, s / sin a beyond the finished corner
    in_end, out_end = F - leave * S / sin(first * pi / 180), F - leave * S / sin(second * pi / 180)
    own, other = (in_end, out_end) if at_start else (out_end, in_end)
    assert same(done.first_end, own) and same(done.second_end, other)
    assert same(done.visible, min(in_end, out_end, key=lambda end: abs(end - F)))
    if first + second == 180:
        assert done.corner is None and done.ear == ()
        return
    assert done.corner is not None and same(done.corner.finished, F)
    if first + second > 180:
        assert done.ear == () and [number(p) for p in done.corner.raw] == pytest.approx(
            [in_end] if first == second else [in_end, out_end]
        )
        return
    tip = meet(F + right(into) * S, into, F + right(out) * S, out)
    assert [number(p) for p in done.corner.raw] == pytest.approx([tip])
    area = abs(((out_end - in_end).conjugate() * (tip - in_end)).imag) / 2
    if first == second:
        assert done.ear == () and area < NEAR
        return
    ring = [number(p) for p in done.ear]
    twice = sum((p.conjugate() * q).imag for p, q in zip(ring, ring[1:] + ring[:1], strict=True))
    assert twice / 2 == pytest.approx(area), "counter-clockwise, and so large"
    # the sharper of the two reaches farther and has the ear; the first unit's outline comes in where the seam ends
    sharper_comes_in = first < second
    assert (done.ear_of == "first") == (sharper_comes_in == at_start)


@pytest.mark.parametrize(
    ("first", "second"), [(270, 60), (60, 270), (225, 90), (90, 225), (225, 120), (45, 300), (300, 45)]
)
@pytest.mark.parametrize("at_start", [True, False])
def test_a_corner_that_fits_into_an_inner_one(first: int, second: int, at_start: bool) -> None:
    done, into, out, leave = closed(first, second, 0, at_start)
    sharp_end = F - leave * S / sin(min(first, second) * pi / 180)
    inner_first = first > second  # of the one whose outline comes in
    ends = (F, sharp_end) if inner_first == at_start else (sharp_end, F)
    assert same(done.first_end, ends[0]) and same(done.second_end, ends[1]) and same(done.visible, F)
    assert done.corner is not None and same(done.corner.finished, F) and done.ear == ()
    one, other = (into, leave) if inner_first else (-leave, out)
    old = meet(F + right(one) * S, one, F + right(other) * S, other)
    path = [old, F, sharp_end] if inner_first else [sharp_end, F, old]
    assert [number(p) for p in done.corner.raw] == pytest.approx(path)


@pytest.mark.parametrize(
    ("first", "second"),
    [(270, 90), (90, 270), (270, 120), (120, 270), (225, 135), (225, 225), (270, 270), (225, 180), (180, 225),
     (300, 300), (315, 270)],
)
@pytest.mark.parametrize("at_start", [True, False])
def test_no_room_where_both_go_round_and_more(first: int, second: int, at_start: bool) -> None:
    with pytest.raises(SewingError) as caught:
        closed(first, second, 0, at_start)
    assert caught.value.kind == "no-room"


@pytest.mark.parametrize("angle", [45, 90, 135])
@pytest.mark.parametrize("at_start", [True, False])
@pytest.mark.parametrize("marked_comes_in", [True, False])
def test_a_mark_goes_under_as_far_as_its_partner(angle: int, at_start: bool, marked_comes_in: bool) -> None:
    first, second = (180, angle) if marked_comes_in else (angle, 180)
    done, into, out, leave = closed(first, second, 0, at_start)
    end = F - leave * S / sin(angle * pi / 180)
    assert same(done.first_end, end) and same(done.second_end, end) and same(done.visible, end)
    step = end + right(into if marked_comes_in else out) * S
    assert done.corner is not None
    assert [number(p) for p in done.corner.raw] == pytest.approx([step, end] if marked_comes_in else [end, step])
