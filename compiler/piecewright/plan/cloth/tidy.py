"""Of plans that buy the same, one with fewer strip heights, so that the ruler is set anew less often.

A height is given up by allowing no strip of it: what lay in such strips lies in taller ones, or turned. The plan is
then filled strip by strip again. Strips are lowered to what lies in them before heights are counted, so that nothing
is gained by cutting a strip higher than its pieces.
"""

from __future__ import annotations

from collections.abc import Sequence

from piecewright.plan.cloth.ladder import Ladder
from piecewright.plan.cloth.layout import Segment, Strip, Strips, exactly, length_of, strip_of
from piecewright.plan.cloth.relax import Field
from piecewright.plan.cloth.sequence import roll_round

_TRIES = 6


def order(strips: Strips, ladder: Ladder) -> tuple[int, int, int, int]:
    """Plans with less of this are better: what is bought, distinct heights, strips, and length, since what is not cut
    is left over in one piece."""
    length = length_of(strips)
    heights = {strip.height for strip, _ in strips}
    return ladder.up(length), len(heights), sum(times for _, times in strips), length


def tidied(field: Field, strips: Strips, ladder: Ladder, prices: Sequence[Sequence[int]]) -> Strips:
    """The best of some plans without one height or another of the best so far. `prices`: of the kinds, each tried."""
    best, given_up, tries = strips, set[int](), 0
    refused: set[int] = set()
    while tries < _TRIES:
        number = {strip.height: 0 for strip, _ in best}
        for strip, times in best:
            number[strip.height] += times
        tallest = max(number)
        left = [height for height in number if height not in refused and height != tallest]
        if not left:
            break
        height = min(left, key=lambda high: (number[high] * high, high))
        tries += 1
        better = _without(field, given_up | {height}, best, ladder, prices)
        if better is None:
            refused.add(height)
        else:
            best = better
            given_up.add(height)
    return best


def _without(
    field: Field, heights: set[int], best: Strips, ladder: Ladder, prices: Sequence[Sequence[int]]
) -> Strips | None:
    """A better plan with no strip of those heights, if one is found."""
    levels = sorted({segment.height for segment in field.segments} - heights)
    lifted: dict[Segment, Segment] = {}
    raised: list[tuple[Segment, int]] = []
    for segment, limit in zip(field.segments, field.limits, strict=True):
        higher = next((level for level in levels if level >= segment.height), None)
        if higher is not None:
            other = segment._replace(height=higher)
            lifted[other] = segment
            raised.append((other, limit))
    raised.sort(key=lambda pair: (pair[0].height, pair[0].width, pair[0].stack))
    for price in prices:
        made = roll_round(field.width, [segment for segment, _ in raised], price, field.demand)
        lowered = [(_lowered(strip, lifted), times) for strip, times in made]
        whole, lacking = exactly(lowered, field.demand)
        if not any(lacking) and order(whole, ladder) < order(best, ladder):
            return whole
    return None


def _lowered(strip: Strip, lifted: dict[Segment, Segment]) -> Strip:
    return strip_of((lifted.get(segment, segment), times) for segment, times in strip.segments)
