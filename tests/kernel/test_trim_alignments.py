"""Alignments of a trim that face each other: both hold, or the difference is told. Worked out with fractions along one
axis: where the seams lie, where the ruler comes to lie by the one, and by the other."""

from __future__ import annotations

from fractions import Fraction
from random import Random

import pytest
from kernel.sewing import join, oblong
from piecewright.exact import Exact
from piecewright.kernel.errors import SewingError
from piecewright.kernel.moves import settled, turned
from piecewright.kernel.trim import Alignment, Centred, PointFrom, SeamFrom, Trimmed, trim
from piecewright.kernel.unit import Unit

SIDES = (("left", "right"), ("bottom", "top"))
HIGH = Fraction(6)


def exact(number: Fraction) -> Exact:
    return Exact(number.numerator, number.denominator)


def bars(widths: tuple[Fraction, ...], seam: Fraction) -> Unit:
    """Upright bars of so many widths, side by side."""
    s = exact(seam)
    unit = oblong(exact(widths[0]), exact(HIGH), "a", s)
    for number, wide in enumerate(widths[1:]):
        unit = join(unit, "right", oblong(exact(wide), exact(HIGH), "ba"[number % 2], s), "left")
    return settled(unit)


def seams(widths: tuple[Fraction, ...], seam: Fraction) -> list[Fraction]:
    """How far from the left raw edge each seam line lies."""
    found, reach = [], Fraction(0)
    for wide in widths[:-1]:
        reach += wide - seam * (2 if found else 1)
        found.append(reach)
    return found


def total(widths: tuple[Fraction, ...], seam: Fraction) -> Fraction:
    return sum(widths) - 2 * seam * (len(widths) - 1)


CASES = [Random(seed) for seed in range(24)]


@pytest.mark.parametrize("chance", CASES, ids=range(len(CASES)))
@pytest.mark.parametrize("upright", [False, True])
@pytest.mark.parametrize("swapped", [False, True])
def test_seams_from_opposite_sides(chance: Random, upright: bool, swapped: bool) -> None:
    seam = chance.choice((Fraction(1, 4), Fraction(3, 8), Fraction(15, 50)))
    widths = tuple(Fraction(chance.randrange(24, 48), 8) for _ in range(chance.randrange(2, 5)))
    first, last = seams(widths, seam)[0], seams(widths, seam)[-1]
    wide = total(widths, seam)
    near, far = (Fraction(chance.randrange(8, 15), 8) for _ in range(2))
    high = HIGH - 1
    unit = bars(widths, seam)
    if upright:  # left becomes bottom, and right top
        unit = settled(turned(unit, 90))
    low_side, high_side = SIDES[upright]
    laid: tuple[Alignment, ...] = (
        SeamFrom(distance=exact(near), side=low_side), SeamFrom(distance=exact(far), side=high_side)
    )  # fmt: skip
    if swapped:
        laid = laid[::-1]

    def done(size: Fraction) -> Trimmed:
        across, down = (high, size) if upright else (size, high)
        return trim(unit, exact(across), exact(down), laid)

    agreed = near + (last - first) + far
    left, right, top, bottom = done(agreed).off
    low, up = (bottom, top) if upright else (left, right)
    assert (low, up) == (exact(first - near), exact(wide - last - far))
    for more in (Fraction(1, 8), Fraction(-1, 16), Fraction(chance.randrange(1, 9), 7)):
        with pytest.raises(SewingError) as caught:
            done(agreed + more)
        assert caught.value.kind == "alignments-disagree"
        assert caught.value.facts == {"index": 1, "difference": exact(abs(more))}


def nine(widths: tuple[Fraction, ...], heights: tuple[Fraction, ...], seam: Fraction) -> Unit:
    """A table of so many widths across and heights from the bottom up."""
    s = exact(seam)
    rows: Unit | None = None
    for high in heights:
        row: Unit | None = None
        for number, wide in enumerate(widths):
            piece = oblong(exact(wide), exact(high), "ab"[number % 2], s)
            row = piece if row is None else join(row, "right", piece, "left")
        assert row is not None
        rows = row if rows is None else join(rows, "top", row, "bottom")
    assert rows is not None
    return settled(rows)


@pytest.mark.parametrize("wrong", ["left", "right", "top", "bottom", None])
def test_points_from_all_four_sides(wrong: str | None) -> None:
    seam = Fraction(1, 4)
    across, down = (Fraction(3), Fraction(2), Fraction(7, 2)), (Fraction(5, 2), Fraction(3), Fraction(4))
    unit = nine(across, down, seam)
    (x, *_, far_x), (y, *_, far_y) = seams(across, seam), seams(down, seam)
    from_sides = {"left": Fraction(1), "right": Fraction(5, 4), "top": Fraction(3, 2), "bottom": Fraction(7, 8)}
    width = from_sides["left"] + far_x - x + from_sides["right"]
    height = from_sides["top"] + far_y - y + from_sides["bottom"]
    told = dict(from_sides)
    order = ["left", "top", "right", "bottom"]
    if wrong is not None:
        told[wrong] += Fraction(3, 16)
        order = [name for name in order if name != wrong] + [wrong]
    laid = tuple(PointFrom(distance=exact(told[side]), side=side) for side in order)
    if wrong is not None:
        with pytest.raises(SewingError) as caught:
            trim(unit, exact(width), exact(height), laid)
        assert caught.value.facts == {"index": 3, "difference": Exact(3, 16)}
        return
    wide, high = total(across, seam), total(down, seam)
    assert trim(unit, exact(width), exact(height), laid).off == (
        exact(x - 1), exact(wide - far_x - Fraction(5, 4)), exact(high - far_y - Fraction(3, 2)),
        exact(y - Fraction(7, 8)),
    )  # fmt: skip


@pytest.mark.parametrize("side", ["left", "right", "top", "bottom"])
@pytest.mark.parametrize("off", [Fraction(0), Fraction(1, 3), Fraction(-1, 5)])
def test_the_middle_and_a_seam(side: str, off: Fraction) -> None:
    """Centred, a ruler of a width lies half of what is over from each edge."""
    seam = Fraction(1, 4)
    across, down = (Fraction(3), Fraction(4)), (Fraction(5), Fraction(7, 2))
    unit = nine(across, down, seam)
    level = side in ("left", "right")
    (line,), whole = (seams(across, seam), total(across, seam)) if level else (seams(down, seam), total(down, seam))
    size = whole - Fraction(1, 2)
    inside = (line if side in ("left", "bottom") else whole - line) - Fraction(1, 4)
    laid = (Centred(), SeamFrom(distance=exact(inside + off), side=side))
    sizes = (size, total(down, seam) - 1) if level else (total(across, seam) - 1, size)
    if not off:
        assert exact(Fraction(1, 4)) in trim(unit, *map(exact, sizes), laid).off
        return
    with pytest.raises(SewingError) as caught:
        trim(unit, *map(exact, sizes), laid)
    assert caught.value.facts == {"index": 1, "difference": exact(abs(off))}
