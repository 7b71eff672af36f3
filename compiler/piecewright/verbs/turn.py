"""`turn WAY`"""

from __future__ import annotations

from dataclasses import replace

from piecewright.exact import OutsideNumbers, Vector
from piecewright.kernel.action import Turn
from piecewright.kernel.layers import turned_layers
from piecewright.kernel.moves import turned
from piecewright.verbs.registry import Said, Verb
from piecewright.verbs.work import Bench, Done, Refused


def run(bench: Bench, said: Said) -> Done:
    work, degrees = bench.hand(), said.count("WAY")
    layers = work.layers
    if layers is not None and layers.placed:
        raise Refused("not-stitched")
    try:
        result = turned(work.unit, degrees)
        both = (layers, turned_layers(layers, Vector.at(degrees), Vector(0, 0))) if layers is not None else None
    except OutsideNumbers:
        raise Refused("turn-outside", "WAY", degrees=abs(degrees)) from None
    action = Turn(degrees=degrees, before=work.unit, result=result, layers=both)
    return Done(work=replace(work, unit=result, layers=both[1] if both else None), actions=(action,))


VERB = Verb(
    name="turn",
    sentences=("turn WAY",),
    summary="turns the work: `right`, `left`, `around`, or by an angle such as `45 right`",
    example="turn 45 right",
    on_layers=True,
    run=run,
)
