"""Work in layers: pieces laid face down on others, stitched, cut apart and opened.

A piece is named as it will lie when it is opened. It is turned face down over the first line that is stitched,
raw edges even with the work below, and opened over the one seam that a cut leaves it.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import TypeVar

from piecewright.dataclass import dataclass
from piecewright.exact import Exact, Vector
from piecewright.kernel.congruence import turned_onto, turnings
from piecewright.kernel.cut import cut_off, divided, divided_seam
from piecewright.kernel.errors import SewingError
from piecewright.kernel.measure import bounds, raw_outline, seen_area
from piecewright.kernel.moves import (
    mirrored,
    moved,
    reflected,
    reflected_direction,
    reflected_point,
    rotated,
)
from piecewright.kernel.outline import outlined
from piecewright.kernel.polygon import area, carve, merged, side
from piecewright.kernel.removal import clipped
from piecewright.kernel.unit import Offcut, OffcutKind, Patch, Polygon, Pressed, Seam, Unit

_T = TypeVar("_T")
Stitch = tuple[Vector, Vector]  # a point, and the unit vector along it


@dataclass(frozen=True, slots=True, kw_only=True)
class Placed:
    """A piece as it will lie when opened, and the corner of the work it is placed at (None: all over it)."""

    piece: Unit
    corner: str | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Layers:
    """`base` lies face up; `placed` wait for their first stitching; `uppers` lie face down on the base, as they
    are seen through it; `stitches` run through all layers."""

    base: Unit
    placed: tuple[Placed, ...]
    uppers: tuple[Unit, ...]
    stitches: tuple[Stitch, ...]


def placed_on(base: Unit, pieces: tuple[Placed, ...]) -> Layers:
    """Pieces laid on the work, not yet stitched."""
    return Layers(base=base, placed=pieces, uppers=(), stitches=())


def stitched(work: Layers, lines: tuple[Stitch, ...]) -> Layers:
    """The layers stitched along lines; the first line turns the placed pieces face down.

    SewingError as for `face_down`, and `stitch-misses` (index of the line) when a line does not cross any upper
    piece.
    """
    uppers = work.uppers + tuple(face_down(work.base, placed, lines) for placed in work.placed)
    for index, (start, along) in enumerate(lines):
        if not any(stretch(upper, start, along) for upper in uppers):
            raise SewingError("stitch-misses", index=index)
    return Layers(base=work.base, placed=(), uppers=uppers, stitches=work.stitches + lines)


def face_down(base: Unit, placed: Placed, lines: tuple[Stitch, ...]) -> Unit:
    """A piece turned face down over the lines, which must agree, and laid on the work with its raw edges even.

    SewingError `not-even` (width, height of both) when a piece placed all over the work does not lie even with it,
    `no-such-corner` (place, piece: True where the piece has none) without a square corner to lie in,
    `lines-disagree` when it would lie otherwise over another line.
    """
    here = _set_at(base, reflected(placed.piece, *lines[0]), placed.corner)
    for start, along in lines[1:]:
        other = _set_at(base, reflected(placed.piece, start, along), placed.corner)
        if not _same(here, other):
            raise SewingError("lines-disagree")
    return here


def _set_at(base: Unit, piece: Unit, corner: str | None) -> Unit:
    left, bottom, right, top = bounds(base)
    low, floor, high, ceiling = bounds(piece)
    if corner is None:
        if right - left != high - low or top - bottom != ceiling - floor:
            raise SewingError(
                "not-even",
                width=right - left,
                height=top - bottom,
                other_width=high - low,
                other_height=ceiling - floor,
            )
        laid = moved(piece, Vector(left - low, bottom - floor))
        if set(raw_outline(laid)) != set(raw_outline(base)):
            raise SewingError("not-even")
        return laid
    spot = square_corner(base, corner)
    if spot is None or square_corner(piece, corner) is None:
        raise SewingError("no-such-corner", place=corner, piece=spot is not None)
    return moved(
        piece,
        Vector(
            spot.x - (low if corner.endswith("left") else high),
            spot.y - (floor if corner.startswith("bottom") else ceiling),
        ),
    )


def square_corner(unit: Unit, corner: str) -> Vector | None:
    """The raw corner in a corner of the box round the work, where its edges run across and down; else None."""
    left, bottom, right, top = bounds(unit)
    spot = Vector(left if corner.endswith("left") else right, bottom if corner.startswith("bottom") else top)
    outline = raw_outline(unit)
    if spot not in outline:
        return None
    i = outline.index(spot)
    ends = outline[i - 1] - spot, outline[(i + 1) % len(outline)] - spot
    return spot if all(not end.x or not end.y for end in ends) else None


def _same(first: Unit, second: Unit) -> bool:
    return set(raw_outline(first)) == set(raw_outline(second)) and all(
        not inside or not area(inside)
        for patch in first.patches
        for other in second.patches
        if patch.fabric != other.fabric
        for cell in patch.cells
        for hole in other.cells
        for inside in (carve(cell, hole)[0],)
    )


def stitching(work: Layers, lines: tuple[Stitch, ...]) -> tuple[tuple[Vector, Vector], ...]:
    """Where lines run through the upper pieces; where these lie on each other, once."""
    found: list[tuple[Vector, Vector]] = []
    for start, along in lines:
        pieces = [ends for upper in work.uppers if (ends := stretch(upper, start, along)) is not None]
        pieces.sort(key=lambda ends: ends[0].dot(along))
        joined: list[tuple[Vector, Vector]] = []
        for low, high in pieces:
            if joined and (low - joined[-1][1]).dot_sign(along) <= 0:
                first, last = joined[-1]
                joined[-1] = first, max(last, high, key=lambda p: p.dot(along))
            else:
                joined.append((low, high))
        found.extend(joined)
    return tuple(found)


def stretch(unit: Unit, start: Vector, along: Vector) -> tuple[Vector, Vector] | None:
    """Where a line runs through the cloth of a unit, from first to last."""
    ends: list[Vector] = []
    outline = raw_outline(unit)
    reach = [(p - start).dot(along) for p in outline]
    first, last = start + along * min(reach), start + along * max(reach)
    for patch in unit.patches:
        for cell in patch.cells:
            found = clipped(first, last, cell)
            if found is not None:
                ends.extend(found)
    if not ends:
        return None
    ends.sort(key=lambda p: p.dot(along))
    return ends[0], ends[-1]


def cut_layers(work: Layers, start: Vector, along: Vector) -> tuple[Layers, Layers]:
    """The layers cut along a line: what lies left of it, what right. Stitches stay where they hold something."""
    return _half(work, start, along), _half(work, start, -along)


def _half(work: Layers, start: Vector, along: Vector) -> Layers:
    uppers: list[Unit] = []
    for upper in work.uppers:
        sides = [side(start, along, p) for p in raw_outline(upper)]
        if min(sides) >= 0:
            uppers.append(upper)
        elif max(sides) > 0:
            uppers.append(cut_off(upper, start, along))
    base = cut_off(work.base, start, along)
    return Layers(
        base=base,
        placed=work.placed,
        uppers=tuple(uppers),
        stitches=tuple(
            stitch
            for stitch in work.stitches
            if _holds(base, *stitch) and any(stretch(upper, *stitch) for upper in uppers)
        ),
    )


def _holds(base: Unit, start: Vector, along: Vector) -> bool:
    """False for a stitch that only crosses a tip within the allowance: it runs neither through the finished part
    nor along its edge, and those few stitches are undone."""
    sides = [side(start, along, corner.finished) for corner in base.corners]
    if min(sides) < 0 < max(sides):
        return True
    return any(s == 0 and sides[i - 1] == 0 for i, s in enumerate(sides))


def opened(work: Layers, pressed: Pressed = "open") -> Unit:
    """The layers opened over their one seam. `pressed` is seen along the seam with the base on its left.

    SewingError `nothing-holds` without a seam, `still-layered` with more than one.
    """
    if len(work.stitches) != 1:
        raise SewingError("nothing-holds" if not work.stitches else "still-layered")
    start, along = work.stitches[0]
    if not _kept_on_left(work.base, start, along):
        along = -along
    ledger: list[Offcut] = list(work.base.ledger)
    seams: list[Seam] = _seams_left(work.base.seams, start, along)
    under_flaps: list[Polygon] = []
    flaps: list[Patch] = []
    for upper in work.uppers:
        ledger.extend(upper.ledger)
        kept, under = divided(upper.patches, start, along)
        for patch in under:
            under_flaps.extend(patch.cells)
            ledger.append(Offcut(kind="allowance", fabric=patch.fabric, area=seen_area((patch,))))
        before = [cell for flap in flaps for cell in flap.cells]
        for patch in kept:
            flap = replace(
                patch,
                cells=tuple(
                    tuple(reflected_point(p, start, along) for p in reversed(cell)) for cell in patch.cells
                ),
                grain=reflected_direction(patch.grain, along),
                mirrored=not patch.mirrored,
            )
            _show(flap, before, "ear", flaps, ledger)
        for seam in _seams_left(upper.seams, start, along):
            seams.append(_reflected_seam(seam, start, along))
        ends = stretch(upper, start, along)
        if ends is not None:
            seams.append(Seam(start=ends[0], end=ends[1], direction=along, pressed=pressed))
    kept, under = divided(work.base.patches, start, along)
    patches = list(kept)
    hidden = under_flaps + [cell for flap in flaps for cell in flap.cells]
    for patch in under:
        _show(patch, hidden, "allowance", patches, ledger)
    patches.extend(flaps)
    directions = [*work.base.directions, along]
    for upper in work.uppers:
        directions.extend(reflected_direction(d, along) for d in upper.directions)
    corners, edges = outlined(tuple(patches), directions, work.base.allowance)
    return Unit(
        corners=corners,
        directions=edges,
        patches=tuple(patches),
        seams=tuple(seams),
        ledger=tuple(ledger),
        allowance=work.base.allowance,
        cloth=work.base.cloth + sum((upper.cloth for upper in work.uppers), Exact(0)),
    )


def _kept_on_left(base: Unit, start: Vector, along: Vector) -> bool:
    """Which side of a stitch stays flat: not the one with a raw edge one allowance away; with none or two such
    edges, the larger."""
    for i, direction in enumerate(base.directions):
        if direction.cross_sign(along):
            continue
        distance = along.cross(base.corners[i].raw[-1] - start)
        if abs(distance) == base.allowance:
            opposite = [
                j
                for j, other in enumerate(base.directions)
                if other == -direction and along.cross(base.corners[j].raw[-1] - start) == -distance
            ]
            if not opposite:
                return distance.sign() < 0
    left, right = divided(base.patches, start, along)
    return seen_area(left) >= seen_area(right)


def _show(patch: Patch, holes: list[Polygon], kind: OffcutKind, shown: list[Patch], ledger: list[Offcut]) -> None:
    """Adds what of a patch is not hidden by the holes, and enters the rest."""
    cells: list[Polygon] = list(patch.cells)
    for hole in holes:
        cells = [rest for cell in cells for rest in carve(cell, hole)[1]]
    left = replace(patch, cells=merged(cells))
    gone = seen_area((patch,)) - seen_area((left,))
    if gone:
        ledger.append(Offcut(kind=kind, fabric=patch.fabric, area=gone))
    if cells:
        shown.append(left)


def _seams_left(seams: tuple[Seam, ...], start: Vector, along: Vector) -> list[Seam]:
    halves = [divided_seam(seam, start, along)[0] for seam in seams]
    return [seam for seam in halves if seam is not None]


_SWAPPED: dict[Pressed, Pressed] = {"left": "right", "right": "left", "open": "open"}


def _reflected_seam(seam: Seam, start: Vector, along: Vector) -> Seam:
    return replace(
        seam,
        start=reflected_point(seam.start, start, along),
        end=reflected_point(seam.end, start, along),
        direction=reflected_direction(seam.direction, along),
        pressed=_SWAPPED[seam.pressed],
    )


def alike_layers(first: Layers, second: Layers) -> bool:
    """Whether two parts still in layers are alike after turning, or after turning one over."""
    if _matches(first, second):
        return True
    return len(second.uppers) == 1 and _matches(first, turned_over(second))


def turned_over(work: Layers) -> Layers:
    """The layers turned over, left for right; of one upper piece only."""
    (upper,) = work.uppers
    return Layers(
        base=mirrored(upper),
        placed=(),
        uppers=(mirrored(work.base),),
        stitches=tuple((Vector(-p.x, p.y), Vector(-d.x, d.y)) for p, d in work.stitches),
    )


def turned_layers(work: Layers, turning: Vector, by: Vector) -> Layers:
    """The layers turned by a unit vector about the origin and then moved."""
    return Layers(
        base=moved(rotated(work.base, turning), by),
        placed=work.placed,
        uppers=tuple(moved(rotated(upper, turning), by) for upper in work.uppers),
        stitches=tuple((p.turned(turning) + by, d.turned(turning)) for p, d in work.stitches),
    )


def _matches(first: Layers, second: Layers) -> bool:
    if len(first.uppers) != len(second.uppers):
        return False
    for turning in turnings(first.base, second.base):
        placed = turned_onto(first.base, second.base, turning)
        if placed is None:
            continue
        by = placed.corners[0].finished - second.base.corners[0].finished.turned(turning)
        other = turned_layers(second, turning, by)
        if _paired(first.uppers, other.uppers, _same) and _paired(first.stitches, other.stitches, _one_line):
            return True
    return False


def _paired(first: tuple[_T, ...], second: tuple[_T, ...], same: Callable[[_T, _T], bool]) -> bool:
    """Whether each of either has one like it among the other."""
    return all(any(same(a, b) for b in second) for a in first) and all(
        any(same(a, b) for a in first) for b in second
    )


def _one_line(first: Stitch, second: Stitch) -> bool:
    (p, along), (q, other) = first, second
    return not along.cross(other) and not along.cross(q - p)
