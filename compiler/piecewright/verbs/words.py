"""Words that mean the same everywhere, so that no pattern may use them as names."""

from __future__ import annotations

from piecewright.kernel.places import CORNERS, EDGES, LINES, POINTS, SIDES
from piecewright.verbs.template import JOINING_WORDS

__all__ = [
    "CORNERS",
    "EDGES",
    "GAPS",
    "LINES",
    "MEASURES",
    "OPPOSITE",
    "PLACES",
    "POINTS",
    "RESERVED",
    "SIDES",
    "TARGETS",
    "WAYS",
    "in_mirror",
]

PLACES: tuple[str, ...] = (*EDGES, *POINTS)
TARGETS: tuple[str, ...] = ("sides", "corners")
"""What triangles fill round a table on point."""
GAPS: tuple[str, ...] = (*SIDES, *CORNERS, "corners")
"""Which way inner corners of the work open; `corners` are all four."""
WAYS = ("right", "left", "around")
MEASURES: tuple[str, ...] = ("width", "height", *EDGES)

TURNS = ("turned", "reversed", *WAYS)
MARGIN = ("pattern", "fabric", "cutter", "unit", "block", "quilt", "make", "use")

RESERVED = frozenset(
    (*JOINING_WORDS, "and", *PLACES, *LINES, "corners", *TURNS, "width", "height", "diagonal", "seam", *MARGIN)
)
"""Reserved beside the verbs themselves."""

OPPOSITE = {
    "left": "right",
    "right": "left",
    "top": "bottom",
    "bottom": "top",
    "upper-left": "lower-right",
    "lower-right": "upper-left",
    "upper-right": "lower-left",
    "lower-left": "upper-right",
    "long-edge": "long-edge",
}
"""The edge of a piece that faces an edge of the work when the piece lies as named."""


def in_mirror(word: str) -> str:
    """A place, line, turn or side word as a mirror shows it, left for right."""
    if word not in PLACES and word not in LINES:
        return word
    if word in LINES:
        return "diagonal" if word == "rising-diagonal" else "rising-diagonal"
    return word.replace("left", "right") if "left" in word else word.replace("right", "left")
