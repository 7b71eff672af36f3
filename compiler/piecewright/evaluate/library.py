"""The library: units and blocks that every pattern may use, read through the ordinary parser.

A file of the library is named after what it defines: `half-square.piece` defines `half-square`. It is
read when a pattern uses that name and nothing nearer has it.
"""

from __future__ import annotations

from piecewright.source import Source
from piecewright.syntax.ast import File
from piecewright.syntax.parse import parse


def library_file(name: str) -> File | None:
    """The library's file for a name, or None. Its text is ours, so it is not expected to be wrong."""
    from importlib.resources import files  # here, because it is slow to start and most patterns never need it

    path = files("piecewright.stdlib").joinpath(f"{name}.piece")
    if not path.is_file():
        return None
    file, diagnostics = parse(Source(f"<library>/{name}.piece", path.read_text(encoding="utf-8")))
    if file is None or diagnostics:
        raise RuntimeError(f"the library's {name}.piece cannot be read")
    return file
