"""`square SIZE of FABRIC`"""

from __future__ import annotations

from piecewright.verbs.cloth import cut_from_cloth
from piecewright.verbs.registry import Said, Verb
from piecewright.verbs.work import Bench, Brought


def run(bench: Bench, said: Said) -> Brought:
    size = said.length("SIZE")
    return cut_from_cloth(bench, "square", size, size, said.word("FABRIC"))


VERB = Verb(
    name="square",
    sentences=("square SIZE of FABRIC",),
    summary="a square cut from cloth",
    example="square 6 1/2 of sand",
    role="noun",
    run=run,
)
