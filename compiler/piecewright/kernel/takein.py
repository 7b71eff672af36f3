"""Small changes to an outline before a seam: a mark on an edge, an edge taken in."""

from __future__ import annotations

from piecewright.exact import Exact, Vector
from piecewright.kernel.errors import SewingError
from piecewright.kernel.polygon import meet, tidy
from piecewright.kernel.removal import remove, shortened
from piecewright.kernel.unit import Corner, Unit, roped


def marked(unit: Unit, edge: int, point: Vector) -> tuple[Unit, int]:
    """The unit with a corner of 180 degrees at a point of an edge's seam line; the edge's number stays
    that of its first part. SewingError `mark-off-edge` when the point is not strictly between its ends."""
    count = len(unit.corners)
    along = unit.directions[edge]
    here, there = unit.corners[edge].finished, unit.corners[(edge + 1) % count].finished
    if (point - here).dot(along) <= 0 or (there - point).dot(along) <= 0:
        raise SewingError("mark-off-edge")
    corner = Corner(finished=point, raw=(point + along.right() * unit.allowance,))
    return (
        roped(
            corners=(*unit.corners[: edge + 1], corner, *unit.corners[edge + 1 :]),
            directions=(*unit.directions[: edge + 1], along, *unit.directions[edge + 1 :]),
            patches=unit.patch_rope,
            seams=unit.seam_rope,
            ledger=unit.accounts,
            allowance=unit.allowance,
            cloth=unit.cloth,
        ),
        edge,
    )


def taken_in(unit: Unit, edge: int, by: Exact) -> Unit:
    """The unit with one edge moved inward by a small distance; the sliver goes to the ledger.

    SewingError `edge-too-short` when a neighbouring edge has not that much to give.
    """
    count = len(unit.corners)
    along = unit.directions[edge]
    inward = along.left() * by
    before, after = unit.directions[edge - 1], unit.directions[(edge + 1) % count]
    here, there = unit.corners[edge], unit.corners[(edge + 1) % count]
    start = _crossing(here.finished + inward, along, here.finished, before)
    end = _crossing(there.finished + inward, along, there.finished, after)
    raw_start = _crossing(here.raw[-1] + inward, along, here.raw[-1], before)
    raw_end = _crossing(there.raw[0] + inward, along, there.raw[0], after)
    if (end - start).dot(along) <= 0:
        raise SewingError("edge-too-short")
    hole = tidy((here.raw[-1], there.raw[0], raw_end, raw_start))
    patches, taken, _ = remove(unit.patch_rope, hole, "sliver")
    corners = list(unit.corners)
    corners[edge] = Corner(finished=start, raw=(*here.raw[:-1], raw_start))
    corners[(edge + 1) % count] = Corner(finished=end, raw=(raw_end, *there.raw[1:]))
    return roped(
        corners=tuple(corners),
        directions=unit.directions,
        patches=patches,
        seams=shortened(unit.seam_rope, hole),
        ledger=(unit.accounts, taken),
        allowance=unit.allowance,
        cloth=unit.cloth,
    )


def _crossing(point: Vector, along: Vector, other: Vector, other_along: Vector) -> Vector:
    """Where the moved edge meets its neighbour; straight across where they run in one line."""
    if not along.cross(other_along):
        return point
    return meet(point, along, other, other_along)
