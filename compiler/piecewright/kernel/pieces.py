"""Pieces cut from cloth, as units of one patch."""

from __future__ import annotations

from piecewright.exact import Exact, Vector
from piecewright.kernel.errors import SewingError
from piecewright.kernel.polygon import ZERO, area
from piecewright.kernel.ring import clip_ring, corners_between
from piecewright.kernel.unit import Patch, Polygon, Unit

EAST = Vector(Exact(1), ZERO)


def rectangle(width: Exact, height: Exact, *, fabric: str, allowance: Exact, cut: str = "") -> Unit:
    """A rectangle with its lower left corner at the origin, lengthwise grain across.

    SewingError `size-not-positive` for a side of nothing or less, `too-small` when the two seams
    would leave nothing to be seen.
    """
    if width <= 0 or height <= 0:
        raise SewingError("size-not-positive", width=width, height=height)
    outline = (
        Vector(ZERO, ZERO),
        Vector(width, ZERO),
        Vector(width, height),
        Vector(ZERO, height),
    )
    return polygon_piece(outline, fabric=fabric, allowance=allowance, cut=cut, grain=EAST)


def polygon_piece(
    outline: Polygon,
    *,
    fabric: str,
    allowance: Exact,
    cut: str = "",
    grain: Vector = EAST,
    directions: tuple[Vector, ...] | None = None,
) -> Unit:
    """A convex piece with the given raw outline. A tip so blunt that the seams pass beyond it keeps its
    short raw edge; the finished outline drops it. `directions`: the unit vectors along its edges, where they
    are known. SewingError `too-small` as above."""
    if directions is None:
        directions = tuple((outline[(i + 1) % len(outline)] - p).unit() for i, p in enumerate(outline))
    ring = tuple((p, i) for i, p in enumerate(outline))
    finished = ring
    for i, p in enumerate(outline):
        finished, _ = clip_ring(finished, p + directions[i].left() * allowance, directions[i], i)
        if len(finished) < 3:
            raise SewingError("too-small", width=None, height=None)
    seen = area(outline)
    return Unit(
        corners=corners_between(finished, ring),
        directions=tuple(directions[i] for _, i in finished),
        patches=(Patch(fabric=fabric, cells=(outline,), grain=grain, cut=cut),),
        seams=(),
        ledger=(),
        allowance=allowance,
        cloth=seen,
    )
