"""`join PIECE on EDGES` and `join EDGE of PIECE on EDGES`"""

from __future__ import annotations

from dataclasses import replace

from piecewright.kernel.action import Action
from piecewright.kernel.chain import Fit
from piecewright.kernel.unit import Unit
from piecewright.verbs import press
from piecewright.verbs.cloth import supply
from piecewright.verbs.registry import Said, Verb
from piecewright.verbs.sewing import edge_of, sewn
from piecewright.verbs.words import OPPOSITE
from piecewright.verbs.work import Bench, Done, Refused


def run(bench: Bench, said: Said) -> Done:
    """Edge after edge, each place read afresh: one piece to each. The piece lies as named, so that its facing
    edge is sewn unless another one leads."""
    work, brought = bench.hand(), said.piece()
    edges = said.words("EDGES")
    usable = work.usable
    if usable is not None or brought.usable is not None:
        if usable is None or brought.usable is None:
            raise Refused("strip-with-piece", "PIECE", piece=brought.name, strip=usable is not None)
        usable = min(usable, brought.usable)
        for n, name in enumerate(edges):
            if name in ("left", "right"):
                raise Refused("strip-ends", f"EDGES[{n}]", place=name)
    unit, words = work.unit, work.words
    actions: list[Action] = []
    for n, name in enumerate(edges):
        slot = f"EDGES[{n}]"
        mine = edge_of(unit, name, slot)
        if "EDGE" in said:
            theirs = edge_of(brought.unit, said.word("EDGE"), "EDGE")
        else:
            theirs = edge_of(brought.unit, OPPOSITE[name], "PIECE")
        sew, pressing = sewn(bench, said, unit, words, mine, brought, theirs, fit=_fit(said, unit, mine), slot=slot)
        actions += (sew, pressing)
        unit = sew.result
        words = tuple(dict.fromkeys((*words, *brought.words)))
    return Done(
        work=replace(work, unit=unit, words=words, usable=usable),
        actions=tuple(actions),
        supplies=(supply(brought, len(edges)),),
    )


def _fit(said: Said, unit: Unit, edge: int) -> Fit:
    """How edges of unequal length are laid: `even` names a place at one end of the work's edge."""
    even = said.clause("even")
    if even is None:
        return "centred" if said.clause("centred") else "exact"
    if said.clause("centred"):
        raise Refused("centred-and-even", even.at())
    place = even.word("END")
    x = -1 if "left" in place else 1 if "right" in place else 0
    y = -1 if "bottom" in place or "lower" in place else 1 if "top" in place or "upper" in place else 0
    along = unit.directions[edge]
    sign = (along.x * x + along.y * y).sign()
    if not sign or "middle" in place:
        raise Refused("not-an-end", even.at("END"), place=place)
    return "end" if sign > 0 else "start"


VERB = Verb(
    name="join",
    sentences=("join EDGE of PIECE on EDGES", "join PIECE on EDGES"),
    summary="sews a piece to an edge of the work, one piece to each edge named",
    example="join half-plain(dusk) on long-edge, press toward half-plain",
    clauses=(*press.CLAUSES, "centred", "even at END"),
    on_strips=True,
    run=run,
)
