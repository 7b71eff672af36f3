"""Where the dimension lines of one panel stand, and their texts.

All four sides are solved alike: `u` runs along the side, `v` outward from it, both in points. Rows of
the scene become one or more rows on paper; a text stands in a gap of its own line where it fits, else
beside it, and never where a line further out has to pass.
"""

from __future__ import annotations

from piecewright.dataclass import dataclass
from piecewright.emit.lettering import HEIGHT, text_width
from piecewright.plan.model import Dimension, Side

Box = tuple[float, float, float, float]  # left, top, right, bottom in points, y down
Segment = tuple[float, float, float, float]

CLEAR = 3.0  # points between cloth and extension line, and round a text
BEYOND = 2.5  # an extension line passes its dimension line
TICK = 2.4  # half a tick, along and across
FIRST = 7.0  # points from what is drawn to the first row


@dataclass(frozen=True, slots=True, kw_only=True)
class Placed:
    """One dimension on paper, in points of its panel: fine `lines`, firmer `ticks` and the text's middle."""

    lines: tuple[Segment, ...]
    ticks: tuple[Segment, ...]
    text: str
    middle: tuple[float, float]
    box: Box


@dataclass(frozen=True, slots=True, kw_only=True)
class _Span:
    dimension: Dimension
    low: float
    high: float
    along: float  # extent of the text along the side
    outward: float  # and outward


@dataclass(frozen=True, slots=True, kw_only=True)
class _Spot:
    span: _Span
    row: int
    text: float  # low end of the text, along the side
    gap: bool


def place_side(
    side: Side, dimensions: tuple[Dimension, ...], scale: float, content: Box, ink: tuple[Segment, ...]
) -> tuple[tuple[Placed, ...], float]:
    """The dimensions of one side on paper and how far out they reach from `content`.

    Up to two sizes in a row, and one in each row further out, never meet anything.
    `content` is the box round all that is drawn; `ink` are the edges of the cloth and the lines over it, in
    points: an extension line starts outside the last of them.
    """
    own = tuple(d for d in dimensions if d.side == side)
    spans = tuple(_span(d, side, scale) for d in own if not d.beyond)
    if len(spans) < len(own):
        assert not spans  # see `Dimension`
        return tuple(_beyond(_span(d, side, scale), side, content, ink) for d in own), 0.0
    if not spans:
        return (), 0.0
    spots = _spots(sorted(spans, key=lambda s: (s.dimension.row, s.low, s.high)))
    rows = max(spot.row for spot in spots) + 1
    depths = [max(s.span.outward for s in spots if s.row == r) for r in range(rows)]
    middles: list[float] = []
    v = FIRST
    for depth in depths:
        middles.append(v + depth / 2)
        v += depth + CLEAR
    # where no cloth fills a corner of the box, extension lines of two sides would cross in it: those up and
    # down begin only outside the box
    short = side in ("top", "bottom") and any(d.side in ("left", "right") for d in dimensions)
    placed = tuple(_paper(spot, side, middles[spot.row], content, ink, short) for spot in spots)
    return placed, v


def _span(dimension: Dimension, side: Side, scale: float) -> _Span:
    axis, sign = (0, 1) if side in ("top", "bottom") else (1, -1)
    ends = sorted((sign * dimension.start[axis] * scale, sign * dimension.end[axis] * scale))
    width = text_width(dimension.text)
    along, outward = (width, HEIGHT) if axis == 0 else (HEIGHT, width)
    return _Span(dimension=dimension, low=ends[0], high=ends[1], along=along, outward=outward)


def _spots(spans: list[_Span]) -> tuple[_Spot, ...]:
    spots: list[_Spot] = []
    first = 0  # paper row where the present row of the scene may begin
    for number, span in enumerate(spans):
        if number and span.dimension.row != spans[number - 1].dimension.row:
            first = max(spot.row for spot in spots) + 1
        later = [end for s in spans[number + 1 :] for end in (s.low, s.high)]
        last = max([first, *(spot.row + 1 for spot in spots)])
        for row in range(first, last + 1):
            found = _fit(span, [s for s in spots if s.row == row], later)
            if found is not None:
                break
        else:
            # nothing is free, among three short sizes or more: stand clear of every line still to pass
            found = max([span.high, *later]) + 2 * CLEAR, False
        spots.append(_Spot(span=span, row=row, text=found[0], gap=found[1]))
    return tuple(spots)


def _fit(span: _Span, taken: list[_Spot], later: list[float]) -> tuple[float, bool] | None:
    """Where the text may begin on this row, and whether in a gap of its line."""
    room = span.high - span.low
    tries = [
        ((span.low + span.high - span.along) / 2, True),
        (span.high + 2 * CLEAR, False),
        (span.low - 2 * CLEAR - span.along, False),
    ]
    if room < _roomy(span):
        del tries[0]
    for start, gap in tries:
        end = start + span.along
        if any(start - CLEAR < passing < end + CLEAR for passing in later if not gap or passing != span.low):
            continue
        low, high = min(start, span.low), max(end, span.high)
        if all(high + CLEAR <= a or b + CLEAR <= low or _touch(span, s) for s in taken for a, b in [_reach(s)]):
            return start, gap
    return None


def _reach(spot: _Spot) -> tuple[float, float]:
    return min(spot.text, spot.span.low), max(spot.text + spot.span.along, spot.span.high)


def _touch(span: _Span, spot: _Spot) -> bool:
    """Two lines of a chain: each with its text in its own gap, one beginning where the other ends."""
    other = spot.span
    apart = span.low >= other.high - 0.01 or other.low >= span.high - 0.01
    return apart and spot.gap and span.high - span.low >= _roomy(span)


def _roomy(span: _Span) -> float:
    """How long a line must be for its text to stand in a gap of it, clear of the ticks."""
    return span.along + 2 * CLEAR + 2 * TICK - 2.0


def _paper(spot: _Spot, side: Side, v: float, content: Box, ink: tuple[Segment, ...], short: bool) -> Placed:
    span = spot.span
    low, high = span.low, span.high

    def at(u: float, v: float) -> tuple[float, float]:
        if side == "top":
            return u, content[1] - v
        if side == "bottom":
            return u, content[3] + v
        return (content[0] - v, u) if side == "left" else (content[2] + v, u)

    def segment(u0: float, v0: float, u1: float, v1: float) -> Segment:
        return (*at(u0, v0), *at(u1, v1))

    begin = [0.0 if short else _outermost(u, side, content, ink) for u in (low, high)]
    lines = [segment(u, reach + CLEAR, u, v + BEYOND) for u, reach in zip((low, high), begin, strict=True)]
    if spot.gap:
        lines.append(segment(low, v, spot.text - CLEAR, v))
        lines.append(segment(spot.text + span.along + CLEAR, v, high, v))
    else:
        lines.append(segment(low, v, high, v))
        after = spot.text > high
        near = spot.text - CLEAR if after else spot.text + span.along + CLEAR
        lines.append(segment(high if after else low, v, near, v))
    ticks = tuple(segment(u - TICK, v - TICK, u + TICK, v + TICK) for u in (low, high))
    x, y = at(spot.text + span.along / 2, v)
    half_x, half_y = span.along / 2, span.outward / 2
    if side in ("left", "right"):
        half_x, half_y = half_y, half_x
    return Placed(
        lines=tuple(lines),
        ticks=ticks,
        text=span.dimension.text,
        middle=(x, y),
        box=(x - half_x, y - half_y, x + half_x, y + half_y),
    )


def _beyond(span: _Span, side: Side, content: Box, ink: tuple[Segment, ...]) -> Placed:
    """A dimension whose text stands level with its middle, on the far side of its line."""
    depth = span.outward if side in ("left", "right") else HEIGHT
    start = (span.low + span.high - span.along) / 2
    # the line of a spot with its text outside is whole; here the text follows it outward
    spot = _Spot(span=span, row=0, text=span.high + 2 * CLEAR, gap=False)
    plain = _paper(spot, side, FIRST, content, ink, False)
    lines = plain.lines[:3]  # without the one that leads to a text further along
    v = FIRST + TICK + CLEAR + depth / 2
    u = start + span.along / 2
    x, y = {
        "top": (u, content[1] - v),
        "bottom": (u, content[3] + v),
        "left": (content[0] - v, u),
        "right": (content[2] + v, u),
    }[side]
    half_x, half_y = span.along / 2, span.outward / 2
    if side in ("left", "right"):
        half_x, half_y = half_y, half_x
    return Placed(
        lines=lines,
        ticks=plain.ticks,
        text=plain.text,
        middle=(x, y),
        box=(x - half_x, y - half_y, x + half_x, y + half_y),
    )


def _outermost(u: float, side: Side, content: Box, ink: tuple[Segment, ...]) -> float:
    """How far out the ink reaches at `u`, as `v`: 0 at the content's edge, negative within."""
    across = side in ("top", "bottom")
    edge = {"top": -content[1], "bottom": content[3], "left": -content[0], "right": content[2]}[side]
    sign = 1 if side in ("bottom", "right") else -1
    reached = -1e9
    for x0, y0, x1, y1 in ink:
        a, b, p, q = (x0, x1, y0, y1) if across else (y0, y1, x0, x1)
        if min(a, b) - 0.5 <= u <= max(a, b) + 0.5:
            if abs(b - a) < 1.0:
                values = (p, q)
            else:
                share = min(1.0, max(0.0, (u - a) / (b - a)))
                values = (p + (q - p) * share,) * 2
            reached = max(reached, *(sign * value for value in values))
    return reached - edge if reached > -1e9 else 0.0
