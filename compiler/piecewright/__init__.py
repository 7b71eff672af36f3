"""Piecewright: quilt patterns written as plain text, worked out exactly.

    import piecewright

    compiled = piecewright.compile_source(text)
    compiled = piecewright.compile_file("star.piece")
    compiled = piecewright.build("star.piece", "out", to=("html", "json"))

Each gives a `Compiled`: the plan, or None where there is an error, and the diagnostics.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from piecewright.pipeline import Compiled, build, compile_file, compile_source

__all__ = ["Compiled", "__version__", "build", "compile_file", "compile_source"]

__version__ = "0.1.0"


def __getattr__(name: str) -> object:
    """The compiler is loaded when it is first asked for: every part imports this package, and most
    of them are cheap."""
    if name in __all__:
        from importlib import import_module

        return getattr(import_module("piecewright.pipeline"), name)
    raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
