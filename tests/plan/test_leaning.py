"""Pieces cut at an angle: how many a strip gives, and how the cutting is told."""

from __future__ import annotations

from dataclasses import replace

import pytest
from piecewright.exact import Exact
from piecewright.kernel.slanted import diamond_side, slant, triangle_base
from piecewright.plan.leaning import per_strip
from plan import builds
from plan.told import row, texts, told

MARK = Exact(1, 8)


def used(shape: str, width: Exact, height: Exact, angle: int, count: int) -> Exact:
    """How far along the strip so many pieces reach, laid one by one: each begins at the slanted cut that ended the one
    before. `low` and `high` are where that cut meets the lower and the upper edge."""
    run = slant(height, angle)
    low, high = Exact(0), run
    for n in range(count):
        if shape in ("diamond", "parallelogram"):
            side = diamond_side(height, angle) if shape == "diamond" else width
            low, high = low + side, high + side
            continue
        long = triangle_base(height, angle) if shape == "triangle" else width
        # the long side lies along the lower edge and the upper one by turns
        below, above = (long, long - 2 * run) if n % 2 == 0 else (long - 2 * run, long)
        low, high = low + below, high + above
    return max(low, high)


@pytest.mark.parametrize(
    ("shape", "width", "height", "angle"),
    [
        ("diamond", "5/2", "5/2", 45),
        ("diamond", "5/2", "5/2", 60),
        ("diamond", "3", "3", 30),
        ("parallelogram", "6", "5/2", 45),
        ("parallelogram", "5", "4", 60),
        ("triangle", "35/8", "15/4", 60),
        ("triangle", "5", "5/2", 45),
        ("trapezoid", "27/4", "7/2", 60),
        ("trapezoid", "8", "2", 45),
    ],
)
@pytest.mark.parametrize("usable", ["40", "42", "25/2"])
def test_as_many_as_the_strip_holds_and_no_more(shape: str, width: str, height: str, angle: int, usable: str) -> None:
    length = Exact.parse(usable)
    count, one = per_strip(row(shape, width, height, angle=angle), length, MARK, False)
    sides = Exact.parse(width), Exact.parse(height)
    assert count >= 1
    assert used(shape, *sides, angle, 1) == one <= length
    assert used(shape, *sides, angle, count) <= length < used(shape, *sides, angle, count + 1)


def test_on_a_directional_fabric_nothing_is_turned() -> None:
    assert per_strip(row("triangle", "5", "5/2", angle=45), Exact(40), MARK, False)[0] == 15
    assert per_strip(row("triangle", "5", "5/2", angle=45), Exact(40), MARK, True)[0] == 8
    assert per_strip(row("trapezoid", "8", "2", angle=45), Exact(40), MARK, True)[0] == 5
    leaning = row("parallelogram", "6", "5/2", angle=45)
    assert per_strip(leaning, Exact(40), MARK, True) == per_strip(leaning, Exact(40), MARK, False)


def test_what_is_cut_is_what_the_ruler_cuts() -> None:
    """A height between two marks is cut at the next, and the triangle's base grows with it."""
    exact = per_strip(row("triangle", "4", "3", angle=60), Exact(40), MARK, False)
    over = per_strip(row("triangle", "4", "3 + 1/100*sqrt(2)", angle=60), Exact(40), MARK, False)
    assert over[1] == triangle_base(Exact(25, 8), 60) > exact[1]


def test_diamonds_name_the_line_of_the_ruler_and_measure_square_to_the_cut() -> None:
    assert texts(row("diamond", "5/2", "5/2", 16, angle=45)) == [
        "Cut 1 strip 2½ by the width; from it cut 10 diamonds.",
        "Cut 1 strip 2½ by the width; from it cut 1 length of 23¾ for 6 diamonds.",
        "Diamonds 2½ wide at 45°: lay the ruler's 45° line on the long edge and cut off the end;"
        " then cut alongside every 2½, measured square to the cut.",
    ]


def test_parallelograms_are_measured_along_the_strip_and_reversed_ones_cut_from_the_wrong_side() -> None:
    assert texts(row("parallelogram", "6", "5/2", 6, angle=45)) == [
        "Cut 1 strip 2½ by the width; from it cut 6 parallelograms.",
        "Parallelograms 6 × 2½ at 45°: lay the ruler's 45° line on the long edge and cut off the end; then cut"
        " alongside every 6, measured along the strip.",
    ]
    *_, how = texts(row("parallelogram", "6", "5/2", angle=45, backward=True))
    assert how.startswith("Reversed parallelogram 6 × 2½ at 45°: lay each strip wrong side up.")


def test_triangles_and_trapezoids_are_turned_by_turns() -> None:
    *strips, how = texts(row("triangle", "35/8", "15/4", 40, angle=60))
    assert sorted(strips, key=len) == [
        "Cut 2 strips 3¾ by the width; from each cut 17 triangles.",
        "Cut 1 strip 3¾ by the width; from it cut 1 length of 15¼ for 6 triangles.",
    ]
    assert "lay the same line the other way from the point" in how
    *_, how = texts(row("trapezoid", "27/4", "7/2", 3, angle=60))
    assert "measure 6¾ along the edge with the sharp corner" in how
    *_, how = texts(row("trapezoid", "27/4", "7/2", 3, angle=60), fabric=replace(builds.DUSK, directional=True))
    assert how.endswith("Cut all of them the same way up.")


def test_each_shape_has_strips_of_its_own() -> None:
    _, strips = told(row("diamond", "5/2", "5/2", 9, angle=45), row("diamond", "5/2", "5/2", 12, angle=60))
    assert sorted(strip.pieces for strip in strips) == [((0, 9),), ((1, 12),)]


def test_a_piece_longer_than_the_cloth_is_one_piece_and_not_joined() -> None:
    plan, strips = told(row("parallelogram", "50", "5/2", 2, angle=45), row("parallelogram", "20", "5/2", 1, angle=45))
    assert plan.missing == ((0, 2),)
    assert sum(count for strip in strips for _, count in strip.pieces) == 1
