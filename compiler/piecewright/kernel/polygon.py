"""Exact plane geometry on convex polygons: sides of lines, clips, crossings, areas.

A polygon is a tuple of vectors, counter-clockwise, without repeated corners. A line is a point and a
direction; its left side is where `direction.cross(p - point)` is positive.
"""

from __future__ import annotations

from collections.abc import Iterable

from piecewright.exact import Exact, Vector
from piecewright.kernel.rope import Box, box
from piecewright.kernel.unit import Polygon

ZERO = Exact(0)
HALF = Exact(1, 2)

# A float side value beyond this share of its terms has a certain sign: floats of exact numbers are
# right to a few units in the last place, and a cross product of differences loses a few more.
_CERTAIN = 1e-9


def side(point: Vector, direction: Vector, p: Vector) -> int:
    """1 when `p` is left of the line, -1 right of it, 0 on it."""
    px, py = point.floats
    dx, dy = direction.floats
    x, y = p.floats
    first = dx * (y - py)
    second = dy * (x - px)
    estimate = first - second
    bound = _CERTAIN * (abs(dx) * (abs(y) + abs(py)) + abs(dy) * (abs(x) + abs(px)))
    if estimate > bound:
        return 1
    if estimate < -bound:
        return -1
    return _near_side(point, direction, dx, dy, p)


def sides_of_line(point: Vector, direction: Vector, points: Iterable[Vector]) -> list[int]:
    """`side` of many points; the floats of the line are read once."""
    px, py = point.floats
    dx, dy = direction.floats
    found: list[int] = []
    if not dy or not dx:
        # a row or a column: one coordinate decides
        row, here = not dy, (py if not dy else px)
        beyond = (1 if dx > 0 else -1) if row else (-1 if dy > 0 else 1)
        slack = _CERTAIN * (abs(here) + 1.0)
        for p in points:
            rise = p.floats[row] - here
            if rise > slack:
                found.append(beyond)
            elif rise < -slack:
                found.append(-beyond)
            else:
                found.append(_near_side(point, direction, dx, dy, p))
        return found
    for p in points:
        x, y = p.floats
        first = dx * (y - py)
        second = dy * (x - px)
        bound = _CERTAIN * (abs(dx) * (abs(y) + abs(py)) + abs(dy) * (abs(x) + abs(px)))
        if first - second > bound:
            found.append(1)
        elif second - first > bound:
            found.append(-1)
        else:
            found.append(_near_side(point, direction, dx, dy, p))
    return found


def _near_side(point: Vector, direction: Vector, dx: float, dy: float, p: Vector) -> int:
    """The side of a point on or very near the line: exactly, and for lines along the rows and columns
    without a product."""
    if dy == 0.0:
        if p.y == point.y:
            return 0
        return 1 if (p.y > point.y) == (dx > 0) else -1
    if dx == 0.0:
        if p.x == point.x:
            return 0
        return 1 if (p.x < point.x) == (dy > 0) else -1
    return direction.cross(p - point).sign()


def meet(point: Vector, direction: Vector, other: Vector, other_direction: Vector) -> Vector:
    """Where two lines cross. ZeroDivisionError when they are parallel."""
    share = (other - point).cross(other_direction) / direction.cross(other_direction)
    return point + direction * share


def area(polygon: Polygon) -> Exact:
    """The area by the shoelace formula, in square inches; positive counter-clockwise."""
    if len(polygon) < 3:
        return ZERO
    if len(polygon) == 4:
        a, b, c, d = polygon
        if a.y == b.y and c.y == d.y and b.x == c.x and a.x == d.x:
            return (b.x - a.x) * (c.y - b.y)
        if a.x == b.x and c.x == d.x and b.y == c.y and a.y == d.y:
            return (c.x - b.x) * (a.y - b.y)
    origin = polygon[0]
    total = ZERO
    previous = polygon[1] - origin
    for corner in polygon[2:]:
        current = corner - origin
        total = total + previous.cross(current)
        previous = current
    return total * HALF


def crossed(point: Vector, direction: Vector, p: Vector, q: Vector) -> Vector:
    """Where the stretch from p to q crosses a line that its ends lie on different sides of."""
    # rows and columns cross without arithmetic, and most lines of patchwork are rows and columns
    if not direction.x and p.y == q.y:
        return Vector(point.x, p.y)
    if not direction.y and p.x == q.x:
        return Vector(p.x, point.y)
    a = direction.cross(p - point)
    b = direction.cross(q - point)
    return p + (q - p) * (a / (a - b))


def clip(polygon: Polygon, point: Vector, direction: Vector) -> tuple[Polygon, Polygon]:
    """A convex polygon divided by a line: what is left of it, what is right; `()` where nothing is."""
    sides = sides_of_line(point, direction, polygon)
    if min(sides) >= 0:
        return (polygon, ()) if max(sides) > 0 else ((), ())
    if max(sides) <= 0:
        return (), polygon
    left: list[Vector] = []
    right: list[Vector] = []
    for i, p in enumerate(polygon):
        s = sides[i]
        if s >= 0:
            left.append(p)
        if s <= 0:
            right.append(p)
        following = (i + 1) % len(polygon)
        if s * sides[following] < 0:
            q = polygon[following]
            crossing = crossed(point, direction, p, q)
            left.append(crossing)
            right.append(crossing)
    return tuple(left), tuple(right)


Sides = tuple[tuple[Vector, Vector], ...]  # of a polygon: each corner with the step to the next


def sides_of(polygon: Polygon) -> Sides:
    """The sides of a polygon, to be worked out once where many cells are held against it."""
    return tuple((p, polygon[i + 1 - len(polygon)] - p) for i, p in enumerate(polygon))


def carve(polygon: Polygon, hole: Polygon) -> tuple[Polygon, tuple[Polygon, ...]]:
    """A convex polygon less a convex hole: the part inside the hole and the convex parts outside it."""
    if apart(polygon, hole):
        return (), (polygon,)
    return carve_by(polygon, sides_of(hole))


def carve_by(polygon: Polygon, hole: Sides) -> tuple[Polygon, tuple[Polygon, ...]]:
    """The same with the sides of the hole."""
    outside: list[Polygon] = []
    rest = polygon
    for corner, along in hole:
        rest, beyond = clip(rest, corner, along)
        if beyond:
            outside.append(beyond)
        if not rest:
            return (), (polygon,)
    return rest, tuple(outside)


def apart(first: Polygon, second: Polygon) -> bool:
    """True when the boxes round two polygons are certainly apart (touching boxes may be either)."""
    return clear_of(first, box(second))


def clear_of(points: Polygon, bounds: Box) -> bool:
    """True when points all lie to one side of a widened box. The first point says which sides to ask about."""
    left, bottom, right, top = bounds
    x, y = points[0].floats
    if x < left:
        for p in points:
            if p.floats[0] >= left:
                break
        else:
            return True
    elif x > right:
        for p in points:
            if p.floats[0] <= right:
                break
        else:
            return True
    # loops, not generators: this is asked more often than anything else
    if y < bottom:
        for p in points:  # noqa: SIM110
            if p.floats[1] >= bottom:
                return False
        return True
    if y > top:
        for p in points:  # noqa: SIM110
            if p.floats[1] <= top:
                return False
        return True
    return False


def joined(first: Polygon, second: Polygon) -> Polygon | None:
    """Two convex polygons as one, where they share a full side and the whole is convex; else None."""
    n, m = len(first), len(second)
    for i in range(n):
        p, q = first[i], first[(i + 1) % n]
        for j in range(m):
            if second[j] == q and second[(j + 1) % m] == p:
                # from q round first back to p, then round second from p to q
                ring = [first[(i + 1 + t) % n] for t in range(n)]
                ring += [second[(j + 2 + t) % m] for t in range(m - 2)]
                return _convex(ring)
    return None


def _convex(ring: list[Vector]) -> Polygon | None:
    corners: list[Vector] = []
    count = len(ring)
    for i in range(count):
        a, b, c = ring[i - 1], ring[i], ring[(i + 1) % count]
        turn = side(a, b - a, c)
        if turn < 0:
            return None
        if turn > 0:
            corners.append(b)
    return tuple(corners)


def merged(cells: Iterable[Polygon]) -> tuple[Polygon, ...]:
    """Cells of one cloth, joined over full shared sides as long as that leaves them convex."""
    pool = list(cells)
    i = 0
    while i < len(pool):
        j = i + 1
        while j < len(pool):
            whole = None if apart(pool[i], pool[j]) else joined(pool[i], pool[j])
            if whole is None:
                j += 1
            else:
                pool[i] = whole
                del pool[j]
                j = i + 1
        i += 1
    return tuple(pool)


def inset(outline: Polygon, distance: Exact) -> Polygon:
    """A convex polygon with every side moved inward; `()` when nothing is left. Sides that the others
    overtake drop out, so the result may have fewer corners. OutsideNumbers for a side whose unit
    vector cannot be written."""
    result = outline
    for i, corner in enumerate(outline):
        along = (outline[(i + 1) % len(outline)] - corner).unit()
        result, _ = clip(result, corner + along.left() * distance, along)
        if not result:
            return ()
    return result


def tidy(ring: Iterable[Vector]) -> Polygon:
    """The ring without corners that repeat the one before."""
    corners: list[Vector] = []
    for p in ring:
        if not corners or p != corners[-1]:
            corners.append(p)
    while len(corners) > 1 and corners[0] == corners[-1]:
        corners.pop()
    return tuple(corners)


def is_convex(polygon: Polygon) -> bool:
    """True when no corner turns right and the polygon has an area."""
    count = len(polygon)
    turns = [
        side(polygon[i - 1], polygon[i] - polygon[i - 1], polygon[(i + 1) % count]) for i in range(count)
    ]
    return count >= 3 and min(turns) >= 0 and max(turns) > 0
