"""`rectangle ACROSS by DOWN of FABRIC`"""

from __future__ import annotations

from piecewright.verbs.cloth import cut_from_cloth
from piecewright.verbs.registry import Said, Verb
from piecewright.verbs.work import Bench, Brought


def run(bench: Bench, said: Said) -> Brought:
    return cut_from_cloth(bench, "rectangle", said.length("ACROSS"), said.length("DOWN"), said.word("FABRIC"))


VERB = Verb(
    name="rectangle",
    sentences=("rectangle ACROSS by DOWN of FABRIC",),
    summary="a rectangle cut from cloth, its size across first",
    example="rectangle 2 1/2 by 4 1/2 of sand",
    role="noun",
    run=run,
)
