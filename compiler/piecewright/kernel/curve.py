"""A quarter circle sewn into a corner: a curved seam.

The seam is an arc about the finished corner, exact by its centre and radius. The two pieces are cut by
template: the quarter circle with its raw arc one allowance further out, the ground with its raw arc one
allowance further in. Lengths along an arc hold π and are the only approximations; whoever prints one says so.
"""

from __future__ import annotations

from dataclasses import replace

from piecewright.dataclass import dataclass
from piecewright.exact import Exact, Vector
from piecewright.kernel.errors import SewingError
from piecewright.kernel.measure import edge_length
from piecewright.kernel.polygon import ZERO, apart, area, clip
from piecewright.kernel.unit import Disc, Patch, Polygon, Unit


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
    """The raw radius of the hollow cut into the ground, about the finished corner: r - s."""
    return radius - allowance


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
    if out.dot(into) or out.cross(into) <= 0:
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
    _require_free(unit, centre, radius)
    hollow = Disc(centre=centre, radius=radius, inside=False)
    patches = tuple(
        replace(patch, discs=(*patch.discs, hollow))
        if any(not apart(cell, square) for cell in patch.cells) and not _hollow(patch, centre)
        else patch
        for patch in unit.patches
    )
    piece = Patch(
        fabric=fabric,
        cells=(square,),
        grain=grain if grain is not None else out,
        cut=cut,
        discs=(Disc(centre=centre, radius=radius, inside=True),),
    )
    return replace(unit, patches=(*patches, piece))


def _hollow(patch: Patch, centre: Vector) -> bool:
    """True for cloth outside a curve about that centre: what is sewn within it later does not touch it."""
    return any(disc.centre == centre and not disc.inside for disc in patch.discs)


def _require_free(unit: Unit, centre: Vector, radius: Exact) -> None:
    """Curves about one centre are sewn from the largest in; about different ones their circles must lie apart."""
    for patch in unit.patches:
        for disc in patch.discs:
            if disc.centre == centre:
                if disc.radius <= radius:
                    raise SewingError("curves-cross")
                continue
            apart_by = (disc.centre - centre).squared()
            if disc.inside and apart_by < (disc.radius + radius) * (disc.radius + radius):
                raise SewingError("curves-cross")


def finished_areas(unit: Unit, fabrics: tuple[str, ...]) -> dict[str, tuple[Exact, Exact]]:
    """Finished areas of a unit whose curves are quarter circles about its finished corners: for each fabric a pair
    (a, b) that means a + b·π square inches, exact.

    A quarter of the disc of radius r is r²π/4; nested quarters take theirs from the next larger. SewingError
    `corner-not-square` for a curve about any other point, `curve-over-seams` for one that runs over seams of the work:
    what it takes of each patch there is no quarter, and holds arc tangents besides π.
    """
    hollows = [disc for patch in unit.patches for disc in patch.discs if not disc.inside]
    if any(disc in hollows[:n] for n, disc in enumerate(hollows)):
        raise SewingError("curve-over-seams")
    found: dict[str, tuple[Exact, Exact]] = dict.fromkeys(fabrics, (ZERO, ZERO))
    corners = {corner.finished for corner in unit.corners}
    for patch in unit.patches:
        straight, round_part = found[patch.fabric]
        inner = [disc for disc in patch.discs if disc.inside]
        for disc in patch.discs:
            if disc.centre not in corners:
                raise SewingError("corner-not-square")
            quarter = disc.radius * disc.radius / 4
            round_part = round_part + (quarter if disc.inside else -quarter)
        if not inner:
            for cell in patch.cells:
                rest: Polygon = cell
                for i, along in enumerate(unit.directions):
                    rest = clip(rest, unit.corners[i].finished, along)[0] if rest else ()
                straight = straight + area(rest)
        found[patch.fabric] = (straight, round_part)
    return found
