"""Sequential value correction: strip after strip as the prices say, then new prices from what each piece cost.

Each round cuts, again and again, the strip that holds most value for its length, as often as it is wanted. What a
piece cost in that round (its share of the strip by area) is mixed into its price, so that a piece that came out in
wasteful strips is placed earlier in the next round. No solver is needed. The method is known from one-dimensional
cutting (Mukhacheva and others); prices are whole numbers, so the rounds are the same everywhere.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from piecewright.plan.cloth.knapsack import Fillings, pile
from piecewright.plan.cloth.layout import Kind, Segment, Strip, Strips, clipped, merged

_FINE = 1000  # prices are areas times this
_LOOKED_AT = 4  # strips of a table, of which the best is taken


def first_prices(kinds: Sequence[Kind]) -> list[int]:
    """The area of a piece, with a little more for a large one, which is hard to place late."""
    areas = [max(kind.width, 0) * max(kind.height, 0) for kind in kinds]
    largest = max(areas, default=1) or 1
    return [area * _FINE + area * area * _FINE // largest // 20 for area in areas]


def fine(prices: Sequence[int], width: int, unit: int) -> list[int]:
    """Prices of which `unit` pays for one unit of height of a strip so wide, in terms of `first_prices`."""
    return [price * width * _FINE // unit + 1 for price in prices]


def gains(segment: Segment, prices: Sequence[int]) -> int:
    """What a segment is worth."""
    return sum(prices[kind] * times for kind, _, _, times in segment.stack)


def limits(segments: Sequence[Segment], left: Sequence[int]) -> list[int]:
    """How often each segment is wanted at most."""
    return [min(left[kind] // times for kind, _, _, times in segment.stack) for segment in segments]


def roll_round(width: int, segments: Sequence[Segment], prices: Sequence[int], demand: Sequence[int]) -> Strips:
    """Strips for all that is wanted, the best for its length first. Each kind must have a single piece among the
    segments."""
    left = list(demand)
    values = [gains(segment, prices) for segment in segments]
    made: Strips = []
    while any(left):
        table = Fillings(width, segments, values, limits(segments, left))
        strip = _best_strip(table, width, prices, left)
        counts = strip.counts()
        times = min(left[kind] // each for kind, each in counts.items())
        made.append((strip, times))
        for kind, each in counts.items():
            left[kind] -= each * times
    return merged(made)


def _best_strip(table: Fillings, width: int, prices: Sequence[int], left: Sequence[int]) -> Strip:
    """The strip that is worth most for its height. To a table two segments of one kind are two kinds, so a strip of it
    may hold more than is wanted, and one that is worth less in the table may be worth more when that is taken out."""
    levels = sorted(range(len(table.levels)), key=lambda i: (-table.levels[i][1] / table.levels[i][0], i))
    best, most = Strip(0, ()), 0.0
    for level in levels[:_LOOKED_AT]:
        height, worth = table.levels[level]
        if worth / height <= most:
            break
        strip = clipped(table.strip(level, width), left)
        real = sum(gains(segment, prices) * times for segment, times in strip.segments) / strip.height
        if real > most:
            best, most = strip, real
    return best


def corrected(kinds: Sequence[Kind], prices: Sequence[int], made: Iterable[tuple[int, Strips, int]]) -> list[int]:
    """Prices half as before, half as the pieces cost. `made`: cost of a piece of cloth, the strips it is cut into, and
    how many are cut so."""
    total = [0] * len(kinds)
    number = [0] * len(kinds)
    for cost, strips, times in made:
        counts: dict[int, int] = {}
        for strip, often in strips:
            for kind, each in strip.counts().items():
                counts[kind] = counts.get(kind, 0) + each * often
        used = sum(kinds[kind].width * kinds[kind].height * each for kind, each in counts.items())
        for kind, each in counts.items():
            total[kind] += cost * kinds[kind].width * kinds[kind].height * _FINE * each // used * times
            number[kind] += each * times
    return [(price + total[i] // number[i]) // 2 if number[i] else price for i, price in enumerate(prices)]


def roll_rounds(
    width: int, kinds: Sequence[Kind], segments: Sequence[Segment], demand: Sequence[int], rounds: int
) -> Iterator[Strips]:
    """One plan after another, `rounds` at most."""
    prices = first_prices(kinds)
    seen: set[tuple[int, ...]] = set()
    for _ in range(rounds):
        made = roll_round(width, segments, prices, demand)
        yield made
        prices = corrected(kinds, prices, [(width * strip.height, [(strip, 1)], times) for strip, times in made])
        if tuple(prices) in seen:
            return
        seen.add(tuple(prices))


def sheet_filling(
    width: int, height: int, segments: Sequence[Segment], prices: Sequence[int], demand: Sequence[int]
) -> Strips:
    """Strips for one sheet, worth much. Strip by strip: the tallest of the best pile of strips is cut, then the
    rest of the sheet is looked at again with what is still wanted."""
    left = list(demand)
    values = [gains(segment, prices) for segment in segments]
    made: Strips = []
    rest = height
    while rest > 0:
        table = Fillings(width, segments, values, limits(segments, left))
        level, times = _tallest_of_pile(table, width, rest)
        if times == 0:
            break
        strip = clipped(table.strip(level, width), left)
        counts = strip.counts()
        times = min(times, *(left[kind] // each for kind, each in counts.items()))
        made.append((strip, times))
        rest -= strip.height * times
        for kind, each in counts.items():
            left[kind] -= each * times
    return merged(made)


def _tallest_of_pile(table: Fillings, width: int, height: int) -> tuple[int, int]:
    """Of the strips that together are worth most and fit in the height, the tallest, and how often it is in it."""
    _, found = pile([(high, table.value(level, width)) for level, (high, _) in enumerate(table.levels)], height)
    if not found:
        return 0, 0
    tallest = max(found)
    return tallest, found[tallest]
