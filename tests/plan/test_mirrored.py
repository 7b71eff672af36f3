"""What is told of a unit made as in a mirror is true of its picture."""

from __future__ import annotations

import pytest
from piecewright import compile_source

UNIT = """\
fabric lamp, value light
fabric dusk, value dark

# {remark}
unit corner (light, dark)
    square 4 of light
    flip square 2 of dark at bottom-right
    expect dark at bottom-right

"""
SIDED = "A square with a corner of dark, at the bottom right."
PLAIN = "A square with a corner of dark."


def told(remark: str, *asked: str) -> dict[str, str]:
    plan = compile_source(UNIT.format(remark=remark) + "".join(f"make 1 of {one}\n" for one in asked)).plan
    assert plan is not None
    return {unit.title: unit.description for unit in plan.units}


def test_beside_the_unit_itself_it_is_its_mirror_image() -> None:
    assert told(SIDED, "corner(lamp, dusk)", "corner(lamp, dusk) reversed") == {
        "corner": SIDED,
        "corner reversed": "The mirror image of corner, left for right.",
    }


def test_in_other_fabrics_it_is_no_image_of_that_unit() -> None:
    found = told(SIDED, "corner(dusk, lamp)", "corner(lamp, dusk) reversed")
    assert found["corner in lamp and dusk reversed"] == f"As in a mirror, left for right: {SIDED}"


def test_alone_the_remark_is_read_in_a_mirror() -> None:
    assert told(SIDED, "corner(lamp, dusk) reversed") == {"corner": f"As in a mirror, left for right: {SIDED}"}


@pytest.mark.parametrize("remark", ["It leans right.", "To the left, dark.", "Bars go clockwise.", "Leftmost is dark."])
def test_whatever_has_a_side_is_told_so(remark: str) -> None:
    assert told(remark, "corner(lamp, dusk) reversed")["corner"].endswith(f": {remark}")


@pytest.mark.parametrize("remark", [PLAIN, "It is bright and upright.", "A cleft square."])
def test_what_has_no_side_is_true_of_both(remark: str) -> None:
    assert set(told(remark, "corner(lamp, dusk)", "corner(lamp, dusk) reversed").values()) == {remark}


def test_parts_of_a_cut_too() -> None:
    text = UNIT.format(remark=SIDED).replace(
        "    expect dark", "    cut 1 from left into thin and thick\n#   expect dark"
    )
    plan = compile_source(text + "make 1 of thin(lamp, dusk)\nmake 1 of thick(lamp, dusk) reversed\n").plan
    assert plan is not None
    found = {unit.title: unit.description for unit in plan.units}
    assert found["thin"] == found["thick"] == SIDED
    assert found["thick reversed"] == "The mirror image of thick, left for right."
