"""Tables on point as they are told and drawn."""

from __future__ import annotations

from evaluate.pattern import built
from piecewright.plan.make import plan
from piecewright.plan.model import StepPlan


def steps(*lines: str, settings: str = "") -> tuple[StepPlan, ...]:
    text = f'pattern "Panes"{settings}\nfabric sand\nfabric dusk\nfabric glow\n\nquilt one\n'
    return plan(built(text + "".join(f"    {line}\n" for line in lines))).units[-1].steps


BLOCKS = ("lay 3 by 4 on point", "    | square 6 1/2 of sand")


def test_each_row_is_numbered_and_pressed_by_arrows() -> None:
    filled = steps(*BLOCKS, "fill sides and corners of dusk")[1]
    rows, whole = filled.figure.panels
    assert [label.text for label in rows.labels] == [str(n) for n in range(1, 9)]  # 6 rows of blocks, 2 corners
    assert len(rows.arrows) == 30 - 6  # one on each seam between the 18 blocks and 12 triangles of 6 rows
    assert len(whole.arrows) == 7
    assert len(whole.dimensions) == 2


def test_sides_and_corners_of_two_fabrics() -> None:
    sides, corners = steps(*BLOCKS, "fill sides of dusk", "fill corners of glow")[1:]
    assert "do not sew them yet" in sides.text
    assert len(sides.figure.panels) == 1
    assert "Sew each diagonal row together" in corners.text
