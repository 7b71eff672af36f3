"""Strips and what lies in them, before they become parts of a plan.

A *kind* is all needs of one size and freedom to turn; plans are made for kinds and told for needs. A *segment* is
the length of a strip that one column of it takes: a piece, copies of it one above another, or a stack of several
pieces. A *strip* is a height and its segments.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import NamedTuple

from piecewright.plan.cloth.model import Need, Part


class Kind(NamedTuple):
    """Needs alike but for their place. Where they may turn, `width` is the shorter side. `needs`: place and number of
    each."""

    width: int
    height: int
    turns: bool
    number: int
    needs: tuple[tuple[int, int], ...]


class Segment(NamedTuple):
    """A column of a strip, at least `height` high. `stack`: (kind, width, height, times) from the top."""

    height: int
    width: int
    stack: tuple[tuple[int, int, int, int], ...]


class Strip(NamedTuple):
    """`segments`: what lies side by side, each with how often."""

    height: int
    segments: tuple[tuple[Segment, int], ...]

    def counts(self) -> dict[int, int]:
        """How many of each kind one such strip gives."""
        found: dict[int, int] = {}
        for segment, times in self.segments:
            for kind, _, _, each in segment.stack:
                found[kind] = found.get(kind, 0) + each * times
        return found


Strips = list[tuple[Strip, int]]
"""Strips, each with how often it is cut."""


def strip_of(segments: Iterable[tuple[Segment, int]]) -> Strip:
    """The lowest strip that holds these, the tallest and longest first."""
    ordered = sorted(
        (pair for pair in segments if pair[1] > 0), key=lambda pair: (-pair[0].height, -pair[0].width, pair[0].stack)
    )
    return Strip(max((segment.height for segment, _ in ordered), default=0), tuple(ordered))


def kinds_of(needs: Sequence[Need]) -> list[Kind]:
    """The kinds, in the order in which they are first needed."""
    found: dict[tuple[int, int, bool], list[tuple[int, int]]] = {}
    for place, need in enumerate(needs):
        if need.count > 0:
            turns = need.turns or need.width == need.height
            sides = (min(need.width, need.height), max(need.width, need.height)) if turns else (need.width, need.height)
            found.setdefault((*sides, turns), []).append((place, need.count))
    return [Kind(*sides, sum(count for _, count in places), tuple(places)) for sides, places in found.items()]


def ways(kind: Kind) -> list[tuple[int, int]]:
    """Width and height of a piece as it may lie."""
    if kind.turns and kind.width != kind.height:
        return [(kind.width, kind.height), (kind.height, kind.width)]
    return [(kind.width, kind.height)]


def clipped(strip: Strip, left: Sequence[int]) -> Strip:
    """The strip without what is more than `left` of a kind."""
    rest = list(left)
    kept: list[tuple[Segment, int]] = []
    for segment, times in strip.segments:
        needed = _per_kind(segment)
        whole = min(times, *(rest[kind] // each for kind, each in needed.items()))
        for kind, each in needed.items():
            rest[kind] -= whole * each
        kept.append((segment, whole))
        for _ in range(times - whole):  # a stack of several kinds may still hold some when one is no longer wanted
            stack: list[tuple[int, int, int, int]] = []
            for kind, width, height, each in segment.stack:
                some = min(each, rest[kind])
                rest[kind] -= some
                if some:
                    stack.append((kind, width, height, some))
            if not stack:
                break
            kept.append((segment_of(stack), 1))
    return strip_of(kept)


def segment_of(stack: Sequence[tuple[int, int, int, int]]) -> Segment:
    """The column that holds these pieces one above another, the widest at the top."""
    ordered = tuple(sorted(stack, key=lambda item: (-item[1], -item[2], item[0])))
    return Segment(sum(height * times for _, _, height, times in ordered), max(item[1] for item in ordered), ordered)


def _per_kind(segment: Segment) -> dict[int, int]:
    found: dict[int, int] = {}
    for kind, _, _, each in segment.stack:
        found[kind] = found.get(kind, 0) + each
    return found


def exactly(strips: Strips, demand: Sequence[int]) -> tuple[Strips, list[int]]:
    """The same strips without what they give too much of, from the tallest on; and what they do not give."""
    left = list(demand)
    made: Strips = []
    for strip, times in sorted(strips, key=lambda pair: (-pair[0].height, -pair[1], pair[0].segments)):
        while times > 0:
            counts = strip.counts()
            whole = min(times, *(left[kind] // each for kind, each in counts.items()))
            if whole:
                made.append((strip, whole))
                for kind, each in counts.items():
                    left[kind] -= whole * each
                times -= whole
            else:
                strip = clipped(strip, left)
                if not strip.segments:
                    break
    return merged(made), left


def merged(strips: Strips) -> Strips:
    """Like strips together, from the tallest to the lowest."""
    found: dict[Strip, int] = {}
    for strip, times in strips:
        found[strip] = found.get(strip, 0) + times
    return sorted(found.items(), key=lambda pair: (-pair[0].height, -pair[1], pair[0].segments))


def free(strip: Strip, width: int) -> int:
    """What of the width is left beside all that lies in a strip."""
    return width - sum(segment.width * times for segment, times in strip.segments)


def length_of(strips: Strips) -> int:
    """The length that the strips take together."""
    return sum(strip.height * times for strip, times in strips)


def _as_cut(one: tuple[Strip, int]) -> tuple[int, list[tuple[int, int]], int]:
    strip, times = one
    return -strip.height, sorted((-segment.width, -segment.height) for segment, _ in strip.segments), -times


class Teller:
    """Turns strips of kinds into parts with needs; the needs of a kind are given out in their order."""

    def __init__(self, kinds: Sequence[Kind], needs: Sequence[Need]) -> None:
        self._needs = needs
        self._left = [[list(pair) for pair in kind.needs] for kind in kinds]

    def missing(self) -> list[tuple[int, int]]:
        """What has not been given out: place of the need, and how many."""
        return sorted((place, count) for kind in self._left for place, count in kind if count)

    def strips(self, width: int, strips: Strips, sheets: int = 1) -> tuple[Part, ...]:
        """Rows of that width, in each of so many sheets; the tallest first, then those of the longest pieces."""
        rows: list[Part] = []
        for strip, times in sorted(strips, key=_as_cut):
            counts = strip.counts()
            while times > 0:
                plain = min(times, *(self._next(kind) // (each * sheets) for kind, each in counts.items()))
                now = max(plain, 1)
                rows.append(self._strip(width, strip, now, sheets, mixed=plain == 0))
                times -= now
        return tuple(rows)

    def sheet(self, width: int, height: int, strips: Strips, times: int) -> Part:
        """So many sheets cut into these strips."""
        rows = self.strips(width, strips, times)
        return Part(width=width, height=height, times=times, split="rows", parts=rows)

    def alike(self, strips: Strips) -> int:
        """How many sheets with these strips can be told together, at least one."""
        counts: dict[int, int] = {}
        for strip, times in strips:
            for kind, each in strip.counts().items():
                counts[kind] = counts.get(kind, 0) + each * times
        return max(1, min((self._next(kind) // each for kind, each in counts.items()), default=1))

    def take(self, kind: int, count: int) -> None:
        """Give out `count` of the need of a kind that comes next."""
        queue = self._left[kind]
        while queue and queue[0][1] == 0:
            queue.pop(0)
        queue[0][1] -= count
        assert queue[0][1] >= 0

    def _next(self, kind: int) -> int:
        """How many are left of the need that comes next."""
        return next((count for _, count in self._left[kind] if count), 0)

    def _strip(self, width: int, strip: Strip, times: int, sheets: int, *, mixed: bool) -> Part:
        parts: list[Part] = []
        for segment, often in sorted(strip.segments, key=lambda pair: (-pair[0].width, -pair[0].height)):
            for _ in range(often if mixed else 1):
                parts.append(self._segment(segment, strip.height, 1 if mixed else often, times * sheets, mixed))
        if len(parts) == 1 and parts[0].times == 1 and parts[0].width == width and parts[0].split is None:
            return _times(parts[0], times)
        return Part(width=width, height=strip.height, times=times, split="columns", parts=tuple(parts))

    def _segment(self, segment: Segment, height: int, often: int, strips: int, mixed: bool) -> Part:
        rows: list[Part] = []
        for kind, wide, high, each in segment.stack:
            for _ in range(each if mixed else 1):
                alike = 1 if mixed else each
                place = next(place for place, count in self._left[kind] if count)
                self.take(kind, alike * often * strips)
                turned = (wide, high) != (self._needs[place].width, self._needs[place].height)
                piece = Part(width=wide, height=high, need=place, turned=turned)
                if wide < segment.width:
                    piece = Part(width=segment.width, height=high, split="columns", parts=(piece,))
                rows.append(_times(piece, alike))
        if len(rows) == 1 and rows[0].times == 1 and rows[0].height == height:
            return _times(rows[0], often)
        return Part(width=segment.width, height=height, times=often, split="rows", parts=tuple(rows))


def _times(part: Part, times: int) -> Part:
    return Part(
        width=part.width,
        height=part.height,
        times=times,
        split=part.split,
        parts=part.parts,
        need=part.need,
        turned=part.turned,
    )
