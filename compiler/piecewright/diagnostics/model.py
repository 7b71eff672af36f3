"""What a diagnostic is: plain data, made by any stage, shown by `render`."""

from __future__ import annotations

from typing import Literal

from piecewright.dataclass import dataclass
from piecewright.source import Span

Severity = Literal["error", "warning", "note"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Label:
    """A place in the text and what is to be said there (may be empty for the main place)."""

    span: Span
    text: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Diagnostic:
    """One finding.

    `code` is a key of `diagnostics.codes.CODES` (`E203`); `message` says in craft words what is
    wrong, in one sentence without a full stop; `labels[0]` is the place itself, the others are
    causes elsewhere; `hint` is one thing that mends it, or None; `trace` holds the calls that led
    into a used or library definition, the innermost first.
    """

    code: str
    severity: Severity
    message: str
    labels: tuple[Label, ...]
    hint: str | None = None
    trace: tuple[Label, ...] = ()

    @property
    def span(self) -> Span:
        """The place it is reported at."""
        return self.labels[0].span
