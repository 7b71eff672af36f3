"""`triangle HEIGHT at ANGLE of FABRIC`"""

from __future__ import annotations

from piecewright.kernel.slanted import triangle
from piecewright.verbs.cloth import cut_at_angle
from piecewright.verbs.registry import Said, Verb
from piecewright.verbs.work import Bench, Brought


def run(bench: Bench, said: Said) -> Brought:
    return cut_at_angle(bench, said, "triangle", triangle, said.length("HEIGHT"))


VERB = Verb(
    name="triangle",
    sentences=("triangle HEIGHT at ANGLE of FABRIC",),
    summary="a triangle cut from a strip of its height, its base at the bottom; equal-sided at 60 degrees",
    example="triangle 3 3/4 at 60 of sand",
    role="noun",
    run=run,
)
