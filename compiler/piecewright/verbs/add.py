"""`add FABRIC at PLACE` along a line of the foundation, from point to point or measured along its edges"""

from __future__ import annotations

from typing import NamedTuple

from piecewright.exact import Exact, OutsideNumbers, Vector
from piecewright.kernel.errors import SewingError
from piecewright.kernel.foundation import ROUGH, Foundation, added
from piecewright.kernel.measure import raw_edge
from piecewright.kernel.places import EDGES, SIDES, edge, point
from piecewright.kernel.polygon import HALF, side
from piecewright.kernel.unit import Unit
from piecewright.verbs.foundation import on_paper
from piecewright.verbs.registry import Said, Verb
from piecewright.verbs.work import Bench, Done, Refused


class End(NamedTuple):
    """A point that a line runs through, and the slot that says it."""

    spot: Vector
    slot: str


def run(bench: Bench, said: Said) -> Done:
    """A piece sewn along the line, opened over all that lies on the side of the place."""
    work = bench.hand()
    paper = work.paper
    if paper is None:
        raise Refused("not-on-paper")
    ends = _ends(work.unit, paper, said)
    if len(ends) != 2:
        raise Refused("line-ends", ends[-1].slot if len(ends) > 2 else "", ends=len(ends))
    (start, _), (end, slot) = ends
    if start == end:
        raise Refused("line-of-one-point", slot)
    for name in SIDES:
        if _lies_on(start, name, paper) and _lies_on(end, name, paper):
            raise Refused("line-on-edge", slot, place=name)
    spot = _spot(work.unit, said.word("PLACE"))
    where = side(start, end - start, spot)
    if not where:
        raise Refused("place-on-line", "PLACE", place=said.word("PLACE"))
    if where < 0:
        start, end = end, start
    try:
        done = added(paper, said.word("FABRIC"), start, end, cut=f"{ROUGH}:{bench.line}")
    except OutsideNumbers:
        raise Refused("sewing-line-outside", slot) from None
    except SewingError as error:
        raise Refused(error.kind, "" if error.kind == "piece-covered" else slot, **error.facts) from error
    return on_paper(done)


def _ends(unit: Unit, paper: Foundation, said: Said) -> list[End]:
    ends = [End(point(unit, said.word(slot)), slot) for slot in ("POINT", "POINT-2") if slot in said]
    seen: set[str] = set()
    for clause in said.clauses:
        along = clause.form.split(" ", 1)[0]
        if along in seen:
            raise Refused("edge-twice", clause.at(), place=along)
        seen.add(along)
        ends.append(End(_measured(paper, along, clause), clause.at("DISTANCE")))
    return ends


def _measured(paper: Foundation, along: str, clause: Said) -> Vector:
    """A point of an edge, so far from the edge beside it."""
    start, distance = clause.word("EDGE"), clause.length("DISTANCE")
    level = along in ("top", "bottom")
    if start not in (("left", "right") if level else ("top", "bottom")):
        raise Refused("not-beside", clause.at("EDGE"), place=along, other=start)
    length = paper.width if level else paper.height
    if distance > length:
        raise Refused("beyond-edge", clause.at("DISTANCE"), place=along, distance=distance, length=length)
    reach = distance if start in ("left", "bottom") else length - distance
    if level:
        return Vector(reach, paper.height if along == "top" else Exact(0))
    return Vector(paper.width if along == "right" else Exact(0), reach)


def _lies_on(spot: Vector, name: str, paper: Foundation) -> bool:
    if name in ("left", "right"):
        return spot.x == (Exact(0) if name == "left" else paper.width)
    return spot.y == (Exact(0) if name == "bottom" else paper.height)


def _spot(unit: Unit, name: str) -> Vector:
    """A point, or the middle of an edge."""
    if name not in EDGES:
        return point(unit, name)
    try:
        start, end = raw_edge(unit, edge(unit, name))
    except SewingError as error:
        raise Refused(error.kind, "PLACE", **error.facts) from error
    return (start + end) * HALF


VERB = Verb(
    name="add",
    sentences=("add FABRIC at PLACE from POINT to POINT", "add FABRIC at PLACE [from POINT]"),
    summary="sews a piece onto the foundation along a line and opens it over all that lies on the side of the place",
    example="add sky at top-left, top 3 from left, left 2 1/2 from top",
    clauses=tuple(f"{name} DISTANCE from EDGE" for name in SIDES),
    repeatable=SIDES,
    run=run,
)
