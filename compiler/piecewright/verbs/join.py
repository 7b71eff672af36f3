"""`join PIECE on EDGES` and `join EDGE of PIECE on EDGES`"""

from __future__ import annotations

from dataclasses import replace

from piecewright.exact import Exact
from piecewright.kernel.action import Action, Sew
from piecewright.kernel.chain import Fit
from piecewright.kernel.gaps import inner_corners
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
    step = _step(said, usable is not None)
    stop, part = said.clause("stop"), said.clause("part")
    if part is not None and (said.clause("even") is None or usable is not None):
        raise Refused("part-without-end", part.at())
    unit, words = work.unit, work.words
    actions: list[Action] = []
    for n, name in enumerate(edges):
        slot = f"EDGES[{n}]"
        mine = edge_of(unit, name, slot)
        if "EDGE" in said:
            theirs = edge_of(brought.unit, said.word("EDGE"), "EDGE")
        else:
            theirs = edge_of(brought.unit, OPPOSITE[name], "PIECE")
        sew, pressing = sewn(
            bench,
            said,
            unit,
            words,
            mine,
            brought,
            theirs,
            fit=_fit(said, unit, mine),
            slot=slot,
            part=part is not None,
            step=step,
        )
        if stop is not None:
            sew = _short(sew, stop)
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


def _short(sew: Sew, clause: Said) -> Sew:
    """The seam stops one allowance from each end that becomes an inner corner, and goes to the raw edge elsewhere."""
    first, edge = sew.first, sew.first_edges[0]
    inner = {sew.result.corners[n].finished for n in inner_corners(sew.result)}
    ends = (first.corners[edge].finished, first.corners[(edge + 1) % len(first.corners)].finished)
    stops = tuple(end for end in ends if end in inner)
    if not stops:
        raise Refused("no-end-to-stop-at", clause.at())
    return replace(sew, stops=stops)


def _step(said: Said, strips: bool) -> Exact | None:
    """How far right of the strip before it the new one begins: to the left where it steps out at the left end."""
    clause = said.clause("stepped")
    if clause is None:
        return None
    if not strips:
        raise Refused("stepped-not-strips", clause.at())
    end = clause.word("EDGE")
    if end not in ("left", "right"):
        raise Refused("not-a-strip-end", clause.at("EDGE"), place=end)
    size = clause.length("SIZE")
    return -size if end == "left" else size


VERB = Verb(
    name="join",
    sentences=("join EDGE of PIECE on EDGES", "join PIECE on EDGES"),
    summary="sews a piece to an edge of the work, one piece to each edge named",
    example="join half-plain(dusk) on long-edge, press toward half-plain",
    clauses=(*press.CLAUSES, "centred", "even at END", "stop short", "part sewn", "stepped SIZE from EDGE"),
    on_strips=True,
    run=run,
)
