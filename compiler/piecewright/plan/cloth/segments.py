"""Which segments a strip may hold: single pieces for two stages, stacks for three."""

from __future__ import annotations

from collections.abc import Sequence

from piecewright.plan.cloth.layout import Kind, Segment, segment_of, ways


def single(kinds: Sequence[Kind], width: int, height: int) -> list[Segment]:
    """Each piece as it may lie in a strip of at most that width and height, rising by height."""
    found = [
        segment_of([(i, wide, high, 1)])
        for i, kind in enumerate(kinds)
        for wide, high in ways(kind)
        if 0 < wide <= width and 0 < high <= height
    ]
    return rising(found)


def stacked(kinds: Sequence[Kind], width: int, height: int) -> list[Segment]:
    """Also copies of a piece one above another, at most as many as are wanted and `height` holds."""
    found = [
        segment_of([(i, wide, high, times)])
        for i, kind in enumerate(kinds)
        for wide, high in ways(kind)
        if 0 < wide <= width and high > 0
        for times in range(1, min(kind.number, height // high) + 1)
    ]
    return rising(found)


def rising(segments: list[Segment]) -> list[Segment]:
    """From the lowest to the highest, as the knapsack takes them up."""
    return sorted(segments, key=lambda segment: (segment.height, segment.width, segment.stack))
