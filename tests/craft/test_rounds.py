"""Warnings of every round of a repeat, and of the open end of a seam that is finished later."""

from __future__ import annotations

import pytest
from craft.looked import FABRICS, TRIANGLES, found, warned

GOOSE = (
    FABRICS
    + TRIANGLES
    + """\
unit goose
    take quarter(5 1/2, dark)
    join long-edge of half(3, light) on left
    join long-edge of half(3, light) on right
    trim to 4 1/2 by 2 1/4, point {above} from top

block ringed
    take goose
{before}    repeat {rounds}
        border 2 of light on right
        turn right
"""
)
LOST = "this seam cuts off a point of dark: the point lies 1/8 beyond the seam line"


@pytest.mark.parametrize(
    ("turns", "rounds", "which"), [(0, 4, 2), (0, 3, 2), (1, 4, 1), (2, 4, 4), (3, 4, 3), (3, 9, 3)]
)
def test_a_point_that_is_cut_off_in_one_round(turns: int, rounds: int, which: int) -> None:
    text = GOOSE.format(above="1/8", before="    turn right\n" * turns, rounds=rounds)
    lines = [one for one in found(text) if one.message.startswith("this seam cuts off")]
    assert [one.message for one in lines] == [f"{LOST}, in round {which} of {rounds}"]
    assert lines[0].span.text == "border 2 of light on right"
    assert "W503" not in [code for code, _ in warned(text.replace("1/8", "1/4"))]


def test_a_repeat_that_ends_before_it_comes_to_the_point() -> None:
    text = GOOSE.format(above="1/8", before="    turn around\n", rounds=3)
    assert not [one for one in found(text) if one.message.startswith("this seam cuts off")]


PAIR = (
    FABRICS
    + """\
unit pair
    strip 2 1/2 of light
    join strip 2 1/2 of dark on bottom, press toward dark
    subcut 2 1/2

"""
)


def test_a_repeat_in_which_nothing_nests() -> None:
    text = PAIR + "block row\n    take pair\n    repeat 4\n        join pair on right\n"
    (one,) = found(text)
    assert one.code == "W505" and one.message.endswith(" pressed the same way, in every round")
    assert warned(text.replace("join pair on", "join pair turned around on").replace("repeat 4", "repeat 1")) == []


def test_rounds_that_nest_by_turns_are_told_from_those_that_do_not() -> None:
    text = PAIR + "block row\n    take pair turned around\n    repeat 3\n        join pair on right\n"
    (one,) = found(text)
    assert one.message.endswith(", in 2 of 3 rounds and first in round 2")


def test_every_round_is_told_of_a_unit_in_the_mirror() -> None:
    text = GOOSE.format(above="1/8", before="", rounds=4).replace("block ringed", "unit ringed")
    (one,) = [one for one in found(text + "make 2 of ringed reversed\n") if one.code == "W503"]
    assert one.message == f"{LOST}, in round 2 of 4"


# ── the open end of a partial seam ──────────────────────────────────────────────────────────────

PATHWAY = (
    FABRICS
    + """\
unit side
    rectangle 2 1/2 by {seam} + 1/2 of light
    join rectangle 2 1/2 by 6 1/2 - {seam} of dark on top, press toward {way}

block pathway
    square 4 1/2 of dark
    join side on right, even at bottom, part sewn, press toward right
    join rectangle 6 1/2 by 2 1/2 of dark on bottom
    join rectangle 2 1/2 by 6 1/2 of light on left
    join rectangle 6 1/2 by 2 1/2 of light on top, press toward top
    finish seam{press}
"""
)


@pytest.mark.parametrize(("seam", "by"), [("3 7/8", "1/8"), ("3 13/16", "3/16"), ("4", None), ("3 1/2", None)])
def test_seams_that_miss_at_the_open_end(seam: str, by: str | None) -> None:
    lines = [one for one in found(PATHWAY.format(seam=seam, way="bottom", press=", press open")) if one.code == "W504"]
    message = f"two seams that should meet at this one miss each other by {by}, and 1/16 is eased"
    assert [(one.span.text, one.message) for one in lines] == (
        [("finish seam, press open", message)] if by else []
    )  # fmt: skip


@pytest.mark.parametrize(
    ("way", "press", "told"),
    [("top", "", True), ("bottom", "", False), ("top", ", press open", False)],
)
def test_seams_that_nest_at_the_open_end(way: str, press: str, told: bool) -> None:
    lines = [one for one in found(PATHWAY.format(seam="4", way=way, press=press)) if one.code == "W505"]
    assert [one.span.text for one in lines] == (["finish seam"] if told else [])


@pytest.mark.parametrize(("leg", "lost"), [("1/8", True), ("1/4", False)])
def test_a_point_at_the_open_end(leg: str, lost: bool) -> None:
    text = (
        FABRICS
        + TRIANGLES
        + f"""\
unit goose
    take quarter(5 1/2, dark)
    join long-edge of half(3, light) on left
    join long-edge of half(3, light) on right
    trim to 4 1/2 by 2 1/4, point {leg} from top

unit side
    take goose
    turn left
    join rectangle 2 1/4 by 2 1/2 of light on bottom

block pathway
    square 4 1/2 of light
    join side on right, even at bottom, part sewn
    join rectangle 6 1/4 by 2 1/2 of light on bottom
    join rectangle 2 1/2 by 6 1/2 of light on left
    join rectangle 6 1/2 by 2 1/2 of light on top
    finish seam
"""
    )
    lines = [one for one in found(text) if one.code == "W503"]
    assert [one.message for one in lines] == ([LOST] if lost else [])
    assert [one.span.text for one in lines] == (["finish seam"] if lost else [])
