"""Recorded units in floats, as shapely's polygons.

A circle is a polygon of 720 corners with the circle's own area, so that a quarter of it has a quarter of that; where a
circle is cut elsewhere, the area is wrong by less than a chord's, r²·(π/360)³/12 or 5·10⁻⁸ r² square inches. Hence
two tolerances, `NEAR` for straight work and `NEAR_ARC` for work with curves.
"""

from __future__ import annotations

import math
from typing import Any

import numpy as np
import shapely
from differential import shapely_reference as floats
from differential.back import Back, Cloth, Ends, Sides, is_open
from piecewright.exact import Exact, Vector
from piecewright.kernel.unit import Patch, Polygon, Unit
from shapely.affinity import translate

CHORDS = 720
NEAR = 1e-8  # square inches, and inches times square inches
NEAR_ARC = 1e-5


class WithShapely(Back):
    NEAR = 1e-9

    def read(self, unit: Unit) -> floats.Sewn:
        inner = any(d.cross(unit.directions[n - 1]) > 0 for n, d in enumerate(unit.directions))
        straight = [_polygon(cell) for patch in unit.patches if not _within(patch) for cell in patch.cells]
        outline = floats.whole(straight, not inner)
        return floats.Sewn(outline=outline, cells=self.cloth(unit), allowance=float(unit.allowance))

    def cloth(self, unit: Unit) -> Cloth:
        found = []
        for patch in unit.patches:
            for cell in patch.cells:
                shape: Any = _polygon(cell)
                for d in patch.discs:
                    seam = circle(d.centre.floats, float(d.radius))
                    shape = shape.intersection(seam) if d.inside else shape.difference(seam)
                found += [(patch.fabric, part) for part in floats._parts(shape)]
        return tuple(found)

    def check(self, mine: floats.Sewn, unit: Unit) -> None:
        raw = [p.floats for corner in unit.corners for p in corner.raw]
        area = sum(a * d - b * c for (a, b), (c, d) in zip(raw, raw[1:] + raw[:1], strict=True)) / 2
        assert math.isclose(mine.outline.area, area, rel_tol=self.NEAR, abs_tol=self.NEAR)
        xs, ys = zip(*raw, strict=True)
        for one, other in zip(mine.outline.bounds, (min(xs), min(ys), max(xs), max(ys)), strict=True):
            assert abs(one - other) < self.NEAR
        finished = [corner.finished.floats for corner in unit.corners]
        own = mine.finished()
        assert len(own) == len(finished)
        assert all(min(math.dist(p, q) for q in finished) < self.NEAR for p in own)
        near = NEAR_ARC if any(patch.discs for patch in unit.patches) else NEAR
        same_places(mine.cells, self.cloth(unit), near)

    def piece(self, width: Exact, height: Exact, fabric: str, s: Exact) -> floats.Sewn:
        return floats.rectangle(float(width), float(height), fabric, float(s))

    def polygon(self, sides: Sides, fabric: str, s: Exact) -> floats.Sewn:
        cloth = shapely.Polygon([(float(x), float(y)) for (x, y), _ in sides])
        return floats.Sewn(outline=cloth, cells=((fabric, cloth),), allowance=float(s))

    def normals(self, unit: floats.Sewn) -> list[tuple[tuple[float, float], float]]:
        ring = unit.finished()
        found = []
        for (ax, ay), (bx, by) in zip(ring, ring[1:] + ring[:1], strict=True):
            length = math.hypot(bx - ax, by - ay)
            found.append((((by - ay) / length, (ax - bx) / length), length))
        return found

    def sew(self, first: Any, i: Any, second: Any, j: Any, as_it_lies: bool) -> floats.Sewn:
        i = i if isinstance(i, int) else floats.edge_at(first, i[0].floats, i[1].floats)
        j = j if isinstance(j, int) else floats.edge_at(second, j[0].floats, j[1].floats)
        return floats.sew(first, i, second, j, as_it_lies=as_it_lies)

    def turned(self, unit: Any, degrees: int) -> floats.Sewn:
        angle = math.radians(degrees)
        return floats.turned(unit, (math.cos(angle), math.sin(angle)))

    def cut(self, parts: list[Any], start: Vector, end: Vector) -> list[Any]:
        a, along = start.floats, (end - start).floats
        direction = along[0] / math.hypot(*along), along[1] / math.hypot(*along)
        found: list[Any] = []
        for part in parts:
            pair = floats.cut(part, a, direction)
            found += pair if min(half.outline.area for half in pair) > floats.NEAR else [part]
        return found

    def trim(self, unit: Any, corners: tuple[Vector, ...]) -> floats.Sewn:
        points = [p.floats for p in corners]
        trimmed = floats.trim(unit, points)
        (ax, ay), (bx, by) = points[0], points[1]
        length = math.hypot(bx - ax, by - ay)
        straight = floats.turned(trimmed, ((bx - ax) / length, (ay - by) / length))
        left, bottom, _, _ = straight.outline.bounds
        return floats.moved(straight, -left, -bottom)

    def curved(self, unit: floats.Sewn, centre: Vector, radius: Exact, fabric: str) -> floats.Sewn:
        seam = circle(centre.floats, float(radius))
        cells = [(name, part) for name, cell in unit.cells for part in floats._parts(cell.difference(seam))]
        cells += [(fabric, part) for part in floats._parts(unit.outline.intersection(seam))]
        return floats.Sewn(outline=unit.outline, cells=tuple(cells), allowance=unit.allowance)

    def goes_round(self, unit: Unit, length: Exact) -> None:
        assert math.isclose(self.read(unit).outline.length, float(length), rel_tol=self.NEAR)

    def together(self, parts: tuple[Unit, ...], whole: Unit, eased: Exact) -> None:
        pictures = [self._picture(part) for part in parts]
        mine, outline = self._picture(whole)
        slack = 1e-9 + float(eased) * outline.length
        together = shapely.union_all([ring.buffer(1e-9, join_style="mitre") for _, ring in pictures])
        assert together.symmetric_difference(outline).area < slack + 1e-7 * outline.length
        if any(is_open(unit) for unit in (*parts, whole)):
            return  # beside an open seam one allowance lies over the other's cloth
        for fabric in {name for seen, _ in (*pictures, (mine, outline)) for name in seen}:
            assert abs(sum(seen.get(fabric, 0.0) for seen, _ in pictures) - mine.get(fabric, 0.0)) < slack + NEAR

    def _picture(self, unit: Unit) -> tuple[dict[str, float], Any]:
        """How much of each fabric shows within the seam lines, and those; an open seam is no hole in it."""
        ring = shapely.Polygon([corner.finished.floats for corner in unit.corners]).buffer(0)
        seen: dict[str, float] = {}
        for fabric, cell in self.cloth(unit):
            seen[fabric] = seen.get(fabric, 0.0) + cell.intersection(ring).area
        return seen, ring

    def on_left(self, cloth: Cloth, line: Ends) -> Cloth:
        left = floats._half(line[0].floats, _along(line))
        return tuple((fabric, part) for fabric, cell in cloth for part in floats._parts(floats._both(cell, left)))

    def reflected(self, cloth: Cloth, line: Ends) -> Cloth:
        start, along = np.array(line[0].floats), np.array(_along(line))

        def over(points: Any) -> Any:
            moved = points - start
            return 2 * (moved @ along)[:, None] * along - moved + start

        return tuple((fabric, shapely.transform(cell, over)) for fabric, cell in cloth)

    def less(self, cloth: Cloth, holes: Cloth) -> Cloth:
        hole = shapely.union_all([shape for _, shape in holes])
        return tuple((fabric, part) for fabric, cell in cloth for part in floats._parts(floats._less(cell, hole)))

    def evened(self, cloth: Cloth, base: Cloth, corner: str) -> Cloth:
        (x, y), (u, v) = _corner(base, corner), _corner(cloth, corner)
        return tuple((fabric, translate(cell, x - u, y - v)) for fabric, cell in cloth)

    def area(self, cloth: Cloth) -> float:
        return float(sum(cell.area for _, cell in cloth))

    def same(self, one: Cloth, other: Cloth) -> None:
        same_places(one, other, NEAR)

    def runs(self, cloth: Cloth, line: Ends) -> list[tuple[float, float]]:
        (ax, ay), (x, y) = line[0].floats, _along(line)
        length, far = math.dist(line[0].floats, line[1].floats), floats.FAR
        through = shapely.LineString([(ax - far * x, ay - far * y), (ax + far * x, ay + far * y)])
        found = []
        for _, cell in cloth:
            on = shapely.get_coordinates(cell.buffer(self.NEAR).intersection(through))
            shares = [((px - ax) * x + (py - ay) * y) / length for px, py in on]
            if shares and max(shares) - min(shares) > floats.NEAR:
                found.append((min(shares), max(shares)))
        return found


def circle(centre: floats.Point, radius: float) -> shapely.Polygon:
    """As large as the circle: n chords of radius ρ cover n/2·ρ²·sin(2π/n)."""
    step = 2 * math.pi / CHORDS
    reach = radius * math.sqrt(step / math.sin(step))
    (x, y) = centre
    return shapely.Polygon([(x + reach * math.cos(n * step), y + reach * math.sin(n * step)) for n in range(CHORDS)])


def same_places(one: Cloth, other: Cloth, near: float) -> None:
    """Each fabric has the same area and the same first moments, so that it lies in the same places on the whole."""
    mine, theirs = _moments(one), _moments(other)
    assert mine.keys() == theirs.keys()
    for fabric, (area, x, y) in mine.items():
        size, u, v = theirs[fabric]
        reach = 1 + max(abs(x), abs(y)) / area
        assert abs(area - size) < near, fabric
        assert abs(x - u) < near * reach and abs(y - v) < near * reach, fabric


def _moments(cloth: Cloth) -> dict[str, tuple[float, float, float]]:
    found: dict[str, tuple[float, float, float]] = {}
    for fabric, cell in cloth:
        area, middle = cell.area, cell.centroid
        before = found.get(fabric, (0.0, 0.0, 0.0))
        found[fabric] = before[0] + area, before[1] + area * middle.x, before[2] + area * middle.y
    return found


def _within(patch: Patch) -> bool:
    return any(disc.inside for disc in patch.discs)


def _polygon(cell: Polygon) -> shapely.Polygon:
    return shapely.Polygon([p.floats for p in cell])


def _along(line: Ends) -> floats.Point:
    x, y = (line[1] - line[0]).floats
    length = math.hypot(x, y)
    return x / length, y / length


def _corner(cloth: Cloth, corner: str) -> floats.Point:
    left, bottom, right, top = shapely.union_all([shape for _, shape in cloth]).bounds
    return left if "left" in corner else right, bottom if "bottom" in corner else top
