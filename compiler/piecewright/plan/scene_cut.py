"""Scenes of what is done with cutter and hands: a piece cut, a unit taken, a turn, a cut."""

from __future__ import annotations

from math import hypot

from piecewright.exact import Exact, Vector
from piecewright.kernel.action import CutPiece, Line, Subcut, Take, Turn
from piecewright.kernel.build import Settings
from piecewright.kernel.measure import raw_edge, raw_outline
from piecewright.kernel.unit import Unit
from piecewright.plan.model import Arrow, Lead, Panel, Point, Side
from piecewright.plan.rounding import cut_size, measured_size, written_size
from piecewright.plan.table import Table, extremes, points

WHOLE: tuple[Side, Side] = ("bottom", "left")


def piece_panels(action: CutPiece, settings: Settings, line: int) -> tuple[Panel, ...]:
    """The piece with its size and its lengthwise grain."""
    table = Table(settings, line)
    endless = action.shape == "strip"
    table.put(action.unit, endless=endless)
    _grain(table, action.unit)
    if endless:
        low, high = extremes(raw_outline(action.unit), 1, "left")
        table.dimension(low.floats, high.floats, "left", cut_size(action.height, settings).shown)
    elif action.angle is not None:
        return (_slanted(table, action),)
    else:
        table.measure(action.unit, WHOLE)
    return (table.panel(),)


def _slanted(table: Table, action: CutPiece) -> Panel:
    """A piece cut at an angle: its side along the strip, the strip's width, and the angle in words."""
    outline = raw_outline(action.unit)
    start, end = raw_edge(action.unit, 0)
    side = abs(end.x - start.x)
    table.dimension(start.floats, end.floats, "bottom", measured_size(side, table.settings).shown)
    low, high = extremes(outline, 1, "left")
    table.dimension(low.floats, high.floats, "left", cut_size(action.height, table.settings).shown)
    return table.panel(words=f"{action.angle}°")


def _grain(table: Table, unit: Unit) -> None:
    cell = unit.patches[0].cells[0]
    corners = [p.floats for p in cell]
    x = sum(p[0] for p in corners) / len(corners)
    y = sum(p[1] for p in corners) / len(corners)
    dx, dy = unit.patches[0].grain.floats
    reach = min(_reach((x, y), (dx, dy), corners), _reach((x, y), (-dx, -dy), corners)) * 0.5
    reach = min(reach, 1.2)
    start, end = (x - dx * reach, y - dy * reach), (x + dx * reach, y + dy * reach)
    table.arrows.append(Arrow(start=start, end=end, role="grain"))


def _reach(start: Point, along: Point, corners: list[Point]) -> float:
    """How far it is from a point within a convex outline to its edge."""
    best = hypot(*(max(c[i] for c in corners) - min(c[i] for c in corners) for i in (0, 1)))
    for i, (x1, y1) in enumerate(corners):
        x0, y0 = corners[i - 1]
        normal = (y0 - y1, x1 - x0)
        toward = along[0] * normal[0] + along[1] * normal[1]
        if toward < -1e-9:
            best = min(best, ((x0 - start[0]) * normal[0] + (y0 - start[1]) * normal[1]) / toward)
    return best


def take_panels(action: Take, settings: Settings, line: int) -> tuple[Panel, ...]:
    """The unit as it is laid down, with its size."""
    table = Table(settings, line)
    table.put(action.unit)
    table.measure(action.unit, WHOLE)
    return (table.panel(),)


def turn_panels(action: Turn, settings: Settings, line: int) -> tuple[Panel, ...]:
    """The work before and after, with the turn between them."""
    before, after = Table(settings, line), Table(settings, line)
    before.put(action.before)
    after.put(action.result)
    lead: Lead = "turn-left" if action.degrees > 0 else "turn-right"
    return before.panel(), after.panel(lead=lead, lead_words=f"{abs(action.degrees)}°")


# ── cuts ────────────────────────────────────────────────────────────────────────────────────────


def subcut_panels(
    action: Subcut, settings: Settings, line: int, segments: bool, copies: int
) -> tuple[Panel, ...]:
    """The work with its cut lines, then one part of each kind as it lies afterwards. `segments`: the cuts are
    those of a strip set, `copies` the number of alike parts in hand."""
    before = Table(settings, line)
    before.put(action.before, endless=segments, trued=segments and action.angle is None)
    for cut in action.lines:
        before.stroke(points(cut), "cut")
    if action.angle is not None and action.distance is not None:
        _guide(before, action.lines)
        shown = written_size(action.distance, settings).shown
        panels = [before.panel(words=f"{shown} apart, square to the cut")]
    else:
        _distance(before, action, settings)
        panels = [before.panel()]
    for number, part in enumerate(action.kept):
        table = Table(settings, line)
        table.put(part)
        table.measure(part, WHOLE)
        panels.append(table.panel(words=_count(action, number, segments, copies), lead="and" if number else "then"))
    return tuple(panels)


def _guide(table: Table, lines: tuple[Line, ...]) -> None:
    """From the middle of the first cut square to the second, where the width of a segment is measured."""
    (a, b), (c, _) = lines[0], lines[1]
    x, y = ((p + q) / 2 for p, q in zip(a.floats, b.floats, strict=True))
    dx, dy = b.floats[0] - a.floats[0], b.floats[1] - a.floats[1]
    # the gap along the strips, times the sine of the angle, square to the cut
    reach = (c.floats[0] - a.floats[0]) * dy / (dx * dx + dy * dy)
    table.stroke(((x, y), (x + dy * reach, y - dx * reach)), "guide")


def _count(action: Subcut, number: int, segments: bool, copies: int) -> str:
    if action.names:
        return action.names[number]
    if segments:
        return "one segment"
    if len(action.parts) == 2:
        return "2 alike, turned to lie like this"
    return f"{len(action.parts)} alike, turned to lie like this"


def _distance(table: Table, action: Subcut, settings: Settings) -> None:
    """The distance of the cut from the edge it is measured from, or of the first two cuts."""
    if action.distance is None:
        return
    for edge in range(len(action.before.corners)):
        edge_line = raw_edge(action.before, edge)
        for cut in action.lines:
            gap = _parallel_gap(edge_line, cut)
            if gap is not None and gap == action.distance:
                _between(table, edge_line[0], cut[0], action.distance, settings)
                return
    if len(action.lines) > 1 and _parallel_gap(action.lines[0], action.lines[1]) == action.distance:
        _between(table, action.lines[0][0], action.lines[1][0], action.distance, settings)


def _parallel_gap(first: Line, second: Line) -> Exact | None:
    """The distance between two upright or two level lines; None for others."""
    (a, b), (c, d) = first, second
    if a.x == b.x and c.x == d.x:
        return abs(a.x - c.x)
    if a.y == b.y and c.y == d.y:
        return abs(a.y - c.y)
    return None


def _between(table: Table, first: Vector, second: Vector, distance: Exact, settings: Settings) -> None:
    upright = abs(first.x - second.x) == distance
    side: Side = "top" if upright else "right"
    table.dimension(first.floats, second.floats, side, written_size(distance, settings).shown)
