"""Pieces cut from cloth, and any piece laid on the table to start a unit."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import replace

from piecewright.exact import Exact
from piecewright.kernel.action import CutPiece, Take
from piecewright.kernel.build import Piece, Supply
from piecewright.kernel.errors import SewingError
from piecewright.kernel.measure import raw_edge, width
from piecewright.kernel.pieces import rectangle
from piecewright.kernel.unit import Unit
from piecewright.verbs.registry import Said
from piecewright.verbs.work import Bench, Brought, Done, Refused, Work

LENGTHWISE = "lengthwise"
"""The clause of a step that cuts long pieces along the selvage."""


def cut_from_cloth(
    bench: Bench, shape: str, across: Exact, down: Exact, fabric: str, *, lengthwise: bool = False, joins: bool = False
) -> Brought:
    """A rectangle of cloth, `across` by `down` inches; `lengthwise` with its long side along the selvage; `joins`: a
    strip that may be joined end to end."""
    return Brought(
        unit=rectangle(across, down, fabric=fabric, allowance=bench.settings.seam, cut=f"{shape}:{bench.line}"),
        source=Piece(shape=shape, width=across, height=down, fabric=fabric, lengthwise=lengthwise, joins=joins),
        name=f"{fabric} {shape}",
    )


def cut_at_angle(bench: Bench, said: Said, shape: str, piece: Callable[..., Unit], *sizes: Exact) -> Brought:
    """A piece cut from a strip at the ANGLE said. Its width in the cut list is the first size; where its height is
    the only one, a diamond is as wide as high and any other as its base comes out."""
    fabric, angle = said.word("FABRIC"), said.count("ANGLE")
    try:
        unit = piece(*sizes, angle, fabric=fabric, allowance=bench.settings.seam, cut=f"{shape}:{bench.line}")
    except SewingError as error:
        raise Refused(error.kind, "ANGLE" if error.kind.startswith("angle-") else "", **error.facts) from error
    across = sizes[0]
    if len(sizes) == 1 and shape != "diamond":
        start, end = raw_edge(unit, 0)
        across = end.x - start.x
    return Brought(
        unit=unit,
        source=Piece(shape=shape, width=across, height=sizes[-1], fabric=fabric, angle=angle),
        name=f"{fabric} {shape}",
    )


def laid(brought: Brought) -> Done:
    """The piece on the empty table."""
    piece = brought.source
    action: CutPiece | Take
    if isinstance(piece, Piece):
        across = width(brought.unit) if piece.width is None else piece.width
        action = CutPiece(
            shape=piece.shape,
            width=across,
            height=piece.height,
            fabric=piece.fabric,
            unit=brought.unit,
            angle=piece.angle,
        )
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


def pooled(supplies: Iterable[Supply]) -> tuple[Supply, ...]:
    """Supplies of one source taken together, in the order in which they first come."""
    found: dict[Piece | str, Supply] = {}
    for one in supplies:
        before = found.get(one.source)
        found[one.source] = one if before is None else replace(before, count=before.count + one.count)
    return tuple(found.values())


def counted(lengths: Sequence[Exact]) -> list[tuple[Exact, int]]:
    """Each length once, in order, and how often it stands."""
    return [(length, lengths.count(length)) for length in dict.fromkeys(lengths)]
