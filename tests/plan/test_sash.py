"""A table that is set out first and then sewn with strips between, as it is told and drawn."""

from __future__ import annotations

import pytest
from evaluate.pattern import built
from piecewright.plan.make import plan
from piecewright.plan.model import StepPlan


def steps(across: int, down: int, sash: str) -> tuple[StepPlan, ...]:
    text = (
        "fabric sand\nfabric dusk\nfabric glow\n\nblock one\n"
        f"    lay {across} by {down}\n        | square 4 1/2 of sand\n    {sash}\n"
    )
    return plan(built(text)).units[0].steps


def test_the_table_is_set_out_and_the_sash_sews_it() -> None:
    lay, sash = steps(2, 2, "sash 1 1/2 of dusk, posts of glow")
    assert lay.text == "Lay out 2 rows of 2, as the figure shows; do not sew them yet."
    assert lay.details == ("Rows 1 and 2: 2 times sand square 4½.",)
    assert len(lay.figure.panels) == 1
    assert not lay.figure.panels[0].dimensions
    assert sash.text == (
        "Lay the sashes with them, as the figure shows: 4 dusk strips 1½ × 4½ and 1 glow square 1½. "
        "Sew each row together, then the rows to each other. Press as the arrows show."
    )
    assert len(sash.figure.panels) == 3


@pytest.mark.parametrize(
    ("across", "down", "sewn"),
    [
        (3, 1, "2 dusk strips 1½ × 4½. Sew all together from left to right."),
        (1, 3, "2 dusk strips 1½ × 4½. Sew all together from top to bottom."),
    ],
)
def test_of_one_row_or_column(across: int, down: int, sewn: str) -> None:
    told = steps(across, down, "sash 1 1/2 of dusk, press open")[1].text
    assert told == f"Lay the sashes with them, as the figure shows: {sewn} Press every seam open."


def test_every_seam_is_pressed_toward_the_sash() -> None:
    text = (
        "fabric sand\nfabric dusk\n\nblock one\n    lay 2 by 1\n        | square 4 1/2 of sand\n"
        "    sash 1 1/2 of dusk\n"
    )
    made = built(text).made[0].unit
    assert [seam.pressed for seam in made.seams] == ["right", "left"]
