"""`curve RADIUS of FABRIC at CORNERS` and `curve of FABRIC [on EDGES]`"""

from __future__ import annotations

from dataclasses import replace

from piecewright.exact import Exact, OutsideNumbers, Vector
from piecewright.kernel.action import Curve
from piecewright.kernel.build import Piece
from piecewright.kernel.curve import (
    MELON,
    QUARTER,
    CurveShape,
    curved,
    hollowed,
    is_clear_of,
    melon_arc,
    melon_box,
    quarter_circle,
)
from piecewright.kernel.errors import SewingError
from piecewright.kernel.layers import square_corner
from piecewright.kernel.unit import Patch, Polygon, Unit
from piecewright.verbs import press
from piecewright.verbs.border import ALL_ROUND
from piecewright.verbs.cloth import supply
from piecewright.verbs.place import corners_of
from piecewright.verbs.press import Lengths, SeamSides, decided
from piecewright.verbs.registry import Said, Verb
from piecewright.verbs.sewing import edge_of
from piecewright.verbs.work import Bench, Brought, Done, Refused, Work


def run(bench: Bench, said: Said) -> Done:
    """A round piece into each corner or side named, one after the other."""
    work, fabric = bench.hand(), said.word("FABRIC")
    actions: list[Curve] = []
    if "RADIUS" in said:
        radius = said.length("RADIUS")
        places = corners_of(said)
        for n, place in enumerate(places):
            slot = "CORNERS" if "corners" in said.words("CORNERS") else f"CORNERS[{n}]"
            actions.append(_in_corner(bench, said, work, radius, place, slot))
            work = replace(work, unit=actions[-1].result)
        pieces = [(_quarter(bench, radius, fabric, work.unit), len(places))]
        return Done(work=work, actions=tuple(actions), supplies=tuple(supply(piece, n) for piece, n in pieces))
    named = said.words("EDGES")
    counts: dict[Exact, int] = {}
    for n, place in enumerate(named or ALL_ROUND):
        actions.append(_on_side(bench, said, work, place, f"EDGES[{n}]" if named else ""))
        work = replace(work, unit=actions[-1].result)
        counts[actions[-1].radius] = counts.get(actions[-1].radius, 0) + 1
    melons = [(_melon(bench, radius, fabric, work.unit), count) for radius, count in counts.items()]
    return Done(work=work, actions=tuple(actions), supplies=tuple(supply(piece, n) for piece, n in melons))


def _quarter(bench: Bench, radius: Exact, fabric: str, unit: Unit) -> Brought:
    try:
        straight = quarter_circle(radius, bench.settings.seam).straight
    except OutsideNumbers:
        raise Refused("radius-outside", "RADIUS") from None
    source = Piece(shape=QUARTER, width=straight, height=straight, fabric=fabric, radius=radius)
    return Brought(unit=unit, source=source, name=f"{fabric} {QUARTER}")


def _melon(bench: Bench, radius: Exact, fabric: str, unit: Unit) -> Brought:
    along, across = melon_box(radius, bench.settings.seam)
    source = Piece(shape=MELON, width=along, height=across, fabric=fabric, radius=radius)
    return Brought(unit=unit, source=source, name=f"{fabric} {MELON}")


def _in_corner(bench: Bench, said: Said, work: Work, radius: Exact, place: str, slot: str) -> Curve:
    unit, fabric = work.unit, said.word("FABRIC")
    spot = square_corner(unit, place)
    if spot is None:
        raise Refused("no-such-corner", slot, place=place, piece=False)
    corner = next(i for i, one in enumerate(unit.corners) if spot in one.raw)
    try:
        result = curved(unit, corner, radius, fabric=fabric, cut=f"{QUARTER}:{bench.line}")
    except SewingError as error:
        at = slot if error.kind == "corner-not-square" else "RADIUS"
        raise Refused(error.kind, at, **error.facts) from error
    # at the middle of the arc: from one edge at the corner to the other
    along = unit.directions[corner] + unit.directions[corner - 1]
    centre = unit.corners[corner].finished
    return _sewn(bench, said, work, result, QUARTER, corner, place, (centre, radius, along))


def _on_side(bench: Bench, said: Said, work: Work, place: str, slot: str) -> Curve:
    unit = work.unit
    edge = edge_of(unit, place, slot)
    try:
        result = hollowed(unit, edge, fabric=said.word("FABRIC"), cut=f"{MELON}:{bench.line}")
    except SewingError as error:
        raise Refused("melons-cross" if error.kind == "curves-cross" else error.kind, slot, **error.facts) from error
    return _sewn(bench, said, work, result, MELON, edge, place, (*melon_arc(unit, edge), unit.directions[edge]))


def _sewn(
    bench: Bench,
    said: Said,
    work: Work,
    result: Unit,
    shape: CurveShape,
    at: int,
    place: str,
    arc: tuple[Vector, Exact, Vector],
) -> Curve:
    """`arc`: its centre and radius, and the direction along it at its middle, the work on the left."""
    unit, fabric = work.unit, said.word("FABRIC")
    centre, radius, along = arc
    sides = SeamSides(
        along=along,
        words=work.words,
        other_words=(),
        told=(f"away from the {shape}", f"toward the {shape}"),
        lengths=lambda: (_beside(unit, centre, radius), {fabric: radius}),
    )
    toward, pressed = decided(bench, said.clause("press"), sides)
    return Curve(
        before=unit,
        shape=shape,
        at=at,
        place=place,
        radius=radius,
        fabric=fabric,
        result=result,
        toward=toward,
        pressed=pressed,
    )


def _beside(unit: Unit, centre: Vector, radius: Exact) -> Lengths:
    """How much of each fabric of the work lies along the curve. A length along an arc holds π, so that each cell the
    curve runs through counts as one; where there is only one fabric, as nearly always, that is all there is to know."""
    found: Lengths = {}
    for patch in unit.patches:
        if is_clear_of(patch, centre):
            continue
        for _ in _crossed(patch, centre, radius):
            found[patch.fabric] = found.get(patch.fabric, Exact(0)) + radius
    return found


def _crossed(patch: Patch, centre: Vector, radius: Exact) -> list[int]:
    """The cells that the circle runs through: with a corner beyond it and something within it."""
    reach = radius * radius
    return [
        n
        for n, cell in enumerate(patch.cells)
        if any((p - centre).squared() > reach for p in cell) and _comes_near(cell, centre, reach)
    ]


def _comes_near(cell: Polygon, centre: Vector, reach: Exact) -> bool:
    """Whether anything of a cell is nearer to a point than the root of `reach`: the point itself, a corner, or a side
    between its corners."""
    around = True
    for i, p in enumerate(cell):
        along, there = cell[(i + 1) % len(cell)] - p, centre - p
        past, across = there.dot(along), along.cross(there)
        if there.squared() < reach:
            return True
        if 0 < past < along.squared() and across * across < reach * along.squared():
            return True
        around = around and across >= 0
    return around


VERB = Verb(
    name="curve",
    sentences=("curve RADIUS of FABRIC at CORNERS", "curve of FABRIC [on EDGES]"),
    summary="a quarter circle sewn into a square corner, RADIUS that of the seam, or a half melon on a side",
    example="curve 3 of dusk at bottom-left",
    clauses=press.CLAUSES,
    run=run,
)
