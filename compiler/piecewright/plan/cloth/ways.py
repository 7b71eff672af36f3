"""Ways of cutting: how often somebody at the mat has to think anew, by which plans that buy the same are told apart.

A *way* is one ruler setting in one direction on one kind of cloth, strip or segment. What is cut is of one kind where
it is as large and is cut on alike, however often and however many come from it: so strips 3 high cut into squares are
one kind, whether 13 come from a strip or 5. Of each kind there are as many ways as it has different widths of cut:

- strips of 3 and of 2 1/2 from one cloth are two ways, seven strips of 3 are one;
- a strip of which five pieces 4 wide are cut, as high as the strip, is one way more; five of 4 and one of 6 are two;
- a segment of which pieces 2 high are cut one above another is one way more, and so is a trim.

A part as large as what it is cut from takes no cut there, and straightening an edge is no way.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from functools import lru_cache

from piecewright.plan.cloth.layout import Segment, Strip, Strips
from piecewright.plan.cloth.model import CuttingPlan, Part

Kind = tuple[object, ...]


def ways(plan: CuttingPlan) -> int:
    """How many ways of cutting a plan has."""
    found = {_kind(part): _settings(part) for part in _split_parts(used.part for used in plan.used)}
    if plan.roll is not None:
        found |= {_kind(part): _settings(part) for part in _split_parts(plan.roll.parts)}
        found["roll",] = len({strip.height for strip in plan.roll.parts})
    return sum(found.values())


def ways_of(sheets: Iterable[tuple[int, int | None, Strips]]) -> int:
    """The same of cloths that are not told yet: width, height (None of cloth by the length) and strips of each."""
    found: dict[Kind, int] = {}
    for width, height, strips in sheets:
        kinds = frozenset(_strip_kind(strip, width) for strip, _ in strips)
        high = {strip.height for strip, _ in strips} - {height}
        found[width, height, "rows", kinds] = len(high)
        for strip, _ in strips:
            found.update(_strip_ways(strip, width))
    return sum(found.values())


def _split_parts(parts: Iterable[Part]) -> Iterator[Part]:
    for part in parts:
        if part.split is not None:
            yield part
            yield from _split_parts(part.parts)


def _settings(part: Part) -> int:
    if part.split == "rows":
        return len({one.height for one in part.parts} - {part.height})
    return len({one.width for one in part.parts} - {part.width})


def _kind(part: Part) -> Kind:
    return part.width, part.height, part.split, frozenset(_kind(one) for one in part.parts)


@lru_cache(maxsize=20_000)
def _strip_kind(strip: Strip, width: int) -> Kind:
    inside = [(_segment_kind(segment, strip.height), times) for segment, times in strip.segments]
    if len(inside) == 1 and inside[0][1] == 1:
        kind = inside[0][0]
        if kind[0] == width and kind[2] is None:
            return kind
    return width, strip.height, "columns", frozenset(kind for kind, _ in inside)


@lru_cache(maxsize=20_000)
def _segment_kind(segment: Segment, height: int) -> Kind:
    rows = frozenset(_row_kind(segment, wide, high) for _, wide, high, _ in segment.stack)
    if len(segment.stack) == 1 and segment.stack[0][3] == 1 and segment.height == height:
        return next(iter(rows))
    return segment.width, height, "rows", rows


def _row_kind(segment: Segment, wide: int, high: int) -> Kind:
    piece: Kind = (wide, high, None, frozenset())
    return piece if wide == segment.width else (segment.width, high, "columns", frozenset({piece}))


@lru_cache(maxsize=20_000)
def _strip_ways(strip: Strip, width: int) -> dict[Kind, int]:
    """Every kind of strip and segment in a strip, and of its trims, each with its ways."""
    found: dict[Kind, int] = {}
    whole = _strip_kind(strip, width)
    if whole[2] is not None:
        found[whole] = len({segment.width for segment, _ in strip.segments} - {width})
    for segment, _ in strip.segments:
        kind = _segment_kind(segment, strip.height)
        if kind[2] == "rows":
            found[kind] = len({high for _, _, high, _ in segment.stack} - {strip.height})
        for _, wide, high, _ in segment.stack:
            if wide < segment.width:
                found[_row_kind(segment, wide, high)] = 1
    return found
