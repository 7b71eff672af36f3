"""Fabrics with a direction: which way their pieces come to lie, and what is meant so."""

from __future__ import annotations

import pytest
from craft.looked import found, said, warned

HEAD = "fabric mist, value light\nfabric rain, value dark, directional\n"
HALVES = """\
unit half (cloth)
    square 4 of cloth
    cut once on diagonal

unit other (cloth)
    square 4 of cloth
    cut once on diagonal, keep {keep}

"""
SLOPE = HEAD + HALVES.format(keep="top-right") + """\
unit slope
    take half({first})
    join {second} on long-edge, press open
    trim to 3 1/2 by 3 1/2, seam on diagonal

"""
ROW = "block row\n    lay, press open\n        | {cells}\n"


def told(text: str) -> list[str]:
    assert not [one for one in found(text) if one.severity == "error"]
    return [code for code, _ in warned(text) if code == "W515"]


def block(line: str, more: str = "") -> str:
    return f"{HEAD}block panel\n    {line}\n{more}"


def test_a_triangle_that_is_turned_to_its_partner() -> None:
    text = SLOPE.format(first="mist", second="half(rain)").replace("unit slope", "block slope")
    assert warned(text) == [("W515", "block slope")]
    assert said(text) == "`rain` has a direction, and in `slope` the triangle lies upside down"
    (one,) = found(text)
    assert one.hint == (
        "say at its cut which part stays as it lies: `cut …, keep top-right`; or take a print without a direction for"
        " it; where it is meant so, a `note` that speaks of the direction tells so"
    )
    assert told(text.replace("join half(rain)", "join other(rain)")) == []
    assert told(text.replace(", directional", "")) == []
    assert told(text.replace("take half(mist)", "take half(rain)").replace("join half(rain)", "join half(mist)")) == []


QUARTER = "unit quarter (cloth)\n    square 5 of cloth\n    cut twice on diagonal{}\n\n"
TIP = HEAD + QUARTER + "block tip\n    take quarter(rain){}\n"


@pytest.mark.parametrize(("turn", "where"), [("right", "left"), ("around", "top"), ("left", "right")])
def test_the_quarter_that_is_told_lies_upright(turn: str, where: str) -> None:
    """The first quarter stays as it lies, with its long side at the bottom."""
    assert told(TIP.format("", "")) == []
    (one,) = [one for one in found(TIP.format("", f" turned {turn}")) if one.code == "W515"]
    assert f"`cut …, keep {where}`" in (one.hint or "")
    assert told(TIP.format(f", keep {where}", "")) == []


@pytest.mark.parametrize(
    ("turn", "lies"),
    [
        ("right", "on its right side"), ("left", "on its left side"), ("around", "upside down"),
        ("45 left", "aslant, turned 45 degrees to the left"), ("30 right", "aslant, turned 30 degrees to the right"),
    ],
)  # fmt: skip
def test_how_a_piece_lies(turn: str, lies: str) -> None:
    text = block("rectangle 5 by 3 of rain", f"    turn {turn}\n")
    assert [one.message for one in found(text) if one.code == "W515"] == [
        f"`rain` has a direction, and in `panel` the piece lies {lies}"
    ]
    back = {"right": "left", "left": "right", "around": "around", "45 left": "45 right", "30 right": "30 left"}[turn]
    assert told(f"{text}    turn {back}\n") == []
    assert told(block("rectangle 3 by 5 of rain")) == []


def test_where_they_lie_and_how_many() -> None:
    row = HEAD + "unit tile (cloth)\n    square 3 of cloth\n\n" + ROW
    cells = "tile(rain) | tile(mist) | tile(rain) turned right | tile(rain) turned right"
    assert said(row.format(cells=cells)) == (
        "`rain` has a direction, and in `row` 2 of 3 pieces lie on their right side (one is the piece at the right)"
    )
    middle = "tile(rain) | tile(rain) turned around | tile(rain)"
    assert said(row.format(cells=middle)) == (
        "`rain` has a direction, and in `row` the piece in the middle lies upside down"
    )


def test_what_is_as_it_was_cut_is_upright() -> None:
    assert told(block("square 4 of mist", "    border 2 of rain\n")) == []
    assert told(block("square 4 of mist", "    border 2 of rain, mitred\n")) == []
    assert told(block("square 4 of mist", "    flip square 2 of rain at corners\n")) == []
    assert told(block("rectangle 4 by 2 of rain", "    join rectangle 2 by 2 of rain on left\n")) == []


def test_strips_that_are_set_the_other_way_round() -> None:
    pair = "unit pair\n    strip 2 of rain\n    join strip 2 of mist on bottom\n    subcut 2\n\n"
    four = "block four\n    take pair\n    join pair{} on right, press open\n"
    assert told(HEAD + pair + four.format(" turned around")) == ["W515"]
    assert told(HEAD + pair + four.format("")) == []


@pytest.mark.parametrize("name", ["pinwheel", "sawtooth-star", "ohio-star", "churn-dash", "friendship-star"])
def test_what_lies_all_ways_is_meant_so(name: str) -> None:
    assert told(f"{HEAD}make 1 of {name}(mist, rain)\n") == []
    assert told(f"{HEAD}make 1 of {name}(rain, mist)\n") == []


def test_of_a_mirrored_unit_what_was_upright_is_so_still() -> None:
    lean = HEAD + "unit lean\n    square 4 of mist\n    join rectangle 4 by 2 of rain on bottom\n{}\n"
    user = "block alone\n    take lean{}\n"
    assert told(lean.format("") + user.format(" reversed")) == []
    assert told(lean.format("") + user.format(" reversed") + "    join rectangle 2 by 5 1/2 of mist on right\n") == []
    assert told(lean.format("    turn right\n") + user.format(" reversed turned right")) == []
    (one,) = [one for one in found(lean.format("    turn right\n") + user.format(" reversed")) if one.code == "W515"]
    assert one.message.endswith("the piece lies on its left side"), "as in a mirror"
    quilt = "quilt all\n    lay 2 by 2{}\n        | lean reversed | lean\n    border 2 of mist\n"
    assert told(lean.format("") + quilt.format("")) == [], "also in a table that is set together at once"
    assert told(lean.format("") + quilt.format(", press open")) == [], "and in one that is sewn seam by seam"


def test_a_quilt_tells_only_what_its_blocks_do_not() -> None:
    tile = HEAD + "block tile\n    rectangle 4 by 4 of rain\n{}\n"
    quilt = "quilt all\n    lay, press open\n        | tile | tile{}\n"
    turned = found(tile.format("") + quilt.format(" turned right"))
    assert [(one.code, one.span.text) for one in turned] == [("W515", "all")]
    both = found(tile.format("    turn right\n") + quilt.format(" turned right"))
    assert [(one.code, one.span.text) for one in both] == [("W515", "tile")]
    assert told(tile.format("") + quilt.format("")) == []


def test_blocks_on_point_lie_as_the_rows_do() -> None:
    quilt = "quilt all\n    lay 2 by 2 on point\n        | square 4 of rain\n    fill sides and corners of mist\n"
    assert told(HEAD + quilt) == []
    tipped = quilt.replace("| square 4 of rain", "| tile turned right")
    assert told(HEAD + "block tile\n    square 4 of rain\n\n" + tipped) == ["W515"]


def test_on_paper_nothing_says_how_a_piece_is_laid() -> None:
    assert told(block("foundation 4 by 4 of mist", "    add rain at top-left from bottom-left to top-right\n")) == []


def test_a_note_tells_of_it() -> None:
    turned = block("rectangle 5 by 3 of rain", "    turn right\n")
    assert told(turned + '    note "The direction of the rain is meant: a storm."\n') == []
    assert told(turned + '    note "Press well."\n') == ["W515"]
    other = "block other\n    square 3 of mist\n    note {}\n"
    assert told(turned + other.format('"The rain has no direction to speak of."')) == [], "it names the fabric"
    assert told(turned + other.format('"Mind the direction."')) == ["W515"]


def test_a_print_of_an_assorted_fabric_is_told_by_the_name_of_the_fabric() -> None:
    text = (
        "fabric rains, value dark, directional, assorted\n"
        "block panel\n    choose rain from rains\n    rectangle 5 by 3 of rain\n    turn around\n"
    )
    assert said(text) == "`rains` has a direction, and in `panel` the piece lies upside down"
