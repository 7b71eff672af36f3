"""`rectangle ACROSS by DOWN of FABRIC`"""

from __future__ import annotations

from piecewright.verbs.cloth import LENGTHWISE, cut_from_cloth
from piecewright.verbs.registry import Said, Verb
from piecewright.verbs.work import Bench, Brought


def run(bench: Bench, said: Said) -> Brought:
    sizes = said.length("ACROSS"), said.length("DOWN")
    lengthwise = said.clause(LENGTHWISE) is not None
    return cut_from_cloth(bench, "rectangle", *sizes, said.word("FABRIC"), lengthwise=lengthwise)


VERB = Verb(
    name="rectangle",
    sentences=("rectangle ACROSS by DOWN of FABRIC",),
    summary="a rectangle cut from cloth, its size across first",
    example="rectangle 2 1/2 by 4 1/2 of sand",
    clauses=(LENGTHWISE,),
    role="noun",
    run=run,
)
