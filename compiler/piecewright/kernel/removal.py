"""Taking a convex region of cloth out of a unit, with its account.

Whatever is no longer seen is taken out of cells region by region, never by a cut across the whole
unit: a half plane would amputate parts of a unit that is not convex.
"""

from __future__ import annotations

from dataclasses import replace

from piecewright.exact import Exact, Vector
from piecewright.kernel.polygon import ZERO, Sides, area, carve_by, merged, side, sides_of
from piecewright.kernel.rope import Rope, box
from piecewright.kernel.unit import Offcut, OffcutKind, Patch, Polygon, Seam


def remove(patches: Rope[Patch], hole: Polygon, kind: OffcutKind) -> tuple[Rope[Patch], tuple[Offcut, ...], Exact]:
    """The patches without what lies in the hole, the ledger lines for it, and its area."""
    ledger: list[Offcut] = []
    total = ZERO
    sides = sides_of(hole)

    def less(patch: Patch) -> Patch | None:
        nonlocal total
        kept: list[Polygon] = []
        taken = ZERO
        for cell in patch.cells:
            inside, outside = carve_by(cell, sides)
            kept.extend(outside)
            if inside:
                taken = taken + area(inside)
        if not taken:
            return patch
        if not any(disc.inside for disc in patch.discs):  # what a curve divides is counted once, as in `seen_area`
            total = total + taken
            ledger.append(Offcut(kind=kind, fabric=patch.fabric, area=taken))
        if not kept:
            return None
        return Patch(
            fabric=patch.fabric,
            cells=merged(kept),
            grain=patch.grain,
            cut=patch.cut,
            discs=patch.discs,
            mirrored=patch.mirrored,
        )

    remaining = patches.changed(box(hole), less)
    return remaining, tuple(ledger), total


def shortened(seams: Rope[Seam], hole: Polygon) -> Rope[Seam]:
    """The seams without what lies in the hole. A seam that is wholly inside is no longer seen."""
    sides = sides_of(hole)

    def rest(seam: Seam) -> Seam | None:
        left = _outside(seam.start, seam.end, sides)
        if left is None or left == (seam.start, seam.end):
            return seam if left else None
        return replace(seam, start=left[0], end=left[1])

    return seams.changed(box(hole), rest)


def ended_at(seams: Rope[Seam], corner: Vector, outward: Vector) -> Rope[Seam]:
    """The seams that run through an inner corner of a seam, without what lies beyond it on the outward side: it goes
    under between the two allowances, along the line where they meet."""

    def ended(seam: Seam) -> Seam | None:
        before, after = corner - seam.start, seam.end - corner
        if seam.direction.cross(before) or before.dot_sign(seam.direction) < 0 or after.dot_sign(seam.direction) < 0:
            return seam
        sign = seam.direction.dot_sign(outward)
        if sign > 0:
            seam = replace(seam, end=corner)
        elif sign < 0:
            seam = replace(seam, start=corner)
        return seam if seam.start != seam.end else None

    return seams.changed(box((corner,)), ended)


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
