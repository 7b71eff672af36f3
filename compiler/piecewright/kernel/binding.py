"""The binding of a quilt: strips round its raw edge, joined end to end.

Lengths are inches, exact.
"""

from __future__ import annotations

from typing import Literal

from piecewright.dataclass import dataclass
from piecewright.exact import Exact
from piecewright.kernel.measure import edge_length
from piecewright.kernel.unit import Unit

EXTRA = Exact(10)  # inches for the corners and for joining the ends: common practice
EXTRA_METRIC = Exact(25)  # the same in centimetres
JOINS = ("diagonal", "straight", "bias")
Join = Literal["diagonal", "straight", "bias"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Binding:
    """`round`: once round the raw edge; `length`: what the joined strip must have. Of `strips`, all but the last are
    `full` long, the usable width of the cloth, and `last` is the last one; cut on the bias there are none, but the
    side of a `square` that is sewn into a tube and cut round and round. `width` is that of a strip, before it is folded
    lengthwise."""

    round: Exact
    length: Exact
    width: Exact
    join: Join
    strips: int
    full: Exact
    last: Exact
    square: Exact | None = None


def perimeter(unit: Unit) -> Exact:
    """Once round the raw edge, dog ears aside: each edge as it can be measured. OutsideNumbers where an edge has
    a length that cannot be written."""
    return sum((edge_length(unit, edge, finished=False) for edge in range(len(unit.directions))), Exact(0))


def binding(
    around: Exact, width: Exact, usable: Exact, seam: Exact, join: Join, *, extra: Exact, mark: Exact, unit: Exact
) -> Binding:
    """The binding of an edge so long, with so much `extra`, of strips so wide. The last strip is a whole number of
    `mark`, the side of a square one of `unit`, both in inches.

    A diagonal join takes as much of the length as a strip is wide, a straight one two allowances; let that be j: n
    strips of length u give n * u - (n - 1) * j. ValueError for strips no longer than a join.
    """
    length = around + extra
    if join == "bias":
        side = bias_square(length, width, seam, unit)
        return Binding(
            round=around, length=length, width=width, join=join, strips=0, full=usable, last=usable, square=side
        )
    loss = width if join == "diagonal" else seam * 2
    if usable <= loss:
        raise ValueError("a strip no longer than its joins")
    count = max(1, ((length - loss) / (usable - loss)).ceil())
    last = Exact(((length + loss * (count - 1) - usable * (count - 1)) / mark).ceil()) * mark
    last = min(last, usable)
    full = usable if count > 1 else last
    return Binding(round=around, length=length, width=width, join=join, strips=count, full=full, last=last)


def bias_square(length: Exact, width: Exact, seam: Exact, unit: Exact) -> Exact:
    """The side of the square that gives a bias strip so long and so wide, a whole number of `unit`.

    Cut on its diagonal and sewn along one side, the square has lost two allowances of that side, a to s - 2a; the
    strip, cut round the tube that this makes, takes its width of what is left for each length of it.
    """
    side = unit
    while (side - seam * 2) * side < length * width:
        side += unit
    return side
