"""Diagnostics as JSON for other programs.

One object:

    {"schema": "piecewright-diagnostics/1",
     "errors": 1, "warnings": 0,
     "diagnostics": [
       {"code": "E301", "severity": "error", "title": "...", "message": "...", "hint": "..." or null,
        "labels": [PLACE, ...], "trace": [PLACE, ...]}]}

and a PLACE is

    {"file": "star.piece", "text": "...",
     "start": {"line": 3, "column": 5, "offset": 41}, "end": {"line": 3, "column": 9, "offset": 45}}

`labels[0]` is the place itself, the others are causes elsewhere; `trace` holds the calls that led
there, the innermost first. Lines and columns count from 1, offsets from 0, all in characters (Unicode
code points) after line ends were made `\\n`; an end is the place just past the last character. A file
that is empty or could not be read has `start` and `end` null.
"""

from __future__ import annotations

import json
from collections.abc import Iterable

from piecewright.diagnostics.codes import CODES
from piecewright.diagnostics.model import Diagnostic, Label
from piecewright.diagnostics.render import ordered, placed
from piecewright.source import Source

SCHEMA = "piecewright-diagnostics/1"


def report(diagnostics: Iterable[Diagnostic]) -> str:
    """The JSON text, with a line end."""
    found = ordered(diagnostics)
    whole = {
        "schema": SCHEMA,
        "errors": sum(one.severity == "error" for one in found),
        "warnings": sum(one.severity == "warning" for one in found),
        "diagnostics": [
            {
                "code": one.code,
                "severity": one.severity,
                "title": CODES[one.code].title,
                "message": one.message,
                "hint": one.hint,
                "labels": [_place(label) for label in one.labels],
                "trace": [_place(label) for label in one.trace],
            }
            for one in found
        ],
    }
    return json.dumps(whole, indent=2, ensure_ascii=False) + "\n"


def _place(label: Label) -> dict[str, object]:
    source = label.span.source
    known = placed(source)
    return {
        "file": source.name,
        "text": label.text,
        "start": _position(source, label.span.start) if known else None,
        "end": _position(source, label.span.end) if known else None,
    }


def _position(source: Source, offset: int) -> dict[str, int]:
    line, column = source.position(offset)
    return {"line": line, "column": column, "offset": offset}
