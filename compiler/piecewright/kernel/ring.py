"""Convex rings whose edges keep their numbers through clips."""

from __future__ import annotations

from piecewright.exact import Vector
from piecewright.kernel.polygon import crossed, sides_of_line
from piecewright.kernel.unit import Corner

Ring = tuple[tuple[Vector, int], ...]  # corners, each with the number of the edge that leaves it


def clip_ring(ring: Ring, point: Vector, direction: Vector, edge: int) -> tuple[Ring, Ring]:
    """A convex ring divided by a line, left and right, edges keeping their numbers; the new edge along
    the line is `edge`. `()` for a side where nothing is left."""
    sides = sides_of_line(point, direction, [p for p, _ in ring])
    left: list[tuple[Vector, int]] = []
    right: list[tuple[Vector, int]] = []
    for i, (p, number) in enumerate(ring):
        q = ring[(i + 1) % len(ring)][0]
        s, t = sides[i], sides[(i + 1) % len(ring)]
        if s >= 0:
            left.append((p, edge if s == 0 and t < 0 else number))
        if s <= 0:
            right.append((p, edge if s == 0 and t > 0 else number))
        if s * t < 0:
            crossing = crossed(point, direction, p, q)
            left.append((crossing, number if t > 0 else edge))
            right.append((crossing, number if t < 0 else edge))
    whole = max(sides) > 0
    return (
        tuple(left) if whole and len(left) > 2 else (),
        tuple(right) if min(sides) < 0 and len(right) > 2 else (),
    )


def corners_between(finished: Ring, raw: Ring) -> tuple[Corner, ...]:
    """The corners of a convex unit from its finished and raw rings, numbered alike. Raw edges that
    have no finished one lie within the raw path of the corner there."""
    start_of = {edge: i for i, (_, edge) in enumerate(raw)}
    count = len(raw)
    corners: list[Corner] = []
    for i, (point, edge) in enumerate(finished):
        incoming = finished[i - 1][1]
        place = (start_of[incoming] + 1) % count
        last = start_of[edge]
        path = [raw[place][0]]
        while place != last:
            place = (place + 1) % count
            path.append(raw[place][0])
        corners.append(Corner(finished=point, raw=tuple(path)))
    return tuple(corners)
