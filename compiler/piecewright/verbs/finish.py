"""`finish seam`"""

from __future__ import annotations

from dataclasses import replace

from piecewright.kernel.action import AWAY_FROM_SEWN, TOWARD_SEWN, Finish, Press
from piecewright.kernel.close import close
from piecewright.kernel.partial import open_seam
from piecewright.kernel.unit import Pressed, Unit
from piecewright.verbs import press
from piecewright.verbs.press import pressed
from piecewright.verbs.registry import Said, Verb
from piecewright.verbs.work import Bench, Brought, Done


def run(bench: Bench, said: Said) -> Done:
    """Sews what a seam `part sewn` left open, pressed as its first part unless it says otherwise. Both sides of it are
    the work itself, so no unit is named to press to."""
    work = bench.hand()
    unit, count = work.unit, len(work.unit.corners)
    corner = open_seam(unit, bench.settings.tolerance)
    into = (corner - 1) % count
    clause = said.clause("press")
    if clause is None:
        toward, side = "as its first part", _first_part(unit, corner)
    else:
        itself = Brought(unit=unit, source="", name="the work")
        toward, side = pressed(bench, clause, unit, (), into, itself, corner)
        if toward in (TOWARD_SEWN, AWAY_FROM_SEWN):
            toward = "as the arrow shows"
    after = close(unit, corner, tolerance=bench.settings.tolerance, pressed=side)
    finish = Finish(before=unit, edges=(into, corner), stop=unit.corners[corner].finished, result=after)
    return Done(
        work=replace(work, unit=after),
        actions=(finish, Press(result=after, seam=len(after.seams) - 1, toward=toward)),
    )


def _first_part(unit: Unit, corner: int) -> Pressed:
    """How the part of the seam that ends at a corner is pressed, seen along the edge into the corner."""
    along, stop = unit.directions[corner - 1], unit.corners[corner].finished
    for seam in reversed(unit.seams):
        if stop in (seam.start, seam.end) and not along.cross(seam.direction):
            if seam.direction == along or seam.pressed == "open":
                return seam.pressed
            return "left" if seam.pressed == "right" else "right"
    return "open"


VERB = Verb(
    name="finish",
    sentences=("finish seam",),
    summary="sews the open end of a seam that was part sewn",
    example="finish seam, press toward dusk",
    clauses=press.CLAUSES,
    run=run,
)
