"""Every code a diagnostic may carry. The page of a code is `pages/<code>.md`.

E1xx text and the shape of a sentence; E2xx names; E3xx sewing; E4xx expectations and quantities;
W5xx warnings; E9xx files and surroundings. A number, once given, keeps its meaning.
"""

from __future__ import annotations

from typing import NamedTuple

from piecewright.diagnostics.model import Severity


class Code(NamedTuple):
    """The title is the page's heading: what is wrong, in a few words of the craft."""

    title: str
    severity: Severity = "error"


CODES: dict[str, Code] = {
    # E1xx text and the shape of a sentence
    "E190": Code("the file is not UTF-8 text"),
    # E2xx names
    "E280": Code("the used file is not there"),
    "E281": Code("files use each other in a circle"),
    # E3xx sewing
    # E4xx expectations and quantities
    # W5xx warnings
    # E9xx files and surroundings
    "E901": Code("the file cannot be read"),
    "E902": Code("the result cannot be written"),
}
