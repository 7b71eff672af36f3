"""`place PIECE [at CORNERS]`"""

from __future__ import annotations

from dataclasses import replace

from piecewright.kernel.action import Place
from piecewright.kernel.layers import Placed, placed_on, square_corner
from piecewright.kernel.measure import height, width
from piecewright.kernel.unit import Unit
from piecewright.verbs.cloth import supply
from piecewright.verbs.registry import Said, Verb
from piecewright.verbs.words import CORNERS
from piecewright.verbs.work import Bench, Brought, Done, Refused


def run(bench: Bench, said: Said) -> Done:
    """Right sides together on the work, raw edges even. Over which line a piece is turned face down, the stitching
    says that follows; so it only waits here."""
    work, brought = bench.hand(), said.piece()
    if brought.usable is not None:
        raise Refused("strip-no-ends", "PIECE")
    require_straight_seams(work.unit, brought.unit)
    before = work.layers or placed_on(work.unit, ())
    corners = corners_of(said)
    for n, corner in enumerate(corners):
        if square_corner(work.unit, corner) is None:
            raise Refused("no-such-corner", _slot(said, n), place=corner, piece=False)
    _fits(work.unit, brought, all_over=not corners)
    placed = tuple(Placed(piece=brought.unit, corner=corner) for corner in corners or (None,))
    action = Place(before=before, pieces=(brought.unit,) * len(placed), name=brought.name, corners=corners)
    return Done(
        work=replace(work, layers=replace(before, placed=before.placed + placed), over=(*work.over, brought)),
        actions=(action,),
        supplies=(supply(brought, len(placed)),),
    )


def corners_of(said: Said) -> tuple[str, ...]:
    """The corners named; `corners` is all four."""
    words = said.words("CORNERS")
    corners = CORNERS if "corners" in words else words
    for n, word in enumerate(words):
        if word in words[:n] or (word != "corners" and "corners" in words):
            raise Refused("corner-twice", f"CORNERS[{n}]", place=word)
    return corners


def require_straight_seams(work: Unit, piece: Unit) -> None:
    """Where cloth is turned over, curved seams are not worked out."""
    for slot, unit in (("", work), ("PIECE", piece)):
        if any(patch.discs for patch in unit.patches):
            raise Refused("curves-in-layers", slot)


def _slot(said: Said, n: int) -> str:
    return "CORNERS" if "corners" in said.words("CORNERS") else f"CORNERS[{n}]"


def _fits(unit: Unit, brought: Brought, all_over: bool) -> None:
    """Whether the piece can lie on the work, whichever of its sides comes to lie where."""
    mine = sorted((width(unit), height(unit)))
    theirs = sorted((width(brought.unit), height(brought.unit)))
    if all_over and mine != theirs:
        raise Refused(
            "not-even",
            "PIECE",
            width=width(unit),
            height=height(unit),
            other_width=width(brought.unit),
            other_height=height(brought.unit),
        )
    if theirs[0] > mine[0] or theirs[1] > mine[1]:
        raise Refused("piece-hangs-over", "PIECE", width=width(brought.unit), height=height(brought.unit))


VERB = Verb(
    name="place",
    sentences=("place PIECE [at CORNERS]",),
    summary="lays a piece on the work, right sides together and raw edges even; it is named as it will lie when opened",
    example="place square 3 7/8 of dusk",
    on_layers=True,
    run=run,
)
