"""Two edges that are sewn together, as they lie against each other, and the seams that run up to them."""

from __future__ import annotations

from collections.abc import Iterator

from piecewright.exact import Vector
from piecewright.kernel.action import Finish, Lay, Sew
from piecewright.kernel.rope import farther_than
from piecewright.kernel.unit import Seam, Unit

NEAR = 1e-6  # inches; far above the error of the floats, far below any cloth


class Frame:
    """A sewn edge as axes, in floats: `along` it from its finished start, and `inward` from the seam line."""

    __slots__ = ("ax", "ay", "dx", "dy", "length", "nx", "ny")

    def __init__(self, unit: Unit, edge: int) -> None:
        self.ax, self.ay = unit.corners[edge].finished.floats
        self.dx, self.dy = unit.directions[edge].floats
        self.nx, self.ny = -self.dy, self.dx
        ex, ey = unit.corners[(edge + 1) % len(unit.corners)].finished.floats
        self.length = (ex - self.ax) * self.dx + (ey - self.ay) * self.dy

    def across(self) -> Frame:
        """The same axis along, as it is seen from the other side of the seam."""
        other = Frame.__new__(Frame)
        other.ax, other.ay, other.dx, other.dy = self.ax, self.ay, self.dx, self.dy
        other.nx, other.ny, other.length = -self.nx, -self.ny, self.length
        return other

    def at(self, point: tuple[float, float]) -> tuple[float, float]:
        """How far along, and how far inward."""
        x, y = point[0] - self.ax, point[1] - self.ay
        return x * self.dx + y * self.dy, x * self.nx + y * self.ny


class Hit:
    """A seam that runs up to a sewn edge: `at`, along the edge, where its line meets the seam line; `raw`, where it
    meets the raw edge; `depth` how far inward it ends: minus one allowance for one that goes to the raw edge."""

    __slots__ = ("at", "depth", "raw", "seam")

    def __init__(self, seam: Seam, at: float, raw: float, depth: float) -> None:
        self.seam = seam
        self.at = at
        self.raw = raw
        self.depth = depth


class Side:
    """One of the two units of a join: its seams near the sewn edge. `doubled`: both sides are one unit, so that only
    what lies inward of the seam is this side's."""

    __slots__ = ("doubled", "edge", "frame", "hits", "name", "unit")

    def __init__(self, unit: Unit, edge: int, frame: Frame, name: str, doubled: bool) -> None:
        self.unit = unit
        self.edge = edge
        self.frame = frame
        self.name = name
        self.doubled = doubled
        self.hits = _hits(unit, frame, doubled)


class Join:
    """The two sides of a seam; both count along the first one's edge."""

    __slots__ = ("first", "frame", "second")

    def __init__(self, first: Unit, i: int, second: Unit, j: int, first_name: str, second_name: str) -> None:
        self.frame = Frame(first, i)
        self.first = Side(first, i, self.frame, first_name, first is second)
        self.second = Side(second, j, self.frame.across(), second_name, first is second)


def joins(action: Sew | Finish | Lay) -> Iterator[Join]:
    """Every seam of an action that joins more than plain cloth; of a table's equal seams the first."""
    if isinstance(action, Sew):
        if action.first.seam_rope.count or action.second.seam_rope.count:
            for i, j in zip(action.first_edges, reversed(action.second_edges), strict=True):
                yield Join(action.first, i, action.second, j, "", action.name)
        return
    if isinstance(action, Finish):
        yield Join(action.before, action.edges[0], action.before, action.edges[1], "", "")
        return
    if not action.sewn:
        return
    seen: set[tuple[object, ...]] = set()
    for row, names in zip(action.rows, action.names, strict=True):
        for c in range(len(row) - 1):
            key: tuple[object, ...] = (names[c], _size(row[c]), names[c + 1], _size(row[c + 1]))
            if key not in seen and (row[c].seam_rope.count or row[c + 1].seam_rope.count):
                seen.add(key)
                yield from _facing(row[c], row[c + 1], action.along.left(), names[c], names[c + 1])
    rows = action.row_units
    for r in range(len(rows) - 1):
        above = tuple(zip(action.names[r], map(_size, action.rows[r]), strict=True))
        below = tuple(zip(action.names[r + 1], map(_size, action.rows[r + 1]), strict=True))
        if (above, below) not in seen and (rows[r].seam_rope.count or rows[r + 1].seam_rope.count):
            seen.add((above, below))
            yield from _facing(rows[r], rows[r + 1], action.along, "the row above", "the row below")


def _size(unit: Unit) -> tuple[float, float]:
    """Tells pieces of one name and different size apart."""
    (ax, ay), (bx, by) = unit.corners[0].finished.floats, unit.corners[2 % len(unit.corners)].finished.floats
    return round(bx - ax, 6), round(by - ay, 6)


def _facing(first: Unit, second: Unit, way: Vector, name: str, other: str) -> Iterator[Join]:
    """The one edge of each that runs that way, and back."""
    mine = [i for i, d in enumerate(first.directions) if d == way]
    theirs = [j for j, d in enumerate(second.directions) if d == -way]
    if len(mine) == 1 and len(theirs) == 1:
        yield Join(first, mine[0], second, theirs[0], name, other)


def _hits(unit: Unit, frame: Frame, doubled: bool) -> list[Hit]:
    """Seams with an end within an allowance of the seam line, on either side of it, in their order along it."""
    s = float(unit.allowance)
    found: list[Hit] = []
    ax, ay, dx, dy, nx, ny = frame.ax, frame.ay, frame.dx, frame.dy, frame.nx, frame.ny
    inside, outside = farther_than((ax, ay), (nx, ny), s), farther_than((ax, ay), (-nx, -ny), 0.0)
    for seam in unit.seam_rope.unless(lambda reach: inside(reach) or outside(reach)):
        x, y = seam.start.floats
        one = (x - ax) * nx + (y - ay) * ny
        u, v = seam.end.floats
        other = (u - ax) * nx + (v - ay) * ny
        if one > other:
            one, other, x, y = other, one, u, v
        if one >= s or other < NEAR or other - one < NEAR or (doubled and one + other < 0):
            continue
        along = (x - ax) * dx + (y - ay) * dy
        gx, gy = seam.direction.floats
        slope = (gx * dx + gy * dy) / (gx * nx + gy * ny)
        found.append(Hit(seam, along - one * slope, along - (one + s) * slope, one))
    found.sort(key=lambda hit: (hit.at, hit.raw))
    return found
