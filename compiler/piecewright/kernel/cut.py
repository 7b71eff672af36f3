"""A straight cut through everything that lies on the table.

Each part's raw outline is what the ruler leaves; its finished outline is the old one cut by the line
moved one allowance inward. (The finished outline of a convex part is the intersection of its edges' half
planes moved inward; moving edge after edge fails where a tip is blunted.) The ledger starts anew: what
lay under seams before the cut was accounted for in the whole.
"""

from __future__ import annotations

from dataclasses import replace

from piecewright.exact import Vector
from piecewright.kernel.errors import SewingError
from piecewright.kernel.measure import seen_area
from piecewright.kernel.outline import outlined
from piecewright.kernel.polygon import clip, crossed, side
from piecewright.kernel.ring import Ring, clip_ring, corners_between
from piecewright.kernel.unit import Corner, Patch, Polygon, Seam, Unit

_CUT = -1  # the number of the new edge; old edges keep theirs, blunted tips are numbered below


def cut(unit: Unit, start: Vector, direction: Vector) -> tuple[Unit, Unit]:
    """The parts left and right of the line through `start` along a unit vector, where they lie.

    SewingError: `cut-misses` when no cloth lies on one side, `too-small` (side) when a part is no wider than
    its seams, `cut-inner-corner` when the outline
    has an inner corner with a step along a seam, `in-pieces` when the line enters and leaves the cloth more than once.
    """
    left = cut_off(unit, start, direction)
    return left, cut_off(unit, start, -direction, which="right")


def cut_off(unit: Unit, start: Vector, direction: Vector, which: str = "left") -> Unit:
    """The part left of the line; what lies right of it falls away, however narrow. SewingError as for `cut`,
    `too-small` only for this part."""
    sides = [side(start, direction, p) for corner in unit.corners for p in corner.raw]
    if min(sides) >= 0 or max(sides) <= 0:
        raise SewingError("cut-misses")
    patches, _ = divided(unit.patches, start, direction)
    corners, directions = _outline(unit, patches, start, direction, which)
    halves = [divided_seam(seam, start, direction)[0] for seam in unit.seams]
    return Unit(
        corners=corners,
        directions=directions,
        patches=patches,
        seams=tuple(seam for seam in halves if seam is not None),
        ledger=(),
        allowance=unit.allowance,
        cloth=seen_area(patches),
    )


def _outline(
    unit: Unit, patches: tuple[Patch, ...], start: Vector, direction: Vector, which: str
) -> tuple[tuple[Corner, ...], tuple[Vector, ...]]:
    if not is_convex(unit):
        corners, directions = outlined(patches, (*unit.directions, direction), unit.allowance)
        # a step along a seam at an inner corner is no raw edge with an allowance: there the seam lines would
        # come out wrong
        known = {corner.finished for corner in unit.corners}
        for i, corner in enumerate(corners):
            if corner.finished not in known and direction not in (directions[i - 1], directions[i]):
                raise SewingError("cut-inner-corner")
        return corners, directions
    raw, _ = clip_ring(raw_ring(unit), start, direction, _CUT)
    finished, _ = clip_ring(finished_ring(unit), start + direction.left() * unit.allowance, direction, _CUT)
    if len(finished) < 3:
        raise SewingError("too-small", side=which)
    return (
        corners_between(finished, raw),
        tuple(direction if edge == _CUT else unit.directions[edge] for _, edge in finished),
    )


def is_convex(unit: Unit) -> bool:
    """True for an outline without an inner corner."""
    return all(unit.directions[i - 1].cross_sign(along) >= 0 for i, along in enumerate(unit.directions))


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
            left.append(replace(patch, cells=tuple(ones)))
        if others:
            right.append(replace(patch, cells=tuple(others)))
    return tuple(left), tuple(right)


def divided_seam(seam: Seam, start: Vector, direction: Vector) -> tuple[Seam | None, Seam | None]:
    """What of a seam lies left and right of a line; a cut along the seam itself leaves nothing of it."""
    here = side(start, direction, seam.start)
    there = side(start, direction, seam.end)
    if here >= 0 and there >= 0:
        return (seam, None) if here or there else (None, None)
    if here <= 0 and there <= 0:
        return None, seam
    crossing = crossed(start, direction, seam.start, seam.end)
    first = Seam(
        start=seam.start, end=crossing, direction=seam.direction, pressed=seam.pressed, sewn=seam.sewn
    )
    last = Seam(start=crossing, end=seam.end, direction=seam.direction, pressed=seam.pressed, sewn=seam.sewn)
    return (first, last) if here > 0 else (last, first)
