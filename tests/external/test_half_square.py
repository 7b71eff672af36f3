"""Half-square triangles: from triangles, and by the layered methods as far as the same squares go.

Squares layered, sewn beside a diagonal and cut give the same units as the same squares cut first and the
triangles sewn (the row HST-2AT says so); so a printed square size is checked by cutting first. Four at a time
is two quarters joined on the long edge, eight at a time the same in each quarter of the square.
"""

from __future__ import annotations

import pytest
from external.harness import TRIANGLES, cuts, number, planned, refused, size, unit, words
from external.rows import row, rows
from piecewright.exact import Exact

ROOT_2 = Exact.root(2)
EARS = ROOT_2 / 4  # what two triangles lose across their long edge: √2 seams of 1/4 in


@row("HST-00", "derived here (sympy/fractions)")
@pytest.mark.parametrize("seam", ["1/8", "1/4", "1/2", "6 mm"])
@pytest.mark.parametrize("finished", ["1", "2 1/2", "4"])
def test_the_exact_square_for_a_half_square_triangle(finished: str, seam: str) -> None:
    planned(
        TRIANGLES
        + f"""
block exact (size {finished})
    cut-size is size + 2 * seam + diagonal(seam)
    take half-square(cut-size, sand, dusk)
    expect size by size, finished
    expect size + 2 * seam by size + 2 * seam
""",
        seam=seam,
    )


@row("HST-00b", "S13 Combs 2002; S16 North Hampshire guild; S31; S81; S80")
def test_the_rule_of_seven_eighths_is_rounded_up_by_0_0214() -> None:
    body = (
        TRIANGLES
        + """
block ruled (size 3)
    take half-square(size + 7/8, sand, dusk)
    expect size by size{within}, finished
"""
    )
    planned(body.format(within=" within 1/32"))
    found = refused(body.format(within=""))
    assert found.code.startswith("E4") and "about 0.0214" in words(found)
    plan = planned(body.format(within=" within 1/32"))
    excess = Exact.parse(size(plan, "ruled", finished=True)[0]) - 3
    assert str(excess) == "3/8 - 1/4*sqrt(2)"
    assert float(excess) == pytest.approx(0.021447, abs=1e-6)


@rows(
    ("finished", "square"),
    ("HST-f1", "S08 geese table (1 in wing)", "1", "1 7/8"),
    ("HST-f2_1-2", "S08", "2 1/2", "3 3/8"),
    ("HST-f3", "S31; S81; S03 pinwheel star", "3", "3 7/8"),
    ("HST-f3_1-2", "S08", "3 1/2", "4 3/8"),
    ("HST-f4", "S52 guild page; S08", "4", "4 7/8"),
    ("HST-f4_1-2", "S85 (worked by author: 5 3/8)", "4 1/2", "5 3/8"),
    ("HST-f5", "common practice, no source", "5", "5 7/8"),
)
def test_printed_squares(finished: str, square: str) -> None:
    plan = planned(
        TRIANGLES
        + f"""
block printed
    take half-square({square}, sand, dusk)
    expect {finished} by {finished} within 1/32, finished

block exact (size {finished})
    take half-square(size + 2 * seam + diagonal(seam), sand, dusk)
    expect size by size, finished

make 2 of printed
make 2 of exact
"""
    )
    printed = Exact.parse(size(plan, "printed")[0])
    assert printed == number(square) - EARS
    rulers = {cut.width.ruler for cut in plan.cuts}  # the exact square, up to the next eighth, is the printed one
    assert rulers == {square}
    assert cuts(plan, "sand") == {(str(number(square)),) * 2: 1, (str(number(finished) + 1 / Exact(2) + EARS),) * 2: 1}


@row("HST-2AT-over", "S16 guild (adds 1/4)")
@pytest.mark.parametrize(("finished", "square"), [("3", "4 1/8"), ("4", "5"), ("2", "3")])
def test_oversize_squares_trimmed_down(finished: str, square: str) -> None:
    plan = planned(
        TRIANGLES
        + f"""
block over
    take half-square({square}, sand, dusk)
    trim to {finished} + 1/2 by {finished} + 1/2, seam on diagonal
    expect {finished} by {finished}, finished
make 2 of over
"""
    )
    assert cuts(plan, "sand") == {(str(number(square)),) * 2: 1}
    assert cuts(plan, "dusk") == {(str(number(square)),) * 2: 1}


@row("HST-inv", "derived here (sympy/fractions)")
@pytest.mark.parametrize("square", ["2", "4 3/4", "9"])
def test_a_square_gives_a_unit_root_two_seams_smaller(square: str) -> None:
    plan = planned(TRIANGLES + f"make 2 of half-square({square}, sand, dusk)")
    assert Exact.parse(size(plan, "half-square")[0]) == number(square) - EARS


@row("HST-inv-pub", "S03 Ohio Star block, 2017-06-14")
def test_the_published_4_3_8_is_rounded_down() -> None:
    body = (
        TRIANGLES
        + """
block printed
    take half-square(4 3/4, sand, dusk)
    expect 4 3/8 by 4 3/8{within}
make 2 of printed
"""
    )
    planned(body.format(within=" within 1/32"))
    assert "about 0.0214" in words(refused(body.format(within="")))
    assert refused(body.format(within=" within 1/64")).code.startswith("E4")


FOUR = (
    TRIANGLES
    + """
block four-at-a-time (square-cut)
    take quarter(square-cut, sand)
    join long-edge of quarter(square-cut, dusk) on bottom
    turn 45 left
make 4 of four-at-a-time({square})
"""
)


@row("HST-4AT", "derived here (sympy/fractions)")
@pytest.mark.parametrize("finished", ["2", "3", "4 1/2"])
def test_four_at_a_time_exact(finished: str) -> None:
    plan = planned(FOUR.format(square=f"diagonal({finished} + 2 * 1/4) + 1/2"))
    assert Exact.parse(size(plan, "four-at-a-time", finished=True)[0]) == number(finished)
    assert sum(cuts(plan, "sand").values()) == sum(cuts(plan, "dusk").values()) == 1
    assert unit(plan, "quarter").makes == 4


@row("HST-4AT-c5", "derived here (sympy/fractions)")
def test_four_at_a_time_from_5() -> None:
    plan = planned(FOUR.format(square="5"))
    width, height = size(plan, "four-at-a-time")
    assert width == height == "9/4*sqrt(2)"
    assert float(Exact.parse(width)) == pytest.approx(3.181981, abs=1e-6)


EIGHT = """
unit eighth (size, cloth)
    square size of cloth
    cut from top-middle to bottom-middle
    cut from left-middle to right-middle
    cut once on diagonal
    expect 8 copies

block eight-at-a-time
    take eighth({square}, sand)
    join eighth({square}, dusk) on long-edge
    expect {finished} by {finished} within {within}, finished
make 8 of eight-at-a-time
"""


@rows(
    ("square", "finished"),
    ("HST-8AT-f4", "S14", "9 3/4", "4"),
    ("HST-8AT-f5", "S15a", "11 3/4", "5"),
    ("HST-8AT-f1h", "S84", "4 3/4", "1 1/2"),
)
def test_eight_at_a_time(square: str, finished: str) -> None:
    plan = planned(EIGHT.format(square=square, finished=finished, within="1/16"))
    assert cuts(plan) == {(str(number(square)),) * 2: 2}
    assert unit(plan, "eighth").makes in (8, 16)
    assert Exact.parse(size(plan, "eight-at-a-time")[0]) == number(square) / 2 - EARS


@row("HST-8AT-b", "S15b forum tutorial (u unfinished)")
def test_eight_at_a_time_with_room_to_trim() -> None:
    body = EIGHT.format(square="10", finished="4", within="1/4").replace(
        "\nmake", "\n    trim to 4 1/2 by 4 1/2, seam on diagonal\n    expect 4 by 4, finished\nmake"
    )
    planned(body)
    found = refused(EIGHT.format(square="10", finished="4", within="1/16"))  # a quarter over the other rule
    assert "1/16" in words(found)


@row("HST-ear", "S68 2012 (trims 2 7/8 triangle tips at 2 1/2)")
@pytest.mark.parametrize("finished", ["2", "3"])
def test_how_far_the_tips_stand_beyond_the_unit(finished: str) -> None:
    plan = planned(
        TRIANGLES
        + f"""
block exact (size {finished})
    take half-square(size + 2 * seam + diagonal(seam), sand, dusk)
make 2 of exact
"""
    )
    leg = Exact.parse(plan.cuts[0].width.exact)
    side = Exact.parse(size(plan, "exact")[0])
    assert leg - side == EARS
    assert abs(float(leg - side) - 3 / 8) < 1 / 32  # nominal 3/8


@row("HRT-02", "S01 Clements, The Quilter's Bible, David & Charles, 2011 (printed under RECTANGLES)")
@pytest.mark.parametrize("finished", ["2", "3"])
def test_the_published_adds_for_half_rectangles_are_rounded_down(finished: str) -> None:
    """As adds for plain rectangles they are wrong outright; for half rectangles they fall short."""
    body = """
unit half-rectangle (cloth)
    rectangle {f} + 5/8 by 2 * {f} + 1 1/4 of cloth
    cut once on diagonal

block leaf
    take half-rectangle(sand)
    join half-rectangle(dusk) on long-edge
    expect {f} by 2 * {f}{within}, finished
"""
    found = refused(body.format(f=finished, within=""))
    assert found.code.startswith("E4") and "about 0.0295" in words(found)
    planned(body.format(f=finished, within=" within 0.0591"))
    refused(body.format(f=finished, within=" within 0.0590"))
    plain = "block plain\n    rectangle {f} + 5/8 by 2 * {f} + 1 1/4 of sand\n    expect {f} by 2 * {f}, finished\n"
    assert refused(plain.format(f=finished)).code.startswith("E4")
