"""Borders, with and without cornerstones, and sashes laid as strips between blocks."""

from __future__ import annotations

import pytest
from external.harness import bought, cloth, cuts, planned, refused, size, strips, words
from external.rows import row, rows
from piecewright.exact import Exact

THREE_BORDERS = """
unit end-strip
    lay
        square 4 1/2 of glow | rectangle 38 1/2 by 4 1/2 of dusk | square 4 1/2 of glow

block sampler
    rectangle 32 1/2 by 44 of sand
    border 1 1/2 of clay on left and right
    border 1 1/2 of clay on top and bottom
    expect 34 1/2 by 46
    border 2 1/2 of glow on left and right
    border 2 1/2 of glow on top and bottom
    expect 38 1/2 by 50
    border 4 1/2 of dusk on left and right
    join end-strip on top and bottom
    expect 46 1/2 by 58
"""


@row("BR-02", "S26 club sampler")
@row("E2E-08", "S26")
def test_three_borders_the_last_with_cornerstones() -> None:
    plan = planned(THREE_BORDERS)
    assert cuts(plan, "clay") == {("3/2", "44"): 2, ("3/2", "69/2"): 2}
    assert cuts(plan, "glow") == {("5/2", "46"): 2, ("5/2", "77/2"): 2, ("9/2", "9/2"): 4}
    assert cuts(plan, "dusk") == {("9/2", "50"): 2, ("9/2", "77/2"): 2}
    told = planned(
        THREE_BORDERS.replace("    border 4 1/2 of dusk on left and right\n", "").replace(
            "join end-strip on top and bottom", "border 4 1/2 of dusk, posts of glow"
        )
    )
    assert all(cuts(told, fabric) == cuts(plan, fabric) for fabric in ("clay", "glow", "dusk"))


@row("BR-04", "S29; S28")
@pytest.mark.parametrize(("across", "down", "border", "total"), [("70", "86", "6 1/2", 338), ("56", "61", "5", 254)])
def test_total_length_of_a_straight_border(across: str, down: str, border: str, total: int) -> None:
    """The formula counts finished lengths: each of the four strips is cut two seams longer."""
    plan = planned(
        f"""
block framed
    rectangle {across} + 1/2 by {down} + 1/2 of sand
    border {border} + 1/2 of dusk on left and right
    border {border} + 1/2 of dusk on top and bottom
""",
        usable="90",
    )
    length = Exact(0)
    for (_, longer), count in cuts(plan, "dusk").items():
        length = length + (Exact.parse(longer) - Exact(1, 2)) * count
    assert length == total


@row("BR-07", "S25 4-H quilt club 2024")
@row("E2E-Y10", "S25 2024")
def test_five_strips_of_4_1_2_make_the_border() -> None:
    """The printed 5/8 yd are five strips to the last thread, and ours with `margin 0`; the usual inch buys 3/4 yd."""
    plan = planned(
        """
block framed
    rectangle 36 1/2 by 48 1/2 of sand
    border 4 1/2 of dusk on left and right
    border 4 1/2 of dusk on top and bottom
    expect 44 by 56, finished
""",
        usable="42",
    )
    assert cuts(plan, "dusk") == {("9/2", "97/2"): 2, ("9/2", "89/2"): 2}
    assert strips(plan, "dusk") == {"9/2": 5}
    assert cloth(plan, "dusk") == bought(plan, "dusk") == Exact(45, 2)  # 22 1/2 in


def sashed(across: int, down: int, *, outside: bool) -> str:
    """Blocks of 12 with sashes finishing 2 between them, cornerstones at the crossings."""
    block, upright, level, post = (
        "square 12 1/2 of sand",
        "rectangle 2 1/2 by 12 1/2 of dusk",
        "rectangle 12 1/2 by 2 1/2 of dusk",
        "square 2 1/2 of clay",
    )

    def line(cell: str, between: str) -> str:
        cells = f" | {between} | ".join([cell] * across)
        return f"        {between} | {cells} | {between}" if outside else f"        {cells}"

    lines = [line(block, upright)]
    for _ in range(down - 1):
        lines += [line(level, post), line(block, upright)]
    if outside:
        lines = [line(level, post), *lines, line(level, post)]
    return "block field\n    lay\n" + "\n".join(lines) + "\n"


@rows(
    ("across", "down"),
    ("SH-01", "S24 2009", 3, 2),
    ("SH-02", "S24 2009", 4, 5),
)
def test_sashes_and_cornerstones_outside_too(across: int, down: int) -> None:
    plan = planned(sashed(across, down, outside=True))
    sashes, posts = sum(cuts(plan, "dusk").values()), sum(cuts(plan, "clay").values())
    assert sashes == down * (across + 1) + across * (down + 1)
    assert posts == (down + 1) * (across + 1)
    told = planned(
        f"block field\n    lay {across} by {down}\n        | square 12 1/2 of sand\n"
        "    sash 2 1/2 of dusk, posts of clay, all-round\n"
    )
    assert all(cuts(told, fabric) == cuts(plan, fabric) for fabric in ("sand", "dusk", "clay"))
    assert size(told, "field") == size(plan, "field")
    if (across, down) == (4, 5):
        assert (sashes, posts) == (49, 30)


SAMPLER = """
unit row-of-three
    lay
        square 12 1/2 of sand | rectangle 2 1/2 by 12 1/2 of dusk | square 12 1/2 of sand | {rest}

block field
    take row-of-three
    repeat 3
        join rectangle 40 1/2 by 2 1/2 of dusk on bottom
        join row-of-three on bottom
    expect 40 by 54, finished
""".replace("{rest}", "rectangle 2 1/2 by 12 1/2 of dusk | square 12 1/2 of sand")
SASHED = """
quilt field
    lay 3 by 4
        | square 12 1/2 of sand
    sash 2 1/2 of dusk
"""
BORDER = "    border 4 1/2 of clay\n"


@row("SH-05", "S25 4-H 2024")
@row("SH-06", "S25 4-H 2024")
@row("E2E-06", "S25 county 4-H quilt club leader, 2024")
def test_the_sampler_of_twelve_blocks_with_and_without() -> None:
    plain = "block plain\n    lay 3 by 4\n        | square 12 1/2 of sand\n"
    assert size(planned(plain), "plain", finished=True) == ("36", "48")
    assert size(planned(plain + BORDER), "plain", finished=True) == ("44", "56")
    assert size(planned(SAMPLER), "field", finished=True) == ("40", "54")
    assert size(planned(SAMPLER.rstrip() + "\n" + BORDER), "field", finished=True) == ("48", "62")
    for border, finished in (("", ("40", "54")), (BORDER, ("48", "62"))):
        assert size(planned(SASHED + border), "field", finished=True) == finished


@row("SH-05", "S25 4-H 2024")
@row("E2E-Y10", "S25 2024")
@row("SH-07", "S25")
def test_the_sampler_as_a_quilt() -> None:
    """Twelve blocks of 12, sashes and a border in one text: no more cloth than printed for either, with `margin 0`,
    which the border needs: its five strips fill the printed 5/8 yd."""
    plan = planned(SASHED + BORDER, usable="42")
    assert size(plan, "field", finished=True) == ("48", "62")
    assert cuts(plan, "dusk") == {("5/2", "25/2"): 8, ("5/2", "81/2"): 3}
    assert bought(plan, "dusk") <= 36
    assert cuts(plan, "clay") == {("9/2", "109/2"): 2, ("9/2", "97/2"): 2}
    assert strips(plan, "clay") == {"9/2": 5}
    # the printed border is that of the quilt without sashes, 5/8 yd; the wider one still comes from five strips
    assert bought(plan, "clay") == Exact(45, 2)


@row("SH-07", "S25")
def test_the_sashes_take_no_more_than_the_printed_yard() -> None:
    plan = planned(SAMPLER, usable="42")
    assert cuts(plan, "dusk") == {("5/2", "25/2"): 8, ("5/2", "81/2"): 3}
    assert cloth(plan, "dusk") <= 36
    assert strips(plan, "dusk") == {"5/2": 6}


@row("SH-BAD", "S27 2012")
def test_three_blocks_of_12_with_three_inch_sashes_are_not_41_3_4() -> None:
    body = """
block sashed-row
    lay
        square 12 1/2 of sand | rectangle 3 by 12 1/2 of dusk | square 12 1/2 of sand | {rest}
    expect width {claim}
"""
    rest = "rectangle 3 by 12 1/2 of dusk | square 12 1/2 of sand"
    planned(body.format(rest=rest, claim="41 1/2"))
    told = "quilt field\n    lay 3 by 3\n        | square 12 1/2 of sand\n    sash 3 of dusk\n    expect width 41 3/4\n"
    for text in (body.format(rest=rest, claim="41 3/4"), told):
        found = refused(text)
        assert found.code.startswith("E4")
        assert "41 1/2, not 41 3/4: 1/4 less" in words(found)
