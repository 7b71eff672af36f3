"""One piece sewn to one edge of the work: what `join` and `border` share."""

from __future__ import annotations

from piecewright.exact import Exact, Vector
from piecewright.kernel.action import Press, Sew
from piecewright.kernel.chain import Fit, chain
from piecewright.kernel.errors import SewingError
from piecewright.kernel.partial import sewn_in_part
from piecewright.kernel.places import edge
from piecewright.kernel.stepped import stepped
from piecewright.kernel.unit import Unit
from piecewright.verbs.press import pressed
from piecewright.verbs.registry import Said
from piecewright.verbs.work import Bench, Brought, Refused


def edge_of(unit: Unit, name: str, slot: str) -> int:
    """The edge of a unit that a place word means; what is wrong with it lies at `slot`."""
    try:
        return edge(unit, name)
    except SewingError as error:
        raise Refused(error.kind, slot, **{"place": name, **error.facts}) from error


def sewn(
    bench: Bench,
    said: Said,
    unit: Unit,
    words: tuple[str, ...],
    first_edge: int,
    brought: Brought,
    second_edge: int,
    *,
    fit: Fit = "exact",
    slot: str,
    part: bool = False,
    step: Exact | None = None,
) -> tuple[Sew, Press]:
    """`unit` with the piece sewn to it, and the seam pressed. What does not fit lies at `slot`. `part`: only the half
    of the seam toward its even end is sewn; `step`: how far right of the work a strip without ends begins."""
    toward, side = pressed(bench, said.clause("press"), unit, words, first_edge, brought, second_edge)
    tolerance = bench.settings.tolerance
    stops: tuple[Vector, ...] = ()
    try:
        if part:
            unit, first_edge, joined, mark = sewn_in_part(
                unit, first_edge, brought.unit, second_edge, fit=fit, tolerance=tolerance, pressed=side
            )
            stops = (mark,)
        elif step is not None:
            unit, first_edge, joined = stepped(unit, first_edge, brought.unit, second_edge, step, pressed=side)
        else:
            joined = chain(unit, first_edge, brought.unit, second_edge, fit=fit, tolerance=tolerance, pressed=side)
    except SewingError as error:
        raise Refused(error.kind, slot, **{"piece": brought.name, **error.facts}) from error
    sew = Sew(
        first=unit,
        second=joined.second,
        first_edges=(first_edge,),
        second_edges=(joined.second_edge,),
        result=joined.unit,
        name=brought.name,
        eased=joined.eased,
        stops=stops,
        part=part,
        step=step,
    )
    return sew, Press(result=joined.unit, seam=joined.seam, toward=toward)
