"""The outer end of a seam, where the outlines of two units become one.

Two corners meet there: the sewn edge ends on both sides, and the neighbouring edges go on as the
outline of the whole. What happens depends on the sum of the two angles: under 180 degrees the whole
has a convex corner and what lies beyond its raw edges is a dog ear; at 180 the corner is gone; over
180 it is an inner corner, and nothing is cut.
"""

from __future__ import annotations

from typing import Literal

from piecewright.dataclass import dataclass
from piecewright.exact import Exact, Vector
from piecewright.kernel.errors import SewingError
from piecewright.kernel.polygon import meet, tidy
from piecewright.kernel.unit import Corner, Polygon


@dataclass(frozen=True, slots=True, kw_only=True)
class Junction:
    """`incoming` and `outgoing`: directions of the outline of the whole into and out of the corner;
    `seam`: the direction of the sewn edge of the first unit, `at_start` True where it begins;
    `in_corner`, `out_corner`: the corners of the two units, by the outline that comes in and goes out."""

    incoming: Vector
    outgoing: Vector
    seam: Vector
    in_corner: Corner
    out_corner: Corner
    at_start: bool
    allowance: Exact


@dataclass(frozen=True, slots=True, kw_only=True)
class Closed:
    """`corner`: the corner of the whole, None where it is straight. `first_end`, `second_end`: on the
    seam line, how far each unit's allowance goes under. `visible`: where the seam ends to the eye.
    `ear`: cloth to cut away, `()` for none, of the unit `ear_of`."""

    corner: Corner | None
    first_end: Vector
    second_end: Vector
    visible: Vector
    ear: Polygon
    ear_of: Literal["first", "second"]


def close_junction(j: Junction) -> Closed:
    """Works the corner out. SewingError `no-room` where the two units would overlap."""
    s = j.allowance
    outward = -j.seam if j.at_start else j.seam
    # along the whole outline: the incoming side's sewn edge leaves the corner along `leave`
    leave = j.seam if j.at_start else -j.seam
    in_turn = j.incoming.cross(leave).sign()
    out_turn = (-leave).cross(j.outgoing).sign()
    turn = j.incoming.cross(j.outgoing).sign()
    # at an inner corner of one unit the other must fit into the angle that is left
    if min(in_turn, out_turn) < 0 and (max(in_turn, out_turn) <= 0 or turn >= 0):
        raise SewingError("no-room")
    in_end = _chord_end(j.in_corner.finished, outward, j.incoming.cross(leave), in_turn, s)
    out_end = _chord_end(j.out_corner.finished, outward, (-leave).cross(j.outgoing), out_turn, s)
    if in_end is None and out_end is None:
        in_end = out_end = j.in_corner.finished
    elif in_end is None:
        in_end = out_end
    elif out_end is None:
        out_end = in_end
    assert in_end is not None and out_end is not None
    first_end, second_end = (in_end, out_end) if j.at_start else (out_end, in_end)
    visible = in_end if (out_end - in_end).dot(outward) >= 0 else out_end

    corner: Corner | None
    ear: Polygon = ()
    ear_of: Literal["first", "second"] = "first"
    if turn > 0 and in_turn > 0 and out_turn > 0:
        finished = meet(j.in_corner.finished, j.incoming, j.out_corner.finished, j.outgoing)
        tip = meet(in_end, j.incoming, out_end, j.outgoing)
        corner = Corner(finished=finished, raw=(tip,))
        ear = tidy((in_end, out_end, tip)) if in_end != out_end else ()
        ear_of = "first" if (visible == second_end) else "second"
    elif turn == 0 and j.incoming == j.outgoing:
        corner = None
    elif turn == 0:
        if in_turn or out_turn:
            raise SewingError("no-room")
        finished = j.in_corner.finished
        out = j.incoming.right() * s
        corner = Corner(finished=finished, raw=(finished + out, finished, finished - out))
    else:
        finished = meet(j.in_corner.finished, j.incoming, j.out_corner.finished, j.outgoing)
        corner = Corner(
            finished=finished,
            raw=tidy_path(
                _tail(j.in_corner, in_end, in_turn, j.incoming.right() * s, ending=True)
                + _tail(j.out_corner, out_end, out_turn, j.outgoing.right() * s, ending=False)
            ),
        )
    return Closed(
        corner=corner,
        first_end=first_end,
        second_end=second_end,
        visible=visible,
        ear=ear,
        ear_of=ear_of,
    )


def _chord_end(finished: Vector, outward: Vector, sine: Exact, turn: int, s: Exact) -> Vector | None:
    """How far along the seam line a unit's allowance goes under: at a convex corner of angle a to
    s / sin a beyond the finished corner, at an inner corner to the corner itself; None at a mark, where
    the partner decides."""
    if turn > 0:
        return finished + outward * (s / sine)
    return finished if turn < 0 else None


def _tail(corner: Corner, end: Vector, turn: int, out: Vector, *, ending: bool) -> tuple[Vector, ...]:
    """The raw outline of one unit up to the seam line: the chord end at a convex corner, a step in at a
    mark, the old inner corner and then the finished one at an inner corner."""
    if turn > 0:
        return (end,)
    if turn == 0:
        return (end + out, end) if ending else (end, end + out)
    return (*corner.raw, corner.finished) if ending else (corner.finished, *corner.raw)


def tidy_path(path: tuple[Vector, ...]) -> tuple[Vector, ...]:
    """The path without points that repeat the one before."""
    return tuple(p for i, p in enumerate(path) if i == 0 or p != path[i - 1])
