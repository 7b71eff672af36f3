"""The one joining operation: k consecutive edges of one unit sewn to k of another.

A plain join is k = 1, a set-in seam k = 2, the last border of a mitred frame k = 3. Units are placed by
their finished edges, never by raw tips or visible chords: at a corner of angle a the visible chord ends
s / sin a beyond the finished corner, so a perfect fit of a square and a triangle shows an overhang of
(√2 - 1)·s.
"""

from __future__ import annotations

from typing import Literal

from piecewright.dataclass import dataclass
from piecewright.exact import Exact, Vector
from piecewright.kernel.cut import is_convex
from piecewright.kernel.doubled import without_allowance
from piecewright.kernel.errors import SewingError
from piecewright.kernel.junction import Junction, close_junction
from piecewright.kernel.measure import edge_length
from piecewright.kernel.moves import moved, rotated
from piecewright.kernel.polygon import HALF, ZERO, tidy
from piecewright.kernel.removal import ended_at, remove, shortened
from piecewright.kernel.rope import Rope
from piecewright.kernel.takein import marked, taken_in
from piecewright.kernel.unit import Accounts, Corner, Polygon, Pressed, Seam, Spot, Unit, roped, spots_of

_EAST = Vector(1, 0)

Fit = Literal["exact", "centred", "start", "end"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Joined:
    """`unit`: the result, in the first unit's frame. `second`: the other as it was placed. `seam`: the
    index in `unit.seams` of the first new seam. `eased`: the difference of the finished lengths that the
    sewing takes up (zero where the edges match or one is longer on purpose). `second_edge`: the number of
    the first sewn edge in `second`, which differs from the one given where a mark stands before it."""

    unit: Unit
    second: Unit
    seam: int
    eased: Exact
    second_edge: int


def chain(
    first: Unit,
    i: int,
    second: Unit,
    j: int,
    *,
    k: int = 1,
    fit: Fit = "exact",
    tolerance: Exact = ZERO,
    pressed: Pressed = "open",
) -> Joined:
    """Sews edges i … i+k-1 of `first` to edges j … j+k-1 of `second`, right sides together.

    `fit`: `exact` asks for equal finished lengths within the tolerance; `centred`, `start` and `end` (of
    `first`'s edge, along its direction) say how unequal edges lie, for k = 1. `pressed` is seen along
    `first`'s edge: left is toward `first`.

    SewingError: `edges-differ` (first, second, difference), `angles-differ`, `corners-miss` (difference),
    `no-room` where the corners would overlap.
    """
    second = _placed(first, i, second, j, k, fit)
    eased = ZERO
    if k == 1:
        one = edge_length(first, i, finished=True)
        other = edge_length(second, j, finished=True)
        difference = abs(one - other)
        if difference > tolerance:
            if fit == "exact":
                raise SewingError("edges-differ", first=one, second=other, difference=difference)
            first, i, second, j = _with_marks(first, i, second, j, one, other)
        else:
            eased = difference
    else:
        eased = _check_inner(first, i, second, j, k, tolerance)
    first, second = _ease(first, i, second, j, k)
    spots: Rope[Spot] | None = None
    are_set = first.spots is not None or second.spots is not None
    if are_set and not eased and fit == "exact" and all(one.spots or is_convex(one) for one in (first, second)):
        spots = spots_of(first) + spots_of(second)
    unit = _sew(first, i, second, j, k, pressed, spots)
    # the new seams stand last; those of both units are before them, less any that went under
    return Joined(unit=unit, second=second, seam=unit.seam_rope.count - k, eased=eased, second_edge=j)


def _placed(first: Unit, i: int, second: Unit, j: int, k: int, fit: Fit) -> Unit:
    n, m = len(first.corners), len(second.corners)
    facing = second.directions[(j + k - 1) % m]
    turn = (-first.directions[i]).turned(facing.conjugate())
    if turn != _EAST:  # turns and shifts are only noted, so that two steps cost no more than one
        second = rotated(second, turn)
    for t in range(k):
        a = first.directions[(i + t) % n]
        b = second.directions[(j + k - 1 - t) % m]
        if a != -b:
            raise SewingError("angles-differ")
    start, end = first.corners[i].finished, first.corners[(i + 1) % n].finished
    against_start = second.corners[(j + k) % m].finished
    against_end = second.corners[(j + k - 1) % m].finished
    if k > 1 or fit == "end":
        return moved(second, end - against_end)
    if fit == "start":
        return moved(second, start - against_start)
    return moved(second, (start + end - against_start - against_end) * HALF)


def _check_inner(first: Unit, i: int, second: Unit, j: int, k: int, tolerance: Exact) -> Exact:
    n, m = len(first.corners), len(second.corners)
    for t in range(1, k):
        here = first.corners[(i + t) % n].finished
        there = second.corners[(j + k - t) % m].finished
        if here != there:
            along = first.directions[(i + t - 1) % n]
            raise SewingError("corners-miss", difference=abs((there - here).dot(along)))
    worst = ZERO
    for t in (0, k - 1):
        one = edge_length(first, (i + t) % n, finished=True)
        other = edge_length(second, (j + k - 1 - t) % m, finished=True)
        difference = abs(one - other)
        if difference > tolerance:
            raise SewingError("edges-differ", first=one, second=other, difference=difference)
        worst = max(worst, difference)
    return worst


def _with_marks(
    first: Unit, i: int, second: Unit, j: int, one: Exact, other: Exact
) -> tuple[Unit, int, Unit, int]:
    """Edges of unequal length: the longer one gets a mark where the shorter one ends, unless its own
    corner there is a tip that the next seam cuts off."""
    if one > other:
        shorter = (second.corners[(j + 1) % len(second.corners)].finished, second.corners[j].finished)
        first, i = _mark_ends(first, i, shorter, second, j)
    else:
        shorter = (first.corners[(i + 1) % len(first.corners)].finished, first.corners[i].finished)
        second, j = _mark_ends(second, j, shorter, first, i)
    return first, i, second, j


def _mark_ends(
    longer: Unit, edge: int, ends: tuple[Vector, Vector], partner: Unit, partner_edge: int
) -> tuple[Unit, int]:
    """Marks on the longer edge at `ends` (in its own direction) where they do not meet its corners."""
    count = len(longer.corners)
    before, along, after = (longer.directions[(edge + t) % count] for t in (-1, 0, 1))
    other = len(partner.corners)
    partner_after = partner.directions[(partner_edge + 1) % other]
    partner_before = partner.directions[(partner_edge - 1) % other]
    # the end first, so that the number of the edge still holds for its start
    if longer.corners[(edge + 1) % count].finished != ends[1]:
        acute = along.dot(after) < 0 and along.cross(after) > 0
        if not (acute and partner_before.cross(after) > 0):
            longer, edge = marked(longer, edge, ends[1])
    if longer.corners[edge].finished != ends[0]:
        acute = before.dot(along) < 0 and before.cross(along) > 0
        if not (acute and before.cross(partner_after) > 0):
            longer, edge = marked(longer, edge, ends[0])
            edge += 1
    return longer, edge


def _ease(first: Unit, i: int, second: Unit, j: int, k: int) -> tuple[Unit, Unit]:
    """Neighbours that run on in one line but lie apart by an eased mismatch: the outer one is taken in."""
    n, m = len(first.corners), len(second.corners)
    for mine, theirs in (((i + k) % n, (j - 1) % m), ((i - 1) % n, (j + k) % m)):
        along = first.directions[mine]
        if second.directions[theirs] != along:
            continue
        gap = along.cross(second.corners[theirs].finished - first.corners[mine].finished)
        sign = gap.sign()
        # the inside of an edge is on its left: a positive gap means that the second one lies further in
        if sign > 0:
            first = taken_in(first, mine, gap)
        elif sign < 0:
            second = taken_in(second, theirs, -gap)
    return first, second


def _sew(
    first: Unit, i: int, second: Unit, j: int, k: int, pressed: Pressed, spots: Rope[Spot] | None
) -> Unit:
    n, m = len(first.corners), len(second.corners)
    s = first.allowance
    start = Junction(
        incoming=first.directions[i - 1],
        outgoing=second.directions[(j + k) % m],
        seam=first.directions[i],
        in_corner=first.corners[i],
        out_corner=second.corners[(j + k) % m],
        at_start=True,
        allowance=s,
    )
    end = Junction(
        incoming=second.directions[j - 1],
        outgoing=first.directions[(i + k) % n],
        seam=first.directions[(i + k - 1) % n],
        in_corner=second.corners[j],
        out_corner=first.corners[(i + k) % n],
        at_start=False,
        allowance=s,
    )
    closed_start, closed_end = close_junction(start), close_junction(end)

    my_ledger: list[Accounts]
    their_ledger: list[Accounts]
    mine, my_seams, my_ledger = first.patch_rope, first.seam_rope, [first.accounts]
    theirs, their_seams, their_ledger = second.patch_rope, second.seam_rope, [second.accounts]
    sewn: list[Seam] = []
    for t in range(k):
        a, b = (i + t) % n, (j + k - 1 - t) % m
        hole = allowance_of(
            first, a, closed_start.first_end if t == 0 else None, closed_end.first_end if t == k - 1 else None
        )
        mine, taken = without_allowance(first, a, mine, hole)
        my_ledger.append(taken)
        my_seams = shortened(my_seams, hole)
        hole = allowance_of(
            second, b, closed_end.second_end if t == k - 1 else None, closed_start.second_end if t == 0 else None
        )
        theirs, taken = without_allowance(second, b, theirs, hole)
        their_ledger.append(taken)
        their_seams = shortened(their_seams, hole)
        if t:
            inner = first.corners[a].finished
            my_seams = ended_at(my_seams, inner, (first.directions[a - 1] + first.directions[a]).right())
            outward = (second.directions[b] + second.directions[(b + 1) % m]).right()
            their_seams = ended_at(their_seams, inner, outward)
        sewn.append(
            Seam(
                start=closed_start.visible if t == 0 else first.corners[a].finished,
                end=closed_end.visible if t == k - 1 else first.corners[(a + 1) % n].finished,
                direction=first.directions[a],
                pressed=pressed,
            )
        )
    for closed in (closed_start, closed_end):
        if closed.ear and closed.ear_of == "first":
            mine, taken, _ = remove(mine, closed.ear, "ear")
            my_ledger.append(taken)
            my_seams = shortened(my_seams, closed.ear)
        elif closed.ear:
            theirs, taken, _ = remove(theirs, closed.ear, "ear")
            their_ledger.append(taken)
            their_seams = shortened(their_seams, closed.ear)

    corners: list[Corner] = []
    directions: list[Vector] = []
    # from the junction at the end, round first, to the junction at the start, round second
    if closed_end.corner is not None:
        corners.append(closed_end.corner)
        directions.append(first.directions[(i + k) % n])
    for t in range(1, n - k):
        corners.append(first.corners[(i + k + t) % n])
        directions.append(first.directions[(i + k + t) % n])
    if closed_start.corner is not None:
        corners.append(closed_start.corner)
        directions.append(second.directions[(j + k) % m])
    for t in range(1, m - k):
        corners.append(second.corners[(j + k + t) % m])
        directions.append(second.directions[(j + k + t) % m])
    return roped(
        corners=tuple(corners),
        directions=tuple(directions),
        patches=mine + theirs,
        seams=my_seams + their_seams + Rope(tuple(sewn)),
        ledger=tuple(my_ledger + their_ledger),
        allowance=s,
        cloth=first.cloth + second.cloth,
        spots=spots,
    )


def allowance_of(unit: Unit, edge: int, start: Vector | None, end: Vector | None) -> Polygon:
    """The allowance of a sewn edge: between the visible chord and the raw edge. An outer end is given as
    the point where the chord ends; an inner one (None) ends at the finished corner."""
    count = len(unit.corners)
    here, there = unit.corners[edge], unit.corners[(edge + 1) % count]
    out = unit.directions[edge].right() * unit.allowance
    raw_start, raw_end = here.raw[-1], there.raw[0]
    if start is not None and unit.directions[edge - 1] == unit.directions[edge]:
        raw_start = start + out
    if end is not None and unit.directions[(edge + 1) % count] == unit.directions[edge]:
        raw_end = end + out
    return tidy(
        (
            start if start is not None else here.finished,
            raw_start,
            raw_end,
            end if end is not None else there.finished,
        )
    )
