"""What one run of the steps done so far takes, counted through the units it uses."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

from piecewright.evaluate.products import in_order
from piecewright.kernel.build import Build, Demand, Made, Piece, Supply

if TYPE_CHECKING:
    from piecewright.evaluate.session import Session
    from piecewright.verbs.work import Work


def used(
    session: Session, work: Work, taken: Mapping[Piece | str, int], chosen: tuple[str, ...]
) -> Mapping[Piece | str, int]:
    """What is counted when one run takes so many of these and chooses these prints."""
    from piecewright.kernel.tally import tally  # few patterns count, and a check is to be quick

    run = Made(
        key="",
        name="",
        kind="unit",
        arguments=(),
        file="",
        line=0,
        unit=work.unit,
        copies=1,
        steps=(),
        supplies=tuple(Supply(source=source, count=count) for source, count in taken.items()),
        chosen=chosen,
    )
    keys = (source for source in taken if isinstance(source, str))
    return tally(
        Build(
            settings=session.settings,
            fabrics=tuple(session.fabrics.values()),
            made=(*in_order(session.products, keys), run),
            demands=(Demand(key=run.key, count=1),),
        )
    )
