"""Sizes that a ruler does not have, and pieces that come in two hands."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from piecewright.craft.finding import Finding
from piecewright.exact import Exact
from piecewright.kernel.action import Action, Lay, Trim
from piecewright.kernel.alike import has_hands
from piecewright.kernel.build import Build, Made, Piece
from piecewright.kernel.unit import Unit

if TYPE_CHECKING:
    from piecewright.kernel.demand import Cutting

LEAST = Exact(1, 16)
"""Inches that a trim must take off a side to be cut cleanly: common practice, no source."""


class Sizes:
    """What a pattern's pieces are used for, worked out once and only where it counts."""

    def __init__(self, build: Build) -> None:
        self._build = build
        self._users: dict[str, list[tuple[Made, int]]] | None = None
        self._cut: tuple[Cutting, ...] | None = None
        self._asked = frozenset(demand.key for demand in build.demands)
        self._directional = frozenset(one.name for one in build.fabrics if one.directional)

    def off_the_mark(self, made: Made, number: int) -> Iterator[Finding]:
        """A piece that a step cuts between two marks, and so at the next one, if its excess is never trimmed off."""
        step = made.steps[number]
        for supply in step.supplies:
            piece = supply.source
            if not isinstance(piece, Piece):
                continue
            if piece.radius is not None or step.verb in ("back", "bind"):
                continue  # cut by template; trimmed even with the top, or cut off where its ends meet
            for length in _ruled(piece, step.verb):
                marks = length / self._build.settings.ruler
                up = marks.ceil()
                if marks != up and not self._is_trimmed(made, number):
                    cut = self._build.settings.ruler * up
                    yield Finding(
                        "off-the-mark", step, piece=f"{piece.fabric} {piece.shape}", exact=length, cut=cut,
                        over=cut - length,
                    )  # fmt: skip
                    return

    def scant(self, made: Made, number: int, trim: Trim) -> Iterator[Finding]:
        """A side that loses less than can be cut off cleanly. A side that loses nothing was laid even.

        What the ruler's marks leave of a size that no ruler has is meant to come off: squares are cut 7/8 larger for a
        half-square triangle unit since 0.854 is on no mark, and the trim takes the rest. So that is not told.

        Where the work is two halves of squares of one size, sewn on the long side, the finding says how large these
        must be for a trim, and how large to be sewn to size. Such work grows as the squares do, by half on each side of
        the ruler.
        """
        left, right, top, bottom = trim.off
        scant = [
            (off, side)
            for off, side, both in (
                (left, "left", left + right), (right, "right", left + right),
                (top, "top", top + bottom), (bottom, "bottom", top + bottom),
            )
            if float(off) > 0 and off < LEAST and not self._is_rest(both)
        ]  # fmt: skip
        if not scant:
            return
        off, side = min(scant, key=lambda one: float(one[0]))
        step, ruler = made.steps[number], self._build.settings.ruler
        size = self._halved(made, number) if _is_of_two_halves(trim.before) else None
        larger = None if size is None else ruler * ((size + (LEAST - off) * 2) / ruler).ceil()
        exact = None if size is None else ruler * ((size - off * 2) / ruler).ceil()
        yield Finding("scant-trim", step, side=side, off=off, size=size, larger=larger, exact=exact)

    def _is_rest(self, both: Exact) -> bool:
        """Whether two sides lose together what a size on no mark leaves to the next one."""
        return not both.is_rational and both < self._build.settings.ruler

    def _halved(self, made: Made, number: int) -> Exact | None:
        """The size of the squares, where all the cloth that comes to a step is squares of one size."""
        sizes: set[Exact | None] = set()
        pending = [supply for step in made.steps[: number + 1] for supply in step.supplies]
        seen: set[str] = set()
        while pending:
            source = pending.pop().source
            if isinstance(source, Piece):
                sizes.add(source.height if source.shape == "square" else None)
            elif source not in seen:
                seen.add(source)
                pending += [
                    supply
                    for one in self._build.made
                    if source in (one.key, one.whole)
                    for supply in one.supplies
                ]  # fmt: skip
        return sizes.pop() if len(sizes) == 1 else None

    def folded(self, made: Made) -> Iterator[Finding]:
        """A piece that the pattern needs in both hands, at the definition that turns it over: how many of each are
        cut for the whole pattern."""
        for step in made.steps:
            for supply in step.supplies:
                piece = supply.source
                if not isinstance(piece, Piece) or not piece.reversed:
                    continue
                if has_hands(piece, piece.fabric in self._directional):
                    plain, turned = self._hands(piece)
                    if plain and turned:
                        yield Finding(
                            "both-hands", step, piece=f"{piece.fabric} {piece.shape}", plain=plain, turned=turned
                        )
                        return

    def _hands(self, piece: Piece) -> tuple[int, int]:
        """How many of a piece are cut as it is, and how many mirrored."""
        if self._cut is None:
            from piecewright.kernel.demand import cuttings, wanted  # few patterns need it, and a check is to be quick

            self._cut = cuttings(self._build, wanted(self._build))
        counts = [0, 0]
        for cut in self._cut:
            if _alike(cut.piece, piece):
                counts[cut.piece.reversed] += cut.count
        return counts[0], counts[1]

    def _is_trimmed(self, made: Made, number: int) -> bool:
        """Whether a trim comes after a step, here or in every unit that uses this one. What is asked for outright
        is used as it is."""
        if any(_trims(action) for step in made.steps[number:] for action in step.actions):
            return True
        keys = {one.key for one in self._build.made if one.key == made.key or (made.whole and one.whole == made.whole)}
        if keys & self._asked:
            return False
        users = [user for key in sorted(keys) for user in self._used().get(key, ())]
        return bool(users) and all(self._is_trimmed(user, at) for user, at in users)

    def is_last(self, made: Made) -> bool:
        """Whether nothing else is made of it."""
        return made.key in self._asked and not self._used().get(made.key)

    def _used(self) -> dict[str, list[tuple[Made, int]]]:
        if self._users is None:
            self._users = {}
            seen: set[str] = set()
            for made in self._build.made:
                whole = made.whole or made.key
                if whole in seen:
                    continue
                seen.add(whole)
                for number, step in enumerate(made.steps):
                    for supply in step.supplies:
                        if isinstance(supply.source, str):
                            self._users.setdefault(supply.source, []).append((made, number))
        return self._users


def _trims(action: Action) -> bool:
    """Whether an action cuts edges straight; a table on point is trimmed when it is sewn."""
    return isinstance(action, Trim) or (isinstance(action, Lay) and action.sewn and not action.is_level)


def _ruled(piece: Piece, verb: str) -> tuple[Exact, ...]:
    """The sizes that are laid off with the ruler. What is cut from a strip at an angle is laid off square to the
    cut; a border is cut as long as the work measures."""
    if piece.width is None or piece.angle is not None or piece.shape == "triangle":
        return (piece.height,)
    if verb == "border":
        return (min(piece.width, piece.height),)
    return (piece.width, piece.height)


def _alike(one: Piece, other: Piece) -> bool:
    return (one.shape, one.fabric, one.width, one.height, one.angle) == (
        other.shape, other.fabric, other.width, other.height, other.angle
    )  # fmt: skip


def _is_of_two_halves(unit: Unit) -> bool:
    """Whether work is two patches, of three corners each."""
    return len(unit.patches) == 2 and all(
        len(patch.cells) == 1 and len(patch.cells[0]) == 3 for patch in unit.patches
    )  # fmt: skip
