"""Cloth that lies double: at the open end of a partial seam each side's allowance covers the other side.

There, and only there, a region is taken only from the patches whose own edge is sewn.
"""

from __future__ import annotations

from piecewright.kernel.removal import remove
from piecewright.kernel.unit import Offcut, Patch, Polygon, Unit


def has_slit(unit: Unit) -> bool:
    """True when a seam of the unit is still partly open."""
    return any(unit.directions[i - 1] == -direction for i, direction in enumerate(unit.directions))


def remove_beside(
    unit: Unit, edge: int, patches: tuple[Patch, ...], hole: Polygon
) -> tuple[tuple[Patch, ...], tuple[Offcut, ...]]:
    """Takes the allowance of an edge out of the patches that lie along its raw edge."""
    near, far = _beside(unit, patches, edge)
    near, taken, _ = remove(near, hole, "allowance")
    return near + far, taken


def _beside(unit: Unit, patches: tuple[Patch, ...], edge: int) -> tuple[tuple[Patch, ...], tuple[Patch, ...]]:
    """The patches that lie along a raw edge, and the others."""
    count = len(unit.corners)
    start = unit.corners[edge].finished
    end = unit.corners[(edge + 1) % count].finished
    along = unit.directions[edge]
    raw = start + along.right() * unit.allowance
    near: list[Patch] = []
    far: list[Patch] = []
    for patch in patches:
        touches = any(
            not along.cross(p - raw)
            and not along.cross(cell[(i + 1) % len(cell)] - raw)
            and (cell[(i + 1) % len(cell)] - p).dot(along) > 0
            and (cell[(i + 1) % len(cell)] - start).dot(along) > 0
            and (end - p).dot(along) > 0
            for cell in patch.cells
            for i, p in enumerate(cell)
        )
        (near if touches else far).append(patch)
    return tuple(near), tuple(far)
