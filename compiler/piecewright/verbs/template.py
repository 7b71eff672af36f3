"""The sentences of the verbs as data: `join EDGE of PIECE on EDGES`.

Words in small letters stand as they are, joining words begin a new part, capitals are slots, and a
part in square brackets may be left out. The binder of the evaluator matches phrases against them.
"""

from __future__ import annotations

from functools import cache
from typing import NamedTuple

JOINING_WORDS = ("of", "on", "at", "to", "by", "from", "into", "toward", "beside", "within", "outside", "is")

KINDS = {
    "SIZE": "length",
    "ACROSS": "length",
    "DOWN": "length",
    "WIDTH": "length",
    "HEIGHT": "length",
    "BASE": "length",
    "DISTANCE": "length",
    "RADIUS": "length",
    "COUNT": "count",
    "ANGLE": "angle",
    "COLUMNS": "count",
    "ROWS": "count",
    "FABRIC": "fabric",
    "PIECE": "piece",
    "EDGE": "edge",
    "EDGES": "edges",
    "PLACES": "places",
    "CORNERS": "corners",
    "LINE": "line",
    "LINES": "lines",
    "POINT": "point",
    "PLACE": "place",
    "END": "end",
    "NAME": "name",
    "NAMES": "names",
    "TEXT": "text",
    "WAY": "way",
    "MEASURE": "measure",
    "SIDE": "side",
    "TARGETS": "targets",
}
"""What may stand in a slot. A `side` is where a seam is pressed to: a fabric, a unit, a side, or `darker`;
an `end` is a place at one end of an edge; `places` are edges and corners, or all `corners`;
`lines` are edges too."""

LISTS = ("edges", "places", "corners", "lines", "names", "targets")  # kinds that may have several members
LONG = ("piece", "way")  # kinds that take all items up to the end of their part


class Slot(NamedTuple):
    """`name` is as written; a second slot of one name is numbered: `POINT-2`."""

    name: str
    kind: str


class FormPart(NamedTuple):
    """`word` is the joining word, None for the first part."""

    word: str | None
    tokens: tuple[str | Slot, ...]
    optional: bool


class Form(NamedTuple):
    text: str
    parts: tuple[FormPart, ...]


@cache
def form(text: str) -> Form:
    """The form of a sentence such as `cut DISTANCE from EDGE [into NAMES]`."""
    parts: list[FormPart] = []
    word: str | None = None
    tokens: list[str | Slot] = []
    optional = False
    seen: dict[str, int] = {}
    for written in text.split():
        bare = written.strip("[]")
        if bare in JOINING_WORDS:
            parts.append(FormPart(word, tuple(tokens), optional))
            word, tokens, optional = bare, [], written.startswith("[")
        elif bare.isupper():
            seen[bare] = seen.get(bare, 0) + 1
            name = bare if seen[bare] == 1 else f"{bare}-{seen[bare]}"
            tokens.append(Slot(name, KINDS[bare]))
        else:
            tokens.append(bare)
    parts.append(FormPart(word, tuple(tokens), optional))
    return Form(text, tuple(parts))
