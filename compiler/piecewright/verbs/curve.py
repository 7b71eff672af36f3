"""`curve RADIUS of FABRIC at CORNERS`"""

from __future__ import annotations

from dataclasses import replace

from piecewright.exact import Exact, OutsideNumbers, Vector
from piecewright.kernel.action import Curve
from piecewright.kernel.build import Piece
from piecewright.kernel.curve import curved, quarter_circle
from piecewright.kernel.errors import SewingError
from piecewright.kernel.layers import square_corner
from piecewright.kernel.unit import Patch, Unit
from piecewright.verbs import press
from piecewright.verbs.cloth import supply
from piecewright.verbs.place import corners_of
from piecewright.verbs.press import Lengths, SeamSides, decided
from piecewright.verbs.registry import Said, Verb
from piecewright.verbs.work import Bench, Brought, Done, Refused, Work

SHAPE = "quarter circle"


def run(bench: Bench, said: Said) -> Done:
    """A quarter circle into each corner named, one after the other."""
    work, radius, fabric = bench.hand(), said.length("RADIUS"), said.word("FABRIC")
    corners = corners_of(said)
    actions: list[Curve] = []
    for n, place in enumerate(corners):
        slot = "CORNERS" if "corners" in said.words("CORNERS") else f"CORNERS[{n}]"
        action = _curve(bench, said, work, radius, fabric, place, slot)
        actions.append(action)
        work = replace(work, unit=action.result)
    piece = _piece(bench, radius, fabric, work.unit)
    return Done(work=work, actions=tuple(actions), supplies=(supply(piece, len(corners)),))


def _piece(bench: Bench, radius: Exact, fabric: str, unit: Unit) -> Brought:
    try:
        straight = quarter_circle(radius, bench.settings.seam).straight
    except OutsideNumbers:
        raise Refused("radius-outside", "RADIUS") from None
    source = Piece(shape=SHAPE, width=straight, height=straight, fabric=fabric, radius=radius)
    return Brought(unit=unit, source=source, name=f"{fabric} {SHAPE}")


def _curve(bench: Bench, said: Said, work: Work, radius: Exact, fabric: str, place: str, slot: str) -> Curve:
    unit = work.unit
    spot = square_corner(unit, place)
    if spot is None:
        raise Refused("no-such-corner", slot, place=place, piece=False)
    corner = next(i for i, one in enumerate(unit.corners) if spot in one.raw)
    try:
        result = curved(unit, corner, radius, fabric=fabric, cut=f"{SHAPE}:{bench.line}")
    except SewingError as error:
        at = slot if error.kind == "corner-not-square" else "RADIUS"
        raise Refused(error.kind, at, **error.facts) from error
    centre = unit.corners[corner].finished
    sides = SeamSides(
        along=_along(unit, corner),
        words=work.words,
        other_words=(),
        told=("away from the quarter circle", "toward the quarter circle"),
        lengths=lambda: (_beside(unit, centre, radius), {fabric: radius}),
    )
    toward, pressed = decided(bench, said.clause("press"), sides)
    return Curve(
        before=unit,
        corner=corner,
        place=place,
        radius=radius,
        fabric=fabric,
        result=result,
        toward=toward,
        pressed=pressed,
    )


def _along(unit: Unit, corner: int) -> Vector:
    """Along the seam at the middle of the arc, the work on its left: from one edge at the corner to the other."""
    return unit.directions[corner] + unit.directions[corner - 1]


def _beside(unit: Unit, centre: Vector, radius: Exact) -> Lengths:
    """How much of each fabric of the work lies along the curve. A length along an arc holds π, so that each cell the
    curve runs through counts as one; where there is only one fabric, as nearly always, that is all there is to know."""
    found: Lengths = {}
    for patch in unit.patches:
        if any(disc.centre == centre and not disc.inside for disc in patch.discs):
            continue
        for _ in _crossed(patch, centre, radius):
            found[patch.fabric] = found.get(patch.fabric, Exact(0)) + radius
    return found


def _crossed(patch: Patch, centre: Vector, radius: Exact) -> list[int]:
    """The cells with a corner beyond the circle that are not wholly beyond it: those on the corner's own side."""
    reach = radius * radius
    return [
        n
        for n, cell in enumerate(patch.cells)
        if any((p - centre).squared() > reach for p in cell) and any((p - centre).squared() < reach for p in cell)
    ]


VERB = Verb(
    name="curve",
    sentences=("curve RADIUS of FABRIC at CORNERS",),
    summary="a quarter circle sewn into a square corner, cut by template; RADIUS is that of the seam",
    example="curve 3 of dusk at bottom-left",
    clauses=press.CLAUSES,
    run=run,
)
