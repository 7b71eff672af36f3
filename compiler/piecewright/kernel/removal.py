"""Taking a convex region of cloth out of a unit, with its account.

Whatever is no longer seen is taken out of cells region by region, never by a cut across the whole
unit: a half plane would amputate parts of a unit that is not convex.
"""

from __future__ import annotations

from dataclasses import replace

from piecewright.exact import Exact, Vector
from piecewright.kernel.polygon import ZERO, area, box, carve, clear_of, merged, side
from piecewright.kernel.unit import Offcut, OffcutKind, Patch, Polygon, Seam


def remove(
    patches: tuple[Patch, ...], hole: Polygon, kind: OffcutKind
) -> tuple[tuple[Patch, ...], tuple[Offcut, ...], Exact]:
    """The patches without what lies in the hole, the ledger lines for it, and its area."""
    remaining: list[Patch] = []
    ledger: list[Offcut] = []
    total = ZERO
    bounds = box(hole)
    for patch in patches:
        if all(clear_of(cell, bounds) for cell in patch.cells):
            remaining.append(patch)
            continue
        kept: list[Polygon] = []
        taken = ZERO
        for cell in patch.cells:
            inside, outside = carve(cell, hole)
            kept.extend(outside)
            if inside:
                taken = taken + area(inside)
        if not taken:
            remaining.append(patch)
            continue
        total = total + taken
        ledger.append(Offcut(kind=kind, fabric=patch.fabric, area=taken))
        if kept:
            remaining.append(replace(patch, cells=merged(kept)))
    return tuple(remaining), tuple(ledger), total


def shortened(seams: tuple[Seam, ...], hole: Polygon) -> tuple[Seam, ...]:
    """The seams without what lies in the hole. A seam that is wholly inside is no longer seen."""
    kept: list[Seam] = []
    bounds = box(hole)
    for seam in seams:
        if clear_of((seam.start, seam.end), bounds):
            kept.append(seam)
            continue
        rest = _outside(seam.start, seam.end, hole)
        if rest is None:
            continue
        if rest == (seam.start, seam.end):
            kept.append(seam)
        else:
            kept.append(replace(seam, start=rest[0], end=rest[1]))
    return tuple(kept)


def _outside(start: Vector, end: Vector, hole: Polygon) -> tuple[Vector, Vector] | None:
    """The part of a stretch outside a convex hole; None when all of it is inside. A hole strictly in the
    middle leaves the stretch as it is: such a seam shows at both ends."""
    inside = clipped(start, end, hole)
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
    for i, corner in enumerate(hole):
        edge = hole[(i + 1) % len(hole)] - corner
        if side(corner, edge, start) <= 0 and side(corner, edge, end) <= 0:
            return None
    low: Exact = ZERO
    high: Exact = Exact(1)
    along = end - start
    for i, corner in enumerate(hole):
        edge = hole[(i + 1) % len(hole)] - corner
        rate = edge.cross(along)
        here = edge.cross(start - corner)
        sign = rate.sign()
        if sign == 0:
            if here.sign() <= 0:
                return None
            continue
        share = -here / rate
        if sign > 0:
            low = max(low, share)
        else:
            high = min(high, share)
        if low >= high:
            return None
    return (
        start if not low else start + along * low,
        end if high == 1 else start + along * high,
    )
