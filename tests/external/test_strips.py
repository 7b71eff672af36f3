"""Strip sets: their height, how many segments a set gives, and how many strips that takes."""

from __future__ import annotations

import pytest
from external.harness import cloth, planned, size, strips, unit
from external.rows import row
from piecewright.exact import Exact

RAILS = """
unit rails
    strip 2 1/2 of sand
    join strip 2 1/2 of clay on bottom
    join strip 2 1/2 of dusk on bottom
    subcut 6 1/2
    expect 6 1/2 by 6 1/2

make {count} of rails
"""
FIVE = """
unit five-strips
    strip 2 1/2 of dusk
    join strip 2 1/2 of clay on bottom
    join strip 2 1/2 of dusk on bottom
    join strip 2 1/2 of clay on bottom
    join strip 2 1/2 of sand on bottom
    subcut 10 1/2
    expect 10 1/2 by 10 1/2

make {count} of five-strips
"""


@row("STR-01", "S03 rail fence throw")
def test_three_strips_of_2_1_2_are_6_1_2_high() -> None:
    assert size(planned(RAILS.format(count=1)), "rails")[1] == "13/2"


@row("STR-02", "S03 rail fence throw")
@pytest.mark.parametrize(("count", "sets"), [(6, 1), (7, 2), (54, 9), (55, 10), (60, 10), (61, 11)])
def test_six_segments_of_6_1_2_from_a_set_42_wide(count: int, sets: int) -> None:
    plan = planned(RAILS.format(count=count), usable="42")
    assert unit(plan, "rails").makes == count
    assert [strips(plan, name) for name in ("sand", "clay", "dusk")] == [{"5/2": sets}] * 3


@row("STR-03", "S67 scrap rail fence")
@pytest.mark.parametrize(("usable", "segments"), [("40", 3), ("42", 4)])
def test_squares_from_a_set_of_five_strips(usable: str, segments: int) -> None:
    """Four of 10 1/2 are 42 to the last thread: with `margin 0`, as the source counts. With the 1/2 in that a set has
    for squaring its end, a set 42 long gives three."""
    full = planned(FIVE.format(count=segments), usable=usable)
    assert size(full, "five-strips")[1] == "21/2"
    assert strips(full, "sand") == {"5/2": 1}
    assert strips(planned(FIVE.format(count=segments + 1), usable=usable), "sand") == {"5/2": 2}


@row("STR-04", "S67")
def test_42_squares_three_to_a_set_take_14_sets() -> None:
    plan = planned(FIVE.format(count=42), usable="40")
    assert strips(plan, "sand") == {"5/2": 14}
    assert sum(strips(plan, "dusk").values()) + sum(strips(plan, "clay").values()) == 56
    quilt = planned(
        FIVE.split("make")[0]
        + """
block field
    lay 6 by 7
        | five-strips
    expect 60 by 70, finished
"""
    )
    assert unit(quilt, "five-strips").makes == 42


NINE_PATCH = """
unit band (outer, inner)
    strip 2 1/2 of outer
    join strip 2 1/2 of inner on bottom
    join strip 2 1/2 of outer on bottom
    subcut 2 1/2

block nine-patch
    lay
        band(dusk, sand) | band(sand, dusk) | band(dusk, sand)
    expect 6 by 6, finished
make {count} of nine-patch
"""


@row("STR-05", "S03 bed quilt 2014")
def test_four_nine_patches_from_half_width_strips() -> None:
    four = planned(NINE_PATCH.format(count=4), usable="21")
    # set A, two dark and one light, gives 8 segments; of set B, one dark and two light, 4 are used
    assert strips(four, "dusk") == {"5/2": 3}
    assert strips(four, "sand") == {"5/2": 2}  # set B is half a set, and its two light strips come from one
    assert cloth(four, "dusk") == Exact(15, 2)
    five = planned(NINE_PATCH.format(count=5), usable="21")
    assert strips(five, "dusk")["5/2"] > 3  # the ninth and tenth segment of set A need another set
