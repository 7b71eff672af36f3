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
    "E101": Code("a tab"),
    "E102": Code("a character with no meaning here"),
    "E103": Code("a text that is not closed"),
    "E104": Code("brackets that do not pair"),
    "E105": Code("brackets round arithmetic"),
    "E106": Code("a number that cannot be read"),
    "E107": Code("a number with two readings"),
    "E108": Code("a minus without its spaces"),
    "E109": Code("two numbers side by side"),
    "E110": Code("an indentation that fits no line above"),
    "E111": Code("a row or line out of place"),
    "E112": Code("a row with an empty cell"),
    "E113": Code("a joining word twice in a phrase"),
    "E114": Code("something is missing in the sentence"),
    "E115": Code("nothing in the file"),
    "E116": Code("a comma in a row"),
    "E117": Code("a name and a number run together"),
    "E118": Code("nested too deep"),
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
