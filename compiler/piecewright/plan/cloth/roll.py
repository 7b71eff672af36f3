"""Cloth bought by the length."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from piecewright.plan.cloth.bounds import roll_length, up
from piecewright.plan.cloth.layout import Kind, Strips, length_of
from piecewright.plan.cloth.purchase import Purchase, Task
from piecewright.plan.cloth.segments import single, stacked
from piecewright.plan.cloth.sequence import best_of, roll_rounds

_ROUNDS = 12


def buy_length(task: Task, wanted: Sequence[int]) -> Purchase:
    """The shortest length found that gives all that is wanted and fits the width."""
    width, step = task.stock.width, task.stock.step
    fits = task.of_roll()
    demand = [count if fit else 0 for count, fit in zip(wanted, fits, strict=True)]
    lacking = [0 if fit else count for count, fit in zip(wanted, fits, strict=True)]
    if not any(demand):
        return Purchase(0, 0, 0, 0, 0, [], [], lacking)
    kinds = [kind._replace(number=count) for kind, count in zip(task.kinds, demand, strict=True)]
    any_bound = up(roll_length([kind for kind in kinds if kind.number], width), step)
    strips = best_of(_two(task, kinds, demand), step, any_bound)
    stages = 2
    if task.cuts > 2 and up(length_of(strips), step) > any_bound:
        tallest = max(max(kind.width, kind.height) for kind in kinds if kind.number)
        segments = stacked(kinds, width, max(tallest, width * 3 // 5))
        deep = best_of(roll_rounds(width, kinds, segments, demand, _ROUNDS), step, any_bound)
        if up(length_of(deep), step) < up(length_of(strips), step):
            strips, stages = deep, 3
    length = length_of(strips)
    return Purchase(up(length, step), length, any_bound, any_bound, stages, strips, [], lacking)


def _two(task: Task, kinds: Sequence[Kind], demand: Sequence[int]) -> Iterator[Strips]:
    width = task.stock.width
    tallest = max(max(kind.width, kind.height) for kind in kinds if kind.number)
    return roll_rounds(width, kinds, single(kinds, width, tallest), demand, _ROUNDS)
