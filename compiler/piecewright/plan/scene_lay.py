"""The scene of a table of units: cells apart, rows sewn, rows joined."""

from __future__ import annotations

from itertools import pairwise
from math import dist

from piecewright.kernel.action import Lay
from piecewright.kernel.build import Settings
from piecewright.kernel.measure import finished_size, raw_outline
from piecewright.kernel.rope import box
from piecewright.kernel.unit import Seam, Unit
from piecewright.plan.model import Badge, Label, Panel, Point
from piecewright.plan.on_point_text import is_sashed
from piecewright.plan.table import HERE, Table, extent

CLOSE = 1e-6  # inches
ACROSS, DOWN = 6, 8  # cells of a table whose panels have room on one line
MANY = 100
"""Pieces of a table above which only the first seams have an arrow: more would cover the cloth."""


def lay_panels(action: Lay, settings: Settings, line: int) -> tuple[Panel, ...]:
    """First the cells, drawn apart where they will lie; then, if both rows and columns are more than one, the
    sewn rows; then the whole with its size. Of a large table the cells have a line of their own.
    Arrows show how the seams new in each are pressed. Of a table that is only set out the cells alone."""
    if not action.is_level:
        return on_point_panels(action, settings, line)
    rows = action.rows
    several = len(rows) > 1 and len(action.row_units) == len(rows)
    apart = _apart(action)
    few = None if sum(map(len, rows)) <= MANY else 2
    cells = Table(settings, line)
    for row, shifts in zip(rows, cell_shifts(action), strict=True):
        for cell, shift in zip(row, shifts, strict=True):
            cells.put(cell, shift)
    if not action.sewn:
        return (cells.panel(),)
    panels = [cells]
    if several and max(len(row) for row in rows) > 1:
        table = Table(settings, line)
        for r, unit in enumerate(action.row_units):
            shift = (0.0, -r * apart)
            table.put(unit, shift)
            _press_row(table, rows[r][:few], unit, shift)
        panels.append(table)
        _number(table, action.row_units, apart)
    elif several:
        _number(cells, tuple(row[0] for row in rows), apart * 1.25)
    whole = Table(settings, line)
    whole.put(action.result)
    if len(panels) == 1:
        for row in rows:
            _press_row(whole, row[:few], action.result, HERE)
    _press_rows(whole, rows, action.result)
    whole.measure(action.result, ("bottom", "left"))
    if len(panels) > 1 and _is_large(action):
        return cells.panel(), panels[1].panel(lead="below"), whole.panel()
    return (*(table.panel() for table in panels), whole.panel())


def _is_large(action: Lay) -> bool:
    """Whether its cells beside the rows and the whole on one line would be too small to be told apart. Strips between
    cells do not count."""
    sizes = [[finished_size(cell) for cell in row] for row in action.rows]
    across = max(_wide([float(width) for width, _ in row]) for row in sizes)
    return across > ACROSS or _wide([float(row[0][1]) for row in sizes]) > DOWN


def _wide(sizes: list[float]) -> int:
    return sum(size * 3 >= max(sizes) for size in sizes)


def cell_shifts(action: Lay) -> tuple[tuple[Point, ...], ...]:
    """How far each cell is drawn from where it will lie, so that there is room between them: on point, away from the
    middle of the table."""
    if not action.is_level:
        return _from_the_middle(action)
    apart = _apart(action)
    return tuple(tuple((c * apart, -r * apart * 1.25) for c in range(len(row))) for r, row in enumerate(action.rows))


def _apart(action: Lay) -> float:
    share = 0.02 if _is_large(action) else 0.05
    return max(share * extent(action.result), 0.3) + 2 * float(action.result.allowance)


def _from_the_middle(action: Lay) -> tuple[tuple[Point, ...], ...]:
    middles = [[_middle(unit) for unit in row] for row in action.rows]
    across = [x for row in middles for x, _ in row]
    apart = 2 * float(action.rows[0][0].allowance) + max(0.01 * (max(across) - min(across)), 0.3)
    lines = [*middles, [row[0] for row in middles]]  # of a single column the rows have no neighbours
    near = min((dist(one, other) for line in lines for one, other in pairwise(line)), default=1.0)
    return tuple(tuple((x * apart / near, y * apart / near) for x, y in row) for row in middles)


def on_point_panels(action: Lay, settings: Settings, line: int) -> tuple[Panel, ...]:
    """Of a table on point that is set out, the pieces drawn apart from the middle. Of one that is sewn the diagonal
    rows, apart, each with its number at its upper left end; then the whole. Every seam of one with sashes is pressed
    toward them, which needs no arrows."""
    rows = action.rows
    if not action.sewn:
        cells = Table(settings, line)
        for row, shifts in zip(rows, cell_shifts(action), strict=True):
            for unit, shift in zip(row, shifts, strict=True):
                cells.put(unit, shift)
        return (cells.panel(),)
    apart = 2 * float(action.result.allowance) + 0.01 * extent(action.result)
    sashed = is_sashed(action)
    ux, uy = action.along.floats
    table = Table(settings, line)
    for r, unit in enumerate(action.row_units):
        shift = (uy * r * apart * 2, -ux * r * apart * 2)
        table.put(unit, shift)
        if not sashed:
            _press_row(table, rows[r][: None if sum(map(len, rows)) <= MANY else 2], unit, shift)
        x, y = _middle(rows[r][0])
        table.labels.append(Label(at=(x + shift[0], y + shift[1]), text=str(r + 1)))
    whole = Table(settings, line)
    whole.put(action.result)
    if not sashed:
        _press_rows(whole, rows, action.result)
    whole.measure(action.result, ("bottom", "left"))
    return table.panel(), whole.panel()


def _middle(unit: Unit) -> Point:
    corners = [corner.finished.floats for corner in unit.corners]
    return sum(x for x, _ in corners) / len(corners), sum(y for _, y in corners) / len(corners)


def _number(table: Table, units: tuple[Unit, ...], apart: float) -> None:
    for r, unit in enumerate(units):
        ys = [p.floats[1] for p in raw_outline(unit)]
        xs = [p.floats[0] for p in raw_outline(unit)]
        middle = min(xs), (min(ys) + max(ys)) / 2 - r * apart
        table.badges.append(Badge(at=middle, side="left", text=str(r + 1)))


def _press_row(table: Table, cells: tuple[Unit, ...], sewn: Unit, shift: Point) -> None:
    """An arrow on each seam between two neighbours."""
    shared = [_shared(left, right) for left, right in pairwise(cells)]
    narrow = any(_is_narrow(cell, 0) for cell in cells[1:-1])
    for n, stretch in enumerate(shared):
        if stretch is not None:
            _press_at(table, stretch, sewn, shift, _along(n, narrow))


def _press_rows(table: Table, rows: tuple[tuple[Unit, ...], ...], sewn: Unit) -> None:
    """One arrow on each seam between two rows, on a long stretch near its middle so that it crosses no other; in a
    table of many pieces on the first two, which the others follow."""
    narrow = any(any(_is_narrow(cell, 1) for cell in row) for row in rows[1:-1])
    if sum(map(len, rows)) > MANY:
        rows = rows[:3]
    boxes = [[box(corner.finished for corner in cell.corners) for cell in row] for row in rows]
    for n, (upper, lower) in enumerate(pairwise(rows)):
        near = [
            (a, b)
            for a, one in zip(upper, boxes[n], strict=True)
            for b, other in zip(lower, boxes[n + 1], strict=True)
            if one[0] <= other[2] and other[0] <= one[2] and one[1] <= other[3] and other[1] <= one[3]
        ]
        shared = [pair for a, b in near if (pair := _shared(a, b)) is not None]
        longest = max((dist(*pair) for pair in shared), default=0.0)
        shared = [pair for pair in shared if dist(*pair) * 2 > longest]
        if shared:
            _press_at(table, shared[(len(shared) - 1) // 2], sewn, HERE, _along(n, narrow))


def _along(number: int, narrow: bool) -> float:
    """Where on its seam an arrow stands. On both sides of a narrow strip they would lie on each other, and stand
    by turns."""
    return (0.3, 0.7)[number % 2] if narrow else 0.5


def _is_narrow(cell: Unit, axis: int) -> bool:
    """Whether a cell is a strip that lies between two seams: along `axis` (0 across, 1 down) far smaller."""
    size = [float(side) for side in finished_size(cell)]
    return size[axis] * 3 < size[1 - axis]


def _press_at(
    table: Table, stretch: tuple[Point, Point], sewn: Unit, shift: Point, along: float
) -> None:
    """An arrow on a stretch of a seam, `along` of the way from its left or lower end; other seams may run into that
    point."""
    (x0, y0), (x1, y1) = sorted(stretch)
    at = x0 + (x1 - x0) * along, y0 + (y1 - y0) * along
    for seam in sewn.seam_rope.near((at[0] - CLOSE, at[1] - CLOSE, at[0] + CLOSE, at[1] + CLOSE)):
        dx, dy = seam.direction.floats
        if abs(dx * (y1 - y0) - dy * (x1 - x0)) < CLOSE and _lies_on(at, seam):
            table.press(seam, at, shift)
            return


def _shared(first: Unit, second: Unit) -> tuple[Point, Point] | None:
    """The stretch where a finished edge of one lies on one of the other; None where they do not meet."""
    best: tuple[float, Point, Point] | None = None
    for i, along in enumerate(first.directions):
        dx, dy = along.floats
        x, y = first.corners[i].finished.floats
        reach = _reaches(first, i, (x, y), (dx, dy))
        for j, other in enumerate(second.directions):
            ox, oy = other.floats
            px, py = second.corners[j].finished.floats
            if dx * ox + dy * oy > CLOSE - 1 or abs(dx * (py - y) - dy * (px - x)) > CLOSE:
                continue
            facing = _reaches(second, j, (x, y), (dx, dy))
            low, high = max(reach[0], facing[0]), min(reach[1], facing[1])
            if high - low > CLOSE and (best is None or high - low > best[0]):
                best = high - low, (x + dx * low, y + dy * low), (x + dx * high, y + dy * high)
    return best[1:] if best else None


def _reaches(unit: Unit, edge: int, origin: Point, along: Point) -> tuple[float, float]:
    corners = unit.corners
    ends = corners[edge].finished.floats, corners[(edge + 1) % len(corners)].finished.floats
    reaches = [(x - origin[0]) * along[0] + (y - origin[1]) * along[1] for x, y in ends]
    return min(reaches), max(reaches)


def _lies_on(point: Point, seam: Seam) -> bool:
    (x0, y0), (x1, y1) = seam.start.floats, seam.end.floats
    dx, dy = seam.direction.floats
    x, y = point[0] - x0, point[1] - y0
    along = x * dx + y * dy
    length = (x1 - x0) * dx + (y1 - y0) * dy
    return abs(x * dy - y * dx) < CLOSE and min(0.0, length) - CLOSE <= along <= max(0.0, length) + CLOSE
