"""`stitch on LINES` and `stitch beside LINES`"""

from __future__ import annotations

from dataclasses import replace

from piecewright.exact import OutsideNumbers
from piecewright.kernel.action import Line
from piecewright.kernel.action import Stitch as StitchAction
from piecewright.kernel.errors import SewingError
from piecewright.kernel.layers import Stitch, stitched, stitching
from piecewright.kernel.places import EDGES, line
from piecewright.kernel.unit import Unit
from piecewright.verbs.registry import Said, Verb
from piecewright.verbs.sewing import edge_of
from piecewright.verbs.work import Bench, Done, Refused


def run(bench: Bench, said: Said) -> Done:
    """Seams through all layers. The first line says over which line the pieces placed are turned face down."""
    work = bench.hand()
    layers = work.layers
    if layers is None:
        raise Refused("nothing-placed")
    beside = said.form.startswith("stitch beside")
    stitches: list[Stitch] = []
    slots: list[str] = []
    drawn: list[Line] = []
    for n, name in enumerate(said.words("LINES")):
        slot = f"LINES[{n}]"
        if name in EDGES and beside:
            raise Refused("beside-edge", slot, place=name)
        if name not in EDGES:
            drawn.append(line(work.unit, name))
        found = _stitches(work.unit, name, beside, slot)
        stitches += found
        slots += [slot] * len(found)
    try:
        result = stitched(layers, tuple(stitches))
    except SewingError as error:
        index = error.facts.get("index")
        at = slots[index] if isinstance(index, int) else "LINES"
        raise Refused(error.kind, at, **error.facts) from error
    action = StitchAction(
        result=result, lines=stitching(result, tuple(stitches)), drawn=tuple(drawn), beside=beside
    )
    return Done(work=replace(work, layers=result), actions=(action,))


def _stitches(unit: Unit, name: str, beside: bool, slot: str) -> tuple[Stitch, ...]:
    if name in EDGES:
        edge = edge_of(unit, name, slot)
        return ((unit.corners[edge].finished, unit.directions[edge]),)
    start, end = line(unit, name)
    try:
        along = (end - start).unit()
    except OutsideNumbers:
        raise Refused("line-angle-outside", slot) from None
    if not beside:
        return ((start, along),)
    across = along.left() * unit.allowance
    return (start + across, along), (start - across, along)


VERB = Verb(
    name="stitch",
    sentences=("stitch on LINES", "stitch beside LINES"),
    summary="sews through all layers: one seam in from an edge, on a diagonal, or one seam to each side of it",
    example="stitch beside diagonal",
    on_layers=True,
    run=run,
)
