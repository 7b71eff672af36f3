"""How cloth is sold, what is bought beyond what is cut, and which way long pieces lie on it."""

from __future__ import annotations

import pytest
from external.harness import bought, cloth, planned
from external.rows import row
from piecewright.exact import Exact
from piecewright.plan.model import ClothPlan

PIECE = "fabric bolt{clauses}\n\nblock plain\n    rectangle {across} by {down} of bolt\n\nmake {count} of plain\n"
YARD = Exact(36)


def of_bolt(clauses: str, across: str, down: str, count: int = 1, **settings: str) -> ClothPlan:
    body = PIECE.format(clauses=clauses, across=across, down=down, count=count)
    (found,) = planned(body, **settings).fabric_cloth
    return found


@row("YD-04", "S48 magazine 2017")
def test_a_quarter_and_an_eighth_of_a_yard_at_42() -> None:
    """What a quarter and an eighth measure: cut to the last thread, with `margin 0`."""
    quarter = of_bolt(", sold by 1/4 yard, usable 42", "42", "9")
    assert quarter.bought is not None and quarter.bought.exact == "9" and quarter.waste == 0
    eighth = of_bolt(", usable 42", "42", "4 1/2")
    assert eighth.bought is not None and eighth.bought.exact == "9/2" and eighth.bought_text == "⅛\u00a0yd"
    more = of_bolt(", sold by 1/4 yard, usable 42", "42", "9 1/8")
    assert more.bought is not None and more.bought.exact == "18"


@row("YD-06", "S48 2017; S03 2014 (9 x 22)")
@pytest.mark.parametrize(("usable", "across"), [("42", "21"), ("44", "22")])
def test_a_fat_eighth_of_cloth_42_or_44_wide(usable: str, across: str) -> None:
    found = of_bolt(f", sold by fat-eighth, usable {usable}", across, "9")
    assert [(sheet.width.exact, sheet.height.exact, sheet.count) for sheet in found.sheets] == [(across, "9", 1)]
    assert found.waste == 0
    assert sum(sheet.count for sheet in of_bolt(f", sold by fat-eighth, usable {usable}", across, "9", 2).sheets) == 2


@row("YD-07", "S50; S51 (UK)")
def test_a_metric_fat_quarter_of_cloth_110_wide() -> None:
    found = of_bolt(", sold by fat-quarter, usable 110", "55", "50", units="cm")
    assert [(sheet.width.exact, sheet.height.exact, sheet.count) for sheet in found.sheets] == [("55", "50", 1)]


@row("YD-RND", "S03 2013-2021")
def test_what_is_bought_is_in_eighths_of_a_yard_unless_another_step_is_named() -> None:
    """The strips are so many that they buy the printed length with `margin 0`. For three of the
    four an inch more would buy the next step."""
    eighth = YARD / 8
    for printed in (Exact(7, 8), Exact(9, 8), Exact(25, 8), Exact(57, 8)):
        strips = (YARD * printed / 2).floor()  # strips of 2 in, the last of which may leave less than a strip
        plan = planned(PIECE.format(clauses="", across="40", down="2", count=strips))
        assert bought(plan, "bolt") == YARD * printed
        assert (bought(plan, "bolt") / eighth).is_rational and (bought(plan, "bolt") / eighth).ratio[1] == 1
    third = of_bolt(", sold by 1/3 yard", "40", "10")
    assert third.bought is not None and third.bought.exact == "12" and third.bought_text == "⅓\u00a0yd"


@row("YD-SAFE", "S03 and S25 quilts, recomputed here")
@pytest.mark.parametrize(
    ("strips", "width", "printed"),
    [
        (11, "2 1/2", Exact(7, 8)),
        (10, "2 1/2", Exact(7, 8)),
        (20, "2 1/2", Exact(3, 2)),
        (5, "5 1/2", Exact(1)),
        (5, "2 1/2", Exact(1, 2)),
        (5, "4 1/2", Exact(5, 8)),
    ],
)
def test_printed_lengths_hold_a_margin_of_up_to_44_percent(strips: int, width: str, printed: Exact) -> None:
    """Ours is least, with `margin 0`; with the margin that the source took, in whole percent, it is what it printed.
    That percentage is worked out here from the printed length. With our usual inch instead, all but the last would buy
    no more than printed, and the five strips of 4 1/2 an eighth more, since the source left nothing."""
    plain = planned(PIECE.format(clauses="", across="42", down=width, count=strips), usable="42")
    least = cloth(plain, "bolt")
    margin = ((YARD * printed / least - 1) * 100).floor()
    assert 0 <= margin <= 44
    assert bought(plain, "bolt") <= YARD * printed
    clauses = f", margin {margin} percent" if margin else ""
    generous = planned(PIECE.format(clauses=clauses, across="42", down=width, count=strips), usable="42")
    assert bought(generous, "bolt") == YARD * printed


@row("GR-02", "S01 Clements, The Quilter's Bible, David & Charles, 2011; S98")
@pytest.mark.parametrize("clause", ["", ", lengthwise"])
def test_strips_run_from_selvage_to_selvage(clause: str) -> None:
    """16 segments of 2 1/2 are 40 to the last thread: with `margin 0` nothing is left for squaring the end of a set."""
    plan = planned(
        f"""
fabric bolt{clause}

unit band
    strip 2 1/2 of bolt
    join strip 2 1/2 of sand on bottom
    subcut 2 1/2

make 48 of band
"""
    )
    for strip in plan.strips:
        assert (strip.length.exact, strip.height.exact, strip.strips) == ("40", "5/2", 3)
    assert cloth(plan, "bolt") == Exact(15, 2)


@row("GR-03", "S69b; S98")
def test_long_borders_along_the_selvage_cost_more_cloth() -> None:
    body = "block framed\n    square 30 1/2 of sand\n    border 4 1/2 of dusk on left and right{clause}\n"
    along, across = planned(body.format(clause=", lengthwise")), planned(body.format(clause=""))
    assert cloth(along, "dusk") == Exact(61, 2) and cloth(across, "dusk") == 9
    assert bought(across, "dusk") < bought(along, "dusk")
    assert any("along the selvage" in cut.label for cut in along.cuts)


def test_centimetres_are_sold_by_ten() -> None:
    found = of_bolt("", "100", "23", units="cm")
    assert found.bought is not None and found.bought.exact == "30" and found.bought_text == "30\u00a0cm"
