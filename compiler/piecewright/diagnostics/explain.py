"""The page that explains a code."""

from __future__ import annotations


def explain(code: str) -> str | None:
    """The Markdown page of a code (`E301`, in any case), or None if there is no such code."""
    from importlib.resources import files  # here, because only `explain` and SARIF read a page

    from piecewright.diagnostics.codes import CODES

    code = code.strip().upper()
    if code not in CODES:
        return None
    return files("piecewright.diagnostics.pages").joinpath(f"{code}.md").read_text(encoding="utf-8")
