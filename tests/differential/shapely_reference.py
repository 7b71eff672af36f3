"""Sewing worked out a second time with shapely: floats and general polygon operations.

A unit is its raw outline as a ring of floats, without inner corners, and the cloth as shapely polygons. A finished edge
is the raw edge moved one allowance inward, between its neighbours moved likewise.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import shapely
from shapely.affinity import affine_transform, translate
from shapely.geometry import LineString, Polygon, box
from shapely.ops import split

Point = tuple[float, float]
FAR = 200.0
GRID = 1e-12  # without one, an overlay along a line that is almost an edge may lose a whole polygon
NEAR = 1e-6  # shorter than any edge, longer than any error


@dataclass(frozen=True)
class Sewn:
    outline: Polygon
    cells: tuple[tuple[str, Polygon], ...]
    allowance: float

    def ring(self) -> list[Point]:
        """The corners counter-clockwise, those between edges in one line left out."""
        points: list[Point] = []
        for p in list(shapely.geometry.polygon.orient(self.outline).exterior.coords)[:-1]:
            if not points or math.dist(p, points[-1]) > NEAR:
                points.append(p)
        if math.dist(points[0], points[-1]) <= NEAR:
            points.pop()
        kept = []
        for i, (x, y) in enumerate(points):
            (ax, ay), (bx, by) = points[i - 1], points[(i + 1) % len(points)]
            twice = (x - ax) * (by - y) - (y - ay) * (bx - x)
            if abs(twice) > NEAR * math.hypot(bx - ax, by - ay):
                kept.append((x, y))
        return kept

    def finished(self) -> list[Point]:
        """Corner i of the finished outline belongs to corner i of the ring."""
        ring = self.ring()
        count = len(ring)
        moved = []
        for i in range(count):
            (ax, ay), (bx, by) = ring[i], ring[(i + 1) % count]
            length = math.hypot(bx - ax, by - ay)
            nx, ny = (by - ay) / length, (ax - bx) / length
            moved.append((nx, ny, nx * ax + ny * ay - self.allowance))
        return [_meet(moved[i - 1], moved[i]) for i in range(count)]

    def seen(self) -> dict[str, float]:
        found: dict[str, float] = {}
        for fabric, cell in self.cells:
            found[fabric] = found.get(fabric, 0.0) + cell.area
        return dict(sorted(found.items()))


def _meet(first: tuple[float, float, float], second: tuple[float, float, float]) -> Point:
    (a, b, c), (d, e, f) = first, second
    det = a * e - b * d
    return (c * e - f * b) / det, (f * a - c * d) / det


def rectangle(width: float, height: float, fabric: str, s: float) -> Sewn:
    cloth = box(0, 0, width, height)
    return Sewn(outline=cloth, cells=((fabric, cloth),), allowance=s)


def turned(unit: Sewn, direction: Point) -> Sewn:
    x, y = direction
    matrix = [x, -y, y, x, 0, 0]
    return Sewn(
        outline=affine_transform(unit.outline, matrix),
        cells=tuple((fabric, affine_transform(cell, matrix)) for fabric, cell in unit.cells),
        allowance=unit.allowance,
    )


def moved(unit: Sewn, x: float, y: float) -> Sewn:
    return Sewn(
        outline=translate(unit.outline, x, y),
        cells=tuple((fabric, translate(cell, x, y)) for fabric, cell in unit.cells),
        allowance=unit.allowance,
    )


def facing(unit: Sewn, outward: Point) -> int:
    """The edge of the ring whose outward normal is nearest to a direction."""
    ring = unit.ring()
    scores = []
    for (ax, ay), (bx, by) in zip(ring, ring[1:] + ring[:1], strict=True):
        length = math.hypot(bx - ax, by - ay)
        scores.append(((by - ay) * outward[0] + (ax - bx) * outward[1]) / length)
    return max(range(len(scores)), key=scores.__getitem__)


def edge_at(unit: Sewn, start: Point, end: Point) -> int:
    """The edge of the ring whose finished ends are nearest to two points."""
    ring = unit.finished()
    scores = [math.dist(p, start) + math.dist(q, end) for p, q in zip(ring, ring[1:] + ring[:1], strict=True)]
    return min(range(len(scores)), key=scores.__getitem__)


def sew(first: Sewn, i: int, second: Sewn, j: int, *, as_it_lies: bool = False) -> Sewn:
    """Edge i of the first ring to edge j of the second, middle of the finished edges on middle; or where the second
    lies, its edge of another length."""
    a, b = _ends(first.finished(), i)
    x, y = _unit(a, b)
    if not as_it_lies:
        second, j = _placed(first, i, second, j)
    mine, theirs = first.ring(), second.ring()
    n, m = len(mine), len(theirs)
    d, c = _ends(second.finished(), j)
    # an end where one edge runs on past the other stays open, unless the neighbours close over it
    start_open = as_it_lies and math.dist(a, c) > NEAR and not _closing(mine, (i - 1) % n, theirs, (j + 1) % m)
    end_open = as_it_lies and math.dist(b, d) > NEAR and not _closing(theirs, (j - 1) % m, mine, (i + 1) % n)
    sewn = _stretch((a, b), (c, d), first.allowance, start_open, end_open)
    under, over = _half(b, (-x, -y)), _half(a, (x, y))
    cells = [(fabric, _less(cell, _both(_both(cell, under), sewn))) for fabric, cell in first.cells]
    cells += [(fabric, _less(cell, _both(_both(cell, over), sewn))) for fabric, cell in second.cells]
    closed = not start_open and not end_open
    if closed:
        # what lies beyond the raw line of a neighbouring edge is cut off
        for ring, edge in ((mine, i), (theirs, j)):
            for step in (-1, 1):
                p, q = _ends(ring, (edge + step) % len(ring))
                half = _half(p, _unit(p, q))
                cells = [(fabric, _both(cell, half)) for fabric, cell in cells]
    found = [(fabric, part) for fabric, cell in cells for part in _parts(cell) if part.area > NEAR]
    return Sewn(outline=whole([part for _, part in found], closed), cells=tuple(found), allowance=first.allowance)


def _both(one: shapely.Geometry, other: shapely.Geometry) -> shapely.Geometry:
    return _areal(shapely.intersection(one, other, grid_size=GRID))


def _less(one: shapely.Geometry, other: shapely.Geometry) -> shapely.Geometry:
    return _areal(shapely.difference(one, other, grid_size=GRID))


def _areal(shape: shapely.Geometry) -> shapely.Geometry:
    """Without the points and lines that a clip along an edge may leave."""
    parts = _parts(shape)
    return parts[0] if len(parts) == 1 else shapely.MultiPolygon(parts)


def _closing(ring: list[Point], edge: int, other: list[Point], other_edge: int) -> bool:
    """Whether the outline turns left from an edge of one ring into an edge of the other."""
    (x, y), (u, v) = _unit(*_ends(ring, edge)), _unit(*_ends(other, other_edge))
    return x * v - y * u > NEAR


def whole(cells: list[Polygon], convex: bool = False) -> Polygon:
    """The outline round cells that lie edge to edge up to rounding."""
    if convex:
        return shapely.MultiPoint([p for cell in cells for p in cell.exterior.coords]).convex_hull
    return shapely.union_all([cell.buffer(1e-11, join_style="mitre") for cell in cells])


def _placed(first: Sewn, i: int, second: Sewn, j: int) -> tuple[Sewn, int]:
    a, b = _ends(first.finished(), i)
    c, d = _ends(second.finished(), j)
    x, y = _unit(a, b)
    u, v = _unit(c, d)
    # the second's edge is to run the other way: turn by (-x, -y) over (u, v)
    turn = (-x * u - y * v, -y * u + x * v)
    second = turned(second, turn)
    c, d = ((p[0] * turn[0] - p[1] * turn[1], p[0] * turn[1] + p[1] * turn[0]) for p in (c, d))
    by = (a[0] + b[0] - c[0] - d[0]) / 2, (a[1] + b[1] - c[1] - d[1]) / 2
    second = moved(second, *by)
    return second, edge_at(second, (c[0] + by[0], c[1] + by[1]), (d[0] + by[0], d[1] + by[1]))


def _stretch(
    first: tuple[Point, Point], second: tuple[Point, Point], s: float, start_open: bool, end_open: bool
) -> Polygon:
    """Across the seam: all along it, but no further than one allowance beyond the shorter edge at an open end."""
    (ax, ay), (bx, by) = first
    x, y = _unit((ax, ay), (bx, by))
    ends = [[px * x + py * y for px, py in edge] for edge in (first, second)]
    base = ax * x + ay * y
    low = max(e[0] for e in ends) - s if start_open else base - FAR
    high = min(e[1] for e in ends) + s if end_open else base + FAR
    start, end = ((ax + (t - base) * x, ay + (t - base) * y) for t in (low, high))
    return Polygon(
        [
            (start[0] + FAR * y, start[1] - FAR * x),
            (end[0] + FAR * y, end[1] - FAR * x),
            (end[0] - FAR * y, end[1] + FAR * x),
            (start[0] - FAR * y, start[1] + FAR * x),
        ]
    )


def cut(unit: Sewn, point: Point, direction: Point) -> tuple[Sewn, Sewn]:
    """What is left of the line, and what is right of it."""
    x, y = direction
    line = LineString([(point[0] - FAR * x, point[1] - FAR * y), (point[0] + FAR * x, point[1] + FAR * y)])
    left = _half(point, direction)
    sides: tuple[list[tuple[str, Polygon]], list[tuple[str, Polygon]]] = ([], [])
    for fabric, cell in unit.cells:
        for part in split(cell, line).geoms:
            if part.area > NEAR:
                sides[0 if left.covers(part.representative_point()) else 1].append((fabric, part))
    halves = [_both(unit.outline, left), _less(unit.outline, left)]
    return (
        Sewn(outline=halves[0], cells=tuple(sides[0]), allowance=unit.allowance),
        Sewn(outline=halves[1], cells=tuple(sides[1]), allowance=unit.allowance),
    )


def trim(unit: Sewn, corners: list[Point]) -> Sewn:
    ruler = Polygon(corners)
    cells = [(fabric, part) for fabric, cell in unit.cells for part in _parts(_both(cell, ruler))]
    return Sewn(outline=ruler, cells=tuple(each for each in cells if each[1].area > NEAR), allowance=unit.allowance)


def _ends(ring: list[Point], edge: int) -> tuple[Point, Point]:
    return ring[edge], ring[(edge + 1) % len(ring)]


def _unit(a: Point, b: Point) -> Point:
    length = math.hypot(b[0] - a[0], b[1] - a[1])
    return (b[0] - a[0]) / length, (b[1] - a[1]) / length


def _half(point: Point, direction: Point) -> Polygon:
    """The half plane left of a line, as a very large square."""
    (px, py), (x, y) = point, direction
    back, ahead = (px - FAR * x, py - FAR * y), (px + FAR * x, py + FAR * y)
    return Polygon([back, ahead, (ahead[0] - FAR * y, ahead[1] + FAR * x), (back[0] - FAR * y, back[1] + FAR * x)])


def _parts(shape: shapely.Geometry) -> list[Polygon]:
    found = [shape] if isinstance(shape, Polygon) else list(getattr(shape, "geoms", ()))
    return [part for part in found if isinstance(part, Polygon) and part.area > NEAR]
