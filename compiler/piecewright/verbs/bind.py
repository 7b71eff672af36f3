"""`bind WIDTH of FABRIC`"""

from __future__ import annotations

from dataclasses import replace

from piecewright.exact import INCH_PER
from piecewright.kernel.action import Bind
from piecewright.kernel.binding import EXTRA, EXTRA_METRIC, Join, binding, perimeter
from piecewright.kernel.build import Piece, Supply
from piecewright.kernel.measure import height, width
from piecewright.verbs.cloth import counted
from piecewright.verbs.registry import Said, Verb
from piecewright.verbs.work import Bench, Done, Refused, not_more


def run(bench: Bench, said: Said) -> Done:
    """Strips by the width of the cloth, or a square for strips on the bias."""
    work = bench.hand()
    wide, fabric = said.length("WIDTH"), said.word("FABRIC")
    settings = bench.settings
    if wide <= settings.seam * 4:
        # folded lengthwise, it is sewn one allowance from the edge and turned over it
        raise Refused("binding-too-narrow", "WIDTH", width=wide)
    not_more(wide, min(width(work.unit), height(work.unit)), "WIDTH")
    usable = settings.ruler * (bench.fabrics[fabric].usable / settings.ruler).floor()
    join: Join = "diagonal"
    for clause in said.clauses:
        if join != "diagonal":
            raise Refused("two-joins", clause.at())
        join = "bias" if clause.form == "bias" else "straight"
    if usable <= max(wide, settings.seam * 2):
        raise Refused("cloth-too-narrow", "FABRIC", usable=usable)
    inches = settings.units == "inch"
    made = binding(
        perimeter(work.unit),
        wide,
        usable,
        settings.seam,
        join,
        extra=EXTRA if inches else EXTRA_METRIC * INCH_PER["cm"],
        mark=settings.ruler,
        unit=INCH_PER["inch" if inches else "cm"],
    )
    if made.square is not None:
        side = made.square.side
        pieces = [(Piece(shape="square", width=side, height=side, fabric=fabric), 1)]
    else:
        pieces = [
            (Piece(shape="strip", width=length, height=wide, fabric=fabric), count)
            for length, count in counted([made.full] * (made.strips - 1) + [made.last])
        ]
    action = Bind(top=work.unit, fabric=fabric, binding=made)
    supplies = tuple(Supply(source=piece, count=count) for piece, count in pieces)
    return Done(work=replace(work, quilted="bind"), actions=(action,), supplies=supplies)


VERB = Verb(
    name="bind",
    sentences=("bind WIDTH of FABRIC",),
    summary="a binding of strips so wide, folded lengthwise, round the raw edge",
    example="bind 2 1/4 of glow",
    clauses=("straight", "bias"),
    quilt_only=True,
    run=run,
)
