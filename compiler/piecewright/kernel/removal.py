"""Taking a convex region of cloth out of a unit, with its account.

Whatever is no longer seen is taken out of cells region by region, never by a cut across the whole
unit: a half plane would amputate parts of a unit that is not convex.
"""

from __future__ import annotations

from dataclasses import replace

from piecewright.exact import Exact, Vector
from piecewright.kernel.polygon import ZERO, Sides, area, carve_by, merged, side, sides_of
from piecewright.kernel.unit import Offcut, OffcutKind, Patch, Polygon, Seam, box


def remove(
    patches: tuple[Patch, ...], hole: Polygon, kind: OffcutKind
) -> tuple[tuple[Patch, ...], tuple[Offcut, ...], Exact]:
    """The patches without what lies in the hole, the ledger lines for it, and its area."""
    remaining: list[Patch] = []
    ledger: list[Offcut] = []
    total = ZERO
    (left, bottom, right, top), sides = box(hole), sides_of(hole)
    for patch in patches:
        # the test of `beside` spelled out: it is asked of every patch at every seam
        low, floor, high, ceiling = patch.reach
        if low > right or high < left or floor > top or ceiling < bottom:
            remaining.append(patch)
            continue
        kept: list[Polygon] = []
        taken = ZERO
        for cell in patch.cells:
            inside, outside = carve_by(cell, sides)
            kept.extend(outside)
            if inside:
                taken = taken + area(inside)
        if not taken:
            remaining.append(patch)
            continue
        if not any(disc.inside for disc in patch.discs):  # what a curve divides is counted once, as in `seen_area`
            total = total + taken
            ledger.append(Offcut(kind=kind, fabric=patch.fabric, area=taken))
        if kept:
            remaining.append(replace(patch, cells=merged(kept)))
    return tuple(remaining), tuple(ledger), total


def shortened(seams: tuple[Seam, ...], hole: Polygon) -> tuple[Seam, ...]:
    """The seams without what lies in the hole. A seam that is wholly inside is no longer seen."""
    kept: list[Seam] = []
    (left, bottom, right, top), sides = box(hole), sides_of(hole)
    for seam in seams:
        low, floor, high, ceiling = seam.reach
        if low > right or high < left or floor > top or ceiling < bottom:
            kept.append(seam)
            continue
        rest = _outside(seam.start, seam.end, sides)
        if rest is None:
            continue
        if rest == (seam.start, seam.end):
            kept.append(seam)
        else:
            kept.append(replace(seam, start=rest[0], end=rest[1]))
    return tuple(kept)


def ended_at(seams: tuple[Seam, ...], corner: Vector, outward: Vector) -> tuple[Seam, ...]:
    """The seams that run through an inner corner of a seam, without what lies beyond it on the outward side: it goes
    under between the two allowances, along the line where they meet."""
    kept: list[Seam] = []
    for seam in seams:
        before, after = corner - seam.start, seam.end - corner
        if seam.direction.cross(before) or before.dot_sign(seam.direction) < 0 or after.dot_sign(seam.direction) < 0:
            kept.append(seam)
        elif seam.direction.dot_sign(outward) > 0:
            kept.append(replace(seam, end=corner))
        elif seam.direction.dot_sign(outward) < 0:
            kept.append(replace(seam, start=corner))
        else:
            kept.append(seam)
    return tuple(seam for seam in kept if seam.start != seam.end)


def _outside(start: Vector, end: Vector, hole: Sides) -> tuple[Vector, Vector] | None:
    """The part of a stretch outside a convex hole; None when all of it is inside. A hole strictly in the
    middle leaves the stretch as it is: such a seam shows at both ends."""
    inside = _within(start, end, hole)
    if inside is None:
        return start, end
    first, last = inside
    if first == start and last == end:
        return None
    if first == start:
        return last, end
    if last == end:
        return start, first
    return start, end


def clipped(start: Vector, end: Vector, hole: Polygon) -> tuple[Vector, Vector] | None:
    """The part of a stretch within a convex polygon, its boundary not counted; None when there is none."""
    return _within(start, end, sides_of(hole))


def _within(start: Vector, end: Vector, hole: Sides) -> tuple[Vector, Vector] | None:
    crossed: list[tuple[Vector, Vector, int]] = []
    for corner, edge in hole:
        here, there = side(corner, edge, start), side(corner, edge, end)
        if here <= 0 and there <= 0:
            return None
        if here * there < 0:
            crossed.append((corner, edge, here))
    if not crossed:
        return start, end
    low: Exact = ZERO
    high: Exact = Exact(1)
    along = end - start
    for corner, edge, here in crossed:
        share = edge.cross(corner - start) / edge.cross(along)
        if here < 0:
            low = max(low, share)
        else:
            high = min(high, share)
        if low >= high:
            return None
    return (
        start if not low else start + along * low,
        end if high == 1 else start + along * high,
    )
