"""Strips without ends sewn so that each begins a step beside the one before, and the segments cut from such a set.

Stepping changes nothing of the segments; it only leaves less of the set's ends to waste. A cut at an angle a leaves
the bottom of a set, at height 0, at x and runs through height y at x + y · cot a. It lies on the cloth of a strip
that reaches from l to r, between the heights b and t, when x + b · cot a >= l and x + t · cot a <= r. So the cuts
stand between the largest l - b · cot a and the smallest r - t · cot a of all strips.
"""

from __future__ import annotations

from dataclasses import replace

from piecewright.exact import Exact, Vector
from piecewright.kernel.chain import Joined, chain
from piecewright.kernel.cut import divided, divided_seam
from piecewright.kernel.errors import SewingError
from piecewright.kernel.measure import Bounds, bounds, bounds_of, seen_area
from piecewright.kernel.pieces import EAST, polygon_piece
from piecewright.kernel.polygon import ZERO, area
from piecewright.kernel.slanted import slope
from piecewright.kernel.takein import marked
from piecewright.kernel.unit import Patch, Pressed, Seam, Unit


def stepped(
    first: Unit, i: int, second: Unit, j: int, step: Exact, *, pressed: Pressed = "open"
) -> tuple[Unit, int, Joined]:
    """Two equally long level edges sewn with the second `step` to the right of the first (left: negative).

    Gives the first as marked, the number of its sewn edge, and what was sewn: both edges are sewn as far as they lie
    beside each other, and end in a step of the outline. SewingError `no-room` for a step longer than the edges.
    """
    if not step:
        return first, i, chain(first, i, second, j, pressed=pressed)
    first, i = _without(first, i, step)
    second, j = _without(second, j, -step)
    return first, i, chain(first, i, second, j, pressed=pressed)


def _without(unit: Unit, edge: int, step: Exact) -> tuple[Unit, int]:
    """The unit with a mark where the step on a level edge ends, and the number of the part that is sewn."""
    count = len(unit.corners)
    along = unit.directions[edge]
    start, end = unit.corners[edge].finished, unit.corners[(edge + 1) % count].finished
    # to the right of the other unit begins where that begins: a step right leaves the left end of this edge bare
    at_start = (step * along.x) > 0
    reach = along * abs(step)
    try:
        unit, edge = marked(unit, edge, start + reach if at_start else end - reach)
    except SewingError:
        raise SewingError("no-room") from None
    return unit, edge + 1 if at_start else edge


def cuts_between(unit: Unit, cotangent: Exact) -> tuple[Exact, Exact]:
    """Where the first and the last cut through a set may stand, as they meet the height 0; the second is the lesser
    where there is no room for any. Every patch is a strip."""
    low: Exact | None = None
    high: Exact | None = None
    for patch in unit.patches:
        left, bottom, right, top = _band(patch)
        first, last = left - bottom * cotangent, right - top * cotangent
        low = first if low is None or first > low else low
        high = last if high is None or last < high else high
    assert low is not None and high is not None
    return low, high


def _band(patch: Patch) -> Bounds:
    """What is seen of a strip from end to end. Where another strip ends beside it, its bare allowance stands out
    beyond that: the band is as high as its longest cell, and as long as all cells that are as high."""
    boxes = [bounds_of(cell) for cell in patch.cells]
    _, bottom, _, top = max(boxes, key=lambda box: float(box[2] - box[0]))
    full = [box for box in boxes if box[1] <= bottom and box[3] >= top]
    return min(box[0] for box in full), bottom, max(box[2] for box in full), top


def segment(unit: Unit, start: Exact, length: Exact, degrees: int) -> Unit:
    """The part of a set between two cuts at an angle, leaning right, where it lies: `start` is where the first meets
    the height 0, and `length` how far apart they are along the strips.

    SewingError `segment-gap` where the cloth does not fill it, `too-small` as for any piece.
    """
    side = slope(degrees)
    _, bottom, _, top = bounds(unit)
    cotangent = side.x / side.y
    foot = Vector(start + bottom * cotangent, bottom)
    head = Vector(start + top * cotangent, top)
    across = Vector(length, ZERO)
    ring = (foot, foot + across, head + across, head)
    directions = (EAST, side, -EAST, -side)
    patches = unit.patches
    seams: tuple[Seam, ...] = unit.seams
    for corner, direction in zip(ring, directions, strict=True):
        patches, _ = divided(patches, corner, direction)
        halves = [divided_seam(seam, corner, direction)[0] for seam in seams]
        seams = tuple(seam for seam in halves if seam is not None)
    if seen_area(patches) != area(ring):
        raise SewingError("segment-gap")
    whole = polygon_piece(ring, fabric="", allowance=unit.allowance, directions=directions)
    return replace(whole, patches=patches, seams=seams)
