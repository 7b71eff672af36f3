"""Cloth bought by the length."""

from __future__ import annotations

from collections.abc import Sequence

from piecewright.plan.cloth.bounds import bar_field, roll_length, strip_counts
from piecewright.plan.cloth.layout import Kind, length_of
from piecewright.plan.cloth.purchase import Purchase, Task
from piecewright.plan.cloth.relax import relax
from piecewright.plan.cloth.search import FEW_STRIPS, Search
from piecewright.plan.cloth.segments import single, stacked


def buy_length(task: Task, wanted: Sequence[int]) -> Purchase:
    """The shortest length found that gives all that is wanted and fits the width."""
    width, ladder = task.stock.width, task.stock.ladder
    fits = task.of_roll()
    demand = [count if fit else 0 for count, fit in zip(wanted, fits, strict=True)]
    lacking = [0 if fit else count for count, fit in zip(wanted, fits, strict=True)]
    if not any(demand):
        return Purchase(0, 0, 0, 0, 0, [], [], lacking)
    kinds = [kind._replace(number=count) for kind, count in zip(task.kinds, demand, strict=True)]
    any_bound = ladder.up(roll_length(kinds, width))
    two = _two(task, kinds, any_bound)
    two.quick()
    if task.sketch:
        bought, bound = ladder.sold(two.room), ladder.sold(any_bound)
        return Purchase(bought, length_of(two.strips), bound, bound, 2, two.strips, [], lacking)
    if two.open():
        any_bound = max(any_bound, ladder.up(relax(bar_field(kinds, width), [], ladder, two.room).bound))
        two.bound = any_bound
    two.relaxed()
    best = two
    if task.cuts > 2 and two.room > any_bound:
        three = _three(task, kinds, any_bound)
        three.quick()
        three.relaxed()
        three.stack_more()
        three.thorough()
        if three.room < two.room:
            best = three
    if best is two or three.room >= two.bound:
        two.exact(FEW_STRIPS)
        two.thorough()
        two.exact()
        if two.room <= best.room:
            best = two
    bound = two.bound if best is two else any_bound
    best.tidy(deep=task.cuts > 2 and bound == any_bound)
    bought, bound, any_bound = (ladder.sold(room) for room in (best.room, bound, any_bound))
    stages = 2 if best is two else 3
    return Purchase(bought, length_of(best.strips), bound, any_bound, stages, best.strips, [], lacking)


def _two(task: Task, kinds: Sequence[Kind], bound: int) -> Search:
    """Strips and sub-cuts."""
    width = task.stock.width
    segments = single(kinds, width, max(kind.height for kind in kinds if kind.number))
    return Search(width, task.stock.ladder, kinds, segments, strip_counts(kinds, width), bound, task.solver)


def _three(task: Task, kinds: Sequence[Kind], bound: int) -> Search:
    """Also stacks in a strip; strips are as high as the tallest piece or as can well be ruled, if that is more."""
    width = task.stock.width
    height = max(width * 3 // 5, *(kind.height for kind in kinds if kind.number))
    return Search(width, task.stock.ladder, kinds, stacked(kinds, width, height), [], bound, task.solver)
