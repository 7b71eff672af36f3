"""Whether two parts are alike: the same colours in the same outline, after turning but not mirroring.

Seams and the division into cells do not count, only which fabric is seen where: two parts are alike
when their outlines agree and no area of one fabric lies on another.
"""

from __future__ import annotations

from dataclasses import replace

from piecewright.exact import Vector
from piecewright.kernel.measure import raw_outline
from piecewright.kernel.moves import moved, rotated
from piecewright.kernel.polygon import apart, area, carve
from piecewright.kernel.unit import Patch, Unit


def alike(first: Unit, second: Unit) -> Vector | None:
    """The turning (a unit vector, east for none) that brings `second` onto `first`, or None."""
    for turning in turnings(first, second):
        if turned_onto(first, second, turning) is not None:
            return turning
    return None


def turnings(first: Unit, second: Unit) -> tuple[Vector, ...]:
    """The turnings under which the directions of the edges agree; no turning at all comes first."""
    count = len(first.directions)
    if count != len(second.directions):
        return ()
    found: list[Vector] = []
    for shift in range(count):
        turning = first.directions[0].turned(second.directions[shift].conjugate())
        if turning not in found and all(
            second.directions[(shift + t) % count].turned(turning) == first.directions[t] for t in range(count)
        ):
            found.append(turning)
    east = Vector(1, 0)
    return tuple(sorted(found, key=lambda turning: turning != east))


def turned_onto(first: Unit, second: Unit, turning: Vector) -> Unit | None:
    """`second` turned and moved so that it covers `first`, colours and outline; None where it cannot."""
    turned = rotated(second, turning)
    count = len(first.corners)
    for shift in range(count):
        if any(turned.directions[(shift + t) % count] != first.directions[t] for t in range(count)):
            continue
        placed = moved(turned, first.corners[0].finished - turned.corners[shift].finished)
        if all(
            placed.corners[(shift + t) % count].finished == first.corners[t].finished for t in range(count)
        ) and _same_ring(raw_outline(first), raw_outline(placed)) and same_colours(first, placed):
            return placed
    return None


def same_colours(first: Unit, second: Unit) -> bool:
    """True when no cloth of the one lies on another fabric of the other; the outlines must agree."""
    for patch in first.patches:
        for other in second.patches:
            if patch.fabric == other.fabric or _parted(patch, other):
                continue
            for cell in patch.cells:
                for hole in other.cells:
                    if not apart(cell, hole):
                        inside, _ = carve(cell, hole)
                        if inside and area(inside):
                            return False
    return True


def _parted(first: Patch, second: Patch) -> bool:
    """True when one curve parts the two: the one lies within it and the other outside."""
    return any(replace(disc, inside=not disc.inside) in second.discs for disc in first.discs)


def _same_ring(first: tuple[Vector, ...], second: tuple[Vector, ...]) -> bool:
    if len(first) != len(second):
        return False
    if first[0] not in second:
        return False
    shift = second.index(first[0])
    return all(second[(shift + i) % len(second)] == p for i, p in enumerate(first))
