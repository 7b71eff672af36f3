"""Which motions of the square bring a block onto itself, cloth onto cloth, measured by shapely. From memory of the
blocks as they have been printed for a century."""

from __future__ import annotations

import pytest
from library_units import made
from piecewright.kernel.measure import finished_outline
from piecewright.kernel.unit import Unit
from shapely import Point, Polygon, unary_union
from shapely.affinity import affine_transform
from shapely.geometry.base import BaseGeometry

MOTIONS = {  # as (a, b, d, e) of x' = a x + b y, y' = d x + e y about the middle
    "quarter": (0, -1, 1, 0),
    "half": (-1, 0, 0, -1),
    "|": (-1, 0, 0, 1),
    "-": (1, 0, 0, -1),
    "/": (0, 1, 1, 0),
    "falling": (0, -1, -1, 0),
}
ALL = frozenset(MOTIONS)
DIAGONALS = frozenset({"half", "/", "falling"})
EXPECTED = {
    "bow-tie": DIAGONALS,
    "flock-of-geese": frozenset({"/"}),
    "puss-in-the-corner": ALL,
    "split-nine-patch": frozenset({"/"}),
    "spool": frozenset({"half", "|", "-"}),
    "sisters-choice": ALL,
    "triple-irish-chain": ALL,
    "triple-irish-chain-alternate": ALL,
    "sunshine-and-shadow": ALL,
    "brick-wall": frozenset(),
    "straight-furrows": frozenset({"/"}),
    "curved-snowball": ALL,
    "robbing-peter-to-pay-paul": DIAGONALS,
    "robbing-peter-to-pay-paul-with-melons": DIAGONALS,
    "melon-square": ALL,
    "roman-stripe": frozenset({"falling"}),
    "strings": ALL,
    "pineapple": ALL,
    "fifty-four-forty-or-fight": DIAGONALS,
    "storm-at-sea": ALL,
    "thousand-pyramids": frozenset({"|"}),
    "pinwheel": frozenset({"quarter", "half"}),
    "goose-whirl": frozenset({"quarter", "half"}),
    "sixteen-patch": DIAGONALS,
    "twenty-five-patch": ALL,
    "double-pinwheel": frozenset({"quarter", "half"}),
    "streak-of-lightning": frozenset({"|"}),
    "attic-windows": frozenset(),
    "bow-tie-ring": ALL,
    "four-pointed-star": ALL,
    "birds-in-the-air": frozenset({"falling"}),
    "rolling-stone": ALL,
    "spools": frozenset({"quarter", "half"}),
    "four-maple-leaves": ALL,
    "double-monkey-wrench": ALL,
    "sawtooth-square": frozenset({"quarter", "half"}),
    "cake-stand": frozenset({"falling"}),
    "snails-trail": frozenset({"half"}),
    "sailboat": frozenset({"|"}),
    "fir-tree": frozenset({"|"}),
    "heart-block": frozenset({"|"}),
    "picket-fence": frozenset({"|"}),
    "tumblers": frozenset({"|"}),
    "square-rounds-with-posts": ALL,
}


def cloths(unit: Unit) -> dict[str, BaseGeometry]:
    """What is seen of each fabric within the seam lines, about the middle of the block."""
    outline = Polygon([p.floats for p in finished_outline(unit)])
    found: dict[str, list[BaseGeometry]] = {}
    for patch in unit.patches:
        shape = unary_union([Polygon([p.floats for p in cell]) for cell in patch.cells]).intersection(outline)
        for disc in patch.discs:
            circle = Point(disc.centre.floats).buffer(float(disc.radius))
            shape = shape.intersection(circle) if disc.inside else shape.difference(circle)
        found.setdefault(patch.fabric, []).append(shape)
    x, y = outline.centroid.coords[0]
    return {name: affine_transform(unary_union(all_), (1, 0, 0, 1, -x, -y)) for name, all_ in found.items()}


@pytest.mark.parametrize("name", EXPECTED)
def test_symmetry(name: str) -> None:
    seen = cloths(made(name))
    kept = {
        motion
        for motion, (a, b, d, e) in MOTIONS.items()
        if all(affine_transform(one, (a, b, d, e, 0, 0)).symmetric_difference(one).area < 1e-6 for one in seen.values())
    }
    assert kept == EXPECTED[name]
