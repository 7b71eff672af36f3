"""Work in layers as it is told and drawn: what lies face down, where it is sewn, where it is cut, how it opens."""

from __future__ import annotations

from piecewright.pipeline import compile_source
from piecewright.plan.model import Figure, Panel, StepPlan

FABRICS = """
fabric sand "oat linen", colour "#eadfc8", value light
fabric dusk "midnight blender", colour "#27355f", value dark
"""
HALF_SQUARE = """
unit half-square (size, light, dark)
    square size + 7/8 of light
    place square size + 7/8 of dark
    stitch beside diagonal
    cut once on diagonal, press toward dark
    trim to size + 1/2 by size + 1/2, seam on diagonal
"""
GEESE = """
unit geese (sky, bird)
    square 5 1/4 of bird
    place square 2 7/8 of sky at top-left and bottom-right
    stitch beside diagonal
    cut once on diagonal, press toward sky
    place square 2 7/8 of sky at bottom-left
    stitch beside rising-diagonal
    cut once on rising-diagonal, press open
"""
HOURGLASS = """
unit half (light, dark)
    square 5 1/4 of light
    place square 5 1/4 of dark
    stitch beside diagonal
    cut once on diagonal, press toward dark

unit glass (light, dark)
    take half(light, dark)
    place half(light, dark) turned around
    stitch beside rising-diagonal
    cut once on rising-diagonal, press open
"""


def steps(text: str, name: str) -> tuple[StepPlan, ...]:
    plan = compile_source(FABRICS + text).plan
    assert plan is not None
    return next(unit.steps for unit in plan.units if unit.name == name)


def told(text: str, name: str) -> list[str]:
    return [step.text for step in steps(text, name)]


def roles(panel: Panel) -> list[str]:
    return sorted(stroke.role for stroke in panel.strokes)


def test_two_at_a_time() -> None:
    assert told(HALF_SQUARE + "make 5 of half-square(3, sand, dusk)\n", "half-square") == [
        "Start with a sand square 3⅞.",
        "Draw a line corner to corner on the wrong side of a dusk square 3⅞. "
        "Lay it on the sand square, right sides together, raw edges even.",
        "Sew ¼ on each side of the drawn line.",
        "Cut on the drawn line, between the two seams, through all layers. "
        "Open both halves and press toward dusk: 2 units. Turn the second to lie like the first.",
        "Trim each to 3½ by 3½, the ruler's diagonal on the seam; a thread comes off each side.",
    ]


def test_geese_without_waste() -> None:
    assert told(GEESE + "make 7 of geese(sand, dusk)\n", "geese")[1:] == [
        "Draw a line corner to corner on the wrong side of 2 sand squares 2⅞. Lay one on the top left corner and one "
        "on the bottom right corner of the dusk square, right sides together, raw edges even.",
        "Sew ¼ on each side of the drawn line.",
        "Cut on the drawn line, between the two seams, through all layers. "
        "Open both halves and press toward sand: 2 units. Turn the second to lie like the first.",
        "Draw a line corner to corner on the wrong side of each sand square 2⅞. "
        "Lay one on the bottom left corner of each piece of work, right sides together, raw edges even.",
        "On each, sew ¼ on each side of the drawn line.",
        "Cut each on the drawn line, between the two seams, through all layers. "
        "Open both halves and press the seam open: 4 units. Turn the second to lie like the first.",
    ]


def test_pieced_halves_meet_unlike_fabrics() -> None:
    assert told(HOURGLASS + "make 3 of glass(sand, dusk)\n", "glass")[1] == (
        "Draw a line corner to corner on the wrong side of one half, turned around. "
        "Lay it on the work, right sides together, raw edges even, unlike fabrics against each other."
    )


def test_round_the_outside_and_stitch_and_flip() -> None:
    four = """
unit four (light, dark)
    square 5 1/2 of light
    place square 5 1/2 of dark
    stitch on left and right and top and bottom
    cut twice on diagonal, press toward dark
"""
    assert told(four + "make 4 of four(sand, dusk)\n", "four")[2:] == [
        "Sew all round, ¼ from the raw edges.",
        "Cut twice corner to corner, both ways, through all layers. "
        "Open all four parts and press toward dusk: 4 units. Turn the others to lie like the first.",
    ]
    snowball = """
unit ball (ground, tip)
    square 6 1/2 of ground
    flip square 2 of tip at top-left, press toward tip
    flip square 2 1/2 of tip at top-right and bottom-left, press open
"""
    assert told(snowball + "make 1 of ball(sand, dusk)\n", "ball")[1:] == [
        "Lay a dusk square 2 on the top left corner, right sides together, and sew it corner to corner, across the "
        "corner of the work. Cut ¼ outside the seam, open it and press toward dusk.",
        "Lay a dusk square 2½ on the top right corner and the bottom left corner, right sides together, and sew each "
        "corner to corner, across the corner of the work. Cut ¼ outside the seams, open the corners and press the seam "
        "open.",
    ]


def test_parts_that_stay_in_layers_are_said_to() -> None:
    eight = """
unit eight (light, dark)
    square 7 3/4 of light
    place square 7 3/4 of dark
    stitch beside diagonal and rising-diagonal
    cut from top-middle to bottom-middle
    cut from left-middle to right-middle
    cut once on rising-diagonal, press toward dark
"""
    text = told(eight + "make 8 of eight(sand, dusk)\n", "eight")
    assert text[1].startswith("Draw both lines corner to corner on the wrong side of a dusk square 7¾.")
    assert text[2] == "Sew ¼ on each side of the drawn lines."
    assert text[3] == (
        "Cut from the middle of the top edge to the middle of the bottom edge, through all layers: 2 pieces, still in "
        "layers. Turn the second to lie like the first."
    )
    assert ": 8 units" in text[5]


def figure(text: str, name: str, number: int) -> Figure:
    return steps(text, name)[number - 1].figure


def test_what_is_placed_shows_its_wrong_side_with_the_line_drawn_on_it() -> None:
    base, piece, laid = figure(HALF_SQUARE + "make 5 of half-square(3, sand, dusk)\n", "half-square", 2).panels
    assert [(c.fabric, c.wrong) for c in base.cloth] == [("sand", False)]
    assert [(c.fabric, c.wrong) for c in piece.cloth] == [("dusk", True)]
    assert [(c.fabric, c.wrong) for c in laid.cloth] == [("sand", False), ("dusk", True)]
    assert roles(piece) == ["drawn", "raw"]
    assert piece.words == "wrong side up"


def test_each_of_two_squares_has_its_own_line() -> None:
    _, piece, laid = figure(GEESE + "make 4 of geese(sand, dusk)\n", "geese", 2).panels
    assert roles(piece).count("drawn") == 1
    assert roles(laid).count("drawn") == 2
    assert piece.words == "2, wrong side up"


def test_seams_lie_an_allowance_to_each_side_of_the_cut_and_the_part_opens() -> None:
    text = HALF_SQUARE + "make 5 of half-square(3, sand, dusk)\n"
    assert roles(figure(text, "half-square", 3).panels[0]) == ["drawn", "raw", "raw", "stitch", "stitch"]
    before, half, whole = figure(text, "half-square", 4).panels
    (cut,) = (s.points for s in before.strokes if s.role == "cut")
    gaps = []
    for seam in (s.points for s in before.strokes if s.role == "stitch"):
        (ax, ay), (bx, by) = cut
        length = ((bx - ax) ** 2 + (by - ay) ** 2) ** 0.5
        gaps.append(((bx - ax) * (seam[0][1] - ay) - (by - ay) * (seam[0][0] - ax)) / length)
    assert sorted(round(gap, 9) for gap in gaps) == [-0.25, 0.25]
    assert roles(half).count("stitch") == 1
    assert {c.wrong for c in whole.cloth if c.fabric} == {False}
    assert [arrow.role for arrow in whole.arrows] == ["press"]
    assert whole.lead_words == "open"
    assert whole.words == "2 alike, turned to lie like this"


def test_seams_under_a_piece_that_covers_them_are_not_drawn() -> None:
    laid = figure(HOURGLASS + "make 3 of glass(sand, dusk)\n", "glass", 2).panels[-1]
    assert roles(laid).count("seam") == 1  # that of the upper half alone


def test_a_flip_shows_the_seam_and_the_cut_outside_it() -> None:
    text = """
unit goose (sky, bird)
    rectangle 4 1/2 by 2 1/2 of bird
    flip square 2 1/2 of sky at top-left, press toward sky

make 1 of goose(sand, dusk)
"""
    before, after = figure(text, "goose", 2).panels
    assert [(c.fabric, c.wrong) for c in before.cloth] == [("dusk", False), ("sand", True)]
    assert roles(before).count("stitch") == roles(before).count("cut") == 1
    (arrow,) = after.arrows
    assert arrow.end[0] < arrow.start[0] and arrow.end[1] > arrow.start[1]  # toward the corner
