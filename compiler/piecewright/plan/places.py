"""Places in words, and the word for an edge from the way it faces."""

from __future__ import annotations

from collections.abc import Sequence

from piecewright.exact import Vector
from piecewright.kernel.unit import Unit
from piecewright.plan.words import listed

_EDGES = {
    "left": "left", "right": "right", "top": "top", "bottom": "bottom", "upper-left": "upper left",
    "upper-right": "upper right", "lower-left": "lower left", "lower-right": "lower right", "long-edge": "long",
}  # fmt: skip
_POINTS = {
    "top-left": "top left corner", "top-right": "top right corner", "bottom-left": "bottom left corner",
    "bottom-right": "bottom right corner", "top-middle": "middle of the top edge",
    "bottom-middle": "middle of the bottom edge", "left-middle": "middle of the left edge",
    "right-middle": "middle of the right edge", "centre": "centre",
}  # fmt: skip
_FACING = ({"left", "right"}, {"top", "bottom"})


def is_edge(place: str) -> bool:
    return place in _EDGES


def is_point(place: str) -> bool:
    return place in _POINTS


def edges_words(edges: Sequence[str]) -> str:
    """`the left edge`, `the left and the right edge`."""
    return listed([f"the {_EDGES.get(edge, edge)}" for edge in edges]) + " edge"


def edges_in_order(edges: Sequence[str]) -> str:
    """Edges that are sewn one after the other. Where the length of one depends on the one before, the order is told:
    `the top, then the right edge`."""
    if len(edges) < 2 or set(edges) in _FACING:
        return edges_words(edges)
    return ", then ".join(f"the {_EDGES.get(edge, edge)}" for edge in edges) + " edge"


def point_words(point: str) -> str:
    """`the top left corner`."""
    return f"the {_POINTS.get(point, point.replace('-', ' '))}"


def place_words(place: str) -> str:
    """Where something shows: `at the bottom left corner`, `along the top edge`."""
    if place in _POINTS:
        return ("in the " if place == "centre" else "at the ") + _POINTS[place]
    return f"along the {_EDGES.get(place, place.replace('-', ' '))} edge"


def facing(unit: Unit, edge: int) -> str:
    """The place word of an edge from the way it faces; the outline runs counter-clockwise, so that is to
    the right of its direction."""
    along = unit.directions[edge]
    across, up = along.y.sign(), -along.x.sign()
    if not up:
        return "right" if across > 0 else "left"
    if not across:
        return "top" if up > 0 else "bottom"
    return ("upper-" if up > 0 else "lower-") + ("right" if across > 0 else "left")


def line_words(start: Vector, end: Vector, bounds: tuple[object, object, object, object]) -> str:
    """A cut from corner to corner of the box round the work: `from top left to bottom right`, or nothing
    for any other line."""
    left, bottom, right, top = bounds
    low, high = sorted((start, end), key=lambda point: point.x)
    if (low.x, high.x) != (left, right):
        return ""
    if (low.y, high.y) == (top, bottom):
        return "from top left to bottom right"
    if (low.y, high.y) == (bottom, top):
        return "from bottom left to top right"
    return ""
