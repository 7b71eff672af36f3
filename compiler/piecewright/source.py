"""Pattern text and places in it.

Everything that speaks about text carries a `Span`, so that a diagnostic can underline the very
columns it means. A span is half open, counted in characters from the start of the text.
"""

from __future__ import annotations

from bisect import bisect_right


class Source:
    """One text with its name; compared by identity.

    `name` is what a reader is shown (a path as given, or `<text>`). Line ends are `\\n` only:
    whoever reads a file normalises them first.
    """

    __slots__ = ("_starts", "name", "text")

    def __init__(self, name: str, text: str) -> None:
        self.name = name
        self.text = text
        self._starts: list[int] | None = None

    def _line_starts(self) -> list[int]:
        if self._starts is None:
            self._starts = [0] + [i + 1 for i, c in enumerate(self.text) if c == "\n"]
        return self._starts

    def position(self, offset: int) -> tuple[int, int]:
        """The line and column of a character, both counted from 1."""
        starts = self._line_starts()
        line = bisect_right(starts, offset)
        return line, offset - starts[line - 1] + 1

    def line_text(self, line: int) -> str:
        """The text of a line (from 1), without its line end; empty past the last line."""
        starts = self._line_starts()
        if line < 1 or line > len(starts):
            return ""
        begin = starts[line - 1]
        end = starts[line] - 1 if line < len(starts) else len(self.text)
        return self.text[begin:end]

    def line_span(self, line: int) -> tuple[int, int]:
        """First character of what stands on a line (from 1), and past its last; (0, 0) past the last line."""
        text = self.line_text(line)
        if not text:
            return 0, 0
        begin = self._line_starts()[line - 1]
        return begin + len(text) - len(text.lstrip()), begin + len(text.rstrip())

    def __repr__(self) -> str:
        return f"Source({self.name!r}, {len(self.text)} characters)"


class Span:
    """Characters `start` up to, not including, `end` of a source."""

    __slots__ = ("end", "source", "start")

    def __init__(self, source: Source, start: int, end: int) -> None:
        self.source = source
        self.start = start
        self.end = end

    def to(self, other: Span) -> Span:
        """The span from the start of this one to the end of the other, in the same source."""
        return Span(self.source, self.start, other.end)

    @property
    def text(self) -> str:
        return self.source.text[self.start : self.end]

    @property
    def line(self) -> int:
        """The line it starts on, from 1."""
        return self.source.position(self.start)[0]

    @property
    def column(self) -> int:
        """The column it starts at, from 1."""
        return self.source.position(self.start)[1]

    def __eq__(self, other: object) -> bool:
        return (
            isinstance(other, Span)
            and self.source is other.source
            and self.start == other.start
            and self.end == other.end
        )

    def __hash__(self) -> int:
        return hash((id(self.source), self.start, self.end))

    def __repr__(self) -> str:
        line, column = self.source.position(self.start)
        return f"Span({self.source.name}:{line}:{column}, {self.end - self.start})"
