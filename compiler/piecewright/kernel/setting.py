"""Pieces laid in level rows and sewn together within a rectangle, which is cut out of them.

Set straight, the rectangle is level too and nothing of a piece lies beyond it. Set on point, the rows run at 45 degrees
to its edges, and what reaches beyond the raw edge is cut away. The pieces are known, and so are the seam lines between
them: each piece is shorn to what is seen of it, once for all places where it is seen alike, and equal rows are worked
out once. What comes out is what sewing them one by one gives (`chain`), but its cost follows the number of different
places and not of patches.
"""

from __future__ import annotations

from functools import partial

from piecewright.dataclass import dataclass
from piecewright.exact import Exact, Vector
from piecewright.kernel.cut import divided_seam
from piecewright.kernel.moves import moved
from piecewright.kernel.polygon import ZERO, area, clip, side
from piecewright.kernel.ring import Ring, clip_ring, corners_between
from piecewright.kernel.rope import Rope, farther_than
from piecewright.kernel.unit import Accounts, Corner, Offcut, Patch, Polygon, Pressed, Seam, Spot, Unit, roped, spots_of

EAST, NORTH = Vector(1, 0), Vector(0, 1)
_SLACK = 1e-6  # inches; far above the error of the floats


@dataclass(frozen=True, slots=True, kw_only=True)
class Laid:
    """A piece in its row, moved by `at`; `left` and `right` are how far along the row its seam lines lie, None at an
    end of the row."""

    unit: Unit
    at: Vector
    left: Exact | None
    right: Exact | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """Pieces side by side from left to right. `pressed`: the seams between them, seen upward."""

    pieces: tuple[Laid, ...]
    pressed: tuple[Pressed, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Course:
    """A row where it lies, moved by `at`, between two level seam lines, None at an edge. `above`: how the seam to the
    row above it is pressed, seen from left to right."""

    row: Row
    at: Vector
    bottom: Exact | None
    top: Exact | None
    above: Pressed = "open"


@dataclass(frozen=True, slots=True, kw_only=True)
class Frame:
    """The finished rectangle: its corners counter-clockwise from the start of its bottom edge, and the unit vectors
    along its edges."""

    corners: tuple[Vector, Vector, Vector, Vector]
    directions: tuple[Vector, Vector, Vector, Vector]
    allowance: Exact

    def raw(self) -> Polygon:
        """The same with the allowance all round."""
        s = self.allowance
        return tuple(
            corner + (self.directions[n - 1] - self.directions[n]) * s for n, corner in enumerate(self.corners)
        )


def level_frame(width: Exact, height: Exact, allowance: Exact) -> Frame:
    """A finished rectangle, its lower left corner at the origin, in inches."""
    return Frame(
        corners=(Vector(ZERO, ZERO), Vector(width, ZERO), Vector(width, height), Vector(ZERO, height)),
        directions=(EAST, NORTH, -EAST, -NORTH),
        allowance=allowance,
    )


def set_together(courses: tuple[Course, ...], frame: Frame) -> tuple[Unit, tuple[Unit, ...]]:
    """The work, and each row as it is before the rows are sewn; courses from the top down. Sewn edges go under by the
    allowance of the frame; what reaches beyond its raw edge is cut away."""
    shears = _Shears(frame)
    patches: Rope[Patch] = Rope()
    seams: Rope[Seam] = Rope()
    spots: Rope[Spot] = Rope()
    accounts: list[Accounts] = []
    cloth = ZERO
    for course in courses:
        shown = shears.row(course, course.bottom, course.top)
        patches, seams, spots = patches + shown.patches, seams + shown.seams, spots + shears.spots(course)
        accounts.append(shown.accounts)
        cloth = cloth + shown.cloth
    lines = [
        _cross(shears.raw, Vector(ZERO, course.top), EAST, course.above) for course in courses if course.top is not None
    ]
    inner: Ring = tuple((p, n) for n, p in enumerate(frame.corners))
    outer: Ring = tuple((p, n) for n, p in enumerate(shears.raw))
    shown = _Shown(patches, seams + Rope(tuple(lines)), tuple(accounts), cloth)
    whole = shown.unit(corners_between(inner, outer), frame.directions, frame.allowance, spots)
    return whole, tuple(shears.alone(course) for course in courses)


class _Shown:
    """What is seen of a row or a piece, and what is not."""

    __slots__ = ("accounts", "cloth", "patches", "seams")

    def __init__(self, patches: Rope[Patch], seams: Rope[Seam], accounts: Accounts, cloth: Exact) -> None:
        self.patches = patches
        self.seams = seams
        self.accounts = accounts
        self.cloth = cloth

    def unit(
        self,
        corners: tuple[Corner, ...],
        directions: tuple[Vector, ...],
        allowance: Exact,
        spots: Rope[Spot] | None = None,
    ) -> Unit:
        """It with an outline."""
        return roped(
            corners=corners,
            directions=directions,
            patches=self.patches,
            seams=self.seams,
            ledger=self.accounts,
            allowance=allowance,
            cloth=self.cloth,
            spots=spots,
        )

    def moved(self, by: Vector) -> _Shown:
        return _Shown(self.patches.carried(None, by), self.seams.carried(None, by), self.accounts, self.cloth)


class _Shears:
    """Shears rows and pieces to what is seen of them, alike ones once."""

    def __init__(self, frame: Frame) -> None:
        self._frame = frame
        self.raw = frame.raw()
        self._pieces: dict[tuple[int, Polygon], _Shown] = {}
        self._rows: dict[tuple[int, Polygon], _Shown] = {}
        self._alone: dict[tuple[int, Polygon], Unit] = {}
        self._spots: dict[tuple[int, Polygon], Rope[Spot]] = {}
        self._parts: dict[tuple[int, Polygon], Unit] = {}

    def _strip(self, course: Course, low: Exact | None, high: Exact | None) -> Polygon:
        """What of the work lies between two level lines, as it lies for the row itself."""
        return tuple(p - course.at for p in _between(self.raw, None, None, low, high))

    def row(self, course: Course, low: Exact | None, high: Exact | None) -> _Shown:
        """A row between two level lines, where it lies."""
        return self._row(course.row, self._strip(course, low, high)).moved(course.at)

    def _row(self, row: Row, strip: Polygon) -> _Shown:
        key = (id(row), strip)
        if key not in self._rows:
            patches: Rope[Patch] = Rope()
            seams: Rope[Seam] = Rope()
            accounts: list[Accounts] = []
            cloth = ZERO
            for piece in row.pieces:
                shown = self._piece(piece, _between(strip, piece.left, piece.right, None, None))
                patches, seams = patches + shown.patches, seams + shown.seams
                accounts.append(shown.accounts)
                cloth = cloth + shown.cloth
            new = [
                _cross(strip, Vector(piece.right, ZERO), NORTH, pressed)
                for piece, pressed in zip(row.pieces, row.pressed, strict=False)
                if piece.right is not None
            ]
            self._rows[key] = _Shown(patches, seams + Rope(tuple(new)), tuple(accounts), cloth)
        return self._rows[key]

    def _piece(self, piece: Laid, region: Polygon) -> _Shown:
        local = tuple(p - piece.at for p in region)
        key = (id(piece.unit), local)
        if key not in self._pieces:
            self._pieces[key] = _within(piece.unit, local)
        return self._pieces[key].moved(piece.at)

    def spots(self, course: Course) -> Rope[Spot]:
        """The pieces of a row where they lie; of those that are cut off by an edge, what is left of them."""
        strip = tuple(p - course.at for p in _between(self._frame.corners, None, None, course.bottom, course.top))
        key = (id(course.row), strip)
        if key not in self._spots:
            spots: Rope[Spot] = Rope()
            outer = self._strip(course, course.bottom, course.top)
            for piece in course.row.pieces:
                spots = spots + self._spot(piece, strip, outer)
            self._spots[key] = spots
        return self._spots[key].carried(None, course.at)

    def _spot(self, piece: Laid, strip: Polygon, outer: Polygon) -> Rope[Spot]:
        unit = piece.unit
        if all(_holds(strip, corner.finished + piece.at) for corner in unit.corners):
            return spots_of(unit).carried(None, piece.at)
        seen = tuple(p - piece.at for p in _between(strip, piece.left, piece.right, None, None))
        key = (id(unit), seen)
        if key not in self._parts:
            shown = self._piece(piece, _between(outer, piece.left, piece.right, None, None)).moved(-piece.at)
            directions = tuple((seen[(n + 1) % len(seen)] - p).unit() for n, p in enumerate(seen))
            self._parts[key] = shown.unit(_plain(seen), directions, unit.allowance)
        return Rope((Spot(unit=self._parts[key], turn=None, shift=piece.at),))

    def alone(self, course: Course) -> Unit:
        """A row with the allowances of its own long edges still on."""
        s = self._frame.allowance
        low = None if course.bottom is None else course.bottom - s
        high = None if course.top is None else course.top + s
        strip = self._strip(course, low, high)
        key = (id(course.row), strip)
        if key not in self._alone:
            shown = self._row(course.row, strip).moved(course.at)
            unit = shown.unit(*self._outline(course), s, self.spots(course))
            self._alone[key] = moved(unit, -course.at)
        return moved(self._alone[key], course.at)

    def _outline(self, course: Course) -> tuple[tuple[Corner, ...], tuple[Vector, ...]]:
        s = self._frame.allowance
        outer: Ring = tuple((p, n) for n, p in enumerate(self.raw))
        inner: Ring = tuple((p, n) for n, p in enumerate(self._frame.corners))
        directions = dict(enumerate(self._frame.directions))
        for number, seam, along in ((4, course.bottom, EAST), (5, course.top, -EAST)):
            if seam is not None:
                inner, _ = clip_ring(inner, Vector(ZERO, seam), along, number)
                outer, _ = clip_ring(outer, Vector(ZERO, seam) - along.left() * s, along, number)
                directions[number] = along
        return corners_between(inner, outer), tuple(directions[n] for _, n in inner)


def _between(
    region: Polygon, left: Exact | None, right: Exact | None, bottom: Exact | None, top: Exact | None
) -> Polygon:
    """A convex region between upright and level lines; None where there is no line."""
    if left is not None:
        region, _ = clip(region, Vector(left, ZERO), -NORTH)
    if right is not None:
        region, _ = clip(region, Vector(right, ZERO), NORTH)
    if bottom is not None:
        region, _ = clip(region, Vector(ZERO, bottom), EAST)
    if top is not None:
        region, _ = clip(region, Vector(ZERO, top), -EAST)
    return region


def _holds(region: Polygon, point: Vector) -> bool:
    """Whether a point lies in a convex region or on its edge."""
    return all(side(p, region[(n + 1) % len(region)] - p, point) >= 0 for n, p in enumerate(region))


def finished_picture(unit: Unit) -> Unit:
    """What is seen of a convex unit within its seam lines."""
    outline = tuple(corner.finished for corner in unit.corners)
    return _within(unit, outline).unit(_plain(outline), unit.directions, unit.allowance)


def _plain(outline: Polygon) -> tuple[Corner, ...]:
    """Corners without an allowance beyond them."""
    return tuple(Corner(finished=p, raw=(p,)) for p in outline)


def _within(unit: Unit, region: Polygon) -> _Shown:
    """What of a piece lies within a convex region, and an account of the rest."""
    patches, seams = unit.patch_rope, unit.seam_rope
    away: list[Accounts] = [unit.accounts]
    for n, point in enumerate(region):
        along = (region[(n + 1) % len(region)] - point).unit()
        kept = farther_than(point.floats, along.left().floats, _SLACK)
        taken: list[Offcut] = []

        patches = patches.mended(kept, partial(_shorn, point=point, along=along, taken=taken))
        seams = seams.mended(kept, partial(_left, point=point, along=along))
        away.append(tuple(taken))
    return _Shown(patches, seams, tuple(away), unit.cloth)


def _left(seam: Seam, point: Vector, along: Vector) -> Seam | None:
    return divided_seam(seam, point, along)[0]


def _shorn(patch: Patch, point: Vector, along: Vector, taken: list[Offcut]) -> Patch | None:
    """A patch left of a line, the same one where nothing of it lies right of it."""
    cells: list[Polygon] = []
    gone = ZERO
    for cell in patch.cells:
        rest, beyond = clip(cell, point, along)
        if rest:
            cells.append(rest)
        if beyond:
            gone = gone + area(beyond)
    if not gone:
        return patch
    if not any(disc.inside for disc in patch.discs):  # what a curve divides is counted once, as in `seen_area`
        taken.append(Offcut(kind="allowance", fabric=patch.fabric, area=gone))
    if not cells:
        return None
    return Patch(
        fabric=patch.fabric,
        cells=tuple(cells),
        grain=patch.grain,
        cut=patch.cut,
        discs=patch.discs,
        mirrored=patch.mirrored,
    )


def _cross(region: Polygon, point: Vector, along: Vector, pressed: Pressed) -> Seam:
    """The stretch of a line within a convex region, as a seam."""
    normal, level = along.left(), along.left().dot(point)
    found: list[Vector] = []
    for n, p in enumerate(region):
        q = region[(n + 1) % len(region)]
        here, there = p.dot(normal) - level, q.dot(normal) - level
        if not here:
            found.append(p)
        elif here.sign() * there.sign() < 0:
            found.append(p + (q - p) * (here / (here - there)))
    found.sort(key=lambda p: p.dot(along))
    return Seam(start=found[0], end=found[-1], direction=along, pressed=pressed)
