"""The least length when strips may be cut in fractions, by column generation, and the bound it proves.

Columns are strips; the knapsack finds the strip that is most underpriced at each height. A *strip-count cut* says that
at least so many strips are at least so high; its price only makes such strips cheaper, so the knapsack stays as it
is. The bound is worked out in whole numbers from the prices: were all prices lowered until no strip is worth more than
its height, what is wanted would still cost so much.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from piecewright.plan.cloth.knapsack import Fillings
from piecewright.plan.cloth.ladder import Ladder
from piecewright.plan.cloth.layout import Segment, Strip, strip_of
from piecewright.plan.cloth.simplex import Entries, Programme

_FINE = 1 << 20
_AT_ONCE = 8  # strips taken up from one table


class Field(NamedTuple):
    """Strips of one width. `limits`: how often each segment may be in a strip. `demand`: of each kind. `cuts`: height
    and least number of strips at least so high."""

    width: int
    segments: list[Segment]
    limits: list[int]
    demand: list[int]
    cuts: list[tuple[int, int]]


class Relaxed(NamedTuple):
    """`bound`: a whole length below which no such plan goes. `columns`: strips that were found useful. `amounts`:
    strips of the fractional plan. `prices` of kinds and `cut_prices`: whole, such that a strip costs `unit` for each
    unit of its height. A strip may be higher than what lies in it, where a cut asks for its height."""

    bound: int
    columns: list[Strip]
    amounts: list[tuple[Strip, float]]
    prices: list[int]
    cut_prices: list[int]
    unit: int
    rounds: int


def relax(field: Field, start: Sequence[Strip], ladder: Ladder, enough: int, most: int = 400) -> Relaxed:
    """Solve until the bound, raised to what is sold, can rise no more or reaches `enough`. `start`: known strips;
    `most`: tables at most."""
    kinds = [i for i, count in enumerate(field.demand) if count > 0]
    row_of = {kind: row for row, kind in enumerate(kinds)}
    programme, strips = _begun(field, kinds, row_of)

    def take(strip: Strip) -> bool:
        if programme.add(strip.height, _entries(field, strip, row_of)):
            strips.append(strip)
            return True
        return False

    for strip in (*(strip for strip in strips[: len(kinds)]), *start):
        take(strip)
    bound, best, rounds = 0, None, 0
    while True:
        programme.solve()
        duals = programme.duals
        prices = [0] * len(field.demand)
        for kind, row in row_of.items():
            prices[kind] = max(1, int(duals[row] * _FINE))  # never nothing, so that no strip stays empty
        cut_prices = [max(0, int(dual * _FINE)) for dual in duals[len(kinds) :]]
        table = Fillings(field.width, field.segments, values(field.segments, prices), field.limits)
        offers = _offers(field, table, cut_prices)
        num, den = max(((worth, height) for _, height, worth in offers), key=lambda pair: pair[0] / pair[1])
        total = sum(price * count for price, count in zip(prices, field.demand, strict=True))
        total += sum(price * count for price, (_, count) in zip(cut_prices, field.cuts, strict=True))
        now = -(-total * den // num) if num else 0
        rounds += 1
        if best is None or now > bound:
            bound, best = now, (prices, cut_prices, -(-num // den))
        if ladder.up(bound) >= min(ladder.up(int(programme.value() + 0.999)), enough) or rounds >= most:
            break
        under = [
            (worth / height, height, level)
            for level, height, worth in offers
            if level >= 0 and worth > height * _FINE + height
        ]
        under.sort(reverse=True)
        fresh = [take(Strip(height, table.strip(level, field.width).segments)) for _, height, level in under[:_AT_ONCE]]
        if not any(fresh):
            break
    amounts = [
        (strips[number], amount) for number, amount in sorted(programme.amounts().items()) if strips[number].segments
    ]
    assert best is not None
    return Relaxed(bound, [strip for strip in strips if strip.segments], amounts, *best, rounds)


def values(segments: Sequence[Segment], prices: Sequence[int]) -> list[int]:
    """What each segment is worth."""
    return [sum(prices[kind] * times for kind, _, _, times in segment.stack) for segment in segments]


def priced(field: Field, solved: Relaxed) -> list[tuple[int, int]]:
    """The cuts that have a price."""
    return [cut for cut, price in zip(field.cuts, solved.cut_prices, strict=True) if price > 0]


def _offers(field: Field, table: Fillings, cut_prices: list[int]) -> list[tuple[int, int, int]]:
    """(level of the table or -1, height, worth with the cuts) of the best strip at each height that counts."""
    heights = sorted({height for height, _ in table.levels} | {height for height, _ in field.cuts})
    found: list[tuple[int, int, int]] = []
    level = -1
    for height in heights:
        if level + 1 < len(table.levels) and table.levels[level + 1][0] == height:
            level += 1
        worth = table.levels[level][1] if level >= 0 else 0
        worth += sum(price for price, (high, _) in zip(cut_prices, field.cuts, strict=True) if high <= height)
        found.append((level, height, worth))
    return found


def _entries(field: Field, strip: Strip, row_of: dict[int, int]) -> Entries:
    found = sorted((row_of[kind], count) for kind, count in strip.counts().items())
    first = len(row_of)
    return tuple(found) + tuple((first + i, 1) for i, (high, _) in enumerate(field.cuts) if strip.height >= high)


def _begun(field: Field, kinds: list[int], row_of: dict[int, int]) -> tuple[Programme, list[Strip]]:
    """Begun with strips of one kind each, and for each cut what is lacking or too much."""
    best: dict[int, tuple[float, Strip]] = {}
    for segment, limit in zip(field.segments, field.limits, strict=True):
        made = segment.stack
        if len({piece[0] for piece in made}) != 1 or limit <= 0:
            continue
        times = min(limit, field.width // segment.width)
        kind = made[0][0]
        cost = segment.height / (times * sum(piece[3] for piece in made))
        if kind not in best or cost < best[kind][0]:
            best[kind] = cost, strip_of([(segment, times)])
    strips = [best[kind][1] for kind in kinds]
    start = [(strip.height, _entries(field, strip, row_of)) for strip in strips]
    right = [field.demand[kind] for kind in kinds]
    for i, (high, count) in enumerate(field.cuts):
        there = sum(
            field.demand[kind] / strip.counts()[kind]
            for kind, strip in zip(kinds, strips[: len(kinds)], strict=True)
            if strip.height >= high
        )
        row = len(kinds) + i
        start.append((2 * high, ((row, 1),)) if there < count else (0, ((row, -1),)))
        strips.append(Strip(high, ()))
        right.append(count)
    return Programme(right, start), strips
