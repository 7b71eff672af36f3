"""The eight motions of a square table: four turns, each also after a mirror, left for right.

A motion is a number from 0 to 7: quarter turns to the left, and 4 more where the mirror comes first.
The motions form the dihedral group of order 8; the even ones with their mirrors move a table that is not square.
"""

from __future__ import annotations

Motion = int
Cell = tuple[int, int]  # row from the top, column from the left

STAY, LEFT, AROUND, RIGHT, MIRROR = 0, 1, 2, 3, 4
TURNS: tuple[Motion, ...] = (0, 1, 2, 3)
MOTIONS: tuple[Motion, ...] = (0, 1, 2, 3, 4, 5, 6, 7)


def after(second: Motion, first: Motion) -> Motion:
    """The one motion that does `first` and then `second`. A turn before a mirror is the opposite turn after it."""
    turns = first % 4 if second < 4 else -(first % 4)
    return (second + turns) % 4 + (4 if (second < 4) != (first < 4) else 0)


def undone(motion: Motion) -> Motion:
    """The motion that takes it back; a mirror with a turn is its own."""
    return -motion % 4 if motion < 4 else motion


def moved_cell(motion: Motion, cell: Cell, rows: int, columns: int) -> Cell:
    """Where a cell of a table lies after a motion; a quarter turn only of a square table (ValueError)."""
    row, column = cell
    if motion >= 4:
        column = columns - 1 - column
    quarters = motion % 4
    if quarters % 2 and rows != columns:
        raise ValueError("a table that is not square cannot be turned by a quarter onto itself")
    for _ in range(quarters):
        row, column, rows, columns = columns - 1 - column, row, columns, rows
    return row, column


def table_motions(rows: int, columns: int, *, square: bool = True, mirrors: bool = True) -> tuple[Motion, ...]:
    """The motions that bring a table onto itself. `square`: whether its blocks are; quarter turns need a square
    table of square blocks."""
    quarters = square and rows == columns
    return tuple(m for m in MOTIONS if (quarters or m % 2 == 0) and (mirrors or m < 4))
