"""Stitch and flip: a piece sewn across a corner, what lies outside the seam trimmed, and the piece opened.

What is seen is the reflection, in the seam, of the part of the flipped piece that is kept. The outline of
the work does not change.
"""

from __future__ import annotations

from dataclasses import replace

from piecewright.exact import Vector
from piecewright.kernel.cut import divided_seam
from piecewright.kernel.errors import SewingError
from piecewright.kernel.moves import reflected_direction, reflected_point
from piecewright.kernel.polygon import ZERO, area, clip
from piecewright.kernel.unit import Offcut, Patch, Polygon, Pressed, Seam, Unit


def flip(unit: Unit, piece: Unit, start: Vector, direction: Vector, pressed: Pressed = "right") -> Unit:
    """`piece` lies face down on `unit`, raw edges even, and is sewn along the line; the work is kept on the
    left of the direction, and the piece is opened over its right. The allowance is left beside the seam.

    SewingError `cut-misses` when the line does not cross the work, `flip-short` when the opened piece does
    not cover the corner.
    """
    s = unit.allowance
    beyond = start + direction.right() * s
    ledger: list[Offcut] = list(unit.ledger) + list(piece.ledger)
    kept: list[Patch] = []
    corner: list[Polygon] = []
    for patch in unit.patches:
        cells: list[Polygon] = []
        for cell in patch.cells:
            one, other = clip(cell, start, direction)
            if one:
                cells.append(one)
            if other:
                corner.append(other)
                under, away = clip(other, beyond, direction)
                ledger.extend(_offcuts(patch.fabric, under, away))
        if cells:
            kept.append(replace(patch, cells=tuple(cells)))
    if not corner or not kept:
        raise SewingError("cut-misses")
    wanted = ZERO
    for hole in corner:
        wanted = wanted + area(hole)
    opened: list[Patch] = []
    covered = ZERO
    for patch in piece.patches:
        cells = []
        for cell in patch.cells:
            one, other = clip(cell, start, direction)
            under, away = clip(other, beyond, direction) if other else ((), ())
            ledger.extend(_offcuts(patch.fabric, under, away))
            if one:
                reflected = tuple(reversed([reflected_point(p, start, direction) for p in one]))
                covered = covered + area(reflected)
                cells.append(reflected)
        if cells:
            grain = reflected_direction(patch.grain, direction)
            opened.append(replace(patch, cells=tuple(cells), grain=grain, mirrored=not patch.mirrored))
    if covered != wanted or not _inside(opened, corner):
        raise SewingError("flip-short", difference=wanted - covered)
    ends = _ends(corner, start, direction)
    seen = [divided_seam(seam, start, direction)[0] for seam in unit.seams]
    return replace(
        unit,
        patches=tuple(kept) + tuple(opened),
        seams=(
            *(seam for seam in seen if seam is not None),
            Seam(start=ends[0], end=ends[1], direction=direction, pressed=pressed),
        ),
        ledger=tuple(ledger),
        cloth=unit.cloth + piece.cloth,
    )


def _offcuts(fabric: str, under: Polygon, away: Polygon) -> list[Offcut]:
    found: list[Offcut] = []
    if under:
        found.append(Offcut(kind="allowance", fabric=fabric, area=area(under)))
    if away:
        found.append(Offcut(kind="flip", fabric=fabric, area=area(away)))
    return found


def _inside(opened: list[Patch], corner: list[Polygon]) -> bool:
    """True when every opened cell lies within the corner that was taken away."""
    for patch in opened:
        for cell in patch.cells:
            found = ZERO
            for hole in corner:
                rest: Polygon = cell
                for i, p in enumerate(hole):
                    rest = clip(rest, p, hole[(i + 1) % len(hole)] - p)[0] if rest else ()
                found = found + area(rest)
            if found != area(cell):
                return False
    return True


def _ends(corner: list[Polygon], start: Vector, direction: Vector) -> tuple[Vector, Vector]:
    on_line = [p for cell in corner for p in cell if not direction.cross(p - start)]
    on_line.sort(key=lambda p: p.dot(direction))
    return on_line[0], on_line[-1]
