"""The scene of a trim: the ruler on the work, the lines of it that lie on something, what falls off."""

from __future__ import annotations

from piecewright.exact import Exact
from piecewright.kernel.action import Trim
from piecewright.kernel.build import Settings
from piecewright.kernel.measure import raw_outline
from piecewright.plan.cutting import beyond_points
from piecewright.plan.model import Cloth, Panel, Point, Side
from piecewright.plan.rounding import written_size
from piecewright.plan.table import Table, points

CLOSE = 1e-6  # inches; two drawn points as near as this are one
CROSS = 0.35  # inches: half a centre mark on the ruler


def trim_panels(action: Trim, settings: Settings, line: int, words: str) -> tuple[Panel, ...]:
    """The work under the ruler, what falls off hatched, then the trimmed work with its size."""
    before = Table(settings, line)
    before.put(action.before)
    corners = points(action.ruler.corners)
    raw = points(raw_outline(action.before))
    before.cloth.append(Cloth(outline=raw, fabric="", line=0, fallen=True, holes=(corners,)))
    before.stroke(corners, "ruler", closed=True)
    frame = _Frame(corners)
    on_diagonal = False
    for word, (start, end), distance in action.ruler.alignments:
        if word == "centre":
            _cross(before, frame, start.floats)
        elif distance is None:
            on_diagonal = True
            before.stroke(frame.chord(start.floats, end.floats), "ruler-seam")
        else:
            _laid_line(before, frame, start.floats, distance, settings)
    if action.width == action.height and not on_diagonal:
        before.stroke((corners[0], corners[2]), "ruler")
    if frame.upright and beyond_points(action.ruler) is None:  # else the points give the size
        before.dimension(corners[0], corners[1], "bottom", written_size(action.width, settings).shown)
        before.dimension(corners[0], corners[3], "left", written_size(action.height, settings).shown)
    after = Table(settings, line)
    after.put(action.result)
    after.measure(action.result, ("bottom", "left"))
    return before.panel(), after.panel(words=words)


class _Frame:
    """The ruler's own axes: `across` from its bottom left corner to the right, `up` from there to the top."""

    def __init__(self, corners: tuple[Point, ...]) -> None:
        (x, y), (rx, ry), _, (tx, ty) = corners
        self.origin = x, y
        self.width = ((rx - x) ** 2 + (ry - y) ** 2) ** 0.5
        self.height = ((tx - x) ** 2 + (ty - y) ** 2) ** 0.5
        self.across = (rx - x) / self.width, (ry - y) / self.width
        self.up = (tx - x) / self.height, (ty - y) / self.height

    @property
    def upright(self) -> bool:
        return bool(abs(self.across[1]) < CLOSE)

    def within(self, p: Point) -> Point:
        """A point of the table in the ruler's axes."""
        dx, dy = p[0] - self.origin[0], p[1] - self.origin[1]
        return dx * self.across[0] + dy * self.across[1], dx * self.up[0] + dy * self.up[1]

    def table(self, u: float, v: float) -> Point:
        """A point in the ruler's axes on the table."""
        return (
            self.origin[0] + u * self.across[0] + v * self.up[0],
            self.origin[1] + u * self.across[1] + v * self.up[1],
        )

    def chord(self, start: Point, end: Point) -> tuple[Point, Point]:
        """The line through two points, from edge to edge of the ruler."""
        (u0, v0), (u1, v1) = self.within(start), self.within(end)
        du, dv = u1 - u0, v1 - v0
        low, high = -1e9, 1e9
        for position, step, size in ((u0, du, self.width), (v0, dv, self.height)):
            if abs(step) > CLOSE:
                ends = sorted((-position / step, (size - position) / step))
                low, high = max(low, ends[0]), min(high, ends[1])
        return self.table(u0 + du * low, v0 + dv * low), self.table(u0 + du * high, v0 + dv * high)


def _cross(table: Table, frame: _Frame, middle: Point) -> None:
    u, v = frame.within(middle)
    table.stroke((frame.table(u - CROSS, v), frame.table(u + CROSS, v)), "ruler-seam")
    table.stroke((frame.table(u, v - CROSS), frame.table(u, v + CROSS)), "ruler-seam")


def _laid_line(table: Table, frame: _Frame, spot: Point, distance: Exact, settings: Settings) -> None:
    """The line of the ruler that runs `distance` inside one of its sides, and through the spot, numbered."""
    u, v = frame.within(spot)
    reach = float(distance)
    text = written_size(distance, settings).shown
    sides: tuple[tuple[float, Side], ...] = (
        (u, "left"),
        (frame.width - u, "right"),
        (v, "bottom"),
        (frame.height - v, "top"),
    )
    side = min(sides, key=lambda pair: abs(pair[0] - reach))[1]
    if side in ("left", "right"):
        table.stroke((frame.table(u, 0.0), frame.table(u, frame.height)), "ruler-seam")
        edge = frame.table(0.0 if side == "left" else frame.width, frame.height)
        on_line = frame.table(u, frame.height)
        outside: Side = "top"
    else:
        table.stroke((frame.table(0.0, v), frame.table(frame.width, v)), "ruler-seam")
        edge = frame.table(frame.width, 0.0 if side == "bottom" else frame.height)
        on_line = frame.table(frame.width, v)
        outside = "right"
    if frame.upright:
        table.dimension(edge, on_line, outside, text)
