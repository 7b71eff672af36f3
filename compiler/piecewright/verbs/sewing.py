"""One piece sewn to one edge of the work: what `join` and `border` share."""

from __future__ import annotations

from piecewright.kernel.action import Press, Sew
from piecewright.kernel.chain import Fit, chain
from piecewright.kernel.errors import SewingError
from piecewright.kernel.places import edge
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
) -> tuple[Sew, Press]:
    """`unit` with the piece sewn to it, and the seam pressed. What does not fit lies at `slot`."""
    toward, side = pressed(bench, said.clause("press"), unit, words, first_edge, brought, second_edge)
    try:
        joined = chain(
            unit, first_edge, brought.unit, second_edge, fit=fit, tolerance=bench.settings.tolerance, pressed=side
        )
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
    )
    return sew, Press(result=joined.unit, seam=joined.seam, toward=toward)
