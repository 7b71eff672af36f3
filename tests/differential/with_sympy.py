"""Recorded units in sympy's numbers: exact, with π as a symbol where a seam is curved."""

from __future__ import annotations

import math
from collections import Counter
from typing import Any

import shapely
import sympy
from differential import sympy_arcs as arcs
from differential import sympy_reference as exact
from differential.back import Back, Cloth, Ends, Sides, ends, is_open
from piecewright.exact import Exact, Vector
from piecewright.kernel.unit import Patch, Unit

Ring = tuple[exact.Point, ...]


class WithSympy(Back):
    def __init__(self) -> None:
        self._seen: dict[int, tuple[Unit, dict[str, Any]]] = {}

    def read(self, unit: Unit) -> exact.Sewn:
        lines = []
        for corner, along in zip(unit.corners, unit.directions, strict=True):
            normal = self._point(along.right())
            lines.append((normal, sympy.expand(exact.dot(normal, self._point(corner.finished)))))
        return exact.Sewn(lines=tuple(lines), cells=self.cloth(unit), allowance=exact.number(str(unit.allowance)))

    def cloth(self, unit: Unit) -> Cloth:
        cells = [(self._label(patch), cell) for patch in unit.patches for cell in patch.cells]
        return tuple((label, tuple(map(self._point, cell))) for label, cell in cells)

    def _label(self, patch: Patch) -> arcs.Label:
        if not patch.discs:
            return patch.fabric
        rounds = [(arcs.Round(self._point(d.centre), exact.number(str(d.radius))), d.inside) for d in patch.discs]
        return arcs.Rounded(
            patch.fabric,
            frozenset(one for one, inside in rounds if inside),
            frozenset(one for one, inside in rounds if not inside),
        )

    def _point(self, p: Vector) -> exact.Point:
        return exact.number(str(p.x)), exact.number(str(p.y))

    def check(self, mine: exact.Sewn, unit: Unit) -> None:
        recorded = {self._point(corner.finished) for corner in unit.corners}
        assert set(mine.finished()) == recorded
        raw = tuple(self._point(p) for corner in unit.corners for p in corner.raw)
        area = exact.polygon_area(raw)
        assert arcs.vanishes(sum(mine.seen().values()) - area)
        xs, ys = zip(*raw, strict=True)
        size = tuple(sympy.expand(exact.least(each, -1) - exact.least(each, 1)) for each in (xs, ys))
        assert mine.size() == size
        self.same(mine.cells, self.cloth(unit))

    def piece(self, width: Exact, height: Exact, fabric: str, s: Exact) -> exact.Sewn:
        return exact.rectangle(exact.number(str(width)), exact.number(str(height)), fabric, exact.number(str(s)))

    def polygon(self, sides: Sides, fabric: str, s: Exact) -> exact.Sewn:
        allowance = exact.number(str(s))
        lines = []
        for corner, degrees in sides:
            angle = sympy.pi * degrees / 180
            normal = sympy.sin(angle), -sympy.cos(angle)
            lines.append((normal, sympy.expand(exact.dot(normal, corner) - allowance)))
        cell = tuple(corner for corner, _ in sides)
        return exact.Sewn(lines=tuple(lines), cells=((fabric, cell),), allowance=allowance)

    def _edge(self, unit: exact.Sewn, edge: Ends) -> int:
        start, end = self._point(edge[0]), self._point(edge[1])
        corners = unit.finished()
        return next(n for n, p in enumerate(corners) if p == start and corners[(n + 1) % len(corners)] == end)

    def normals(self, unit: exact.Sewn) -> list[tuple[tuple[float, float], float]]:
        corners = [(float(x), float(y)) for x, y in unit.finished()]
        lengths = [math.dist(p, q) for p, q in zip(corners, corners[1:] + corners[:1], strict=True)]
        return [((float(x), float(y)), length) for ((x, y), _), length in zip(unit.lines, lengths, strict=True)]

    def sew(self, first: Any, i: Any, second: Any, j: Any, as_it_lies: bool) -> exact.Sewn:
        i = i if isinstance(i, int) else self._edge(first, i)
        j = j if isinstance(j, int) else self._edge(second, j)
        return exact.sew(first, i, second, j, as_it_lies=as_it_lies)

    def turned(self, unit: Any, degrees: int) -> exact.Sewn:
        angle = sympy.pi * degrees / 180
        return exact.turned(unit, (sympy.cos(angle), sympy.sin(angle)))

    def cut(self, parts: list[Any], start: Vector, end: Vector) -> list[Any]:
        a, b = self._point(start), self._point(end)
        along = exact.minus(b, a)
        length = sympy.expand(sympy.sqrt(sympy.expand(exact.dot(along, along))))
        direction = exact.over(along[0], length), exact.over(along[1], length)
        found: list[Any] = []
        for part in parts:
            sides = [exact.sign(sympy.expand(exact.cross(direction, exact.minus(p, a)))) for p in part.raw()]
            found += exact.cut(part, a, direction) if min(sides) < 0 < max(sides) else [part]
        return found

    def trim(self, unit: Any, corners: tuple[Vector, ...]) -> exact.Sewn:
        points = tuple(self._point(p) for p in corners)
        trimmed = exact.trim(unit, points)
        along = trimmed.lines[0][0]  # the bottom's outward normal points down once it is straight
        turn = (-along[1], -along[0])
        straight = exact.turned(trimmed, turn)
        left, bottom, _, _ = straight.box()
        return exact.moved(straight, (-left, -bottom))

    def curved(self, unit: Any, centre: Vector, radius: Exact, fabric: str) -> exact.Sewn:
        seam = arcs.Round(self._point(centre), exact.number(str(radius)))
        return exact.Sewn(lines=unit.lines, cells=arcs.curved(unit.cells, seam, fabric), allowance=unit.allowance)

    def goes_round(self, unit: Unit, length: Exact) -> None:
        ring = self.read(unit).raw()
        sides = [exact.minus(q, p) for p, q in zip(ring, ring[1:] + ring[:1], strict=True)]
        around = sum(sympy.sqrt(sympy.expand(exact.dot(side, side))) for side in sides)
        assert arcs.vanishes(around - exact.number(str(length)))

    def together(self, parts: tuple[Unit, ...], whole: Unit, eased: Exact) -> None:
        slack = _slack(eased, self._finished(whole))
        if slack:
            *sizes, size = [exact.polygon_area(self._finished(unit)) for unit in (*parts, whole)]
            assert _within_slack(sum(sizes) - size, slack)
        else:
            self._bounded_alike(parts, whole)
        if any(is_open(unit) for unit in (*parts, whole)):
            return  # beside an open seam one allowance lies over the other's cloth
        *shown, mine = [self.finished(unit) for unit in (*parts, whole)]
        for fabric in {fabric for each in (*shown, mine) for fabric in each}:
            assert _within_slack(sum(each.get(fabric, 0) for each in shown) - mine.get(fabric, 0), slack), fabric

    def _bounded_alike(self, parts: tuple[Unit, ...], whole: Unit) -> None:
        """Two outlines that run against each other cancel, and what is left of all is the outline of the whole. A side
        from p to q is told by its ends on its line, +1 where it begins and -1 where it ends: such marks add up to
        nothing on every line exactly if the stretches between them do, whatever their lengths."""
        marks: Counter[tuple[exact.Point, exact.Point]] = Counter()
        for unit in (*parts, whole):
            way = -1 if unit is whole else 1
            for n, along in enumerate(unit.directions):
                line = self._point(along if (along.x, along.y) > (-along.x, -along.y) else -along)
                for end, mark in zip(ends(unit, n), (way, -way), strict=True):
                    marks[line, self._point(end)] += mark
        assert not any(marks.values())

    def _finished(self, unit: Unit) -> Ring:
        return tuple(self._point(corner.finished) for corner in unit.corners)

    def finished(self, unit: Unit) -> dict[str, Any]:
        """How much of each fabric shows within the seam lines. A cell is divided by those that run through it; floats
        tell only which of its parts lie inside."""
        if id(unit) in self._seen:  # what one step leaves, the next begins with
            return self._seen[id(unit)][1]
        ring = self._finished(unit)
        outline = _rough(ring).buffer(0)  # an open seam is no hole in it
        found: dict[str, Any] = {}
        for label, cell in self.cloth(unit):
            parts = _divided(cell, ring)
            inside = [part for part in parts if outline.contains(_rough(part).representative_point())]
            shown = sum((exact.cell_area(label, part) for part in inside), exact.ZERO)
            fabric = arcs.fabric_of(label)
            found[fabric] = sympy.expand(found.get(fabric, exact.ZERO) + shown)
        self._seen[id(unit)] = unit, found
        return found

    def on_left(self, cloth: Cloth, line: Ends) -> Cloth:
        normal, offset = self._line(line)
        found = ((label, exact.clipped(cell, normal, offset)) for label, cell in cloth)
        return tuple((label, cell) for label, cell in found if cell)

    def _line(self, line: Ends) -> exact.Line:
        """The outward normal of what lies left, of any length, and the offset."""
        start, end = map(self._point, line)
        return _right_of(start, end)

    def reflected(self, cloth: Cloth, line: Ends) -> Cloth:
        normal, offset = self._line(line)
        square = exact.dot(normal, normal)

        def over(p: exact.Point) -> exact.Point:
            share = exact.over(sympy.expand(2 * (exact.dot(normal, p) - offset)), sympy.expand(square))
            return tuple(sympy.expand(a - exact.times(b, share)) for a, b in zip(p, normal, strict=True))  # type: ignore[return-value]

        assert all(isinstance(label, str) for label, _ in cloth)  # cloth with curves is not turned over
        return tuple((label, tuple(over(p) for p in reversed(cell))) for label, cell in cloth)

    def less(self, cloth: Cloth, holes: Cloth) -> Cloth:
        left = list(cloth)
        for _, hole in holes:
            left = [(label, part) for label, cell in left for part in _outside(cell, hole)]
        return tuple(left)

    def evened(self, cloth: Cloth, base: Cloth, corner: str) -> Cloth:
        by = exact.minus(_corner(base, corner), _corner(cloth, corner))
        return tuple((label, tuple(exact._flat(exact.plus(p, by)) for p in cell)) for label, cell in cloth)

    def area(self, cloth: Cloth) -> float:
        return float(sum(exact.cell_area(label, cell) for label, cell in cloth))

    def same(self, one: Cloth, other: Cloth) -> None:
        alike(_areas(one), _areas(other))
        assert curves(one) == curves(other)
        there = {(label, frozenset(cell)) for label, cell in other}
        for fabric in _areas(one):
            mine = [each for each in one if each[0] == fabric and (fabric, frozenset(each[1])) not in there]
            assert not self.less(mine, [each for each in other if each[0] == fabric]), fabric

    def runs(self, cloth: Cloth, line: Ends) -> list[tuple[float, float]]:
        start, end = map(self._point, line)
        along = exact.minus(end, start)
        square = sympy.expand(exact.dot(along, along))
        normal, offset = self._line(line)
        found = []
        for _, cell in cloth:
            left, right = exact.clipped(cell, normal, offset), exact.clipped(cell, _back(normal), -offset)
            on = [p for p in left or right if exact.sign(sympy.expand(exact.dot(normal, p) - offset)) == 0]
            shares = [exact.over(sympy.expand(exact.dot(along, exact.minus(p, start))), square) for p in on]
            if len(shares) > 1:
                found.append((float(exact.least(shares, 1)), float(exact.least(shares, -1))))
        return found


def alike(one: dict[str, Any], other: dict[str, Any]) -> None:
    assert one.keys() == other.keys()
    assert all(one[fabric] == other[fabric] or arcs.vanishes(one[fabric] - other[fabric]) for fabric in one)


def curves(cloth: Cloth) -> set[arcs.Round]:
    """The curved seams that are seen: those that run through a cell beside them."""
    found = set()
    for label, cell in cloth:
        if not isinstance(label, str):
            for seam in label.inside | label.outside:
                shared = arcs.common(cell, seam)
                if not arcs.vanishes(shared) and not arcs.vanishes(shared - exact.polygon_area(cell)):
                    found.add(seam)
    return found


def _areas(cloth: Cloth) -> dict[str, Any]:
    found: dict[str, Any] = {}
    for label, cell in cloth:
        fabric = arcs.fabric_of(label)
        found[fabric] = sympy.expand(found.get(fabric, exact.ZERO) + exact.cell_area(label, cell))
    return found


def _slack(eased: Exact, ring: Ring) -> float:
    corners = [(float(x), float(y)) for x, y in ring]
    return float(eased) * sum(math.dist(p, q) for p, q in zip(corners, corners[1:] + corners[:1], strict=True))


def _within_slack(difference: Any, slack: float) -> bool:
    """Zero exactly, unless something is eased."""
    return abs(float(difference)) <= slack if slack else arcs.vanishes(sympy.expand(difference))


def _right_of(p: exact.Point, q: exact.Point) -> exact.Line:
    x, y = exact.minus(q, p)
    normal = sympy.expand(y), sympy.expand(-x)
    return normal, sympy.expand(exact.dot(normal, p))


def _back(normal: exact.Point) -> exact.Point:
    return -normal[0], -normal[1]


def _box(cell: Ring) -> tuple[float, float, float, float]:
    xs, ys = [exact.nearly(x) for x, _ in cell], [exact.nearly(y) for _, y in cell]
    return min(xs), min(ys), max(xs), max(ys)


def _clear(one: Ring, other: Ring) -> bool:
    (a, b, c, d), (e, f, g, h) = _box(one), _box(other)
    return c < e - exact.CLEAR or g < a - exact.CLEAR or d < f - exact.CLEAR or h < b - exact.CLEAR


def _outside(cell: Ring, hole: Ring) -> list[Ring]:
    """What of a convex cell lies outside a convex hole, in convex parts."""
    if _clear(cell, hole):
        return [cell]
    found, rest = [], cell
    for p, q in zip(hole, hole[1:] + hole[:1], strict=True):
        normal, offset = _right_of(p, q)
        beyond = exact.clipped(rest, _back(normal), -offset)
        if beyond:
            found.append(beyond)
        rest = exact.clipped(rest, normal, offset)
        if not rest:
            return [cell]
    return found


def _divided(cell: Ring, ring: Ring) -> list[Ring]:
    """A convex cell divided along the sides of an outline that run through it."""
    well_inside = _rough(cell).buffer(-exact.CLEAR)
    parts = [cell]
    for p, q in zip(ring, ring[1:] + ring[:1], strict=True):
        if shapely.LineString([_floats(p), _floats(q)]).intersects(well_inside):
            normal, offset = _right_of(p, q)
            halves = (normal, offset), (_back(normal), -offset)
            sides = [exact.clipped(part, *half) for part in parts for half in halves]
            parts = [side for side in sides if side]
    return parts


def _floats(p: exact.Point) -> tuple[float, float]:
    return exact.nearly(p[0]), exact.nearly(p[1])


def _rough(ring: Ring) -> shapely.Polygon:
    return shapely.Polygon([_floats(p) for p in ring])


def _corner(cloth: Cloth, corner: str) -> exact.Point:
    xs, ys = zip(*(p for _, cell in cloth for p in cell), strict=True)
    return exact.least(xs, 1 if "left" in corner else -1), exact.least(ys, 1 if "bottom" in corner else -1)
