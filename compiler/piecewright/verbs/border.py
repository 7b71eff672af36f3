"""`border WIDTH of FABRIC [on EDGES]`"""

from __future__ import annotations

from dataclasses import replace

from piecewright.exact import Exact
from piecewright.kernel.action import Action
from piecewright.kernel.build import Supply
from piecewright.kernel.measure import edge_length
from piecewright.verbs import press
from piecewright.verbs.cloth import LENGTHWISE, cut_from_cloth, supply
from piecewright.verbs.registry import Said, Verb
from piecewright.verbs.sewing import edge_of, sewn
from piecewright.verbs.words import OPPOSITE
from piecewright.verbs.work import Bench, Brought, Done

ALL_ROUND = ("left", "right", "top", "bottom")


def run(bench: Bench, said: Said) -> Done:
    """Strips cut to each edge as it is by then, in the order named."""
    work = bench.hand()
    width, fabric = said.length("WIDTH"), said.word("FABRIC")
    unit = work.unit
    actions: list[Action] = []
    supplies: list[Supply] = []
    named = said.words("EDGES")
    for n, name in enumerate(named or ALL_ROUND):
        slot = f"EDGES[{n}]" if named else ""
        edge = edge_of(unit, name, slot)
        # from raw edge to raw edge at square corners; at others still the piece whose finished edge fits
        length = edge_length(unit, edge, finished=True) + 2 * bench.settings.seam
        strip, facing = _strip(bench, name, width, length, fabric, said.clause(LENGTHWISE) is not None)
        sew, pressing = sewn(bench, said, unit, work.words, edge, strip, facing, slot=slot)
        actions += (sew, pressing)
        supplies.append(supply(strip))
        unit = sew.result
    return Done(work=replace(work, unit=unit), actions=tuple(actions), supplies=tuple(supplies))


def _strip(
    bench: Bench, edge: str, width: Exact, length: Exact, fabric: str, lengthwise: bool
) -> tuple[Brought, int]:
    """The strip as it lies along an edge, and its edge that faces the work."""
    across, down = (width, length) if edge in ("left", "right") else (length, width)
    strip = cut_from_cloth(bench, "rectangle", across, down, fabric, lengthwise=lengthwise)
    strip = replace(strip, name=f"{fabric} strip")
    facing = OPPOSITE[edge] if edge in ALL_ROUND else "bottom"
    return strip, edge_of(strip.unit, facing, "WIDTH")


VERB = Verb(
    name="border",
    sentences=("border WIDTH of FABRIC [on EDGES]",),
    summary="strips sewn to the edges named, each cut to the edge as it is by then; to all four if none is",
    example="border 2 1/4 of dusk on left and right",
    clauses=(*press.CLAUSES, LENGTHWISE),
    run=run,
)
