"""How many arrangements there are: by the lemma of Burnside, and up to 3 by 3 also by making them one by one.

The numbers are terms of sequences of the On-Line Encyclopedia of Integer Sequences, named beside each.
"""

from __future__ import annotations

from collections import Counter
from itertools import product

import pytest
from arrange.by_hand import kinds
from arrange.shapes import DIAGONAL, HALF_SQUARE, plain
from external.rows import row, rows
from piecewright.plan.arrange.count import count
from piecewright.plan.arrange.looks import Looks
from piecewright.plan.arrange.motion import MOTIONS, table_motions
from piecewright.plan.arrange.repeats import Grid, repeats

MOST_MADE = 70000


def counted(across: int, down: int, looks: Looks, motions: tuple[int, ...]) -> int:
    number = count(down, across, looks, motions)
    if across <= 3 and down <= 3 and number <= MOST_MADE:
        assert sum(1 for _ in repeats(Grid(down, across, motions), looks)) == number
    return number


@rows(
    ("size", "colours", "turning", "both"),
    ("GT-C4-k2-1", "OEIS A047937 = column 2 of A343095", 1, 2, 2, None),
    ("GT-D4-k2-1", "OEIS A054247", 1, 2, None, 2),
    ("GT-C4-k2-2", "OEIS A047937 = column 2 of A343095", 2, 2, 6, None),
    ("GT-D4-k2-2", "OEIS A054247", 2, 2, None, 6),
    ("GT-C4-k2-3", "OEIS A047937 = column 2 of A343095", 3, 2, 140, None),
    ("GT-D4-k2-3", "OEIS A054247", 3, 2, None, 102),
    ("GT-C4-k2-4", "OEIS A047937 = column 2 of A343095", 4, 2, 16456, None),
    ("GT-C4-k2-5", "OEIS A047937 = column 2 of A343095", 5, 2, 8390720, None),
    ("GT-D4-k2-5", "OEIS A054247", 5, 2, None, 4211744),
    ("GT-k4-2", "OEIS A343095 / A343097", 2, 4, 70, 55),
    ("GT-k3-4", "OEIS A343095 / A343097", 4, 3, 10763361, 5398083),
)
def test_plain_squares(size: int, colours: int, turning: int | None, both: int | None) -> None:
    for expected, mirrors in ((turning, False), (both, True)):
        if expected is not None:
            assert counted(size, size, plain(colours), table_motions(size, size, mirrors=mirrors)) == expected


@rows(
    ("size", "turning", "both"),
    ("GT-HST-1", "OEIS A367532", 1, 1, 1),
    ("GT-HST-4", "OEIS A367532", 4, 1073758336, 536911936),
)
def test_half_square_triangles_turn_with_the_table(size: int, turning: int, both: int) -> None:
    assert counted(size, size, HALF_SQUARE, table_motions(size, size, mirrors=False)) == turning
    assert counted(size, size, HALF_SQUARE, MOTIONS) == both
    # from the notes of the same rows: not the same as four plain colours
    assert counted(2, 2, HALF_SQUARE, table_motions(2, 2, mirrors=False)) == 70
    assert counted(3, 3, HALF_SQUARE, table_motions(3, 3, mirrors=False)) == 65536
    assert counted(3, 3, plain(4), table_motions(3, 3, mirrors=False)) == 65824


@row("GT-DIAG", "OEIS A295229")
def test_a_diagonal_in_each_cell() -> None:
    assert [counted(size, size, DIAGONAL, MOTIONS) for size in (1, 2, 3, 4)] == [1, 6, 84, 8548]


@row("GT-RECT", "OEIS A225910")
def test_rectangles() -> None:
    tables = ((2, 2), (2, 3), (3, 3), (3, 4), (4, 5))
    motions = table_motions(2, 3)
    assert motions == (0, 2, 4, 6)
    assert [counted(*table, plain(2), motions) for table in tables] == [7, 24, 168, 1120, 263680]


@row("GT-RECTHST", "derived here (sympy/fractions); no publication needed")
def test_half_square_triangles_on_rectangles() -> None:
    assert counted(2, 3, HALF_SQUARE, table_motions(3, 2)) == 1056
    assert counted(3, 4, HALF_SQUARE, table_motions(4, 3)) == 4196352


@row("GT-asym", "OEIS A054407")
def test_no_symmetry_at_all() -> None:
    found = []
    for size in (1, 2, 3, 4):
        grid = Grid(size, size, MOTIONS)
        found.append(sum(grid.symmetries(one, plain(2)) == (0,) for one in repeats(grid, plain(2))))
    assert found == [0, 0, 36, 7860]


def brute(across: int, down: int, *, quarters: bool, mirrors: bool, shifts: bool) -> Counter[tuple[int, ...]]:
    """Tables of two colours gone through one by one as pictures, by arithmetic of the tests' own."""
    return kinds(
        [("a",), ("b",)], down, across, quarters=quarters, block_quarters=False, mirrors=mirrors, shifts=shifts
    )


@pytest.mark.parametrize(
    ("motions", "listed"),
    [
        # the numbers of OEIS A255016 (S70) for n = 1 to 6 are from memory; those up to 4 by 4 are gone through here
        (MOTIONS, {(1, 1): 2, (2, 2): 6, (3, 3): 26, (4, 4): 805, (5, 5): 172112, (6, 6): 239123150}),
        # OEIS A255015, rows and columns also reversed: the name from memory, the numbers gone through here
        ((0, 2, 4, 6), {(2, 2): 7, (3, 2): 13, (4, 2): 34, (3, 3): 36, (4, 3): 158}),
        # OEIS A184271, shifts alone: from memory, and gone through here
        ((0,), {(2, 2): 7, (3, 2): 14, (4, 2): 40, (3, 3): 64, (4, 3): 352, (4, 4): 4156}),
    ],
    ids=("A255016", "A255015", "A184271"),
)
def test_repeats_that_begin_anywhere(motions: tuple[int, ...], listed: dict[tuple[int, int], int]) -> None:
    tried = 0
    for (across, down), number in listed.items():
        assert count(down, across, plain(2), motions, repeating=True) == number
        if across * down <= (16 if motions == MOTIONS else 12):
            if motions == (0,):
                found = sum(_shifted(across, down).values())
            else:
                found = brute(across, down, quarters=motions == MOTIONS, mirrors=True, shifts=True).total()
            assert found == number
            tried += 1
    assert tried >= 4


def _shifted(across: int, down: int) -> Counter[int]:
    """Tables of two colours up to shifts alone, by how many cells are of the second colour."""
    seen: set[tuple[int, ...]] = set()
    found: Counter[int] = Counter()
    for cells in product((0, 1), repeat=across * down):
        if cells not in seen:
            found[sum(cells)] += 1
            seen.update(
                tuple(cells[(r + i) % down * across + (c + j) % across] for r in range(down) for c in range(across))
                for i in range(down)
                for j in range(across)
            )
    return found


def test_so_many_of_one_colour() -> None:
    """OEIS A054772 (S70), n by n with k cells of one of two colours: what it lists is from memory, the numbers are gone
    through here. Together they are the numbers of A054247, and without mirrors those of A047937."""
    for size, both, turning in ((1, 2, 2), (2, 6, 6), (3, 102, 140)):
        for mirrors, whole in ((True, both), (False, turning)):
            found = brute(size, size, quarters=True, mirrors=mirrors, shifts=False)
            motions = table_motions(size, size, mirrors=mirrors)
            numbers = [count(size, size, plain(2), motions, content={1: k}) for k in range(size * size + 1)]
            assert numbers == [found[size * size - k, k] for k in range(size * size + 1)]
            assert sum(numbers) == whole
    assert [count(3, 3, plain(2), MOTIONS, content={0: k}) for k in range(10)] == [1, 3, 8, 16, 23, 23, 16, 8, 3, 1]
    for size, whole in ((4, 16456), (5, 8390720)):
        turns = table_motions(size, size, mirrors=False)
        assert sum(count(size, size, plain(2), turns, content={0: k}) for k in range(size * size + 1)) == whole
