"""Pieces as values: recipes that can be made as often as they are used, with their turns."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import TYPE_CHECKING

from piecewright.evaluate.products import Product
from piecewright.evaluate.report import Problem
from piecewright.evaluate.shown import plain
from piecewright.exact import Exact, OutsideNumbers
from piecewright.kernel.build import Piece, Units
from piecewright.kernel.foundation import ROUGH
from piecewright.kernel.moves import mirrored
from piecewright.source import Span
from piecewright.verbs.work import Brought

if TYPE_CHECKING:
    from piecewright.evaluate.session import Session

SAME_IN_MIRROR = ("square", "rectangle", "strip", "quarter circle", ROUGH)


class Recipe:
    """A piece that can be made as often as it is used. `turn` is in degrees counter-clockwise."""

    __slots__ = ("_brought", "base", "mirrored", "turn", "words")

    def __init__(self, base: Product | Brought, words: tuple[str, ...], turn: int = 0, mirrored: bool = False) -> None:
        self.base = base
        self.words = words
        self.turn = turn % 360
        self.mirrored = mirrored
        self._brought: Brought | None = None

    def turned(self, turns: tuple[int | None, ...]) -> Recipe:
        """With further turns, in the order written; None mirrors it, and with it the turns before."""
        turn, flipped = self.turn, self.mirrored
        for one in turns:
            if one is None:
                turn, flipped = -turn, not flipped
            else:
                turn += one
        return Recipe(self.base, self.words, turn, flipped)

    def called(self, word: str) -> Recipe:
        """Also called by another name."""
        return self if word in self.words else Recipe(self.base, (*self.words, word), self.turn, self.mirrored)

    def text(self, session: Session) -> str:
        """What it is, to be read and to tell it from others: `goose(2, sand, dusk) turned left`."""
        if isinstance(self.base, Brought):
            piece = self.base.source
            assert isinstance(piece, Piece)
            return cloth_text(piece, session.settings.units) + turning(self.turn)
        return session.mirror(self.base, self.mirrored).key + turning(self.turn)

    def source(self, session: Session) -> tuple[Piece | str, str]:
        """The piece of cloth, or the unit by its key, and how it is turned."""
        if isinstance(self.base, Brought):
            return self._cloth(self.base), turning(self.turn)
        return session.mirror(self.base, self.mirrored).key, turning(self.turn)

    def brought(self, session: Session, span: Span, *, endless: bool = False) -> Brought:
        """The piece on its way to the table. Raises `Problem` for an angle that cannot be reached, and for a strip set
        unless it may be `endless`."""
        if self._brought is None:
            self._brought = self._make(session, span)
        if self._brought.cut is not None and not endless:
            name = self.base.made.name if isinstance(self.base, Product) else ""
            raise Problem("E314", f"`{name}` has no ends until it is subcut", span, "end it with `subcut WIDTH`")
        return self._brought

    def _make(self, session: Session, span: Span) -> Brought:
        if isinstance(self.base, Brought):
            brought, piece = self.base, self._cloth(self.base)
            if piece != brought.source:
                brought = replace(brought, unit=mirrored(brought.unit), source=piece)
            name = brought.name
        else:
            product = session.mirror(self.base, self.mirrored)
            brought = Brought(unit=product.made.unit, source=product.key, name=product.key, usable=product.usable)
            if product.usable is not None:
                brought = replace(brought, cut=self._lengths(session, product, span))
            name = product.key + turning(self.turn)
        unit = brought.unit
        if self.turn:
            try:
                unit = session.turned(brought, self.turn)
            except OutsideNumbers:
                degrees = min(self.turn, 360 - self.turn)
                raise Problem("E311", f"a turn by {degrees} degrees cannot be worked out exactly", span) from None
        return replace(brought, unit=unit, name=name, words=self.words)

    def _cloth(self, brought: Brought) -> Piece:
        piece = brought.source
        assert isinstance(piece, Piece)
        has_hands = self.mirrored and piece.shape not in SAME_IN_MIRROR
        return replace(piece, reversed=not piece.reversed) if has_hands else piece

    def _lengths(self, session: Session, product: Product, span: Span) -> Callable[[Exact], Brought]:
        def cut(length: Exact) -> Brought:
            return Recipe(session.cut_to(product, length), self.words, self.turn).brought(session, span)

        return cut


def cloth_text(piece: Piece, units: Units) -> str:
    """A piece of cloth with nothing lost: `rectangle 2 1/2 by 4 of dusk`."""
    across = "" if piece.width is None or piece.shape == "square" else f"{plain(piece.width, units)} by "
    return f"{piece.shape} {across}{plain(piece.height, units)} of {piece.fabric}"


def turning(turn: int) -> str:
    """` turned left` for 90 degrees counter-clockwise; nothing for none."""
    if not turn:
        return ""
    if turn == 180:
        return " turned around"
    way = "left" if turn < 180 else "right"
    degrees = min(turn, 360 - turn)
    return f" turned {way}" if degrees == 90 else f" turned {degrees} {way}"
