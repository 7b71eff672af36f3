"""Scenes of what is done with a finished top: backing and layers, binding."""

from __future__ import annotations

from piecewright.exact import Exact
from piecewright.kernel.action import Back, Bind
from piecewright.kernel.backing import Backing
from piecewright.kernel.binding import BiasSquare
from piecewright.kernel.build import Settings
from piecewright.kernel.measure import bounds, finished_outline, raw_outline
from piecewright.kernel.setting import finished_picture
from piecewright.kernel.unit import Polygon, Unit
from piecewright.plan.model import Arrow, Cloth, Panel, Point
from piecewright.plan.rounding import drawn, given_size, measured_size, written_size
from piecewright.plan.table import Table, points

TAIL = 3.0  # so many widths of the strip are drawn of each end that is joined


def back_panels(action: Back, settings: Settings, line: int) -> tuple[Panel, ...]:
    """The backing with the seams between its panels; then backing, batting and top on each other."""
    whole = action.backing
    wide, tall = drawn(whole.width), drawn(whole.height)
    cloth = Table(settings, line)
    # the wrong side, where the seams are seen as they are pressed
    back = Cloth(outline=_box(0, 0, wide, tall), fabric=action.fabric, line=line, wrong=whole.seams > 0)
    cloth.cloth.append(back)
    cloth.stroke(_box(0, 0, wide, tall), "raw", closed=True)
    across, along = _backing_seams(whole, settings.seam)
    side, length = (wide, tall) if whole.upright else (tall, wide)
    edge = across[-1] if across else 0.0  # of the last panel, which may be sewn end to end
    lines = [((at, 0.0), (at, length)) for at in across] + [((edge, at), (side, at)) for at in along]
    for start, end in lines:  # first left and then down, whichever way the selvages run
        ends = (start, end) if whole.upright else ((start[1], tall - start[0]), (end[1], tall - end[0]))
        cloth.stroke(ends, "seam")
    reach = min(wide, tall) / 6
    first = (across[0] if across else side) / 2
    x, y = (first, tall / 2) if whole.upright else (wide / 2, tall - first)
    grain: Point = (0.0, reach) if whole.upright else (reach, 0.0)
    cloth.arrows.append(Arrow(start=(x - grain[0], y - grain[1]), end=(x + grain[0], y + grain[1]), role="grain"))
    cloth.dimension((0, 0), (wide, 0), "bottom", measured_size(whole.width, settings).shown)
    cloth.dimension((0, 0), (0, tall), "left", measured_size(whole.height, settings).shown)

    layers = Table(settings, line)
    layers.cloth.append(Cloth(outline=_box(0, 0, wide, tall), fabric=action.fabric, line=line, wrong=True))
    layers.stroke(_box(0, 0, wide, tall), "raw", closed=True)
    left, floor, right, top = (drawn(side) for side in bounds(action.top))
    shift = (wide / 2 - (left + right) / 2, tall / 2 - (floor + top) / 2)
    outline = points(raw_outline(action.top), shift)
    layers.cloth.append(Cloth(outline=outline, fabric="", line=0, tint=True))
    layers.stroke(outline, "raw", closed=True)
    layers.stroke(points(finished_outline(action.top), shift), "allowance", closed=True)
    beyond = (whole.width - (bounds(action.top)[2] - bounds(action.top)[0])) / 2
    if beyond > 0:
        layers.dimension((0, 0), (drawn(beyond), 0), "bottom", given_size(beyond, settings).shown)
    return cloth.panel(), layers.panel(words="Backing, batting, top")


def _backing_seams(whole: Backing, seam: Exact) -> tuple[list[float], list[float]]:
    """Where the seams between panels lie, from the first one's edge; and those of the last one, along it."""
    across = [drawn(whole.panel * n - seam * (2 * n - 1)) for n in range(1, whole.panels)]
    along = [drawn(whole.piece * n - seam * (2 * n - 1)) for n in range(1, whole.pieces)]
    return across, along


def bind_panels(action: Bind, settings: Settings, line: int) -> tuple[Panel, ...]:
    """How two strips are joined, where there are two, or the bands of a square cut on the bias; the strip folded; and a
    corner of the quilt, bound."""
    made = action.binding
    panels = [_join(action, settings, line)] if made.strips > 1 else []
    if made.square is not None:
        panels.append(_bands(made.square, action, settings, line))
    wide, seam = drawn(made.width), drawn(settings.seam)
    tail = wide * TAIL
    folded = Table(settings, line)
    strip = _box(0, 0, tail + wide, wide / 2)
    folded.cloth.append(Cloth(outline=strip, fabric=action.fabric, line=line))
    folded.stroke(strip, "raw", closed=True)
    folded.dimension((0, 0), (0, wide / 2), "left", written_size(made.width / 2, settings, measured=True).shown)
    panels.append(folded.panel(words="Folded lengthwise"))
    corner = Table(settings, line)
    side = (0.0, 0.0), (seam, 0.0), (seam, tail - seam), (0.0, tail)
    top = (0.0, tail), (seam, tail - seam), (tail, tail - seam), (tail, tail)
    for outline in (side, top):
        corner.cloth.append(Cloth(outline=outline, fabric=action.fabric, line=line))
    corner.stroke(((0.0, 0.0), (0.0, tail), (tail, tail)), "raw")
    corner.stroke(((seam, 0.0), (seam, tail - seam), (tail, tail - seam)), "seam")
    corner.stroke(((0.0, tail), (seam, tail - seam)), "seam")
    corner.stroke(((seam, 0.0), (tail, 0.0), (tail, tail - seam)), "fold")
    panels.append(corner.panel(words="A corner, bound"))
    return tuple(panels)


def put_bound(table: Table, top: Unit, fabric: str) -> Polygon:
    """A top with its binding, as it is seen from the front: over the raw edge, mitred at the corners; its outline."""
    raw, seam = raw_outline(top), finished_outline(top)
    ways = top.directions
    is_convex = all(one.cross(ways[(n + 1) % len(ways)]) > 0 for n, one in enumerate(ways))
    # seams run on under the binding, where they are not seen
    table.put_cloth(finished_picture(top) if top.spots is None and is_convex else top)
    table.cloth.append(Cloth(outline=points(raw), fabric=fabric, line=table.line, holes=(points(seam),)))
    table.stroke(points(seam), "seam", closed=True)
    for corner in top.corners:
        if len(corner.raw) == 1:
            table.stroke(points((corner.finished, corner.raw[0])), "seam")
    return raw


def _join(action: Bind, settings: Settings, line: int) -> Panel:
    """Two strips as they lie to be joined, right sides together: square to each other, or end on end."""
    table = Table(settings, line)
    wide = drawn(action.binding.width)
    tail = wide * TAIL
    lower = _box(-tail, 0, wide, wide)
    table.cloth.append(Cloth(outline=lower, fabric=action.fabric, line=line))
    table.stroke(lower, "raw", closed=True)
    if action.binding.join == "diagonal":
        upper = _box(0, -tail, wide, wide)
        table.cloth.append(Cloth(outline=upper, fabric=action.fabric, line=line, wrong=True))
        table.stroke(upper, "raw", closed=True)
        table.stroke(((0.0, wide), (wide, 0.0)), "drawn")
    else:
        seam = drawn(settings.seam)
        over = _box(-tail + wide / 2, 0, wide, wide)
        table.cloth.append(Cloth(outline=over, fabric=action.fabric, line=line, wrong=True))
        table.stroke(over, "raw", closed=True)
        table.stroke(((wide - seam, 0.0), (wide - seam, wide)), "stitch")
    table.dimension((-tail, 0), (-tail, wide), "left", written_size(action.binding.width, settings).shown)
    return table.panel(words="Each join, right sides together")


def _bands(square: BiasSquare, action: Bind, settings: Settings, line: int) -> Panel:
    """The halves of the square, sewn to a slanted piece, wrong side up, with the bands drawn on it; smaller than the
    strip, which could not be seen beside it. It lies as `bias_bands` derives it, the bias edges running on straight."""
    smaller = drawn(action.binding.width) * TAIL / drawn(square.side)
    side, seam = drawn(square.side) * smaller, drawn(settings.seam) * smaller
    table = Table(settings, line)
    slanted: tuple[Point, ...] = ((seam, 2 * seam - side), (side, seam), (side, side), (seam, seam))
    table.cloth.append(Cloth(outline=slanted, fabric=action.fabric, line=line, wrong=True))
    table.stroke(slanted, "raw", closed=True)
    table.stroke(((seam, seam), (side, seam)), "seam")
    apart = drawn(action.binding.width * Exact.root(2)) * smaller  # along the straight edges
    for number in range(1, square.bands + 1):
        table.stroke(((seam, seam - apart * number), (side, side - apart * number)), "drawn")
    wide = written_size(action.binding.width, settings).shown
    return table.panel(words=f"{square.bands} bands, {wide} apart")


def _box(left: float, floor: float, right: float, top: float) -> tuple[Point, ...]:
    x0, y0, x1, y1 = float(left), float(floor), float(right), float(top)
    return (x0, y0), (x1, y0), (x1, y1), (x0, y1)
