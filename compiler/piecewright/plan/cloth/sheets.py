"""Cloth bought by the piece, and scraps on hand."""

from __future__ import annotations

from collections.abc import Sequence

from piecewright.plan.cloth.bounds import sheets_area
from piecewright.plan.cloth.layout import Segment, Strips
from piecewright.plan.cloth.model import Sheet
from piecewright.plan.cloth.purchase import Filled, Purchase, Task
from piecewright.plan.cloth.segments import single, stacked
from piecewright.plan.cloth.sequence import corrected, first_prices, sheet_filling

_ROUNDS = 8


def fill_scraps(task: Task, wanted: Sequence[int], places: Sequence[int]) -> tuple[list[Filled], list[int]]:
    """The scraps at these places filled one after another, first with what cannot be cut from anything else; and what
    is left to be cut elsewhere."""
    prices = first_prices(task.kinds)
    elsewhere = task.of_roll() if task.stock.width > 0 else task.of_any(task.stock.sheets)
    most = sum(price * kind.number for price, kind in zip(prices, task.kinds, strict=True)) + 1
    prices = [price if other else price * most for price, other in zip(prices, elsewhere, strict=True)]
    left = list(wanted)
    cut: list[Filled] = []
    for place in places:
        sheet = task.stock.scraps[place]
        rest = sheet.count
        while rest is None or rest > 0:
            strips, times = _best_filling(task, sheet, prices, left, rest)
            if not strips:
                break
            cut.append(Filled(place, times, strips))
            _take(left, strips, times)
            rest = None if rest is None else rest - times
    return cut, left


def buy_sheets(task: Task, wanted: Sequence[int]) -> Purchase:
    """The least area of sheets found that gives all that is wanted and fits."""
    fits = task.of_any(task.stock.sheets)
    demand = [count if fit else 0 for count, fit in zip(wanted, fits, strict=True)]
    prices = first_prices(task.kinds)
    best: tuple[int, int, list[Filled], list[int]] | None = None
    for _ in range(_ROUNDS):
        made, left = _round(task, prices, demand)
        bought = sum(_area(task.stock.sheets[one.place]) * one.times for one in made)
        lack = sum(kind.width * kind.height * count for kind, count in zip(task.kinds, left, strict=True))
        if best is None or (lack, bought) < best[:2]:
            best = lack, bought, made, left
        prices = corrected(
            task.kinds,
            prices,
            [(_area(task.stock.sheets[one.place]), one.strips, one.times) for one in made],
        )
    assert best is not None
    _, bought, made, left = best
    given = [count - less for count, less in zip(demand, left, strict=True)]
    area = sum(kind.width * kind.height * count for kind, count in zip(task.kinds, given, strict=True))
    bound = sheets_area(area, task.stock.sheets)
    lacking = [count - less for count, less in zip(wanted, given, strict=True)]
    stages = 0 if not made else 3 if any(_is_deep(one.strips) for one in made) else 2
    return Purchase(bought, bought, bound, bound, stages, [], made, lacking)


def _round(task: Task, prices: Sequence[int], demand: Sequence[int]) -> tuple[list[Filled], list[int]]:
    """Sheet after sheet, each the one that gives most value for its area; and what is left."""
    left = list(demand)
    rest = [sheet.count for sheet in task.stock.sheets]
    made: list[Filled] = []
    while any(left):
        best: tuple[int, int, Filled] | None = None
        for place, sheet in enumerate(task.stock.sheets):
            if rest[place] == 0 or _area(sheet) <= 0:
                continue
            strips, times = _best_filling(task, sheet, prices, left, rest[place])
            if strips:
                worth = sum(
                    prices[kind] * each * often for strip, often in strips for kind, each in strip.counts().items()
                )
                if best is None or worth * best[1] > best[0] * _area(sheet):
                    best = worth, _area(sheet), Filled(place, times, strips)
        if best is None:
            break
        one = best[2]
        made.append(one)
        _take(left, one.strips, one.times)
        count = rest[one.place]
        rest[one.place] = None if count is None else count - one.times
    return made, left


def _best_filling(
    task: Task, sheet: Sheet, prices: Sequence[int], left: Sequence[int], rest: int | None
) -> tuple[Strips, int]:
    """What one such sheet is best cut into, and how many can be cut alike."""
    strips = sheet_filling(sheet.width, sheet.height, _segments(task, sheet), prices, left)
    if not strips:
        return [], 0
    counts: dict[int, int] = {}
    for strip, often in strips:
        for kind, each in strip.counts().items():
            counts[kind] = counts.get(kind, 0) + each * often
    times = min(left[kind] // each for kind, each in counts.items())
    return strips, times if rest is None else min(times, rest)


def _segments(task: Task, sheet: Sheet) -> list[Segment]:
    make = single if task.cuts < 3 else stacked
    return make(task.kinds, sheet.width, sheet.height)


def _take(left: list[int], strips: Strips, times: int) -> None:
    for strip, often in strips:
        for kind, each in strip.counts().items():
            left[kind] -= each * often * times


def _is_deep(strips: Strips) -> bool:
    return any(sum(piece[3] for piece in segment.stack) > 1 for strip, _ in strips for segment, _ in strip.segments)


def _area(sheet: Sheet) -> int:
    return max(sheet.width, 0) * max(sheet.height, 0)
