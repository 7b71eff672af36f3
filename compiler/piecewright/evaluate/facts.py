"""The numbers and words behind a refusal, and how it is said: what all the wordings share."""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple, cast

from piecewright.evaluate.shown import exactly, shown
from piecewright.exact import Exact
from piecewright.kernel.build import Piece, Settings
from piecewright.source import Span


class Saying(NamedTuple):
    code: str
    message: str
    hint: str | None = None


class Facts:
    """The numbers and words behind a refusal, as they are said."""

    def __init__(self, facts: dict[str, object], settings: Settings) -> None:
        self._facts = facts
        self.settings = settings

    def word(self, name: str) -> str:
        return str(self._facts.get(name, ""))

    def has(self, name: str) -> bool:
        return bool(self._facts.get(name))

    def given(self, name: str) -> bool:
        """Whether it is a value at all, which may be a size of 0."""
        return self._facts.get(name) is not None

    def length(self, name: str) -> Exact:
        return cast(Exact, self._facts[name])

    def lengths(self, name: str) -> tuple[Exact, ...]:
        return cast("tuple[Exact, ...]", self._facts[name])

    def words(self, name: str) -> tuple[str, ...]:
        return cast("tuple[str, ...]", self._facts.get(name, ()))

    def count(self, name: str) -> int:
        return cast(int, self._facts[name])

    def written(self, slot: str) -> str:
        """What stands in a slot, as it is written."""
        place = cast("Callable[[str], Span]", self._facts["place of"])
        return " ".join(place(slot).text.split())

    def source(self, name: str) -> Piece | str:
        return cast("Piece | str", self._facts[name])

    def others(self, name: str) -> tuple[tuple[Piece | str, int], ...]:
        """Pieces with how many there are of each."""
        return cast("tuple[tuple[Piece | str, int], ...]", self._facts[name])

    def shown(self, length: Exact) -> str:
        return shown(length, self.settings.units)

    def exactly(self, length: Exact) -> str:
        return exactly(length, self.settings.units)
