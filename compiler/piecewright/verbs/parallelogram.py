"""`parallelogram BASE by HEIGHT at ANGLE of FABRIC`"""

from __future__ import annotations

from piecewright.kernel.slanted import parallelogram
from piecewright.verbs.cloth import cut_at_angle
from piecewright.verbs.registry import Said, Verb
from piecewright.verbs.work import Bench, Brought


def run(bench: Bench, said: Said) -> Brought:
    return cut_at_angle(bench, said, "parallelogram", parallelogram, said.length("BASE"), said.length("HEIGHT"))


VERB = Verb(
    name="parallelogram",
    sentences=("parallelogram BASE by HEIGHT at ANGLE of FABRIC",),
    summary="a parallelogram that leans right, its base along the edge of the strip it is cut from",
    example="parallelogram 6 by 2 1/2 at 45 of sand",
    role="noun",
    run=run,
)
