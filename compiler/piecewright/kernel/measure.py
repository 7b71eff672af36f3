"""Sizes of a unit: boxes, edges and areas, exact, in inches and square inches."""

from __future__ import annotations

from piecewright.exact import Exact, Vector
from piecewright.kernel.polygon import ZERO, area, tidy
from piecewright.kernel.unit import Patch, Polygon, Unit

Bounds = tuple[Exact, Exact, Exact, Exact]  # left, bottom, right, top


def raw_outline(unit: Unit) -> Polygon:
    """The raw edge all round, counter-clockwise."""
    return tidy(p for corner in unit.corners for p in corner.raw)


def finished_outline(unit: Unit) -> Polygon:
    """The seam lines all round, counter-clockwise."""
    return tuple(corner.finished for corner in unit.corners)


def fabrics_of(unit: Unit) -> tuple[str, ...]:
    """The fabrics that are seen of a unit, in the order of its patches."""
    if unit.spots is None:
        return tuple(dict.fromkeys(patch.fabric for patch in unit.patches))
    pieces = {id(spot.unit): spot.unit for spot in unit.spots}
    return tuple(dict.fromkeys(patch.fabric for piece in pieces.values() for patch in piece.patches))


def lies_straight(unit: Unit) -> bool:
    """True for a rectangle whose sides run across and down."""
    return len(unit.corners) == 4 and all(not way.x or not way.y for way in unit.directions)


def bounds_of(points: Polygon) -> Bounds:
    """The box round some points."""
    left = right = points[0].x
    bottom = top = points[0].y
    for p in points[1:]:
        if p.x < left:
            left = p.x
        elif p.x > right:
            right = p.x
        if p.y < bottom:
            bottom = p.y
        elif p.y > top:
            top = p.y
    return left, bottom, right, top


def bounds(unit: Unit) -> Bounds:
    """The box round the raw outline."""
    return bounds_of(raw_outline(unit))


def finished_bounds(unit: Unit) -> Bounds:
    """The box round the finished outline."""
    return bounds_of(finished_outline(unit))


def width(unit: Unit) -> Exact:
    """Across, raw edges included."""
    left, _, right, _ = bounds(unit)
    return right - left


def height(unit: Unit) -> Exact:
    """Down, raw edges included."""
    _, bottom, _, top = bounds(unit)
    return top - bottom


def finished_size(unit: Unit) -> tuple[Exact, Exact]:
    """Across and down of the finished outline."""
    left, bottom, right, top = finished_bounds(unit)
    return right - left, top - bottom


def edge_length(unit: Unit, edge: int, *, finished: bool) -> Exact:
    """The length of an edge: between its finished corners, or along its raw edge as it can be measured."""
    start = unit.corners[edge]
    end = unit.corners[(edge + 1) % len(unit.corners)]
    along = unit.directions[edge]
    if finished:
        return (end.finished - start.finished).dot(along)
    return (end.raw[0] - start.raw[-1]).dot(along)


def raw_edge(unit: Unit, edge: int) -> tuple[Vector, Vector]:
    """The raw edge from its start to its end."""
    return unit.corners[edge].raw[-1], unit.corners[(edge + 1) % len(unit.corners)].raw[0]


def outline_area(unit: Unit) -> Exact:
    """The area within the raw outline."""
    return area(raw_outline(unit))


def finished_area(unit: Unit) -> Exact:
    """The area within the finished outline."""
    return area(finished_outline(unit))


def seen_area(patches: tuple[Patch, ...]) -> Exact:
    """The area of all cloth that is seen. Cells that a curve divides between two patches count once, with
    the patch outside it: their areas hold π, but the sum does not."""
    total = ZERO
    for patch in patches:
        if patch.discs and any(disc.inside for disc in patch.discs):
            continue
        for cell in patch.cells:
            total = total + area(cell)
    return total


def ledger_area(unit: Unit) -> Exact:
    """The area of all cloth that went under or fell away since the last cut."""
    total = ZERO
    for offcut in unit.ledger:
        total = total + offcut.area
    return total


def in_balance(unit: Unit) -> bool:
    """True when cloth in = cloth seen + ledger, and what is seen fills the outline exactly."""
    seen = seen_area(unit.patches)
    return unit.cloth == seen + ledger_area(unit) and seen == outline_area(unit)
