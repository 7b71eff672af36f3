"""`cut once on LINE`, `cut twice on LINE`, `cut DISTANCE from EDGE`, `cut from POINT to POINT`, each `[into NAMES]`"""

from __future__ import annotations

from dataclasses import replace

from piecewright.exact import OutsideNumbers, Vector
from piecewright.kernel.action import Line, Subcut
from piecewright.kernel.cut import cut
from piecewright.kernel.errors import SewingError
from piecewright.kernel.measure import raw_edge
from piecewright.kernel.places import line, point
from piecewright.kernel.unit import Unit
from piecewright.verbs import press
from piecewright.verbs.opening import cut_apart
from piecewright.verbs.parts import first_kept, in_order, kept_place, kinds, unlike
from piecewright.verbs.registry import Said, Verb
from piecewright.verbs.sewing import edge_of
from piecewright.verbs.work import Bench, Done, Refused

CROSSING = {"diagonal": "rising-diagonal", "rising-diagonal": "diagonal"}


def run(bench: Bench, said: Said) -> Done:
    """Every unit of the pile is cut alike. The first part stays as it lies, the others are turned to match;
    parts that are not alike end the unit, one name for each kind."""
    work = bench.hand()
    unit = work.unit
    lines, slot = _lines(unit, said)
    if work.layers is not None:
        return cut_apart(bench, said, work, work.layers, lines, slot)
    clause = said.clause("press")
    if clause is not None:
        raise Refused("nothing-to-press", clause.at())
    parts = _cut(unit, lines, slot)
    if "EDGE" not in said:
        parts = in_order(parts)
    parts = tuple(parts[n] for n in first_kept(parts, said))
    found = kinds(parts)
    names = said.words("NAMES")
    if len(found) > 1 and not names:
        raise Refused("not-alike", "", **unlike(found[0][0], found[1][0]), kinds=len(found))
    if names and len(names) != len(found):
        raise Refused("names-and-kinds", "NAMES", names=len(names), kinds=len(found))
    kept = tuple(part for part, _ in found)
    action = Subcut(
        before=unit,
        lines=lines,
        parts=parts,
        kept=kept,
        distance=said.length("DISTANCE") if "DISTANCE" in said else None,
        names=names,
        keep=kept_place(said),
    )
    if names:
        named = zip(names, found, strict=True)
        after = replace(work, parts=tuple((name, part, work.copies * count) for name, (part, count) in named))
    else:
        after = replace(work, unit=kept[0], copies=work.copies * len(parts))
    return Done(work=after, actions=(action,))


def _lines(unit: Unit, said: Said) -> tuple[tuple[Line, ...], str]:
    """The lines to cut on, each from end to end, and the slot that says them. Of a cut from an edge, the part
    beside that edge lies right of the line."""
    if "LINE" in said:
        name = said.word("LINE")
        one = line(unit, name)
        if said.form.startswith("cut once"):
            return (one,), "LINE"
        return (one, line(unit, CROSSING[name])), "LINE"
    if "EDGE" in said:
        edge = edge_of(unit, said.word("EDGE"), "EDGE")
        inward = unit.directions[edge].left() * said.length("DISTANCE")
        start, end = raw_edge(unit, edge)
        return ((start + inward, end + inward),), "DISTANCE"
    start, end = point(unit, said.word("POINT")), point(unit, said.word("POINT-2"))
    if start == end:
        raise Refused("points-meet", "POINT-2")
    return ((start, end),), "POINT"


def _cut(unit: Unit, lines: tuple[Line, ...], slot: str) -> tuple[Unit, ...]:
    parts: tuple[Unit, ...] = (unit,)
    for start, end in lines:
        try:
            direction = _direction(start, end)
            parts = tuple(part for whole in parts for part in reversed(cut(whole, start, direction)))
        except OutsideNumbers:
            raise Refused("cut-angle-outside", slot) from None
        except SewingError as error:
            raise Refused(error.kind, slot, **error.facts) from error
    return parts


def _direction(start: Vector, end: Vector) -> Vector:
    return (end - start).unit()


VERB = Verb(
    name="cut",
    sentences=(
        "cut once on LINE [into NAMES]",
        "cut twice on LINE [into NAMES]",
        "cut DISTANCE from EDGE [into NAMES]",
        "cut from POINT to POINT [into NAMES]",
    ),
    summary="a straight cut; `twice` cuts on both diagonals. Of layers, a part that one seam holds is opened",
    example="cut once on diagonal",
    clauses=(*press.CLAUSES, "keep PLACE"),
    on_layers=True,
    run=run,
)
