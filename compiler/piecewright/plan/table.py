"""What lies on the table in one panel: cloth put down, then marked, measured and pressed.

Points are floats in inches here: they are only drawn.
"""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise
from math import ceil, floor
from typing import Literal

from piecewright.exact import Vector
from piecewright.kernel.build import Settings
from piecewright.kernel.measure import finished_outline, raw_outline
from piecewright.kernel.polygon import area
from piecewright.kernel.unit import Seam, Spot, Unit
from piecewright.plan.arcs import rounded, uncovered
from piecewright.plan.model import (
    Arrow,
    Badge,
    Cloth,
    Dimension,
    Label,
    Lead,
    Mark,
    Panel,
    Placed,
    Point,
    Shape,
    Side,
    Stroke,
    StrokeRole,
)
from piecewright.plan.outlines import outlines
from piecewright.plan.rounding import cut_size, drawn_points, measured_size
from piecewright.plan.shapes import Look, edge_spots, placed, shape_of

PressRole = Literal["press", "press-open"]
HERE: Point = (0.0, 0.0)
TOOTH = 0.16  # inches: depth and half the pitch of the notches at a torn end


class Table:
    """Collects one panel. `line` is the source line of the step, for cloth that does not know its own."""

    def __init__(self, settings: Settings, line: int) -> None:
        self.settings = settings
        self.line = line
        self.cloth: list[Cloth] = []
        self.strokes: list[Stroke] = []
        self.arrows: list[Arrow] = []
        self.dimensions: list[Dimension] = []
        self.marks: list[Mark] = []
        self.badges: list[Badge] = []
        self.labels: list[Label] = []
        self.placed: list[Placed] = []

    def put(self, unit: Unit, shift: Point = HERE, *, endless: bool = False, trued: bool = False) -> None:
        """Lays a unit down with its raw edges, the allowance inside them and its seams. `endless`: its left
        and right ends are not those of the cloth, and are drawn torn off; the left one not if it is `trued`."""
        if endless:
            self._put_endless(unit, shift, trued)
            return
        if unit.spots is not None and unit.spots.count == 1:
            self._place(tuple(unit.spots), "raw", shift)
            return
        if unit.spots is not None:
            self._place(edge_spots(unit, tuple(unit.spots)), "cloth", shift)
        self.put_cloth(unit, shift)
        raw, finished = points(raw_outline(unit), shift), points(finished_outline(unit), shift)
        self.cloth.append(Cloth(outline=raw, fabric="", line=0, tint=True, holes=(finished,)))
        self.stroke(finished, "allowance", closed=True)
        self.stroke(raw, "raw", closed=True)

    def put_cloth(self, unit: Unit, shift: Point = HERE) -> None:
        """Only the patches and the seams between them; of a table what is seen of its pieces within seam lines."""
        if unit.spots is not None:
            self._place(tuple(unit.spots), "finished", shift)
            return
        covers: list[tuple[Point, ...]] = []
        arcs: list[tuple[Point, ...]] = []
        for patch in unit.patches:
            line = source_line(patch.cut, self.line)
            if patch.discs:
                for cell in rounded(patch, shift):
                    self.cloth.append(Cloth(outline=cell.outline, fabric=patch.fabric, line=line, holes=cell.holes))
                    arcs += cell.arcs
                    covers += [cell.outline] if cell.arcs else []
                continue
            rings = patch.cells
            holes: tuple[tuple[Point, ...], ...] = ()
            if len(rings) > 1:
                every = outlines(rings)
                rings = tuple(ring for ring in every if area(ring) > 0)
                holes = tuple(points(ring, shift) for ring in every if area(ring) < 0)
            for number, ring in enumerate(rings):
                outline = points(ring, shift)
                inner = () if number else holes
                self.cloth.append(Cloth(outline=outline, fabric=patch.fabric, line=line, holes=inner))
        for seam in unit.seams:
            # what was sewn before a curve went away with the corner
            start, end = points((seam.start, seam.end), shift)
            for ends in uncovered(start, end, tuple(covers)):
                self.stroke(ends, "seam" if seam.sewn else "stitch")
        for arc in arcs:
            self.stroke(arc, "seam")

    def _place(self, spots: tuple[Spot, ...], look: Look, shift: Point) -> None:
        for spot in spots:
            self.placed.append(placed(spot, shape_of(spot.unit, look, self.line, self._drawn), shift))

    def _drawn(self, unit: Unit, look: Look) -> Shape:
        table = Table(self.settings, self.line)
        if look == "raw":
            table.put(unit)
        else:
            table.put_cloth(unit)
        if look == "finished":
            table.stroke(points(finished_outline(unit)), "seam", closed=True)
        strokes = () if look == "cloth" else tuple(table.strokes)
        return Shape(cloth=tuple(table.cloth), strokes=strokes, under=look == "cloth")

    def _put_endless(self, unit: Unit, shift: Point, trued: bool) -> None:
        if any(one.cross(other) < 0 for one, other in pairwise((*unit.directions, unit.directions[0]))):
            self._put_stepped(unit, shift)
            return
        left, right = torn_ends(unit)
        ends = (left - 1.0 if trued else left, right)
        first = len(self.cloth)
        self.put_cloth(unit, shift)
        for number in range(first, len(self.cloth)):
            c = self.cloth[number]
            self.cloth[number] = replace(c, outline=torn(c.outline, ends, shift))
        xs, ys = zip(*points(raw_outline(unit), shift), strict=True)
        left, right, low, high = min(xs), max(xs), min(ys), max(ys)
        s = float(unit.allowance)
        for raw, seam in ((low, low + s), (high, high - s)):
            band = ((left, raw), (right, raw), (right, seam), (left, seam))
            band = band if raw < seam else band[::-1]
            self.cloth.append(Cloth(outline=torn(band, ends, shift), fabric="", line=0, tint=True))
            self.stroke(((left + TOOTH, seam), (right - TOOTH, seam)), "allowance")
            self.stroke(((left, raw), (right, raw)), "raw")
        if trued:
            self.stroke(((left, low), (left, high)), "raw")

    def _put_stepped(self, unit: Unit, shift: Point) -> None:
        """Strips without ends that begin a step beside each other: each torn off at its own ends."""
        first = len(self.cloth)
        self.put_cloth(unit, shift)
        for number in range(first, len(self.cloth)):
            c = self.cloth[number]
            xs = [x for x, _ in c.outline]
            self.cloth[number] = replace(c, outline=torn(c.outline, (min(xs), max(xs)), HERE))
        s = float(unit.allowance)
        for edge, along in enumerate(unit.directions):
            if along.y:
                continue
            ends = points((unit.corners[edge].raw[-1], unit.corners[(edge + 1) % len(unit.corners)].raw[0]), shift)
            (x0, y), (x1, _) = ends
            inner = y + s if along.x > 0 else y - s
            self.cloth.append(
                Cloth(outline=((x0, y), (x1, y), (x1, inner), (x0, inner)), fabric="", line=0, tint=True)
            )
            low, high = sorted((x0, x1))
            self.stroke(((low + TOOTH, inner), (high - TOOTH, inner)), "allowance")
            self.stroke(ends, "raw")

    def stroke(self, line: tuple[Point, ...], role: StrokeRole, *, closed: bool = False) -> None:
        self.strokes.append(Stroke(points=line, role=role, closed=closed))

    def press(self, seam: Seam, at: Point | None = None, shift: Point = HERE) -> None:
        """An arrow across a seam, at its middle or at a point on it."""
        (x0, y0), (x1, y1) = seam.start.floats, seam.end.floats
        x, y = at or ((x0 + x1) / 2, (y0 + y1) / 2)
        dx, dy = seam.direction.floats
        half = -0.25 if seam.pressed == "right" else 0.25
        start, end = (x + dy * half, y - dx * half), (x - dy * half, y + dx * half)
        role: PressRole = "press-open" if seam.pressed == "open" else "press"
        self.arrows.append(Arrow(start=moved(start, shift), end=moved(end, shift), role=role))

    def measure(self, unit: Unit, sides: tuple[Side, Side], shift: Point = HERE, *, row: int = 0) -> None:
        """The whole size across and down, raw edges included, on a side each; as cut for a plain piece."""
        size = cut_size if is_plain(unit) else measured_size
        outline = raw_outline(unit)
        for axis, side in zip((0, 1), sides, strict=True):
            low, high = extremes(outline, axis, side)
            exact = (high.x - low.x) if axis == 0 else (high.y - low.y)
            self.dimension(low.floats, high.floats, side, size(exact, self.settings).shown, shift, row)

    def dimension(self, start: Point, end: Point, side: Side, text: str, shift: Point = HERE, row: int = 0) -> None:
        self.dimensions.append(
            Dimension(start=moved(start, shift), end=moved(end, shift), side=side, row=row, text=text)
        )

    def panel(
        self, *, words: str = "", lead: Lead = "then", lead_words: str = "", clip: tuple[Point, ...] = ()
    ) -> Panel:
        return Panel(
            cloth=tuple(self.cloth),
            strokes=tuple(self.strokes),
            arrows=tuple(self.arrows),
            dimensions=tuple(self.dimensions),
            words=words,
            marks=tuple(self.marks),
            badges=tuple(self.badges),
            labels=tuple(self.labels),
            placed=tuple(self.placed),
            clip=clip,
            lead=lead,
            lead_words=lead_words,
        )


def torn_ends(unit: Unit) -> tuple[float, float]:
    """Where the left and right ends of a drawn strip lie."""
    xs = [p.floats[0] for p in raw_outline(unit)]
    return min(xs), max(xs)


def torn(outline: tuple[Point, ...], ends: tuple[float, float], shift: Point) -> tuple[Point, ...]:
    """An outline whose upright sides at the ends are notched. The notches follow the height above the
    table's edge, so that those of strips that lie together run on."""
    left, right = ends[0] + shift[0], ends[1] + shift[0]
    result: list[Point] = []
    for i, (x0, y0) in enumerate(outline):
        x1, y1 = outline[(i + 1) % len(outline)]
        result.append((x0, y0))
        if abs(x0 - x1) > 1e-9 or min(abs(x0 - left), abs(x0 - right)) > 1e-9:
            continue
        inward = 1 if abs(x0 - left) < 1e-9 else -1
        low, high = sorted((y0, y1))
        notches = [n for n in range(floor(low / TOOTH), ceil(high / TOOTH) + 1) if low + 1e-9 < n * TOOTH < high - 1e-9]
        teeth = [(x0 + inward * TOOTH * (n % 2), n * TOOTH) for n in notches]
        result += teeth if y0 < y1 else teeth[::-1]
    return tuple(result)


def points(vectors: tuple[Vector, ...], shift: Point = HERE) -> tuple[Point, ...]:
    return drawn_points(vectors, shift)


def moved(point: Point, by: Point) -> Point:
    return point[0] + by[0], point[1] + by[1]


def source_line(cut: str, line: int) -> int:
    """The source line of a cut piece that ends with it (`square:12`), else the given one."""
    written = cut.rpartition(":")[2]
    return int(written) if written.isdecimal() else line


def is_plain(unit: Unit) -> bool:
    """True for a piece as it was cut from cloth."""
    return unit.patch_rope.count == 1 and not unit.seam_rope.count and not unit.accounts


def is_upright_rectangle(unit: Unit) -> bool:
    """True for a rectangle whose sides run across and down, marks on them or not."""
    turns = [one.cross(other) for one, other in pairwise((*unit.directions, unit.directions[0]))]
    return all(not d.x or not d.y for d in unit.directions) and all(turn >= 0 for turn in turns)


def extent(unit: Unit) -> float:
    """The larger of width and height in inches, for the spaces between things."""
    xs, ys = zip(*(p.floats for p in raw_outline(unit)), strict=True)
    return float(max(max(xs) - min(xs), max(ys) - min(ys)))


def extremes(outline: tuple[Vector, ...], axis: int, side: Side) -> tuple[Vector, Vector]:
    """The outermost points along an axis (0 across, 1 up); of equal ones those nearest to `side`."""
    sign = 1 if side in ("top", "right") else -1

    def key(p: Vector) -> tuple[float, float]:
        x, y = p.floats
        return (x, -sign * y) if axis == 0 else (y, -sign * x)

    low = min(outline, key=key)
    high = max(outline, key=lambda p: (key(p)[0], -key(p)[1]))
    return low, high
