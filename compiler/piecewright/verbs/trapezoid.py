"""`trapezoid BASE by HEIGHT at ANGLE of FABRIC`"""

from __future__ import annotations

from piecewright.kernel.slanted import trapezoid
from piecewright.verbs.cloth import cut_at_angle
from piecewright.verbs.registry import Said, Verb
from piecewright.verbs.work import Bench, Brought


def run(bench: Bench, said: Said) -> Brought:
    return cut_at_angle(bench, said, "trapezoid", trapezoid, said.length("BASE"), said.length("HEIGHT"))


VERB = Verb(
    name="trapezoid",
    sentences=("trapezoid BASE by HEIGHT at ANGLE of FABRIC",),
    summary="a trapezoid with its long side at the bottom and the same angle at both ends; half a hexagon at 60",
    example="trapezoid 6 3/4 by 3 1/2 at 60 of sand",
    role="noun",
    run=run,
)
