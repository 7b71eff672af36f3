"""The remark above a definition, which is its description in what is printed."""

from __future__ import annotations

from piecewright.source import Source

_RULES = "#-–—=*_~─━ \t"  # what a remark may be framed with


def remark_above(source: Source, line: int) -> str:
    """The remarks on the lines directly above line `line`, as one text; empty where there is none.

    A line between that is blank or holds a step ends them. Rules drawn of dashes and the like are left out.
    """
    words: list[str] = []
    for number in range(line - 1, 0, -1):
        text = source.line_text(number)
        if not text.startswith("#"):
            break
        words.append(text.strip(_RULES))
    return " ".join(word for word in reversed(words) if word)
