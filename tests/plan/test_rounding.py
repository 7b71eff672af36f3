from __future__ import annotations

import math
from typing import Any

import pytest
from exact.strategies import numbers
from hypothesis import given
from hypothesis import strategies as st
from piecewright.exact import INCH_PER, Exact, Vector, parse_size
from piecewright.kernel.build import Settings, Units
from piecewright.plan.rounding import (
    MEASURED,
    cloth_size,
    cut_size,
    drawn,
    drawn_point,
    given_size,
    least_size,
    measured_extent,
    measured_size,
    nearest_mark,
    up_to_mark,
    with_unit,
    written_size,
)

R2 = Exact.root(2)
CM, MM = INCH_PER["cm"], INCH_PER["mm"]


EIGHTH, QUARTER = Exact(1, 8), Exact(1, 4)


def settings(units: Units = "inch", ruler: Exact = EIGHTH, seam: Exact = QUARTER) -> Settings:
    return Settings(
        title="",
        edition="1",
        seam=seam,
        units=units,
        ruler=ruler,
        tolerance=Exact(1, 16),
        usable=Exact(40),
        press="open",
    )


INCHES = settings()
CENTIMETRES = settings("cm", MM, Exact(3, 4) * CM)
MILLIMETRES = settings("mm", MM, Exact(7) * MM)
marks = st.sampled_from([Exact(1, 8), Exact(1, 16), Exact(1, 4), MM, MM * Exact(5, 2)])
rulers = st.sampled_from(
    [INCHES, settings(ruler=Exact(1, 16)), CENTIMETRES, settings("cm", MM * Exact(5, 2)), MILLIMETRES]
)
sizes = numbers.map(abs)


def printed(size: Any) -> tuple[str, str, str]:
    return size.exact, size.ruler, size.shown


# ── sizes to cut ──


@given(numbers, marks)
def test_up_is_the_next_mark(x: Exact, mark: Exact) -> None:
    up = up_to_mark(x, mark)
    assert x <= up < x + mark
    assert (up / mark).is_rational and (up / mark).ratio[1] == 1
    assert up_to_mark(up, mark) == up


@given(numbers, marks)
def test_nearest_is_within_half_a_mark(x: Exact, mark: Exact) -> None:
    near = nearest_mark(x, mark)
    assert abs(near - x) <= mark / 2
    assert (near / mark).ratio[1] == 1


@pytest.mark.parametrize(("half", "mark"), [(1, 0), (3, 2), (5, 2), (7, 4), (-1, 0), (-3, -2)])
def test_halfway_goes_to_the_even_mark(half: int, mark: int) -> None:
    assert nearest_mark(Exact(half, 32), Exact(1, 16)) == Exact(mark, 16)


@pytest.mark.parametrize(
    ("x", "expected"),
    [
        (Exact(13, 2), ("13/2", "6 1/2", "6½")),
        (3 + (2 + R2) / 4, ("7/2 + 1/4*sqrt(2)", "3 7/8", "3⅞")),
        (Exact(19, 2) - R2 / 4, ("19/2 - 1/4*sqrt(2)", "9 1/4", "9¼")),
        (Exact(1, 16), ("1/16", "1/8", "⅛")),
        (Exact(7), ("7", "7", "7")),
        (Exact(0), ("0", "0", "0")),
    ],
)
def test_cut_sizes(x: Exact, expected: tuple[str, str, str]) -> None:
    assert printed(cut_size(x, INCHES)) == expected
    assert cloth_size(x, INCHES) == cut_size(x, INCHES)


def test_a_cut_is_rounded_to_the_ruler_of_the_pattern() -> None:
    assert cut_size(3 + (2 + R2) / 4, settings(ruler=Exact(1, 16))).shown == "3⅞"
    assert cut_size(4 + (2 + 2 * R2) / 4, settings(ruler=Exact(1, 16))).shown == "5¼"
    assert cut_size(Exact(101, 16), settings(ruler=Exact(1, 16))).shown == "6\u202f⁵⁄₁₆"
    assert cut_size(Exact(1, 3), settings(ruler=Exact(1, 3))).shown == "⅓"


def test_metric_cuts() -> None:
    assert printed(cut_size(Exact(33, 2) * CM, CENTIMETRES)) == ("33/2", "16.5", "16.5")
    # 10 cm finished, a seam of 0.75 cm: 10 + (2 + √2)·0.75
    assert printed(cut_size((10 + (2 + R2) * Exact(3, 4)) * CM, CENTIMETRES)) == ("23/2 + 3/4*sqrt(2)", "12.6", "12.6")
    assert cut_size(Exact(1604, 100) * CM, settings("cm", MM * Exact(5, 2))).shown == "16.25"
    assert cut_size(Exact(331, 2) * MM, MILLIMETRES).shown == "166"
    assert cut_size(Exact(1, 2), settings("cm")).shown == "1.27"
    assert cut_size(CM / 3, settings("cm", CM / 3)).shown == "⅓"


@given(sizes, rulers)
def test_nothing_is_cut_too_small(x: Exact, own: Settings) -> None:
    size = cut_size(x, own)
    per = INCH_PER[own.units]
    assert parse_size(size.shown) == parse_size(size.ruler)
    assert x <= parse_size(size.ruler)[0] * per < x + own.ruler
    assert Exact.parse(size.exact) * per == x
    assert size.value == pytest.approx(float(x / per), abs=1e-6)


# ── sizes to measure ──


@pytest.mark.parametrize(
    ("x", "expected"),
    [
        (Exact(13, 2), ("13/2", "6 1/2", "6½")),
        (Exact(101, 16), ("101/16", "6 5/16", "6\u202f⁵⁄₁₆")),
        (Exact(31, 8) - R2 / 4, ("31/8 - 1/4*sqrt(2)", "3 1/2", "generous 3½")),
        (9 - R2 / 4, ("9 - 1/4*sqrt(2)", "8 5/8", "generous 8⅝")),
        (Exact(19, 2) - R2 / 4, ("19/2 - 1/4*sqrt(2)", "9 1/8", "generous 9⅛")),
        (4 * R2, ("4*sqrt(2)", "5 11/16", "scant 5\u202f¹¹⁄₁₆")),
        (Exact(4) + Exact(1, 64), ("257/64", "4", "generous 4")),
        (Exact(4) - Exact(1, 64), ("255/64", "4", "scant 4")),
        (Exact(1, 32), ("1/32", "0", "generous 0")),
        (-Exact(4) + Exact(1, 64), ("-255/64", "-4", "scant −4")),
    ],
)
def test_measures(x: Exact, expected: tuple[str, str, str]) -> None:
    assert printed(measured_size(x, INCHES)) == expected


def test_metric_measures() -> None:
    assert measured_size(Exact(33, 2) * CM, CENTIMETRES).shown == "16.5"
    assert measured_size((12 - Exact(3, 4) * R2) * CM, CENTIMETRES).shown == "generous 10.9"
    assert measured_size(Exact(1098, 10) * MM, MILLIMETRES).shown == "scant 110"
    assert measured_size(-Exact(33, 2) * CM, CENTIMETRES).shown == "−16.5"


def test_what_lies_on_the_ruler_is_neither_scant_nor_generous() -> None:
    assert measured_size(Exact(65, 4) * CM, settings("cm", MM * Exact(5, 2))).shown == "16.25"
    assert measured_size(Exact(65, 4) * CM, CENTIMETRES).shown == "generous 16.2"
    assert measured_size(Exact(33, 32), settings(ruler=Exact(1, 32))).ruler == "1 1/32"


@given(sizes, rulers)
def test_measures_are_near_and_say_which_way(x: Exact, own: Settings) -> None:
    size = measured_size(x, own)
    mark = parse_size(size.ruler)[0] * INCH_PER[own.units]
    assert abs(x - mark) <= MEASURED[own.units] / 2
    assert size.shown.startswith("scant ") == (x < mark)
    assert size.shown.startswith("generous ") == (x > mark)
    assert parse_size(size.shown.removeprefix("scant ").removeprefix("generous ")) == parse_size(size.ruler)


def test_extent() -> None:
    extent = measured_extent(Exact(13, 2), 9 - R2 / 4, INCHES)
    assert (extent.width.shown, extent.height.shown) == ("6½", "generous 8⅝")


# ── sizes that were set ──


def test_given_sizes_are_not_rounded() -> None:
    assert given_size(Exact(3, 16), INCHES).shown == "³⁄₁₆"
    assert given_size(Exact(1, 4), INCHES).shown == "¼"
    assert given_size(Exact(3, 4) * CM, CENTIMETRES).shown == "0.75"
    assert given_size(Exact(1, 4), CENTIMETRES).shown == "0.635"
    # of another system of units, where that alone has a short number
    assert given_size(Exact(3, 4) * CM, INCHES).shown == "7.5\u00a0mm"
    assert given_size(CM * 110, INCHES).shown == "110\u00a0cm"
    assert given_size(Exact(5, 16), CENTIMETRES).shown == "⁵⁄₁₆\u00a0in"
    assert with_unit(given_size(Exact(5, 16), CENTIMETRES).shown, "cm") == "⁵⁄₁₆\u00a0in"
    assert given_size(Exact(1, 3) * CM, CENTIMETRES).shown == "generous 0.3"
    assert given_size(R2 / 4, INCHES).shown == "scant ⅜"


def test_written_sizes_are_not_rounded_unless_nobody_can_have_written_them() -> None:
    assert written_size(Exact(5, 4) * 5 * CM, CENTIMETRES).shown == "6.25"
    assert written_size(Exact(11, 5), INCHES).shown == "2⅕"
    assert written_size(Exact(7, 3), INCHES).shown == "2⅜" and cut_size(Exact(7, 3), INCHES).shown == "2⅜"
    assert written_size(Exact(7, 3), INCHES, measured=True).shown == "generous 2\u202f⁵⁄₁₆"
    assert written_size(R2, INCHES, measured=True).shown == "scant 1\u202f⁷⁄₁₆"


def test_what_there_is_at_least_is_rounded_down() -> None:
    assert least_size(22 * R2, INCHES).shown == "31"
    assert least_size(Exact(63, 16), INCHES).shown == "3⅞"


def test_units() -> None:
    assert with_unit("6½ by 9", "inch") == "6½ by 9\u00a0in"
    assert with_unit("16.5", "cm") == "16.5\u00a0cm"
    assert with_unit("8", "mm") == "8\u00a0mm"


# ── drawing ──


@given(numbers)
def test_drawn(x: Exact) -> None:
    assert drawn(x) == pytest.approx(float(x), abs=5.1e-5)
    assert drawn_point(Vector(x, -x)) == (drawn(x), drawn(-x))


def test_no_negative_zero() -> None:
    p = Vector(Exact(-1, 10**6), Exact(0))
    for value in (*drawn_point(p), drawn(p.x), drawn(-1e-9), drawn(-0.0), cut_size(-p.x * 0, INCHES).value):
        assert math.copysign(1, value) == 1
