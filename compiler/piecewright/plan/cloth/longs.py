"""Lengths in which long strips cannot lie, however they are joined.

A *long* strip is longer than the cloth is wide. It is made of k segments sewn end to end, which lose something at each
of the k - 1 seams, so that their lengths add up to length + (k - 1) * loss. No segment is longer than the longest
cloth M there is, which gives k >= (length - loss) / (M - loss).

A seam between two strips that are cut of one long strip belongs to neither: what is left of the segments when the
long strip is cut apart lies in the cloth in disjoint rectangles still, and those of one piece add up to no less.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from piecewright.plan.cloth.bounds import roll_length, weights
from piecewright.plan.cloth.layout import Kind, ways


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

    By area: a segment is no longer than the width, or where it lies along the cloth the length. Else by dual feasible
    functions u (see `bounds`), across the cloth for the pieces alone, and down the cloth for all: rectangles that a
    line down the cloth meets have heights that add up to the length at most, so that their u add up to that of the
    length at most; so all widths, each times the u of its height, add up to no more than the width times that. Segments
    across weigh at least their length with its seams times u(width of the strip), a whole strip along the cloth its
    width times u(its length), and a segment of which nothing is known nothing.
    """
    turned = any(long.turns for long in longs)
    longest = max(width, length) if turned else width
    if area(kinds, longs, longest, loss) > width * length or roll_length(kinds, width) > length:
        return True
    sides = [high for kind in kinds for _, high in ways(kind)] + [long.width for long in longs]
    for weight, whole in weights(length, sides):
        total = 0
        for kind in kinds:
            each = [wide * weight(high) for wide, high in ways(kind) if wide <= width and high <= length]
            if not each:
                return True
            total += min(each) * kind.number
        for long in longs:
            each = []
            if long.width <= length and (across or not long.turns):
                each.append(segments_of(long, width, loss) * weight(long.width))
            if long.turns and not across:
                each.append(0)
            elif long.turns and long.length <= length and long.width <= width:
                each.append(long.width * weight(long.length))
            if not each:
                return True
            total += min(each) * long.number
        if total > width * whole:
            return True
    return False
