"""Sewn in layers first and cut afterwards: two, four and eight at a time, geese without waste, stitch and flip.

The rows of these methods that give the size of a square cut first are checked beside the triangles; here the methods
are carried out as they are told.
"""

from __future__ import annotations

import pytest
from external.harness import cuts, number, patch_areas, planned, sewn, size, unit
from external.rows import row
from piecewright.exact import Exact
from piecewright.kernel.places import edge
from piecewright.kernel.points import points_on

ROOT_2 = Exact.root(2)


@row("HST-2AT", "S81; S16; S52 (geometry re-derived)")
@pytest.mark.parametrize("seam", ["1/8", "1/4", "1/2", "6 mm"])
@pytest.mark.parametrize("finished", ["1", "2 1/2", "4"])
def test_two_at_a_time_take_the_square_of_two_triangles(finished: str, seam: str) -> None:
    plan = planned(
        f"""
block pair (size {finished})
    square size + 2 * seam + diagonal(seam) of sand
    place square size + 2 * seam + diagonal(seam) of dusk
    stitch beside diagonal
    cut once on diagonal, press toward dusk
    expect 2 copies
    expect size by size, finished
""",
        seam=seam,
    )
    assert unit(plan, "pair").copies == 2


FOUR_GEESE = """
block geese
    square 5 1/4 of dusk
    place square {small} of sand at top-left and bottom-right
    stitch beside diagonal
    cut once on diagonal, press toward sand
    place square {small} of sand at bottom-left
    stitch beside rising-diagonal
    cut once on rising-diagonal, press toward sand
    trim to 4 1/2 by 2 1/2, point 1/4 from top
    expect 4 copies
"""


@row("FG-4ATb-2_1-2", "S11 2004")
def test_a_small_square_an_eighth_larger_is_trimmed_to_the_same_goose() -> None:
    """The two printed sizes of the small square differ by 1/8; the trim takes it off, and the point keeps its seam."""
    plan = planned(FOUR_GEESE.format(small="3"))
    assert cuts(plan, "dusk") == {("21/4", "21/4"): 1}
    assert cuts(plan, "sand") == {("3", "3"): 4}
    assert size(plan, "geese") == ("9/2", "5/2")
    for small in ("3", "2 7/8"):
        goose = sewn(FOUR_GEESE.format(small=small), "geese")
        tips = points_on(goose, edge(goose, "top"))
        assert [tip.beyond for tip in tips if tip.fabric == "dusk"] == [0]


@pytest.mark.parametrize("finished", ["1 1/2", "3", "4"])
def test_eight_at_a_time_leave_half_the_square_less_the_seams(finished: str) -> None:
    """u = c/2 - √2·s, which gives the printed c = 2f + 1 3/4 a little to trim (derived)."""
    square = number(finished) * 2 + Exact(7, 4)
    eighth = sewn(
        f"""
block eight (size {finished})
    square 2 * size + 1 3/4 of sand
    place square 2 * size + 1 3/4 of dusk
    stitch beside diagonal and rising-diagonal
    cut from top-middle to bottom-middle
    cut from left-middle to right-middle
    cut once on rising-diagonal
    expect 8 copies
""",
        "eight",
    )
    side = eighth.corners[1].finished - eighth.corners[0].finished
    assert side.squared() == (square / 2 - ROOT_2 / 4 - Exact(1, 2)) * (square / 2 - ROOT_2 / 4 - Exact(1, 2))


def test_stitch_and_flip_gives_the_goose_of_three_triangles() -> None:
    """The same fabrics are seen in the same places."""
    flipped = sewn(
        """
block flipped
    rectangle 4 1/2 by 2 1/2 of dusk
    flip square 2 1/2 of sand at top-left
    flip square 2 1/2 of sand at top-right
""",
        "flipped",
    )
    cut_first = sewn(
        """
unit body
    square 5 1/4 of dusk
    cut twice on diagonal

unit wing
    square 2 7/8 of sand
    cut once on diagonal

block pieced
    take body
    join long-edge of wing on left
    join long-edge of wing on right
    trim to 4 1/2 by 2 1/2, point 1/4 from top
""",
        "pieced",
    )
    assert patch_areas(flipped) == patch_areas(cut_first)
