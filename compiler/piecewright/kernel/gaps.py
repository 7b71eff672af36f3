"""Inner corners of an outline, into which another piece is set.

A set-in seam is `chain` with two edges at once: those that meet at the inner corner, and those that meet at the
corner of the piece which fills the angle left there.
"""

from __future__ import annotations

from piecewright.exact import Exact, Vector
from piecewright.kernel.errors import SewingError
from piecewright.kernel.measure import edge_length, finished_bounds
from piecewright.kernel.polygon import HALF
from piecewright.kernel.unit import Unit

_LINES = {"left": (-1, 0), "right": (1, 0), "bottom": (0, -1), "top": (0, 1)}
_EIGHTH = Exact.root(2) - 1  # the slope of 22.5 degrees, halfway between two neighbouring ways


def middle(unit: Unit) -> Vector:
    """The centre of the box round the finished outline."""
    left, bottom, right, top = finished_bounds(unit)
    return Vector((left + right) * HALF, (bottom + top) * HALF)


def inner_corners(unit: Unit) -> tuple[int, ...]:
    """The corners at which the outline turns to the right."""
    return tuple(n for n, along in enumerate(unit.directions) if unit.directions[n - 1].cross_sign(along) < 0)


def inner_corner(unit: Unit, way: str, centre: Vector) -> int:
    """The number of the inner corner that opens that way: `top`, `top-right` and so on, each the eighth of a turn about
    that direction. A corner opens along the middle of the angle left there, the sum of the outward normals of its two
    edges; in a star that is the way it lies from the middle, and in any other work it does not hang on where the middle
    is. Of several, the one that lies exactly that way from the centre.

    SewingError: `no-inner-corner` (place, names: the ways in which some open), `two-inner-corners`.
    """
    x = _LINES["left" if "left" in way else "right"][0] if "left" in way or "right" in way else 0
    y = _LINES["bottom" if "bottom" in way else "top"][1] if "bottom" in way or "top" in way else 0
    gaps = {n: (unit.directions[n - 1] + unit.directions[n]).right() for n in inner_corners(unit)}
    found = [n for n, gap in gaps.items() if _way(gap) == (x, y)]
    if not found:
        ways = dict.fromkeys(_named(_way(gap)) for gap in gaps.values() if gap)
        raise SewingError("no-inner-corner", place=way, names=tuple(sorted(ways)))
    if len(found) > 1:
        spots = {n: unit.corners[n].finished - centre for n in found}
        exact = [n for n in found if not spots[n].cross(Vector(x, y)) and spots[n].dot(Vector(x, y)) > 0]
        if len(exact) != 1:
            raise SewingError("two-inner-corners", place=way)
        found = exact
    return found[0]


def _way(gap: Vector) -> tuple[int, int]:
    x, y = gap.x, gap.y
    across = x.sign() if abs(x) > abs(y) * _EIGHTH else 0
    up = y.sign() if abs(y) > abs(x) * _EIGHTH else 0
    return across, up


def _named(way: tuple[int, int]) -> str:
    words = [name for name, line in _LINES.items() if line in ((0, way[1]), (way[0], 0)) and any(line)]
    return "-".join(sorted(words, key=lambda word: word not in ("top", "bottom")))


def corner_that_fits(unit: Unit, corner: int, piece: Unit, tolerance: Exact) -> int:
    """The first of the two edges of the piece whose corner fills an inner corner of the unit. Of several that fit,
    the one for which the piece is turned least.

    SewingError: `no-corner-fits` where no angle does, `edges-differ` (first, second, difference) where the edges do
    not match.
    """
    n, m = len(unit.corners), len(piece.corners)
    before, after = unit.directions[corner - 1], unit.directions[corner]
    ways = piece.directions
    alike = [
        j
        for j in range(m)
        if before.cross(after) == -ways[j].cross(ways[(j + 1) % m])
        and before.dot(after) == ways[j].dot(ways[(j + 1) % m])
        and ways[j].cross_sign(ways[(j + 1) % m]) > 0
    ]
    if not alike:
        raise SewingError("no-corner-fits")
    mine = [edge_length(unit, (corner - 1 + t) % n, finished=True) for t in (0, 1)]
    fitting: list[int] = []
    misfit: tuple[Exact, Exact, Exact] | None = None
    for j in alike:
        theirs = [edge_length(piece, (j + 1 - t) % m, finished=True) for t in (0, 1)]
        worst = max(zip(mine, theirs, strict=True), key=lambda pair: abs(pair[0] - pair[1]))
        difference = abs(worst[0] - worst[1])
        if difference <= tolerance:
            fitting.append(j)
        elif misfit is None or difference < misfit[2]:
            misfit = (*worst, difference)
    if not fitting:
        assert misfit is not None
        raise SewingError("edges-differ", first=misfit[0], second=misfit[1], difference=misfit[2])
    # the cosine of the turn: the more, the less the piece is turned
    return max(fitting, key=lambda j: float((-before).dot(ways[(j + 1) % m])))
