"""Pieces cut at an angle: how many a strip gives, and how the cutting is told."""

from __future__ import annotations

from dataclasses import replace

import pytest
from piecewright.exact import Exact
from piecewright.kernel.build import Build
from piecewright.kernel.slanted import diamond_side, slant, triangle_base
from piecewright.plan.cutlist import CutRow
from piecewright.plan.leaning import per_strip
from piecewright.plan.strips import strip_plans, strips
from plan import builds

BUILD = builds.build(())
MARK = Exact(1, 8)


def row(shape: str, width: str, height: str, angle: int, count: int = 1, reversed_: bool = False) -> CutRow:
    return CutRow(
        fabric="dusk",
        shape=shape,
        width=Exact.parse(width),
        height=Exact.parse(height),
        reversed=reversed_,
        units=(("u", count),),
        angle=angle,
    )


def texts(*rows: CutRow, build: Build = BUILD) -> list[str]:
    return [plan.text for plan in strip_plans(build, rows, strips(build, rows))]


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
    count, one = per_strip(row(shape, width, height, angle), length, MARK, False)
    sides = Exact.parse(width), Exact.parse(height)
    assert count >= 1
    assert used(shape, *sides, angle, 1) == one <= length
    assert used(shape, *sides, angle, count) <= length < used(shape, *sides, angle, count + 1)


def test_on_a_directional_fabric_nothing_is_turned() -> None:
    assert per_strip(row("triangle", "5", "5/2", 45), Exact(40), MARK, False)[0] == 15
    assert per_strip(row("triangle", "5", "5/2", 45), Exact(40), MARK, True)[0] == 8
    assert per_strip(row("trapezoid", "8", "2", 45), Exact(40), MARK, True)[0] == 5
    leaning = row("parallelogram", "6", "5/2", 45)
    assert per_strip(leaning, Exact(40), MARK, True) == per_strip(leaning, Exact(40), MARK, False)


def test_what_is_cut_is_what_the_ruler_cuts() -> None:
    """A height between two marks is cut at the next, and the triangle's base grows with it."""
    exact = per_strip(row("triangle", "4", "3", 60), Exact(40), MARK, False)
    over = per_strip(row("triangle", "4", "3 + 1/100*sqrt(2)", 60), Exact(40), MARK, False)
    assert over[1] == triangle_base(Exact(25, 8), 60) > exact[1]


def test_diamonds_name_the_line_of_the_ruler_and_measure_square_to_the_cut() -> None:
    assert texts(row("diamond", "5/2", "5/2", 45, 16)) == [
        "From dusk cut 2 strips 2½ by the width. Lay the ruler's 45° line on the long edge and cut off the end;"
        " then cut alongside every 2½, measured square to the cut: 16 diamonds, 10 from a strip."
    ]


def test_parallelograms_are_measured_along_the_strip_and_reversed_ones_cut_from_the_wrong_side() -> None:
    assert texts(row("parallelogram", "6", "5/2", 45, 6)) == [
        "From dusk cut 1 strip 2½ by the width. Lay the ruler's 45° line on the long edge and cut off the end; then cut"
        " alongside every 6, measured along the strip: 6 parallelograms."
    ]
    (text,) = texts(row("parallelogram", "6", "5/2", 45, 1, reversed_=True))
    assert "Lay each strip wrong side up." in text and text.endswith("1 reversed parallelogram.")


def test_triangles_and_trapezoids_are_turned_by_turns() -> None:
    (text,) = texts(row("triangle", "35/8", "15/4", 60, 40))
    assert text.startswith("From dusk cut 3 strips 3¾ by the width. Lay the ruler's 60° line")
    assert "40 triangles, 17 from a strip." in text
    (text,) = texts(row("trapezoid", "27/4", "7/2", 60, 3))
    assert "measure 6¾ along the edge with the sharp corner" in text
    directional = replace(BUILD, fabrics=(replace(builds.DUSK, directional=True),))
    (text,) = texts(row("trapezoid", "27/4", "7/2", 60, 3), build=directional)
    assert text.endswith("Cut all of them the same way up.")


def test_each_shape_has_strips_of_its_own() -> None:
    rows = (row("diamond", "5/2", "5/2", 45, 4), row("diamond", "5/2", "5/2", 60, 4))
    plans = strip_plans(BUILD, rows, strips(BUILD, rows))
    assert [plan.strips for plan in plans] == [1, 1]
    assert [plan.pieces for plan in plans] == [((0, 4),), ((1, 4),)]


def test_a_piece_longer_than_the_cloth_is_cut_from_joined_strips() -> None:
    (text,) = texts(row("parallelogram", "50", "5/2", 45, 2))
    assert text.startswith("From dusk cut 4 strips 2½ by the width. Each piece is cut from strips joined end to end")
