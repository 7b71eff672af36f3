"""Patterns evaluated in one line, for the tests here."""

from __future__ import annotations

from collections.abc import Mapping

from piecewright.diagnostics.model import Diagnostic
from piecewright.evaluate.run import evaluate
from piecewright.kernel.build import Build, Made
from piecewright.source import Source, Span
from piecewright.syntax.ast import File
from piecewright.syntax.parse import parse


def parsed(text: str, name: str = "pattern.piece") -> File:
    file, slips = parse(Source(name, text))
    assert file is not None and not slips
    return file


def found(text: str, settings: Mapping[str, str] | None = None) -> tuple[Build | None, tuple[Diagnostic, ...]]:
    """What evaluating a text gives; it uses no other files."""
    return evaluate(parsed(text), nothing, settings or {})


def built(text: str, settings: Mapping[str, str] | None = None) -> Build:
    """A pattern that has no mistakes; it may have what is warned of."""
    build, diagnostics = found(text, settings)
    assert [one.message for one in diagnostics if one.severity == "error"] == []
    assert build is not None
    return build


def made(build: Build) -> dict[str, Made]:
    return {one.key: one for one in build.made}


def nothing(name: str, span: Span) -> tuple[Diagnostic, ...]:
    raise AssertionError(f"{name} is not used")
