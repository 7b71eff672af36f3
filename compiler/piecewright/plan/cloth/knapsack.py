"""What a strip of each height is best filled with, for given prices: one knapsack for all heights and widths.

Segments are taken up from the lowest on, so that after those of one height the table tells the best filling of a
strip just so high, for every width up to the capacity. Prices are whole numbers, so the values are exact.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import gcd

from piecewright.plan.cloth.layout import Segment, Strip, strip_of


class Fillings:
    """The table. `levels`: (height of the strip, what one of the full width is worth), rising; only heights at which a
    strip may hold more than a lower one of them.

    A row of the table is one whole number with a lane of bits for each width, the narrowest lowest; so a step of the
    knapsack is a few operations on whole numbers and not one for each width. The top bit of a lane is free: set in the
    minuend, it stays set in the difference just where the subtrahend is no greater.
    """

    def __init__(
        self, capacity: int, segments: Sequence[Segment], values: Sequence[int], limits: Sequence[int]
    ) -> None:
        """`segments` rise by height. One that has no value or whose limit is zero is passed over."""
        usable = [i for i, value in enumerate(values) if value > 0 and limits[i] > 0 and segments[i].width <= capacity]
        self._unit = gcd(*(segments[i].width for i in usable)) or 1
        room = capacity // self._unit
        most = max((values[i] * self._unit // segments[i].width + 1 for i in usable), default=0) * room
        self._lane = lane = most.bit_length() + 1
        whole = (1 << lane * (room + 1)) - 1
        ones = whole // ((1 << lane) - 1)
        tops, down = ones << lane - 1, lane - 1
        row = 0
        self._segments = segments
        self._taken: list[tuple[int, int, int, int]] = []  # row before, segment, copies, width
        self.levels: list[tuple[int, int]] = []
        self._rows: list[tuple[int, int]] = []  # by level: row, steps taken till then
        for at, i in enumerate(usable):
            width, worth = segments[i].width // self._unit, values[i]
            left, copies = min(limits[i], room // width), 1
            while left:
                copies = min(copies, left)
                self._taken.append((row, i, copies, width * copies))
                more = (row + worth * copies * ones << lane * width * copies) & whole
                kept = (row | tops) - more & tops
                row = more ^ (row ^ more) & kept - (kept >> down)
                left -= copies
                copies *= 2
            if at + 1 == len(usable) or segments[usable[at + 1]].height != segments[i].height:
                self.levels.append((segments[i].height, row >> lane * room))
                self._rows.append((row, len(self._taken)))

    def value(self, level: int, width: int) -> int:
        """What a strip of that level and width is worth at most."""
        return self._at(self._rows[level][0], width // self._unit)

    def strip(self, level: int, width: int) -> Strip:
        """A strip of that value. Of several, always the same one."""
        row, steps = self._rows[level]
        at = width // self._unit
        found: dict[int, int] = {}
        for before, i, copies, wide in reversed(self._taken[:steps]):
            if self._at(row, at) != self._at(before, at):
                found[i] = found.get(i, 0) + copies
                at -= wide
            row = before
        return strip_of((self._segments[i], times) for i, times in found.items())

    def _at(self, row: int, place: int) -> int:
        return row >> self._lane * place & (1 << self._lane) - 1


def pile(levels: Sequence[tuple[int, int]], height: int) -> tuple[int, dict[int, int]]:
    """What strips of these (height, worth) are worth most one above another in so much height, and how often each is in
    such a pile, by place."""
    row, rows = [0] * (height + 1), list[list[int]]()
    for high, worth in levels:
        rows.append(row)
        if high <= height:
            row = any_number(row, high, worth)
    at, found, best = height, dict[int, int](), row[-1]
    for place in range(len(levels) - 1, -1, -1):
        before = rows[place]
        while row[at] != before[at]:
            found[place] = found.get(place, 0) + 1
            at -= levels[place][0]
        row = before
    return best, found


def at_most_once(row: list[int], width: int, worth: int) -> list[int]:
    """The row when so much more may be put in once."""
    return row[:width] + [
        old if old > (new := less + worth) else new for old, less in zip(row[width:], row, strict=False)
    ]


def any_number(row: list[int], width: int, worth: int) -> list[int]:
    """The row when so much more may be put in as often as there is room."""
    grown = row[:width]
    append = grown.append
    for old, less in zip(row[width:], grown, strict=False):  # `grown` is read while it grows
        new = less + worth
        append(old if old > new else new)
    return grown
