"""How many arrangements there are: by the lemma of Burnside, and up to 3 by 3 also by making them one by one.

The numbers are terms of sequences of the On-Line Encyclopedia of Integer Sequences, named beside each.
"""

from __future__ import annotations

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
