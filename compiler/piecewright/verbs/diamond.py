"""`diamond WIDTH at ANGLE of FABRIC`"""

from __future__ import annotations

from piecewright.kernel.slanted import diamond
from piecewright.verbs.cloth import cut_at_angle
from piecewright.verbs.registry import Said, Verb
from piecewright.verbs.work import Bench, Brought


def run(bench: Bench, said: Said) -> Brought:
    return cut_at_angle(bench, said, "diamond", diamond, said.length("WIDTH"))


VERB = Verb(
    name="diamond",
    sentences=("diamond WIDTH at ANGLE of FABRIC",),
    summary="a diamond cut from a strip WIDTH wide, all sides equal, its sharp corner at the bottom left",
    example="diamond 2 1/2 at 45 of sand",
    role="noun",
    run=run,
)
