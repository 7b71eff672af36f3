"""Cells of one cloth as the outline that is seen: no line between them is drawn."""

from __future__ import annotations

from itertools import pairwise

from piecewright.exact import Vector
from piecewright.kernel.polygon import apart, side
from piecewright.kernel.unit import Polygon

Edge = tuple[Vector, Vector]


def outlines(cells: tuple[Polygon, ...]) -> tuple[Polygon, ...]:
    """The outlines of convex cells that do not overlap, counter-clockwise; a hole runs clockwise.

    Sides shared by two cells, in full or in part, cancel; what is left closes into rings.
    """
    if len(cells) == 1:
        return cells
    edges: dict[Edge, None] = {}
    for number, cell in enumerate(cells):
        near = [p for other, c in enumerate(cells) if other != number and not apart(c, cell) for p in c]
        for i, start in enumerate(cell):
            for edge in _divided(start, cell[(i + 1) % len(cell)], near):
                if (edge[1], edge[0]) in edges:
                    del edges[edge[1], edge[0]]
                else:
                    edges[edge] = None
    return _rings(edges)


def _divided(start: Vector, end: Vector, points: list[Vector]) -> list[Edge]:
    """A side, divided at the corners of other cells that lie on it."""
    along = end - start
    length = along.squared()
    on = {p: along.dot(p - start) for p in points if p not in (start, end) and not side(start, along, p)}
    inner = sorted((p for p, reach in on.items() if 0 < reach < length), key=lambda p: on[p])
    return list(pairwise([start, *inner, end]))


def _rings(edges: dict[Edge, None]) -> tuple[Polygon, ...]:
    following: dict[Vector, list[Vector]] = {}
    for start, end in edges:
        following.setdefault(start, []).append(end)
    rings: list[Polygon] = []
    while following:
        first = next(iter(following))
        ring = [first]
        ends = following[first]
        here = ends.pop(0)
        before = first
        if not ends:
            del following[first]
        while here != first:
            ring.append(here)
            ends = following[here]
            # where outlines touch in a corner, the sharpest turn left keeps them apart
            end = max(ends, key=lambda p: _turn(before, here, p))
            ends.remove(end)
            if not ends:
                del following[here]
            before, here = here, end
        rings.append(tuple(_straightened(ring)))
    return tuple(rings)


def _straightened(ring: list[Vector]) -> list[Vector]:
    count = len(ring)
    return [p for i, p in enumerate(ring) if side(ring[i - 1], p - ring[i - 1], ring[(i + 1) % count])]


def _turn(before: Vector, here: Vector, after: Vector) -> float:
    """Grows with the turn to the left, from -2 (back to the right) to 2."""
    (ax, ay), (bx, by), (cx, cy) = before.floats, here.floats, after.floats
    ux, uy, vx, vy = bx - ax, by - ay, cx - bx, cy - by
    cross, dot = ux * vy - uy * vx, ux * vx + uy * vy
    size = (ux * ux + uy * uy) ** 0.5 * (vx * vx + vy * vy) ** 0.5 or 1.0
    return (1 - dot / size) * (1 if cross >= 0 else -1)
