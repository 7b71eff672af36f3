"""`note TEXT`"""

from __future__ import annotations

from piecewright.verbs.registry import Said, Verb
from piecewright.verbs.work import Bench, Done


def run(bench: Bench, said: Said) -> Done:
    return Done(notes=(said.word("TEXT"),))


VERB = Verb(
    name="note",
    sentences=("note TEXT",),
    summary="a remark that is printed with the step before",
    example='note "Press with steam."',
    role="remark",
    on_strips=True,
    on_layers=True,
    run=run,
)
