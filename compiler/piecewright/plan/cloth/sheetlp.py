"""The least area of sheets when they may be cut in fractions, by column generation, and the bound it proves.

Columns are whole sheets: the knapsack fills strips of every height, and a second one piles strips in the sheet. A sheet
of which there are only so many has a row that holds its number. The bound is worked out again in whole numbers from
the prices of the pieces alone: a sheet that is worth more than it costs can give that much at most as often as it is
there; and where there is no end of it, all prices are lowered until it is not.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from piecewright.plan.cloth.knapsack import Fillings, pile
from piecewright.plan.cloth.layout import Segment, Strips
from piecewright.plan.cloth.model import Sheet
from piecewright.plan.cloth.relax import values
from piecewright.plan.cloth.sequence import limits
from piecewright.plan.cloth.simplex import Entries, Programme

_FINE = 1 << 20


class Cut(NamedTuple):
    """A sheet, at `place` of the stock's, cut into these strips; `counts`: kind and how many of it."""

    place: int
    strips: Strips
    counts: tuple[tuple[int, int], ...]


class SheetsField(NamedTuple):
    """`segments` as for the largest sheet. `sheets` with what is left of each. `demand` of each kind."""

    sheets: tuple[Sheet, ...]
    segments: list[Segment]
    demand: list[int]


class SheetsRelaxed(NamedTuple):
    """`bound`: area below which no such plan goes. `cuts`: sheets that were found useful; `amounts`: those of the
    fractional plan. `prices` of the kinds."""

    bound: int
    cuts: list[Cut]
    amounts: list[tuple[Cut, float]]
    prices: list[int]


def area(sheet: Sheet) -> int:
    """Of one such sheet."""
    return max(sheet.width, 0) * max(sheet.height, 0)


def cut_of(place: int, strips: Strips) -> Cut:
    """The sheet cut so."""
    counts: dict[int, int] = {}
    for strip, times in strips:
        for kind, each in strip.counts().items():
            counts[kind] = counts.get(kind, 0) + each * times
    return Cut(place, strips, tuple(sorted(counts.items())))


def rows(field: SheetsField) -> tuple[dict[int, int], dict[int, int], list[int]]:
    """The row of each kind that is wanted, that of each sheet whose number is limited, and the right sides."""
    row_of = {kind: row for row, kind in enumerate(kind for kind, count in enumerate(field.demand) if count > 0)}
    limited = [place for place, sheet in enumerate(field.sheets) if sheet.count is not None]
    limit_row = {place: len(row_of) + i for i, place in enumerate(limited)}
    right = [field.demand[kind] for kind in row_of]
    return row_of, limit_row, right + [-(field.sheets[place].count or 0) for place in limited]


def column(field: SheetsField, cut: Cut, row_of: dict[int, int], limit_row: dict[int, int]) -> tuple[int, Entries]:
    """Cost and entries of a sheet."""
    entries = [(row_of[kind], count) for kind, count in cut.counts]
    if cut.place in limit_row:
        entries.append((limit_row[cut.place], -1))
    return area(field.sheets[cut.place]), tuple(sorted(entries))


def relax_sheets(field: SheetsField, start: Sequence[Cut], most: int) -> SheetsRelaxed:
    """Solve, with at most so many tables. `start`: known sheets."""
    row_of, limit_row, right = rows(field)
    missing = 10 * max(area(sheet) for sheet in field.sheets)  # what a piece costs that no sheet gives
    begun: list[tuple[int, Entries]] = [(missing, ((row, 1),)) for row in row_of.values()]
    begun += [(0, ((row, -1),)) for row in limit_row.values()]
    programme = Programme(right, begun)
    cuts: list[Cut] = []

    def take(cut: Cut) -> bool:
        new = programme.add(*column(field, cut, row_of, limit_row))
        if new:
            cuts.append(cut)
        return new

    for cut in start:
        take(cut)
    wide = max(sheet.width for sheet in field.sheets)
    bound, best = 0, [0] * len(field.demand)
    often = limits(field.segments, field.demand)
    for _ in range(most):
        programme.solve()
        prices = [0] * len(field.demand)
        for kind, row in row_of.items():
            prices[kind] = max(1, int(programme.duals[row] * _FINE))
        table = Fillings(wide, field.segments, values(field.segments, prices), often)
        worth: list[int] = []
        fresh = False
        for place, sheet in enumerate(field.sheets):
            if sheet.count == 0 or not area(sheet):
                worth.append(0)
                continue
            levels = [(high, table.value(level, sheet.width)) for level, (high, _) in enumerate(table.levels)]
            value, piled = pile(levels, sheet.height)
            worth.append(value)
            price = area(sheet) + (programme.duals[limit_row[place]] if place in limit_row else 0)
            if value > price * _FINE * (1 + 1e-7) + 1:
                strips = [
                    (table.strip(level, sheet.width), times) for level, times in sorted(piled.items(), reverse=True)
                ]
                fresh |= take(cut_of(place, strips))
        now = _bound(field, prices, worth)
        if now > bound:
            bound, best = now, prices
        if not fresh:
            best = prices
            break
    first = len(right)
    amounts = [(cuts[at - first], amount) for at, amount in sorted(programme.amounts().items()) if at >= first]
    return SheetsRelaxed(bound, cuts, amounts, best)


def _bound(field: SheetsField, prices: Sequence[int], worth: Sequence[int]) -> int:
    """The area that must be bought at least, when a sheet can be worth so much at most."""
    total = sum(price * count for price, count in zip(prices, field.demand, strict=True))
    num, den = _FINE, 1
    for sheet, value in zip(field.sheets, worth, strict=True):
        if sheet.count is None and area(sheet) and value * den > num * area(sheet):
            num, den = value, area(sheet)
    over = 0
    for sheet, value in zip(field.sheets, worth, strict=True):
        if sheet.count is not None:
            over += sheet.count * max(0, value * den - num * area(sheet))
    return max(0, -(-(total * den - over) // num))
