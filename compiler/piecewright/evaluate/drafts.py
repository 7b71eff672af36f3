"""Steps while their definition is still being done, and what they take in all."""

from __future__ import annotations

from collections.abc import Iterator

from piecewright.kernel.action import Action
from piecewright.kernel.build import Expect, Step, Supply
from piecewright.verbs.work import Done, Work


class Draft:
    """A step while its definition is still being done."""

    __slots__ = (
        "actions",
        "between",
        "copies",
        "expects",
        "last",
        "line",
        "notes",
        "places",
        "round",
        "supplies",
        "times",
        "verb",
    )

    def __init__(self, verb: str, line: int, done: Done, places: tuple[str, ...], copies: int) -> None:
        self.verb = verb
        self.line = line
        self.actions: tuple[Action, ...] = done.actions
        self.last: tuple[Action, ...] = ()
        self.between: tuple[tuple[Action, ...], ...] = ()
        self.places = places
        self.copies = copies
        self.supplies: list[Supply] = []
        self.expects: list[Expect] = []
        self.notes: list[str] = []
        self.times = 1
        self.round: int | None = None

    def step(self, file: str) -> Step:
        return Step(
            verb=self.verb,
            file=file,
            line=self.line,
            actions=self.actions,
            copies=self.copies,
            expects=tuple(self.expects),
            notes=tuple(self.notes),
            times=self.times,
            round=self.round,
            places=self.places,
            supplies=tuple(self.supplies),
            last=self.last,
            between=self.between,
        )


def also(draft: Draft, later: Draft) -> None:
    """The same step in a later round: supplies add up, and an expectation is printed where it holds in every round."""
    if draft.last:
        draft.between += (draft.last,)
    draft.last = later.actions
    draft.copies = later.copies
    draft.supplies += later.supplies
    kept = [(e.measure, e.values, e.words, e.source) for e in later.expects]
    draft.expects = [e for e in draft.expects if (e.measure, e.values, e.words, e.source) in kept]


def supplies_of(drafts: list[Draft], work: Work) -> Iterator[Supply]:
    """What one run takes in all, equal things together in the order in which they first come."""
    counts: dict[tuple[object, object], list[Supply]] = {}
    for draft in drafts:
        for supply in draft.supplies:
            counts.setdefault((supply.source, supply.length), []).append(supply)
    for same in counts.values():
        yield Supply(source=same[0].source, count=sum(s.count for s in same), length=same[0].length)
