"""Hand-made findings that show every part of a diagnostic."""

from __future__ import annotations

from piecewright.diagnostics.model import Diagnostic, Label
from piecewright.source import Source, Span

PATTERN = Source(
    "lantern.piece",
    """pattern "Lantern"
    seam 1/4

unit framed (ground, frame)
    square 6 1/2 of ground
    border 2 of frame on left and right

block lantern (ground, frame)
    take framed(ground, frame)
    join rectangle 9 by 3 of ground on bottom
""",
)
USED = Source("parts/posts.piece", "unit post (cloth)\n    square 3 of cloth\n")


def at(words: str, source: Source = PATTERN) -> Span:
    start = source.text.index(words)
    return Span(source, start, start + len(words))


EDGES = Diagnostic(
    code="E281",
    severity="error",
    message="these edges differ by 1/2: 8 1/2 on the piece, 9 on the work",
    labels=(
        Label(span=at("rectangle 9 by 3"), text="finishes 8 1/2"),
        Label(span=at("border 2 of frame"), text="made it 4 wider"),
        Label(span=at("square 3", USED), text="cut here"),
    ),
    hint="cut it 9 1/2 across",
    trace=(Label(span=at("framed(ground, frame)"), text="framed, from lantern"),),
)
WARNING = Diagnostic(code="E280", severity="warning", message="this is wasteful", labels=(Label(span=at("seam 1/4")),))
ABSENT = Diagnostic(
    code="E901",
    severity="error",
    message="gone.piece cannot be read: there is no such file",
    labels=(Label(span=Span(Source("gone.piece", ""), 0, 0)),),
)
ALL = (EDGES, WARNING, ABSENT)


def deep(calls: int) -> Diagnostic:
    """A finding with a long row of calls behind it."""
    trace = tuple(Label(span=at("framed(ground, frame)"), text=f"call {number}") for number in range(calls))
    return Diagnostic(code="E281", severity="error", message="deep", labels=(Label(span=at("seam")),), trace=trace)
