"""Pieces cut from a strip at an angle: triangles, diamonds, parallelograms and trapezoids.

All lie on the edge of the strip they are cut from, their lower left corner at the origin, the lengthwise grain
across as in every strip. `degrees` is the angle between that edge and the slanted side; it is sharp, and one that
`Vector.at` knows. A slanted side of a piece `height` high runs height / sin a along itself and height · cot a
along the edge.
"""

from __future__ import annotations

from piecewright.exact import Exact, OutsideNumbers, Vector
from piecewright.kernel.errors import SewingError
from piecewright.kernel.pieces import EAST, polygon_piece
from piecewright.kernel.polygon import ZERO
from piecewright.kernel.unit import Unit


def slope(degrees: int) -> Vector:
    """The unit vector along a slanted side. SewingError: `angle-not-sharp`, `angle-outside` (degrees)."""
    if not 0 < degrees < 90:
        raise SewingError("angle-not-sharp", degrees=degrees)
    try:
        return Vector.at(degrees)
    except OutsideNumbers:
        raise SewingError("angle-outside", degrees=degrees) from None


def slant(height: Exact, degrees: int) -> Exact:
    """How far a slanted side runs along the strip: height · cot a."""
    side = slope(degrees)
    return height * side.x / side.y


def triangle_base(height: Exact, degrees: int) -> Exact:
    """The base of a triangle with that angle at both its ends: 2 · height · cot a, at 60 degrees 2 · height / √3."""
    return slant(height, degrees) * 2


def diamond_side(width: Exact, degrees: int) -> Exact:
    """The side of a diamond cut from a strip `width` wide. Both its heights are the strip's, so it is cut at every
    `width` square to the cut, and its side is width / sin a."""
    return width / slope(degrees).y


def triangle(height: Exact, degrees: int, *, fabric: str, allowance: Exact, cut: str = "") -> Unit:
    """Two equal sides on a base at the bottom, the angle at both ends of it; equal-sided at 60 degrees.

    SewingError: `size-not-positive`, `too-small`, and those of `slope`.
    """
    side = slope(degrees)
    _positive(height)
    run = height * side.x / side.y
    return polygon_piece(
        (Vector(ZERO, ZERO), Vector(run * 2, ZERO), Vector(run, height)),
        fabric=fabric,
        allowance=allowance,
        cut=cut,
        directions=(EAST, Vector(-side.x, side.y), -side),
    )


def diamond(width: Exact, degrees: int, *, fabric: str, allowance: Exact, cut: str = "") -> Unit:
    """Four equal sides, a sharp corner at the bottom left. SewingError as for `triangle`."""
    _positive(width)
    base = diamond_side(width, degrees)
    return parallelogram(base, width, degrees, fabric=fabric, allowance=allowance, cut=cut)


def parallelogram(base: Exact, height: Exact, degrees: int, *, fabric: str, allowance: Exact, cut: str = "") -> Unit:
    """`base` at the bottom, leaning right. SewingError as for `triangle`."""
    side = slope(degrees)
    _positive(base, height)
    run = Vector(height * side.x / side.y, height)
    start, end = Vector(ZERO, ZERO), Vector(base, ZERO)
    return polygon_piece(
        (start, end, end + run, run),
        fabric=fabric,
        allowance=allowance,
        cut=cut,
        directions=(EAST, side, -EAST, -side),
    )


def trapezoid(base: Exact, height: Exact, degrees: int, *, fabric: str, allowance: Exact, cut: str = "") -> Unit:
    """The long side at the bottom, the same angle at both its ends; the short side is 2 · height · cot a less.

    SewingError as for `triangle`, and `no-short-side` (base, run) where the slanted sides meet below the top.
    """
    side = slope(degrees)
    _positive(base, height)
    run = height * side.x / side.y
    if base <= run * 2:
        raise SewingError("no-short-side", base=base, run=run * 2)
    return polygon_piece(
        (Vector(ZERO, ZERO), Vector(base, ZERO), Vector(base - run, height), Vector(run, height)),
        fabric=fabric,
        allowance=allowance,
        cut=cut,
        directions=(EAST, Vector(-side.x, side.y), -EAST, -side),
    )


def _positive(*sizes: Exact) -> None:
    if any(size <= 0 for size in sizes):
        raise SewingError("size-not-positive", width=sizes[0], height=sizes[-1])
