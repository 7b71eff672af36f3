"""The scene of a curved seam, and the templates both its pieces are cut by."""

from __future__ import annotations

from math import acos, asin, cos, degrees, radians, sin, sqrt

from piecewright.dataclass import dataclass
from piecewright.exact import Exact
from piecewright.kernel.action import Curve
from piecewright.kernel.build import Settings
from piecewright.kernel.curve import MELON, Bend, melon_arc, melon_box, quarter_circle
from piecewright.plan.arcs import arc, leaving_angle
from piecewright.plan.model import Arrow, Cloth, Mark, Panel, Point, Stroke
from piecewright.plan.model import Side as EdgeSide
from piecewright.plan.rounding import cut_size
from piecewright.plan.table import Table

SHORT = 1.5  # inches: along a tighter curve a figure has room for one notch only
BAND = 0.75  # inches of the hollow's template beyond the seam
_UPRIGHT: dict[str, EdgeSide] = {"left": "left", "right": "right", "top": "top", "bottom": "bottom"}
NOTCHES = ((22.5, 1), (45.0, 2), (67.5, 1))  # degrees from one edge, and how many ticks


@dataclass(frozen=True, slots=True, kw_only=True)
class Bow:
    """A curved seam in floats: its centre, the angle of the raw edge that `at` measures along, in degrees, its radius
    and the allowance in inches. As it stands, that of a quarter circle in a square corner, whose finished point is the
    centre."""

    centre: Point
    lean: float
    radius: float
    seam: float

    def at(self, along: float, across: float) -> Point:
        """A point by its distances from the centre along the edge and square to it, into the work."""
        c, s = cos(radians(self.lean)), sin(radians(self.lean))
        return self.centre[0] + along * c - across * s, self.centre[1] + along * s + across * c

    @property
    def turn(self) -> float:
        """Where the seam begins, in degrees; it runs a quarter on."""
        return self.lean

    def raw_arc(self, radius: float) -> tuple[Point, ...]:
        """An arc about the centre from raw edge to raw edge."""
        beyond = degrees(asin(self.seam / radius))
        return arc(self.centre, radius, self.turn - beyond, self.turn + 90 + beyond)

    def arc(self) -> tuple[Point, ...]:
        """The seam from finished edge to finished edge."""
        return arc(self.centre, self.radius, self.turn, self.turn + 90)

    def raw_edge(self) -> tuple[Point, ...]:
        """The raw outline of the piece up to its arc, beginning with a straight edge."""
        return (self.at(-self.seam, -self.seam),)

    def piece(self) -> tuple[Point, ...]:
        """The raw outline of the round piece."""
        return (*self.raw_edge(), *self.raw_arc(self.radius + self.seam))

    def finished(self) -> tuple[Point, ...]:
        return (self.centre, *self.arc())

    def hollow(self) -> tuple[Point, ...]:
        """The cloth that is cut away from the work."""
        return (self.at(-self.seam, -self.seam), *self.raw_arc(self.radius - self.seam))

    def band(self) -> tuple[tuple[Point, ...], ...]:
        """The template of the hollow but for the hollow: its straight edges, and last where it ends."""
        inner, outer = self.raw_arc(self.radius - self.seam), self.raw_arc(self.radius + BAND)
        return (inner[0], outer[0]), (inner[-1], outer[-1]), outer

    def grain(self, *, hollow: bool) -> Arrow:
        """Along the edge, within the piece or the template of its hollow."""
        if hollow:
            return self._grain(self.radius + BAND * 0.15, BAND * 0.4, BAND * 0.7)
        return self._grain(self.radius * 0.2, self.radius * 0.12, self.radius * 0.6)

    def _grain(self, along: float, across: float, length: float) -> Arrow:
        return Arrow(start=self.at(along, across), end=self.at(along + length, across), role="grain")

    def notches(self, radius: float, *, every: bool) -> list[Mark]:
        marks = []
        for angle, count in NOTCHES:
            if every or count > 1:
                turn = radians(self.turn + angle)
                at = self.centre[0] + radius * cos(turn), self.centre[1] + radius * sin(turn)
                marks.append(Mark(at=at, along=(-sin(turn), cos(turn)), count=count))
        return marks


class Side(Bow):
    """The seam of a half melon: `lean` is the angle of the side, whose middle is half of it before the centre."""

    __slots__ = ()

    @property
    def turn(self) -> float:
        return self.lean + 45

    @property
    def half(self) -> float:
        """Half of the finished side; as far outside it lies the centre."""
        return self.radius * sqrt(0.5)

    def raw_arc(self, radius: float) -> tuple[Point, ...]:
        """As far as the raw side, or the raw edges at its ends where the arc meets those first."""
        side, end = (self.half - self.seam) / radius, (self.half + self.seam) / radius
        first = max(degrees(asin(side)), degrees(acos(end)) if end < 1 else 0.0)
        return arc(self.centre, radius, self.lean + first, self.lean + 180 - first)

    def raw_edge(self) -> tuple[Point, ...]:
        reach, low = self.half + self.seam, self.half - self.seam
        return self.at(-reach, low), self.at(reach, low)

    def finished(self) -> tuple[Point, ...]:
        return self.arc()

    def hollow(self) -> tuple[Point, ...]:
        return self.raw_arc(self.radius - self.seam)

    def band(self) -> tuple[tuple[Point, ...], ...]:
        inner = self.raw_arc(self.radius - self.seam)
        left, right = self.raw_edge()
        reach, top = self.half + self.seam, self.radius + BAND
        high_left, high_right = self.at(-reach, top), self.at(reach, top)
        return (high_left, left, inner[-1]), (inner[0], right, high_right), (high_right, high_left)

    def grain(self, *, hollow: bool) -> Arrow:
        across = self.radius + BAND * 0.5 if hollow else self.half + (self.radius - self.half) * 0.2
        return self._grain(-self.half * 0.5, across, self.half)


def curve_panels(curves: tuple[Curve, ...], settings: Settings, line: int, words: str) -> tuple[Panel, ...]:
    """The work with what is cut away, the round pieces apart, one of each size, and the result with the pressing."""
    before = Table(settings, line)
    before.put(curves[0].before)
    bows = [_bow(curve) for curve in curves]
    for bow in bows:
        hollow, every = bow.hollow(), bow.radius >= SHORT
        before.cloth.append(Cloth(outline=hollow, fabric="", line=0, fallen=True))
        before.stroke(bow.raw_arc(bow.radius), "allowance")
        before.stroke(bow.raw_arc(bow.radius - bow.seam), "raw")
        before.marks += bow.notches(bow.radius - bow.seam, every=every)
    apart: list[Panel] = []
    for bend in dict.fromkeys(curve.bend for curve in curves):
        alike = [curve for curve in curves if curve.bend == bend]
        one = Table(settings, line)
        _put_piece(one, alike[0], bows[curves.index(alike[0])], settings)
        told = alike[0].shape if len(alike) == 1 else f"{len(alike)} {alike[0].shape}s"
        apart.append(one.panel(words=told, lead="and"))
    result = curves[-1].result
    after = Table(settings, line)
    after.put(result)
    for curve, bow in zip(curves, bows, strict=True):
        after.arrows.append(_pressing(curve, bow))
    after.measure(result, ("bottom", "left"))
    count, shape = len(curves), curves[0].shape
    what = "hollow" if shape == MELON else "corner"
    told = f"{what} cut away" if count == 1 else f"{count} {what}s cut away"
    return before.panel(words=told), *apart, after.panel(words=words)


def _bow(curve: Curve) -> Bow:
    unit = curve.before
    lean = leaving_angle(unit.directions[curve.at].floats)
    radius, seam = float(curve.radius), float(unit.allowance)
    if curve.shape == MELON:
        return Side(centre=melon_arc(unit, curve.at)[0].floats, lean=lean, radius=radius, seam=seam)
    return Bow(centre=unit.corners[curve.at].finished.floats, lean=lean, radius=radius, seam=seam)


def _put_piece(table: Table, curve: Curve, bow: Bow, settings: Settings) -> None:
    outline, finished = bow.piece(), bow.finished()
    table.cloth.append(Cloth(outline=outline, fabric=curve.fabric, line=table.line))
    table.cloth.append(Cloth(outline=outline, fabric="", line=0, tint=True, holes=(finished,)))
    table.stroke(finished, "allowance", closed=True)
    table.stroke(outline, "raw", closed=True)
    table.marks += bow.notches(bow.radius + bow.seam, every=bow.radius >= SHORT)
    if curve.shape == MELON:
        if curve.place in _UPRIGHT:
            along, _ = melon_box(curve.radius, curve.before.allowance)
            start, end = sorted(outline[:2])
            table.dimension(start, end, _UPRIGHT[curve.place], cut_size(along, settings).shown)
        return
    straight = cut_size(quarter_circle(curve.radius, curve.before.allowance).straight, settings).shown
    side: EdgeSide = "bottom" if curve.place.startswith("bottom") else "top"
    ends = sorted(p for p in (outline[0], outline[1], outline[-1]) if abs(p[1] - outline[0][1]) < 1e-6)
    table.dimension(ends[0], ends[-1], side, straight)


def _pressing(curve: Curve, bow: Bow) -> Arrow:
    """Across the middle of the curve."""
    turn = radians(bow.turn + 45)
    way = -0.25 if curve.pressed == "right" else 0.25
    ends = [
        (bow.centre[0] + (bow.radius + by) * cos(turn), bow.centre[1] + (bow.radius + by) * sin(turn))
        for by in (-way, way)
    ]
    return Arrow(start=ends[0], end=ends[1], role="press-open" if curve.pressed == "open" else "press")


# ── templates ───────────────────────────────────────────────────────────────────────────────────


def piece_panel(bend: Bend, seam: Exact) -> Panel:
    """The piece within the curve: what is cut solid, the seam dashed, the grain along its lower edge."""
    bow = _template_bow(bend, seam)
    return Panel(
        cloth=(),
        strokes=(
            Stroke(points=bow.finished(), role="allowance", closed=True),
            Stroke(points=bow.piece(), role="raw", closed=True),
        ),
        arrows=(bow.grain(hollow=False),),
        dimensions=(),
        marks=tuple(bow.notches(bow.radius + bow.seam, every=True)),
    )


def hollow_panel(bend: Bend, seam: Exact) -> Panel:
    """What is laid on the ground, its straight edges on the raw ones: it is cut along the hollow and the seam is dashed
    in it. Where the template ends beyond the seam says nothing about the ground."""
    bow = _template_bow(bend, seam)
    *straight, end = bow.band()
    return Panel(
        cloth=(),
        strokes=(
            Stroke(points=bow.raw_arc(bow.radius), role="allowance"),
            Stroke(points=end, role="guide"),
            Stroke(points=bow.raw_arc(bow.radius - bow.seam), role="raw"),
            *(Stroke(points=points, role="raw") for points in straight),
        ),
        arrows=(bow.grain(hollow=True),),
        dimensions=(),
        marks=tuple(bow.notches(bow.radius - bow.seam, every=True)),
    )


def _template_bow(bend: Bend, seam: Exact) -> Bow:
    kind = Side if bend.shape == MELON else Bow
    return kind(centre=(0.0, 0.0), lean=0.0, radius=float(bend.radius), seam=float(seam))
