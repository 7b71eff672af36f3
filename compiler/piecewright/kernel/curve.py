"""A piece with a round edge sewn into the work: a curved seam.

The seam is an arc, exact by its centre and radius: of a quarter circle about the finished corner it is sewn into, of a
half melon about a point outside the side that it spans from corner to corner. The two pieces are cut by template: the
one within the arc with its raw arc one allowance further out, the ground with its raw arc one allowance further in.
Lengths along an arc hold π and are the only approximations; whoever prints one says so.
"""

from __future__ import annotations

from dataclasses import replace
from typing import Literal, NamedTuple

from piecewright.dataclass import dataclass
from piecewright.exact import Exact, Vector
from piecewright.kernel.errors import SewingError
from piecewright.kernel.measure import edge_length
from piecewright.kernel.polygon import ZERO, apart, area, clip
from piecewright.kernel.unit import Disc, Patch, Polygon, Unit

CurveShape = Literal["quarter circle", "half melon"]
QUARTER: CurveShape = "quarter circle"
MELON: CurveShape = "half melon"
_SIDES = 4  # of a rectangle
_ROOT = Exact(2).sqrt()


class Bend(NamedTuple):
    """The shape of the piece within a curved seam and the seam's radius in inches: all that its templates depend on,
    besides the allowance."""

    shape: str
    radius: Exact


@dataclass(frozen=True, slots=True, kw_only=True)
class Template:
    """A quarter circle to cut by template, with the seam's radius and the allowance s. `arc` is the raw radius, about
    a point one allowance inside both straight edges; `straight` the length of each straight raw edge."""

    radius: Exact
    arc: Exact
    straight: Exact


def quarter_circle(radius: Exact, allowance: Exact) -> Template:
    """The template of the piece within the curve.

    With the finished centre at the origin the straight raw edge runs at y = -s from x = -s to the arc of radius
    r + s, which it meets at x = √((r + s)² - s²) = √(r² + 2rs): its length is s + √(r² + 2rs). OutsideNumbers
    when that root is no number of the set.
    """
    return Template(
        radius=radius,
        arc=radius + allowance,
        straight=allowance + (radius * radius + radius * allowance * 2).sqrt(),
    )


def ground_arc(radius: Exact, allowance: Exact) -> Exact:
    """The raw radius of the hollow cut into the ground, about the same centre: r - s."""
    return radius - allowance


def melon_side(radius: Exact) -> Exact:
    """The finished side f that a half melon with a seam of that radius spans: the arc is a quarter of a circle, so
    its chord is f = r√2."""
    return radius * _ROOT


def melon_depth(side: Exact) -> Exact:
    """How deep a half melon is, finished. Its arc of radius f/√2 about a point f/2 outside the middle of the side
    stands f/√2 - f/2 = f(√2 - 1)/2 high."""
    return side * (_ROOT - 1) / 2


def melon_box(radius: Exact, allowance: Exact) -> tuple[Exact, Exact]:
    """Along the side and square to it, what a half melon is cut from: f + 2s by f(√2 - 1)/2 + 2s, since its tips end
    at the raw edges of the work and its raw arc stands one allowance outside the seam."""
    side = melon_side(radius)
    return side + allowance * 2, melon_depth(side) + allowance * 2


class _Seat(NamedTuple):
    """Where a round piece lies: within which circle, in which raw rectangle, the first side of that along `out`."""

    centre: Vector
    radius: Exact
    cell: Polygon
    out: Vector


def curved(unit: Unit, corner: int, radius: Exact, *, fabric: str, cut: str = "", grain: Vector | None = None) -> Unit:
    """The unit with a quarter circle of a fabric sewn into a corner; its outline stays.

    `radius` is that of the seam, about the finished corner. The cloth of both pieces is accounted for by the cells they
    share: what the curve takes from one it gives to the other.

    SewingError: `corner-not-square`, `curve-too-small` (least) when the raw hollow, r - s about a point one s inside
    both edges, would not reach those edges, `curve-too-large` (most) when it reaches a neighbouring seam,
    `curves-cross` when it meets another curve.
    """
    s = unit.allowance
    out, into = unit.directions[corner], -unit.directions[corner - 1]
    if not _is_square(unit, corner):
        raise SewingError("corner-not-square")
    if radius <= s * 2:
        raise SewingError("curve-too-small", radius=radius, least=s * 2)
    most = min(
        edge_length(unit, corner, finished=True),
        edge_length(unit, (corner - 1) % len(unit.corners), finished=True),
    )
    if radius >= most:
        raise SewingError("curve-too-large", radius=radius, most=most)
    centre = unit.corners[corner].finished
    low = centre - (out + into) * s
    reach = radius + s
    square: Polygon = (low, low + out * reach, low + (out + into) * reach, low + into * reach)
    return _sewn_in(unit, _Seat(centre, radius, square, out), fabric, cut, grain)


def hollowed(unit: Unit, edge: int, *, fabric: str, cut: str = "", grain: Vector | None = None) -> Unit:
    """The unit, a rectangle, with a half melon of a fabric sewn to a side, from finished corner to finished corner.

    The seam leaves both corners at 45 degrees, so that those of neighbouring sides only touch there. SewingError:
    `melon-no-rectangle`, `melon-too-flat` (side) when it is no deeper than an allowance, `melon-too-deep` (side, depth,
    most) when it reaches the seam on the other side, `curves-cross` (melon) when it meets another curve.
    """
    s = unit.allowance
    if len(unit.corners) != _SIDES or not all(_is_square(unit, corner) for corner in range(_SIDES)):
        raise SewingError("melon-no-rectangle")
    side = edge_length(unit, edge, finished=True)
    depth, most = melon_depth(side), edge_length(unit, (edge + 1) % _SIDES, finished=True)
    if depth <= s:
        raise SewingError("melon-too-flat", side=side)
    if depth >= most:
        raise SewingError("melon-too-deep", side=side, depth=depth, most=most)
    out, into = unit.directions[edge], unit.directions[edge].left()
    centre, radius = melon_arc(unit, edge)
    low = unit.corners[edge].finished - (out + into) * s
    along, across = out * (side + s * 2), into * (depth + s * 2)
    cell: Polygon = (low, low + along, low + along + across, low + across)
    return _sewn_in(unit, _Seat(centre, radius, cell, out), fabric, cut, grain)


def melon_arc(unit: Unit, edge: int) -> tuple[Vector, Exact]:
    """Centre and radius of the seam of a half melon on a side: f/2 outside its middle, and f/√2, the distance from
    there to either finished corner."""
    side = edge_length(unit, edge, finished=True)
    out = unit.directions[edge]
    return unit.corners[edge].finished + (out - out.left()) * (side / 2), side / _ROOT


def _is_square(unit: Unit, corner: int) -> bool:
    out, into = unit.directions[corner], -unit.directions[corner - 1]
    return not out.dot(into) and out.cross(into) > 0


def _sewn_in(unit: Unit, seat: _Seat, fabric: str, cut: str, grain: Vector | None) -> Unit:
    _require_free(unit, seat)
    hollow = Disc(centre=seat.centre, radius=seat.radius, inside=False)
    patches = tuple(
        replace(patch, discs=(*patch.discs, hollow))
        if any(not apart(cell, seat.cell) for cell in patch.cells) and not is_clear_of(patch, seat.centre)
        else patch
        for patch in unit.patches
    )
    piece = Patch(
        fabric=fabric,
        cells=(seat.cell,),
        grain=grain if grain is not None else seat.out,
        cut=cut,
        discs=(Disc(centre=seat.centre, radius=seat.radius, inside=True),),
    )
    return replace(unit, patches=(*patches, piece))


def is_clear_of(patch: Patch, centre: Vector) -> bool:
    """True for cloth that what is sewn within a curve about a centre does not touch: it lies outside a curve about
    that centre, or within one about another, and circles about different centres lie apart."""
    return any((disc.centre == centre) != disc.inside for disc in patch.discs)


def _require_free(unit: Unit, seat: _Seat) -> None:
    """Curves about one centre are sewn from the largest in; about different ones their circles must lie apart. Two
    that touch in one point do."""
    for patch in unit.patches:
        for disc in patch.discs:
            if disc.centre == seat.centre:
                if disc.radius <= seat.radius:
                    raise SewingError("curves-cross")
                continue
            apart_by = (disc.centre - seat.centre).squared()
            if disc.inside and apart_by < (disc.radius + seat.radius) * (disc.radius + seat.radius):
                raise SewingError("curves-cross")


def finished_areas(unit: Unit, fabrics: tuple[str, ...]) -> dict[str, tuple[Exact, Exact]]:
    """Finished areas of a unit whose curves are those of quarter circles in its corners and half melons on its sides:
    for each fabric a pair (a, b) that means a + b·π square inches, exact.

    A quarter of the disc of radius r is r²π/4; nested quarters take theirs from the next larger. Of a half melon the
    triangle from the centre to the side goes off, r²π/4 - f²/4 with f = r√2: f²(π - 2)/8. SewingError
    `corner-not-square` for a curve about any other point, `curve-over-seams` for one that runs over seams of the work:
    what it takes of each patch there is no quarter, and holds arc tangents besides π.
    """
    hollows = [disc for patch in unit.patches for disc in patch.discs if not disc.inside]
    if any(disc in hollows[:n] for n, disc in enumerate(hollows)):
        raise SewingError("curve-over-seams")
    found: dict[str, tuple[Exact, Exact]] = dict.fromkeys(fabrics, (ZERO, ZERO))
    corners = {corner.finished for corner in unit.corners}
    sides = {melon_arc(unit, edge) for edge in range(len(unit.corners))}
    for patch in unit.patches:
        straight, round_part = found[patch.fabric]
        inner = [disc for disc in patch.discs if disc.inside]
        for disc in patch.discs:
            spans = (disc.centre, disc.radius) in sides
            if not spans and disc.centre not in corners:
                raise SewingError("corner-not-square")
            square = disc.radius * disc.radius if disc.inside else -(disc.radius * disc.radius)
            round_part = round_part + square / 4
            if spans:
                straight = straight - square / 2
        if not inner:
            for cell in patch.cells:
                rest: Polygon = cell
                for i, along in enumerate(unit.directions):
                    rest = clip(rest, unit.corners[i].finished, along)[0] if rest else ()
                straight = straight + area(rest)
        found[patch.fabric] = (straight, round_part)
    return found

