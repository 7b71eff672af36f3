"""Plans that somebody would cut: of those that buy the same, the one with fewest ways of cutting.

The ways are counted, and the plain plans made, by `plain`, which has no code of the planner. What is odd at the mat
was found in earlier plans, a test each; sizes are in halves or eighths of an inch.
"""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from cloth.cuttings import any_size
from cloth.plain import counted, fewest_plain, plain
from cloth.verifier import verify
from piecewright import compile_file
from piecewright.plan import yardage
from piecewright.plan.cloth.model import CuttingPlan, Need, Part, Sheet, Stock
from piecewright.plan.cloth.planner import plan_cloth
from piecewright.plan.cloth.ways import ways

EXAMPLES = sorted((Path(__file__).parents[2] / "examples").glob("*.piece"))


def need(width: float, height: float, count: int, scale: int = 2, *, turns: bool = True) -> Need:
    return Need(width=int(width * scale), height=int(height * scale), count=count, turns=turns)


def planned(needs: list[Need], stock: Stock, **options: Any) -> CuttingPlan:
    plan = plan_cloth(needs, stock, **options)
    assert verify(needs, stock, plan) == []
    assert counted(plan) == ways(plan)
    least = fewest_plain(needs, stock, plan.bought)
    assert least is None or counted(plan) <= least
    return plan


def strips(plan: CuttingPlan) -> tuple[Part, ...]:
    assert plan.roll is not None
    return plan.roll.parts


def holders(plan: CuttingPlan, place: int) -> Iterator[tuple[Part, Part]]:
    """Every kind of strip and of column in it from which pieces of a need come."""
    for strip in strips(plan):
        for column in strip.parts:
            if place in _inside(column):
                yield strip, column


def _inside(part: Part) -> set[int]:
    own = set() if part.need is None else {part.need}
    return own.union(*(_inside(one) for one in part.parts))


def lie(plan: CuttingPlan, place: int) -> set[bool]:
    """Whether pieces of a need are cut turned, or not, or both."""

    def turned(part: Part) -> Iterator[bool]:
        if part.need == place:
            yield part.turned
        for one in part.parts:
            yield from turned(one)

    return {way for strip in strips(plan) for way in turned(strip)}


def row(height: int, *columns: Part, times: int = 1) -> Part:
    return Part(width=80, height=height, times=times, split="columns", parts=columns)


def plan_of(*rows: Part) -> CuttingPlan:
    length = sum(one.height * one.times for one in rows)
    roll = Part(width=80, height=length, split="rows", parts=rows)
    return CuttingPlan(
        bought=length, length=length, bound=0, any_bound=0, proved=False, stages=2, roll=roll
    )  # fmt: skip


FIVE = Part(width=16, height=10, times=5, need=0)
TWO = Part(width=16, height=10, times=2, need=0)
OTHER = Part(width=20, height=10, times=2, need=1)
TRIMMED = Part(width=16, height=10, split="rows", parts=(Part(width=16, height=8, need=2),))
STACK = Part(width=16, height=10, times=3, split="rows", parts=(Part(width=16, height=5, times=2, need=3),))
PILE = Part(width=80, height=10, split="rows", parts=(Part(width=80, height=5, times=2, need=6),))
WHOLE = Part(width=80, height=10, need=4)


@pytest.mark.parametrize(
    ("rows", "number"),
    [
        ((row(10, FIVE),), 2),  # the strip, and five alike from it
        ((row(10, FIVE), row(10, TWO)), 2),  # fewer of them are no other kind
        ((row(10, FIVE, times=7),), 2),
        ((row(10, OTHER, TWO),), 3),
        ((row(10, OTHER, TWO), row(10, FIVE)), 4),  # cut into other pieces: another kind
        ((row(10, FIVE), row(12, Part(width=16, height=12, times=5, need=5))), 4),
        ((row(10, TRIMMED, FIVE),), 3),  # one width, and a trim
        ((row(10, STACK),), 3),
        ((row(10, STACK, FIVE),), 3),
        ((WHOLE,), 1),  # as wide as the cloth: no cut but the strip's
        ((row(10, PILE),), 2),  # and cut across only
    ],
)
def test_what_is_a_way(rows: tuple[Part, ...], number: int) -> None:
    assert ways(plan_of(*rows)) == counted(plan_of(*rows)) == number


def test_a_plain_plan_by_hand() -> None:
    """Three 4 in squares need a strip of 4; three 3 in squares go into what is left of it (8 of 20), two and then
    one in a strip of its own. Ways: strips 4 and 3; in the first 4, 3 and a trim; in the second 3."""
    needs = [need(4, 4, 3), need(3, 3, 3)]
    assert plain(needs, Stock(width=40, step=2), lambda one: (one.width, one.height)) == (14, 6)


def test_squares_of_half_a_strip_are_cut_in_two_rows() -> None:
    """Fifteen 1 1/2 squares beside a piece 3 by 24: eight in one row and seven from a strip of their own before."""
    plan = planned([need(24, 3, 1), need(1.5, 1.5, 15)], Stock(width=80, step=9))
    assert plan.bought == 9
    assert sum(strip.times for strip in strips(plan)) == 1
    assert {(strip.height, column.width, column.split) for strip, column in holders(plan, 1)} == {(6, 3, "rows")}
    assert sum(column.times for _, column in holders(plan, 1)) == 8


def test_pieces_that_stack_are_not_cut_end_to_end() -> None:
    """Two of 2 by 7 1/2 where 17 1/2 are left of a strip 4 1/2 high."""
    plan = planned([need(4.5, 4.5, 5), need(7.5, 2, 2)], Stock(width=80, step=9))
    assert [(strip.height, column.width, column.times) for strip, column in holders(plan, 1)] == [(9, 15, 1)]


def test_the_fourth_lies_like_the_other_three() -> None:
    """Four of 2 by 4 1/2 from the rest of a strip 4 1/2 high: none lying and trimmed beside three that stand."""
    for squares in (5, 6, 7):
        plan = planned([need(4.5, 4.5, squares), need(4.5, 2, 4)], Stock(width=80, step=9))
        assert plan.bought == 9
        assert lie(plan, 1) == {True}


def test_many_rectangles_lie_one_way() -> None:
    """Forty-eight of 1 1/2 by 6 1/2 beside a border 46 long: five columns upright and one lying took 14 in, seven
    upright ones take 10 1/2."""
    plan = planned([need(20, 46, 1, turns=False), need(6.5, 1.5, 48)], Stock(width=80, step=9))
    assert plan.bought == 99
    assert len(lie(plan, 1)) == 1
    assert sum(column.width * column.times for _, column in holders(plan, 1)) <= 21


def logs(count: int) -> list[Need]:
    """The logs of so many blocks, 1 1/2 wide and from 2 to 8 long, two of each but the ends."""
    return [need(long, 1.5, count * (1 if long in (2, 8) else 2)) for long in range(2, 9)]


@pytest.mark.parametrize("count", [4, 8, 16, 21])
def test_no_strip_has_more_than_four_widths(count: int) -> None:
    plan = planned(logs(count), Stock(width=80, step=9))
    assert all(len({column.width for column in strip.parts}) <= 4 for strip in strips(plan))


@pytest.mark.parametrize("count", [1, 5, 16])
def test_long_logs_come_before_short_ones(count: int) -> None:
    """Strips from tall to low and then by their longest piece; within a strip the longest first."""
    plan = planned([*logs(count), need(3, 3, 2 * count)], Stock(width=80, step=9))
    inside = [[column.width for column in strip.parts] for strip in strips(plan)]
    assert all(widths == sorted(widths, reverse=True) for widths in inside)
    order = [(-strip.height, -widths[0]) for strip, widths in zip(strips(plan), inside, strict=True)]
    assert order == sorted(order)


def test_scraps_and_sheets_are_cut_in_few_ways() -> None:
    """Twelve squares of each of two sizes from sheets that hold nine: of one size in each sheet, not mixed in all."""
    plan = planned([need(5, 5, 18), need(4.5, 4.5, 18)], Stock(width=0, sheets=(Sheet(width=30, height=30),)))
    assert sum(used.part.times for used in plan.used) == 4
    assert ways(plan) == 4
    scraps = Stock(width=80, step=9, scraps=(Sheet(width=30, height=20, count=1),))
    plan = planned([need(4.5, 4.5, 3), need(7.5, 2, 4)], scraps)
    assert plan.used and counted(plan) <= 5


def test_examples_have_no_more_ways_than_plain_plans(monkeypatch: pytest.MonkeyPatch) -> None:
    seen: list[tuple[list[Need], Stock, CuttingPlan]] = []
    real = yardage.plan_cloth

    def noted(needs: Any, stock: Stock, **options: Any) -> CuttingPlan:
        plan = real(needs, stock, **options)
        if not options.get("sketch"):  # which only tells what is worth planning
            seen.append((list(needs), stock, plan))
        return plan

    monkeypatch.setattr(yardage, "plan_cloth", noted)
    for path in EXAMPLES:
        assert compile_file(str(path)).plan is not None
    compared = 0
    for needs, stock, plan in seen:
        assert verify(needs, stock, plan) == []
        assert counted(plan) == ways(plan)
        least = None if stock.scraps else fewest_plain(needs, stock, plan.bought)
        if least is not None:
            compared += 1
            assert counted(plan) <= least
    assert compared > 50


@pytest.mark.parametrize("run", range(2))
def test_random_cuttings_have_no_more_ways_than_plain_plans(run: int) -> None:
    compared = 0
    for seed in range(12 * run, 12 * run + 12):
        needs, stock = any_size(seed)
        plan = plan_cloth(needs, stock, solver=False)
        assert counted(plan) == ways(plan), seed
        if not stock.scraps and not plan.missing:
            least = fewest_plain(needs, stock, plan.bought)
            compared += least is not None
            assert least is None or counted(plan) <= least, seed
    assert compared > 0
