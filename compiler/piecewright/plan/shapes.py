"""Pieces of a table that are drawn once and placed many times."""

from __future__ import annotations

from collections.abc import Callable
from typing import Literal

from piecewright.kernel.setting import finished_picture
from piecewright.kernel.unit import Spot, Unit
from piecewright.plan.model import Placed, Point, Shape

Look = Literal["raw", "cloth", "finished"]
"""With its raw edges and allowances; only its cloth, raw edges included; only what is seen within its seam lines."""

MOST = 256

# Units are told by themselves, since to compare what is in them would take longer than to draw them; each is kept with
# its shape, so that no other can have its number.
_known: dict[tuple[int, Look, int], tuple[Unit, Shape]] = {}


def shape_of(unit: Unit, look: Look, line: int, draw: Callable[[Unit, Look], Shape]) -> Shape:
    """The shape of a unit, drawn the first time it is asked for. `line`: as for a table."""
    key = (id(unit), look, line)
    found = _known.get(key)
    if found is None:
        if len(_known) >= MOST:
            _known.clear()
        seen = finished_picture(unit) if look == "finished" else unit
        found = _known[key] = (unit, draw(seen, look))
    return found[1]


def placed(spot: Spot, shape: Shape, shift: Point) -> Placed:
    """A shape where a spot lies, moved by `shift`."""
    turn = spot.turn.floats if spot.turn is not None else (1.0, 0.0)
    x, y = spot.shift.floats if spot.shift is not None else (0.0, 0.0)
    return Placed(shape=shape, turn=turn, at=(x + shift[0], y + shift[1]))


def edge_spots(unit: Unit, spots: tuple[Spot, ...]) -> tuple[Spot, ...]:
    """The spots that lie at an edge of a unit."""
    lines = [
        (*unit.corners[n].finished.floats, *along.left().floats) for n, along in enumerate(unit.directions)
    ]
    found = []
    for spot in spots:
        corners = [p.floats for p in spot.points()]
        if any((x - ax) * nx + (y - ay) * ny < NEAR for ax, ay, nx, ny in lines for x, y in corners):
            found.append(spot)
    return tuple(found)


NEAR = 1e-6  # inches
