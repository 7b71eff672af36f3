"""The scene of sewing: what is to be joined drawn apart, with the edges that meet marked; then the whole."""

from __future__ import annotations

from piecewright.exact import Vector
from piecewright.kernel.action import Finish, Press, Sew
from piecewright.kernel.build import Settings
from piecewright.kernel.measure import raw_outline
from piecewright.kernel.unit import Unit
from piecewright.plan.model import Badge, Dimension, Mark, Panel, Point, Side
from piecewright.plan.rounding import measured_size
from piecewright.plan.table import HERE, Table, extent, is_upright_rectangle, moved

SHORT = 1.0  # inches: a shorter edge has one mark, in its middle
Span = tuple[float, float]


def sew_panels(
    sews: tuple[Sew, ...], pressed: tuple[Press, ...], settings: Settings, line: int, *, endless: bool, words: str
) -> tuple[Panel, ...]:
    """All that one step sews on: each piece drawn outside the work where it will lie, numbered when there
    are several; then the result with its size and the pressing. `endless`: strips without ends."""
    before, after = Table(settings, line), Table(settings, line)
    base = sews[0].first
    before.put(base, endless=endless)
    gap = max(0.07 * extent(sews[-1].result), 0.3)
    measured: list[tuple[object, object]] = []
    for number, sew in enumerate(sews):
        out = _outward(sew)
        set_in = len(sew.first_edges) == 2
        apart = 2 * float(sew.first.allowance) + (0.3 if set_in else gap)
        shift = out[0] * apart, out[1] * apart
        before.put(sew.second, shift, endless=endless)
        _match(before, base, sew, shift)
        for stop in sew.stops:
            here = stop.floats
            before.marks += [_dot(here), _dot(moved(here, shift))]
            after.marks.append(_dot(here))
        if sew.step is not None:
            _measure_step(before, sew, shift)
        side = _side(out)
        if len(sews) > 1:
            before.badges.append(Badge(at=moved(_middle(sew.second), shift), side=side, text=str(number + 1)))
        if endless:
            _height_only(before, sew.second, shift)
        size = _size(sew.second)
        if size is not None and size not in measured and not endless:
            measured.append(size)
            _measure(before, sew.second, side, shift)
    whole = sews[-1].result
    after.put(whole, endless=endless)
    for press in pressed:
        after.press(press.result.seam_rope[press.seam])
    if endless:
        _height_only(after, whole)
    else:
        after.measure(whole, ("bottom", "left"))
    return before.panel(), after.panel(words=words)


def _dot(at: Point) -> Mark:
    """Where the stitching stops."""
    return Mark(at=at, along=(1.0, 0.0), count=0)


def _measure_step(table: Table, sew: Sew, shift: Point) -> None:
    """How far the new strip's end stands out beyond that of the strip it is sewn to, on the side away from it."""
    assert sew.step is not None
    along = sew.first.directions[sew.first_edges[0]].floats
    side: Side = "top" if along[0] > 0 else "bottom"
    level = sew.first.corners[sew.first_edges[0]].finished.floats[1]
    xs = [p.floats[0] for p in raw_outline(sew.second)]
    new = min(xs) if sew.step < 0 else max(xs)
    old = new - float(sew.step)
    ends = sorted(((new, level + shift[1]), (old, level)))
    table.dimension(ends[0], ends[1], side, measured_size(abs(sew.step), table.settings).shown)


def finish_panels(
    action: Finish, pressed: tuple[Press, ...], settings: Settings, line: int, words: str
) -> tuple[Panel, ...]:
    """The work with its open seam, the stitching to come from the dot outward; then with the seam sewn and pressed."""
    before, after = Table(settings, line), Table(settings, line)
    before.put(action.before)
    before.marks.append(_dot(action.stop.floats))
    ends = action.before.corners[action.edges[0]].finished, action.stop
    before.stroke((ends[0].floats, ends[1].floats), "stitch")
    after.put(action.result)
    for press in pressed:
        after.press(press.result.seam_rope[press.seam])
    after.measure(action.result, ("bottom", "left"))
    return before.panel(), after.panel(words=words)


def _outward(sew: Sew) -> Point:
    """The way out of the work across the edges that are sewn, as a unit vector."""
    x = y = 0.0
    for edge in sew.first_edges:
        along = sew.first.directions[edge].floats
        x, y = x + along[1], y - along[0]
    length = (x * x + y * y) ** 0.5 or 1.0
    return x / length, y / length


def _side(out: Point) -> Side:
    x, y = out
    if abs(x) >= abs(y) - 1e-9:
        return "right" if x > 0 else "left"
    return "top" if y > 0 else "bottom"


def _middle(unit: Unit) -> Point:
    xs, ys = zip(*(p.floats for p in raw_outline(unit)), strict=True)
    return (min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2


def _measure(table: Table, unit: Unit, side: Side, shift: Point) -> None:
    """The size of a piece on the side where it lies and on one beside it; a size that would be tangled with
    those of other pieces is left out."""
    beside: tuple[Side, Side] = ("bottom", "top") if side in ("left", "right") else ("left", "right")
    trials = [((other, side) if side in ("left", "right") else (side, other)) for other in beside]
    kept = len(table.dimensions)
    for sides in trials:
        table.measure(unit, sides, shift)
        fresh, table.dimensions[kept:] = table.dimensions[kept:], []
        clear = [d for d in fresh if not any(_tangled(d, other) for other in table.dimensions)]
        if len(clear) == 2 or sides == trials[-1]:
            table.dimensions += clear
            return


def _tangled(one: Dimension, other: Dimension) -> bool:
    """Two on one side that overlap without one lying within the other: their lines would cross."""
    if one.side != other.side:
        return False
    axis = 0 if one.side in ("top", "bottom") else 1
    a, b = sorted((one.start[axis], one.end[axis]))
    c, d = sorted((other.start[axis], other.end[axis]))
    return a < c < b < d or c < a < d < b


def _size(unit: Unit) -> tuple[object, object] | None:
    """Width and height of an upright rectangle, for comparing; None for any other unit, whose box would
    tell nothing."""
    if not is_upright_rectangle(unit):
        return None
    outline = raw_outline(unit)
    return max(p.x for p in outline) - min(p.x for p in outline), max(p.y for p in outline) - min(p.y for p in outline)


def _height_only(table: Table, unit: Unit, shift: Point = HERE) -> None:
    kept = len(table.dimensions)
    table.measure(unit, ("bottom", "left"), shift)
    del table.dimensions[kept]


# ── matching marks ──────────────────────────────────────────────────────────────────────────────


def _match(table: Table, base: Unit, sew: Sew, shift: Point) -> None:
    """The same marks on both edges, set off from finished corners, so that they meet when sewn."""
    count = len(sew.second_edges)
    for number, edge in enumerate(sew.first_edges):
        other = sew.second_edges[count - 1 - number]
        along = sew.first.directions[edge].floats
        start, _ = _finished(sew.first, edge)
        low, high = _overlap(_span(sew.first, edge, start, along), _span(sew.second, other, start, along))
        own = _collinear(base, sew.first, edge)
        if own is not None:
            low, high = _overlap((low, high), _span(base, own, start, along))
        s = float(sew.first.allowance)
        out = along[1], -along[0]
        # round an inner corner the dot tells which way the piece lies
        for share, ticks in ((1 / 3, 1), (2 / 3, 2)) if high - low >= SHORT and count == 1 else ((1 / 2, 1),):
            reach = low + (high - low) * share
            x, y = start[0] + along[0] * reach, start[1] + along[1] * reach
            table.marks.append(Mark(at=(x + out[0] * s, y + out[1] * s), along=along, count=ticks))
            facing = x - out[0] * s + shift[0], y - out[1] * s + shift[1]
            table.marks.append(Mark(at=facing, along=along, count=ticks))


def _finished(unit: Unit, edge: int) -> tuple[Point, Point]:
    corners = unit.corners
    return corners[edge].finished.floats, corners[(edge + 1) % len(corners)].finished.floats


def _span(unit: Unit, edge: int, origin: Point, along: Point) -> Span:
    """Where a finished edge lies along a line, low end first."""
    reaches = [(x - origin[0]) * along[0] + (y - origin[1]) * along[1] for x, y in _finished(unit, edge)]
    return min(reaches), max(reaches)


def _overlap(first: Span, second: Span) -> Span:
    low, high = max(first[0], second[0]), min(first[1], second[1])
    return (low, high) if low < high else first


def _collinear(base: Unit, unit: Unit, edge: int) -> int | None:
    """The edge of the work as it was before the step that is part of `edge` of what it has become."""
    along: Vector = unit.directions[edge]
    corner = unit.corners[edge].finished
    for number, direction in enumerate(base.directions):
        if direction == along and not along.cross(base.corners[number].finished - corner):
            return number
    return None
