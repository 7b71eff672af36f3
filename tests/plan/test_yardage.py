"""From rows of the cut list to what is bought and cut: every plan checked cut by cut, and what is told of it."""

from __future__ import annotations

from dataclasses import replace

import pytest
from cloth.verifier import verify
from hypothesis import given, settings
from hypothesis import strategies as st
from piecewright import compile_source
from piecewright.exact import INCH_PER, Exact
from piecewright.kernel.build import Fabric, Scrap, Sold
from piecewright.pipeline import Cutting
from piecewright.plan.cutlist import CutRow
from piecewright.plan.words import plural
from piecewright.plan.yardage import ClothCut
from plan import builds
from plan.told import planned, row, texts, told

QUARTER = Sold(step=Exact(9), by="yard")
FAT_QUARTERS = replace(
    builds.DUSK, usable=Exact(20), sold=Sold(across=Exact(20), down=Exact(18), name="fat quarter")
)
SIDES = st.integers(4, 400).map(lambda eighths: str(Exact(eighths, 8)))
ROWS = st.lists(st.builds(row, st.just("rectangle"), SIDES, SIDES, st.integers(1, 12)), min_size=1, max_size=5)


def sound(cut: ClothCut) -> ClothCut:
    """The same plan; fails unless it can be carried out and gives what it says. (How many cuts deep it claims to be is
    a matter of the planner's own tests.)"""
    faults = verify(cut.asking.needs, cut.stock, cut.plan)
    assert [fault for fault in faults if not fault.startswith("stages")] == []
    return cut


@settings(max_examples=60, deadline=None)
@given(ROWS, st.sampled_from([builds.DUSK, FAT_QUARTERS, replace(builds.DUSK, directional=True)]))
def test_every_plan_is_sound_and_gives_each_piece_or_says_what_is_missing(rows: list[CutRow], cloth: Fabric) -> None:
    cut = sound(planned(*rows, fabric=cloth))
    assert cut.bound <= cut.bought and cut.any_bound <= cut.bound
    plan, strips = told(*rows, fabric=cloth)
    got = [0] * len(rows)
    for strip in strips:
        for place, count in strip.pieces:
            got[place] += count
    missing = dict(plan.missing)
    for place, one in enumerate(rows):
        assert got[place] + missing.get(place, 0) >= one.count
        assert got[place] <= one.count
    assert 0 <= plan.waste <= 100


def test_squares_by_the_strip() -> None:
    assert texts(row("square", "13/2", "13/2", 12)) == [
        "Cut 2 strips 6½ by the width; from each cut 6 squares 6½."
    ]
    assert texts(row("square", "13/2", "13/2", 1)) == ["Cut 1 strip 6½ by the width; from it cut 1 square 6½."]


def test_what_to_buy_and_why() -> None:
    plan, _ = told(row("square", "13/2", "13/2", 12))
    assert plan.bought_text == "⅜\u00a0yd" and plan.bought is not None and plan.bought.exact == "27/2"
    assert plan.text == (
        "Buy ⅜\u00a0yd.",
        "No way of cutting needs less.",
        "2 strips, 1 ruler setting; 6% of the cloth is left over; the largest piece left is 1 × 6½\u00a0in.",
    )
    assert plan.length is not None and plan.length.exact == "13"
    assert plan.waste == 6  # 12 squares are 507 of 540 square inches


def test_sizes_round_up_to_the_ruler_and_cloth_rounds_down() -> None:
    narrow = replace(builds.DUSK, usable=Exact(161, 16))
    cut = planned(row("square", "2 + 1/4*sqrt(2)", "2 + 1/4*sqrt(2)"), fabric=narrow)
    (need,) = cut.asking.needs
    assert (need.width, need.height, cut.stock.width) == (19, 19, 80)


def test_steps_that_are_sold() -> None:
    one = row("square", "5", "5")
    assert planned(one).bought == 9
    assert planned(one, fabric=replace(builds.DUSK, sold=QUARTER)).bought == 9
    ten = replace(builds.DUSK, sold=Sold(step=10 * INCH_PER["cm"], by="cm"))
    plan, _ = told(one, fabric=ten)
    assert plan.bought_text == "20\u00a0cm"
    inches = replace(builds.DUSK, sold=Sold(step=Exact(1)))
    assert told(one, fabric=inches)[0].bought_text == "5\u00a0in"


def test_washing_and_a_margin_are_bought_beyond_what_is_cut() -> None:
    strips = row("strip", "5/2", "40", 7)  # 17 1/2 of cloth
    assert planned(strips).bought == 18
    washed = planned(strips, fabric=replace(builds.DUSK, shrinks=Exact(3, 100)))
    assert washed.bought == Exact(45, 2) and washed.washed == Exact(87, 4)  # 17 1/2 / 0.97 is 18.04
    margin = planned(strips, fabric=replace(builds.DUSK, margin=Exact(1)))
    assert margin.bought == Exact(45, 2) and margin.proved
    part = told(strips, fabric=replace(builds.DUSK, margin_part=Exact(1, 10), shrinks=Exact(5, 100)))[0]
    assert part.text[0] == "Buy ⅝\u00a0yd. In that, washing takes 5% and 10% is margin."


def test_fat_quarters_are_counted() -> None:
    squares = row("square", "11/2", "11/2", 20)
    plan, strips = told(squares, fabric=FAT_QUARTERS)
    assert plan.bought is None and plan.bought_text == "3 fat quarters"
    assert [(sheet.name, sheet.count) for sheet in plan.sheets] == [("fat quarter", 3)]
    assert plan.text[0] == "Buy 3 fat quarters of 20 × 18\u00a0in."
    assert plan.proved and plan.least == 3
    assert plan.text[1] == "No plan with straight strips needs fewer; no way of cutting needs fewer than 2."
    assert sum(count for strip in strips for _, count in strip.pieces) == 20
    assert strips[0].text.startswith("From each of 2 fat quarters cut 3 strips 5½")
    several, strips = told(squares, row("square", "17/2", "17/2", 2), fabric=FAT_QUARTERS)
    assert several.strips == sum(strip.strips for strip in strips)
    assert any(strip.text.startswith("From the same fat quarter cut ") for strip in strips)


def test_of_too_few_sheets_it_says_how_many_pieces_are_missing() -> None:
    few = replace(FAT_QUARTERS, sold=replace(FAT_QUARTERS.sold, only=2))
    plan, strips = told(row("square", "11/2", "11/2", 20), fabric=few)
    assert plan.missing == ((0, 2),)
    assert sum(count for strip in strips for _, count in strip.pieces) == 18


def test_what_is_on_hand_is_used_before_cloth_is_bought() -> None:
    hand = replace(builds.DUSK, scraps=(Scrap(across=Exact(9), down=Exact(21), count=2),))
    plan, strips = told(row("square", "4", "4", 20), fabric=hand)
    assert plan.text[0] == "Buy nothing: 2 scraps 9 × 21 from what you have will do."
    assert {strip.source for strip in strips} == {"scrap"}
    assert strips[0].text.startswith("From each of 2 scraps 9 × 21 cut ")
    more, _ = told(row("square", "4", "4", 30), fabric=hand)
    assert more.bought is not None and more.bought.exact == "9/2"


def test_grain_may_be_fixed() -> None:
    long = row("rectangle", "4", "30", 3)
    free = planned(long)
    fixed = planned(replace(long, lengthwise=True))
    assert free.asking.needs[0].turns and not fixed.asking.needs[0].turns
    assert (fixed.asking.needs[0].width, fixed.asking.needs[0].height) == (32, 240)
    assert fixed.plan.length == 240 and free.plan.length <= 120
    cloth = planned(long, fabric=replace(builds.DUSK, lengthwise=True))
    assert cloth.asking.needs == fixed.asking.needs
    strip = planned(row("strip", "5/2", "40", 2), fabric=replace(builds.DUSK, lengthwise=True))
    assert strip.plan.length == 40  # strips of a strip set run across as ever


def test_a_directional_piece_lies_as_it_is_written() -> None:
    upright = row("rectangle", "2", "9", 4)
    assert planned(upright, fabric=replace(builds.DUSK, directional=True)).plan.length == 72
    assert planned(upright).plan.length == 16


def test_all_long_strips_are_cut_from_one_that_is_joined_and_every_join_is_charged() -> None:
    two = row("rectangle", "9/2", "115/2", 2, joins=True)
    *_, how = texts(two)
    # 2 times 57 1/2 and two seams are 116, two strips of 40 and 36
    assert how == (
        "Sew 2 strips 4½ wide and a length of 36 end to end, seams pressed open; from the long strip cut"
        " 2 lengths of 57½."
    )
    cut = sound(planned(two))
    assert sorted((need.width, need.count) for need in cut.asking.needs) == [(288, 1), (320, 2)]
    assert cut.plan.length == 3 * 36
    _, plans = told(two)
    assert sum(count for strip in plans for _, count in strip.pieces) == 2


def test_the_shorter_strip_stands_where_no_seam_comes_near_an_end() -> None:
    four = row("rectangle", "9/2", "129/2", 4, joins=True)
    *_, how = texts(four)
    # with the shorter strip last the fifth seam, at 197 3/4, would lie 4 1/4 beyond the end of the third, at 193 1/2
    assert how.startswith("Sew 4 strips 4½ wide, a length of 21 and 2 more strips end to end in this order, ")


def test_strips_are_joined_one_by_one_where_their_ends_fit_in_what_is_left_over() -> None:
    long, filling = row("rectangle", "5", "52", 2, joins=True), row("rectangle", "5", "26", 2)
    cut = sound(planned(long, filling, fabric=replace(builds.DUSK, sold=Sold(step=Exact(5)))))
    # 52 is 40 and 12 1/2 beside 26, four strips; together 40, 40 and 25, and the 26 twice need two more
    assert cut.plan.length == 4 * 40
    assert texts(long, filling, fabric=cut.fabric)[-1] == (
        "Each strip 5 × 52 is joined end to end from 1 full strip and a length of 12½."
    )


def test_a_long_strip_is_whole_where_a_rest_along_the_selvage_holds_it() -> None:
    panel, border = row("panel", "33", "72", 1, lengthwise=True), row("rectangle", "7/2", "113/2", 2, joins=True)
    cut = sound(planned(panel, border))
    assert cut.asking.joints == () and cut.plan.length == 72 * 8
    assert cut.plan.missing == ()


@pytest.mark.parametrize(
    ("across", "down", "directional", "large"),
    [
        ("30", "50", False, ""),  # along the cloth, or joined
        ("45", "50", False, "both ways"),
        ("45", "30", True, "as it lies"),
        ("45", "50", True, "both ways"),
        ("30", "50", True, ""),
    ],
)
def test_a_piece_larger_than_the_cloth_is_told(across: str, down: str, directional: bool, large: str) -> None:
    cut = planned(row("rectangle", across, down), fabric=replace(builds.DUSK, directional=directional))
    assert dict(cut.asking.too_large).get(0, "") == large
    sound(cut)


def test_two_cuts_are_kept_to_when_asked() -> None:
    rows = (row("square", "13/2", "13/2", 9), row("rectangle", "5/2", "9/2", 24), row("square", "7/2", "7/2", 17))
    assert sound(planned(*rows, cuts=2)).plan.stages == 2


def test_a_strip_of_the_whole_width_fits_where_the_width_is_between_two_marks() -> None:
    wide = replace(builds.DUSK, usable=Exact(161, 4) + Exact(1, 16))
    cut = planned(row("strip", "5/2", "645/16", 2), fabric=wide)
    assert cut.plan.missing == () and cut.asking.joints == ()


@given(st.integers(1, 30))
def test_the_numbers_of_strips_add_up(count: int) -> None:
    plan, strips = told(row("square", "9/2", "9/2", count))
    assert plan.strips == sum(strip.strips for strip in strips) == -(-count // 8)
    assert plan.text[2].startswith(f"{plural(plan.strips, 'strip')}, 1 ruler setting;")


HANGING = """
fabric sand
fabric dusk{fabric}

block hanging
    square 30 1/2 of sand
    border 4 1/2 of dusk{border}

make 2 of hanging
"""


ALONG = ", lengthwise"


@pytest.mark.parametrize(("fabric", "border"), [("", ALONG), (ALONG, ""), (ALONG, ALONG)])
def test_borders_are_cut_along_the_selvage_where_border_or_fabric_says_so(fabric: str, border: str) -> None:
    plan = compile_source(HANGING.format(fabric=fabric, border=border)).plan
    assert plan is not None
    (cloth,) = (one for one in plan.fabric_cloth if one.fabric == "dusk")
    # eight side by side, as long as the longest of them
    assert cloth.length is not None and cloth.length.exact == "77/2"
    (cut, _) = (one for one in plan.cuts if one.fabric == "dusk")
    assert cut.label.endswith("; long side along the selvage") == bool(border)
    across = compile_source(HANGING.format(fabric="", border="")).plan
    assert across is not None and dict(across.cloth)["dusk"].exact == "36"


def texts_of_findings(text: str, **options: int) -> list[tuple[str, str]]:
    found = compile_source(text, cutting=Cutting(cuts=options.get("cuts", 3))).diagnostics
    return [(one.code, f"{one.span.text}: {one.message}; {one.hint}") for one in found]


def test_cloth_that_does_not_suffice_is_told_with_numbers() -> None:
    text = """
fabric lamp "lamplight", sold by fat-quarter, only 1
fabric reeds, directional

block tile
    square 5 1/2 of lamp

block wide
    rectangle 45 by 20 of reeds

block large
    square 50 of reeds

make 12 of tile
make 1 of wide
make 1 of large
"""
    assert texts_of_findings(text) == [
        (
            "W510",
            'fabric lamp "lamplight": of only 1 fat quarter of `lamp`, 3 squares 5½ cannot be cut; the plan is for the'
            " rest; 2 fat quarters would do: `only 2`",
        ),
        (
            "W509",
            "square 50 of reeds: the square 50 of `reeds` is larger than the cloth, 40 wide, both ways, so that no one"
            " piece of cloth gives it; make it of parts, or say how wide the cloth is: `usable 108`",
        ),
        (
            "W509",
            "rectangle 45 by 20 of reeds: the rectangle 45 by 20 of `reeds` is wider than the cloth, 40, and its"
            " direction does not let it turn; it is one piece, and there is no cloth for it; make it of parts, or of a"
            " fabric without a direction, where it may lie along the selvage",
        ),
    ]
    plan = compile_source(text).plan
    assert plan is not None and len(plan.warnings) == 3
    assert plan.fabric_cloth[0].text[1] == "There is no cloth for 3 squares 5½; this is the plan for the rest."


SMALL = """
fabric lamp, sold in sheets 4 by 20

block tile
    square 4 1/2 of lamp

make 6 of tile
"""


def test_a_square_wider_than_its_sheets_is_not_joined_but_lacking() -> None:
    found = texts_of_findings(SMALL)
    assert "the square 4½ of `lamp` is larger than a sheet, 4 by 20, both ways" in found[0][1]
    assert [code for code, _ in found] == ["W509", "W510"]
    plan = compile_source(SMALL).plan
    assert plan is not None and not plan.strips
    assert sum(count for _, count in plan.fabric_cloth[0].missing) == 6


LONG = """
fabric sand, usable 108
fabric dusk{fabric}

unit rail (cloth)
    rectangle 2 1/2 by 60 1/2 of cloth, lengthwise

block framed
    square 60 1/2 of sand
    {step}
"""


@pytest.mark.parametrize(
    ("fabric", "step", "told"),
    [
        ("", "join rectangle 2 1/2 by 60 1/2 of dusk on left", True),
        (", lengthwise", "join rectangle 2 1/2 by 60 1/2 of dusk on left", False),
        ("", "join rail(dusk) on left", False),
        ("", "border 2 1/2 of dusk on left", False),
        ("", "join rectangle 39 1/2 by 60 1/2 of dusk on left", False),
    ],
)
def test_a_long_piece_that_is_no_strip_of_a_border_lies_along_the_cloth(fabric: str, step: str, told: bool) -> None:
    text = LONG.format(fabric=fabric, step=step)
    assert [code for code, _ in texts_of_findings(text) if code != "W502"] == (["W525"] if told else [])
    plan = compile_source(text).plan
    assert plan is not None
    (cloth,) = (one for one in plan.fabric_cloth if one.fabric == "dusk")
    assert cloth.length is not None and cloth.missing == ()
    border = step.startswith("border") and not fabric
    assert cloth.length.exact == ("5" if border else "121/2")
    assert any("end to end" in how for how in cloth.how) == border


def test_a_sheet_that_is_too_small_for_a_piece_is_told() -> None:
    text = 'fabric lamp, sold in sheets 10 by 10\n\nblock tile\n    square 12 of lamp\n'
    codes = [code for code, _ in texts_of_findings(text)]
    assert codes == ["W509", "W510"]


def test_two_cuts_may_be_asked_for() -> None:
    body = "fabric a\n\nblock x\n    square 6 1/2 of a\n\nblock y\n    rectangle 2 1/2 by 4 1/2 of a\n"
    text = body + "make 9 of x\nmake 24 of y\n"
    made = compile_source(text, cutting=Cutting(cuts=2)).plan
    assert made is not None
    assert not any("one above another" in strip.text for strip in made.strips)


def test_the_command_line_may_say_how_cloth_is_sold() -> None:
    text = "fabric a\n\nblock x\n    square 6 1/2 of a\n"

    def bought(sold: str) -> str:
        plan = compile_source(text, settings={"sold": sold}).plan
        return plan.fabric_cloth[0].bought_text if plan is not None else ""

    assert [bought(sold) for sold in ("by 1/8 yard", "by 1/4 yard", "by 10 cm", "by 1 1/2")] == [
        "¼\u00a0yd", "¼\u00a0yd", "20\u00a0cm", "7½\u00a0in",
    ]  # fmt: skip
    for wrong in ("by fat-quarter", "by 0", "1/4 yard", "by the yard", "by 1 cm yard"):
        (found,) = compile_source(text, settings={"sold": wrong}).diagnostics
        assert found.code == "E214" and "`sold by 1/4 yard`" in (found.hint or "")


@given(st.text(alphabet="sold byhavenfu-1234/,. percmargthwi", max_size=40))
def test_no_clause_of_a_fabric_breaks_the_compiler(clauses: str) -> None:
    made = compile_source(f"fabric a, {clauses}\n\nblock x\n    square 6 1/2 of a\n")
    assert (made.plan is None) == made.failed
