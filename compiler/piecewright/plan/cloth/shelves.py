"""Plans as somebody would make them at the mat: strip after strip, each kind of piece lying and stacked in one way.

What is laid is said kind by kind (`Lay`): which way the pieces lie, how many of them one above another, and whether
they may go into what is left of strips that are there already. Tall strips come first, so that their rests are there
for what is lower.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from functools import lru_cache
from typing import Literal, NamedTuple

from piecewright.plan.cloth.layout import Segment, Strip, Strips, free, merged, segment_of, strip_of

Rests = Literal["none", "last", "first"]
RESTS: tuple[Rests, ...] = ("none", "last", "first")


class Lay(NamedTuple):
    """How pieces of a kind are cut. `times`: one above another in a strip of their own. `rests`: they go into no rest
    of another strip; what their last strip would hold goes into one, where one rest takes it all; or any of them go
    into the first rests there are."""

    kind: int
    width: int
    height: int
    times: int
    rests: Rests


class _Row:
    """`times` like strips; `rest` of their width is free. `strip`: what was there, if nothing was put into it."""

    __slots__ = ("height", "rest", "segments", "strip", "times")

    def __init__(
        self, height: int, rest: int, segments: tuple[tuple[Segment, int], ...], times: int, strip: Strip | None = None
    ) -> None:
        self.height, self.rest, self.segments, self.times, self.strip = height, rest, segments, times, strip


class Shelves:
    """Strips of `width` being filled; with `deep`, pieces may lie one above another. `lies`: width and height of each
    kind as it may lie in the rest of a strip. `fixed`: strips that are there."""

    def __init__(self, width: int, deep: bool, lies: Sequence[Sequence[tuple[int, int]]], fixed: Strips) -> None:
        self._width, self._deep, self._lies = width, deep, lies
        self._rows = [_Row(strip.height, free(strip, width), strip.segments, times, strip) for strip, times in fixed]

    def length(self) -> int:
        return sum(row.height * row.times for row in self._rows)

    def strips(self) -> Strips:
        return merged([(row.strip or strip_of(_gathered(row.segments)), row.times) for row in self._rows])

    def fill(self, lays: Iterable[Lay], numbers: Sequence[int]) -> None:
        """So many pieces of each kind, those of the tallest strips first and then the longest."""
        for lay in sorted(lays, key=lambda lay: (-lay.height * lay.times, -lay.width, lay.kind)):
            self._lay(lay, numbers[lay.kind])

    def _lay(self, lay: Lay, number: int) -> None:
        if lay.rests == "first":
            number = self._into_first(lay.kind, number)
        each = self._width // lay.width
        full, over = divmod(number, each * lay.times)
        if lay.rests == "last" and over and self._into_one(lay.kind, over):
            over = 0
        height = lay.height * lay.times
        if full:
            self._open(height, lay, each, 0, full)
        if over:
            self._open(height if over >= lay.times else lay.height * over, lay, *divmod(over, lay.times), 1)

    def _open(self, height: int, lay: Lay, columns: int, over: int, times: int) -> None:
        segments = _columns(lay.kind, lay.width, lay.height, lay.times, columns, over)
        self._rows.append(_Row(height, self._width - lay.width * (columns + (over > 0)), segments, times))

    def _into_first(self, kind: int, number: int) -> int:
        """Into one rest after another, lying one way in each; how many are left."""
        place = 0
        while number and place < len(self._rows):
            row = self._rows[place]
            fit = self._fit(kind, row, number)
            if fit is not None:
                wide, high, deep, room = fit
                each, times = min(number, room), min(row.times, max(number // room, 1))
                self._put(row, kind, (wide, high, deep), each, times)
                number -= each * times
            place += 1
        return number

    def _into_one(self, kind: int, number: int) -> bool:
        """All into the rest that they suit best, if there is one."""
        best: tuple[tuple[int, int], _Row, tuple[int, int, int]] | None = None
        for row in self._rows:
            fit = self._fit(kind, row, number)
            if fit is None or fit[3] < number:
                continue
            wide, high, deep, _ = fit
            new = all(segment.width != wide for segment, _ in row.segments) + (high < row.height)
            cost = new, row.rest
            if best is None or cost < best[0]:
                best = cost, row, (wide, high, deep)
        if best is None:
            return False
        self._put(best[1], kind, best[2], number, 1)
        return True

    def _fit(self, kind: int, row: _Row, number: int) -> tuple[int, int, int, int] | None:
        """How pieces lie in a rest so that it takes most of them and then in fewest ways: width, height, how many one
        above another, and how many it takes."""
        best: tuple[tuple[int, int, int], tuple[int, int, int, int]] | None = None
        for wide, high in self._lies[kind]:
            if wide > row.rest or high > row.height:
                continue
            deep = row.height // high if self._deep else 1
            room = row.rest // wide * deep
            cost = -min(room, number), int(high < row.height), wide * -(-number // deep)
            if best is None or cost < best[0]:
                best = cost, (wide, high, deep, room)
        return None if best is None else best[1]

    def _put(self, row: _Row, kind: int, lies: tuple[int, int, int], number: int, times: int) -> None:
        """So many pieces into the rest of each of so many of the row's strips."""
        wide, high, deep = lies
        times = min(times, row.times)
        columns, over = divmod(number, deep)
        segments = row.segments + _columns(kind, wide, high, deep, columns, over)
        rest = row.rest - wide * (columns + (over > 0))
        if times < row.times:
            others = _Row(row.height, row.rest, row.segments, row.times - times, row.strip)
            self._rows.insert(self._rows.index(row) + 1, others)
        row.rest, row.segments, row.times, row.strip = rest, segments, times, None


@lru_cache(maxsize=5000)
def _columns(kind: int, wide: int, high: int, deep: int, columns: int, over: int) -> tuple[tuple[Segment, int], ...]:
    found: list[tuple[Segment, int]] = []
    if columns:
        found.append((segment_of([(kind, wide, high, deep)]), columns))
    if over:
        found.append((segment_of([(kind, wide, high, over)]), 1))
    return tuple(found)


def _gathered(segments: Iterable[tuple[Segment, int]]) -> list[tuple[Segment, int]]:
    found: dict[Segment, int] = {}
    for segment, times in segments:
        found[segment] = found.get(segment, 0) + times
    return list(found.items())
