"""A star of eight 45-degree diamonds with set-in squares and triangles, sewn by the kernel."""

from __future__ import annotations

from kernel.sewing import ROOT_2, S, join, quarter, square
from piecewright.exact import Exact, Vector
from piecewright.kernel.chain import chain
from piecewright.kernel.cut import divided
from piecewright.kernel.measure import edge_length, finished_bounds, finished_outline, seen_area
from piecewright.kernel.moves import settled
from piecewright.kernel.pieces import polygon_piece
from piecewright.kernel.unit import Unit


def ray(f: Exact, fabric: str) -> Unit:
    """A 45-degree diamond: strip f/√2 + 2s, raw side f + 2√2 s, sharp corner at bottom left."""
    side, high = f + 2 * ROOT_2 * S, f / ROOT_2 + 2 * S
    lean = Vector(high, high)
    return polygon_piece((Vector(0, 0), Vector(side, 0), Vector(side, 0) + lean, lean), fabric=fabric, allowance=S)


def star_of_eight(f: Exact, fabric: str = "diamond") -> Unit:
    rays = [ray(f, fabric) for _ in range(8)]
    pairs = [join(rays[2 * n], "left", rays[2 * n + 1], "bottom") for n in range(4)]
    sides = [_open(pairs[2 * n], pairs[2 * n + 1]) for n in range(2)]
    star = chain(sides[0], _lowest(sides[0]), sides[1], _lowest(sides[1])).unit
    corner = square(f + 2 * S, "square")
    side = quarter(f * ROOT_2 + (2 + 2 * ROOT_2) * S, "triangle")
    return _set_in(star, corner, side)


def _open(first: Unit, second: Unit) -> Unit:
    """The bottom of a second pair sewn to the upper left edge of the first."""
    i = max(range(len(first.directions)), key=lambda n: _faces(first, n, -1, 0))
    j = max(range(len(second.directions)), key=lambda n: _faces(second, n, 0, -1))
    return chain(first, i, second, j).unit


def _faces(unit: Unit, n: int, x: int, y: int) -> float:
    outward = unit.directions[n].right().floats
    return outward[0] * x + outward[1] * y


def _lowest(unit: Unit) -> int:
    """The long edge through the centre: the one edge twice as long as the others."""
    return max(range(len(unit.directions)), key=lambda n: float(edge_length(unit, n, finished=True)))


def _set_in(star: Unit, corner: Unit, side: Unit) -> Unit:
    """Squares into the inner corners that lie on the slant from the centre, triangles into the others."""
    left, bottom, right, top = finished_bounds(star)
    middle = Vector((left + right) / 2, (bottom + top) / 2)
    for _ in range(8):
        n = next(
            n
            for n in range(len(star.directions))
            if star.directions[n].cross(star.directions[(n + 1) % len(star.directions)]) < 0
        )
        gap = star.corners[(n + 1) % len(star.corners)].finished - middle
        piece = corner if gap.x and gap.y else side
        # the corner of the piece that goes in is its right angle
        j = next(
            j
            for j, along in enumerate(piece.directions)
            if not along.dot(piece.directions[(j + 1) % len(piece.directions)])
        )
        star = chain(star, n, piece, j, k=2).unit
    return settled(star)


def finished_part(unit: Unit, fabric: str) -> Exact:
    """The area one fabric shows inside the seam lines."""
    patches = tuple(patch for patch in unit.patches if patch.fabric == fabric)
    outline = finished_outline(unit)
    for i, corner in enumerate(outline):
        along = outline[(i + 1) % len(outline)] - corner
        if along:
            patches, _ = divided(patches, corner, along)
    return seen_area(patches)
