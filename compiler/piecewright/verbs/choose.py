"""`choose NAME from FABRIC`"""

from __future__ import annotations

from piecewright.verbs.registry import Said, Verb
from piecewright.verbs.work import Bench, Done, Refused


def run(bench: Bench, said: Said) -> Done:
    """A stand-in may be any fabric, also an assorted one."""
    fabric = bench.fabrics[said.word("FABRIC")]
    if not (fabric.assorted or fabric.stand_in):
        raise Refused("one-print", "FABRIC", fabric=fabric.name, of=fabric.of)
    return Done(chosen=(said.word("NAME"), fabric.name))


VERB = Verb(
    name="choose",
    sentences=("choose NAME from FABRIC",),
    summary="fixes one print of an assorted fabric for one copy, also in the units it is handed to",
    example="choose light from lights",
    role="remark",
    on_strips=True,
    on_layers=True,
    run=run,
)
