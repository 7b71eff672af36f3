"""Quarter-square triangles, hourglasses, and flying geese from triangles.

No-waste geese are cut from the same squares as geese from triangles (row FG-00), so their printed squares are
checked with the triangles; hourglasses likewise.
"""

from __future__ import annotations

import pytest
from external.harness import TRIANGLES, cuts, number, planned, refused, size, unit, words
from external.rows import row, rows
from piecewright.exact import Exact

ROOT_2 = Exact.root(2)

LONG_SIDE = (
    TRIANGLES
    + """
block side
    take quarter({square}, sand)
    expect bottom {finished}{within}, finished
make 4 of side
"""
)

HOURGLASS = (
    TRIANGLES
    + """
unit pair (size)
    take quarter(size, sand)
    join left of quarter(size, dusk) on right, press toward dusk

block hourglass (size)
    take pair(size)
    join long-edge of pair(size) on long-edge, press open
make 2 of hourglass({square})
"""
)

GOOSE = (
    TRIANGLES
    + """
unit goose (body, wing)
    take quarter(body, dusk)
    join long-edge of half(wing, sand) on left, press toward half
    join long-edge of half(wing, sand) on right, press toward half
make 4 of goose({body}, {wing})
"""
)


@rows(
    ("finished", "square"),
    ("QST-f3", "S16; S03 pinwheel star", "3", "4 1/4"),
    ("QST-f4", "S53; S54; S08; S58", "4", "5 1/4"),
    ("QST-f8", "S08", "8", "9 1/4"),
    ("QST-00b", "S13; S16; S69; S33b; S80", "6", "7 1/4"),
)
def test_printed_squares(finished: str, square: str) -> None:
    plan = planned(LONG_SIDE.format(square=square, finished=finished, within=" within 1/16"))
    assert cuts(plan) == {(str(number(square)),) * 2: 1}
    exact = planned(
        LONG_SIDE.format(square=f"{finished} + 2 * seam + 2 * diagonal(seam)", finished=finished, within="")
    )
    assert exact.cuts[0].width.ruler == square
    assert Exact.parse(exact.cuts[0].width.exact) == number(finished) + Exact(1, 2) + ROOT_2 / 2


def test_the_rule_is_rounded_up_by_0_0429() -> None:
    found = refused(LONG_SIDE.format(square="5 1/4", finished="4", within=""))
    assert found.code.startswith("E4") and "about 0.0429" in words(found)
    planned(LONG_SIDE.format(square="5 1/4", finished="4", within=" within 0.0429"))
    refused(LONG_SIDE.format(square="5 1/4", finished="4", within=" within 0.0428"))


@row("QST-316", "S68 2012")
def test_the_published_5_3_16_is_rounded_down() -> None:
    planned(LONG_SIDE.format(square="5 3/16", finished="4", within=" within 1/32"))
    found = refused(LONG_SIDE.format(square="5 3/16", finished="4", within=""))
    assert found.code.startswith("E4")
    assert "about 0.0196" in words(found) and "less" in words(found)


@row("HG-02", "S03 Ohio Star block 2017")
def test_two_squares_give_two_hourglasses() -> None:
    plan = planned(HOURGLASS.format(square="4 3/4"))
    assert cuts(plan, "sand") == cuts(plan, "dusk") == {("19/4", "19/4"): 1}
    assert size(plan, "hourglass") == ("19/4 - 1/2*sqrt(2)",) * 2
    assert abs(float(Exact.parse(size(plan, "hourglass", finished=True)[0])) - 3.5) < 1 / 16
    planned(HOURGLASS.format(square="4 3/4").replace("press open", "press open\n    trim to 4 by 4, seam on diagonal"))


@row("HG-03", "S52 Ohio star variation")
def test_an_eighth_more_leaves_room_to_trim_an_hourglass() -> None:
    tight = planned(HOURGLASS.format(square="5 1/4"))
    roomy = planned(HOURGLASS.format(square="5 3/8"))
    gain = Exact.parse(size(roomy, "hourglass")[0]) - Exact.parse(size(tight, "hourglass")[0])
    assert gain == Exact(1, 8)
    planned(
        HOURGLASS.format(square="5 3/8").replace(
            "press open", "press open\n    trim to 4 1/2 by 4 1/2, seam on diagonal\n    expect 4 by 4, finished"
        )
    )


@row("FG-00", "derived here (sympy/fractions)")
@pytest.mark.parametrize("height", ["1", "1 1/2", "2", "4"])
@pytest.mark.parametrize("seam", ["1/4", "3/8"])
def test_exact_squares_for_geese(height: str, seam: str) -> None:
    body = GOOSE.format(
        body=f"2 * {height} + 2 * seam + 2 * diagonal(seam)", wing=f"{height} + 2 * seam + diagonal(seam)"
    )
    plan = planned(body, seam=seam)
    finished = tuple(Exact.parse(length) for length in size(plan, "goose", finished=True))
    assert finished == (2 * number(height), number(height))


@rows(
    ("across", "body", "wing"),
    ("FG-4AT-8", "S08 table", "8", "9 1/4", "4 7/8"),
    ("FG-4AT-7", "S08 table", "7", "8 1/4", "4 3/8"),
    ("FG-4AT-5", "S08 table", "5", "6 1/4", "3 3/8"),
    ("FG-4AT-4", "S08 table; S10", "4", "5 1/4", "2 7/8"),
    ("FG-4AT-2", "S08 table", "2", "3 1/4", "1 7/8"),
)
def test_printed_squares_for_four_geese(across: str, body: str, wing: str) -> None:
    plan = planned(GOOSE.format(body=body, wing=wing))
    assert cuts(plan, "dusk") == {(str(number(body)),) * 2: 1}
    assert cuts(plan, "sand") == {(str(number(wing)),) * 2: 4}
    width, height = (float(Exact.parse(length)) for length in size(plan, "goose", finished=True))
    # 9 1/4 itself is 0.0429 over the exact square, so the goose is judged within the rule's own 1/16, not 1/32
    assert width == pytest.approx(float(number(across)), abs=1 / 16)
    assert height == pytest.approx(float(number(across)) / 2, abs=1 / 16)
    exact = planned(
        GOOSE.format(body=f"{across} + 2 * seam + 2 * diagonal(seam)", wing=f"{across} / 2 + 2 * seam + diagonal(seam)")
    )
    assert {cut.width.ruler for cut in exact.cuts} == {body, wing}


@row("FG-odd", "S10; S09")
def test_a_goose_is_twice_as_wide_as_high() -> None:
    plan = planned(GOOSE.format(body="2 * 3 + 2 * seam + 2 * diagonal(seam)", wing="3 + 2 * seam + diagonal(seam)"))
    assert size(plan, "goose", finished=True) == ("6", "3")
    assert unit(plan, "goose").makes == 4
    wrong = GOOSE.format(body="6 + 2 * seam + 2 * diagonal(seam)", wing="2 + 2 * seam + diagonal(seam)")
    found = refused(wrong)  # wings of another height do not fit
    assert found.code.startswith("E3") and "about 1.4142" in words(found)
