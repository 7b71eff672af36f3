"""Curves as evaluated: what lies along an edge that a curve ends at, and a curve in the mirror."""

from __future__ import annotations

import pytest
from piecewright.evaluate.mirror import Glass
from piecewright.exact import Exact
from piecewright.kernel.action import Curve
from piecewright.kernel.curve import curved
from piecewright.kernel.moves import mirrored
from piecewright.kernel.pieces import rectangle
from piecewright.kernel.places import edge
from piecewright.verbs.press import lengths_along

SIDE, SEAM = Exact(17, 2), Exact(1, 4)


def ground():
    return rectangle(SIDE, SIDE, fabric="ground", allowance=SEAM, cut="square:1")


def test_an_edge_is_shared_where_the_curve_ends():
    """A curve of radius 5 about the finished corner, a quarter of an inch in from the raw one: 5 1/4 of 8 1/2."""
    unit = curved(ground(), 0, Exact(5), fabric="pie")
    assert lengths_along(unit, edge(unit, "bottom")) == {"ground": Exact(13, 4), "pie": Exact(21, 4)}
    assert lengths_along(unit, edge(unit, "top")) == {"ground": SIDE}


def test_a_ring_lies_between_its_curves():
    unit = curved(curved(ground(), 0, Exact(5), fabric="ring"), 0, Exact(2), fabric="core")
    found = lengths_along(unit, edge(unit, "left"))
    assert found == {"ground": Exact(13, 4), "ring": Exact(3), "core": Exact(9, 4)}


@pytest.mark.parametrize("corner", range(4))
def test_the_corner_of_a_curve_in_the_mirror(corner):
    before = ground()
    action = Curve(
        before=before,
        corner=corner,
        place=("bottom-left", "bottom-right", "top-right", "top-left")[corner],
        radius=Exact(3),
        fabric="pie",
        result=curved(before, corner, Exact(3), fabric="pie"),
        toward="toward pie",
        pressed="right",
    )
    mirror = Glass(lambda key: key)._action(action, None)
    assert isinstance(mirror, Curve)
    there, here = mirror.before.corners[mirror.corner].finished, before.corners[corner].finished
    assert (there.x, there.y) == (-here.x, here.y)
    assert mirror.result == mirrored(action.result)
    assert mirror.place == ("bottom-right", "bottom-left", "top-left", "top-right")[corner]
