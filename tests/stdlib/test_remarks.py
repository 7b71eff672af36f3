"""Where a remark of the library says in which corner something lies, it lies there."""

from __future__ import annotations

import re

import pytest
from evaluate.pattern import built, made
from piecewright.evaluate.catalogue import entries
from piecewright.kernel.build import Made, Piece
from piecewright.kernel.places import fabric_at

CORNER = re.compile(r"\b(top|bottom) (left|right)\b")
SAID = {
    "claw-row": {"bottom-right": "claw"},
    "half-and-quarters-from-triangles": {"top-left": "large", "bottom": "bottom-cloth", "right": "right-cloth"},
    "leaf-stem": {"bottom-left": "stem", "top-right": "stem", "centre": "stem"},
    "maple-leaf": {"bottom-left": "leaf"},
    "one-corner-stitch-and-flip": {"bottom-right": "corner", "top-left": "ground"},
    "quarter-circle": {"bottom-left": "pie", "top-right": "ground"},
    "two-corners-stitch-and-flip": {"bottom-left": "corner", "top-right": "corner", "bottom-right": "ground"},
    "wave-column": {"top-right": "dark", "bottom-left": "light"},
    "wave-row": {"top-right": "dark", "bottom-left": "light"},
}


def one(name: str) -> Made:
    build = built(f"make 1 of {name}\n")
    return made(build)[build.demands[0].key]


def test_these_remarks_name_a_corner() -> None:
    assert set(SAID) <= {entry.name for entry in entries() if CORNER.search(entry.about)}


@pytest.mark.parametrize("name", SAID)
def test_it_lies_where_the_remark_says(name: str) -> None:
    unit = one(name).unit
    assert {place: fabric_at(unit, place) for place in SAID[name]} == SAID[name]


def test_what_the_corner_of_a_hen_is_made_of() -> None:
    """Two squares of cloth and two units, of which nothing is half a square."""
    (about,) = (entry.about for entry in entries() if entry.name == "hen-corner")
    assert "two squares on the diagonal and two small half-square triangle units" in about
    corner = one("hen-corner")
    squares = [supply for supply in corner.supplies if isinstance(supply.source, Piece)]
    assert [supply.source.shape for supply in squares if isinstance(supply.source, Piece)] == ["square", "square"]
    assert sum(supply.count for supply in squares) == 2
    assert sum(supply.count for supply in corner.supplies if isinstance(supply.source, str)) == 2
    assert (fabric_at(corner.unit, "top-left"), fabric_at(corner.unit, "bottom-right")) == ("ground", "hen")
