"""Cloth bought by the piece, and scraps on hand."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from piecewright.plan.cloth.bounds import any_area, least_sheets
from piecewright.plan.cloth.layout import Segment, Strips, exactly
from piecewright.plan.cloth.model import Sheet
from piecewright.plan.cloth.neat_sheets import area_of, neat_sheets
from piecewright.plan.cloth.purchase import Filled, Purchase, Task
from piecewright.plan.cloth.segments import single, stacked
from piecewright.plan.cloth.sequence import corrected, first_prices, sheet_filling
from piecewright.plan.cloth.sheetlp import (
    Cut,
    SheetsField,
    SheetsRelaxed,
    area,
    column,
    cut_of,
    relax_sheets,
    rows,
)
from piecewright.plan.cloth.whole import choose_columns, solver

_ROUNDS = 4
_TABLES = 300
_POOL = 400
_NODES = 40


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
    """The least area of sheets found that gives all that is wanted and fits; if they are too few, the most pieces by
    area and then the least area."""
    sheets = task.stock.sheets
    fits = task.of_any(sheets)
    demand = [count if fit else 0 for count, fit in zip(wanted, fits, strict=True)]
    if not any(demand):
        return Purchase(0, 0, 0, 0, 0, [], [], list(wanted))
    best = _rounds(task, demand)
    given = [count - less for count, less in zip(demand, best.left, strict=True)]
    any_bound = least_sheets(any_area(task.kinds, given, sheets), sheets)
    bound = any_bound
    if best.area > bound and any(given):
        lacking = best.left
        best, bound = _relaxed(task, given, best, bound)
        best = _more(task, best, lacking)
    if any(_is_deep(one.strips) for one in best.made):
        bound = any_bound
    made = neat_sheets(task, best.made, deep=task.cuts > 2 and bound == any_bound)
    stages = 3 if any(_is_deep(one.strips) for one in made) else 2
    unfit = [0 if fit else count for count, fit in zip(wanted, fits, strict=True)]
    lacking = [less + more for less, more in zip(best.left, unfit, strict=True)]
    bought = area_of(sheets, made)
    return Purchase(bought, bought, bound, any_bound, stages if made else 0, [], made, lacking)


def _more(task: Task, best: _Bought, lacking: list[int]) -> _Bought:
    """The plan, and from sheets that it leaves what is still lacking."""
    if not any(lacking):
        return best
    rest = [sheet.count for sheet in task.stock.sheets]
    for one in best.made:
        count = rest[one.place]
        rest[one.place] = None if count is None else count - one.times
    more, left = _round(task, first_prices(task.kinds), lacking, rest)
    return _bought(task, best.made + more, left)


class _Bought(NamedTuple):
    lack: int
    area: int
    made: list[Filled]
    left: list[int]


def _rounds(task: Task, demand: Sequence[int]) -> _Bought:
    """The best of some rounds of sheet after sheet."""
    sheets = task.stock.sheets
    prices = first_prices(task.kinds)
    best: _Bought | None = None
    for _ in range(_ROUNDS):
        now = _bought(task, *_round(task, prices, demand, [sheet.count for sheet in sheets]))
        if best is None or now[:2] < best[:2]:
            best = now
        prices = corrected(task.kinds, prices, [(area(sheets[one.place]), one.strips, one.times) for one in now.made])
    assert best is not None
    return best


def _bought(task: Task, made: list[Filled], left: list[int]) -> _Bought:
    lack = sum(kind.width * kind.height * count for kind, count in zip(task.kinds, left, strict=True))
    return _Bought(lack, sum(area(task.stock.sheets[one.place]) * one.times for one in made), made, left)


def _relaxed(task: Task, demand: list[int], best: _Bought, bound: int) -> tuple[_Bought, int]:
    """A better plan from the relaxation, and the bound that this gives for two stages."""
    sheets = task.stock.sheets
    wide, high = max(sheet.width for sheet in sheets), max(sheet.height for sheet in sheets)
    plain = SheetsField(sheets, single(task.kinds, wide, high), demand)
    start = [cut_of(one.place, one.strips) for one in best.made]
    solved = relax_sheets(plain, [cut for cut in start if not _is_deep(cut.strips)], _TABLES)
    two = max(bound, least_sheets(solved.bound, sheets))
    best = _fewer(task, plain, solved, best, two)
    if task.cuts > 2 and best.area > bound:
        deep = SheetsField(sheets, stacked(task.kinds, wide, high), demand)
        best = _fewer(task, deep, relax_sheets(deep, start, _TABLES), best, bound)
    return best, two


def _fewer(task: Task, field: SheetsField, solved: SheetsRelaxed, best: _Bought, bound: int) -> _Bought:
    """The best of the plan so far, a dive, and what the solver makes of the sheets met."""
    pool: dict[tuple[int, tuple[tuple[int, int], ...]], Cut] = {}

    def met(cuts: Sequence[Cut]) -> None:
        for cut in cuts:
            pool.setdefault((cut.place, cut.counts), cut)

    met([cut_of(one.place, one.strips) for one in best.made if task.cuts > 2 or not _is_deep(one.strips)])
    met(solved.cuts)
    made: list[Filled] = []
    left, rest = list(field.demand), [sheet.count for sheet in field.sheets]
    now = solved
    while best.area > bound:
        more, lacking = _round(task, now.prices, left, rest)
        offered = _bought(task, made + more, lacking)
        if not any(lacking) and offered.area < best.area:
            best = offered
        fixed = _fixed(now.amounts, left, rest)
        if not fixed or not any(left):
            break
        made += fixed
        sheets = tuple(
            Sheet(width=sheet.width, height=sheet.height, count=count)
            for sheet, count in zip(field.sheets, rest, strict=True)
        )
        known = [cut for cut in now.cuts if all(count <= left[kind] for kind, count in cut.counts)]
        now = relax_sheets(SheetsField(sheets, field.segments, list(left)), known, _TABLES)
        met(now.cuts)
    highspy = solver(task.solver) if best.area > bound else None
    if highspy is not None:
        row_of, limit_row, right = rows(field)
        cuts = list(pool.values())[:_POOL]
        columns = [column(field, cut, row_of, limit_row) for cut in cuts]
        amounts, _ = choose_columns(highspy, columns, right, best.area - 1, bound, _NODES)
        if amounts is not None:
            chosen = [Filled(cut.place, times, cut.strips) for cut, times in zip(cuts, amounts, strict=True) if times]
            best = _bought(task, *exactly_sheets(chosen, field.demand))
    return best


def _fixed(amounts: Sequence[tuple[Cut, float]], left: list[int], rest: list[int | None]) -> list[Filled]:
    """The whole part of each sheet of the fractional plan, or if there is none the sheet with the largest part; taken
    from what is left."""
    ordered = sorted(amounts, key=lambda pair: (-pair[1], pair[0].place, pair[0].counts))
    fixed: list[Filled] = []
    for cut, amount in ordered:
        times = int(amount + 1e-6) or (1 if not fixed else 0)
        count = rest[cut.place]
        times = min([times, *(left[kind] // each for kind, each in cut.counts)] + ([] if count is None else [count]))
        if times > 0:
            fixed.append(Filled(cut.place, times, cut.strips))
            _take(left, cut.strips, times)
            rest[cut.place] = None if count is None else count - times
    return fixed


def _round(
    task: Task, prices: Sequence[int], demand: Sequence[int], number: Sequence[int | None]
) -> tuple[list[Filled], list[int]]:
    """Sheet after sheet, each the one that gives most value for its area; and what is left."""
    left = list(demand)
    rest = list(number)
    made: list[Filled] = []
    while any(left):
        best: tuple[int, int, Filled] | None = None
        for place, sheet in enumerate(task.stock.sheets):
            if rest[place] == 0 or area(sheet) <= 0:
                continue
            strips, times = _best_filling(task, sheet, prices, left, rest[place])
            if strips:
                worth = sum(
                    prices[kind] * each * often for strip, often in strips for kind, each in strip.counts().items()
                )
                if best is None or worth * best[1] > best[0] * area(sheet):
                    best = worth, area(sheet), Filled(place, times, strips)
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


def exactly_sheets(made: list[Filled], demand: Sequence[int]) -> tuple[list[Filled], list[int]]:
    """The same sheets without what they give too much of; and what they do not give."""
    left = list(demand)
    kept: list[Filled] = []
    for one in made:
        times = one.times
        counts = cut_of(one.place, one.strips).counts
        whole = min([times, *(left[kind] // each for kind, each in counts)])
        if whole:
            kept.append(Filled(one.place, whole, one.strips))
            _take(left, one.strips, whole)
        for _ in range(times - whole):
            strips, left = exactly(one.strips, left)
            if strips:
                kept.append(Filled(one.place, 1, strips))
    return kept, left
