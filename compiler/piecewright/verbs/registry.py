"""What a verb is. Each verb is one file of this package with one `VERB`, listed in `table`."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Literal, cast

from piecewright.dataclass import dataclass
from piecewright.exact import Exact
from piecewright.verbs.work import Bench, Brought, Done

Beside = tuple[str, str]  # ("darker", ""), ("side", "left"), ("fabric", "dusk"), ("unit", "blade")


class Said:
    """A sentence or clause with its values: lengths in inches, fabrics by name, places as words.

    `form` is the sentence of the verb that was used, as written in its table.
    """

    __slots__ = ("_values", "clauses", "form", "path", "rows")

    def __init__(
        self,
        form: str,
        values: Mapping[str, object],
        clauses: tuple[Said, ...] = (),
        rows: tuple[tuple[Brought, ...], ...] = (),
        path: str = "",
    ) -> None:
        self.form = form
        self.path = path
        self._values = values
        self.clauses = clauses
        self.rows = rows

    def at(self, slot: str = "") -> str:
        """How `Refused` names a slot of this clause, or the clause itself."""
        return ".".join(part for part in (self.path, slot) if part)

    def __contains__(self, slot: str) -> bool:
        return slot in self._values

    def length(self, slot: str) -> Exact:
        return cast(Exact, self._values[slot])

    def count(self, slot: str) -> int:
        return cast(int, self._values[slot])

    def word(self, slot: str) -> str:
        """A fabric, an edge, a line, a point, a place, a measure or a text."""
        return cast(str, self._values[slot])

    def words(self, slot: str) -> tuple[str, ...]:
        """A list of edges or names; empty when it was left out."""
        return cast("tuple[str, ...]", self._values.get(slot, ()))

    def piece(self, slot: str = "PIECE") -> Brought:
        return cast(Brought, self._values[slot])

    def beside(self, slot: str = "SIDE") -> Beside:
        return cast(Beside, self._values[slot])

    def clause(self, word: str) -> Said | None:
        """The first clause that begins with a word, or None."""
        for clause in self.clauses:
            if clause.form.split(" ", 1)[0] == word:
                return clause
        return None


@dataclass(frozen=True, slots=True, kw_only=True)
class Verb:
    """One verb.

    `sentences` and `clauses` are written as in `template`; a clause whose first word is in `repeatable` may
    stand more than once. `role`: a `noun` cuts a piece and starts a unit, a `start` starts one, a `step` changes
    the work, a `remark` is about the step before and is not numbered. `under`: what stands indented below.
    `on_strips`: it can be done to strips that have no ends yet; `on_layers`: to pieces that lie on each other;
    `cuts_strips`: it may be handed a unit that is a strip set, and cuts lengths of it;
    `quilt_only`: it stands only in a quilt.
    `run` is pure: a noun gives what it brings, every other verb what it did; it raises `Refused` or `SewingError`
    for what cannot be done.
    """

    name: str
    sentences: tuple[str, ...]
    summary: str
    example: str
    run: Callable[[Bench, Said], Done | Brought]
    clauses: tuple[str, ...] = ()
    repeatable: tuple[str, ...] = ()
    role: Literal["noun", "start", "step", "remark"] = "step"
    under: Literal["", "rows", "lines"] = ""
    on_strips: bool = False
    on_layers: bool = False
    quilt_only: bool = False
    cuts_strips: bool = False
