"""The outline left of a straight cut through work that has inner corners.

The cut must enter and leave the cloth once. Corners away from it keep their finished and raw points; the two
new ones are made where the cut crosses an edge, or ends in a corner.
"""

from __future__ import annotations

from dataclasses import dataclass

from piecewright.exact import Exact, Vector
from piecewright.kernel.errors import SewingError
from piecewright.kernel.polygon import meet, side
from piecewright.kernel.unit import Corner, Unit


@dataclass(frozen=True, slots=True, kw_only=True)
class _Spot:
    """A point of the raw outline: the corner it belongs to, or the edge that the cut crosses there."""

    point: Vector
    corner: int | None
    edge: int  # the edge that leaves the corner, or the one that is crossed


def left_outline(unit: Unit, start: Vector, direction: Vector) -> tuple[tuple[Corner, ...], tuple[Vector, ...]]:
    """Corners and directions of the part left of the line. SewingError `cut-misses`, `cut-in-and-out` when the
    line crosses the outline more than twice, `cut-at-allowance` when it crosses a raw edge that no seam
    line runs along, `too-small` when a seam would take a whole edge away."""
    spots = _spots(unit, start, direction)
    sides = [side(start, direction, spot.point) for spot in spots]
    if min(sides) >= 0 or max(sides) <= 0:
        raise SewingError("cut-misses")
    count = len(spots)
    leaving = [i for i in range(count) if sides[i] == 0 and sides[i - 1] > 0]
    entering = [i for i in range(count) if sides[i] == 0 and sides[(i + 1) % count] > 0]
    if len(leaving) != 1 or len(entering) != 1:
        raise SewingError("cut-in-and-out")
    first, last = entering[0], leaving[0]
    inward = direction.left() * unit.allowance
    line = start + inward
    corners: list[Corner] = []
    directions: list[Vector] = []

    # where the part begins: the cut edge runs into the outline
    edge = spots[first].edge
    corners.append(
        Corner(finished=_crossing(unit, edge, line, direction), raw=_raw_from(spots, first, sides, unit))
    )
    directions.append(unit.directions[edge])
    done: set[int] = set()
    at = (first + 1) % count
    while at != last:
        number = spots[at].corner
        if number is not None and number not in done and number != spots[first].corner and number != spots[last].corner:
            done.add(number)
            corners.append(unit.corners[number])
            directions.append(unit.directions[number])
        at = (at + 1) % count
    edge = _edge_into(unit, spots[last])
    corners.append(Corner(finished=_crossing(unit, edge, line, direction), raw=(spots[last].point,)))
    directions.append(direction)
    for i, along in enumerate(directions):
        step = corners[(i + 1) % len(corners)].finished - corners[i].finished
        if step.dot(along) <= 0:
            raise SewingError("too-small", side="left")
    return tuple(corners), tuple(directions)


def _spots(unit: Unit, start: Vector, direction: Vector) -> list[_Spot]:
    """The raw outline with a spot wherever the line crosses it."""
    spots: list[_Spot] = []
    count = len(unit.corners)
    for number, corner in enumerate(unit.corners):
        path = list(corner.raw)
        for i, p in enumerate(path):
            spots.append(_Spot(point=p, corner=number, edge=number))
            last = i + 1 == len(path)
            q = unit.corners[(number + 1) % count].raw[0] if last else path[i + 1]
            if side(start, direction, p) * side(start, direction, q) < 0:
                if not last:
                    raise SewingError("cut-at-allowance")
                a: Exact = direction.cross(p - start)
                b: Exact = direction.cross(q - start)
                spots.append(_Spot(point=p + (q - p) * (a / (a - b)), corner=None, edge=number))
    return spots


def _edge_into(unit: Unit, spot: _Spot) -> int:
    """The edge that comes to a spot: the crossed one, or the one before the corner."""
    return spot.edge if spot.corner is None else (spot.corner - 1) % len(unit.corners)


def _crossing(unit: Unit, edge: int, line: Vector, direction: Vector) -> Vector:
    along = unit.directions[edge]
    if not along.cross(direction):
        raise SewingError("cut-at-allowance")
    return meet(unit.corners[edge].finished, along, line, direction)


def _raw_from(spots: list[_Spot], first: int, sides: list[int], unit: Unit) -> tuple[Vector, ...]:
    """The raw path at the beginning of the part: the spot itself, and further points of the same corner."""
    path = [spots[first].point]
    number = spots[first].corner
    at = (first + 1) % len(spots)
    while number is not None and spots[at].corner == number and sides[at] >= 0:
        path.append(spots[at].point)
        at = (at + 1) % len(spots)
    return tuple(path)
