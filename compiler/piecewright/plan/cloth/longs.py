"""Lengths in which long strips cannot lie, however they are joined.

A *long* strip is longer than the cloth is wide. It is made of k segments sewn end to end, which lose something at each
of the k - 1 seams, so that their lengths add up to length + (k - 1) * loss. No segment is longer than the longest
cloth M there is, which gives k >= (length - loss) / (M - loss).

A seam between two strips that are cut of one long strip belongs to neither: what is left of the segments when the
long strip is cut apart lies in the cloth in disjoint rectangles still, and those of one piece add up to no less.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import product
from typing import NamedTuple

from piecewright.plan.cloth.bounds import roll_length, weights
from piecewright.plan.cloth.ladder import MARKS
from piecewright.plan.cloth.layout import Kind, Segment, ways
from piecewright.plan.cloth.relax import Field, relax

_STATES = 120  # groups of strips that are looked through at most


class Long(NamedTuple):
    """So many strips, their length and their width, in marks. `turns`: whether they may lie along the cloth."""

    length: int
    width: int
    number: int
    turns: bool


def segments_of(long: Long, longest: int, loss: int) -> int:
    """How long the segments of one strip must be together, where none is longer than `longest`, which is more than
    the loss."""
    seams = max(-(-(long.length - loss) // (longest - loss)), 1) - 1
    return long.length + seams * loss


def area(kinds: Sequence[Kind], longs: Sequence[Long], longest: int, loss: int) -> int:
    """The least area of all pieces and segments, however they lie."""
    whole = sum(kind.width * kind.height * kind.number for kind in kinds)
    return whole + sum(segments_of(long, longest, loss) * long.width * long.number for long in longs)


def too_short(
    kinds: Sequence[Kind], longs: Sequence[Long], width: int, length: int, loss: int, *, across: bool
) -> bool:
    """Whether it is certain that so much cloth does not give all pieces and strips. With `across`, strips that are
    joined are joined from segments that lie across the cloth, and others are whole; without, segments lie as one likes.

    By area: a segment is no longer than the width, or where it lies along the cloth the length. Else by what lines
    across the cloth meet of the pieces, or lines down the cloth of all, first by weights, which is quick; and by how
    many strips there must be at least.
    """
    turned = any(long.turns for long in longs)
    longest = max(width, length) if turned else width
    if area(kinds, longs, longest, loss) > width * length or roll_length(kinds, width) > length:
        return True
    if any(not ways_down(long, width, length, loss, across) for long in longs):
        return True
    if any(all(wide > width or high > length for wide, high in ways(kind)) for kind in kinds):
        return True
    bound = [long for long in longs if across or not long.turns]
    return (
        _few_strips(bound, width, length, loss)
        or _weighs_too_much(kinds, bound, width, length, loss)
        or _bars_too_few(kinds, bound, width, length, loss)
    )


def ways_down(long: Long, width: int, length: int, loss: int, across: bool) -> list[tuple[int, int]]:
    """How a line down the cloth may meet a strip: the height that it meets, and the whole width over which lines meet
    it; its segments across the cloth, and where that may be the whole strip along it. A segment of a strip that may lie
    in any way is met for as good as nothing."""
    found = []
    if long.width <= length:
        found.append((long.width, segments_of(long, width, loss)))
    if long.turns and long.length <= length and long.width <= width:
        found.append((long.length, long.width))
    if long.turns and not across:
        found.append((1, 0))
    return found


def _weighs_too_much(kinds: Sequence[Kind], longs: Sequence[Long], width: int, length: int, loss: int) -> bool:
    """By dual feasible functions u (see `bounds`): rectangles that a line down the cloth meets have heights that add up
    to the length at most, so that their u add up to that of the length at most. So all widths, each times the u of its
    height, add up to no more than the width times that; what may lie in several ways counts with the least."""
    sides = [high for kind in kinds for _, high in ways(kind)] + [long.width for long in longs]
    for weight, whole in weights(length, sides):
        total = 0
        for kind in kinds:
            each = [wide * weight(high) for wide, high in ways(kind) if wide <= width and high <= length]
            total += min(each) * kind.number
        for long in longs:
            met = ways_down(long, width, length, loss, True)
            total += min(wide * weight(high) for high, wide in met) * long.number
        if total > width * whole:
            return True
    return False


def _bars_too_few(kinds: Sequence[Kind], longs: Sequence[Long], width: int, length: int, loss: int) -> bool:
    """By the bar relaxation (see `bounds`), its bars down the cloth: in fractions there must be as many as the cloth is
    wide. What is met counts by area, and a strip that may lie in two ways with the lesser one."""
    segments, limits, demand = [], [], []
    for i, kind in enumerate(kinds):
        for wide, high in ways(kind):
            if wide <= width and high <= length and kind.number:
                segments.append(Segment(1, high, ((i, high, 1, high),)))
                limits.append(kind.number)
        demand.append(kind.width * kind.height * kind.number)
    for i, long in enumerate(longs, len(kinds)):
        met = ways_down(long, width, length, loss, True)
        for high, _ in met:
            segments.append(Segment(1, high, ((i, high, 1, high),)))
            limits.append(length // high)
        demand.append(min(high * wide for high, wide in met) * long.number)
    if not segments:
        return False
    return relax(Field(length, segments, limits, demand, []), [], MARKS, width + 1).bound > width


def _few_strips(longs: Sequence[Long], width: int, length: int, loss: int) -> bool:
    """Strips of one width that all must lie across the cloth: a line down it meets at most m segments, m = length //
    width of a strip, so that these, as intervals, can be laid in m rows as wide as the cloth. Let pieces belong
    together that have segments in one row: p pieces in q rows have at least p + q - 1 segments, so q - 1 seams, and
    take no fewer rows than one long strip for them all does. What groups make the fewest rows, is tried."""
    for wide in {long.width for long in longs}:
        own = [long for long in longs if long.width == wide and not (long.turns and long.length <= length)]
        if own and rows_at_least(own, width, loss) > length // wide:
            return True
    return False


def rows_at_least(longs: Sequence[Long], width: int, loss: int) -> int:
    """How many rows strips of one width take at least, each group of them sewn into a long strip of its own or all into
    one: of a group of length T, (T - loss) / (width - loss). 0 where there are too many groups to try."""
    counts = [long.number for long in longs]
    states = list(product(*(range(count + 1) for count in counts)))
    if len(states) > _STATES:
        return 0
    least = dict.fromkeys(states, 0)
    for state in states[1:]:
        best = 0
        for group in product(*(range(count + 1) for count in state)):
            if any(group):
                total = sum(long.length * times for long, times in zip(longs, group, strict=True))
                rest = tuple(have - times for have, times in zip(state, group, strict=True))
                rows = -(-(total - loss) // (width - loss)) + least[rest]
                best = min(best, rows) if best else rows
        least[state] = best
    return least[tuple(counts)]
