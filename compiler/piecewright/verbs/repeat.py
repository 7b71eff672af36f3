"""`repeat COUNT`"""

from __future__ import annotations

from piecewright.verbs.registry import Said, Verb
from piecewright.verbs.work import Bench, Done


def run(bench: Bench, said: Said) -> Done:
    return Done(rounds=said.count("COUNT"))


VERB = Verb(
    name="repeat",
    sentences=("repeat COUNT",),
    summary="does the steps under it that many times",
    example="repeat 3",
    under="lines",
    on_strips=True,
    on_layers=True,
    run=run,
)
