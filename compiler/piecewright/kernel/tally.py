"""How much of everything one run of some steps takes, counted through the units it uses."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from piecewright.kernel.alike import plain_piece
from piecewright.kernel.build import Build, Fabric, Piece
from piecewright.kernel.demand import wanted


def tally(build: Build) -> Mapping[Piece | str, int]:
    """What the demands of a build take: units by their keys, and pieces of cloth that are not strips, as
    `plain_piece` gives them. A print chosen from an assorted fabric counts as a piece of that fabric, too."""
    fabrics = {fabric.name: fabric for fabric in build.fabrics}
    asked = {demand.key for demand in build.demands}
    counts: dict[Piece | str, int] = {}
    for item in wanted(build):
        for part, needed in zip(item.parts, item.needed, strict=True):
            if part.key not in asked:
                counts[part.key] = needed
        for supply in item.made.supplies:
            if isinstance(supply.source, Piece) and supply.source.width is not None:
                for piece in _meant(supply.source, fabrics):
                    counts[piece] = counts.get(piece, 0) + supply.count * item.runs
    return counts


def _meant(piece: Piece, fabrics: Mapping[str, Fabric]) -> tuple[Piece, ...]:
    """The piece, and of a print the same of the fabric it was chosen from."""
    fabric = fabrics[piece.fabric]
    one = plain_piece(piece, fabric.directional)
    return (one, replace(one, fabric=fabric.of)) if fabric.of else (one,)
