"""Settings on point, whole quilts from their text: side and corner triangles, counts and sizes; block diagonals."""

from __future__ import annotations

import pytest
from external.harness import TRIANGLES, cuts, number, planned, refused, sewn, size, words
from external.rows import row, rows
from piecewright.exact import Exact
from piecewright.plan.model import Plan

ROOT_2 = Exact.root(2)
EIGHTH = Exact(1, 8)

SIDE = (
    TRIANGLES
    + """
block side
    take quarter({square}, sand)
    expect left {block}{within}, finished
    expect right {block}{within}, finished
make 4 of side
"""
)
CORNER = (
    TRIANGLES
    + """
block corner
    take half({square}, sand)
    expect long-edge {block}{within}, finished
make 2 of corner
"""
)
SETTING = """
quilt setting
    lay {across} by {down} on point
        | square {block} + 2 * seam of dusk
    fill sides of sand
    fill corners of clay
"""
EXACT_SIDE = "diagonal({block}) + 2 * seam + 2 * diagonal(seam)"
EXACT_CORNER = "diagonal({block}) / 2 + 2 * seam + diagonal(seam)"


def up(length: float) -> Exact:
    """The next eighth of an inch."""
    return Exact(-int(-length * 8 // 1), 8)


@row("OP-00", "derived here (sympy/fractions)")
@row("OP-00c", "derived here (sympy/fractions)")
@pytest.mark.parametrize("seam", ["1/4", "3/8"])
@pytest.mark.parametrize("block", ["4", "6", "9 1/2", "12"])
def test_exact_setting_squares(block: str, seam: str) -> None:
    planned(SIDE.format(square=EXACT_SIDE.format(block=block), block=block, within=""), seam=seam)
    planned(CORNER.format(square=EXACT_CORNER.format(block=block), block=block, within=""), seam=seam)


@rows(
    ("block", "side", "corner"),
    ("OP-f04", "rule OP-01/02 applied here", "4", "7", "3 3/4"),
    ("OP-f05", "S05 chart", "5", "8 3/8", "4 1/2"),
    ("OP-f06", "S05 chart", "6", "9 3/4", "5 1/8"),
    ("OP-f07", "S05 chart", "7", "11 1/4", "5 7/8"),
    ("OP-f08", "S05 chart", "8", "12 5/8", "6 5/8"),
    ("OP-f09", "S05 chart", "9", "14", "7 1/4"),
    ("OP-f10", "S05 chart", "10", "15 1/2", "8"),
    ("OP-f11", "S05 chart", "11", "16 7/8", "8 3/4"),
    ("OP-f12", "S05 chart", "12", "18 1/4", "9 3/8"),
    ("OP-f14", "S05 chart", "14", "21 1/8", "10 7/8"),
    ("OP-f16", "S05 chart", "16", "23 7/8", "12 1/4"),
    ("OP-f17", "rule OP-01/02 applied here", "17", "25 3/8", "13"),
    ("OP-f18", "rule OP-01/02 applied here", "18", "26 3/4", "13 5/8"),
    ("OP-01", "S05; S19; S20; S90", "13", "19 3/4", "10 1/8"),
    ("OP-02", "S05; S19; S20; S90", "15", "22 1/2", "11 1/2"),
    ("OP-06alt", "S19 2014; S03 bed quilt 2014", "6", "9 3/4", "5 1/8"),
    ("OP-12corner", "S06; S05; S03 2014", "12", "18 1/4", "9 3/8"),
)
def test_printed_setting_squares(block: str, side: str, corner: str) -> None:
    """A whole quilt cuts the printed squares, and finishes at the exact size. The trade's add-on comes first, then up
    to the eighth, which for some blocks is an eighth more than the exact square rounded up."""
    plan = planned(SETTING.format(across=2, down=3, block=block))
    assert printed(plan, "sand") == {side: 2}
    assert printed(plan, "clay") == {corner: 2}
    finished = number(block)
    assert [Exact.parse(length) for length in size(plan, "setting", finished=True)] == [
        finished * ROOT_2 * 2, finished * ROOT_2 * 3
    ]  # fmt: skip
    assert number(side) == up(1.414 * float(finished) + 1.25)
    assert number(corner) == up(float(finished) / 1.414 + 0.875)

    # a triangle of the printed square reaches round the block: 1/8 more makes a corner √2/8 too long
    planned(SIDE.format(square=side, block=block, within=" within 1/8"))
    planned(CORNER.format(square=corner, block=block, within=" within 3/16"))
    ours = planned(SIDE.format(square=EXACT_SIDE.format(block=block), block=block, within=""))
    assert number(ours.cuts[0].width.ruler) in (number(side), number(side) - EIGHTH)
    ours = planned(CORNER.format(square=EXACT_CORNER.format(block=block), block=block, within=""))
    assert number(ours.cuts[0].width.ruler) in (number(corner), number(corner) - EIGHTH)


def printed(plan: Plan, fabric: str) -> dict[str, int]:
    """The squares of a fabric as the cut list prints them."""
    found = [cut for cut in plan.cuts if cut.fabric == fabric]
    assert all(cut.width == cut.height for cut in found)
    return {cut.width.ruler: cut.count for cut in found}


@row("OP-05under", "S22")
def test_squares_rounded_down_do_not_reach_round_a_block_of_5() -> None:
    for body, square, exact, short in (
        (SIDE, "8 1/4", EXACT_SIDE, (5 * ROOT_2 + (1 + ROOT_2) / 2 - Exact(33, 4)) / ROOT_2),
        (CORNER, "4 3/8", EXACT_CORNER, 5 - (Exact(35, 8) - (2 + ROOT_2) / 4) * ROOT_2),
    ):
        body = body.replace("    expect right {block}{within}, finished\n", "")
        found = refused(body.format(square=square, block="5", within=""))
        assert found.code.startswith("E4")
        assert f"about {float(short):.4f}" in words(found)
        # what it falls short by, between the two tolerances
        near = round(float(short), 4)
        planned(body.format(square=square, block="5", within=f" within {near + 0.0001:.4f}"))
        refused(body.format(square=square, block="5", within=f" within {near - 0.0001:.4f}"))
        planned(body.format(square=exact.format(block="5"), block="5", within=""))


@row("OP-corner2", "S11b 2004")
def test_the_other_add_on_leaves_a_float() -> None:
    plan = planned(
        TRIANGLES
        + """
block corner (size 6)
    take half(0.707 * size + 2, sand)
    expect long-edge size + 1 5/8 within 1/64, finished
make 2 of corner
"""
    )
    assert float(Exact.parse(plan.cuts[0].width.exact)) == pytest.approx(6.242)
    assert number(plan.cuts[0].width.ruler) > number("5 1/8")


@rows(
    ("across", "down", "blocks", "sides"),
    ("OP-cnt-2x2", "derived here (sympy/fractions)", 2, 2, 5, 4),
    ("OP-cnt-3x3", "S22 (8 sides from 2 squares)", 3, 3, 13, 8),
    ("OP-cnt-6x8", "derived here (sympy/fractions)", 6, 8, 83, 24),
    ("OP-size", "derived here (sympy/fractions)", 9, 10, 162, 34),
)
def test_whole_settings_sewn_in_diagonal_rows(across: int, down: int, blocks: int, sides: int) -> None:
    plan = planned(SETTING.format(across=across, down=down, block="6"))
    width, height = (Exact.parse(length) for length in size(plan, "setting", finished=True))
    assert (width, height) == (6 * across * ROOT_2, 6 * down * ROOT_2)
    assert cuts(plan, "dusk") == {("13/2", "13/2"): blocks}
    assert printed(plan, "sand") == {"9 3/4": -(-sides // 4)}
    assert printed(plan, "clay") == {"5 1/8": 2}
    whole = sewn(SETTING.format(across=across, down=down, block="6"), "setting")
    assert sum(patch.fabric == "sand" for patch in whole.patches) == sides
    assert sum(patch.fabric == "clay" for patch in whole.patches) == 4
    if (across, down) == (9, 10):
        assert (round(float(width), 4), round(float(height), 4)) == (76.3675, 84.8528)
        raw = (Exact.parse(length) for length in size(plan, "setting"))
        assert tuple(round(float(length), 2) for length in raw) == (76.87, 85.35)


@row("OP-diag", "S07; S13 (x 1.41)")
@pytest.mark.parametrize("block", ["3", "9 1/2"])
def test_the_diagonal_of_a_block_is_root_two_times_its_side(block: str) -> None:
    planned(TRIANGLES + f"block halved\n    take half({block}, sand)\n    expect long-edge diagonal({block})\n")


@rows(
    ("block", "diagonal"),
    ("OP-diag-5", "S07 table 2002", "5", "7 1/8"),
    ("OP-diag-6", "S07 table 2002", "6", "8 1/2"),
    ("OP-diag-7", "S07 table 2002", "7", "9 7/8"),
    ("OP-diag-8", "S07 table 2002", "8", "11 3/8"),
    ("OP-diag-9", "S07 table 2002", "9", "12 3/4"),
    ("OP-diag-10", "S07 table 2002", "10", "14 1/8"),
    ("OP-diag-12", "S07 table 2002", "12", "17"),
    ("OP-diag-14", "S07 table 2002", "14", "19 3/4"),
)
def test_printed_block_diagonals_to_the_nearest_eighth(block: str, diagonal: str) -> None:
    body = TRIANGLES + f"block halved\n    take half({block}, sand)\n    expect long-edge {diagonal}{{within}}\n"
    planned(body.format(within=" within 1/16"))
    assert refused(body.format(within="")).code.startswith("E4")  # √2 is never an eighth
