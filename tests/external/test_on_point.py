"""Settings on point: side and corner triangles, whole settings sewn in diagonal rows, and block diagonals."""

from __future__ import annotations

import pytest
from external.harness import TRIANGLES, cuts, number, planned, refused, size, unit, words
from external.rows import row, rows
from piecewright.exact import Exact

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
    """The trade's squares reach round the block; a square 1/8 too large gives a corner √2/8 too long."""
    sides = planned(SIDE.format(square=side, block=block, within=" within 1/8"))
    corners = planned(CORNER.format(square=corner, block=block, within=" within 3/16"))
    assert cuts(sides) == {(str(number(side)),) * 2: 1}
    assert cuts(corners) == {(str(number(corner)),) * 2: 1}

    finished = number(block)
    exact_side = finished * ROOT_2 + (2 + 2 * ROOT_2) / 4
    exact_corner = finished * ROOT_2 / 2 + (2 + ROOT_2) / 4
    assert exact_side <= number(side) and exact_corner <= number(corner)
    # add-on first, then up to the eighth: the printed square; never less than the exact one rounded up
    assert number(side) == up(1.414 * float(finished) + 1.25)
    assert number(corner) == up(float(finished) / 1.414 + 0.875)
    ours = planned(SIDE.format(square=EXACT_SIDE.format(block=block), block=block, within=""))
    assert number(ours.cuts[0].width.ruler) in (number(side), number(side) - EIGHTH)
    ours = planned(CORNER.format(square=EXACT_CORNER.format(block=block), block=block, within=""))
    assert number(ours.cuts[0].width.ruler) in (number(corner), number(corner) - EIGHTH)


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


def setting(across: int, down: int, finished: str) -> str:
    """`across` by `down` plain blocks on point, sewn in diagonal rows, every triangle at its exact size.

    Count in half block diagonals, x to the right and y down: the wide rows have blocks at (2c, 2r), those between
    at (2c + 1, 2r + 1). A diagonal row has one x + y; along it x - y grows. It lies level here, so the quilt's own
    top edge runs down to the right until the last turn.
    """
    side = f"quarter({EXACT_SIDE.format(block=finished)}, sand)"
    corner = f"half({EXACT_CORNER.format(block=finished)}, sand)"
    right_edge, bottom_edge = 2 * across - 1, 2 * down - 1
    text = [TRIANGLES]
    for u in range(across + down - 1):
        first, last = max(-u, u - bottom_edge + 1), min(u, right_edge - 1 - u)
        text.append(f"unit row-{u}\n    lay {last - first + 1} by 1\n        | square {finished} + 1/2 of dusk")
        at_left, at_bottom = u + first - 1 == -1, u - first + 1 == bottom_edge
        at_right, at_top = u + last + 1 == right_edge, u - last - 1 == -1
        if at_left and at_bottom:
            text.append(f"    join long-edge of {corner} on left")
        else:
            text.append(f"    join {'left' if at_left else 'right'} of {side} on left")
        if at_right and at_top:
            text.append(f"    join long-edge of {corner} on right")
        else:
            text.append(f"    join {'right' if at_top else 'left'} of {side} on right")
        text.append("")
    text.append(f"block setting\n    take row-0\n    join long-edge of {corner} on top")
    text += [f"    join row-{u} on bottom" for u in range(1, across + down - 1)]
    text.append(
        f"    join long-edge of {corner} on bottom\n    turn 45 left\n    expect sand at top\nmake 1 of setting"
    )
    return "\n".join(text)


@rows(
    ("across", "down", "blocks", "sides"),
    ("OP-cnt-2x2", "derived here (sympy/fractions)", 2, 2, 5, 4),
    ("OP-cnt-3x3", "S22 (8 sides from 2 squares)", 3, 3, 13, 8),
    ("OP-cnt-6x8", "derived here (sympy/fractions)", 6, 8, 83, 24),
    ("OP-size", "derived here (sympy/fractions)", 9, 10, 162, 34),
)
def test_whole_settings_sewn_in_diagonal_rows(across: int, down: int, blocks: int, sides: int) -> None:
    plan = planned(setting(across, down, "6"))
    width, height = (Exact.parse(length) for length in size(plan, "setting", finished=True))
    assert (width, height) == (6 * across * ROOT_2, 6 * down * ROOT_2)
    assert cuts(plan, "dusk") == {("13/2", "13/2"): blocks}
    assert unit(plan, "quarter").makes == sides
    squares = cuts(plan, "sand")
    assert squares[(str(6 * ROOT_2 + (1 + ROOT_2) / 2),) * 2] == -(-sides // 4)
    assert squares[(str(3 * ROOT_2 + (2 + ROOT_2) / 4),) * 2] == 2
    if (across, down) == (9, 10):
        assert (round(float(width), 4), round(float(height), 4)) == (76.3675, 84.8528)


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
