"""All strips that a plan of a given length can contain, for two stages.

Prices from the relaxation say how much more a strip costs than what it gives (its *reduced cost*); a plan that is
shorter than its bound plus some gap has no strip whose reduced cost is above the gap. A strip to which something could
still be added, or that would hold the same at a lesser height, is left out: another one does as well.
"""

from __future__ import annotations

from piecewright.plan.cloth.knapsack import at_most_once
from piecewright.plan.cloth.layout import Segment, Strip
from piecewright.plan.cloth.relax import Field, Relaxed


class TooMany(Exception):
    """There are more strips, or more to look through, than asked for."""


def strips_within(field: Field, solved: Relaxed, length: int, most: int, steps: int) -> list[Strip]:
    """The strips for plans of at most that length. Segments must be single pieces, limits what is wanted of each.
    Raises TooMany beyond `most` strips or `steps` steps of the search."""
    prices = solved.prices
    total = sum(price * count for price, count in zip(prices, field.demand, strict=True))
    total += sum(price * count for price, (_, count) in zip(solved.cut_prices, field.cuts, strict=True))
    gap = length * solved.unit - total
    if gap < 0:
        return []
    found: list[Strip] = []
    left = steps
    for height in sorted({segment.height for segment in field.segments}):
        credit = sum(price for price, (high, _) in zip(solved.cut_prices, field.cuts, strict=True) if high <= height)
        least = height * solved.unit - credit - gap
        search = _Level(field, prices, height, least)
        left -= search.run(most - len(found), left)
        found += search.found
    return found


class _Level:
    """The strips of one height."""

    def __init__(self, field: Field, prices: list[int], height: int, least: int) -> None:
        narrowest: dict[int, Segment] = {}
        for segment, limit in zip(field.segments, field.limits, strict=True):
            kind = segment.stack[0][0]
            if segment.height <= height and limit > 0 and segment.width <= field.width:
                known = narrowest.get(kind)
                if known is None or segment.width < known.width:
                    narrowest[kind] = segment
        self._segments = sorted(narrowest.values(), key=lambda one: (-one.width, one.stack))
        self._limits = [field.demand[one.stack[0][0]] for one in self._segments]
        self._values = [prices[one.stack[0][0]] for one in self._segments]
        self._height, self._width, self._least = height, field.width, least
        self.found: list[Strip] = []
        rows = [[0] * (field.width + 1)]
        for one, limit, value in zip(
            reversed(self._segments), reversed(self._limits), reversed(self._values), strict=True
        ):
            row = rows[-1]
            rest, copies = min(limit, field.width // one.width), 1
            while rest:
                copies = min(copies, rest)
                row = at_most_once(row, one.width * copies, value * copies)
                rest -= copies
                copies *= 2
            rows.append(row)
        self._best = rows[::-1]  # by place: what the segments from there on are worth at most, by width

    def run(self, most: int, steps: int) -> int:
        """Find them; the number of steps it took."""
        self._most, self._left = most, steps
        if self._best[0][-1] >= self._least:
            self._search(0, self._width, 0, [])
        return steps - self._left

    def _search(self, place: int, room: int, worth: int, counts: list[int]) -> None:
        self._left -= 1
        if self._left < 0:
            raise TooMany
        if place == len(self._segments):
            self._keep(room, counts)
            return
        one, best = self._segments[place], self._best[place + 1]
        for count in range(min(self._limits[place], room // one.width), -1, -1):
            now, rest = worth + count * self._values[place], room - count * one.width
            if now + best[rest] >= self._least:
                counts.append(count)
                self._search(place + 1, rest, now, counts)
                counts.pop()

    def _keep(self, room: int, counts: list[int]) -> None:
        if not any(count and one.height == self._height for one, count in zip(self._segments, counts, strict=True)):
            return
        for one, count, limit in zip(self._segments, counts, self._limits, strict=True):
            if one.width <= room and count < limit:
                return
        if len(self.found) >= self._most:
            raise TooMany
        parts = tuple((one, count) for one, count in zip(self._segments, counts, strict=True) if count)
        self.found.append(Strip(self._height, parts))
