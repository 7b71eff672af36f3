"""Work on a paper foundation: how large a rough piece is cut, only the pieces after it tell."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from typing import Protocol

from piecewright.kernel.action import Action, Add
from piecewright.kernel.build import Piece, Supply
from piecewright.kernel.foundation import Foundation, rough
from piecewright.verbs.work import Done, Work


class Drafted(Protocol):
    """A step with the actions and supplies so far recorded for it."""

    actions: tuple[Action, ...]
    supplies: list[Supply]


def off_paper(work: Work, done: Done) -> Work:
    """The work after a step: nothing is sewn onto the paper any more once anything else was done."""
    if work.paper is None or any(isinstance(action, Add) for action in done.actions):
        return work
    return replace(work, paper=None)


def papered(drafts: Iterable[Drafted]) -> None:
    """When all pieces are on the paper, each step is given the whole of it and its rough piece the size it needs."""
    whole: Foundation | None = None
    steps = [draft for draft in drafts if any(isinstance(action, Add) for action in draft.actions)]
    for draft in reversed(steps):
        (action,) = (one for one in draft.actions if isinstance(one, Add))
        whole = whole or action.foundation
        draft.actions = (replace(action, foundation=whole),)
        cut = rough(whole, action.number)
        draft.supplies = [
            replace(one, source=replace(one.source, width=cut.along, height=cut.across))
            for one in draft.supplies
            if isinstance(one.source, Piece)
        ]
