"""Finishing a partial seam: two edges of one unit that lie against each other are sewn together."""

from __future__ import annotations

from piecewright.exact import Exact
from piecewright.kernel.chain import allowance_of
from piecewright.kernel.doubled import without_allowance
from piecewright.kernel.errors import SewingError
from piecewright.kernel.junction import Junction, close_junction
from piecewright.kernel.measure import edge_length
from piecewright.kernel.polygon import ZERO
from piecewright.kernel.removal import remove, shortened
from piecewright.kernel.rope import Rope
from piecewright.kernel.unit import Offcut, Pressed, Seam, Unit, roped


def close(unit: Unit, corner: int, *, tolerance: Exact = ZERO, pressed: Pressed = "open") -> Unit:
    """Sews the edge into a corner to the edge out of it, where they lie against each other (the open end of
    a seam that was partly sewn). `pressed` is seen along the edge into the corner.

    SewingError `not-open` where the corner is no such slit, `edges-differ` as for a join.
    """
    n = len(unit.corners)
    into, out = (corner - 1) % n, corner
    along = unit.directions[into]
    if unit.directions[out] != -along:
        raise SewingError("not-open")
    one, other = edge_length(unit, into, finished=True), edge_length(unit, out, finished=True)
    if abs(one - other) > tolerance:
        raise SewingError("edges-differ", first=one, second=other, difference=abs(one - other))
    start, after = unit.corners[into], unit.corners[(out + 1) % n]
    closed = close_junction(
        Junction(
            incoming=unit.directions[into - 1],
            outgoing=unit.directions[(out + 1) % n],
            seam=along,
            in_corner=start,
            out_corner=after,
            at_start=True,
            allowance=unit.allowance,
        )
    )
    patches = unit.patch_rope
    ledger: list[Offcut] = list(unit.ledger)
    seams = unit.seam_rope
    for edge, first, last in ((into, closed.first_end, None), (out, None, closed.second_end)):
        hole = allowance_of(unit, edge, first, last)
        patches, taken = without_allowance(unit, edge, patches, hole)
        ledger.extend(taken)
        seams = shortened(seams, hole)
    if closed.ear:
        patches, taken, _ = remove(patches, closed.ear, "ear")
        ledger.extend(taken)
        seams = shortened(seams, closed.ear)
    corners = [unit.corners[(out + 2 + t) % n] for t in range(n - 3)]
    directions = [unit.directions[(out + 2 + t) % n] for t in range(n - 3)]
    if closed.corner is not None:
        corners.append(closed.corner)
        directions.append(unit.directions[(out + 1) % n])
    sewn = Seam(start=closed.visible, end=unit.corners[corner].finished, direction=along, pressed=pressed)
    return roped(
        corners=tuple(corners),
        directions=tuple(directions),
        patches=patches,
        seams=seams + Rope((sewn,)),
        ledger=tuple(ledger),
        allowance=unit.allowance,
        cloth=unit.cloth,
    )
