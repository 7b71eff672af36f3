"""`foundation ACROSS by DOWN of FABRIC`"""

from __future__ import annotations

from piecewright.exact import Exact
from piecewright.kernel.action import Add
from piecewright.kernel.build import Piece, Supply
from piecewright.kernel.foundation import ROUGH, Foundation, pieced, rough, started
from piecewright.verbs.registry import Said, Verb
from piecewright.verbs.work import Bench, Done, Work, not_more

MARGIN = Exact(1, 4)
"""Beyond the allowance on every side of a rough piece, in inches: common practice."""


def run(bench: Bench, said: Said) -> Done:
    """A paper of that cut size with its first piece on it, which covers what the later ones leave."""
    margin = said.clause("margin")
    if margin is not None:
        not_more(margin.length("SIZE"), min(said.length("ACROSS"), said.length("DOWN")), margin.at("SIZE"))
    return on_paper(
        started(
            said.length("ACROSS"),
            said.length("DOWN"),
            fabric=said.word("FABRIC"),
            allowance=bench.settings.seam,
            margin=MARGIN if margin is None else margin.length("SIZE"),
            mark=bench.settings.ruler,
            cut=f"{ROUGH}:{bench.line}",
        )
    )


def on_paper(foundation: Foundation) -> Done:
    """The work when the last piece of a foundation has been opened."""
    number = len(foundation.pieces) - 1
    unit = pieced(foundation)
    return Done(
        work=Work(unit=unit, paper=foundation),
        actions=(Add(foundation=foundation, number=number, result=unit),),
        supplies=(supply_of(foundation, number),),
    )


def supply_of(foundation: Foundation, number: int) -> Supply:
    """The rough piece of cloth that one piece on the paper takes."""
    cut = rough(foundation, number)
    fabric = foundation.pieces[number].fabric
    return Supply(source=Piece(shape=ROUGH, width=cut.along, height=cut.across, fabric=fabric), count=1)


VERB = Verb(
    name="foundation",
    sentences=("foundation ACROSS by DOWN of FABRIC",),
    summary="a paper of that size to sew on, its first piece laid on it; `margin` is what rough pieces have to spare",
    example="foundation 6 1/2 by 6 1/2 of sand",
    clauses=("margin SIZE",),
    role="start",
    run=run,
)
