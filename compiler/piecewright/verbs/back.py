"""`back of FABRIC`"""

from __future__ import annotations

from dataclasses import replace

from piecewright.exact import INCH_PER
from piecewright.kernel.action import Back
from piecewright.kernel.backing import ROUND, ROUND_METRIC, backing
from piecewright.kernel.build import Piece, Supply
from piecewright.kernel.buying import to_buy
from piecewright.kernel.measure import height, width
from piecewright.verbs.registry import Said, Verb
from piecewright.verbs.work import Bench, Done, Refused, not_more


def run(bench: Bench, said: Said) -> Done:
    """The panels are cut along the selvages; the top is only laid on them."""
    work = bench.hand()
    fabric = said.word("FABRIC")
    clause = said.clause("beyond")
    beyond = ROUND if bench.settings.units == "inch" else ROUND_METRIC * INCH_PER["cm"]
    if clause is not None:
        beyond = clause.length("SIZE")
        not_more(beyond, min(width(work.unit), height(work.unit)), clause.at("SIZE"))
    cloth, settings = bench.fabrics[fabric], bench.settings
    usable = settings.ruler * (cloth.usable / settings.ruler).floor()
    if usable <= settings.seam * 2:
        raise Refused("cloth-too-narrow", "FABRIC", usable=usable)
    step = (cloth.sold or settings.sold).step
    whole = backing(
        width(work.unit),
        height(work.unit),
        usable,
        settings.seam,
        beyond,
        mark=settings.ruler,
        buys=lambda length: length if step is None else to_buy(length, cloth, step),
        directional=cloth.directional,
        whole=step is None,
    )
    panels = [
        Supply(source=Piece(shape="panel", width=across, height=along, fabric=fabric, lengthwise=True), count=count)
        for across, along, count in whole.cuts
    ]
    action = Back(top=work.unit, fabric=fabric, backing=whole)
    return Done(work=replace(work, quilted="back"), actions=(action,), supplies=tuple(panels))


VERB = Verb(
    name="back",
    sentences=("back of FABRIC",),
    summary="a backing, and a batting of the same size, 4 in (10 cm) larger on every side than the top",
    example="back of dusk, beyond 3",
    clauses=("beyond SIZE",),
    quilt_only=True,
    run=run,
)
