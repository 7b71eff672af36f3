from __future__ import annotations

import math
from fractions import Fraction

import pytest
import sympy
from exact.strategies import any_rationals, convergent, irrationals, numbers, pell, rationals, to_sympy
from hypothesis import assume, example, given, settings
from hypothesis import strategies as st
from piecewright.exact import Exact, OutsideNumbers

R2, R3, R5, R6 = (Exact.root(n) for n in (2, 3, 5, 6))
HALF = Exact(1, 2)


def high(x: Exact, digits: int = 60) -> sympy.Float:
    return to_sympy(x).evalf(digits)


# ── making one ──


def test_lowest_terms_and_denominators() -> None:
    assert str(Exact(6, 4)) == "3/2"
    assert str(Exact(6, -4)) == "-3/2"
    assert str(Exact(0, -7)) == "0"
    assert Exact(Fraction(13, 2)) == Exact(13, 2)
    assert Exact(Fraction(13, 2), 3) == Exact(13, 6)
    assert Exact() == 0


@pytest.mark.parametrize("value", [0.5, "1/2", None, 1j])
def test_nothing_inexact(value: object) -> None:
    with pytest.raises(TypeError):
        Exact(value)  # type: ignore[arg-type]
    with pytest.raises(TypeError):
        Exact(1) + value  # type: ignore[operator]
    with pytest.raises(TypeError):
        assert Exact(1) < value  # type: ignore[operator]
    assert Exact(1) != value


def test_zero_denominators() -> None:
    for fails in (
        lambda: Exact(1, 0),
        lambda: Exact(1) / 0,
        lambda: R2 / 0,
        lambda: R2 / Exact(0),
        lambda: 1 / Exact(0),
        lambda: 1 / (R2 - R2),
    ):
        with pytest.raises(ZeroDivisionError):
            fails()


def test_roots_are_reduced() -> None:
    assert str(Exact.root(0)) == "0"
    assert str(Exact.root(1)) == "1"
    assert str(Exact.root(72)) == "6*sqrt(2)"
    assert str(Exact.root(2 * 3 * 5 * 49)) == "7*sqrt(30)"
    assert Exact.root(10**400) == 10**200
    with pytest.raises(OutsideNumbers):
        Exact.root(-1)


def test_a_root_too_large_to_reduce_is_refused_not_waited_for() -> None:
    with pytest.raises(OutsideNumbers):
        Exact.root((10**61 + 1) * (10**59 + 9))
    p, q = 1_000_003, 1_000_033
    assert str(Exact.root(p * p * 6)) == f"{p}*sqrt(6)"
    assert str(Exact.root(p * q)) == f"sqrt({p * q})"


@given(st.integers(0, 10**7))
def test_root_squared(n: int) -> None:
    root = Exact.root(n)
    assert root * root == n
    assert root >= 0
    assert sympy.sqrt(n) == to_sympy(root)


# ── field laws ──


@given(numbers, numbers, numbers)
def test_field_laws(a: Exact, b: Exact, c: Exact) -> None:
    assert a + b == b + a
    assert a * b == b * a
    assert (a + b) + c == a + (b + c)
    assert (a * b) * c == a * (b * c)
    assert a * (b + c) == a * b + a * c
    assert a - b == -(b - a) == a + -b
    assert a - a == 0 and not a - a
    assert a + 0 == a * 1 == a - 0 == a / 1 == +a == a


@given(numbers, numbers)
def test_division_undoes_multiplication(a: Exact, b: Exact) -> None:
    assume(b)
    assert a / b * b == a
    assert a * b / b == a
    assert b * (1 / b) == 1


@settings(max_examples=60)
@given(irrationals, irrationals)
def test_arithmetic_agrees_with_sympy(a: Exact, b: Exact) -> None:
    x, y = to_sympy(a), to_sympy(b)
    assert to_sympy(a + b) == sympy.expand(x + y)
    assert to_sympy(a - b) == sympy.expand(x - y)
    assert to_sympy(a * b) == sympy.expand(x * y)


@given(any_rationals, any_rationals)
def test_rationals_agree_with_fractions(a: Exact, b: Exact) -> None:
    x, y = a.fraction, b.fraction
    assert (a + b).fraction == x + y
    assert (a - b).fraction == x - y
    assert (a * b).fraction == x * y
    if b:
        assert (a / b).fraction == x / y
    assert (a < b, a <= b, a == b, a != b, a > b, a >= b) == (x < y, x <= y, x == y, x != y, x > y, x >= y)
    assert a.floor() == math.floor(x) and a.ceil() == math.ceil(x)
    assert hash(a) == hash(x)
    assert float(a) == float(x)
    assert bool(a) == bool(x) and a.sign() == (x > 0) - (x < 0)


@given(numbers, st.integers())
def test_whole_numbers_on_either_side(a: Exact, k: int) -> None:
    b = Exact(k)
    assert a + k == k + a == a + b
    assert a - k == a - b
    assert k - a == b - a
    assert a * k == k * a == a * b
    if k:
        assert a / k == a / b
    if a:
        assert k / a == b / a
    assert (a < k, a <= k, a == k, a > k, a >= k) == (a < b, a <= b, a == b, a > b, a >= b)
    assert (k > a, k >= a, k == a, k < a, k <= a) == (b > a, b >= a, b == a, b < a, b <= a)


# ── one value, one form ──


@given(numbers, numbers)
def test_equal_values_have_equal_forms(a: Exact, b: Exact) -> None:
    again = (a + b) * (a - b) + b * b
    assert again == a * a
    assert hash(again) == hash(a * a)
    assert str(again) == str(a * a)


@given(st.integers())
def test_hash_of_a_whole_number(k: int) -> None:
    assert hash(Exact(k)) == hash(k)
    assert {Exact(k): 1}[k] == 1  # type: ignore[index]


def test_hash_where_the_denominator_has_no_inverse() -> None:
    modulus = Fraction(1, (1 << 61) - 1)
    assert hash(Exact(modulus)) == hash(modulus)
    assert hash(-Exact(modulus)) == hash(-modulus)


@given(numbers)
def test_text_round_trip(a: Exact) -> None:
    assert Exact.parse(str(a)) == a
    assert repr(a) == f"Exact({a})"


@pytest.mark.parametrize(
    ("x", "text"),
    [
        (Exact(19, 2) - R2 / 4, "19/2 - 1/4*sqrt(2)"),
        (R2 + R3, "sqrt(2) + sqrt(3)"),
        (-R2, "-sqrt(2)"),
        (-3 * R5 / 7 - R2, "-sqrt(2) - 3/7*sqrt(5)"),
        (Exact(0), "0"),
        (Exact(-13, 2), "-13/2"),
        (1 - 2 * R6, "1 - 2*sqrt(6)"),
    ],
)
def test_text(x: Exact, text: str) -> None:
    assert str(x) == text
    assert Exact.parse(text) == x


@pytest.mark.parametrize(
    "text",
    ["", "1 2", "1/0", "1/0*sqrt(2)", "--1", "1 +", "sqrt(2", "sqrt()", "sqrt(-2)", "*sqrt(2)", "2*", "1/2/3", "1.5"],
)
def test_text_of_no_number(text: str) -> None:
    with pytest.raises(ValueError, match="not an exact number"):
        Exact.parse(text)


# ── sign and order ──


@given(numbers, numbers)
def test_order_agrees_with_many_digits(a: Exact, b: Exact) -> None:
    difference = high(a - b) if a != b else 0
    assert (a < b) == (difference < 0)
    assert (a <= b) == (difference <= 0)
    assert (a > b) == (difference > 0)
    assert (a >= b) == (difference >= 0)
    assert [a < b, a == b, a > b].count(True) == 1


@given(numbers, numbers, numbers)
def test_order_is_total_and_fits_the_arithmetic(a: Exact, b: Exact, c: Exact) -> None:
    low, mid, top = sorted([a, b, c])
    assert low <= mid <= top and low <= top
    assert low + a <= top + a
    assert (a * b).sign() == a.sign() * b.sign()
    assert abs(a) >= a and abs(a) >= -a and abs(a) in (a, -a)


@pytest.mark.parametrize("n", [*range(1, 60), 100, 300, 800, 1200, 2000])
def test_sign_of_a_root_against_its_convergents(n: int) -> None:
    """p - q√2 by p² - 2q²: up to seven hundred digits in p, and past the largest float."""
    p, q = convergent(n)
    x = p - q * R2
    expected = 1 if p * p > 2 * q * q else -1
    assert x.sign() == expected
    assert (x > 0) == (expected > 0)
    assert (Exact(p, q) > R2) == (expected > 0)
    assert (R2 * q < p) == (expected > 0)
    assert (p * HALF < q * R2 / 2) == (expected < 0)
    assert bool(x)
    assert (x.floor(), x.ceil()) == ((0, 1) if expected > 0 else (-1, 0))


@pytest.mark.parametrize("power", [1, 5, 20, 60, 200])
def test_sign_with_several_roots_that_cancel(power: int) -> None:
    p, q = pell(2, (3, 2), power)
    s, t = pell(3, (2, 1), power)
    two, three = p - q * R2, s - t * R3  # each positive and tiny; (2 - √3)^n is the larger
    assert two.sign() == three.sign() == 1
    assert (three - two).sign() == 1 and (two - three).sign() == -1
    assert two < three
    assert (two * three).sign() == 1 and (two * -three).sign() == -1


def test_a_float_never_lies_about_the_sign() -> None:
    p, q = convergent(900)
    tiny = p - q * R2
    assert p > 10**340 and float(tiny) == 0.0 and tiny.sign() in (-1, 1)
    below_floats = tiny * tiny * tiny
    assert float(below_floats) == 0.0
    assert below_floats.sign() == tiny.sign()
    assert bool(below_floats)


def test_no_overflow() -> None:
    huge = Exact(10**400)
    assert float(huge) == math.inf and float(-huge) == -math.inf
    assert float(huge * R2) == math.inf and float(-huge * R2) == -math.inf
    assert huge * R2 < huge * R3
    assert huge < huge * R2 < huge * 2
    assert huge + R2 > huge
    assert float((huge + 1) * R2 - huge * R2) == pytest.approx(math.sqrt(2))
    assert float(Exact(10**400, 10**399 * 3)) == pytest.approx(10 / 3)
    assert float(R2 / 10**400) == 0.0 and (R2 / 10**400).sign() == 1
    assert R2 / 10**400 < R3 / 10**400
    assert float(R2 / 10**400 * 10**400) == pytest.approx(math.sqrt(2))


@given(numbers)
@example(R2 * 665857 - 941664)
@example(R2 + R3 - Exact(31462643699, 10**10))
def test_float_is_right_to_43_bits(a: Exact) -> None:
    exact = high(a)
    assert abs(sympy.Float(float(a), 60) - exact) <= abs(exact) * sympy.Float(2, 60) ** -43


def test_float_is_right_where_terms_cancel() -> None:
    p, q = convergent(200)
    x = p - q * R2
    assert float(x) == pytest.approx(float(high(x, 200)), rel=1e-12)


@given(numbers)
def test_floor_and_ceil(a: Exact) -> None:
    low, top = a.floor(), a.ceil()
    assert low <= a < low + 1
    assert top - 1 < a <= top
    assert top - low == (0 if a == low else 1)


def test_floor_next_to_a_whole_number() -> None:
    p, q = convergent(101)
    x = p - q * R2
    assert (7 + x).floor() == (7 if x > 0 else 6)
    assert (7 - x).floor() == (6 if x > 0 else 7)


# ── square roots ──


@given(rationals)
def test_root_of_a_rational(a: Exact) -> None:
    root = abs(a).sqrt()
    assert root * root == abs(a) and root >= 0


@settings(max_examples=60, deadline=None)
@given(irrationals, st.sampled_from([1, 2, 3, 7]))
def test_root_of_a_square_is_found(k: Exact, m: int) -> None:
    """Every square root in the set has the form k√m, with k in the field of the number."""
    a = k * k * m
    assert a.sqrt() == abs(k) * Exact.root(m)


@pytest.mark.parametrize(
    ("square", "root"),
    [
        (3 + 2 * R2, 1 + R2),
        (3 - 2 * R2, R2 - 1),
        (6 + 4 * R2, 2 + R2),
        (5 + 2 * R6, R2 + R3),
        (2 + R3, (R6 + R2) / 2),
        (Exact(723, 8) - 19 * R2 / 4, Exact(19, 2) - R2 / 4),
        (Exact(9, 16), Exact(3, 4)),
        (HALF, R2 / 2),
        (Exact(45, 4), 3 * R5 / 2),
        (Exact(0), Exact(0)),
        ((R2 + R3 + R5 + 1) * (R2 + R3 + R5 + 1), 1 + R2 + R3 + R5),
    ],
)
def test_known_roots(square: Exact, root: Exact) -> None:
    assert square.sqrt() == root


@pytest.mark.parametrize("x", [2 + R2, 4 - 2 * R2, 1 + R3, 1 + R2 + R3, R2 + R3, R2, 2 * R2, Exact(-1), 1 - R2])
def test_roots_outside(x: Exact) -> None:
    with pytest.raises(OutsideNumbers):
        x.sqrt()


def test_rational_or_not() -> None:
    assert Exact(7, 2).is_rational and Exact(7, 2).ratio == (7, 2)
    assert not R2.is_rational
    assert (R2 * R2).is_rational
    for asked in (lambda: R2.fraction, lambda: R2.ratio):
        with pytest.raises(ValueError, match="irrational"):
            asked()
