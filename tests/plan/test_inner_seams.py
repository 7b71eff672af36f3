"""Seams that stop before the raw edge, and strips at an angle: what the instructions and the figures tell."""

from __future__ import annotations

from functools import cache

import pytest
from piecewright import compile_source
from piecewright.plan.model import Panel, Plan, StepPlan

HEAD = """
fabric sand "plain", value light
fabric glow "plain", value light
fabric dusk "plain", value dark

"""
STAR = """
unit ray (cloth)
    diamond 2 1/2 at 45 of cloth

unit ray-pair (a, b)
    take ray(a)
    join bottom of ray(b) on left, stop short

unit half-star (a, b)
    take ray-pair(a, b)
    join bottom of ray-pair(a, b) on left, stop short

unit star-side (sky)
    square 5 1/4 of sky
    cut twice on diagonal

block star (a, b, sky)
    take half-star(a, b)
    join bottom of half-star(a, b) on bottom, stop short, press open
    set star-side(sky) into top and right and bottom and left, press toward sky
    set square 3 3/8 of sky into corners

make 1 of star(dusk, glow, sand)
"""
PATHWAY = """
block pathway (heart, a, b)
    square 4 1/2 of heart
    join rectangle 2 1/2 by 6 1/2 of a on right, even at {even}, part sewn
    join rectangle 6 1/2 by 2 1/2 of b on {even}
    join rectangle 2 1/2 by 6 1/2 of a on left
    join rectangle 6 1/2 by 2 1/2 of b on {other}
    finish seam
"""
ROWS = """
unit ray-row (a, b, c)
    strip 2 of a
    join strip 2 of b on bottom, stepped 1 1/2 from left
    join strip 2 of c on bottom, stepped 1 1/2 from left
    subcut 2 at 45

block big-ray (a, b, c)
    take ray-row(a, b, c)
    join ray-row(b, c, a) on right
    join ray-row(c, a, b) on right

make 1 of big-ray(dusk, glow, sand)
"""


@cache
def planned(body: str) -> Plan:
    compiled = compile_source(HEAD + body)
    assert compiled.plan is not None, [one.message for one in compiled.diagnostics]
    return compiled.plan


def steps(body: str, name: str) -> tuple[StepPlan, ...]:
    return next(unit.steps for unit in planned(body).units if unit.name == name)


def dots(panel: Panel) -> list[tuple[float, float]]:
    return [mark.at for mark in panel.marks if not mark.count]


def test_a_seam_that_stops_short_says_so_and_has_a_dot_on_both_pieces() -> None:
    step = steps(STAR, "ray-pair")[1]
    assert step.text == (
        "Sew one ray in glow to the upper left edge. Stop ¼ from the raw edge at the dot, and sew a few stitches back."
        " Press toward dusk."
    )
    before, after = step.figure.panels
    assert len(dots(before)) == 2 and len(dots(after)) == 1
    whole = steps(STAR, "star")[1]
    assert "Stop ¼ from the raw edge at both dots" in whole.text
    assert len(dots(whole.figure.panels[1])) == 2


def test_a_piece_is_set_into_each_inner_corner_from_the_dot_outward() -> None:
    sides, corners = steps(STAR, "star")[2:4]
    assert sides.text.startswith(
        "Set one star-side into the inner corners at the top, the right, the bottom and the left: pin its corner to"
        " each dot, and sew from the dot outward, first the one edge and then the other"
    )
    assert sides.text.endswith("Press every seam toward sand.")
    assert corners.text.startswith("Set a sand square 3⅜ into the inner corner at each corner: pin its corner to each")
    before, after = sides.figure.panels
    assert [badge.text for badge in before.badges] == ["1", "2", "3", "4"]
    assert len(dots(before)) == 8 and len(dots(after)) == 4
    assert len([arrow for arrow in after.arrows if arrow.role == "press"]) == 8  # two seams to each piece


def test_a_single_place_is_said_in_the_singular() -> None:
    body = """
block filled (a, b)
    square 2 1/2 of a
    join rectangle 2 1/2 by 4 1/2 of a on right, even at bottom, stop short
    set square 2 1/2 of b into top-left

make 1 of filled(sand, dusk)
"""
    text = steps(body, "filled")[2].text
    assert text.startswith("Set a dusk square 2½ into the inner corner at the top left: pin its corner to the dot,")


@pytest.mark.parametrize(("even", "other", "ends"), [("bottom", "top", "lower"), ("top", "bottom", "upper")])
def test_a_seam_in_part_names_the_even_ends_and_is_finished_from_the_dot(even: str, other: str, ends: str) -> None:
    body = PATHWAY.format(even=even, other=other) + "\nmake 1 of pathway(glow, sand, dusk)\n"
    made = steps(body, "pathway")
    assert made[1].text == (
        f"Sew a sand rectangle 2½ × 6½ to the right edge, the {ends} ends even, but only from there to the dot in the"
        " middle; leave the rest open. Press toward sand."
    )
    before, after = made[1].figure.panels
    assert len(dots(before)) == 2 and len(dots(after)) == 1
    assert made[5].text == (
        "Finish the seam that was left open, from the dot to the raw edge. Press as its first part."
    )
    still, done = made[5].figure.panels
    (dot,) = dots(still)
    (stitch,) = [stroke for stroke in still.strokes if stroke.role == "stitch"]
    assert dot in stitch.points and not dots(done)
    assert [(d.side, d.text) for d in done.dimensions] == [("bottom", "8½"), ("left", "8½")]
    assert len([arrow for arrow in done.arrows if arrow.role == "press"]) == 1


def test_stepped_strips_are_drawn_and_told_with_their_step() -> None:
    made = steps(ROWS, "ray-row")
    assert made[1].text == (
        "Sew a glow strip 2 wide to the bottom edge, its left end 1½ out beyond that of the strip above."
        " Press toward dusk."
    )
    before = made[1].figure.panels[0]
    assert ("top", "1½") in [(d.side, d.text) for d in before.dimensions]
    (step,) = [d for d in before.dimensions if d.text == "1½"]
    assert step.end[0] - step.start[0] == pytest.approx(1.5)


def test_segments_at_an_angle_name_the_line_of_the_ruler_and_the_yield() -> None:
    made = steps(ROWS, "ray-row")
    assert made[3].text == (
        "Lay the ruler's 45° line on the long edge of the strips and cut off the end, leaning right. Cut segments"
        " beside it, 2 wide, measured square to the cut: 13 from a full strip set."
    )
    before, segment = made[3].figure.panels
    cuts = [stroke for stroke in before.strokes if stroke.role == "cut"]
    assert len(cuts) == 4  # the end cut off, and three segments that are drawn
    (guide,) = [stroke for stroke in before.strokes if stroke.role == "guide"]
    (x0, y0), (x1, y1) = guide.points
    assert (x1 - x0) ** 2 + (y1 - y0) ** 2 == pytest.approx(4)
    assert before.words == "2 apart, square to the cut" and segment.words == "one segment"


def test_the_last_set_is_as_long_as_its_segments_and_their_slant() -> None:
    plan = planned(ROWS + "\nmake 1 of ray-row(dusk, glow, sand)\nmake 2 of big-ray(dusk, glow, sand)\n")
    lengths = {cut.height.exact for cut in plan.cuts}
    assert "5/2 + 8*sqrt(2)" in lengths  # four of one kind, their slant 2, and 1/2 to square the end
    assert "5/2 + 6*sqrt(2)" in lengths


def test_pieces_at_an_angle_show_their_side_height_and_angle() -> None:
    body = "block one (a)\n    trapezoid 6 3/4 by 3 1/2 at 60 of a\n\nmake 1 of one(sand)\n"
    (step,) = steps(body, "one")
    (panel,) = step.figure.panels
    assert step.text == "Start with a sand trapezoid 6¾ × 3½ at 60°."
    assert [(d.side, d.text) for d in panel.dimensions] == [("bottom", "6¾"), ("left", "3½")]
    assert panel.words == "60°"


def test_reversed_pieces_are_a_row_of_their_own_only_where_they_differ() -> None:
    body = """
unit plume (a)
    parallelogram 6 by 2 1/2 at 45 of a

unit ray (a)
    diamond 2 1/2 at 45 of a

block leaves (a)
    take plume(a)
    join plume(a) reversed on bottom

block rays (a)
    take ray(a)
    join ray(a) reversed on bottom

make 1 of leaves(sand)
make 1 of rays(sand)
"""
    rows = [(cut.shape, cut.count, cut.reversed, cut.angle) for cut in planned(body).cuts]
    assert rows == [("parallelogram", 1, False, 45), ("parallelogram", 1, True, 45), ("diamond", 2, False, 45)]
    assert [unit.steps[0].text for unit in planned(body).units if unit.name == "ray"] == [
        "Start with a sand diamond 2½ wide at 45°."
    ] * 2


def test_the_base_of_a_triangle_is_no_size_off_the_mark() -> None:
    """At 60 degrees it never lies on a mark of the ruler, and nobody measures it."""
    compiled = compile_source(HEAD + "block spike (a)\n    triangle 3 3/4 at 60 of a\n\nmake 1 of spike(sand)\n")
    assert compiled.plan is not None
    (cut,) = compiled.plan.cuts
    assert cut.width.exact == "5/2*sqrt(3)"
    assert not [one for one in (*compiled.plan.warnings, *(d.message for d in compiled.diagnostics)) if "mark" in one]
