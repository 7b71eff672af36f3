"""What the tests of warnings share: two fabrics, cut triangles, and the warnings of a text."""

from __future__ import annotations

from piecewright import pipeline
from piecewright.diagnostics.model import Diagnostic

FABRICS = "fabric light, value light\nfabric dark, value dark\n"
TRIANGLES = """\
unit half (size, cloth)
    square size of cloth
    cut once on diagonal

unit quarter (size, cloth)
    square size of cloth
    cut twice on diagonal

"""


def found(text: str, **files: str) -> tuple[Diagnostic, ...]:
    """All but W540, since one of the two fabrics may lie unused."""
    def load(name: str) -> str:
        return files[name.removesuffix(".piece")]

    diagnostics = pipeline.compile_source(text, name="pattern.piece", load=load).diagnostics
    return tuple(one for one in diagnostics if one.code != "W540")


def warned(text: str, **files: str) -> list[tuple[str, str]]:
    """Of each warning its code and the text of the line it is at."""
    return [(one.code, one.span.source.line_text(one.span.line).strip()) for one in found(text, **files)]


def said(text: str) -> str:
    """The message of the one warning."""
    (one,) = found(text)
    assert one.severity == "warning" and one.hint
    return one.message
