"""Sizes that a ruler does not have, and pieces that come in two hands."""

from __future__ import annotations

from collections.abc import Iterator

from piecewright.craft.finding import Finding
from piecewright.exact import Exact
from piecewright.kernel.action import Trim
from piecewright.kernel.build import Build, Made, Piece

ONE_HANDED = ("parallelogram",)
"""The shapes whose mirror image is not the piece itself, turned."""


class Sizes:
    """What a pattern's pieces are used for, worked out once and only where it counts."""

    def __init__(self, build: Build) -> None:
        self._build = build
        self._users: dict[str, list[tuple[Made, int]]] | None = None
        self._asked = frozenset(demand.key for demand in build.demands)

    def off_the_mark(self, made: Made, number: int) -> Iterator[Finding]:
        """A piece that a step cuts between two marks, and so at the next one, if its excess is never trimmed off."""
        step = made.steps[number]
        for supply in step.supplies:
            piece = supply.source
            if not isinstance(piece, Piece):
                continue
            if piece.radius is not None:
                continue  # cut by template
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

    def folded(self, made: Made) -> Iterator[Finding]:
        """A piece that the pattern needs in both hands, at the definition that turns it over."""
        for number, step in enumerate(made.steps):
            for supply in step.supplies:
                piece = supply.source
                if isinstance(piece, Piece) and piece.reversed and piece.shape in ONE_HANDED and self._has_twin(piece):
                    yield Finding("both-hands", made.steps[number], piece=f"{piece.fabric} {piece.shape}")
                    return

    def _has_twin(self, piece: Piece) -> bool:
        return any(
            isinstance(supply.source, Piece) and not supply.source.reversed and _alike(supply.source, piece)
            for made in self._build.made
            for supply in made.supplies
        )

    def _is_trimmed(self, made: Made, number: int) -> bool:
        """Whether a trim comes after a step, here or in every unit that uses this one. What is asked for outright
        is used as it is."""
        if any(isinstance(action, Trim) for step in made.steps[number:] for action in step.actions):
            return True
        keys = {one.key for one in self._build.made if one.key == made.key or (made.whole and one.whole == made.whole)}
        if keys & self._asked:
            return False
        users = [user for key in sorted(keys) for user in self._used().get(key, ())]
        return bool(users) and all(self._is_trimmed(user, at) for user, at in users)

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
