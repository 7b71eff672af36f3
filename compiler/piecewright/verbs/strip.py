"""`strip WIDTH of FABRIC`"""

from __future__ import annotations

from piecewright.kernel.build import Piece
from piecewright.kernel.pieces import rectangle
from piecewright.verbs.registry import Said, Verb
from piecewright.verbs.work import Bench, Brought


def run(bench: Bench, said: Said) -> Brought:
    """A strip lies left to right and has no ends until `subcut`; it is drawn as long as the bench says."""
    width, fabric = said.length("WIDTH"), said.word("FABRIC")
    return Brought(
        unit=rectangle(bench.drawn, width, fabric=fabric, allowance=bench.settings.seam, cut=f"strip:{bench.line}"),
        source=Piece(shape="strip", width=None, height=width, fabric=fabric),
        name=f"{fabric} strip",
        usable=bench.fabrics[fabric].usable,
    )


VERB = Verb(
    name="strip",
    sentences=("strip WIDTH of FABRIC",),
    summary="a strip across the width of the fabric, lying left to right; it has no ends until it is subcut",
    example="strip 2 1/2 of sand",
    role="noun",
    run=run,
)
