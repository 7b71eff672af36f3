"""Every recorded action of the constructions of the language: the compiler against sympy and against shapely."""

from __future__ import annotations

from functools import cache

import pytest
from differential.replay import Back, WithShapely, WithSympy, replay
from evaluate.constructions import sayable
from evaluate.pattern import built
from piecewright.kernel.build import Build

CURVES = """
pattern "Curves"
fabric ground
fabric path
fabric rim

unit bend (ground, path)
    square 4 1/2 of ground
    curve 2 of path at bottom-left
    border 1 of path on top

unit ring (ground, path, rim)
    four is four-patch-from-strips(ground, rim, 4)
    take four
    curve 3 of path at bottom-left
    curve 1 1/2 of ground at bottom-left
    curve 1 of rim at top-right
    expect 1 copies

unit nested (ground, path)
    square 4 1/2 of ground
    curve 3 of path at bottom-left
    curve 1 1/2 of ground at bottom-left

unit hollow (ground, path, rim)
    rectangle 6 1/2 by 4 1/2 of ground
    curve of path on left and top
    curve of rim on right and bottom

unit pieced-hollow (ground, path, rim)
    take four-patch-from-strips(ground, rim, 4)
    curve of path on left and top

block bends (ground, path)
    b is bend(ground, path)
    lay
        b | b reversed
        b turned around | b reversed turned around
    trim to 8 by 9, centred
    cut 3 1/8 from left into near and far

block on-point (ground, path)
    take far(ground, path)
    turn 45 left

make 1 of near(ground, path)
make 1 of on-point(ground, path)
make 1 of nested(ground, path)
make 1 of hollow(ground, path, rim)
make 1 of pieced-hollow(ground, path, rim)
make 1 of ring(ground, path, rim)
make 1 of ring(ground, path, rim) reversed
"""


QUILTS = """
pattern "Quilts"
fabric ground, usable 42
fabric path, usable 40

quilt throw (ground, path)
    rectangle 83 1/2 by 69 1/2 of ground
    back of path
    bind 2 1/2 of path

quilt spread (ground, path)
    rectangle 99 1/2 by 139 1/2 of ground
    back of path
    bind 2 1/2 of path, straight

quilt wrap (ground, path)
    square 29 1/2 of ground
    back of path
    bind 2 1/2 of path, bias

unit tooth (ground, path)
    strip 1 1/2 of ground
    join strip 1 1/2 of path on top
    subcut 2 1/2

unit stripe (ground, path)
    strip 1 of ground
    join strip 2 of path on top

quilt bordered (ground, path)
    rectangle 8 1/2 by 6 1/2 of ground
    border tooth(ground, path), posts of path
    border 2 of ground, mitred
    border stripe(ground, path), mitred
    border stripe(path, ground), posts of path
    border 1 1/2 of path on top
    border tooth(path, ground) on left

block rounds (ground, path)
    square 4 1/2 of ground
    repeat 3
        border 1 1/2 of path, posts of ground
        border 1 1/4 of ground, mitred

quilt on-point (ground, path)
    lay 2 by 3 on point
        | square 4 1/2 of ground
        | square 4 1/2 of path
    fill sides of path, float 1/2
    fill corners of ground, float 1/2

quilt lattice (ground, path)
    lay 3 by 2 on point
        | square 4 1/2 of ground
    sash 1 1/2 of path, posts of ground
    fill sides and corners of path

quilt rails (ground, path)
    lay 2 by 2 on point
        | square 4 1/2 of ground
    sash stripe(ground, path)
    fill sides and corners of path

make 1 of rounds(ground, path)
make 1 of throw(ground, path)
make 1 of spread(ground, path)
make 1 of wrap(ground, path)
"""


@cache
def constructions() -> Build:
    definitions, makes, heading = sayable()
    return built("".join([*heading, *definitions.values(), *makes]))


@cache
def curves() -> Build:
    return built(CURVES)


@cache
def quilts() -> Build:
    return built(QUILTS)


@pytest.mark.parametrize("back", (WithSympy(), WithShapely()), ids=("sympy", "shapely"))
def test_every_construction(back: Back) -> None:
    done = replay(constructions(), back)
    kinds = {kind for kind, _ in done}
    assert kinds == {
        "CutPiece", "Take", "Turn", "Subcut", "Place", "Stitch", "Open", "Flip", "Sew", "Finish", "Press", "Lay",
        "Trim", "Back", "Bind",
    }  # fmt: skip


@pytest.mark.parametrize("back", (WithSympy(), WithShapely()), ids=("sympy", "shapely"))
def test_curves(back: Back) -> None:
    done = replay(curves(), back)
    assert done["Curve", ""] >= 7


@pytest.mark.parametrize("back", (WithSympy(), WithShapely()), ids=("sympy", "shapely"))
def test_the_back_and_the_edge_of_quilts(back: Back) -> None:
    done = replay(quilts(), back)
    assert done["Back", ""] == done["Bind", ""] == 3
