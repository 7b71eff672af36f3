"""Moving, turning and mirroring a unit: the cloth does not change, only where it lies.

A move or a turn is done to the outline, and noted for the rest until something of it is asked for.
"""

from __future__ import annotations

from dataclasses import replace

from piecewright.exact import Vector
from piecewright.kernel.unit import Corner, Pressed, Unit, carried, roped

_SWAPPED: dict[Pressed, Pressed] = {"left": "right", "right": "left", "open": "open"}


def moved(unit: Unit, by: Vector) -> Unit:
    """The unit shifted by a vector in inches."""
    return _carried(unit, None, by)


def rotated(unit: Unit, direction: Vector) -> Unit:
    """The unit turned about the origin so that what pointed east points along a unit vector."""
    return _carried(unit, direction, None)


def turned(unit: Unit, degrees: int) -> Unit:
    """The unit turned counter-clockwise about the origin (a negative angle: clockwise). OutsideNumbers
    for an angle whose sine cannot be written."""
    return rotated(unit, Vector.at(degrees))


def mirrored(unit: Unit) -> Unit:
    """The unit as in a mirror, left for right, about the vertical axis."""

    def flip(p: Vector) -> Vector:
        return Vector(-p.x, p.y)

    count = len(unit.corners)
    return replace(
        unit,
        corners=tuple(
            Corner(finished=flip(c.finished), raw=tuple(flip(p) for p in reversed(c.raw)))
            for c in reversed(unit.corners)
        ),
        # edge i of the mirrored unit is edge count - 2 - i of the old one, run the other way
        directions=tuple(-flip(unit.directions[(count - 2 - i) % count]) for i in range(count)),
        patches=tuple(
            replace(
                patch,
                cells=tuple(tuple(flip(p) for p in reversed(cell)) for cell in patch.cells),
                grain=flip(patch.grain),
                mirrored=not patch.mirrored,
                discs=tuple(replace(disc, centre=flip(disc.centre)) for disc in patch.discs),
            )
            for patch in unit.patches
        ),
        seams=tuple(
            replace(
                seam,
                start=flip(seam.start),
                end=flip(seam.end),
                direction=flip(seam.direction),
                pressed=_SWAPPED[seam.pressed],
            )
            for seam in unit.seams
        ),
    )


def reflected(unit: Unit, start: Vector, along: Vector) -> Unit:
    """The unit turned face down over a line (a point and a unit vector), as it is then seen through the cloth."""
    # a mirror in the vertical axis, then the turn that brings that axis onto the line
    turn = along.turned(along)
    middle = mirrored(moved(unit, -start))
    return moved(rotated(middle, -turn), start)


def reflected_point(p: Vector, start: Vector, along: Vector) -> Vector:
    """A point turned over a line."""
    return start + reflected_direction(p - start, along)


def reflected_direction(v: Vector, along: Vector) -> Vector:
    """A direction turned over a line along a unit vector."""
    return along * (along.dot(v) * 2) - v


def settled(unit: Unit) -> Unit:
    """The unit moved so that the box round its raw outline has its lower left corner at the origin."""
    points = [p for corner in unit.corners for p in corner.raw]
    low = points[0].x
    floor = points[0].y
    for p in points[1:]:
        low = min(low, p.x)
        floor = min(floor, p.y)
    return moved(unit, Vector(-low, -floor)) if low or floor else unit


def _carried(unit: Unit, turn: Vector | None, shift: Vector | None) -> Unit:
    return roped(
        corners=tuple(
            Corner(
                finished=carried(corner.finished, turn, shift),
                raw=tuple(carried(p, turn, shift) for p in corner.raw),
            )
            for corner in unit.corners
        ),
        directions=unit.directions if turn is None else tuple(d.turned(turn) for d in unit.directions),
        patches=unit.patch_rope.carried(turn, shift),
        seams=unit.seam_rope.carried(turn, shift),
        ledger=unit.accounts,
        allowance=unit.allowance,
        cloth=unit.cloth,
        spots=None if unit.spots is None else unit.spots.carried(turn, shift),
    )
