"""Lines of a pattern text as they are shown on a screen, with the columns below a place marked.

A screen column is not a character: a tab takes four columns here, a wide East Asian character two, a
combining mark none. A character that would move the cursor or hide text is shown as a stand-in, so
that a pattern file cannot paint over the message about it.
"""

from __future__ import annotations

from typing import NamedTuple

from piecewright.source import Span

TAB = 4


class Cell(NamedTuple):
    """One character as shown, and the columns it takes."""

    shown: str
    width: int


def cells(line: str) -> list[Cell]:
    """Each character of a line as it is shown."""
    if line.isascii() and line.isprintable():
        return [Cell(c, 1) for c in line]
    from unicodedata import category, combining, east_asian_width  # only for the rare line that needs it

    found: list[Cell] = []
    for c in line:
        kind = category(c)
        if c == "\t":
            found.append(Cell("→" + " " * (TAB - 1), TAB))
        elif c in "\u200d\ufe0e\ufe0f" or kind in ("Mn", "Me") or combining(c):
            found.append(Cell(c, 0) if found else Cell(" " + c, 1))
        elif kind in ("Cc", "Cf", "Cs", "Co", "Cn", "Zl", "Zp"):
            found.append(Cell("\ufffd", 1))
        else:
            found.append(Cell(c, 2 if east_asian_width(c) in "WF" else 1))
    return found


def clean(text: str) -> str:
    """Text that is shown within a line of ours, with nothing in it that would move the cursor."""
    return text if text.isprintable() else "".join(cell.shown for cell in cells(text))


class Mark(NamedTuple):
    """`before` blank columns and then `length` marked ones, under the text as shown."""

    before: int
    length: int


class Excerpt(NamedTuple):
    """A line as shown, cut to fit if need be, and one mark for each span asked for."""

    text: str
    marks: tuple[Mark, ...]


def excerpt(line: int, spans: tuple[Span, ...], width: int) -> Excerpt:
    """Line `line` of the spans' source in at most about `width` columns, round the first span.

    Every span must touch the line. One that begins earlier or ends later is marked from the line's
    first word or to its end. An empty one is marked as one column, at the line's end one past it.
    """
    source = spans[0].source
    text = source.line_text(line)
    indent = len(text) - len(text.lstrip())
    parts = cells(text)
    ranges: list[tuple[int, int]] = []
    for span in spans:
        start_line, start_column = source.position(span.start)
        end_line, end_column = source.position(max(span.start, span.end))
        start = min(start_column - 1 if start_line == line else indent, len(parts))
        end = min(end_column - 1 if end_line == line else len(parts), len(parts))
        ranges.append((start, max(end, start)))

    first, last = 0, len(parts)
    if sum(cell.width for cell in parts) > width:
        first, last = _window(parts, ranges[0], width)
    head = "…" if first > 0 else ""
    tail = "…" if last < len(parts) else ""
    marks: list[Mark] = []
    for start, end in ranges:
        inner = (min(max(start, first), last), max(min(end, last), first))
        before = len(head) + sum(cell.width for cell in parts[first : inner[0]])
        marks.append(Mark(before, max(sum(cell.width for cell in parts[inner[0] : inner[1]]), 1)))
    return Excerpt(head + "".join(cell.shown for cell in parts[first:last]) + tail, tuple(marks))


def _window(parts: list[Cell], wanted: tuple[int, int], width: int) -> tuple[int, int]:
    """Which characters of a long line to show: the wanted ones from their start, and what fits round them."""
    first = last = min(wanted[0], len(parts))
    used = 0
    while last < len(parts) and (last < wanted[1] or used < width // 3) and used + parts[last].width <= width:
        used += parts[last].width
        last += 1
    while first > 0 and used + parts[first - 1].width <= width:
        first -= 1
        used += parts[first].width
    while last < len(parts) and used + parts[last].width <= width:
        used += parts[last].width
        last += 1
    while first < last and parts[first].width == 0:  # a combining mark cannot stand without its letter
        first += 1
    return first, last
