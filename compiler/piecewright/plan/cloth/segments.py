"""Which segments a strip may hold: single pieces for two stages, stacks for three."""

from __future__ import annotations

from collections.abc import Sequence

from piecewright.plan.cloth.knapsack import any_number
from piecewright.plan.cloth.layout import Kind, Segment, segment_of, ways

_NEARLY = 80  # per cent of the width of a stack that each piece in it takes at least


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


def mixed(
    kinds: Sequence[Kind], width: int, height: int, prices: Sequence[int], known: Sequence[Segment], most: int
) -> list[Segment]:
    """Stacks of several kinds, of nearly one width, that are worth most for their area at these prices; not those that
    are known, and at most so many."""
    pieces = sorted(
        (wide, high, i)
        for i, kind in enumerate(kinds)
        for wide, high in ways(kind)
        if 0 < wide <= width and 0 < high <= height and kind.number
    )
    offers: list[tuple[float, int, int]] = []
    rows: dict[int, list[list[int]]] = {}
    inside: dict[int, list[tuple[int, int, int]]] = {}
    for wide in sorted({piece[0] for piece in pieces}):
        inside[wide] = [piece for piece in pieces if wide * _NEARLY <= piece[0] * 100 and piece[0] <= wide]
        steps = [[0] * (height + 1)]
        for _, high, kind in inside[wide]:
            steps.append(any_number(steps[-1], high, prices[kind]))
        rows[wide] = steps
        last = steps[-1]
        offers += [
            (last[high] / (wide * high), wide, high) for high in range(1, height + 1) if last[high] > last[high - 1]
        ]
    offers.sort(key=lambda offer: (-offer[0], offer[1:]))
    found: list[Segment] = []
    seen = set(known)
    for _, wide, high in offers[: 8 * most]:
        counts: dict[tuple[int, int, int], int] = {}
        at, row = high, rows[wide][-1]
        for piece, before in zip(reversed(inside[wide]), reversed(rows[wide][:-1]), strict=True):
            while row[at] != before[at]:
                counts[piece] = counts.get(piece, 0) + 1
                at -= piece[1]
            row = before
        segment = segment_of([(kind, across, along, times) for (across, along, kind), times in counts.items()])
        if segment not in seen and all(kinds[kind].number >= times for kind, _, _, times in segment.stack):
            seen.add(segment)
            found.append(segment)
            if len(found) == most:
                break
    return found


def rising(segments: list[Segment]) -> list[Segment]:
    """From the lowest to the highest, as the knapsack takes them up."""
    return sorted(segments, key=lambda segment: (segment.height, segment.width, segment.stack))
