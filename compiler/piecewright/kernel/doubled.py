"""Cloth that lies double: where raw edges of one unit cover each other.

At the open end of a partial seam each side's allowance covers the other side, and in a notch narrower than
two allowances the raw edges lap. There a region is taken only from the patches whose own edge is sewn.
"""

from __future__ import annotations

from piecewright.kernel.errors import SewingError
from piecewright.kernel.polygon import area
from piecewright.kernel.removal import remove
from piecewright.kernel.rope import Rope
from piecewright.kernel.unit import Offcut, Patch, Polygon, Unit


def without_allowance(
    unit: Unit, edge: int, patches: Rope[Patch], hole: Polygon
) -> tuple[Rope[Patch], tuple[Offcut, ...]]:
    """Takes the allowance of a sewn edge out of the patches; of double cloth only its own layer.

    SewingError `cloth-double` where the layers cannot be told apart: a notch so narrow that it cannot be sewn.
    """
    remaining, taken, total = remove(patches, hole, "allowance")
    if total <= area(hole):
        return remaining, taken
    near, far = _beside(unit, patches, edge)
    near, taken, total = remove(near, hole, "allowance")
    if total > area(hole):
        raise SewingError("cloth-double")
    return near + far, taken


def _beside(unit: Unit, patches: Rope[Patch], edge: int) -> tuple[Rope[Patch], Rope[Patch]]:
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
    return Rope(tuple(near)), Rope(tuple(far))
