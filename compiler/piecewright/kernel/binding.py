"""The binding of a quilt: strips round its raw edge, joined end to end.

Lengths are inches, exact.
"""

from __future__ import annotations

from math import isqrt
from typing import Literal

from piecewright.dataclass import dataclass
from piecewright.exact import Exact
from piecewright.kernel.measure import edge_length
from piecewright.kernel.unit import Unit

EXTRA = Exact(10)  # inches for the corners and for joining the ends: common practice
EXTRA_METRIC = Exact(25)  # the same in centimetres
SCRAP = 8  # what is shorter than an eighth of the width is none to join
Join = Literal["diagonal", "straight", "bias"]


@dataclass(frozen=True, slots=True, kw_only=True)
class BiasSquare:
    """A square with this `side`, sewn to a slanted piece, has `bands` whole bands of the strip's width; when it is a
    tube, each gives at least `band` inches of strip."""

    side: Exact
    bands: int
    band: Exact

    @property
    def length(self) -> Exact:
        """What all bands give together, at least."""
        return self.band * self.bands


@dataclass(frozen=True, slots=True, kw_only=True)
class Binding:
    """`round`: once round the raw edge; `length`: what the joined strip must have. Of `strips`, all but the last are
    `full` long, the usable width of the cloth, and `last` is the last one; cut on the bias there are none, but a
    `square` that is sewn into a tube and cut round and round. `width` is that of a strip, before it is folded
    lengthwise."""

    round: Exact
    length: Exact
    width: Exact
    join: Join
    strips: int
    full: Exact
    last: Exact
    square: BiasSquare | None = None


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
        square = bias_square(mark * (length / mark).ceil(), width, seam, unit)  # as it will be printed
        return Binding(
            round=around, length=length, width=width, join=join, strips=0, full=usable, last=usable, square=square
        )
    loss = width if join == "diagonal" else seam * 2
    if usable <= loss:
        raise ValueError("a strip no longer than its joins")
    count = max(1, ((length - loss) / (usable - loss)).ceil())
    last = Exact(((length + loss * (count - 1) - usable * (count - 1)) / mark).ceil()) * mark
    if count > 1:  # no scrap at the end; what is too long is cut off where the ends meet
        last = max(last, mark * (usable / SCRAP / mark).ceil())
    last = min(last, usable)
    full = usable if count > 1 else last
    return Binding(round=around, length=length, width=width, join=join, strips=count, full=full, last=last)


def bias_square(length: Exact, width: Exact, seam: Exact, unit: Exact) -> BiasSquare:
    """The smallest square, its side a whole number of `unit`, that gives a bias strip so long and so wide."""
    side = unit * isqrt((length * width / (unit * unit)).floor())  # by area alone; no bands give more
    while (square := bias_bands(side, width, seam)).bands < 2 or square.length < length:
        side += unit
    return square


def bias_bands(side: Exact, width: Exact, seam: Exact) -> BiasSquare:
    """The whole bands of a square with side a, for a strip of width w and seams s.

    Cut from corner to corner, it is two triangles with legs a, sewn together along a leg of each. The one has its bias
    edge on y = x, from (0, 0) to (a, a), and is sewn at y = s; the other, whose leg was the square's top, comes to lie
    below it, moved down by a - 2s and to the side by t. It so ends at the straight edge x = t, the first at x = a, and
    its bias edge is y = x - (a - 2s + t). Between the bias edges it is therefore (a - 2s + t) / √2, and a band from
    one straight edge to the other is (a - t) √2 long. The straight edges become the seam of the tube, which takes s of
    both, across: a band gives (a - t - 2s) √2, along its middle as along its edges, since the lines are brought
    together on the seam line.

    With t = s the bias edges meet on the seam line and run on straight, and so it is told. Then there are
    ⌊(a - s) / (√2 w)⌋ bands; a larger t only makes the piece higher. The length is counted for t = 2s, a point set out
    too far by a whole seam: (a - 4s) √2. So the strip is long enough for every t from s to 2s.
    """
    root = Exact.root(2)
    return BiasSquare(
        side=side,
        bands=max(0, ((side - seam) / (root * width)).floor()),
        band=max(Exact(0), (side - seam * 4) * root),
    )
