"""Why a piece of sewing cannot be done, without a place in any text."""

from __future__ import annotations


class SewingError(Exception):
    """`kind` is a short stable word (`edges-differ`); `facts` hold the numbers and words behind it,
    lengths in inches. Whoever knows the text adds the place and says it in craft words."""

    def __init__(self, kind: str, **facts: object) -> None:
        super().__init__(kind)
        self.kind = kind
        self.facts = facts

    def __str__(self) -> str:
        facts = ", ".join(f"{name}={value}" for name, value in self.facts.items())
        return f"{self.kind} ({facts})" if facts else self.kind
