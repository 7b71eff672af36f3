"""Settings on point simulated from the cut list alone, as a person lays them out, with plain floats and shapely.

Nothing of the kernel is used: where blocks lie, which gap is filled by what and how far each piece reaches is worked
out here. Every triangle is drawn as it is when its seams are sewn, its long side still raw, within the row that it is
sewn to; all of it has to cover the quilt and one seam allowance round it. Single rows, sashes that float and squares of
a size of one's own are derived here, without a source.
"""

from __future__ import annotations

import random
from collections.abc import Iterator
from fractions import Fraction
from math import sqrt

import pytest
from external.harness import pattern, planned, refused, size, words
from piecewright import compile_source
from piecewright.exact import Exact
from piecewright.plan.model import Plan
from shapely import Polygon, box, union_all

ROOT_2 = sqrt(2)
S = 0.25
NEAR = 1e-4  # square inches
HAIR = 1e-7  # inches that pieces are drawn larger all round, so that nothing is left open between two of them
Place = tuple[float, float]


class Quilt:
    """`columns` by `rows` blocks that finish at `block`, sashes that finish at `sash` (0: none), an edge that floats by
    `floats` (None: not)."""

    def __init__(self, columns: int, rows: int, block: Fraction, sash: Fraction, floats: Fraction | None) -> None:
        self.columns, self.rows = columns, rows
        self.block, self.sash = float(block), float(sash)
        self.floats = None if floats is None else float(floats)
        step = (self.block + self.sash) / ROOT_2  # from the middle of a block to that of the next, across and up
        self.step = step
        self.out = 0.0 if self.floats is None else self.floats + self.sash / ROOT_2
        wide = [(step * (2 * i + 1), -step * (2 * j + 1)) for i in range(columns) for j in range(rows)]
        between = [(step * (2 * i + 2), -step * (2 * j + 2)) for i in range(columns - 1) for j in range(rows - 1)]
        self.middles = wide + between

    @property
    def size(self) -> Place:
        return 2 * self.step * self.columns + 2 * self.out, 2 * self.step * self.rows + 2 * self.out

    def raw(self) -> Polygon:
        width, height = 2 * self.step * self.columns, 2 * self.step * self.rows
        more = self.out + S
        return box(-more, -height - more, width + more, more)

    def least(self, target: str) -> float:
        """The exact square: a side triangle's long side runs from outermost point to outermost point, a corner
        triangle's lies along the side of a block with what is beside it."""
        float_by = 2 * (self.floats or 0.0)
        sashes = 0.0 if self.floats is None else self.sash
        if target == "sides":
            return (self.block + sashes) * ROOT_2 + (2 + 2 * ROOT_2) * S + float_by
        return (self.block + 2 * sashes) / ROOT_2 + (2 + ROOT_2) * S + float_by

    def covered(self, side: float, corner: float, strip: float) -> Polygon:
        """What blocks, sashes, triangles from squares `side` and `corner`, and strips `strip` long cover."""
        pieces = [_diamond(at, self.block + 2 * self.sash) for at in self.middles]
        pieces += [piece for piece in self._triangles(side, corner) if not piece.is_empty]
        if self.sash and self.floats is not None:
            pieces += self._strips(strip)
        elif self.sash:  # the posts at the ends of the rows, or the strips along them, are longer by so much
            pieces += self._strips(S + S * ROOT_2)
        return union_all([piece.buffer(HAIR, join_style="mitre") for piece in pieces])

    def _touches(self, at: Place) -> set[str]:
        x, y = at
        edges = {
            "left": x, "right": 2 * self.step * self.columns - x, "top": -y, "bottom": 2 * self.step * self.rows + y
        }  # fmt: skip
        return {edge for edge, away in edges.items() if away < self.step + HAIR}

    def _triangles(self, side: float, corner: float) -> Iterator[Polygon]:
        """Rows run down to the right. At either end of each lies a triangle, and one beyond the first and last row."""
        legs = side / ROOT_2 - 2 * S  # from the square corner along the seam to the raw long side
        half = (corner - (2 + ROOT_2) * S) / ROOT_2 + ROOT_2 * S  # from the middle of the sewn side to the raw corner
        tip = self.block / ROOT_2
        for at in self.middles:
            x, y = at
            edges = self._touches(at)
            band = self._band(at)
            for sign, (first, second) in ((1, ("top", "left")), (-1, ("bottom", "right"))):
                out = -self.sash / ROOT_2 * sign, self.sash / ROOT_2 * sign  # over the strip beside the block
                if {first, second} <= edges:
                    middle = (x - self.block / 2 / ROOT_2 * sign + out[0], y + self.block / 2 / ROOT_2 * sign + out[1])
                    yield _half(middle, half, (-sign, sign)).intersection(band)
                elif first in edges:  # between this point and the one before it along the top, or after it below
                    yield _quarter((x - tip * sign + out[0], y + out[1]), legs, (0, sign)).intersection(band)
                elif second in edges:
                    yield _quarter((x + out[0], y + tip * sign + out[1]), legs, (-sign, 0)).intersection(band)
            for sign, (first, second) in ((1, ("top", "right")), (-1, ("bottom", "left"))):
                if {first, second} <= edges:
                    away = (self.block / 2 + self.sash) / ROOT_2 * sign
                    yield _half((x + away, y + away), half, (sign, sign))

    def _band(self, at: Place) -> Polygon:
        """All that a row of blocks takes up, far beyond its ends."""
        return _bar(at[0] + at[1], self.block, -1e3, 1e3)

    def _strips(self, strip: float) -> list[Polygon]:
        """From the ends of each row of sashes on, as far as strips reach that are sewn on by one allowance."""
        found = [_bar(line, self.sash, *sorted((end, end + way * (strip - S)))) for line, end, way in self._ends()]
        assert len(found) == 2 * (self.columns + self.rows)
        return found

    def short_of(self, strip: float) -> float:
        """How much of the rows of sashes, their own allowances with them, such strips leave open, in square inches."""
        wide = self.sash + 2 * S
        gaps = [
            self.raw().intersection(_bar(line, wide, *sorted((end, end + way * 1e3))))
            .difference(_bar(line, wide + HAIR, *sorted((end - HAIR * way, end + way * (strip - S + HAIR)))))
            for line, end, way in self._ends()
        ]  # fmt: skip
        return sum(gap.area for gap in gaps)

    def _ends(self) -> Iterator[tuple[float, float, int]]:
        """Each row of sashes by the line x + y that it lies along, where it ends, and which way it goes on."""
        lines = {round((x + y) / self.step) + side for x, y in self.middles for side in (-1, 1)}
        for line in (number * self.step for number in sorted(lines)):
            beside = [(x - y) / ROOT_2 for x, y in self.middles if abs(abs(x + y - line) - self.step) < HAIR * 10]
            reach = self.block / 2 + self.sash
            yield line, min(beside) - reach, -1
            yield line, max(beside) + reach, 1


def _diamond(at: Place, side: float) -> Polygon:
    x, y = at
    h = side / ROOT_2
    return Polygon([(x - h, y), (x, y - h), (x + h, y), (x, y + h)])


def _bar(line: float, wide: float, start: float, end: float) -> Polygon:
    """A strip along the line x + y, `wide`, between two distances along it, measured down to the right."""

    def point(u: float, v: float) -> Place:
        return (u + v) / ROOT_2, (v - u) / ROOT_2

    v = line / ROOT_2
    low, high = v - wide / 2, v + wide / 2
    return Polygon([point(start, low), point(end, low), point(end, high), point(start, high)])


def _quarter(corner: Place, legs: float, way: tuple[int, int]) -> Polygon:
    """A triangle with its square corner at a place, opening that way."""
    x, y = corner
    across, up = way
    d = legs / ROOT_2
    if up:
        return Polygon([(x, y), (x - d, y + d * up), (x + d, y + d * up)])
    return Polygon([(x, y), (x + d * across, y - d), (x + d * across, y + d)])


def _half(middle: Place, high: float, way: tuple[int, int]) -> Polygon:
    """A triangle with the middle of its long side at a place, its square corner `high` away toward a corner."""
    x, y = middle
    dx, dy = way[0] * high / ROOT_2, way[1] * high / ROOT_2
    return Polygon([(x + dx, y + dy), (x - dy, y + dx), (x + dy, y - dx)])


def text(
    quilt: Quilt, block: Fraction, sash: Fraction, floats: Fraction | None, *, posts: bool, own: dict[str, str]
) -> str:
    table = f"lay {quilt.columns} by {quilt.rows} on point\n        | square {_size(block + Fraction(1, 2))} of sand"
    lines = [f"    {table}\n"]
    if sash:
        lines.append(f"    sash {_size(sash + Fraction(1, 2))} of glow{', posts of glow' if posts else ''}\n")
    for target, fabric in (("sides", "clay"), ("corners", "dusk")):
        if target == "sides" and quilt.columns == quilt.rows == 1:
            continue
        more = f", squares {own[target]}" if target in own else ""
        more += f", float {_size(floats)}" if floats is not None else ""
        lines.append(f"    fill {target} of {fabric}{more}\n")
    return "quilt tried\n" + "".join(lines)


def _size(value: Fraction) -> str:
    whole, rest = divmod(value, 1)
    return str(whole) if not rest else f"{whole} {rest}" if whole else str(rest)


def squares(plan: Plan, fabric: str) -> list[tuple[float, int]]:
    """Each size of square that is cut from a fabric, and how many."""
    return [(inches(cut.width.ruler), cut.count) for cut in plan.cuts if cut.fabric == fabric and cut.shape == "square"]


def inches(size: str) -> float:
    """`9 1/2` as a number."""
    return float(sum(Fraction(part) for part in size.split()))


CASES = [(columns, rows) for columns in (1, 2, 4) for rows in (1, 2, 3) for _ in range(2)]


@pytest.mark.parametrize("seed", range(len(CASES)))
def test_the_pieces_of_the_cut_list_cover_the_quilt(seed: int) -> None:
    dice = random.Random(seed)
    columns, rows = CASES[seed]
    block = Fraction(dice.randrange(16, 100), 8)
    sash = dice.choice((Fraction(0), Fraction(dice.randrange(4, 24), 8)))
    floats = dice.choice((None, Fraction(dice.randrange(1, 20), 8)))
    quilt = Quilt(columns, rows, block, sash, floats)
    plan = planned(text(quilt, block, sash, floats, posts=dice.random() < 0.5, own={}))

    width, height = size(plan, "tried", finished=True)
    assert (float(Exact.parse(width)), float(Exact.parse(height))) == pytest.approx(quilt.size)
    corner_cut = squares(plan, "dusk")
    assert len(corner_cut) == 1 and corner_cut[0][1] == 2
    side_cut = squares(plan, "clay")
    needed = 2 * (columns - 1) + 2 * (rows - 1)
    assert [count for _, count in side_cut] == ([-(-needed // 4)] if needed else [])
    ends = [cut for cut in plan.cuts if cut.fabric in ("clay", "dusk") and cut.shape == "rectangle"]
    assert sum(cut.count for cut in ends) == (2 * (columns + rows) if sash and floats is not None else 0)
    strip = max((inches(end.height.ruler) for end in ends), default=0.0)
    strip = max(strip, max((inches(end.width.ruler) for end in ends), default=0.0))

    side, corner = side_cut[0][0] if side_cut else 0.0, corner_cut[0][0]
    assert quilt.raw().difference(quilt.covered(side, corner, strip)).area < NEAR
    # less than a mark of the ruler and what the trade adds is too much
    assert corner - quilt.least("corners") < 0.125 + 0.05
    if needed:
        assert 0 <= side - quilt.least("sides") < 0.125 + 0.05
    # the exact sizes reach, and nothing less does
    exact = quilt.least("sides"), quilt.least("corners")
    assert quilt.raw().difference(quilt.covered(*exact, strip)).area < NEAR
    assert quilt.raw().difference(quilt.covered(exact[0], exact[1] - 0.1, strip)).area > NEAR
    if needed:
        assert quilt.raw().difference(quilt.covered(exact[0] - 0.1, exact[1], strip)).area > NEAR
    if strip:
        long = float(sash) + 2 * S + (float(floats or 0) + S) * ROOT_2
        assert long <= strip < long + 0.125
        assert quilt.short_of(strip) < NEAR and quilt.short_of(long) < NEAR
        assert quilt.short_of(long - 0.1) > NEAR
    elif sash:
        assert quilt.short_of(2 * S + S * ROOT_2) < NEAR


@pytest.mark.parametrize("seed", range(8))
def test_squares_of_a_size_of_her_own_reach_or_are_refused(seed: int) -> None:
    """A hair over the exact size is taken and one under it refused, with the next eighth as the mend."""
    dice = random.Random(seed)
    columns, rows = dice.choice(((3, 1), (1, 2), (2, 2)))
    block = Fraction(dice.randrange(16, 100), 8)
    sash = dice.choice((Fraction(0), Fraction(dice.randrange(4, 24), 8)))
    floats = dice.choice((None, Fraction(dice.randrange(1, 20), 8)))
    quilt = Quilt(columns, rows, block, sash, floats)
    target = ("sides", "corners")[seed % 2]
    least = quilt.least(target)
    mark = Fraction(1, 64)
    under = mark * int(least / mark)  # the last 64th below it
    for given, serves in ((under, False), (under + mark, True), (under + 2, True)):
        own = {target: _size(given)}
        body = text(quilt, block, sash, floats, posts=True, own=own)
        if serves:
            made = compile_source(pattern(body))
            assert made.plan is not None and not [one for one in made.diagnostics if one.severity == "error"]
            width, height = size(made.plan, "tried", finished=True)
            assert (float(Exact.parse(width)), float(Exact.parse(height))) == pytest.approx(quilt.size)
            continue
        found = refused(body)
        assert found.code == "E331"
        up = Fraction(-int(-least * 8 // 1), 8)
        assert f"cut the squares {_size(up)} or larger" in words(found)
        assert f"about {least:.4f}" in words(found)
