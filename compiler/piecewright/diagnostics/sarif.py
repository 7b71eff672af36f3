"""Diagnostics as SARIF 2.1.0 (Static Analysis Results Interchange Format Version 2.1.0, OASIS Standard,
27 March 2020), the format in which editors and code hosts take findings.

Where things go: the causes elsewhere are `relatedLocations` (3.27.22), the calls a `stack` (3.27.18),
the hint stands behind the message and again in the result's property bag, and a code is a `rule` whose
help (3.49.13) is its page. Columns are Unicode code points (3.14.17).
"""

from __future__ import annotations

import json
from collections.abc import Iterable

from piecewright.diagnostics.codes import CODES
from piecewright.diagnostics.explain import explain
from piecewright.diagnostics.model import Diagnostic, Label
from piecewright.diagnostics.render import ordered, placed

SCHEMA = "https://docs.oasis-open.org/sarif/sarif/v2.1.0/os/schemas/sarif-schema-2.1.0.json"


def sarif(diagnostics: Iterable[Diagnostic], *, version: str) -> str:
    """The SARIF log of one run of this version of Piecewright, as JSON text with a line end."""
    found = ordered(diagnostics)
    codes = sorted({one.code for one in found})
    log = {
        "$schema": SCHEMA,
        "version": "2.1.0",
        "runs": [
            {
                "tool": {
                    "driver": {"name": "Piecewright", "version": version, "rules": [_rule(code) for code in codes]}
                },
                "columnKind": "unicodeCodePoints",
                "results": [_result(one, codes.index(one.code)) for one in found],
            }
        ],
    }
    return json.dumps(log, indent=2, ensure_ascii=False) + "\n"


def _rule(code: str) -> dict[str, object]:
    page = explain(code) or CODES[code].title
    return {
        "id": code,
        "shortDescription": {"text": CODES[code].title},
        "help": {"text": page, "markdown": page},
        "defaultConfiguration": {"level": CODES[code].severity},
    }


def _result(one: Diagnostic, rule: int) -> dict[str, object]:
    result: dict[str, object] = {
        "ruleId": one.code,
        "ruleIndex": rule,
        "level": one.severity,
        "message": {"text": f"{one.message}. {one.hint}" if one.hint else one.message},
        "locations": [_location(one.labels[0])],
    }
    related = [{"id": number, **_location(label)} for number, label in enumerate(one.labels[1:], 1)]
    if related:
        result["relatedLocations"] = related
    if one.trace:
        result["stacks"] = [{"frames": [{"location": _location(label)} for label in one.trace]}]
    if one.hint:
        result["properties"] = {"hint": one.hint}
    return result


def _location(label: Label) -> dict[str, object]:
    span = label.span
    physical: dict[str, object] = {"artifactLocation": {"uri": _uri(span.source.name)}}
    if placed(span.source):
        line, column = span.source.position(span.start)
        end_line, end_column = span.source.position(max(span.start, span.end))
        physical["region"] = {
            "startLine": line,
            "startColumn": column,
            "endLine": end_line,
            "endColumn": end_column,
        }
    location: dict[str, object] = {"physicalLocation": physical}
    if label.text:
        location["message"] = {"text": label.text}
    return location


def _uri(name: str) -> str:
    """A file's name as a URI reference (RFC 3986): relative as it was given, `file:` where it is absolute."""
    from pathlib import PurePath  # here, with quote, because only this format needs URIs
    from urllib.parse import quote

    path = PurePath(name)
    if path.is_absolute():
        return path.as_uri()
    return quote(path.as_posix(), safe="/~!$&'()*+,;=@")
