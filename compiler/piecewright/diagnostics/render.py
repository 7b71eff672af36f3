"""Diagnostics as text for people: `human` with excerpts, `short` with one line each."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import NamedTuple

from piecewright.diagnostics.excerpt import clean, excerpt
from piecewright.diagnostics.model import Diagnostic, Label
from piecewright.source import Source, Span

WIDTH = 100  # columns of pattern text shown of one line
TRACE = 6  # calls shown of a long trace: the outermost ones are what the reader wrote


class Look(NamedTuple):
    """What the page is drawn with. The main place is underlined with a row of stitches, the places
    of causes with a basting line."""

    stitch: str
    baste: str
    gap: str
    paint: bool


PLAIN = Look("━", "╌", "⋮", False)
TYPED = Look("=", "-", ":", False)  # for a stream that cannot show the others
AS_TYPED = str.maketrans("“”‘’→…–—×", "\"\"''>~--x")  # one for one, so that marks stay under their words

RED, YELLOW, BLUE, BOLD, FAINT = "31", "33", "34", "1", "2"
COLOURS = {"error": RED, "warning": YELLOW, "note": BLUE}


def placed(source: Source) -> bool:
    """Whether there are lines to show: a file that could not be read has none."""
    return bool(source.text)


def at(span: Span) -> str:
    """`file:line:column`, or the file alone where there is no text."""
    if not placed(span.source):
        return clean(span.source.name)
    line, column = span.source.position(span.start)
    return f"{clean(span.source.name)}:{line}:{column}"


def ordered(diagnostics: Iterable[Diagnostic]) -> list[Diagnostic]:
    """In reading order, file by file in the order in which the files first come up."""
    found = list(diagnostics)
    files: dict[int, int] = {}
    for one in found:
        files.setdefault(id(one.span.source), len(files))
    return sorted(found, key=lambda one: (files[id(one.span.source)], one.span.start))


def short(diagnostics: Iterable[Diagnostic]) -> str:
    """One line each: `file:line:column: E203 message`."""
    lines: list[str] = []
    for one in ordered(diagnostics):
        line, column = one.span.source.position(one.span.start)
        lines.append(f"{clean(one.span.source.name)}:{line}:{column}: {one.code} {clean(one.message)}\n")
    return "".join(lines)


def human(diagnostics: Iterable[Diagnostic], *, colour: bool = False, typed: bool = False) -> str:
    """Each finding with the lines it is about, what mends it, and the calls that led there.

    `colour` uses the ANSI (ECMA-48) colours; `typed` draws with ASCII only, though a pattern's own text stays
    as it is. Ends with a line that
    counts the findings and says how to read more. No findings give no text.
    """
    found = ordered(diagnostics)
    if not found:
        return ""
    look = (TYPED if typed else PLAIN)._replace(paint=colour)
    text = "".join(_one(one, look).rstrip("\n") + "\n\n" for one in found) + _total(found, look)
    return text.translate(AS_TYPED) if typed else text


def _ink(text: str, look: Look, *styles: str) -> str:
    return f"\x1b[{';'.join(styles)}m{text}\x1b[0m" if look.paint and text else text


def _one(one: Diagnostic, look: Look) -> str:
    tone = COLOURS[one.severity]
    head = _ink(f"{one.severity} {one.code}", look, BOLD, tone)
    out = [f"{head}  {_ink(clean(one.message), look, BOLD)}\n"]
    groups: dict[int, list[Label]] = {}
    for label in one.labels:
        groups.setdefault(id(label.span.source), []).append(label)
    for number, labels in enumerate(groups.values()):
        place = ("  in " if number == 0 else "  and ") + at(labels[0].span)
        out.append(_ink(place, look, FAINT) + "\n")
        if placed(labels[0].span.source):
            out.append(_lines(labels, one.labels[0], tone, look))
    if one.hint:
        out.append(f"  {_ink('mend', look, BOLD)}  {clean(one.hint)}\n")
    out.extend(_calls(one.trace, look))
    return "".join(out)


def _lines(labels: Sequence[Label], main: Label, tone: str, look: Look) -> str:
    """The labelled lines of one file, in order, each with its marks below it."""
    by_line: dict[int, list[Label]] = {}
    for label in labels:
        by_line.setdefault(label.span.line, []).append(label)
    numbers = sorted(by_line)
    gutter = max(len(str(numbers[-1])), 3) + 2
    out = ["\n"]
    previous: int | None = None
    for number in numbers:
        if previous is not None and number > previous + 1:
            out.append(_ink(look.gap.rjust(gutter), look, FAINT) + "\n")
        here = by_line[number]
        shown = excerpt(number, tuple(label.span for label in here), WIDTH)
        out.append(f"{_ink(str(number).rjust(gutter), look, FAINT)}  {shown.text}\n")
        for label, mark in zip(here, shown.marks, strict=True):
            line = (look.stitch if label is main else look.baste) * mark.length
            text = f"{line} {clean(label.text)}".rstrip()
            out.append(" " * (gutter + 2 + mark.before) + _ink(text, look, tone if label is main else BLUE) + "\n")
        previous = number
    out.append("\n")
    return "".join(out)


def _calls(trace: Sequence[Label], look: Look) -> Iterable[str]:
    """The calls, innermost first; the middle of a long row of calls is left out and counted."""
    shown = list(trace)
    left_out = len(shown) - TRACE
    if left_out > 1:
        shown = shown[: TRACE // 2] + shown[-(TRACE - TRACE // 2) :]
    for number, label in enumerate(shown):
        if left_out > 1 and number == TRACE // 2:
            yield _ink(f"  {look.gap}  {left_out} more calls", look, FAINT) + "\n"
        said = clean(label.text) or "called"
        yield _ink(f"  by way of {at(label.span)}", look, FAINT) + f"  {said}\n"


def _total(found: Sequence[Diagnostic], look: Look) -> str:
    counts = [
        f"{n} {word}{'' if n == 1 else 's'}"
        for word in ("error", "warning", "note")
        if (n := sum(one.severity == word for one in found))
    ]
    return f"{', '.join(counts)}; `piecewright explain {found[0].code}` says more\n"
