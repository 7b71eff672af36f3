"""Whether parts show the same colours in the same outline after turning, worked out with shapely from their cells."""

from __future__ import annotations

import math
from itertools import pairwise

from piecewright.kernel.unit import Unit
from shapely import Polygon, unary_union
from shapely.affinity import rotate, translate
from shapely.geometry.base import BaseGeometry

NEAR = 1e-6  # square inches of difference that floats may leave
Shown = dict[str, BaseGeometry]


def shown(unit: Unit) -> Shown:
    """What is seen of each fabric, in inches, straight cells only."""
    cells: dict[str, list[Polygon]] = {}
    for patch in unit.patches:
        for cell in patch.cells:
            cells.setdefault(patch.fabric, []).append(Polygon([(float(p.x), float(p.y)) for p in cell]))
    return {fabric: unary_union(own) for fabric, own in cells.items()}


def alike(one: Shown, other: Shown) -> bool:
    """One turned, not mirrored, lies on the other. Every turn is tried that lays a longest side of the outline of the
    one on a longest side of the outline of the other."""
    if one.keys() != other.keys():
        return False
    whole, against = (unary_union(list(each.values())) for each in (one, other))
    if abs(whole.area - against.area) > NEAR:
        return False
    centre, middle = whole.centroid, against.centroid
    for turn in _turns(whole, against):
        moved = {
            fabric: translate(rotate(shape, turn, origin=centre), middle.x - centre.x, middle.y - centre.y)
            for fabric, shape in one.items()
        }
        if all(moved[fabric].symmetric_difference(other[fabric]).area < NEAR for fabric in one):
            return True
    return False


def _turns(one: BaseGeometry, other: BaseGeometry) -> list[float]:
    sides, others = _sides(one), _sides(other)
    longest = max(length for length, _ in sides)
    first = next(angle for length, angle in sides if length > longest - 1e-6)
    return [angle - first for length, angle in others if abs(length - longest) < 1e-6]


def _sides(shape: BaseGeometry) -> list[tuple[float, float]]:
    """Length and direction in degrees of every side, counter-clockwise."""
    ring = list(shape.convex_hull.exterior.coords)
    if shape.convex_hull.exterior.is_ccw is False:
        ring.reverse()
    return [
        (math.dist(p, q), math.degrees(math.atan2(q[1] - p[1], q[0] - p[0])))
        for p, q in pairwise(ring)
        if math.dist(p, q) > 1e-6
    ]
