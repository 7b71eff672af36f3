"""Findings on the way: raised where they are found, gathered with the calls that led there."""

from __future__ import annotations

from piecewright.diagnostics.model import Diagnostic, Label, Severity
from piecewright.source import Source, Span


class Problem(Exception):
    """A mistake with its place, to be reported by whoever evaluates the line."""

    def __init__(self, code: str, message: str, span: Span, hint: str | None = None, *others: Label) -> None:
        super().__init__(message)
        self.code = code
        self.message = message
        self.span = span
        self.hint = hint
        self.others = others


class Silent(Exception):
    """What is used here is broken, and that was reported where it broke."""


class Report:
    """The findings of one evaluation, each place once for each code."""

    def __init__(self) -> None:
        self.found: list[Diagnostic] = []
        self.failed = False
        self._seen: set[tuple[str, int, int, int]] = set()
        self.calls: list[tuple[Span, str]] = []
        self.library: set[int] = set()

    def problem(self, problem: Problem) -> None:
        self.add(problem.code, "error", problem.message, problem.span, problem.hint, problem.others)

    def add(
        self,
        code: str,
        severity: Severity,
        message: str,
        span: Span,
        hint: str | None = None,
        others: tuple[Label, ...] = (),
        home: Source | None = None,
    ) -> None:
        """Report a finding. One inside the library is reported at the call that led there, with the
        library's own line first in the trace; with `home`, so is one inside any file but that, and
        once for each call."""
        if severity == "error":
            self.failed = True
        trace = [Label(span=call, text=text) for call, text in reversed(self.calls)]
        labels = (Label(span=span), *others)
        if self._is_foreign(span, home):
            for i, call in enumerate(trace):
                if not self._is_foreign(call.span, home):
                    trace[: i + 1] = [Label(span=span, text="here"), *others, *trace[:i]]
                    labels = (Label(span=call.span),)
                    break
        told = span if home is None else labels[0].span
        place = (code, id(told.source), told.start, told.end)
        if place in self._seen:
            return
        self._seen.add(place)
        self.found.append(
            Diagnostic(code=code, severity=severity, message=message, labels=labels, hint=hint, trace=tuple(trace))
        )

    def _is_foreign(self, span: Span, home: Source | None) -> bool:
        return id(span.source) in self.library if home is None else span.source is not home

    def take(self, diagnostics: tuple[Diagnostic, ...]) -> None:
        """Findings that another stage made."""
        for one in diagnostics:
            self.failed = self.failed or one.severity == "error"
            self.found.append(one)
