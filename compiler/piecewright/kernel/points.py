"""Points of a patchwork: tips toward a raw edge, which the next seam meets, misses or cuts off.

A tip lies exactly one allowance inside the raw edge when it is right.
"""

from __future__ import annotations

from piecewright.dataclass import dataclass
from piecewright.exact import Exact, Vector
from piecewright.kernel.measure import raw_edge
from piecewright.kernel.polygon import meet
from piecewright.kernel.rope import outside_band
from piecewright.kernel.unit import Polygon, Unit


@dataclass(frozen=True, slots=True, kw_only=True)
class Tip:
    """`spot`: the tip, or where its two sides would cross beyond the edge that cuts it off. `beyond`: its
    distance from raw edge `edge` less the allowance: zero when right, positive when the point floats,
    negative when it is lost. `cell`: the cloth that ends there; `cut` names the cut piece it came from."""

    spot: Vector
    edge: int
    beyond: Exact
    fabric: str
    cell: Polygon
    cut: str
    allowance: Exact


def points(unit: Unit) -> tuple[Tip, ...]:
    """The tips that stand toward a raw edge, within two allowances of their right place, edge by edge."""
    return tuple(tip for edge in range(len(unit.directions)) for tip in points_on(unit, edge))


def points_on(unit: Unit, edge: int) -> tuple[Tip, ...]:
    """Those that stand toward one edge, each place once."""
    found: list[Tip] = []
    spots: set[Vector] = set()
    along = unit.directions[edge]
    start, end = raw_edge(unit, edge)
    inward = along.left()
    deep = 3 * float(unit.allowance)
    for patch in unit.patch_rope.unless(outside_band(start.floats, end.floats, inward.floats, deep)):
        if patch.discs:
            continue  # where a curve ends there is no point to meet
        for cell in patch.cells:
            spot = _tip(cell, start, inward)
            if spot is None or not 0 < (spot - start).dot(along) < (end - start).dot(along):
                continue
            beyond = (spot - start).dot(inward) - unit.allowance
            if abs(beyond) < unit.allowance * 2 and spot not in spots:
                spots.add(spot)
                found.append(
                    Tip(
                        spot=spot,
                        edge=edge,
                        beyond=beyond,
                        fabric=patch.fabric,
                        cell=cell,
                        cut=patch.cut,
                        allowance=unit.allowance,
                    )
                )
    return tuple(found)


def _tip(cell: Polygon, start: Vector, inward: Vector) -> Vector | None:
    """The cell's one corner nearest to the raw edge, or on it; where the cell ends in a side along the edge and
    its neighbours close beyond it, where they would cross."""
    heights = [(p - start).dot(inward) for p in cell]
    nearest = min(heights)
    low = [i for i, h in enumerate(heights) if h == nearest]
    if len(low) == 1:
        return cell[low[0]]
    if len(low) != 2 or nearest:
        return None
    count = len(cell)
    i, j = (low[0], low[1]) if low[1] == low[0] + 1 else (low[1], low[0])
    before, after = cell[i] - cell[i - 1], cell[(j + 1) % count] - cell[j]
    if before.cross(-after) <= 0:
        return None  # the sides run apart or in parallel: no point was meant here
    return meet(cell[i], before, cell[j], after)
