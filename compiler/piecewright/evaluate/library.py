"""The library: units and blocks that every pattern may use, read through the ordinary parser.

Its files are grouped by kind; `index.txt` beside them says which file defines what, so that a pattern reads only
the files it needs, and none of them if it needs none. `piecewright.evaluate.catalogue` writes the index.
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
def index() -> dict[str, str]:
    """The library's names, each with the file that defines it, in the order of the files."""
    found: dict[str, str] = {}
    for line in library_text(INDEX).splitlines():
        file, _, names = line.partition(": ")
        found.update(dict.fromkeys(names.split(), file))
    return found


def read_library(file: str) -> File:
    """One of the library's files, read. Its text is ours, so it is not expected to be wrong."""
    read, diagnostics = parse(Source(f"<library>/{file}", library_text(file)))
    if read is None or diagnostics:
        raise RuntimeError(f"the library's {file} cannot be read")
    return read


@cache
def library_file(name: str) -> File | None:
    """The library's file that defines a name, or None. Each file is read once."""
    file = index().get(name)
    return _once(file) if file is not None else None


def _package() -> ModuleType:
    return import_module("piecewright.stdlib")  # not above: a pattern that uses nothing of it need not find it


@cache
def _once(file: str) -> File:
    return read_library(file)
