"""From a scene in inches to a sheet in points: what stands where, and how large the sheet is.

Everything that must not meet is placed here, outside the cloth: dimension rows, numbers of order,
words, signs between panels, the legend. Drawing itself is left to the SVG module.
"""

from __future__ import annotations

from piecewright.dataclass import dataclass
from piecewright.emit.dimensions import Box, Placed, Segment, place_side
from piecewright.emit.lettering import HEIGHT, LINE, text_lines, text_width
from piecewright.plan.model import Badge, Figure, Lead, Panel, Point, Side, Stroke

MARGIN = 8.0  # points round the sheet
OVERRUN = 9.0  # points a cut line runs past each raw edge
DOT = 2.2  # radius of the dot where stitching stops
GRAIN = 3.0  # half the width of the arrow of the grain
MARK = 3.6  # half the length of a matching mark
SIGN = 24.0  # width of the sign between two panels
AIR = 11.0  # on both sides of the sign
BADGE = 7.6  # radius of the circle round a number of order
LABEL = 6.5  # radius of the light ground of a number or letter on cloth or paper
NARROW = 104.0  # words under a narrow panel may be this wide
SWATCH = (18.0, 11.0)
LEGEND = 210.0  # the legend of a narrow figure may be this wide
_OUTER = frozenset(("raw", "cut", "ruler"))  # seams and allowances never leave the cloth
SIDES: tuple[Side, ...] = ("left", "right", "top", "bottom")


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """One line of text: `x` and `y` are the middle of its box."""

    x: float
    y: float
    text: str

    @property
    def box(self) -> Box:
        half = text_width(self.text) / 2
        return self.x - half, self.y - HEIGHT / 2, self.x + half, self.y + HEIGHT / 2


@dataclass(frozen=True, slots=True, kw_only=True)
class PlacedPanel:
    """A panel on the sheet: its point (0, 0) stands at `x`, `y`; all else is in points of the sheet."""

    panel: Panel
    x: float
    y: float
    dimensions: tuple[Placed, ...]
    badges: tuple[Line, ...]
    words: tuple[Line, ...]
    labels: tuple[Line, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class PlacedSign:
    """The sign between two panels, `x` and `y` its middle."""

    lead: Lead
    x: float
    y: float
    words: tuple[Line, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Swatch:
    """A sample of a fabric, its top left corner at `x`, `y`, and its name."""

    fabric: str
    x: float
    y: float
    name: Line


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """A figure laid out at `scale` points to the inch."""

    width: float
    height: float
    scale: float
    panels: tuple[PlacedPanel, ...]
    signs: tuple[PlacedSign, ...]
    swatches: tuple[Swatch, ...]
    key: tuple[Line, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class _Measured:
    panel: Panel
    content: Box
    dimensions: tuple[Placed, ...]
    badges: tuple[Line, ...]
    outer: Box
    words: tuple[str, ...]


def lay_out(figure: Figure, scale: float) -> Sheet:
    """The sheet of a figure. The panels of a line stand on one axis, their words on one line under all of them."""
    is_lettered = not figure.key or _has_room(figure, scale)
    panels: list[PlacedPanel] = []
    signs: list[PlacedSign] = []
    width, bottom = 0.0, MARGIN
    for number, line in enumerate(lines_of(figure)):
        top = bottom + 12.0 if number else MARGIN
        right, bottom = _lay_line(line, scale, top, panels, signs, is_lettered)
        width = max(width, right + MARGIN)
    key: tuple[Line, ...] = ()
    if figure.key and is_lettered:
        key, bottom, width = _key(figure.key, bottom + 9.0, width)
    swatches: tuple[Swatch, ...] = ()
    if figure.kind != "outline":
        swatches, bottom, width = _legend(figure, bottom + 9.0, width)
    return Sheet(
        width=width,
        height=bottom + MARGIN,
        scale=scale,
        panels=tuple(panels),
        signs=tuple(signs),
        swatches=swatches,
        key=key,
    )


def lines_of(figure: Figure) -> tuple[tuple[Panel, ...], ...]:
    """The panels of each line, from the top; one that is led `below` begins a new one."""
    lines: list[tuple[Panel, ...]] = []
    for panel in figure.panels:
        if lines and panel.lead != "below":
            lines[-1] = (*lines[-1], panel)
        else:
            lines.append((panel,))
    return tuple(lines)


def _lay_line(
    line: tuple[Panel, ...],
    scale: float,
    top: float,
    panels: list[PlacedPanel],
    signs: list[PlacedSign],
    is_lettered: bool,
) -> tuple[float, float]:
    """Places the panels of a line and the signs before them; where they end on the right and at the bottom."""
    measured = tuple(_measure(panel, scale) for panel in line)
    above = max(SIGN / 2, *(_middle(m.content) - m.outer[1] for m in measured))
    below = max(SIGN / 2, *(m.outer[3] - _middle(m.content) for m in measured))
    axis = top + above
    words_top = axis + below + 8.0
    lowest = axis + below
    x = MARGIN
    for m in measured:
        if m is not measured[0] or (panels and m.panel.lead == "below"):
            sign = _sign(m.panel, x + AIR, axis)
            signs.append(sign)
            lowest = max([lowest, *(line.box[3] for line in sign.words)])
            x += 2 * AIR + _sign_width(m.panel)
        words_width = max((text_width(line) for line in m.words), default=0.0)
        drawn = m.outer[2] - m.outer[0]
        width = max(drawn, words_width)
        dx = x + (width - drawn) / 2 - m.outer[0]
        dy = axis - _middle(m.content)
        middle = dx + (m.content[0] + m.content[2]) / 2
        middle = min(max(middle, x + words_width / 2), x + width - words_width / 2)
        panels.append(
            PlacedPanel(
                panel=m.panel,
                x=dx,
                y=dy,
                dimensions=tuple(_shifted(d, dx, dy) for d in m.dimensions),
                badges=tuple(Line(x=b.x + dx, y=b.y + dy, text=b.text) for b in m.badges),
                words=_stacked(m.words, middle, words_top),
                labels=tuple(
                    Line(x=x1 + dx, y=y1 + dy, text=label.text)
                    for label in (m.panel.labels if is_lettered else ())
                    for x1, y1 in (paper(label.at, scale),)
                ),
            )
        )
        x += width
    rows = max(len(m.words) for m in measured)
    return x, max(lowest, words_top + rows * LINE if rows else 0.0)


def seen_fabrics(figure: Figure) -> tuple[str, ...]:
    """The fabrics that show in a figure, in the order in which they first do."""
    return tuple(dict.fromkeys(c.fabric for panel in figure.panels for c in panel.all_cloth() if c.fabric))


def paper(point: Point, scale: float) -> Point:
    """A point of a panel in points, y down."""
    return point[0] * scale, -point[1] * scale


def cut_ends(stroke: Stroke, scale: float) -> tuple[Point, Point]:
    """The ends of a cut line on paper, run past both raw edges."""
    (x0, y0), (x1, y1) = paper(stroke.points[0], scale), paper(stroke.points[-1], scale)
    length = ((x1 - x0) ** 2 + (y1 - y0) ** 2) ** 0.5 or 1.0
    dx, dy = (x1 - x0) / length * OVERRUN, (y1 - y0) / length * OVERRUN
    return (x0 - dx, y0 - dy), (x1 + dx, y1 + dy)


def panel_ink(panel: Panel, scale: float) -> tuple[Segment, ...]:
    """The outermost edges of the cloth and every line that may pass them, as segments in points of the panel."""
    rings = [panel.clip] if panel.clip else [s.points for s in panel.strokes if s.closed and s.role in _OUTER]
    if not panel.clip:
        rings += [
            tuple(one.point(p) for p in stroke.points)
            for one in panel.placed
            for stroke in one.shape.strokes
            if stroke.closed and stroke.role in _OUTER
        ]
    if not rings:
        rings = [c.outline for c in panel.cloth if not c.tint]
    segments: list[Segment] = []
    for ring in rings:
        corners = [paper(p, scale) for p in ring]
        segments += [(*corners[i - 1], *corners[i]) for i in range(len(corners))]
    for stroke in panel.strokes:
        if stroke.closed or stroke.role not in _OUTER:
            continue
        line = cut_ends(stroke, scale) if stroke.role == "cut" else [paper(p, scale) for p in stroke.points]
        segments += [(*line[i], *line[i + 1]) for i in range(len(line) - 1)]
    return tuple(segments)


def _measure(panel: Panel, scale: float) -> _Measured:
    ink = panel_ink(panel, scale)
    content = _box_round(ink)
    for mark in panel.marks:
        x, y = paper(mark.at, scale)
        across = (abs(mark.along[1]) * MARK, abs(mark.along[0]) * MARK)
        content = _union(content, (x - across[0], y - across[1], x + across[0], y + across[1]))
    for arrow in panel.arrows:
        if arrow.role == "grain":
            ends = paper(arrow.start, scale), paper(arrow.end, scale)
            content = _union(content, _box_round(tuple((x - GRAIN, y, x + GRAIN, y) for x, y in ends)))
    badges = _badges(panel.badges, scale, content)
    held = content
    for b in badges:
        left, top, right, bottom = b.x - BADGE, b.y - BADGE, b.x + BADGE, b.y + BADGE
        held = _union(held, (left, top, right, bottom))
        ink += _box_edges((left, top, right, bottom))
    placed: list[Placed] = []
    outer = held
    for side in SIDES:
        on_side, _ = place_side(side, panel.dimensions, scale, held, ink)
        for d in on_side:
            outer = _union(outer, d.box)
            outer = _union(outer, _box_round(d.lines))
        placed += on_side
    width = max(outer[2] - outer[0], NARROW)
    return _Measured(
        panel=panel,
        content=content,
        dimensions=tuple(placed),
        badges=badges,
        outer=outer,
        words=text_lines(panel.words, width),
    )


def _badges(badges: tuple[Badge, ...], scale: float, content: Box) -> tuple[Line, ...]:
    """Numbers of order beside what they number; further out where they would meet."""
    placed: list[Line] = []
    for badge in badges:
        x, y = paper(badge.at, scale)
        step_x, step_y = {"left": (-1, 0), "right": (1, 0), "top": (0, -1), "bottom": (0, 1)}[badge.side]
        away = BADGE + 4.0
        if step_x:
            x = content[0] - away if step_x < 0 else content[2] + away
        else:
            y = content[1] - away if step_y < 0 else content[3] + away
        while any(max(abs(x - p.x), abs(y - p.y)) < 2 * BADGE + 2.0 for p in placed):
            x, y = x + step_x * (2 * BADGE + 3.0), y + step_y * (2 * BADGE + 3.0)
        placed.append(Line(x=x, y=y, text=badge.text))
    return tuple(placed)


def _sign_width(panel: Panel) -> float:
    if panel.lead == "and":
        return 0.0
    return max([SIGN, *(text_width(line) for line in text_lines(panel.lead_words, 2 * SIGN))])


def _sign(panel: Panel, x: float, y: float) -> PlacedSign:
    middle = x + _sign_width(panel) / 2
    lines = text_lines(panel.lead_words, 2 * SIGN)
    return PlacedSign(lead=panel.lead, x=middle, y=y, words=_stacked(lines, middle, y + 16.0))


def _legend(figure: Figure, top: float, width: float) -> tuple[tuple[Swatch, ...], float, float]:
    """A row of swatches under the figure, broken where the sheet ends; its bottom and the sheet's width."""
    swatches: list[Swatch] = []
    x, y = MARGIN, top
    widest = width
    width = max(width, LEGEND)
    beside = dict(figure.legend)
    for fabric in seen_fabrics(figure):
        words = beside.get(fabric, fabric)
        needs = SWATCH[0] + 5.0 + text_width(words)
        if x > MARGIN and x + needs > width - MARGIN:
            x, y = MARGIN, y + LINE + 4.0
        name = Line(x=x + SWATCH[0] + 5.0 + text_width(words) / 2, y=y + SWATCH[1] / 2, text=words)
        swatches.append(Swatch(fabric=fabric, x=x, y=y, name=name))
        widest = max(widest, x + needs + MARGIN)
        x += needs + 14.0
    return tuple(swatches), y + SWATCH[1], widest


def _has_room(figure: Figure, scale: float) -> bool:
    """Whether the grounds of all letters are clear of each other."""
    for panel in figure.panels:
        spots = sorted(paper(label.at, scale) for label in panel.labels)
        for at, (x, y) in enumerate(spots):
            for u, v in spots[at + 1 :]:
                if u - x >= 2 * LABEL + 1.0:
                    break
                if (u - x) ** 2 + (v - y) ** 2 < (2 * LABEL + 1.0) ** 2:
                    return False
    return True


def _key(entries: tuple[str, ...], top: float, width: float) -> tuple[tuple[Line, ...], float, float]:
    """What the letters stand for, in rows under the figure; their bottom and the sheet's width."""
    width = widest = max(width, LEGEND)
    lines: list[Line] = []
    x, y = MARGIN, top
    for text in entries:
        needs = text_width(text)
        if x > MARGIN and x + needs > width - MARGIN:
            x, y = MARGIN, y + LINE + 1.0
        lines.append(Line(x=x + needs / 2, y=y + LINE / 2, text=text))
        widest = max(widest, x + needs + MARGIN)
        x += needs + 14.0
    return tuple(lines), y + LINE, widest


def _stacked(lines: tuple[str, ...], middle: float, top: float) -> tuple[Line, ...]:
    return tuple(Line(x=middle, y=top + LINE * (i + 0.5), text=line) for i, line in enumerate(lines))


def _shifted(placed: Placed, dx: float, dy: float) -> Placed:
    def moved(s: Segment) -> Segment:
        return s[0] + dx, s[1] + dy, s[2] + dx, s[3] + dy

    return Placed(
        lines=tuple(moved(s) for s in placed.lines),
        ticks=tuple(moved(s) for s in placed.ticks),
        text=placed.text,
        middle=(placed.middle[0] + dx, placed.middle[1] + dy),
        box=moved(placed.box),
    )


def _middle(box: Box) -> float:
    return (box[1] + box[3]) / 2


def _union(a: Box, b: Box) -> Box:
    return min(a[0], b[0]), min(a[1], b[1]), max(a[2], b[2]), max(a[3], b[3])


def _box_edges(box: Box) -> tuple[Segment, ...]:
    left, top, right, bottom = box
    corners = (left, top), (right, top), (right, bottom), (left, bottom)
    return tuple((*corners[i - 1], *corners[i]) for i in range(4))


def _box_round(segments: tuple[Segment, ...]) -> Box:
    xs = [x for s in segments for x in (s[0], s[2])] or [0.0]
    ys = [y for s in segments for y in (s[1], s[3])] or [0.0]
    return min(xs), min(ys), max(xs), max(ys)
