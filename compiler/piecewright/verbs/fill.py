"""`fill sides and corners of FABRIC`"""

from __future__ import annotations

from piecewright.verbs.on_point import filled
from piecewright.verbs.registry import Said, Verb
from piecewright.verbs.work import Bench, Done, Refused


def run(bench: Bench, said: Said) -> Done:
    """Triangles cut from quartered and halved squares, so that the edges of the quilt do not stretch."""
    pointed = bench.hand().pointed
    if pointed is None:
        raise Refused("fill-nowhere")
    return filled(bench, said, pointed)


VERB = Verb(
    name="fill",
    sentences=("fill TARGETS of FABRIC",),
    summary="side and corner triangles round a table on point, which is then sewn in diagonal rows and trimmed",
    example="fill sides and corners of dusk, float 1/2",
    clauses=("float SIZE", "press open"),
    quilt_only=True,
    run=run,
)
