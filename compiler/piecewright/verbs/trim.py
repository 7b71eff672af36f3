"""`trim to ACROSS by DOWN`, with the ruler laid by its clauses, or `trim DISTANCE outside points`"""

from __future__ import annotations

from dataclasses import replace

from piecewright.exact import OutsideNumbers
from piecewright.kernel.action import Trim
from piecewright.kernel.errors import SewingError
from piecewright.kernel.trim import Alignment, Centred, PointFrom, SeamFrom, SeamOnDiagonal, outside_points, trim
from piecewright.verbs.registry import Said, Verb
from piecewright.verbs.words import SIDES
from piecewright.verbs.work import Bench, Done, Refused


def run(bench: Bench, said: Said) -> Done:
    work = bench.hand()
    alignments: tuple[Alignment, ...] = tuple(_alignment(clause) for clause in said.clauses)
    if "ACROSS" in said:
        across, down = said.length("ACROSS"), said.length("DOWN")
    else:
        if said.clauses:
            raise Refused("laid-by-points", said.clauses[0].at())
        try:
            across, down, alignments = outside_points(work.unit, said.length("DISTANCE"))
        except SewingError as error:
            raise Refused(error.kind, "DISTANCE", **error.facts) from error
    try:
        trimmed = trim(work.unit, across, down, alignments)
    except OutsideNumbers:
        raise Refused("direction-outside", "", width=across, height=down) from None
    except SewingError as error:
        raise Refused(error.kind, _slot(said, error), **error.facts) from error
    action = Trim(
        before=work.unit, ruler=trimmed.ruler, width=across, height=down, off=trimmed.off, result=trimmed.unit
    )
    return Done(work=replace(work, unit=trimmed.unit), actions=(action,))


def _alignment(clause: Said) -> Alignment:
    if clause.form == "centred":
        return Centred()
    if clause.form == "seam on LINE":
        return SeamOnDiagonal(rising=clause.word("LINE") == "rising-diagonal")
    side, distance = clause.word("EDGE"), clause.length("DISTANCE")
    if side not in SIDES:
        raise Refused("not-a-side", clause.at("EDGE"), place=side)
    return (
        SeamFrom(distance=distance, side=side)
        if clause.form.startswith("seam")
        else PointFrom(distance=distance, side=side)
    )


def _slot(said: Said, error: SewingError) -> str:
    """The clause or the size that an error is about."""
    index = error.facts.get("index")
    if isinstance(index, int):
        return said.clauses[index].at()
    if error.kind in ("no-such-seam", "two-such-seams", "seam-angle", "no-such-point"):
        word = "point" if error.kind == "no-such-point" else "seam"
        place = error.facts.get("place")
        for clause in said.clauses:
            told = clause.form.split(" ", 1)[0]
            if told == word and place in (None, *(clause.word(s) for s in ("LINE", "EDGE") if s in clause)):
                return clause.at()
    return "ACROSS" if "ACROSS" in said else "DISTANCE"


VERB = Verb(
    name="trim",
    sentences=("trim to ACROSS by DOWN", "trim DISTANCE outside points"),
    summary="cuts the work to a rectangle along a ruler, laid by the clauses or by the outermost points",
    example="trim to 8 by 8, seam on diagonal",
    clauses=("centred", "seam on LINE", "seam DISTANCE from EDGE", "point DISTANCE from EDGE"),
    repeatable=("seam", "point"),
    run=run,
)
