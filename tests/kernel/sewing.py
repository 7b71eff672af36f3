"""Short ways to cut and sew with the kernel alone, for tests. Lengths in inches; fabrics by letters."""

from __future__ import annotations

from piecewright.exact import Exact, Vector
from piecewright.kernel.chain import Joined, chain
from piecewright.kernel.cut import cut
from piecewright.kernel.measure import bounds, edge_length, finished_size, height, raw_edge, width
from piecewright.kernel.moves import settled, turned
from piecewright.kernel.pieces import polygon_piece, rectangle
from piecewright.kernel.places import edge
from piecewright.kernel.unit import Unit

S = Exact(1, 4)
ROOT_2, ROOT_3, ROOT_5 = Exact.root(2), Exact.root(3), Exact.root(5)
TOLERANCE = Exact(1, 16)
NONE = Exact(0)


def inches(trade: str | int | Exact) -> Exact:
    """`3 7/8`, an int, or a number that is exact already."""
    if isinstance(trade, Exact):
        return trade
    total = Exact(0)
    for part in str(trade).split():
        above, _, below = part.partition("/")
        total = total + Exact(int(above), int(below or 1))
    return total


def oblong(across: str | int | Exact, down: str | int | Exact, fabric: str = "a", s: Exact = S) -> Unit:
    return rectangle(inches(across), inches(down), fabric=fabric, allowance=s)


def square(side: str | int | Exact, fabric: str = "a", s: Exact = S) -> Unit:
    return oblong(side, side, fabric, s)


def halves(unit: Unit) -> tuple[Unit, Unit]:
    """Cut from top left to bottom right: the lower half first, its right angle at bottom left, then the upper."""
    left, bottom, right, top = bounds(unit)
    above, below = cut(unit, Vector(left, top), Vector(right - left, bottom - top).unit())
    return below, above


def quarter(side: str | int | Exact, fabric: str = "a", s: Exact = S) -> Unit:
    """The lowest of a square cut on both diagonals, long edge at the bottom."""
    low, _ = halves(square(side, fabric, s))
    _, part = cut(low, Vector(0, 0), Vector(1, 1).unit())
    return settled(part)


def half(side: str | int | Exact, fabric: str = "a", s: Exact = S) -> Unit:
    return halves(square(side, fabric, s))[0]


def join(first: Unit, side: str, second: Unit, other: str, tolerance: Exact = NONE) -> Unit:
    return joined(first, side, second, other, tolerance).unit


def joined(first: Unit, side: str, second: Unit, other: str, tolerance: Exact = NONE) -> Joined:
    return chain(first, edge(first, side), second, edge(second, other), tolerance=tolerance)


def bordered(unit: Unit, strip: str | Exact, fabric: str, sides: tuple[str, ...]) -> Unit:
    """Strips cut to the raw edge as it is by then."""
    wide = inches(strip)
    for side in sides:
        long = height(unit) if side in ("left", "right") else width(unit)
        unit = join(unit, side, rectangle(long, wide, fabric=fabric, allowance=unit.allowance), "bottom")
    return unit


ALL_ROUND = ("left", "right", "top", "bottom")


def sizes(unit: Unit) -> tuple[str, str]:
    return str(width(unit)), str(height(unit))


def finished(unit: Unit) -> tuple[str, str]:
    across, down = finished_size(unit)
    return str(across), str(down)


def raw_length(unit: Unit, side: str) -> Exact:
    start, end = raw_edge(unit, edge(unit, side))
    return (end - start).length()


def edge_finished(unit: Unit, side: str | int) -> Exact:
    return edge_length(unit, side if isinstance(side, int) else edge(unit, side), finished=True)


def ears(unit: Unit) -> list[Exact]:
    return [line.area for line in unit.ledger if line.kind == "ear"]


def trapezoid(outline: tuple[tuple[Exact, Exact], ...], fabric: str = "a", s: Exact = S) -> Unit:
    return polygon_piece(tuple(Vector(x, y) for x, y in outline), fabric=fabric, allowance=s)


__all__ = [
    "ALL_ROUND", "ROOT_2", "ROOT_3", "ROOT_5", "TOLERANCE", "S", "bordered", "ears",
    "edge_finished", "finished", "half", "halves",
    "inches", "join", "joined", "oblong", "quarter", "raw_length", "sizes", "square", "trapezoid", "turned",
]  # fmt: skip
