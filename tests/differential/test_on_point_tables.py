"""Every recorded action of tables on point: single rows and columns, one block, sashes that float, squares of a size of
one's own; with shapely, all of them and in a mirror too."""

from __future__ import annotations

from functools import cache

import pytest
from differential.replay import FULL, Back, WithShapely, WithSympy, replay
from evaluate.pattern import built
from piecewright.kernel.build import Build

TABLES = """
pattern "Tables"
fabric sand
fabric dusk
fabric glow

unit step (light, dark)
    rectangle 2 1/2 by 4 1/2 of dark
    join rectangle 2 1/2 by 4 1/2 of light on right

quilt row (sand, dusk)
    lay 3 by 1 on point
        step(sand, dusk) | square 4 1/2 of dusk
    fill sides and corners of glow, float 1/2

quilt column (sand, dusk)
    lay 1 by 3 on point
        | step(sand, dusk)
        | step(dusk, sand) turned left
    fill sides of glow, squares 8
    fill corners of dusk, squares 5

quilt alone (sand, dusk)
    lay 1 by 1 on point
        | step(sand, dusk)
    sash 1 1/4 of dusk, posts of sand
    fill corners of glow, float 3/4

quilt sashed-row (sand, dusk)
    lay 2 by 1 on point
        | square 4 1/2 of sand
    sash 1 1/4 of dusk
    fill sides and corners of glow

quilt posts (sand, dusk)
    lay 2 by 1 on point
        | square 4 1/2 of dusk
    sash 1 1/4 of dusk, posts of sand
    fill corners of sand, squares 7, float 3/4
    fill sides of glow, float 3/4

quilt rails (sand, dusk)
    lay 1 by 2 on point
        | step(sand, dusk)
    sash 1 1/4 of dusk
    fill sides and corners of glow, float 3/4
"""
NAMES = ("row", "column", "alone", "sashed-row", "posts", "rails")


@cache
def tables(names: tuple[str, ...], end: str) -> Build:
    return built(TABLES + "".join(f"make 1 of {name}(sand, dusk){end}\n" for name in names))


@pytest.mark.parametrize(
    ("back", "names", "end"),
    ((WithSympy(), ("column", "alone", "posts"), ""), (WithShapely(), NAMES, ""), (WithShapely(), NAMES, " reversed")),
    ids=("sympy", "shapely", "mirrored"),
)
def test_tables_on_point(back: Back, names: tuple[str, ...], end: str) -> None:
    build = tables(names, end)
    quilts = [made.key for made in build.made if made.kind == "quilt"]
    assert set(quilts) >= {f"{name}(sand, dusk){end}" for name in names}
    done = replay(build, back)
    assert done["Lay", FULL] >= 2 * len(names)
    assert {reason for _, reason in done} == {FULL}
