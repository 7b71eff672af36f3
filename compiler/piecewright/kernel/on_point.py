"""Blocks set on point: where each lies, how long the rows are, and what fills the edges and corners.

The rows that are sewn run at 45 degrees to the edges of the quilt. Here they lie level, so that the quilt leans: its
upper left corner is at the origin, its top edge runs up to the right. A block has its middle at a whole number of
pitches across (`p`) and up (`q`); the pitch is its finished size and that of one sash. As the quilt is seen, with the
rows turned 45 degrees to the right, `columns` blocks lie side by side in each of `rows` wide rows, one less in the
rows between them; block `i` of wide row `j` is the one at p = i + j + 1, q = i - j, and of the row below it at
p = i + j + 2. So there is a block wherever 1 <= p + q < 2 columns and 1 <= p - q < 2 rows.
"""

from __future__ import annotations

from piecewright.dataclass import dataclass
from piecewright.exact import Exact, Vector
from piecewright.kernel.cut import cut
from piecewright.kernel.moves import moved, turned
from piecewright.kernel.polygon import ZERO
from piecewright.kernel.setting import EAST, NORTH, Frame
from piecewright.kernel.unit import Unit

ROOT_2 = Exact.root(2)
TRADE_ROOT_2 = Exact(1414, 1000)
SEEN = -45  # degrees that all is turned by, to lie as it is seen


def side_square(block: Exact, allowance: Exact, beyond: Exact = ZERO) -> Exact:
    """The square, in inches, that is cut in quarters for side triangles round blocks of a finished size.

    Exact is block·√2 + (2 + 2√2)s, since the long side of the triangle finishes block·√2 and its 45-degree points take
    (1 + √2)s at either end. The trade multiplies by 1.414 and adds 1 1/4 in, five allowances of 1/4; past blocks of
    200 in, where 1.414 is too short, the exact one counts. `beyond`: how far the seam line of the edge lies outside the
    points, which makes the long side longer by twice that.
    """
    exact = block * ROOT_2 + allowance * (2 + 2 * ROOT_2)
    return max(exact, block * TRADE_ROOT_2 + allowance * 5) + beyond * 2


def corner_square(block: Exact, allowance: Exact, beyond: Exact = ZERO) -> Exact:
    """The square, in inches, that is cut in halves for corner triangles round blocks of a finished size.

    Exact is block/√2 + (2 + √2)s, since the short side finishes block/√2. The trade divides by 1.414 and adds 7/8 in,
    three and a half allowances of 1/4. `beyond` makes both short sides longer by twice that, as for a side triangle.
    """
    exact = block * ROOT_2 / 2 + allowance * (2 + ROOT_2)
    return max(exact, block / TRADE_ROOT_2 + allowance * Exact(7, 2)) + beyond * 2


def least_square(lattice: Lattice, target: str, allowance: Exact, floats: Exact | None) -> Exact:
    """The smallest square, in inches, that triangles for the `sides` or the `corners` can be cut from, exactly.
    `floats`: how far the edge lies outside the outermost points, None where it runs through those of the blocks or,
    with sashes, through the middles of the outer posts."""
    beside, beyond = lattice.beside(target, floats), (ZERO if floats is None else floats) * 2
    if target == "sides":
        return beside * ROOT_2 + allowance * (2 + 2 * ROOT_2) + beyond
    return beside * ROOT_2 / 2 + allowance * (2 + ROOT_2) + beyond


def outer_part(allowance: Exact) -> Exact:
    """How much longer than a post the outer ones are cut, in inches: the edge runs through their corners at 45 degrees
    to their sides, so that its allowance takes s·√2 more along the row than their own does (3/8 in for 1/4)."""
    return allowance * ROOT_2


def end_strip(sash: Exact, allowance: Exact, beyond: Exact) -> Exact:
    """How long a strip is cut, in inches, that reaches from the square end of a sash, or of the post at its end, over
    an edge that lies `beyond` the outer point of it.

    Along the far side of the sash the finished edge lies sash + beyond·√2 from the end, since it leans at 45 degrees;
    the allowance of the edge takes s·√2 more, as for an outer post, and the strip has its own at both ends.
    """
    return sash + (beyond + allowance) * ROOT_2 + allowance * 2


@dataclass(frozen=True, slots=True, kw_only=True)
class Lattice:
    """`columns` by `rows` blocks on point, the finished size of a block and of the sashes round it, 0 for none, in
    inches."""

    columns: int
    rows: int
    block: Exact
    sash: Exact = ZERO

    @property
    def pitch(self) -> Exact:
        return self.block + self.sash

    @property
    def highest(self) -> int:
        """The `q` of the highest row of blocks; `lowest` is that of the lowest."""
        return self.columns - 1

    @property
    def lowest(self) -> int:
        return 1 - self.rows

    def span(self, q: int) -> range:
        """The blocks of a row, by their `p`."""
        return range(1 + abs(q), min(2 * self.columns - 1 - q, 2 * self.rows - 1 + q) + 1)

    def between(self, q: int) -> range:
        """Over which blocks, by their `p`, the row of sashes above the blocks of row `q` runs."""
        spans = [self.span(n) for n in (q, q + 1) if self.lowest <= n <= self.highest]
        return range(min(one.start for one in spans), max(one.stop for one in spans))

    @property
    def seen_rows(self) -> tuple[int, ...]:
        """How many blocks lie in each row as it is seen, wide ones and those between, from the top; a single column has
        none between."""
        if self.columns == 1:
            return (1,) * self.rows
        return tuple(self.columns - r % 2 for r in range(2 * self.rows - 1))

    def seen_at(self, p: int, q: int) -> tuple[int, int]:
        """The row as it is seen, and the place in it, of a block."""
        row = p - q - 1
        return row if self.columns > 1 else row // 2, (p + q - 2 + (p + q) % 2) // 2

    def low(self, q: int) -> Exact:
        """The lower seam line of a row of blocks."""
        return self.pitch * q - self.block / 2

    def high(self, q: int) -> Exact:
        """Its upper one."""
        return self.pitch * q + self.block / 2

    def left(self, p: int) -> Exact:
        """The left seam line of a block."""
        return self.pitch * p - self.block / 2

    def beside(self, target: str, floats: Exact | None) -> Exact:
        """How long a triangle of the `sides` or `corners` finishes where it meets the rows, when the edge runs through
        the outermost points, in inches. Where sashes float, a side triangle passes a block and one sash on its way to
        the next outer post, and a corner's long side a block between two sashes."""
        if floats is None or not self.sash:
            return self.block
        return self.block + self.sash * (1 if target == "sides" else 2)

    def frame(self, allowance: Exact, beyond: Exact = ZERO) -> Frame:
        """The finished rectangle: through the points of the outer blocks, or through the middles of the outer posts
        where there are sashes, and so much outside that."""
        across, down = self.pitch * self.columns, self.pitch * self.rows
        right, up = Vector.at(45), Vector.at(135)
        out = (-right - up, right - up, right + up, up - right)
        corners = (
            Vector(down, -down),
            Vector(across + down, across - down),
            Vector(across, across),
            Vector(ZERO, ZERO),
        )
        return Frame(
            corners=tuple(corner + way * beyond for corner, way in zip(corners, out, strict=True)),  # type: ignore[arg-type]
            directions=(right, up, -right, -up),
            allowance=allowance,
        )


def is_corner(lattice: Lattice, q: int, *, right: bool) -> bool:
    """Whether the triangle at an end of row `q` is a corner's. The rows above the highest and below the lowest have the
    corner's alone."""
    between = lattice.lowest <= q <= lattice.highest
    return not between or q == (lattice.columns - lattice.rows if right else 0)


def filler(lattice: Lattice, q: int, square: Unit, *, right: bool) -> Unit:
    """The triangle at an end of row `q`, as it was cut from a square that lies level with its lower left corner at the
    origin, where it lies."""
    if q > lattice.highest:
        return _half(square, EAST, Vector(lattice.pitch * lattice.columns, lattice.low(q)), up=True)
    if q < lattice.lowest:
        return _half(square, -EAST, Vector(lattice.pitch * lattice.rows, lattice.high(q)), up=False)
    span = lattice.span(q)
    x = lattice.left(span[-1]) + lattice.block + lattice.sash if right else lattice.left(span.start) - lattice.sash
    if is_corner(lattice, q, right=right):
        return _half_upright(square, Vector(x, lattice.pitch * q), right=right)
    above = q > (lattice.columns - lattice.rows if right else 0)
    return _quarter(square, Vector(x, lattice.low(q) if above else lattice.high(q)), right=right, up=above)


def _middled(square: Unit) -> Unit:
    """A square of cloth on its point, its middle at the origin."""
    side = max(corner.raw[0].x for corner in square.corners)
    return turned(moved(square, Vector(-side / 2, -side / 2)), 45)


def _quarter(square: Unit, corner: Vector, *, right: bool, up: bool) -> Unit:
    """A quarter whose right angle finishes at a point, opening to the right or left of it, and up or down."""
    s = square.allowance
    part = cut(_middled(square), Vector(ZERO, ZERO), NORTH)[1 if right else 0]
    part = cut(part, Vector(ZERO, ZERO), EAST)[0 if up else 1]
    return moved(part, corner + Vector(-s if right else s, -s if up else s))


def _half(square: Unit, along: Vector, middle: Vector, *, up: bool) -> Unit:
    """A half above or below its long side, which finishes along a level line; `middle` is the middle of that."""
    part = cut(_middled(square), Vector(ZERO, ZERO), along)[0]
    return moved(part, middle + Vector(ZERO, -square.allowance if up else square.allowance))


def _half_upright(square: Unit, middle: Vector, *, right: bool) -> Unit:
    """A half to the right or left of its long side, which finishes along an upright line."""
    part = cut(_middled(square), Vector(ZERO, ZERO), NORTH)[1 if right else 0]
    return moved(part, middle + Vector(-square.allowance if right else square.allowance, ZERO))
