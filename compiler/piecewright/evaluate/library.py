"""The library: units and blocks that every pattern may use, read through the ordinary parser.

Its files are grouped by kind; `index.txt` beside them says which file defines what, so that a pattern reads only
the definitions it needs, and nothing if it needs none. `piecewright.evaluate.catalogue` writes the index.
"""

from __future__ import annotations

import os
from functools import cache
from importlib import import_module
from types import ModuleType

from piecewright.source import Source
from piecewright.syntax.ast import File
from piecewright.syntax.parse import parse

INDEX = "index.txt"


def library_text(file: str) -> str:
    """The text of one of the library's files, through whatever loaded the package (it may lie in an archive)."""
    path = os.path.join(library_folder(), file)
    loader = _package().__loader__
    assert loader is not None and hasattr(loader, "get_data")
    data: bytes = loader.get_data(path)
    return data.decode("utf-8")


def library_folder() -> str:
    """Where the library's files are."""
    return _package().__path__[0]


@cache
def index() -> dict[str, tuple[str, str]]:
    """The library's names in the order of its files, each with the file and the definition that give it: a name of
    its own, or one for a part that a definition cuts (`crossed-parts/crossed-narrow` in the index)."""
    found: dict[str, tuple[str, str]] = {}
    for line in library_text(INDEX).splitlines():
        file, _, names = line.partition(": ")
        for name in names.split():
            definition, _, part = name.partition("/")
            found[part or name] = file, definition
    return found


def read_library(file: str, text: str | None = None) -> File:
    """One of the library's files, read, or some of its text. It is ours, so it is not expected to be wrong."""
    read, diagnostics = parse(Source(f"<library>/{file}", library_text(file) if text is None else text))
    if read is None or diagnostics:
        raise RuntimeError(f"the library's {file} cannot be read")
    return read


@cache
def library_file(name: str) -> File | None:
    """The library's definition of a name, as a file with nothing else in it, or None."""
    where = index().get(name)
    return _definition(*where) if where is not None else None


@cache
def _definition(file: str, name: str) -> File:
    """One definition with the remarks above it, on the lines where it stands; the others are blank, since reading a
    whole file takes ten times as long."""
    lines = _lines(file)
    heads = (f"unit {name} ", f"block {name} ")
    (head,) = (number for number, line in enumerate(lines) if line.startswith(heads))
    first, last = head, head + 1
    while first and lines[first - 1].startswith("#"):
        first -= 1
    while last < len(lines) and (not lines[last] or lines[last].startswith(" ")):
        last += 1
    return read_library(file, "\n" * first + "\n".join(lines[first:last]) + "\n")


@cache
def _lines(file: str) -> list[str]:
    return library_text(file).splitlines()


def _package() -> ModuleType:
    return import_module("piecewright.stdlib")  # not above: a pattern that uses nothing of it need not find it
