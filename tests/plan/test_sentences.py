"""The instructions, in plain trade English, with the sizes of the cut list."""

from __future__ import annotations

from dataclasses import replace

import pytest
from piecewright import compile_source
from piecewright.exact import Exact
from piecewright.kernel.build import Build, Expect, Made, Piece, Settings
from piecewright.plan.cutting import _off
from piecewright.plan.make import plan
from piecewright.plan.measures import measure_text
from piecewright.plan.model import Plan, StepPlan
from piecewright.plan.tongue import Tongue
from piecewright.plan.words import article, listed, plain, sentence, typographic
from plan import builds
from plan.builds import Maker


def steps(planned: Plan, name: str) -> tuple[StepPlan, ...]:
    return next(unit.steps for unit in planned.units if unit.name == name)


def one(made: Made, count: int = 1) -> Build:
    return builds.build((made,), (made.key, count))


def test_the_lantern_reads_as_it_is_sewn() -> None:
    planned = plan(builds.build(builds.lantern(), ("lantern(dusk, glow)", 12)))
    assert [step.text for step in steps(planned, "framed")] == [
        "Start with a dusk square 5½.",
        "Sew a glow strip 2¼ × 5½ to the left and the right edge. Press both seams toward glow.",
        "Sew a glow strip 2¼ × 9 to the top and the bottom edge. Press both seams toward glow.",
    ]
    assert steps(planned, "framed")[2].measures == ("It should measure 9 by 9.",)
    assert [step.text for step in steps(planned, "half-framed")] == [
        "Take one framed.",
        "Cut once corner to corner, from top left to bottom right: 2 triangles. Turn the second to lie like the first.",
    ]
    assert [step.text for step in steps(planned, "lantern")] == [
        "Take one half-framed.",
        "Sew one half-plain to the long edge. Press toward half-plain.",
        "Trim to 8 by 8, the ruler's diagonal on the seam; about ⁵⁄₁₆ comes off each side.",
    ]
    assert steps(planned, "lantern")[1].measures == ("It should measure about 8⅝ by 8⅝, within ¹⁄₁₆.",)


def test_a_strip_set_tells_its_segments_and_its_sets() -> None:
    planned = plan(builds.build(builds.nine_patch(), ("nine-patch(glow, dusk)", 10)))
    band = planned.units[0]
    assert [step.text for step in band.steps] == [
        "Start with a dusk strip 2½ wide. Each strip of a full set is at least 40 long, of the other 10.",
        "Sew a glow strip 2½ wide to the bottom edge. Press toward glow.",
        "Sew a dusk strip 2½ wide to the bottom edge. Press toward dusk.",
        "Cut the strips across into segments 2½ wide: 16 from a full strip set.",
    ]
    assert band.work == "Sew 1 full strip set and one 10 long: 20 segments."


def test_a_table_tells_its_rows() -> None:
    square = Maker("corner(dusk)").start("square", 3.5, 3.5, "dusk").made()
    other = Maker("middle(glow)").start("square", 3.5, 3.5, "glow").made()
    block = Maker("checks", kind="block").lay((square, other, square), (other, square, other), (square, other, square))
    step = steps(plan(builds.build((square, other, block.made()), ("checks", 1))), "checks")[0]
    assert step.text == (
        "Lay out 3 rows of 3, as the figure shows. Sew each row together, then the rows to each other."
        " Press the seams of each row the other way from those of the row above."
    )
    assert step.details == ("Rows 1 and 3: corner; middle; corner.", "Row 2: middle; corner; middle.")


def test_like_named_cells_of_a_table_are_told_apart() -> None:
    planned = plan(builds.build(builds.nine_patch(), ("nine-patch(glow, dusk)", 1)))
    assert steps(planned, "nine-patch")[0].details == (
        "From left to right: band in dusk and glow; band in glow and dusk; band in dusk and glow.",
    )


def test_a_repeat_says_how_often_and_the_sizes_of_every_round() -> None:
    made = steps(plan(one(builds.cabin()[0])), "cabin")
    assert made[1].text == "Sew a dusk strip 1 wide to the top, then the right edge. Press both seams toward dusk."
    assert made[1].repeat == "Do steps 2 and 3 one after the other, 3 times in all." and made[2].repeat == ""
    assert made[1].details == ("Round 1: 1 × 2 and 1 × 2½.", "Round 2: 1 × 3½ and 1 × 4.", "Round 3: 1 × 5 and 1 × 5½.")


def test_what_is_true_at_the_end_of_a_repeat_is_told_of_the_last_round() -> None:
    made = builds.cabin()[0]
    last = replace(made.steps[-1], expects=(builds.size(6.5, 6.5),))
    step = steps(plan(one(replace(made, steps=(*made.steps[:-1], last)))), "cabin")[2]
    assert step.measures == ("After the last round: it should measure 6½ by 6½.",)


def test_a_row_that_comes_round_again_is_told_once() -> None:
    square = Maker("a").start("square", 3, 3, "dusk").made()
    other = Maker("b").start("square", 3, 3, "glow").made()
    row = Maker("row", kind="block").lay((square, other) * 6).made()
    step = steps(plan(builds.build((square, other, row), ("row", 1))), "row")[0]
    assert step.details == ("From left to right: a; b; the same 6 times in all.",)


def test_sizes_in_sentences_are_those_of_the_cut_list() -> None:
    for made, key in ((builds.lantern(), "lantern(dusk, glow)"), (builds.cabin(), "cabin(glow, dusk)")):
        planned = plan(builds.build(made, (key, 3)))
        words = " ".join(" ".join((step.text, *step.details)) for unit in planned.units for step in unit.steps)
        for cut in planned.cuts:
            size = cut.width.shown if cut.shape == "square" else f"{cut.width.shown} × {cut.height.shown}"
            assert size in words


def test_named_parts_are_told_with_their_sizes() -> None:
    planned = plan(builds.build(builds.crossed(), ("crossed(dusk)", 5)))
    assert planned.units[0].steps[1].text == "Cut 3 from the left edge: narrow (3 × 9) and wide (6 × 9)."
    assert steps(planned, "crossed")[0].text == "Take one narrow."


@pytest.mark.parametrize(
    ("degrees", "text"),
    [
        (90, "Turn the work a quarter to the left."),
        (-90, "Turn the work a quarter to the right."),
        (270, "Turn the work a quarter to the right."),
        (180, "Turn the work halfway round."),
        (45, "Turn the work an eighth to the left."),
        (135, "Turn the work 135 degrees to the left."),
    ],
)
def test_turns(degrees: int, text: str) -> None:
    made = Maker("a").start("rectangle", 3, 5, "dusk").turn(degrees).made()
    assert steps(plan(one(made)), "a")[1].text == text


def test_an_oblong_piece_says_how_it_lies() -> None:
    assert steps(plan(one(Maker("a").start("rectangle", 5, 3, "dusk").made())), "a")[0].text == (
        "Start with a dusk rectangle 3 × 5, lying across."
    )
    assert steps(plan(one(Maker("a").start("rectangle", 3, 5, "dusk").made())), "a")[0].text == (
        "Start with a dusk rectangle 3 × 5, standing up."
    )


def test_a_pile_is_sewn_and_cut_each() -> None:
    made = Maker("a").start("square", 9, 9, "dusk").halve().border(2, "glow", "left").made()
    planned = plan(one(made, 4))
    assert steps(planned, "a")[2].text == "Sew a glow strip 2 × 8¾ to the left edge of each. Press toward glow."
    assert planned.units[0].work == "Do the steps twice; each time gives 2."


def test_a_trim_tells_what_comes_off_each_side() -> None:
    made = Maker("a").start("square", 6, 6, "dusk").trim(5.5, 5.5, on_seam=False).made()
    assert steps(plan(one(made)), "a")[1].text == "Trim to 5½ by 5½; ¼ comes off each side."


def test_sides_that_keep_all_are_not_told_where_something_comes_off() -> None:
    off = (Exact(0), Exact(1, 4), Exact(0), Exact(1, 128))
    assert _off(off, builds.SETTINGS) == "¼ comes off the right edge and a thread comes off the bottom edge"
    assert _off((Exact(0),) * 4, builds.SETTINGS) == "nothing comes off each side"


def test_a_verbs_own_sentence_stands_as_it_is() -> None:
    made = builds.lantern()[0]
    said = replace(made, steps=(replace(made.steps[0], says="lay out a square 5 1/2"), *made.steps[1:]))
    assert steps(plan(one(said)), "framed")[0].text == "Lay out a square 5½."


EXPECTED = [
    (Expect(measure="size", values=(Exact(9), Exact(9))), "It should measure 9 by 9."),
    (Expect(measure="size", values=(Exact(36), Exact(36)), finished=True), "It will finish 36 by 36."),
    (Expect(measure="height", values=(Exact(7, 2),)), "It should measure 3½ from top to bottom."),
    (Expect(measure="width", values=(Exact(7, 2),)), "It should measure 3½ across."),
    (Expect(measure="long-edge", values=(Exact(8),)), "Its long edge should measure 8."),
    (
        Expect(measure="upper-left", values=(Exact(8),), within=Exact(1, 8)),
        "Its upper left edge should measure about 8, within ⅛.",
    ),
    (Expect(measure="copies", values=(Exact(8),)), "You should now have 8, all alike."),
    (Expect(measure="copies", values=(Exact(1),)), "You should now have 1."),
    (Expect(measure="shows", values=(), words=("glow", "bottom-left")), "Glow should show at the bottom left corner."),
    (Expect(measure="shows", values=(), words=("glow", "top")), "Glow should show along the top edge."),
    (
        Expect(measure="pieces", values=(Exact(24),), source="lantern(dusk, glow)"),
        "It should hold 24 lantern blocks in dusk and glow.",
    ),
    (
        Expect(measure="pieces", values=(Exact(1),), source="lantern(glow, dusk) reversed"),
        "It should hold 1 lantern block in glow and dusk reversed.",
    ),
    (
        Expect(measure="pieces", values=(Exact(8),), source=Piece(
            shape="square", width=Exact(5, 2), height=Exact(5, 2), fabric="glow"
        )),
        "It should hold 8 glow squares 2½.",
    ),
    (
        Expect(measure="pieces", values=(Exact(1),), source=Piece(
            shape="rectangle", width=Exact(5, 2), height=Exact(9, 2), fabric="glow"
        )),
        "It should hold 1 glow rectangle 2½ × 4½.",
    ),
]


def tongue(settings: Settings = builds.SETTINGS) -> Tongue:
    keys = ("lantern(dusk, glow)", "lantern(glow, dusk) reversed")
    made = Maker("lantern", kind="block").start("square", 3, 3, "dusk").made()
    return Tongue(
        settings=settings,
        made={key: replace(made, key=key, reversed=key.endswith(" reversed")) for key in keys},
        titles={key: f"lantern in {' and '.join(key[8:].partition(')')[0].split(', '))}" for key in keys},
        directional=frozenset(),
    )


@pytest.mark.parametrize(("expect", "text"), EXPECTED)
def test_expectations_are_printed(expect: Expect, text: str) -> None:
    assert measure_text(expect, tongue()) == text


def test_centimetres_are_printed_as_decimals() -> None:
    metric = replace(builds.SETTINGS, units="cm", ruler=Exact(5, 127))
    expect = Expect(measure="size", values=(Exact(825, 127), Exact(825, 127)))
    assert measure_text(expect, tongue(metric)) == "It should measure 16.5 by 16.5."


def test_small_words() -> None:
    assert article("ivory square") == "an ivory square" and article("union square") == "a union square"
    assert (listed(["a"]), listed(["a", "b"]), listed(["a", "b", "c"])) == ("a", "a and b", "a, b and c")
    assert sentence("cut once") == "Cut once." and sentence("Done!") == "Done!" and sentence("") == ""
    assert typographic("half-square(2 1/2, sand)") == "half-square(2½, sand)" and typographic("5/16") == "⁵⁄₁₆"
    assert typographic("1/0") == "1/0" and typographic("a1/2b") == "a1/2b"
    assert plain("a\x00b\r\nc\u2028d") == "a b c d"


def test_a_trim_outside_points_is_told_by_them() -> None:
    text = """
fabric sand
fabric dusk

unit corner (dark)
    square 5 of dark
    cut once on diagonal

block on-its-point (light, dark)
    square 4 1/2 of light
    join long-edge of corner(dark) on left, centred
    join long-edge of corner(dark) on right, centred
    join long-edge of corner(dark) on top, centred
    join long-edge of corner(dark) on bottom, centred
    turn 45 left
    trim 1/4 outside points

make 4 of on-its-point(sand, dusk)
"""
    made = compile_source(text)
    assert made.plan is not None
    step = made.plan.units[-1].steps[-1]
    told = step.text.replace("\u202f", " ")
    assert told.startswith("Trim ¼ beyond the outermost points on every side, to about 6 ³⁄₁₆ by 6 ³⁄₁₆; about")
