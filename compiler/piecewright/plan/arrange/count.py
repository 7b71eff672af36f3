"""How many arrangements there are, without listing them: the lemma of Burnside (Cauchy, Frobenius).

The number of arrangements up to the motions of a group is the mean, over its motions, of how many arrangements a
motion leaves as they are. A motion moves the cells round in circles, and what one cell of a circle shows settles
the others: a circle of n cells can be filled in as many ways as there are looks that n times the motion leaves alike.
"""

from __future__ import annotations

from collections.abc import Sequence

from piecewright.plan.arrange.looks import Looks
from piecewright.plan.arrange.motion import MIRROR, STAY, Motion, after, moved_cell


def count(rows: int, columns: int, looks: Looks, motions: Sequence[Motion]) -> int:
    """The number of arrangements of a table that no motion brings onto one another.

    A mirror makes a block that has no mirror symmetry into one that is not allowed, so that it brings no arrangement
    with such a block onto another; those are counted up to turning, and the rest up to all of the motions.
    """
    every = range(len(looks))
    turns = [motion for motion in motions if motion < MIRROR]
    if len(turns) == len(motions):
        return _orbits(rows, columns, looks, turns, every)
    mirrors = [motion for motion in motions if motion >= MIRROR]
    mirrored = [one for one in every if all(looks.images[motion][one] is not None for motion in mirrors)]
    alike = _orbits(rows, columns, looks, motions, mirrored)
    return _orbits(rows, columns, looks, turns, every) - _orbits(rows, columns, looks, turns, mirrored) + alike


def _orbits(rows: int, columns: int, looks: Looks, motions: Sequence[Motion], shown: Sequence[int]) -> int:
    total = 0
    for motion in motions:
        fixed = 1
        for length in circles(rows, columns, motion):
            round_once = STAY
            for _ in range(length):
                round_once = after(motion, round_once)
            fixed *= sum(looks.images[round_once][one] == one for one in shown)
        total += fixed
    return total // len(motions)


def circles(rows: int, columns: int, motion: Motion) -> list[int]:
    """The lengths of the circles in which a motion moves the cells of a table."""
    left = {(row, column) for row in range(rows) for column in range(columns)}
    lengths: list[int] = []
    while left:
        start = cell = min(left)
        length = 0
        while cell in left:
            left.remove(cell)
            cell = moved_cell(motion, cell, rows, columns)
            length += 1
        assert cell == start
        lengths.append(length)
    return lengths
