"""Warnings that know the craft: each at its line with exact numbers, and none where the work is sound."""

from __future__ import annotations

import pytest
from craft.looked import FABRICS, TRIANGLES, found, said, warned
from hypothesis import given, settings
from hypothesis import strategies as st

# ── bias edges ──────────────────────────────────────────────────────────────────────────────────


HOURGLASS = """\
unit half (cloth)
    square 4 of cloth
    cut once on diagonal

unit wing
    take half(light)
    join bottom of half(dark) on left

block hourglass
    take wing
    join long-edge of wing on long-edge, press open
"""


def test_halves_that_lie_with_the_bias_outside() -> None:
    text = FABRICS + HOURGLASS
    assert warned(text) == [("W502", "block hourglass")]
    assert said(text) == (
        "all edges of `hourglass` run on the bias of light and dark, 45 degrees off the grain, and will stretch"
    )
    assert warned(text.replace("block", "unit")) == []  # a unit may have its bias edges sewn in
    assert warned(text + '    note "All edges are bias."\n') == []
    quarters = text.replace(
        "square 4 of cloth\n    cut once on diagonal", "square 5 3/4 of cloth\n    cut twice on diagonal"
    )
    assert warned(quarters.replace("bottom of half", "right of half")) == []


def test_a_shape_without_square_corners_cannot_have_all_edges_straight() -> None:
    assert warned(FABRICS + "block tip\n    square 4 of light\n    cut once on diagonal\n") == []


@pytest.mark.parametrize("cut", ["half", "quarter"])
def test_a_square_of_triangles_has_straight_edges_only_if_they_are_cut_so(cut: str) -> None:
    # a square on its point, framed by triangles whose long side (quarters) or short sides (halves) lie inside
    frame = "half(3 3/4, dark)" if cut == "half" else "quarter(5 1/2, dark)"
    text = (
        TRIANGLES
        + FABRICS
        + (
            "block framed\n    square 4 1/2 of light\n    turn 45 left\n"
            + "".join(
                f"    join long-edge of {frame} on {edge}, centred\n"
                for edge in ("upper-left", "lower-right", "upper-right", "lower-left")
            )
        )
    )
    assert [code for code, _ in warned(text)] == ([] if cut == "half" else ["W502"])


POSTED = """\
quilt panes
    lay {across} by 2 on point
        | square {block} of light
    sash {sash} of light, posts of dark
    fill sides and corners of light
"""


def test_half_posts_at_the_edge_of_a_quilt_hold_between_straight_triangles() -> None:
    assert warned(FABRICS + POSTED.format(across=2, block="6 1/2", sash="2")) == []
    # where the posts are wider than the triangles between them, most of the edge stretches
    assert [code for code, _ in warned(FABRICS + POSTED.format(across=2, block="2", sash="5"))] == ["W502"]


def test_cloth_turned_by_15_degrees_is_off_the_grain() -> None:
    text = FABRICS + "block tilted\n    square 8 of light\n    turn 15 left\n    trim to 6 by 6, centred\n"
    (one,) = found(text)
    assert one.code == "W502" and "15 degrees off the grain" in one.message


# ── points ──────────────────────────────────────────────────────────────────────────────────────

GOOSE = (
    FABRICS
    + TRIANGLES
    + """\
unit goose
    take quarter(5 1/2, dark)
    join long-edge of half(3, light) on left
    join long-edge of half(3, light) on right
    trim to 4 1/2 by 2 1/4, point {} from top

block flight
    take goose
    join rectangle 4 1/2 by 2 1/2 of light on top
"""
)


def points(text: str) -> list[tuple[str, str]]:
    """Of each warning about a point the text of its line and the message."""
    return [(one.span.text, one.message) for one in found(text) if one.code == "W503"]


@pytest.mark.parametrize(("above", "by"), [("1/8", "1/8"), ("1/5", "about 0.0500, exactly 1/20"), ("7/32", None)])
def test_a_point_that_the_seam_cuts_off(above: str, by: str | None) -> None:
    message = f"this seam cuts off a point of dark: the point lies {by} beyond the seam line"
    expected = [("join rectangle 4 1/2 by 2 1/2 of light on top", message)]
    assert points(GOOSE.format(above)) == (expected if by else [])


FRAMED = (
    FABRICS
    + TRIANGLES
    + """\
block framed
    square 4 1/2 of light
    turn 45 left
    join long-edge of half({0}, dark) on upper-left, centred
    join long-edge of half({0}, dark) on lower-right, centred
    join long-edge of half({0}, dark) on upper-right, centred
    join long-edge of half({0}, dark) on lower-left, centred
    border 2 of dark on right
"""
)


@pytest.mark.parametrize(
    ("leg", "by"),
    [("4", "about 0.1590, exactly 7/4 - 9/8·√2"), ("3 3/4", None), ("5", None)],
)
def test_a_point_that_floats(leg: str, by: str | None) -> None:
    """Legs of 2√2 + (2 + √2)/4, about 3.682, set the points on the seam; their seam lines stand half as far out
    as they are longer, as the middle of the long side is half a leg from each. A float of an allowance is meant."""
    expected = [("border 2 of dark on right", f"a point of light stops {by} short of this seam")]
    assert points(FRAMED.format(leg)) == (expected if by else [])


def test_a_point_is_judged_only_by_the_edge_that_is_sewn() -> None:
    text = GOOSE.format("1/8")
    assert warned(text.replace("4 1/2 by 2 1/2 of light on top", "4 1/2 by 2 1/2 of light on bottom")) == []
    assert warned(text[: text.index("block")] + "make 1 of goose\n") == []


def test_no_point_is_seen_between_patches_of_one_cloth() -> None:
    assert warned(GOOSE.format("1/8").replace("half(3, light)", "half(3, dark)")) == []


# ── seams that should meet, and nest ────────────────────────────────────────────────────────────

PAIR = (
    FABRICS
    + """\
unit pair (upper 2)
    strip upper + 1/2 of light
    join strip 4 1/2 - upper of dark on bottom, press toward dark
    subcut 2 1/2

"""
)


@pytest.mark.parametrize(("upper", "by"), [("2 1/8", "1/8"), ("1 13/16", "3/16"), ("2 5/64", "5/64")])
def test_seams_that_miss(upper: str, by: str) -> None:
    text = PAIR + f"block four\n    take pair\n    join pair({upper}) on right, press open\n"
    warnings = [one for one in found(text) if one.code == "W504"]
    assert [one.message for one in warnings] == [
        f"two seams that should meet at this one miss each other by {by}, and 1/16 is eased"
    ]
    assert warnings[0].span.text == f"join pair({upper}) on right, press open"


@pytest.mark.parametrize("upper", ["2", "2 1/16", "1 15/16", "2 1/4", "3"])
def test_seams_that_meet_or_are_not_meant_to(upper: str) -> None:
    text = PAIR + f"block four\n    take pair\n    join pair({upper}) on right, press open\n"
    assert [code for code, _ in warned(text) if code != "W506"] == []


def test_seams_that_miss_in_a_table() -> None:
    text = PAIR + "block four\n    lay, press open\n        | pair turned right\n        | pair(2 7/8) turned right\n"
    assert "W504" not in [code for code, _ in warned(text)]
    assert [code for code, _ in warned(text.replace("2 7/8", "1 7/8"))] == ["W504"]


def test_seams_that_do_not_nest() -> None:
    text = PAIR + "block four\n    take pair\n    join pair on right\n"
    assert warned(text) == [("W505", "join pair on right")]
    (one,) = found(text)
    assert one.message == (
        "9 layers lie on one another where two seams cross this one, since both are pressed the same way"
    )
    assert one.hint is not None and "(7 layers)" in one.hint


@pytest.mark.parametrize("mended", ["join pair turned around on right", "join pair on right, press open"])
def test_seams_that_nest(mended: str) -> None:
    assert warned(PAIR + f"block four\n    take pair\n    {mended}\n") == []


def test_seams_pressed_open_need_not_nest() -> None:
    text = PAIR + "block four\n    take pair\n    join pair on right\n"
    assert warned(text.replace("press toward dark", "press open")) == []


# ── where a warning stands ──────────────────────────────────────────────────────────────────────


def test_the_users_line_comes_first_and_the_used_files_line_in_the_trace() -> None:
    other = "unit tile (cloth)\n    square 5 1/16 of cloth\n"
    text = FABRICS + 'use tile from "other.piece"\nmake 3 of tile(dark)\n'
    (one,) = found(text, other=other)
    assert one.code == "W506" and one.span.source.name == "pattern.piece"
    assert one.span.text == "tile(dark)"
    assert [label.span.text for label in one.trace] == ["square 5 1/16 of cloth"]


def test_each_call_of_a_used_definition_is_told() -> None:
    other = "unit tile (size, cloth)\n    square size of cloth\n"
    text = FABRICS + 'use tile from "other.piece"\nmake 3 of tile(5 1/16, dark)\nmake 1 of tile(7 1/16, dark)\n'
    assert [one.span.text for one in found(text, other=other)] == ["tile(5 1/16, dark)", "tile(7 1/16, dark)"]
    one_file = FABRICS + other + text.split("\n", 3)[3]
    assert [one.span.text for one in found(one_file)] == ["square size of cloth"]


def test_a_pattern_with_a_mistake_is_not_judged() -> None:
    assert warned(FABRICS + "block tile\n    square 5 1/16 of dark\n    cut on diagonal\n")[0][0] == "E212"


# ── sound work ──────────────────────────────────────────────────────────────────────────────────

SIZES = st.integers(min_value=6, max_value=32).map(lambda eighths: f"{eighths}/8")


@settings(max_examples=15, deadline=None)
@given(
    hearth=SIZES,
    widths=st.lists(SIZES, min_size=4, max_size=4),
    rounds=st.integers(1, 3),
    press=st.sampled_from(["", ", press open", ", press toward darker"]),
)
def test_log_cabins_are_sound(hearth: str, widths: list[str], rounds: int, press: str) -> None:
    logs = "".join(
        f"        border {width} of {cloth} on {edge}{press}\n"
        for width, edge, cloth in zip(
            widths, ("right", "top", "left", "bottom"), ("light", "light", "dark", "dark"), strict=True
        )
    )
    assert warned(FABRICS + f"block cabin\n    square {hearth} of light\n    repeat {rounds}\n{logs}") == []


@settings(max_examples=15, deadline=None)
@given(
    size=SIZES, across=st.integers(2, 5), down=st.integers(2, 5), press=st.sampled_from(["", ", press toward darker"])
)
def test_checkered_tables_are_sound(size: str, across: int, down: int, press: str) -> None:
    pale, deep = f"square {size} of light", f"square {size} of dark"
    rows = f"        {pale} | {deep}\n        {deep} | {pale}\n"
    assert warned(FABRICS + f"block table\n    lay {across} by {down}{press}\n{rows}") == []
