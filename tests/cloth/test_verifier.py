"""The verifier passes sound plans and finds each fault a plan can have."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest
from cloth.verifier import Placed, _layout_faults, verify
from piecewright.plan.cloth.model import CuttingPlan, Need, Part, Sheet, Stock, Used

NEEDS = [Need(width=4, height=3, count=3), Need(width=2, height=5, count=2, turns=False)]
STOCK = Stock(width=10, step=4)


def cell(need: int, times: int = 1, turned: bool = False) -> Part:
    one = NEEDS[need]
    wide, high = (one.height, one.width) if turned else (one.width, one.height)
    return Part(width=wide, height=high, times=times, need=need, turned=turned)


def rows(width: int, height: int, *parts: Part, times: int = 1) -> Part:
    return Part(width=width, height=height, times=times, split="rows", parts=parts)


def columns(width: int, height: int, *parts: Part, times: int = 1) -> Part:
    return Part(width=width, height=height, times=times, split="columns", parts=parts)


LOW = columns(10, 3, cell(0, times=2))
TRIMMED = rows(3, 5, cell(0, turned=True))
HIGH = columns(10, 5, cell(1, times=2), TRIMMED)
ROLL = rows(10, 8, LOW, HIGH)
PLAN = CuttingPlan(bought=8, length=8, bound=8, any_bound=8, proved=True, stages=2, roll=ROLL)

SHEETS = Stock(width=0, scraps=(Sheet(width=9, height=4, count=1),), sheets=(Sheet(width=6, height=6),))
SCRAP = columns(9, 4, rows(4, 4, cell(0), times=2))
SHEET = rows(6, 6, columns(6, 5, cell(1, times=2)))
THIRD = rows(6, 6, columns(6, 3, cell(0)))
PIECEMEAL = CuttingPlan(
    bought=72,
    length=0,
    bound=36,
    any_bound=36,
    proved=False,
    stages=2,
    roll=None,
    used=(
        Used(source="scrap", index=0, part=SCRAP),
        Used(source="sheet", index=0, part=SHEET),
        Used(source="sheet", index=0, part=THIRD),
    ),
)


def test_sound_plans_have_no_faults() -> None:
    assert verify(NEEDS, STOCK, PLAN) == []
    assert verify(NEEDS, SHEETS, PIECEMEAL) == []
    nothing = CuttingPlan(bought=0, length=0, bound=0, any_bound=0, proved=True, stages=0, roll=None)
    assert verify([], STOCK, nothing) == []


def test_what_is_wider_than_the_cloth_is_missing() -> None:
    needs = [*NEEDS, Need(width=11, height=12, count=2)]
    assert verify(needs, STOCK, replace(PLAN, missing=((2, 2),))) == []


def with_roll(*parts: Part, **changes: Any) -> CuttingPlan:
    return replace(PLAN, roll=replace(ROLL, parts=parts), **changes)


FAULTY: dict[str, tuple[CuttingPlan, str]] = {
    "a piece too few": (with_roll(replace(LOW, parts=(cell(0),)), HIGH), "need 0: 2 cut"),
    "a piece too many": (
        with_roll(LOW, replace(HIGH, parts=(cell(1, times=3), TRIMMED))),
        "need 1: 3 cut and 0 missing, but 2",
    ),
    "missing although it fits": (
        with_roll(replace(LOW, parts=(cell(0),)), HIGH, missing=((0, 1),)),
        "need 0: called missing, but the cloth by length",
    ),
    "missing of no need": (replace(PLAN, missing=((5, 1),)), "missing: 1 of need 5"),
    "a strip too narrow": (with_roll(replace(LOW, width=9), HIGH), "rows 0: 9 wide, but a cut across leaves 10"),
    "a segment too low": (
        with_roll(LOW, replace(HIGH, parts=(cell(1, times=2), rows(3, 4, cell(0, turned=True))))),
        "rows 1 columns 1: 4 high, but a cut along leaves 5",
    ),
    "an untrimmed piece": (
        with_roll(replace(LOW, height=4, parts=(replace(cell(0, times=2), height=4),)), HIGH),
        "4 by 4, but need 0 is 4 by 3",
    ),
    "strips longer than the cloth": (replace(PLAN, roll=replace(ROLL, height=7)), "rows take 8 of 7"),
    "columns wider than the strip": (
        with_roll(replace(LOW, parts=(cell(0, times=3),)), replace(HIGH, parts=(cell(1, times=2),))),
        "columns take 12 of 10",
    ),
    "a fixed piece turned": (
        with_roll(rows(10, 3, columns(10, 3, cell(0, times=2))), columns(10, 5, rows(5, 5, cell(1, turned=True)))),
        "need 1 must not be turned",
    ),
    "turned only in name": (
        with_roll(replace(LOW, parts=(replace(cell(0, times=2), turned=True),)), HIGH),
        "4 by 3, but need 0 is 3 by 4",
    ),
    "cut along first": (replace(PLAN, roll=columns(10, 8, rows(10, 8, LOW, HIGH))), "roll: not cut across first"),
    "another width of cloth": (replace(PLAN, roll=rows(11, 8, LOW, HIGH)), "roll: 11 wide, but the cloth is 10"),
    "two rolls": (replace(PLAN, roll=replace(ROLL, times=2)), "roll: 2 of it"),
    "a piece cut again": (
        with_roll(replace(LOW, parts=(replace(cell(0, times=2), split="rows", parts=(cell(1),)),)), HIGH),
        "a piece that is cut again",
    ),
    "a cut into nothing": (with_roll(LOW, HIGH, rows(10, 1), length=9, bought=12), "cut into no parts"),
    "parts without a cut": (with_roll(replace(LOW, split=None), HIGH), "parts, but no cut"),
    "a part of no size": (with_roll(LOW, HIGH, Part(width=10, height=0)), "1 of 10 by 0 is nothing"),
    "turned rest": (with_roll(LOW, HIGH, Part(width=10, height=1, turned=True)), "turned, but no piece"),
    "a need that is not there": (with_roll(replace(LOW, parts=(replace(cell(0), need=7),)), HIGH), "no need 7"),
    "length too short": (replace(PLAN, length=7), "length: 7 claimed, but 8 is cut"),
    "bought off the step": (replace(PLAN, bought=9), "bought: 9 is no multiple of 4"),
    "bought too much": (replace(PLAN, bought=12, proved=False), "bought: 12 for a length of 8"),
    "bought too little": (replace(PLAN, bought=4, bound=4, any_bound=4), "bought: 4 for a length of 8"),
    "a bound off the step": (replace(PLAN, bound=7, any_bound=4, proved=False), "bound: 7 is no multiple of 4"),
    "a bound above": (replace(PLAN, bound=12, proved=False), "bounds: not 0 <= 8 <= 12 <= 8"),
    "bounds the wrong way": (replace(PLAN, bound=4, proved=False), "bounds: not 0 <= 8 <= 4"),
    "proved too much": (replace(PLAN, bound=4, any_bound=4), "proved: True, but 8"),
    "proved too little": (replace(PLAN, proved=False), "proved: False, but 8"),
    "fewer stages claimed": (replace(PLAN, stages=1), "stages: 1 claimed, but the cuts make it 2"),
    "more stages claimed": (replace(PLAN, stages=4), "stages: 4 claimed"),
    "sheets beside cloth by length": (
        replace(PLAN, used=(Used(source="sheet", index=0, part=SHEET),)),
        "sheet 0: not in the stock",
    ),
}


@pytest.mark.parametrize("fault", FAULTY)
def test_each_fault_of_a_plan_is_found(fault: str) -> None:
    plan, said = FAULTY[fault]
    assert [line for line in verify(NEEDS, STOCK, plan) if said in line], verify(NEEDS, STOCK, plan)


SHEET_FAULTS: dict[str, tuple[CuttingPlan, str]] = {
    "a scrap used twice": (
        replace(PIECEMEAL, used=(Used(source="scrap", index=0, part=replace(SCRAP, times=2)),)),
        "scrap 0: used 2 times, but there are 1",
    ),
    "a sheet of another size": (
        replace(PIECEMEAL, used=(Used(source="sheet", index=0, part=rows(7, 6, columns(7, 5, cell(1, times=2)))),)),
        "sheet 0: cut as 7 by 6, but it is 6 by 6",
    ),
    "cloth by length": (replace(PIECEMEAL, roll=ROLL), "roll: there is no cloth by length"),
    "another area": (replace(PIECEMEAL, bought=36, proved=True), "bought: 36 claimed, but the sheets used have 72"),
    "missing beside an unused sheet": (
        replace(PIECEMEAL, bought=36, proved=True, used=PIECEMEAL.used[:2], missing=((0, 1),)),
        "need 0: called missing, but it fits a sheet that is left",
    ),
}


@pytest.mark.parametrize("fault", SHEET_FAULTS)
def test_each_fault_of_the_use_of_sheets_is_found(fault: str) -> None:
    plan, said = SHEET_FAULTS[fault]
    assert [line for line in verify(NEEDS, SHEETS, plan) if said in line], verify(NEEDS, SHEETS, plan)


def test_a_third_cut_is_told_from_a_trim() -> None:
    """Two stacked in a segment are a third stage; one trimmed at both sides is not."""
    small = Part(width=2, height=2, need=0)
    stack = rows(2, 4, replace(small, times=2))
    plan = CuttingPlan(bought=4, length=4, bound=4, any_bound=4, proved=True, stages=3, roll=None)
    beside = replace(plan, roll=rows(10, 4, columns(10, 4, stack, rows(2, 4, small, small))))
    assert verify([Need(width=2, height=2, count=4)], STOCK, beside) == []
    assert verify([Need(width=2, height=2, count=4)], STOCK, replace(beside, stages=2)) != []
    alone = replace(plan, roll=rows(10, 4, columns(10, 4, rows(3, 4, columns(3, 2, small)), Part(width=1, height=4))))
    assert verify([Need(width=2, height=2, count=1)], STOCK, alone) != []
    assert verify([Need(width=2, height=2, count=1)], STOCK, replace(alone, stages=2)) == []


def test_overlaps_and_windmills_are_found_by_coordinates_alone() -> None:
    side = [Placed(0, 0, 2, 1, 0), Placed(2, 0, 3, 2, 0), Placed(1, 2, 3, 3, 0), Placed(0, 1, 1, 3, 0)]
    assert list(_layout_faults(side, 3, 3)) == ["the pieces cannot be parted by through cuts"]
    assert list(_layout_faults(side[:3], 3, 3)) == []
    assert "overlaps" in " ".join(_layout_faults([*side, Placed(0, 0, 1, 1, 1)], 3, 3))
    assert "reaches beyond" in " ".join(_layout_faults(side, 3, 2))
