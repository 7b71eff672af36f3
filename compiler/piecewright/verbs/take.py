"""`take PIECE`"""

from __future__ import annotations

from piecewright.verbs.cloth import laid
from piecewright.verbs.registry import Said, Verb
from piecewright.verbs.work import Bench, Done


def run(bench: Bench, said: Said) -> Done:
    return laid(said.piece())


VERB = Verb(
    name="take",
    sentences=("take PIECE",),
    summary="brings one made before to the table",
    example="take framed(sand, dusk)",
    role="start",
    run=run,
)
