"""Sheets to print at true size: templates and whatever else is laid on cloth or sewn through.

A sheet says how large it is in inches, and carries two lines to measure after printing. It holds no fabric.
"""

from __future__ import annotations

from collections.abc import Sequence
from html import escape

from piecewright.emit import paths
from piecewright.emit.layout import MARK
from piecewright.emit.lettering import DROP, FAMILY, LINE, SIZE, text_lines, text_width
from piecewright.plan.model import Panel, Point

INCH = 72.0  # points
MILLIMETRE = INCH / 25.4
MARGIN = 9.0  # points round the sheet
PAGE = (190 * MILLIMETRE, 259 * MILLIMETRE)
"""What A4 and letter paper both have within margins of 10 mm, in points."""
DARK, QUIET = "#1c1c1c", "#4a4a4a"
HEAVY, FINE = 1.2, 0.6
CHECKS = (("1 in", INCH), ("2 cm", 20 * MILLIMETRE))
CHECK_TOLD = "Print at 100 % and measure these lines first."
OVER_PAGES = "Larger than a page of A4 or letter paper: print it over several pages and join them."
_FOOT = 120.0  # points, at most, that words and lines to measure take under what is drawn
NARROW = 290.0  # points: the words under a small sheet may be this wide
Label = tuple[Point, str]
"""A short text about a point, in inches of the panel."""


def real(points: float, units: str) -> str:
    """A length on paper as it stands in a file; in patterns in centimetres it is given in millimetres."""
    return f"{points / INCH:.4f}in" if units == "inch" else f"{points / MILLIMETRE:.3f}mm"


def bar(x: float, y: float, length: float) -> str:
    """A line of a length to measure, with a tick at either end."""
    ticks = paths.line([(x, y - 4), (x, y + 4)]) + paths.line([(x + length, y - 4), (x + length, y + 4)])
    return paths.line([(x, y), (x + length, y)]) + ticks


def larger_than_page(across: float, down: float) -> bool:
    """Whether a sheet, in points, does not fit on one page of paper, upright."""
    return across > PAGE[0] or down > PAGE[1]


def true_size(
    panel: Panel, *, name: str, title: str, words: Sequence[str], units: str, labels: Sequence[Label] = ()
) -> str:
    """The lines of a panel, an inch to the inch, with words and the lines to measure under them. SVG text without an
    XML declaration, to be set into a page or to stand as a file; `units` are the pattern's."""
    inner = [p for stroke in panel.strokes for p in stroke.points]
    left, right = min(p[0] for p in inner), max(p[0] for p in inner)
    low, high = min(p[1] for p in inner), max(p[1] for p in inner)
    across = max((right - left) * INCH, NARROW)
    floor = MARGIN + MARK + (high - low) * INCH + MARK
    told = (title, *words, CHECK_TOLD)
    if larger_than_page(across + 2 * (MARGIN + MARK), floor + _FOOT):
        told = (*told, OVER_PAGES)
    rows = [line for text in told for line in text_lines(text, across)]
    below = floor + 8.0 + LINE * len(rows)
    width, height = across + 2 * (MARGIN + MARK), below + 30.0 + MARGIN

    def paper(p: Point) -> Point:
        return MARGIN + MARK + (p[0] - left) * INCH, MARGIN + MARK + (high - p[1]) * INCH

    parts: list[str] = []
    for role, weight, dashes in (("guide", FINE, ""), ("allowance", FINE, "5 3"), ("raw", HEAVY, "")):
        d = "".join(
            (paths.ring if stroke.closed else paths.line)([paper(p) for p in stroke.points])
            for stroke in panel.strokes
            if stroke.role == role
        )
        if d:
            parts.append(_path(d, weight, QUIET if role == "guide" else DARK, dashes))
    ticks = "".join(paths.ticks(paper(m.at), (m.along[0], -m.along[1]), m.count, MARK) for m in panel.marks)
    if ticks:
        parts.append(_path(ticks, HEAVY, DARK))
    for arrow in panel.arrows:
        shaft, head = paths.arrow(paper(arrow.start), paper(arrow.end), both=arrow.role == "grain")
        parts.append(_path(shaft, FINE, DARK) + f'<path d="{head}" fill="{DARK}" stroke="none"/>')
    texts = [_text(*paper(at), text, "middle") for at, text in labels]
    texts += [_text(MARGIN, floor + 8.0 + LINE * (n + 0.5), row, "start") for n, row in enumerate(rows)]
    parts.append(_checks(below + 12.0, texts))
    named = f"fig-{name}"
    size = (
        f'width="{real(width, units)}" height="{real(height, units)}"'
        f' viewBox="0 0 {paths.number(width)} {paths.number(height)}"'
    )
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" id="{named}" {size} role="img"'
        f' aria-labelledby="{named}-title" aria-describedby="{named}-desc">\n'
        f'<title id="{named}-title">{escape(title)}</title>\n'
        f'<desc id="{named}-desc">{escape(" ".join(words))}</desc>\n'
        + "\n".join(parts)
        + f'\n<g font-family="{escape(FAMILY)}" font-size="{paths.number(SIZE)}" fill="{DARK}">'
        + "".join(texts)
        + "</g>\n</svg>\n"
    )


def _checks(top: float, texts: list[str]) -> str:
    """The lines to measure, one beside the other, with their lengths as words after them."""
    d, x = "", MARGIN
    for told, length in CHECKS:
        d += bar(x, top, length)
        texts.append(_text(x + length + 6.0, top, told, "start"))
        x += length + 6.0 + text_width(told) + 20.0
    return _path(d, FINE, DARK)


def _path(d: str, weight: float, colour: str, dashes: str = "") -> str:
    dashed = f' stroke-dasharray="{dashes}"' if dashes else ""
    return f'<path d="{d}" fill="none" stroke="{colour}" stroke-width="{paths.number(weight)}"{dashed}/>'


def _text(x: float, y: float, text: str, anchor: str) -> str:
    at = f'x="{paths.number(x)}" y="{paths.number(y + DROP)}"'
    return f'<text {at} text-anchor="{anchor}">{escape(text)}</text>'
