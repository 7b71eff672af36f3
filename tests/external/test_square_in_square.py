"""A square set on its point inside a square, corners cut once from squares."""

from __future__ import annotations

import pytest
from external.harness import TRIANGLES, cuts, number, planned, refused, size, words
from external.rows import row, rows
from piecewright.exact import Exact

# `centred`: a corner rounded up to the ruler is sewn with its middle on the middle of the edge
BODY = (
    TRIANGLES
    + """
block diamond-in-square (heart, corner)
    square heart of dusk
    join long-edge of half(corner, sand) on left and right{how}
    join long-edge of half(corner, sand) on top and bottom{how}
    turn 45 right
make 1 of diamond-in-square({centre}, {corner})
"""
)


@row("SIS-00", "derived here (sympy/fractions)")
@pytest.mark.parametrize("seam", ["1/4", "1/2"])
@pytest.mark.parametrize("outer", ["4", "6", "8 1/2"])
def test_exact_sizes_for_an_outer_square(outer: str, seam: str) -> None:
    plan = planned(
        BODY.format(
            centre=f"diagonal({outer}) / 2 + 2 * seam", corner=f"{outer} / 2 + 2 * seam + diagonal(seam)", how=""
        ),
        seam=seam,
    )
    finished = [Exact.parse(length) for length in size(plan, "diamond-in-square", finished=True)]
    assert finished == [number(outer)] * 2
    assert sum(cuts(plan, "sand").values()) == 2  # two squares, cut once, are the four corners
    assert sum(cuts(plan, "dusk").values()) == 1


@rows(
    ("centre", "corner"),
    ("SIS-c35", "S31b lesson 5", "3 1/2", "3 3/8"),
    ("SIS-c4", "S32 2000", "4", "3 3/4"),
    ("SIS-c6", "S89 class forum", "6", "5 1/8"),
)
def test_printed_corners(centre: str, corner: str) -> None:
    plan = planned(BODY.format(centre=f"{centre} + 1/2", corner=corner, how=", centred"))
    width, height = (float(Exact.parse(length)) for length in size(plan, "diamond-in-square", finished=True))
    exact = float(number(centre)) * 2**0.5
    assert width == pytest.approx(height, abs=1e-9)
    assert exact <= width <= exact + 1 / 8
    assert cuts(plan, "sand") == {(str(number(corner)),) * 2: 2}


def test_the_printed_rule_fits_without_help_where_it_is_near_enough() -> None:
    planned(BODY.format(centre="6 1/2", corner="5 1/8", how=""))


@row("SIS-BAD", "S33a forum 2011")
def test_corners_of_4_03_do_not_reach_round_a_centre_of_5() -> None:
    found = refused(BODY.format(centre="5 1/2", corner="4.03", how=""))
    assert found.code.startswith("E3")
    assert "about 0.5078" in words(found)  # √2 times what the corner is short
    planned(BODY.format(centre="5 1/2", corner="diagonal(5) / 2 + 2 * seam + diagonal(seam)", how=""))
    exact = Exact(5) * Exact.root(2) / 2 + (2 + Exact.root(2)) / 4
    assert float(exact) == pytest.approx(4.389087, abs=1e-6)
