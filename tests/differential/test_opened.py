"""Parts opened over their seam, and corners flipped, worked out a second time with shapely.

What is seen is what of the work lies on its side of the seam, and the reflection in the seam of what of the upper
pieces lies there too; of the work's own allowance only what no flap and no allowance of a flap covers.
"""

from __future__ import annotations

import math

import pytest
import shapely
from differential.patterns import EXAMPLES, example
from differential.replay import actions
from evaluate.constructions import sayable
from evaluate.pattern import built
from piecewright.kernel.action import Flip, Open
from piecewright.kernel.build import Build
from piecewright.kernel.measure import raw_outline
from piecewright.kernel.unit import Unit

FAR = 1000.0
NEAR = 1e-9
Point = tuple[float, float]


def cells(unit: Unit) -> list[tuple[str, shapely.Polygon]]:
    return [(patch.fabric, shapely.Polygon([p.floats for p in cell])) for patch in unit.patches for cell in patch.cells]


def left_of(start: Point, along: Point) -> shapely.Polygon:
    (x, y), (dx, dy) = start, along
    corners = ((-FAR, 0), (FAR, 0), (FAR, FAR), (-FAR, FAR))
    return shapely.Polygon([(x + u * dx - v * dy, y + u * dy + v * dx) for u, v in corners])


def reflected(shape: shapely.Geometry, start: Point, along: Point) -> shapely.Geometry:
    (x, y), (dx, dy) = start, along

    def over(points: object) -> object:
        moved = points - (x, y)
        return 2 * (moved @ (dx, dy))[:, None] * ((dx, dy),) - moved + (x, y)

    return shapely.transform(shape, over)


def seen(base: Unit, uppers: tuple[Unit, ...], start: Point, along: Point, margin: bool) -> list[tuple[str, object]]:
    """Cloth by fabric; with the margin, the work's own allowance where it shows beside the flaps."""
    left = left_of(start, along)
    found = [(fabric, cell.intersection(left)) for fabric, cell in cells(base)]
    flaps: list[shapely.Geometry] = []
    for upper in uppers:
        for fabric, cell in cells(upper):
            flap = reflected(cell.intersection(left), start, along)
            found.append((fabric, flap.difference(shapely.union_all(flaps))))
            flaps.append(flap)
    if margin:
        hidden = shapely.union_all([*flaps, *(cell.difference(left) for upper in uppers for _, cell in cells(upper))])
        found += [(fabric, cell.difference(left).difference(hidden)) for fabric, cell in cells(base)]
    return [(fabric, shape) for fabric, shape in found if shape.area > NEAR]


def agrees(mine: list[tuple[str, object]], result: Unit) -> None:
    for fabric in {name for name, _ in mine} | {patch.fabric for patch in result.patches}:
        one = shapely.union_all([shape.buffer(NEAR) for name, shape in mine if name == fabric])
        other = shapely.union_all([shape.buffer(NEAR) for name, shape in cells(result) if name == fabric])
        assert one.symmetric_difference(other).area < 1e-6, fabric
    outline = shapely.Polygon([p.floats for p in raw_outline(result)])
    assert math.isclose(outline.area, sum(shape.area for _, shape in mine), rel_tol=1e-7)


def check(build: Build) -> int:
    done = 0
    for _, action in actions(build):
        if isinstance(action, Open):
            seam = action.result.seams[action.seams[0]]
            agrees(
                seen(action.layers.base, action.layers.uppers, seam.start.floats, seam.direction.floats, True),
                action.result,
            )
        elif isinstance(action, Flip):
            seam = action.result.seams[action.seam]
            agrees(seen(action.before, (action.piece,), seam.start.floats, seam.direction.floats, False), action.result)
            assert raw_outline(action.result) == raw_outline(action.before)
        else:
            continue
        done += 1
    return done


def test_every_construction() -> None:
    definitions, makes, heading = sayable()
    assert check(built("".join([*heading, *definitions.values(), *makes]))) > 10


@pytest.mark.parametrize("file", EXAMPLES, ids=lambda file: file.stem)
def test_every_example(file: object) -> None:
    check(example(file))
