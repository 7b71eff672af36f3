"""Pieces cut from cloth, and any piece laid on the table to start a unit."""

from __future__ import annotations

from piecewright.exact import Exact
from piecewright.kernel.action import CutPiece, Take
from piecewright.kernel.build import Piece, Supply
from piecewright.kernel.measure import width
from piecewright.kernel.pieces import rectangle
from piecewright.verbs.work import Bench, Brought, Done, Work


def cut_from_cloth(bench: Bench, shape: str, across: Exact, down: Exact, fabric: str) -> Brought:
    """A rectangle of cloth, `across` by `down` inches."""
    return Brought(
        unit=rectangle(across, down, fabric=fabric, allowance=bench.settings.seam, cut=f"{shape}:{bench.line}"),
        source=Piece(shape=shape, width=across, height=down, fabric=fabric),
        name=f"{fabric} {shape}",
    )


def laid(brought: Brought) -> Done:
    """The piece on the empty table."""
    piece = brought.source
    action: CutPiece | Take
    if isinstance(piece, Piece):
        across = width(brought.unit) if piece.width is None else piece.width
        action = CutPiece(shape=piece.shape, width=across, height=piece.height, fabric=piece.fabric, unit=brought.unit)
    else:
        action = Take(name=brought.name, unit=brought.unit)
    return Done(
        work=Work(unit=brought.unit, words=brought.words, usable=brought.usable),
        actions=(action,),
        supplies=(supply(brought),),
    )


def supply(brought: Brought, count: int = 1) -> Supply:
    """What bringing a piece takes."""
    return Supply(source=brought.source, count=count)
