"""Warnings about sizes that are cut at the next mark up and never trimmed.

The geometry keeps the exact size; a ruler cuts the next mark up. What is too much must be taken off by
a trim later on, in the unit itself or in whatever uses it, or the work comes out larger than it says.
"""

from __future__ import annotations

from collections.abc import Mapping

from piecewright.exact import Exact
from piecewright.kernel.action import Trim
from piecewright.kernel.build import Build, Made, Piece, Settings
from piecewright.plan.demand import Wanted
from piecewright.plan.rounding import cut_size, up_to_mark
from piecewright.plan.words import sentence


def excess_warnings(build: Build, work: tuple[Wanted, ...], titles: Mapping[str, str]) -> tuple[str, ...]:
    """One sentence for each piece whose excess no later trim takes off, in the order of work."""
    settings = build.settings
    asked = frozenset(demand.key for demand in build.demands)
    found: dict[str, None] = {}
    for item in work:
        for at, step in enumerate(item.made.steps):
            for supply in step.supplies:
                piece = supply.source
                if isinstance(piece, Piece) and _is_over(piece, settings) and not _is_trimmed(item, at, work, asked):
                    found[_text(piece, titles[item.key], settings)] = None
    return tuple(found)


def _is_over(piece: Piece, settings: Settings) -> bool:
    return any(up_to_mark(side, settings.ruler) != side for side in _ruled(piece))


def _ruled(piece: Piece) -> list[Exact]:
    """The sizes that are laid off with the ruler. The base of a triangle comes of its height and angle."""
    if piece.width is None or piece.shape == "triangle":
        return [piece.height]
    return [piece.width, piece.height]


def _is_trimmed(item: Wanted, at: int, work: tuple[Wanted, ...], asked: frozenset[str]) -> bool:
    """Whether a trim comes after step `at`, here or in every unit that uses this one. What is asked for outright
    is used as it is."""
    if _trims_after(item.made, at):
        return True
    keys = {part.key for part in item.parts}
    if keys & asked:
        return False
    users = [
        (user, number)
        for user in work
        for number, step in enumerate(user.made.steps)
        if any(supply.source in keys for supply in step.supplies if isinstance(supply.source, str))
    ]
    return bool(users) and all(_is_trimmed(user, number, work, asked) for user, number in users)


def _trims_after(made: Made, at: int) -> bool:
    return any(isinstance(action, Trim) for step in made.steps[at:] for action in step.actions)


def _text(piece: Piece, title: str, settings: Settings) -> str:
    over = next(side for side in _ruled(piece) if up_to_mark(side, settings.ruler) != side)
    size = cut_size(over, settings)
    return sentence(
        f"in {title}, the {piece.fabric} {piece.shape} is cut {size.shown}, the next ruler mark above its exact"
        f" {size.value:.4f}, and no later trim takes the excess off"
    )
