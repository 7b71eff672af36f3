"""What a quilt's finishing takes, worked out by hand: nothing of the compiler is imported here.

Sizes are fractions in the pattern's own unit. Where a root of two comes in it is a fraction just below it, by less than
1e-20, and comparisons allow `HAIR`.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from math import ceil, floor, isqrt
from typing import NamedTuple

ROOT_2 = Fraction(isqrt(2 * 10**40), 10**20)
HAIR = Fraction(1, 10**9)

Point = tuple[float, float]


def bought(length: Fraction, step: Fraction) -> int:
    """So many steps are bought for a length."""
    return ceil((length - HAIR) / step)


# strips joined end to end


def joined(lengths: list[Fraction], loss: Fraction) -> Fraction:
    """What strips give when each join takes so much."""
    return sum(lengths, Fraction(0)) - loss * (len(lengths) - 1)


def fewest(wanted: Fraction, usable: Fraction, loss: Fraction) -> int:
    """So many strips of the width of the cloth are enough, and one less is not."""
    count = 1
    while joined([usable] * count, loss) < wanted - HAIR:
        count += 1
    return count


# a square sewn into a tube


class Tube(NamedTuple):
    bands: int
    each: Fraction

    @property
    def strip(self) -> Fraction:
        return self.each * self.bands


def tube(side: Fraction, width: Fraction, seam: Fraction, out: Fraction) -> Tube:
    """Lays the halves of a square out with their points standing `out` past the corners, sews them, marks bands beside
    the bias edge while they are whole, and sews the straight edges to a tube.

    One half has the corners (0, 0), (side, 0), (side, side) and is sewn along its lower edge. The other is what was
    above the diagonal, moved below it so that the raw edges are even there.
    """
    a, s, t = float(side), float(seam), float(out)
    first = [(0.0, 0.0), (a, 0.0), (a, a)]
    other = [(t, s * 2 - a), (a + t, s * 2), (t, s * 2)]
    # each without its allowance, from the one straight edge (x = t) to the other (x = a)
    parts = [_half(first, 0, 1, s), _half(other, 0, -1, -s)]
    parts = [_half(_half(part, 1, 0, t), -1, 0, -a) for part in parts]
    apart = float(width * ROOT_2)  # along a straight edge, which the bands meet at 45 degrees
    bands = 0
    while True:
        band = [_half(_half(part, 1, -1, apart * bands), -1, 1, -apart * (bands + 1)) for part in parts]
        if sum(map(_area, band)) < apart * (a - t) - float(HAIR):
            break
        bands += 1
    return Tube(bands, max(Fraction(0), (side - out - seam * 2) * ROOT_2))


def least_square(wanted: Fraction, width: Fraction, seam: Fraction) -> int:
    """The smallest whole side that is enough when the halves are laid as the step says."""
    side = isqrt(int(wanted * width))  # by area alone, and so not more than enough
    while (made := tube(Fraction(side), width, seam, seam)).bands < 2 or made.strip < wanted - HAIR:
        side += 1
    return side


def _half(polygon: list[Point], a: float, b: float, c: float) -> list[Point]:
    """Of a convex polygon what lies where a x + b y >= c."""
    found: list[Point] = []
    for (x, y), (u, v) in zip(polygon, polygon[1:] + polygon[:1], strict=True):
        here, there = a * x + b * y - c, a * u + b * v - c
        if here >= 0:
            found.append((x, y))
        if here * there < 0:
            part = here / (here - there)
            found.append((x + (u - x) * part, y + (v - y) * part))
    return found


def _area(polygon: list[Point]) -> float:
    return abs(sum(x * v - u * y for (x, y), (u, v) in zip(polygon, polygon[1:] + polygon[:1], strict=True))) / 2


# a backing


def least_backing(
    across: Fraction,
    down: Fraction,
    usable: Fraction,
    seam: Fraction,
    step: Fraction,
    *,
    upright: bool,
    at_most: int | None = None,
) -> tuple[int, int]:
    """The fewest steps bought, and with these the fewest seams: one piece either way, panels side by side, and the last
    one from pieces cut side by side, `at_most` so many or as many as lie within the width."""
    ways = [(across, down)] if upright else [(across, down), (down, across)]
    found = (one for side, along in ways for one in _backings(side, along, usable, seam, at_most))
    return min((bought(cloth, step), seams) for cloth, seams in found)


def _backings(
    side: Fraction, along: Fraction, usable: Fraction, seam: Fraction, at_most: int | None
) -> Iterator[tuple[Fraction, int]]:
    full = 0
    while side - full * (usable - 2 * seam) > usable:
        full += 1
    narrow = side - full * (usable - 2 * seam)
    within = max(1, floor(usable / narrow))
    for count in range(1, (within if at_most is None else min(within, at_most)) + 1):
        yield along * full + (along + 2 * seam * (count - 1)) / count, full + count - 1


# triangles round blocks on point


def side_square(block: Fraction, seam: Fraction, beyond: Fraction) -> Fraction:
    """The side of a square whose quarters, by both diagonals, cover a side triangle with its seam allowance.

    Finished, the long side is the diagonal of a block and twice what the edge lies beyond the points. Allowances on all
    sides move each of its ends out by s + s√2.
    """
    return block * ROOT_2 + 2 * beyond + 2 * seam * (1 + ROOT_2)


def corner_square(block: Fraction, seam: Fraction, beyond: Fraction) -> Fraction:
    """The same of a square that is halved: its sides are the short sides of a triangle, which finish as half a diagonal
    and twice what lies beyond the points; the sharp end takes s + s√2, the square one s."""
    return block * ROOT_2 / 2 + 2 * beyond + seam * (2 + ROOT_2)


# strip sets


def sets(segments: int, segment: Fraction, usable: Fraction) -> int:
    """So many strip sets of the width of the cloth give so many segments."""
    return ceil(Fraction(segments, floor(usable / segment)))
