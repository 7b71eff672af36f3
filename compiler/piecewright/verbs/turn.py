"""`turn WAY`"""

from __future__ import annotations

from dataclasses import replace

from piecewright.exact import OutsideNumbers
from piecewright.kernel.action import Turn
from piecewright.kernel.moves import turned
from piecewright.verbs.registry import Said, Verb
from piecewright.verbs.work import Bench, Done, Refused


def run(bench: Bench, said: Said) -> Done:
    work, degrees = bench.hand(), said.count("WAY")
    try:
        result = turned(work.unit, degrees)
    except OutsideNumbers:
        raise Refused("turn-outside", "WAY", degrees=abs(degrees)) from None
    action = Turn(degrees=degrees, before=work.unit, result=result)
    return Done(work=replace(work, unit=result), actions=(action,))


VERB = Verb(
    name="turn",
    sentences=("turn WAY",),
    summary="turns the work: `right`, `left`, `around`, or by an angle such as `45 right`",
    example="turn 45 right",
    run=run,
)
