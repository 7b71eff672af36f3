"""The seam allowance: what is cut, what finishes, and what a different seam does."""

from __future__ import annotations

import pytest
from external.harness import cuts, planned, refused, size, words
from external.rows import row

ROW = """
block row-of-squares (size, count 2)
    lay count by 1
        | square size of sand
make 1 of row-of-squares({size}, {count})
"""


@row("SA-01", "S02 Talbert, How to Make a Quilt (Storey Basics), Storey, 2014; S31 docslib lesson 1")
def test_the_seam_is_a_quarter_inch_unless_the_pattern_says_otherwise() -> None:
    plan = planned("block plain\n    square 3 1/2 of sand\n    expect 3 by 3, finished")
    assert plan.seam.exact == "1/4"


@row("SA-02", "S50 (1 in = 2.54 cm exactly, 1959 agreement)")
def test_a_quarter_inch_is_6_35_mm_exactly() -> None:
    plan = planned("block plain\n    square 100 of sand\n    expect 87.3 by 87.3, finished", units="mm", seam='1/4"')
    assert plan.seam.exact == "127/20"


@row("SA-03", "S82 UK pattern book excerpt (prints 1/4 in as 6 mm)")
def test_six_millimetres_are_not_a_quarter_inch() -> None:
    body = "block plain\n    square 100 of sand\n    expect 88 by 88, finished"
    planned(body, units="mm", seam="6")
    found = refused(body, units="mm", seam='1/4"')
    assert found.code.startswith("E4")
    assert "0.7 less" in words(found)  # two seams of 0.35 mm


@row("SA-05", "from memory, not found")
def test_a_seam_of_seven_millimetres() -> None:
    plan = planned("block plain\n    square 100 of sand\n    expect 86 by 86, finished", units="mm", seam="7")
    assert plan.seam.exact == "7"


@row("SA-06", "S31; S13 Combs 2002; S80 grannymaudsgirl 2018")
@pytest.mark.parametrize("seam", ["1/8", "1/4", "3/8", "1/2", "6 mm", "0.75 cm"])
def test_a_patch_is_cut_two_seams_larger_than_it_finishes(seam: str) -> None:
    planned(
        "block plain\n    rectangle 5 + 2 * seam by 3 + 2 * seam of sand\n    expect 5 by 3, finished",
        seam=seam,
    )


@row("SA-07", "S31 docslib lesson 1")
def test_three_inches_finished_are_cut_3_1_2() -> None:
    plan = planned("block plain\n    square 3 1/2 of sand\n    expect 3 by 3, finished")
    assert cuts(plan) == {("7/2", "7/2"): 1}


@row("SA-09", "S81 magazine maths series part 4, 2013")
def test_a_centre_over_two_of_four_columns() -> None:
    plan = planned("""
block middle (size 12)
    cell is size / 4
    end is rectangle cell + 1/2 by 2 * cell + 1/2 of sand
    lay
        end | square 2 * cell + 1/2 of dusk | end
    expect 12 by 6, finished
""")
    assert cuts(plan, "dusk") == {("13/2", "13/2"): 1}


@row("SA-10", "S79 hobby page 2008")
def test_squares_for_a_quilt_of_48_by_66() -> None:
    plan = planned("""
block field
    lay 8 by 11
        | square 6 1/2 of sand
    expect 48 by 66, finished
""")
    assert cuts(plan) == {("13/2", "13/2"): 88}


@row("SA-11", "S79 hobby page 2008")
def test_squares_for_a_rag_quilt_with_half_inch_seams() -> None:
    plan = planned(
        """
block field
    lay 10 by 13
        | square 6 of sand
    expect 50 by 65, finished
""",
        seam="1/2",
    )
    assert cuts(plan) == {("6", "6"): 130}


@row("SA-12", "common practice, no source (from memory)")
def test_the_middle_of_three_strips_shows_one_inch() -> None:
    plan = planned("""
unit drill
    strip 1 1/2 of sand
    join strip 1 1/2 of dusk on bottom
    join strip 1 1/2 of sand on bottom
    subcut 4
    expect height 3 1/2
    expect dusk at centre
make 1 of drill
""")
    assert size(plan, "drill", finished=True) == ("7/2", "3")
    # the two outer strips show 1 1/4 with one raw edge each, so the middle one shows 3 1/2 - 2 1/2
    shown = [
        cloth
        for panel in plan.units[-1].steps[-1].figure.panels[-1:]
        for cloth in panel.cloth
        if cloth.fabric == "dusk" and not cloth.tint
    ]
    heights = [y for each in shown for _, y in each.outline]
    assert max(heights) - min(heights) == pytest.approx(1, abs=1e-9)


@row("SA-13", "S83 homeschoolquilting block construction")
def test_a_thirty_second_in_sixteen_seam_edges_is_half_an_inch() -> None:
    body = ROW.format(size="2 1/2", count=9)  # eight seams, sixteen seam edges
    right = planned(body)
    wide = planned(body, seam="9/32")
    assert size(right, "row-of-squares") == ("37/2", "5/2")
    assert size(wide, "row-of-squares") == ("18", "5/2")


@row("SA-14", "common practice, no source")
@pytest.mark.parametrize(("seam", "measure"), [("15/64", "129/32"), ("7/32", "65/16")])
def test_a_scant_seam_is_a_setting_and_never_silent(seam: str, measure: str) -> None:
    body = ROW.format(size="2 1/4", count=2)
    plain = planned(body)
    assert plain.seam.exact == "1/4"
    assert size(plain, "row-of-squares")[0] == "4"
    scant = planned(body, seam=seam)
    assert scant.seam.exact == seam
    assert size(scant, "row-of-squares")[0] == measure
