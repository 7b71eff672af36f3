"""The scene of a curved seam, and the templates both its pieces are cut by."""

from __future__ import annotations

from math import asin, cos, degrees, radians, sin

from piecewright.dataclass import dataclass
from piecewright.exact import Exact
from piecewright.kernel.action import Curve
from piecewright.kernel.build import Settings
from piecewright.kernel.curve import quarter_circle
from piecewright.plan.arcs import arc, leaving_angle
from piecewright.plan.model import Arrow, Cloth, Mark, Panel, Point, Side, Stroke
from piecewright.plan.rounding import cut_size
from piecewright.plan.table import Table

SHORT = 1.5  # inches: along a tighter curve a figure has room for one notch only
BAND = 0.75  # inches of the hollow's template beyond the seam
NOTCHES = ((22.5, 1), (45.0, 2), (67.5, 1))  # degrees from one edge, and how many ticks


@dataclass(frozen=True, slots=True, kw_only=True)
class Corner:
    """A square corner in floats: the finished centre, the angle at which its first edge leaves it, in degrees, the
    seam's radius and the allowance in inches."""

    centre: Point
    turn: float
    radius: float
    seam: float

    def at(self, along: float, across: float) -> Point:
        """A point by its distances along the first edge and along the second."""
        c, s = cos(radians(self.turn)), sin(radians(self.turn))
        return self.centre[0] + along * c - across * s, self.centre[1] + along * s + across * c

    def raw_arc(self, radius: float) -> tuple[Point, ...]:
        """An arc about the centre from one raw edge to the other."""
        beyond = degrees(asin(self.seam / radius))
        return arc(self.centre, radius, self.turn - beyond, self.turn + 90 + beyond)

    def piece(self) -> tuple[Point, ...]:
        """The raw outline of the quarter circle."""
        return (self.at(-self.seam, -self.seam), *self.raw_arc(self.radius + self.seam))

    def finished(self) -> tuple[Point, ...]:
        return (self.centre, *arc(self.centre, self.radius, self.turn, self.turn + 90))

    def hollow(self) -> tuple[Point, ...]:
        """The cloth that is cut away from the work."""
        return (self.at(-self.seam, -self.seam), *self.raw_arc(self.radius - self.seam))

    def notches(self, radius: float, *, every: bool) -> list[Mark]:
        marks = []
        for angle, count in NOTCHES:
            if every or count > 1:
                turn = radians(self.turn + angle)
                at = self.centre[0] + radius * cos(turn), self.centre[1] + radius * sin(turn)
                marks.append(Mark(at=at, along=(-sin(turn), cos(turn)), count=count))
        return marks


def curve_panels(curves: tuple[Curve, ...], settings: Settings, line: int, words: str) -> tuple[Panel, ...]:
    """The work with what is cut away, the quarter circle apart, and the result with the pressing."""
    before = Table(settings, line)
    before.put(curves[0].before)
    corners = [_corner(curve) for curve in curves]
    for corner in corners:
        hollow, every = corner.hollow(), corner.radius >= SHORT
        before.cloth.append(Cloth(outline=hollow, fabric="", line=0, fallen=True))
        before.stroke(corner.raw_arc(corner.radius), "allowance")
        before.stroke(hollow[1:], "raw")
        before.marks += corner.notches(corner.radius - corner.seam, every=every)
    apart = Table(settings, line)
    _put_piece(apart, curves[0], corners[0], settings)
    result = curves[-1].result
    after = Table(settings, line)
    after.put(result)
    for curve, corner in zip(curves, corners, strict=True):
        after.arrows.append(_pressing(curve, corner))
    after.measure(result, ("bottom", "left"))
    count = len(curves)
    told = "corner cut away" if count == 1 else f"{count} corners cut away"
    piece = "quarter circle" if count == 1 else f"{count} quarter circles"
    return before.panel(words=told), apart.panel(words=piece, lead="and"), after.panel(words=words)


def _corner(curve: Curve) -> Corner:
    unit = curve.before
    return Corner(
        centre=unit.corners[curve.corner].finished.floats,
        turn=leaving_angle(unit.directions[curve.corner].floats),
        radius=float(curve.radius),
        seam=float(unit.allowance),
    )


def _put_piece(table: Table, curve: Curve, corner: Corner, settings: Settings) -> None:
    outline, finished = corner.piece(), corner.finished()
    table.cloth.append(Cloth(outline=outline, fabric=curve.fabric, line=table.line))
    table.cloth.append(Cloth(outline=outline, fabric="", line=0, tint=True, holes=(finished,)))
    table.stroke(finished, "allowance", closed=True)
    table.stroke(outline, "raw", closed=True)
    table.marks += corner.notches(corner.radius + corner.seam, every=corner.radius >= SHORT)
    straight = cut_size(quarter_circle(curve.radius, curve.before.allowance).straight, settings).shown
    side: Side = "bottom" if curve.place.startswith("bottom") else "top"
    ends = sorted(p for p in (outline[0], outline[1], outline[-1]) if abs(p[1] - outline[0][1]) < 1e-6)
    table.dimension(ends[0], ends[-1], side, straight)


def _pressing(curve: Curve, corner: Corner) -> Arrow:
    """Across the middle of the curve."""
    turn = radians(corner.turn + 45)
    way = -0.25 if curve.pressed == "right" else 0.25
    ends = [
        (corner.centre[0] + (corner.radius + by) * cos(turn), corner.centre[1] + (corner.radius + by) * sin(turn))
        for by in (-way, way)
    ]
    return Arrow(start=ends[0], end=ends[1], role="press-open" if curve.pressed == "open" else "press")


# ── templates ───────────────────────────────────────────────────────────────────────────────────


def quarter_circle_panel(radius: Exact, seam: Exact) -> Panel:
    """The piece within the curve: what is cut solid, the seam dashed, the grain along its lower edge."""
    corner = _template_corner(radius, seam)
    return Panel(
        cloth=(),
        strokes=(
            Stroke(points=corner.finished(), role="allowance", closed=True),
            Stroke(points=corner.piece(), role="raw", closed=True),
        ),
        arrows=(_grain(corner, corner.radius * 0.2, corner.radius * 0.12, corner.radius * 0.6),),
        dimensions=(),
        marks=tuple(corner.notches(corner.radius + corner.seam, every=True)),
    )


def hollow_panel(radius: Exact, seam: Exact) -> Panel:
    """A band to lay on the corner of the ground, its two straight edges on the raw ones: it is cut along the hollow
    and the seam is dashed in it. Where the band ends beyond the seam says nothing about the ground."""
    corner = _template_corner(radius, seam)
    inner, outer = corner.raw_arc(corner.radius - corner.seam), corner.raw_arc(corner.radius + BAND)
    return Panel(
        cloth=(),
        strokes=(
            Stroke(points=corner.raw_arc(corner.radius), role="allowance"),
            Stroke(points=outer, role="guide"),
            Stroke(points=inner, role="raw"),
            Stroke(points=(inner[0], outer[0]), role="raw"),
            Stroke(points=(inner[-1], outer[-1]), role="raw"),
        ),
        arrows=(_grain(corner, corner.radius + BAND * 0.15, BAND * 0.4, BAND * 0.7),),
        dimensions=(),
        marks=tuple(corner.notches(corner.radius - corner.seam, every=True)),
    )


def _template_corner(radius: Exact, seam: Exact) -> Corner:
    return Corner(centre=(0.0, 0.0), turn=0.0, radius=float(radius), seam=float(seam))


def _grain(corner: Corner, along: float, across: float, length: float) -> Arrow:
    return Arrow(start=corner.at(along, across), end=corner.at(along + length, across), role="grain")
