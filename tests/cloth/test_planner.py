"""Plans for cloth by the length, sheets and scraps: what is given, what is missing, what is bought."""

from __future__ import annotations

from collections import Counter

import pytest
from piecewright.plan.cloth.layout import Strip, exactly, segment_of
from piecewright.plan.cloth.model import CuttingPlan, Need, Part, Sheet, Stock
from piecewright.plan.cloth.planner import plan_cloth


def need(width: int, height: int, count: int, *, turns: bool = True) -> Need:
    return Need(width=width, height=height, count=count, turns=turns)


def given(part: Part) -> Counter[int]:
    """How many of each need a part gives in all."""
    if part.need is not None:
        return Counter({part.need: part.times})
    found: Counter[int] = Counter()
    for inner in part.parts:
        for place, count in given(inner).items():
            found[place] += count * part.times
    return found


def all_given(plan: CuttingPlan) -> dict[int, int]:
    found: Counter[int] = Counter()
    for part in [plan.roll] * (plan.roll is not None) + [used.part for used in plan.used]:
        assert part is not None
        found += given(part)
    return dict(found)


def test_strips_of_one_size() -> None:
    plan = plan_cloth([need(12, 12, 20)], Stock(width=40, step=9))
    assert (plan.length, plan.bought, plan.stages) == (84, 90, 2)
    assert all_given(plan) == {0: 20}
    assert not plan.missing


def test_pieces_turn_only_where_they_may() -> None:
    stock = Stock(width=40)
    assert plan_cloth([need(30, 10, 4)], stock).bought == 30
    assert plan_cloth([need(30, 10, 4, turns=False)], stock).bought == 40


def test_a_stack_saves_cloth_and_is_a_third_cut() -> None:
    needs = [need(20, 20, 1, turns=False), need(20, 10, 2, turns=False)]
    assert plan_cloth(needs, Stock(width=40), cuts=2).bought == 30
    plan = plan_cloth(needs, Stock(width=40))
    assert (plan.bought, plan.any_bound, plan.stages, plan.proved) == (20, 20, 3, True)


def test_like_needs_are_planned_together_and_told_apart() -> None:
    plan = plan_cloth([need(10, 4, 3), need(4, 10, 3), need(10, 4, 2, turns=False)], Stock(width=40))
    assert all_given(plan) == {0: 3, 1: 3, 2: 2}
    assert plan.bought == 8


@pytest.mark.parametrize(
    "stock", [Stock(width=0), Stock(width=40), Stock(width=0, sheets=(Sheet(width=40, height=40),))]
)
def test_what_no_cloth_gives_is_missing(stock: Stock) -> None:
    plan = plan_cloth([need(41, 50, 2), need(0, 3, 1), need(10, 10, 1)], stock)
    expected = [(0, 2), (1, 1)] + ([] if stock.width or stock.sheets else [(2, 1)])
    assert plan.missing == tuple(expected)


def test_sheets_that_run_out() -> None:
    stock = Stock(width=0, sheets=(Sheet(width=20, height=20, count=2),))
    plan = plan_cloth([need(10, 10, 9)], stock)
    assert (plan.bought, plan.missing) == (800, ((0, 1),))
    assert all_given(plan) == {0: 8}


def test_the_smaller_sheet_where_it_is_enough() -> None:
    stock = Stock(width=0, sheets=(Sheet(width=20, height=20), Sheet(width=10, height=20)))
    plan = plan_cloth([need(10, 10, 6)], stock)
    assert plan.bought == 600
    assert [(used.index, used.part.times) for used in plan.used] == [(1, 3)]  # as much as one of each, and all alike


def test_scraps_only_where_they_save_cloth() -> None:
    scraps = (Sheet(width=10, height=10, count=1), Sheet(width=12, height=12, count=3))
    saved = plan_cloth([need(10, 10, 5)], Stock(width=40, step=10, scraps=scraps))
    assert (saved.bought, [used.index for used in saved.used]) == (10, [0])
    without = plan_cloth([need(10, 10, 12)], Stock(width=40, step=10, scraps=scraps[:1]))
    assert (without.bought, without.used) == (30, ())


def test_nothing_wanted() -> None:
    plan = plan_cloth([], Stock(width=40))
    assert (plan.bought, plan.bound, plan.proved, plan.roll, plan.used) == (0, 0, True, None, ())


def test_what_is_too_much_of_a_stack_is_left_out_piece_by_piece() -> None:
    stack = segment_of([(0, 10, 5, 1), (1, 10, 4, 1)])
    strips, left = exactly([(Strip(9, ((stack, 3),)), 2)], [2, 5])
    assert left == [0, 0]
    assert sum(strip.counts().get(0, 0) * times for strip, times in strips) == 2
    assert sum(strip.counts().get(1, 0) * times for strip, times in strips) == 5


def test_one_strip_height_where_two_buy_no_less() -> None:
    plan = plan_cloth([need(10, 20, 4), need(10, 16, 2)], Stock(width=40, step=10))
    assert plan.roll is not None
    assert plan.bought == 30
    assert len({strip.height for strip in plan.roll.parts}) == 1


def test_no_sheet_is_left_while_something_is_missing() -> None:
    needs = [need(1, 10, 32), need(13, 10, 1), need(25, 52, 21, turns=False), need(7, 9, 1)]
    plan = plan_cloth(needs, Stock(width=0, sheets=(Sheet(width=48, height=54, count=5),)), solver=False)
    assert sum(used.part.times for used in plan.used) == 5
    assert plan.missing == ((2, 16),)
