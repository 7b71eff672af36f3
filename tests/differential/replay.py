"""Every recorded action of a pattern worked out a second time from what went into it, and compared.

Each action is checked by itself, starting from the cloth as it lay before; what went in was checked as the result of
an earlier action, or is a rectangle as cut. `Back` is one reference: it can read a recorded unit, do the step, and
compare.
"""

from __future__ import annotations

import math
from abc import ABC, abstractmethod
from collections.abc import Iterator
from dataclasses import fields, replace
from typing import Any

import shapely
import shapely.affinity
import sympy
from differential import shapely_reference as floats
from differential import sympy_reference as exact
from piecewright.exact import Exact, Vector
from piecewright.kernel.action import Action, Add, CutPiece, Finish, Lay, Sew, Subcut, Trim, Turn
from piecewright.kernel.build import Build
from piecewright.kernel.moves import settled
from piecewright.kernel.unit import Unit

EAST, NORTH = Vector(1, 0), Vector(0, 1)
Ends = tuple[Vector, Vector]  # the finished ends of an edge
Sides = list[tuple[tuple[Any, Any], int]]  # each corner as sympy numbers, and the degrees at which its edge runs


class Back(ABC):
    """Units and numbers are the reference's own."""

    @abstractmethod
    def read(self, unit: Unit) -> Any: ...
    @abstractmethod
    def check(self, mine: Any, unit: Unit) -> None:
        """AssertionError unless outlines, areas and sizes agree, where they lie."""

    @abstractmethod
    def piece(self, width: Exact, height: Exact, fabric: str, s: Exact) -> Any: ...
    @abstractmethod
    def polygon(self, sides: Sides, fabric: str, s: Exact) -> Any: ...
    @abstractmethod
    def facing(self, unit: Any, outward: Vector) -> int:
        """The longest edge of the reference's unit that faces one way."""

    @abstractmethod
    def sew(self, first: Any, i: Ends | int, second: Any, j: Ends | int, as_it_lies: bool) -> Any: ...
    @abstractmethod
    def turned(self, unit: Any, degrees: int) -> Any: ...
    @abstractmethod
    def cut(self, parts: list[Any], start: Vector, end: Vector) -> list[Any]: ...
    @abstractmethod
    def trim(self, unit: Any, corners: tuple[Vector, ...]) -> Any:
        """The trimmed piece, straight and with its lower left corner at the origin."""


def ends(unit: Unit, edge: int) -> Ends:
    return unit.corners[edge].finished, unit.corners[(edge + 1) % len(unit.corners)].finished


def edge_facing(unit: Unit, outward: Vector) -> Ends:
    """The longest edge that faces exactly one way."""
    found = [ends(unit, n) for n, along in enumerate(unit.directions) if along.right() == outward]
    return max(found, key=lambda edge: float((edge[1] - edge[0]).squared()))


def actions(build: Build) -> Iterator[tuple[str, Action]]:
    for made in build.made:
        for step in made.steps:
            for action in (*step.actions, *step.last):
                yield f"{made.key}, line {step.line}", action


def replayed(action: Action, back: Back) -> None:
    """Check one action against a reference. The references know no curves, so that they sew the straight cells."""
    action = straight(action)
    if isinstance(action, CutPiece):
        s = action.unit.allowance
        if action.angle is None:
            piece = back.piece(action.width, action.height, action.fabric, s)
        else:
            piece = back.polygon(slanted_sides(action), action.fabric, s)
        back.check(piece, settled(action.unit))
    elif isinstance(action, Turn):
        back.check(back.turned(back.read(action.before), action.degrees), action.result)
    elif isinstance(action, Sew):
        if is_beyond(action):
            finished_together((action.first, action.second), action.result, action.eased)
        else:
            _sew(action, back)
    elif isinstance(action, Add):
        on_paper(action)
    elif isinstance(action, Finish):
        finished_together((action.before,), action.result, Exact(0))
    elif isinstance(action, Lay):
        _lay(action, back)
    elif isinstance(action, Subcut):
        parts = [back.read(action.before)]
        for start, end in action.lines:
            parts = back.cut(parts, start, end)
        _matched(parts, list(action.parts), back)
    elif isinstance(action, Trim):
        back.check(back.trim(back.read(action.before), action.ruler.corners), settled(action.result))


def straight(thing: Any) -> Any:
    """An action, or whatever it holds, with all that lies within a curve counted as the cloth outside it."""
    if isinstance(thing, Unit):
        kept = tuple(replace(p, discs=()) for p in thing.patches if not any(disc.inside for disc in p.discs))
        return thing if kept == thing.patches else replace(thing, patches=kept)
    if isinstance(thing, tuple):
        return tuple(map(straight, thing))
    if isinstance(thing, Sew | Lay | Subcut | Trim | Turn):
        return replace(thing, **{one.name: straight(getattr(thing, one.name)) for one in fields(thing)})
    return thing


def on_paper(action: Add) -> None:
    """What each piece on a foundation shows, from the lines alone: its half plane less those of the later ones."""
    paper = shapely.box(0.0, 0.0, float(action.foundation.width), float(action.foundation.height))
    shown: list[Any] = []
    for piece in action.foundation.pieces[: action.number + 1]:
        own = paper
        if piece.line is not None:
            (x, y), (u, v) = (p.floats for p in piece.line)
            dx, dy = (100 * c / math.hypot(u - x, v - y) for c in (u - x, v - y))
            beside = [(x - dx, y - dy), (x + dx, y + dy), (x + dx - dy, y + dy + dx), (x - dx - dy, y - dy + dx)]
            own = paper.intersection(shapely.Polygon(beside))
        shown = [*(seen.difference(own) for seen in shown), own]
    left, bottom = (min(c) for c in zip(*(p.finished.floats for p in action.result.corners), strict=True))
    s = float(action.result.allowance)
    for seen, patch in zip(shown, action.result.patches, strict=True):
        cells = shapely.union_all([shapely.Polygon([p.floats for p in cell]) for cell in patch.cells])
        moved = shapely.affinity.translate(cells, s - left, s - bottom)
        assert moved.symmetric_difference(seen).area < 1e-9


def slanted_sides(action: CutPiece) -> Sides:
    """The corners of a piece cut at an angle, by its shape, sizes and angle alone."""
    assert action.angle is not None
    a = sympy.pi * action.angle / 180
    high, wide = exact.number(str(action.height)), exact.number(str(action.width))
    run = sympy.radsimp(high / sympy.tan(a))
    base = {"triangle": 2 * run, "diamond": sympy.radsimp(high / sympy.sin(a))}.get(action.shape, wide)
    if action.shape in ("diamond", "parallelogram"):
        top, sides = [base + run, run], [0, action.angle, 180, 180 + action.angle]
    else:
        top, sides = [base - run, run], [0, 180 - action.angle, 180, 180 + action.angle]
    if action.shape == "triangle":
        top, sides = top[1:], [sides[0], sides[1], sides[3]]
    zero = sympy.Integer(0)
    corners = [(zero, zero), (base, zero), *((sympy.expand(x), high) for x in top)]
    return list(zip(corners, sides, strict=True))


def is_beyond(action: Sew) -> bool:
    """What the references do not sew edge to edge: round a corner, in part, stepped, or beside an inner corner that is
    not square or that lies open."""
    if len(action.first_edges) > 1 or action.part or action.step is not None:
        return True
    seam = action.first.directions[action.first_edges[0]]
    units = (action.first, action.second, action.result)
    turns = [(unit.directions[n - 1], along) for unit in units for n, along in enumerate(unit.directions)]
    inner = any(before.cross(along) < 0 for before, along in turns)
    slanted = any(seam.dot(along) and seam.cross(along) for _, along in turns)
    return (inner and slanted) or any(_is_open(unit) for unit in units)


def finished_together(parts: tuple[Unit, ...], whole: Unit, eased: Exact) -> None:
    """The finished picture of what is sewn is the finished pictures of its parts side by side: the same outline and as
    much of each fabric, up to what is eased along the edges."""
    pictures = [_picture(part) for part in parts]
    mine, outline = _picture(whole)
    slack = 1e-9 + float(eased) * outline.length
    together = shapely.union_all([ring.buffer(1e-9, join_style="mitre") for _, ring in pictures])
    assert together.symmetric_difference(outline).area < slack + 1e-7 * outline.length
    if any(_is_open(unit) for unit in (*parts, whole)):
        return  # beside an open seam one allowance lies over the other's cloth
    for fabric in {name for seen, _ in (*pictures, (mine, outline)) for name in seen}:
        assert abs(sum(seen.get(fabric, 0.0) for seen, _ in pictures) - mine.get(fabric, 0.0)) < slack


def _is_open(unit: Unit) -> bool:
    return any(along == -unit.directions[n - 1] for n, along in enumerate(unit.directions))


def _picture(unit: Unit) -> tuple[dict[str, float], Any]:
    """How much of each fabric shows within the seam lines, and those; an open seam is no hole in it."""
    ring = shapely.Polygon([corner.finished.floats for corner in unit.corners]).buffer(0)
    seen: dict[str, float] = {}
    for patch in unit.patches:
        for cell in patch.cells:
            shown = shapely.Polygon([p.floats for p in cell]).intersection(ring).area
            seen[patch.fabric] = seen.get(patch.fabric, 0.0) + shown
    return seen, ring


def _sew(action: Sew, back: Back) -> None:
    """The edges are found by where they lie: of the second the one along the seam, marks on it left out."""
    first, second = unmarked(action.first), unmarked(action.second)
    mine = ends(action.first, action.first_edges[0])
    along = action.first.directions[action.first_edges[0]]
    found = [
        ends(second, n)
        for n, direction in enumerate(second.directions)
        if direction == -along and not along.cross(second.corners[n].finished - mine[0])
    ]
    (theirs,) = [e for e in found if (e[0] - mine[0]).dot(along) > 0 and (mine[1] - e[1]).dot(along) > 0]
    lengths = [(e[1] - e[0]).squared() for e in (mine, theirs)]
    as_it_lies = lengths[0] != lengths[1] and not action.eased
    back.check(back.sew(back.read(first), mine, back.read(second), theirs, as_it_lies), action.result)


def unmarked(unit: Unit) -> Unit:
    """Without corners of 180 degrees, where a seam of another length begins or ends."""
    kept = [n for n, along in enumerate(unit.directions) if along != unit.directions[n - 1]]
    return replace(
        unit,
        corners=tuple(unit.corners[n] for n in kept),
        directions=tuple(unit.directions[n] for n in kept),
    )


def _lay(action: Lay, back: Back) -> None:
    """Cell to cell and row to row, each set on by its own edge; the recorded places are not used."""
    rows = []
    for cells in action.rows:
        row: Any = back.read(cells[0])
        for cell in cells[1:]:
            row = back.sew(row, back.facing(row, EAST), back.read(cell), edge_facing(cell, -EAST), False)
        rows.append(row)
    whole = rows[0]
    for row in rows[1:]:
        whole = back.sew(whole, back.facing(whole, -NORTH), row, back.facing(row, NORTH), False)
    back.check(whole, action.result)


def _matched(mine: list[Any], recorded: list[Unit], back: Back) -> None:
    assert len(mine) == len(recorded)
    rest = list(mine)
    for part in recorded:
        for n, own in enumerate(rest):
            try:
                back.check(own, part)
            except AssertionError:
                continue
            del rest[n]
            break
        else:
            raise AssertionError("a part of the cut is not where the reference has one")


class WithSympy(Back):
    def read(self, unit: Unit) -> exact.Sewn:
        lines = []
        for corner, along in zip(unit.corners, unit.directions, strict=True):
            normal = self._point(along.right())
            lines.append((normal, sympy.expand(exact.dot(normal, self._point(corner.finished)))))
        cells = tuple(
            (patch.fabric, tuple(self._point(p) for p in cell)) for patch in unit.patches for cell in patch.cells
        )
        return exact.Sewn(lines=tuple(lines), cells=cells, allowance=exact.number(str(unit.allowance)))

    def _point(self, p: Vector) -> exact.Point:
        return exact.number(str(p.x)), exact.number(str(p.y))

    def check(self, mine: exact.Sewn, unit: Unit) -> None:
        recorded = {self._point(corner.finished) for corner in unit.corners}
        assert set(mine.finished()) == recorded
        raw = tuple(self._point(p) for corner in unit.corners for p in corner.raw)
        area = exact.polygon_area(raw)
        seen = self.read(unit).seen()
        assert mine.seen() == seen
        assert sum(seen.values()) - area == 0 or sympy.expand(sum(seen.values()) - area) == 0
        xs, ys = zip(*raw, strict=True)
        size = tuple(sympy.expand(exact.least(each, -1) - exact.least(each, 1)) for each in (xs, ys))
        assert mine.size() == size

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

    def facing(self, unit: exact.Sewn, outward: Vector) -> int:
        wanted = self._point(outward)
        corners = unit.finished()
        found = [n for n, (normal, _) in enumerate(unit.lines) if normal == wanted]
        lengths = [math.dist(*([float(c) for c in corners[k % len(corners)]] for k in (n, n + 1))) for n in found]
        return found[lengths.index(max(lengths))]

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


class WithShapely(Back):
    NEAR = 1e-9

    def read(self, unit: Unit) -> floats.Sewn:
        cells = tuple(
            (patch.fabric, shapely.Polygon([p.floats for p in cell])) for patch in unit.patches for cell in patch.cells
        )
        inner = any(d.cross(unit.directions[n - 1]) > 0 for n, d in enumerate(unit.directions))
        outline = floats.whole([cell for _, cell in cells], not inner)
        return floats.Sewn(outline=outline, cells=cells, allowance=float(unit.allowance))

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
        seen = self.read(unit).seen()
        assert mine.seen().keys() == seen.keys()
        assert all(abs(mine.seen()[fabric] - seen[fabric]) < 1e-8 for fabric in seen)

    def piece(self, width: Exact, height: Exact, fabric: str, s: Exact) -> floats.Sewn:
        return floats.rectangle(float(width), float(height), fabric, float(s))

    def polygon(self, sides: Sides, fabric: str, s: Exact) -> floats.Sewn:
        cloth = shapely.Polygon([(float(x), float(y)) for (x, y), _ in sides])
        return floats.Sewn(outline=cloth, cells=((fabric, cloth),), allowance=float(s))

    def facing(self, unit: floats.Sewn, outward: Vector) -> int:
        return floats.facing(unit, outward.floats)

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
