"""The kinds of slots in people's words, and the words that may stand in those that only certain ones fill."""

from __future__ import annotations

from collections.abc import Sequence

from piecewright.verbs.words import CORNERS, EDGES, GAPS, LINES, MEASURES, PLACES, POINTS, TARGETS

CLOSED: dict[str, Sequence[str]] = {
    "edge": EDGES,
    "edges": EDGES,
    "corners": (*CORNERS, "corners"),
    "line": LINES,
    "lines": (*LINES, *EDGES),
    "point": POINTS,
    "place": PLACES,
    "places": GAPS,
    "end": PLACES,
    "measure": MEASURES,
    "targets": TARGETS,
}
"""Kinds of slots that only certain words may fill, or a parameter that stands for one."""

SPOKEN = {
    "length": "a size",
    "count": "a number",
    "angle": "an angle in degrees",
    "fabric": "a fabric",
    "piece": "a piece",
    "edge": "an edge",
    "edges": "an edge, or several with `and`",
    "corners": "a corner, or several with `and`",
    "line": "a line",
    "lines": "an edge or a diagonal, or several with `and`",
    "point": "a point",
    "place": "a place",
    "places": "a side or corner, or several with `and`",
    "end": "a place at one end",
    "name": "a new name",
    "names": "new names",
    "text": "a text between quotation marks",
    "way": "`right`, `left` or `around`",
    "measure": "what is measured",
    "side": "a fabric, a unit, a side or `darker`",
    "targets": "`sides` or `corners`, or both with `and`",
}
