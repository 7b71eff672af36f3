"""Tables on point of any size: what they measure, what is seen of them, and that sewing them piece by piece gives the
same."""

from __future__ import annotations

import random
from collections import Counter

import pytest
from hypothesis import given
from hypothesis import strategies as st
from piecewright.exact import Exact, Vector
from piecewright.kernel import on_point
from piecewright.kernel.action import Lay
from piecewright.kernel.chain import chain
from piecewright.kernel.measure import finished_bounds, ledger_area, raw_outline, seen_area
from piecewright.kernel.polygon import area
from piecewright.kernel.unit import Unit
from piecewright.verbs import fill as tables

from tests.evaluate.pattern import built
from tests.kernel.test_setting import described

ROOT_2 = Exact.root(2)
FABRICS = "fabric sand\nfabric dusk\nfabric clay\nfabric glow\nfabric rust\n"
ZERO = Exact(0)


def of(columns: int, rows: int, block: Exact, sash: Exact = ZERO, posts: bool = False, outside: Exact = ZERO) -> Lay:
    """The table of plain squares, its triangles of clay and glow."""
    steps = [f"    lay {columns} by {rows} on point\n        | square {block} + seam * 2 of sand\n"]
    if sash:
        steps.append(f"    sash {sash} + seam * 2 of dusk{', posts of rust' if posts else ''}\n")
    end = f", float {outside}" if outside else ""
    if columns + rows > 2:
        steps.append(f"    fill sides of clay{end}\n")
    steps.append(f"    fill corners of glow{end}\n")
    made = built(f'pattern "Table"\n{FABRICS}quilt tried\n{"".join(steps)}')
    action = made.made[-1].steps[-1].actions[0]
    assert isinstance(action, Lay)
    return action


@pytest.mark.parametrize("seed", range(40))
def test_any_table(seed: int) -> None:
    dice = random.Random(seed)
    columns, rows = dice.randrange(1, 6), dice.randrange(1, 6)
    block = Exact(dice.randrange(8, 100), 8)
    sash = dice.choice((ZERO, Exact(dice.randrange(1, 24), 8)))
    posts = dice.random() < 0.6
    outside = dice.choice((ZERO, Exact(dice.randrange(1, 16), 8)))
    whole = of(columns, rows, block, sash, posts, outside).result

    side = (block + sash) * ROOT_2
    out = outside + sash * ROOT_2 / 2 if outside else ZERO  # half the diagonal of an outer post, where it is whole
    width, height = side * columns + out * 2, side * rows + out * 2
    left, bottom, right, top = finished_bounds(whole)
    assert (right - left, top - bottom) == (width, height)
    assert set(whole.directions) == {Vector(1, 0), Vector(0, 1), Vector(-1, 0), Vector(0, -1)}
    s = whole.allowance
    assert area(raw_outline(whole)) == (width + s * 2) * (height + s * 2) == seen_area(whole.patches)
    assert seen_area(whole.patches) + ledger_area(whole) == whole.cloth

    blocks = columns * rows + (columns - 1) * (rows - 1)
    # round every block lie two crossing lines; the outer ends of the rows have one more
    crossings = sum(len(each) for each in _crossings(columns, rows)) if sash else 0
    levels = columns + rows
    seen = Counter(patch.fabric for patch in whole.patches)
    ends = 2 * levels if sash and outside else 0
    sides = 2 * (columns + rows - 2)
    assert seen["sand"] == blocks
    assert (seen["clay"], seen["glow"]) == ((sides + ends, 4) if sides else (0, 4 + ends))
    if sash:
        standing = blocks + levels - 1
        assert seen["dusk"] == standing + (crossings if posts else levels)
        assert seen["rust"] == (crossings + levels if posts else 0)
        shown = sum((area(cell) for patch in whole.patches if patch.fabric == "sand" for cell in patch.cells), ZERO)
        assert shown == block * block * blocks
        if outside:
            # nothing of the sashes is cut off: strips beside blocks, and rows of them over so many blocks each
            strips = (area(cell) for patch in whole.patches if patch.fabric in ("dusk", "rust") for cell in patch.cells)
            across = sum(((block + sash) * len(each) + sash for each in _crossings(columns, rows)), ZERO)
            assert sum(strips, ZERO) == sash * block * standing + sash * across


def _crossings(columns: int, rows: int) -> list[set[int]]:
    """For each line between the diagonal rows, the blocks that lie on it, above or below: block i of wide row j lies
    at (i + j, i - j), of the row under it at (i + j + 1, i - j)."""
    places = {(i + j, i - j) for i in range(columns) for j in range(rows)}
    places |= {(i + j + 1, i - j) for i in range(columns - 1) for j in range(rows - 1)}
    found = []
    for line in range(-rows, columns):
        found.append({p for p, q in places if q in (line, line + 1)})
    return found


@pytest.mark.parametrize("seed", range(12))
def test_sewn_piece_by_piece_it_is_the_same(seed: int, monkeypatch: pytest.MonkeyPatch) -> None:
    """With triangles of exactly the size that is needed nothing is left to trim."""

    def exactly(side: bool) -> object:
        def square(block: Exact, allowance: Exact, beyond: Exact = ZERO) -> Exact:
            if side:
                return block * ROOT_2 + allowance * (2 + 2 * ROOT_2) + beyond * 2
            return block * ROOT_2 / 2 + allowance * (2 + ROOT_2) + beyond * 2

        return square

    monkeypatch.setattr(tables, "side_square", exactly(True))
    monkeypatch.setattr(tables, "corner_square", exactly(False))
    dice = random.Random(seed)
    columns, rows, block = dice.randrange(1, 6), dice.randrange(1, 6), Exact(dice.randrange(8, 100), 8)
    action = of(columns, rows, block)
    whole: Unit | None = None
    for row, alone in zip(action.rows, action.row_units, strict=True):
        sewn = row[0]
        for piece in row[1:]:
            sewn = joined(sewn, piece, action.along.left())
        assert picture(sewn) == picture(alone)
        whole = sewn if whole is None else joined(whole, sewn, action.along)
    assert whole is not None
    mine, theirs = described(whole), described(action.result)
    for key in ("corners", "patches", "under", "cloth"):
        assert mine[key] == theirs[key]


def joined(first: Unit, second: Unit, way: Vector) -> Unit:
    """Sewn by the one edge of each that runs that way, and back."""
    (mine,) = [n for n, along in enumerate(first.directions) if along == way]
    (theirs,) = [n for n, along in enumerate(second.directions) if along == -way]
    result = chain(first, mine, second, theirs)
    assert set(raw_outline(result.second)) == set(raw_outline(second))  # it lies there already
    return result.unit


def picture(unit: Unit) -> object:
    return described(unit)["patches"]


@given(st.integers(1, 4000).map(lambda n: Exact(n, 8)), st.integers(1, 16).map(lambda n: Exact(n, 16)))
def test_the_squares_of_the_trade_are_never_too_small(block: Exact, s: Exact) -> None:
    for square, exact in (
        (on_point.side_square, block * ROOT_2 + s * (2 + 2 * ROOT_2)),
        (on_point.corner_square, block * ROOT_2 / 2 + s * (2 + ROOT_2)),
    ):
        assert exact <= square(block, s) < exact + s
        assert square(block, s, s * 3) == square(block, s) + s * 6
