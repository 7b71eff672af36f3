"""A straight cut through everything that lies on the table.

Each part's raw outline is what the ruler leaves; its finished outline is the old one cut by the line
moved one allowance inward. (The finished outline of a convex part is the intersection of its edges' half
planes moved inward; moving edge after edge fails where a tip is blunted.) The ledger starts anew: what
lay under seams before the cut was accounted for in the whole.
"""

from __future__ import annotations

from piecewright.exact import Vector
from piecewright.kernel.errors import SewingError
from piecewright.kernel.measure import seen_area
from piecewright.kernel.polygon import clip, side
from piecewright.kernel.ring import Ring, clip_ring, corners_between
from piecewright.kernel.unit import Patch, Polygon, Seam, Unit

_CUT = -1  # the number of the new edge; old edges keep theirs, blunted tips are numbered below


def cut(unit: Unit, start: Vector, direction: Vector) -> tuple[Unit, Unit]:
    """The parts left and right of the line through `start` along a unit vector, where they lie.

    SewingError: `cut-misses` when no cloth lies on one side, `too-small` (side) when a part is no wider than
    its seams, `cut-inner-corner` when the outline is not convex.
    """
    left = cut_off(unit, start, direction)
    return left, cut_off(unit, start, -direction, which="right")


def cut_off(unit: Unit, start: Vector, direction: Vector, which: str = "left") -> Unit:
    """The part left of the line; what lies right of it falls away, however narrow. SewingError as for `cut`,
    `too-small` only for this part."""
    require_convex(unit)
    sides = [side(start, direction, p) for corner in unit.corners for p in corner.raw]
    if min(sides) >= 0 or max(sides) <= 0:
        raise SewingError("cut-misses")
    raw, _ = clip_ring(raw_ring(unit), start, direction, _CUT)
    finished, _ = clip_ring(finished_ring(unit), start + direction.left() * unit.allowance, direction, _CUT)
    if len(finished) < 3:
        raise SewingError("too-small", side=which)
    patches, _ = divided(unit.patches, start, direction)
    halves = [divided_seam(seam, start, direction)[0] for seam in unit.seams]
    return Unit(
        corners=corners_between(finished, raw),
        directions=tuple(direction if edge == _CUT else unit.directions[edge] for _, edge in finished),
        patches=patches,
        seams=tuple(seam for seam in halves if seam is not None),
        ledger=(),
        allowance=unit.allowance,
        cloth=seen_area(patches),
    )


def require_convex(unit: Unit) -> None:
    """SewingError `cut-inner-corner` for an outline with an inner corner."""
    for i, direction in enumerate(unit.directions):
        if unit.directions[i - 1].cross(direction) < 0:
            raise SewingError("cut-inner-corner")


def raw_ring(unit: Unit) -> Ring:
    """The raw outline of a convex unit with the numbers of its edges; short edges of blunted tips are
    numbered from -2 down."""
    ring: list[tuple[Vector, int]] = []
    blunt = -2
    for i, corner in enumerate(unit.corners):
        for p in corner.raw[:-1]:
            ring.append((p, blunt))
            blunt -= 1
        ring.append((corner.raw[-1], i))
    return tuple(ring)


def finished_ring(unit: Unit) -> Ring:
    """The finished outline with the numbers of its edges."""
    return tuple((corner.finished, i) for i, corner in enumerate(unit.corners))


def divided(
    patches: tuple[Patch, ...], start: Vector, direction: Vector
) -> tuple[tuple[Patch, ...], tuple[Patch, ...]]:
    """The patches left and right of a line."""
    left: list[Patch] = []
    right: list[Patch] = []
    for patch in patches:
        ones: list[Polygon] = []
        others: list[Polygon] = []
        for cell in patch.cells:
            one, other = clip(cell, start, direction)
            if one:
                ones.append(one)
            if other:
                others.append(other)
        if ones:
            left.append(Patch(fabric=patch.fabric, cells=tuple(ones), grain=patch.grain, cut=patch.cut))
        if others:
            right.append(Patch(fabric=patch.fabric, cells=tuple(others), grain=patch.grain, cut=patch.cut))
    return tuple(left), tuple(right)


def divided_seam(seam: Seam, start: Vector, direction: Vector) -> tuple[Seam | None, Seam | None]:
    """What of a seam lies left and right of a line; a cut along the seam itself leaves nothing of it."""
    here = side(start, direction, seam.start)
    there = side(start, direction, seam.end)
    if here >= 0 and there >= 0:
        return (seam, None) if here or there else (None, None)
    if here <= 0 and there <= 0:
        return None, seam
    a = direction.cross(seam.start - start)
    b = direction.cross(seam.end - start)
    crossing = seam.start + (seam.end - seam.start) * (a / (a - b))
    first = Seam(
        start=seam.start, end=crossing, direction=seam.direction, pressed=seam.pressed, sewn=seam.sewn
    )
    last = Seam(start=crossing, end=seam.end, direction=seam.direction, pressed=seam.pressed, sewn=seam.sewn)
    return (first, last) if here > 0 else (last, first)
