"""What a look over finished work finds, before it has words and a place."""

from __future__ import annotations

from piecewright.kernel.build import Step


class Finding:
    """`kind` is one of those that have words; `step` the line of the definition it is about, None for the
    definition as a whole; `facts` are lengths in inches, names and numbers. `rounds`, of a step under a repeat: the
    first round it is in, how many it is in, and how often the step is done; None elsewhere."""

    __slots__ = ("facts", "kind", "rounds", "step")

    def __init__(self, kind: str, step: Step | None, **facts: object) -> None:
        self.kind = kind
        self.step = step
        self.facts = facts
        self.rounds: tuple[int, int, int] | None = None
