"""Curves as evaluated: what lies along an edge that a curve ends at, and a curve in the mirror."""

from __future__ import annotations

import pytest
from evaluate.pattern import built
from piecewright.evaluate.mirror import Glass
from piecewright.exact import Exact
from piecewright.kernel.action import Curve
from piecewright.kernel.curve import curved, hollowed, melon_arc
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
        shape="quarter circle",
        at=corner,
        place=("bottom-left", "bottom-right", "top-right", "top-left")[corner],
        radius=Exact(3),
        fabric="pie",
        result=curved(before, corner, Exact(3), fabric="pie"),
        toward="toward pie",
        pressed="right",
    )
    mirror = Glass(lambda key: key)._action(action, None)
    assert isinstance(mirror, Curve)
    there, here = mirror.before.corners[mirror.at].finished, before.corners[corner].finished
    assert (there.x, there.y) == (-here.x, here.y)
    assert mirror.result == mirrored(action.result)
    assert mirror.place == ("bottom-right", "bottom-left", "top-left", "top-right")[corner]


def test_a_half_melon_takes_all_of_its_edge_and_none_of_the_next():
    """Where the seam will run it reaches from corner to corner; what is beyond lies in the allowances."""
    unit = hollowed(ground(), 0, fabric="melon")
    assert lengths_along(unit, edge(unit, "bottom")) == {"ground": Exact(1, 2), "melon": Exact(8)}
    assert lengths_along(unit, edge(unit, "left"))["ground"] == SIDE - Exact(1, 4)
    assert lengths_along(unit, edge(unit, "top")) == {"ground": SIDE}


@pytest.mark.parametrize("at", range(4))
def test_the_side_of_a_half_melon_in_the_mirror(at):
    before = ground()
    centre, radius = melon_arc(before, at)
    action = Curve(
        before=before,
        shape="half melon",
        at=at,
        place=("bottom", "right", "top", "left")[at],
        radius=radius,
        fabric="melon",
        result=hollowed(before, at, fabric="melon"),
        toward="toward melon",
        pressed="right",
    )
    mirror = Glass(lambda key: key)._action(action, None)
    assert isinstance(mirror, Curve)
    there, _ = melon_arc(mirror.before, mirror.at)
    assert (there.x, there.y) == (-centre.x, centre.y)
    assert mirror.result == mirrored(action.result)
    assert mirror.place == ("bottom", "left", "top", "right")[at]
    assert edge(mirror.before, mirror.place) == mirror.at


def test_what_lies_along_a_half_melon_decides_the_pressing():
    """The ground's corners all lie beyond the circle, and still it runs through the ground."""
    text = 'pattern "q"\n    press toward darker\nfabric a, value {}\nfabric b, value {}\n\nblock one\n'
    text += "    square 5 of a\n    curve of b on left and top\n"
    for light, dark, told in (("light", "dark", "toward b"), ("dark", "light", "toward a")):
        made = next(one for one in built(text.format(light, dark)).made if one.name == "one")
        curves = [action for step in made.steps for action in step.actions if isinstance(action, Curve)]
        assert [curve.toward for curve in curves] == [told, told]
