"""Sewing worked out a second time, from its definition, with sympy's numbers.

It shares nothing with the compiler's own geometry. A unit is the list of its finished edges as lines
(outward unit normal n and offset c, the points with n·p = c), counter-clockwise, and the convex cells of cloth.
The raw edge is the finished line moved one allowance outward. Only outlines without inner corners are known here.

- Sewing: turn and move the second so that the two finished edges coincide; of each keep what is on its own side of
  the seam line; the other edges go on as the outline, two in one line as one (the inner of the two where they lie
  apart by an eased mismatch); what lies beyond a neighbour's raw line is cut off.
- Cutting: keep one side of the line; the finished outline is the old one cut one allowance further in.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from functools import cache, lru_cache

import sympy
from differential.sympy_arcs import Label, carried, fabric_of
from sympy import Expr, Integer, Rational, expand, radsimp

Point = tuple[Expr, Expr]
Line = tuple[Point, Expr]  # outward unit normal, offset
Cell = tuple[Label, tuple[Point, ...]]
ZERO, ONE = Integer(0), Integer(1)
CLEAR = 1e-6  # inches; nothing in a pattern is so small, and no float here so wrong


@cache
def number(text: str) -> Expr:
    """`19/2 - 1/4*sqrt(2)` or a plain fraction as a sympy number."""
    return sympy.sympify(text, rational=True)


def times(a: Expr, b: Expr) -> Expr:
    if a is ZERO or b is ZERO:
        return ZERO
    return a * b if a.is_Rational and b.is_Rational else expand(a * b)


def over(a: Expr, b: Expr) -> Expr:
    return expand(a / b) if b.is_Rational else expand(a * _inverse(b))


@cache
def _inverse(b: Expr) -> Expr:
    roots = b.atoms(sympy.Pow)
    if len(roots) > 1:
        return expand(radsimp(1 / b))
    (root,) = roots
    conjugate = b.xreplace({root: -root})
    return expand(conjugate / expand(b * conjugate))


@lru_cache(maxsize=200_000)
def nearly(a: Expr) -> float:
    return float(a)


@lru_cache(maxsize=100_000)
def sign(a: Expr) -> int:
    """Floats decide what is clearly not zero; a sum of rational multiples of different roots is zero only as 0."""
    if a.is_Rational:
        return (a.p > 0) - (a.p < 0)
    a = expand(a)
    if a.is_Rational:
        return (a.p > 0) - (a.p < 0)
    value = a.evalf(30)
    assert abs(value) > sympy.Float("1e-25"), a
    return 1 if value > 0 else -1


def dot(p: Point, q: Point) -> Expr:
    return times(p[0], q[0]) + times(p[1], q[1])


def cross(p: Point, q: Point) -> Expr:
    return times(p[0], q[1]) - times(p[1], q[0])


def plus(p: Point, q: Point) -> Point:
    return p[0] + q[0], p[1] + q[1]


def minus(p: Point, q: Point) -> Point:
    return p[0] - q[0], p[1] - q[1]


def scaled(p: Point, factor: Expr) -> Point:
    return times(p[0], factor), times(p[1], factor)


def product(p: Point, q: Point) -> Point:
    """As complex numbers: p turned by the direction q."""
    return times(p[0], q[0]) - times(p[1], q[1]), times(p[0], q[1]) + times(p[1], q[0])


@dataclass(frozen=True)
class Sewn:
    lines: tuple[Line, ...]
    cells: tuple[Cell, ...]
    allowance: Expr

    def finished(self) -> tuple[Point, ...]:
        """Corner i lies between lines i - 1 and i."""
        return tuple(_meet(self.lines[i - 1], line) for i, line in enumerate(self.lines))

    def raw(self) -> tuple[Point, ...]:
        outer = [(n, c + self.allowance) for n, c in self.lines]
        return tuple(_meet(outer[i - 1], line) for i, line in enumerate(outer))

    def area(self) -> Expr:
        return polygon_area(self.raw())

    def seen(self) -> dict[str, Expr]:
        found: dict[str, Expr] = {}
        for fabric, cell in self.cells:
            found[fabric_of(fabric)] = found.get(fabric_of(fabric), ZERO) + cell_area(fabric, cell)
        return {fabric: expand(area) for fabric, area in sorted(found.items())}

    def box(self) -> tuple[Expr, Expr, Expr, Expr]:
        xs, ys = zip(*self.raw(), strict=True)
        return least(xs, 1), least(ys, 1), least(xs, -1), least(ys, -1)

    def size(self) -> tuple[Expr, Expr]:
        left, bottom, right, top = self.box()
        return expand(right - left), expand(top - bottom)


def rectangle(width: Expr, height: Expr, fabric: str, s: Expr) -> Sewn:
    return Sewn(
        lines=(((ZERO, -ONE), -s), ((ONE, ZERO), width - s), ((ZERO, ONE), height - s), ((-ONE, ZERO), -s)),
        cells=((fabric, ((ZERO, ZERO), (width, ZERO), (width, height), (ZERO, height))),),
        allowance=s,
    )


def moved(unit: Sewn, by: Point) -> Sewn:
    if by == (ZERO, ZERO):
        return unit
    return Sewn(
        lines=tuple((n, expand(c + dot(n, by))) for n, c in unit.lines),
        cells=_carried(unit.cells, lambda p: _flat(plus(p, by))),
        allowance=unit.allowance,
    )


def turned(unit: Sewn, direction: Point) -> Sewn:
    """Turned about the origin: what pointed east points along `direction`."""
    if direction == (ONE, ZERO):
        return unit
    return Sewn(
        lines=tuple((_flat(product(n, direction)), c) for n, c in unit.lines),
        cells=_carried(unit.cells, lambda p: _flat(product(p, direction))),
        allowance=unit.allowance,
    )


def _carried(cells: tuple[Cell, ...], move: Callable[[Point], Point]) -> tuple[Cell, ...]:
    return tuple((carried(label, move), tuple(move(p) for p in cell)) for label, cell in cells)


def sew(first: Sewn, i: int, second: Sewn, j: int, *, as_it_lies: bool = False) -> Sewn:
    """Edge i of `first` to edge j of `second`, middle on middle; or where `second` lies, its edges of another length.

    Where one edge runs on past the other there is an inner corner; it is worked out for square corners only.
    """
    n, m = len(first.lines), len(second.lines)
    normal, offset = first.lines[i]
    along = (-normal[1], normal[0])
    if not as_it_lies:
        second = _placed(first, i, second, j)
    mine, theirs = first.finished(), second.finished()
    before, after = first.lines[i - 1], first.lines[(i + 1) % n]
    opposite = second.lines[(j + 1) % m], second.lines[j - 1]  # beside the start and the end of the seam
    over_start = over_end = 0  # 1: the first edge runs on past the second, -1: the second past the first
    if as_it_lies:
        start, end = (dot(along, mine[k % n]) for k in (i, i + 1))
        low, high = (dot(along, theirs[k % m]) for k in (j + 1, j))
        over_start = _runs_on(sign(expand(low - start)), before, opposite[0], along)
        over_end = _runs_on(sign(expand(end - high)), opposite[1], after, along)
    s = first.allowance
    reach: list[Expr | None] = [None, None]
    if over_start:
        reach[0] = expand((low if over_start > 0 else start) - s)
    if over_end:
        reach[1] = expand((high if over_end > 0 else end) + s)

    rest = [first.lines[i] if over > 0 else second.lines[j] for over in (over_start, over_end)]
    mine_left = [first.lines[(i + k) % n] for k in range(1, n)]
    theirs_left = [second.lines[(j + k) % m] for k in range(1, m)]
    clips: list[Line] = []
    if over_start:
        theirs_left = [rest[0], *theirs_left]
    else:
        clips += _close(mine_left, theirs_left)
    if over_end:
        theirs_left = [*theirs_left, rest[1]]
    else:
        clips += _close(theirs_left, mine_left)
    back = (-normal[0], -normal[1])
    cells = [(f, part) for f, cell in first.cells for part in _opened(cell, (normal, offset), along, reach)]
    cells += [(f, part) for f, cell in second.cells for part in _opened(cell, (back, -offset), along, reach)]
    if not over_start and not over_end:
        for line, limit in clips:
            cells = [(fabric, clipped(cell, line, expand(limit + s))) for fabric, cell in cells]
    return Sewn(lines=tuple(mine_left + theirs_left), cells=tuple((f, cell) for f, cell in cells if cell), allowance=s)


def _runs_on(over: int, incoming: Line, outgoing: Line, along: Point) -> int:
    """A sharp tip that stands over is cut off by the neighbours' own lines: there is no inner corner then."""
    closing = sign(expand(cross(incoming[0], outgoing[0]))) > 0
    return 0 if over and closing else over


def _close(incoming: list[Line], outgoing: list[Line]) -> list[Line]:
    """The last of one list and the first of the other, made one where they run in one line: the inner one."""
    if not _same_way(incoming[-1], outgoing[0]):
        return [incoming[-1], outgoing[0]]
    inner = _inner(incoming[-1], outgoing[0])
    incoming[-1] = inner
    del outgoing[0]
    return [inner]


def _placed(first: Sewn, i: int, second: Sewn, j: int) -> Sewn:
    normal, facing = first.lines[i][0], second.lines[j][0]
    second = turned(second, _flat(product((-normal[0], -normal[1]), (facing[0], -facing[1]))))
    mine, theirs = first.finished(), second.finished()
    middle = plus(mine[i], mine[(i + 1) % len(mine)])
    other = plus(theirs[j], theirs[(j + 1) % len(theirs)])
    return moved(second, _flat(scaled(minus(middle, other), Rational(1, 2))))


def _opened(cell: tuple[Point, ...], seam: Line, along: Point, reach: list[Expr | None]) -> list[tuple[Point, ...]]:
    """What is seen of a cell beside a seam; beyond the seam's reach its edge is not sewn."""
    normal, offset = seam
    parts = [clipped(cell, normal, offset)]
    low, high = reach
    beyond = clipped(cell, (-normal[0], -normal[1]), -offset) if reach != [None, None] else ()
    if low is not None:
        parts.append(clipped(beyond, along, low))
    if high is not None:
        parts.append(clipped(beyond, (-along[0], -along[1]), -high))
    return [part for part in parts if part]


def cut(unit: Sewn, point: Point, direction: Point) -> tuple[Sewn, Sewn]:
    """What is left of the line, and what is right of it."""
    left = (direction[1], -direction[0])  # outward normal of the left part
    return _side(unit, left, _flat_number(dot(left, point))), _side(
        unit, (-left[0], -left[1]), _flat_number(-dot(left, point))
    )


def trim(unit: Sewn, corners: tuple[Point, ...]) -> Sewn:
    """Cut along a ruler's four sides, its corners counter-clockwise."""
    lines: list[Line] = []
    cells = unit.cells
    for i, corner in enumerate(corners):
        along = minus(corners[(i + 1) % 4], corner)
        length = _flat_number(sympy.sqrt(expand(dot(along, along))))
        normal = _flat((over(along[1], length), over(-along[0], length)))
        offset = _flat_number(dot(normal, corner))
        lines.append((normal, expand(offset - unit.allowance)))
        cells = tuple((fabric, clipped(cell, normal, offset)) for fabric, cell in cells)
    return Sewn(lines=tuple(lines), cells=tuple(each for each in cells if each[1]), allowance=unit.allowance)


def _side(unit: Sewn, normal: Point, offset: Expr) -> Sewn:
    cells = tuple((fabric, clipped(cell, normal, offset)) for fabric, cell in unit.cells)
    finished = unit.finished()
    inner = expand(offset - unit.allowance)
    depth = [sign(expand(dot(normal, p) - inner)) for p in finished]
    lines: list[Line] = []
    for i, line in enumerate(unit.lines):
        here, there = depth[i], depth[(i + 1) % len(finished)]
        if here < 0 or there < 0:
            lines.append(line)
        if here < 0 <= there:
            lines.append((normal, inner))
    if all(d <= 0 for d in depth):
        lines = list(unit.lines)  # the ruler runs along an edge
    return Sewn(lines=tuple(lines), cells=tuple(c for c in cells if c[1]), allowance=unit.allowance)


def clipped(cell: tuple[Point, ...], normal: Point, offset: Expr) -> tuple[Point, ...]:
    """What of a convex cell has normal·p <= offset."""
    if not cell:
        return ()
    x, y, reach = nearly(normal[0]), nearly(normal[1]), nearly(offset)
    rough = [x * nearly(p[0]) + y * nearly(p[1]) - reach for p in cell]
    if max(rough) < -CLEAR:
        return cell
    if min(rough) > CLEAR:
        return ()

    def depth(p: Point) -> Expr:
        return expand(dot(normal, p) - offset)

    # what is clear of the line lies where floats say; what is near it, exactly
    signs = [
        sign(depth(p)) if abs(about) <= CLEAR else (about > 0) - (about < 0) for p, about in zip(cell, rough, strict=True)
    ]
    if max(signs) <= 0:
        return cell
    if min(signs) >= 0:
        return ()
    kept: list[Point] = []
    for i, p in enumerate(cell):
        q = cell[(i + 1) % len(cell)]
        if signs[i] <= 0:
            kept.append(p)
        if signs[i] * signs[(i + 1) % len(cell)] < 0:
            here = depth(p)
            share = over(here, expand(here - depth(q)))
            kept.append(_flat(plus(p, scaled(minus(q, p), share))))
    return tuple(kept)


def _meet(first: Line, second: Line) -> Point:
    (n, c), (m, d) = first, second
    det = expand(cross(n, m))
    return over(times(c, m[1]) - times(d, n[1]), det), over(times(d, n[0]) - times(c, m[0]), det)


def _same_way(first: Line, second: Line) -> bool:
    return all(sign(expand(a - b)) == 0 for a, b in zip(first[0], second[0], strict=True))


def _inner(first: Line, second: Line) -> Line:
    return first if sign(expand(first[1] - second[1])) <= 0 else second


@lru_cache(maxsize=100_000)
def polygon_area(polygon: tuple[Point, ...]) -> Expr:
    total: Expr = ZERO
    for p, q in zip(polygon, polygon[1:] + polygon[:1], strict=True):
        total = total + cross(p, q)
    return expand(total / 2)


def cell_area(label: Label, cell: tuple[Point, ...]) -> Expr:
    return polygon_area(cell) if isinstance(label, str) else label.area(cell)


def _flat(p: Point) -> Point:
    return _flat_number(p[0]), _flat_number(p[1])


def _flat_number(a: Expr) -> Expr:
    return a if a.is_Rational else expand(a)


def least(values: Iterable[Expr], way: int) -> Expr:
    """The smallest for way 1, the largest for -1."""
    best: Expr | None = None
    for value in values:
        if best is None or sign(expand(value - best)) * way < 0:
            best = value
    assert best is not None
    return best
