"""Cutting the work to a rectangle along a ruler that is laid on it.

The ruler lies straight, unless its diagonal is laid on a seam: then it turns with the seam. Each
alignment fixes the ruler along one direction; what none fixes is centred: on the midpoint of the seam
under the diagonal, or on the box round the work.
"""

from __future__ import annotations

from dataclasses import replace

from piecewright.dataclass import dataclass
from piecewright.exact import Exact, OutsideNumbers, Vector
from piecewright.kernel.action import Line, Ruler
from piecewright.kernel.cut import divided, divided_seam
from piecewright.kernel.errors import SewingError
from piecewright.kernel.measure import bounds, bounds_of, raw_outline, seen_area
from piecewright.kernel.moves import moved, rotated
from piecewright.kernel.polygon import HALF, ZERO
from piecewright.kernel.seams import Run, crossings, runs
from piecewright.kernel.unit import Corner, Offcut, Seam, Unit

EAST = Vector(1, 0)
_OUTWARD = {"left": Vector(-1, 0), "right": Vector(1, 0), "bottom": Vector(0, -1), "top": Vector(0, 1)}


@dataclass(frozen=True, slots=True, kw_only=True)
class SeamOnDiagonal:
    """The ruler's diagonal, through its finished corners, lies on a seam. `rising`: from bottom left to top right."""

    rising: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class SeamFrom:
    """The seam nearest a side of the ruler, and parallel to it, lies `distance` inside that side."""

    distance: Exact
    side: str


@dataclass(frozen=True, slots=True, kw_only=True)
class PointFrom:
    """The crossing of seams nearest a side of the work lies `distance` inside that side of the ruler."""

    distance: Exact
    side: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Centred:
    """The ruler's centre lies on the middle of the box round the work."""


def outside_points(unit: Unit, distance: Exact) -> tuple[Exact, Exact, tuple[PointFrom, ...]]:
    """Width, height and alignments of a ruler that leaves `distance` beyond the outermost crossings of seams on every
    side. SewingError `no-such-point` where no seams cross."""
    spots = crossings(unit)
    if not spots:
        raise SewingError("no-such-point", place="bottom")
    left, bottom, right, top = bounds_of(tuple(spots))
    sides = tuple(PointFrom(distance=distance, side=side) for side in ("left", "right", "top", "bottom"))
    return right - left + distance * 2, top - bottom + distance * 2, sides


Alignment = SeamOnDiagonal | SeamFrom | PointFrom | Centred


@dataclass(frozen=True, slots=True, kw_only=True)
class Trimmed:
    """`off`: what comes off left, right, top and bottom, at most, measured square to the ruler."""

    unit: Unit
    ruler: Ruler
    off: tuple[Exact, Exact, Exact, Exact]


def trim(unit: Unit, width: Exact, height: Exact, alignments: tuple[Alignment, ...] = ()) -> Trimmed:
    """The work cut to `width` by `height`, lying straight with its lower left corner at the origin.

    SewingError: `size-not-positive`, `too-small`, `trim-too-large` (short: missing left, right, top, bottom, each
    zero or more; gap True where the box is large enough but the outline is not), `seam-angle` (degrees),
    `no-such-seam`, `two-such-seams`, `alignments-disagree` (index, difference).
    """
    if width <= 0 or height <= 0:
        raise SewingError("size-not-positive", width=width, height=height)
    twice = unit.allowance * 2
    if width <= twice or height <= twice:
        raise SewingError("too-small", width=width, height=height)
    diagonal = next((a for a in alignments if isinstance(a, SeamOnDiagonal)), None)
    seam: Run | None = None
    turn = EAST
    if diagonal is not None:
        seam, turn = _diagonal_seam(unit, width, height, diagonal.rising)
    # everything from here in the ruler's own frame
    straight = rotated(unit, turn.conjugate()) if turn != EAST else unit
    if seam is not None and turn != EAST:
        seam = replace(
            seam,
            start=seam.start.turned(turn.conjugate()),
            end=seam.end.turned(turn.conjugate()),
            direction=seam.direction.turned(turn.conjugate()),
        )
    centre, laid = _centre(straight, width, height, alignments, seam)
    half = Vector(width * HALF, height * HALF)
    low = centre - half
    corners = (
        low,
        Vector(low.x + width, low.y),
        low + half + half,
        Vector(low.x, low.y + height),
    )
    off = _off(straight, low, width, height)
    result = _cut_out(straight, corners, width, height, off)
    back = turn
    return Trimmed(
        unit=result,
        ruler=Ruler(
            corners=(
                corners[0].turned(back),
                corners[1].turned(back),
                corners[2].turned(back),
                corners[3].turned(back),
            ),
            alignments=tuple(
                (word, (line[0].turned(back), line[1].turned(back)), distance) for word, line, distance in laid
            ),
        ),
        off=off,
    )


def _diagonal_seam(unit: Unit, width: Exact, height: Exact, rising: bool) -> tuple[Run, Vector]:
    """The seam to lay the diagonal on, and how the ruler turns with it: the longest that slopes that way
    within an eighth of a turn; the nearer to the middle of equally long ones."""
    twice = unit.allowance * 2
    across, down = width - twice, height - twice
    try:
        wanted = Vector(across, down if rising else -down).unit()
    except OutsideNumbers:
        raise SewingError("direction-outside", width=width, height=height) from None
    candidates: list[tuple[Run, Vector]] = []
    for run in runs(unit):
        along = run.direction if run.direction.dot(wanted) > 0 else -run.direction
        turn = along.turned(wanted.conjugate())
        if turn.x > abs(turn.y):
            candidates.append((run, turn))
    straight = [c for c in candidates if c[1] == EAST]
    if width == height and not straight and candidates:
        run, turn = max(candidates, key=lambda c: float((c[0].end - c[0].start).squared()))
        raise SewingError("seam-angle", direction=run.direction, turn=turn)
    chosen = straight or candidates
    if not chosen:
        raise SewingError("no-such-seam", place="rising-diagonal" if rising else "diagonal")
    longest = max(run.length for run, _ in chosen)
    longest_ones = [c for c in chosen if c[0].length == longest]
    if len(longest_ones) > 1:
        left, bottom, right, top = bounds(unit)
        middle = Vector((left + right) * HALF, (bottom + top) * HALF)
        distances = [abs(run.direction.cross(middle - run.start)) for run, _ in longest_ones]
        nearest = min(distances)
        longest_ones = [c for c, d in zip(longest_ones, distances, strict=True) if d == nearest]
        if len(longest_ones) > 1:
            raise SewingError("two-such-seams", place="rising-diagonal" if rising else "diagonal")
    return longest_ones[0]


Laid = tuple[str, Line, Exact | None]


def _centre(
    unit: Unit, width: Exact, height: Exact, alignments: tuple[Alignment, ...], seam: Run | None
) -> tuple[Vector, tuple[Laid, ...]]:
    """The ruler's centre: each alignment is an equation normal·centre = value."""
    left, bottom, right, top = bounds(unit)
    box_middle = Vector((left + right) * HALF, (bottom + top) * HALF)
    equations: list[tuple[Vector, Exact]] = []
    laid: list[Laid] = []
    for index, alignment in enumerate(alignments):
        new: list[tuple[Vector, Exact]] = []
        if isinstance(alignment, SeamOnDiagonal):
            assert seam is not None
            normal = seam.direction.left()
            new.append((normal, normal.dot(seam.start)))
            laid.append(("seam", (seam.start, seam.end), None))
        elif isinstance(alignment, Centred):
            new.append((EAST, box_middle.x))
            new.append((EAST.left(), box_middle.y))
            laid.append(("centre", (box_middle, box_middle), None))
        else:
            outward = _OUTWARD[alignment.side]
            spot, line = _measured(unit, alignment)
            half = (width if outward.x else height) * HALF
            # spot·outward + distance = the ruler's side = centre·outward + half
            axis = EAST if outward.x else EAST.left()
            sign = outward.x + outward.y
            value = spot.dot(outward) + alignment.distance - half
            new.append((axis, value * sign))
            word = "seam" if isinstance(alignment, SeamFrom) else "point"
            laid.append((word, line, alignment.distance))
        for normal, value in new:
            _add(equations, normal, value, index)
    return _solve(equations, box_middle, seam), tuple(laid)


def _add(equations: list[tuple[Vector, Exact]], normal: Vector, value: Exact, index: int) -> None:
    """Takes an equation in, or finds that the earlier ones already decide it, rightly or wrongly."""
    if not equations:
        equations.append((normal, value))
        return
    first, first_value = equations[0]
    cross = first.cross(normal)
    if len(equations) == 1:
        if cross:
            equations.append((normal, value))
            return
        expected = first_value  # both are measured along one axis
    else:
        centre = _crossing(equations)
        expected = normal.dot(centre)
    if expected != value:
        raise SewingError("alignments-disagree", index=index, difference=abs(expected - value))


def _crossing(equations: list[tuple[Vector, Exact]]) -> Vector:
    (n, a), (m, b) = equations
    det = n.cross(m)
    return Vector((a * m.y - b * n.y) / det, (b * n.x - a * m.x) / det)


def _solve(equations: list[tuple[Vector, Exact]], middle: Vector, seam: Run | None) -> Vector:
    if len(equations) == 2:
        return _crossing(equations)
    if len(equations) == 1:
        normal, value = equations[0]
        near = middle if seam is None else (seam.start + seam.end) * HALF
        return near + normal * (value - normal.dot(near))
    return middle


def _measured(unit: Unit, alignment: SeamFrom | PointFrom) -> tuple[Vector, Line]:
    """The spot that a distance is measured to, and the line to draw for it."""
    outward = _OUTWARD[alignment.side]
    if isinstance(alignment, SeamFrom):
        found = [run for run in runs(unit) if not run.direction.dot(outward)]
        if not found:
            raise SewingError("no-such-seam", place=alignment.side)
        reach = max(run.start.dot(outward) for run in found)
        run = next(run for run in found if run.start.dot(outward) == reach)
        return run.start, (run.start, run.end)
    points = crossings(unit)
    if not points:
        raise SewingError("no-such-point", place=alignment.side)
    reach = max(p.dot(outward) for p in points)
    spot = next(p for p in points if p.dot(outward) == reach)
    return spot, (spot, spot)


def _off(unit: Unit, low: Vector, width: Exact, height: Exact) -> tuple[Exact, Exact, Exact, Exact]:
    left, bottom, right, top = bounds_of(raw_outline(unit))
    return low.x - left, right - low.x - width, top - low.y - height, low.y - bottom


def _cut_out(
    unit: Unit, corners: tuple[Vector, ...], width: Exact, height: Exact, off: tuple[Exact, Exact, Exact, Exact]
) -> Unit:
    patches = unit.patches
    seams: tuple[Seam, ...] = unit.seams
    fallen: list[Offcut] = []
    directions = (EAST, EAST.left(), -EAST, EAST.right())
    for corner, direction in zip(corners, directions, strict=True):
        patches, away = divided(patches, corner, direction)
        fallen.extend(Offcut(kind="trim", fabric=patch.fabric, area=seen_area((patch,))) for patch in away)
        halves = [divided_seam(seam, corner, direction)[0] for seam in seams]
        seams = tuple(seam for seam in halves if seam is not None)
    if seen_area(patches) != width * height:
        raise SewingError(
            "trim-too-large",
            short=tuple(-o if o < 0 else ZERO for o in off),
            gap=all(o >= 0 for o in off),
        )
    s = unit.allowance
    inward = (Vector(s, s), Vector(-s, s), Vector(-s, -s), Vector(s, -s))
    trimmed = Unit(
        corners=tuple(
            Corner(finished=corner + into, raw=(corner,)) for corner, into in zip(corners, inward, strict=True)
        ),
        directions=directions,
        patches=patches,
        seams=seams,
        ledger=unit.ledger + tuple(fallen),
        allowance=s,
        cloth=unit.cloth,
    )
    return moved(trimmed, -corners[0])
