"""Work in layers on the table: how pieces lie when a stitching is known, and what cannot be done to them."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from typing import Protocol

from piecewright.evaluate.report import Problem
from piecewright.kernel.action import Action, Line, Place, Stitch
from piecewright.kernel.layers import stretch
from piecewright.kernel.unit import Unit
from piecewright.source import Span
from piecewright.verbs.work import Work


class Drafted(Protocol):
    """A step with the actions so far recorded for it."""

    actions: tuple[Action, ...]


def faced(drafts: Iterable[Drafted], stitch: Stitch) -> None:
    """Every piece placed in the steps before a stitching, and still waiting for it, is laid face down there."""
    waiting = [
        (draft, n, action)
        for draft in drafts
        for n, action in enumerate(draft.actions)
        if isinstance(action, Place) and not action.facing
    ]
    at = len(stitch.result.uppers) - sum(len(action.pieces) for _, _, action in waiting)
    for draft, n, action in waiting:
        mine = stitch.result.uppers[at : at + len(action.pieces)]
        at += len(mine)
        laid = replace(action, facing=mine, drawn=tuple(_drawn(mine, stitch)))
        draft.actions = (*draft.actions[:n], laid, *draft.actions[n + 1 :])


def _drawn(pieces: tuple[Unit, ...], stitch: Stitch) -> Iterable[Line]:
    for start, end in stitch.drawn:
        for piece in pieces:
            ends = stretch(piece, start, (end - start).unit())
            if ends is not None:
                yield ends


def layers_refused(work: Work, verb: str, span: Span) -> Problem:
    """A step that needs one layer, done while there are several."""
    return Problem("E320", f"`{verb}` cannot be done while pieces lie on each other", span, _mend(work))


def still_layered(work: Work, span: Span) -> Problem:
    """A definition that ends before its layers are opened."""
    return Problem("E320", "pieces still lie on each other when this unit ends", span, _mend(work))


def unfilled(targets: tuple[str, ...], verb: str, span: Span) -> Problem:
    """A step, or the end of the definition, while a table on point still has gaps at its edges or corners."""
    lacking = " and ".join(targets)
    before = f"before `{verb}`" if verb else "below its table"
    return Problem(
        "E330",
        f"the table on point has gaps at its {lacking}, and nothing is sewn yet",
        span,
        f"write `fill {lacking} of FABRIC` {before}",
    )


def _mend(work: Work) -> str:
    if work.layers is not None and not work.layers.placed:
        return "cut them apart first, so that each part is held by one seam and can be opened"
    return "stitch them and cut them apart first: `stitch beside diagonal`, then `cut once on diagonal`"
