"""Random pieces of sewing for the property tests: sequences that a person could sew."""

from __future__ import annotations

from dataclasses import dataclass

from hypothesis import strategies as st
from piecewright.exact import Exact, Vector
from piecewright.kernel.chain import chain
from piecewright.kernel.cut import cut
from piecewright.kernel.errors import SewingError
from piecewright.kernel.measure import edge_length, height, width
from piecewright.kernel.moves import mirrored, settled, turned
from piecewright.kernel.pieces import rectangle
from piecewright.kernel.places import edge, line
from piecewright.kernel.trim import Centred, trim
from piecewright.kernel.unit import Unit

SEAM = Exact(1, 4)
FABRICS = ("dusk", "glow", "clay", "sand")
SIDES = ("left", "right", "top", "bottom")
OPPOSITE = {"left": "right", "right": "left", "top": "bottom", "bottom": "top"}

eighths = st.integers(min_value=9, max_value=64).map(lambda n: Exact(n, 8))
fabrics = st.sampled_from(FABRICS)


@dataclass(frozen=True, slots=True, kw_only=True)
class Order:
    """One order of a random sequence, carried out as far as it fits the work."""

    verb: str
    side: str
    size: Exact
    fabric: str


orders = st.builds(
    Order,
    verb=st.sampled_from(("border", "rejoin", "turn", "tilt", "mirror", "trim", "slice", "overhang")),
    side=st.sampled_from(SIDES),
    size=eighths,
    fabric=fabrics,
)


def start(order: Order) -> Unit:
    """A rectangle to begin with."""
    return rectangle(order.size + 3, order.size + 1, fabric=order.fabric, allowance=SEAM, cut="start")


def carried_out(unit: Unit, order: Order) -> tuple[Unit, ...]:
    """The work after each stage of an order (none where the order does not fit the work)."""
    try:
        return tuple(_stages(unit, order))
    except SewingError:
        return ()


def _stages(unit: Unit, order: Order) -> list[Unit]:
    match order.verb:
        case "turn":
            return [settled(turned(unit, 90))]
        case "tilt":
            return [settled(turned(unit, 45))]
        case "mirror":
            return [mirrored(unit)]
        case "border":
            return [_bordered(unit, order.side, order.size, order.fabric)]
        case "overhang":
            return [_overhanging(unit, order)]
        case "trim":
            return [trim(unit, width(unit) - Exact(1, 8), height(unit) - Exact(1, 8), (Centred(),)).unit]
        case "slice":
            x = width(unit) / 2
            unit = settled(unit)
            left, right = cut(unit, Vector(x, Exact(0)), Vector(0, 1))
            return [left, right, chain(right, edge(right, "right"), left, edge(left, "left")).unit]
        case _:
            square = trim(unit, min(width(unit), height(unit)), min(width(unit), height(unit)), (Centred(),)).unit
            corner, _ = line(square, "diagonal")
            one, other = cut(square, corner, Vector.at(-45))
            plain = rectangle(width(square), height(square), fabric=order.fabric, allowance=SEAM, cut="plain")
            _, half = cut(plain, line(plain, "diagonal")[0], Vector.at(-45))
            whole = chain(one, edge(one, "long-edge"), half, edge(half, "long-edge")).unit
            return [square, one, other, half, whole]


def _bordered(unit: Unit, side: str, size: Exact, fabric: str) -> Unit:
    number = edge(unit, side)
    length = edge_length(unit, number, finished=True) + SEAM * 2
    upright = side in ("left", "right")
    strip = rectangle(
        size if upright else length, length if upright else size, fabric=fabric, allowance=SEAM, cut="border"
    )
    return chain(unit, number, strip, edge(strip, OPPOSITE[side])).unit


def _overhanging(unit: Unit, order: Order) -> Unit:
    """A piece longer or shorter than the edge it is sewn to, even at one end."""
    piece = rectangle(order.size, order.size, fabric=order.fabric, allowance=SEAM, cut="piece")
    number = edge(unit, order.side)
    return chain(unit, number, piece, edge(piece, OPPOSITE[order.side]), fit="start").unit
