"""Where something is on the table now: edges, points and lines by the words of the trade.

A place is read afresh from how the work lies; nothing is remembered about the cloth.
"""

from __future__ import annotations

from piecewright.exact import Vector
from piecewright.kernel.errors import SewingError
from piecewright.kernel.measure import bounds, edge_length, raw_edge, raw_outline
from piecewright.kernel.polygon import HALF, side
from piecewright.kernel.rope import box
from piecewright.kernel.unit import Disc, Unit

SIDES = ("left", "right", "top", "bottom")
SLANTED = ("upper-left", "upper-right", "lower-left", "lower-right")
LONG_EDGE = "long-edge"
EDGES = (*SIDES, *SLANTED, LONG_EDGE)
CORNERS = ("top-left", "top-right", "bottom-left", "bottom-right")
MIDDLES = ("top-middle", "bottom-middle", "left-middle", "right-middle")
CENTRE = "centre"
POINTS = (*CORNERS, *MIDDLES, CENTRE)
LINES = ("diagonal", "rising-diagonal")

_FACING = {
    "left": Vector(-1, 0),
    "right": Vector(1, 0),
    "top": Vector(0, 1),
    "bottom": Vector(0, -1),
}
_QUARTER = {
    "upper-left": (-1, 1),
    "upper-right": (1, 1),
    "lower-left": (-1, -1),
    "lower-right": (1, -1),
}


def edge(unit: Unit, name: str) -> int:
    """The number of the edge a word means.

    SewingError: `no-such-edge`, `two-such-edges` (equally long), `two-edges-face` (none faces exactly that
    way and several partly do; `names` are words that tell them apart).
    """
    if name == LONG_EDGE:
        return _longest(unit, range(len(unit.directions)), name)
    outward = [d.right() for d in unit.directions]
    if name in _QUARTER:
        x, y = _QUARTER[name]
        found = [i for i, n in enumerate(outward) if n.x.sign() == x and n.y.sign() == y]
        return _longest(unit, found, name)
    facing = _FACING[name]
    exact = [i for i, n in enumerate(outward) if n == facing]
    if exact:
        return _longest(unit, exact, name)
    partly = [i for i, n in enumerate(outward) if n.dot(facing) > 0]
    if len(partly) > 1:
        raise SewingError("two-edges-face", place=name, names=tuple(sorted({_slant(outward[i]) for i in partly})))
    return _longest(unit, partly, name)


def _slant(outward: Vector) -> str:
    for name, (x, y) in _QUARTER.items():
        if outward.x.sign() == x and outward.y.sign() == y:
            return name
    return next(name for name, facing in _FACING.items() if facing == outward)


def _longest(unit: Unit, edges: range | list[int], name: str) -> int:
    if not edges:
        raise SewingError("no-such-edge", place=name)
    lengths = {i: edge_length(unit, i, finished=True) for i in edges}
    longest = max(lengths.values())
    found = [i for i in edges if lengths[i] == longest]
    if len(found) > 1:
        raise SewingError("two-such-edges", place=name, length=longest)
    return found[0]


def edge_names(unit: Unit) -> tuple[str, ...]:
    """The words that mean one edge of this unit as it lies."""
    names: list[str] = []
    for name in EDGES:
        try:
            edge(unit, name)
        except SewingError:
            continue
        names.append(name)
    return tuple(names)


def point(unit: Unit, name: str) -> Vector:
    """The point of the raw outline a word means; `centre` is the middle of the box round it."""
    if name == CENTRE:
        left, bottom, right, top = bounds(unit)
        return Vector((left + right) * HALF, (bottom + top) * HALF)
    if name in MIDDLES:
        first, last = _extreme(unit, name.split("-")[0])
        return (first + last) * HALF
    vertical, horizontal = name.split("-")
    first, last = _extreme(unit, vertical)
    low, high = (first, last) if first.x <= last.x else (last, first)
    return low if horizontal == "left" else high


def _extreme(unit: Unit, name: str) -> tuple[Vector, Vector]:
    """The ends of the outermost edge that way, or the tip twice. Of an edge in two parts, all of it."""
    facing = _FACING[name]
    outline = raw_outline(unit)
    reach = max(p.dot(facing) for p in outline)
    found = [p for p in outline if p.dot(facing) == reach]
    along = facing.left()
    found.sort(key=lambda p: p.dot(along))
    return found[0], found[-1]


def line(unit: Unit, name: str) -> tuple[Vector, Vector]:
    """The ends of a diagonal of the box round the raw outline: `diagonal` from top left to bottom right,
    `rising-diagonal` from bottom left to top right."""
    left, bottom, right, top = bounds(unit)
    if name == "diagonal":
        return Vector(left, top), Vector(right, bottom)
    return Vector(left, bottom), Vector(right, top)


def fabric_at(unit: Unit, name: str) -> str:
    """The fabric that shows just inside an edge (at its middle) or a point. SewingError `on-a-seam` (fabrics)
    where two meet just there."""
    if name in EDGES:
        number = edge(unit, name)
        start, end = raw_edge(unit, number)
        spot, inward = (start + end) * HALF, unit.directions[number].left()
    else:
        spot = point(unit, name)
        inward = _inward(unit, spot, name)
    found: list[str] = []
    for patch in unit.patch_rope.near(box((spot,))):
        if (
            patch.fabric not in found
            and any(_shows(cell, spot, inward) for cell in patch.cells)
            and all(within(disc, spot) for disc in patch.discs)
        ):
            found.append(patch.fabric)
    if len(found) != 1:
        raise SewingError("on-a-seam", place=name, fabrics=tuple(found))
    return found[0]


def within(disc: Disc, spot: Vector) -> bool:
    """True when the disc's cloth is seen at a spot; on the curve itself the inside counts."""
    near = (spot - disc.centre).squared() <= disc.radius * disc.radius
    return near if disc.inside else not near


def _inward(unit: Unit, spot: Vector, name: str) -> Vector:
    """Into the cloth from a point of the outline: between the two raw edges that meet there."""
    outline = raw_outline(unit)
    for i, p in enumerate(outline):
        q = outline[(i + 1) % len(outline)]
        if p == spot:
            before = outline[i - 1]
            # the inward normals of both edges, weighed by nothing: any direction between them will do
            return (p - before).left() + (q - p).left()
        if not (q - p).cross(spot - p) and (spot - p).dot(q - spot) > 0:
            return (q - p).left()
    return Vector(0, 0)  # the centre: inside already


def _shows(cell: tuple[Vector, ...], spot: Vector, inward: Vector) -> bool:
    """True when a cell covers the spot, or begins there in the direction inward; where that runs along a
    seam, both sides show."""
    for i, p in enumerate(cell):
        along = cell[(i + 1) % len(cell)] - p
        where = side(p, along, spot)
        if where < 0 or (where == 0 and along.cross(inward) < 0):
            return False
    return True
