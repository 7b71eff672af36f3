"""How many arrangements there are, without listing them: the lemma of Burnside (Cauchy, Frobenius).

The number of arrangements up to the motions of a group is the mean, over its motions, of how many arrangements a
motion leaves as they are. A motion moves the cells round in circles, and what one cell of a circle shows settles
the others: a circle of n cells can be filled in as many ways as there are looks that n times the motion leaves alike.

Where so many cells are to show one block, circles are counted with a weight: one of n cells that shows a block takes n
from its number. That is the coefficient of a product of sums, one for each circle (Pólya's counting), found length by
length.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from functools import cache
from math import comb, prod

from piecewright.plan.arrange.looks import Looks
from piecewright.plan.arrange.motion import MIRROR, STAY, Motion, after, moved_cell

ANY: Mapping[int, int] = {}


def count(
    rows: int,
    columns: int,
    looks: Looks,
    motions: Sequence[Motion],
    *,
    content: Mapping[int, int] = ANY,
    repeating: bool = False,
) -> int:
    """The number of arrangements of a table that no motion brings onto one another. `content`: how many cells show a
    block, by its place in the list; other blocks are free. `repeating`: nor does any shift of the table when it is
    repeated without end.

    A mirror makes a block that has no mirror symmetry into one that is not allowed, so that it brings no arrangement
    with such a block onto another; those are counted up to turning, and the rest up to all of the motions.
    """

    def orbits(motions: Sequence[Motion], shown: Sequence[int]) -> int:
        return _orbits(rows, columns, looks, motions, shown, content, repeating)

    every = range(len(looks))
    turns = [motion for motion in motions if motion < MIRROR]
    if len(turns) == len(motions):
        return orbits(turns, every)
    mirrors = [motion for motion in motions if motion >= MIRROR]
    mirrored = [one for one in every if all(looks.images[motion][one] is not None for motion in mirrors)]
    return orbits(turns, every) - orbits(turns, mirrored) + orbits(motions, mirrored)


def _orbits(
    rows: int,
    columns: int,
    looks: Looks,
    motions: Sequence[Motion],
    shown: Sequence[int],
    content: Mapping[int, int],
    repeating: bool,
) -> int:
    total = 0
    for motion in motions:
        for lengths, times in _kinds(rows, columns, motion, repeating).items():
            total += times * _alike(Counter(lengths), motion, looks, shown, content)
    return total // (len(motions) * (rows * columns if repeating else 1))


@cache
def _kinds(rows: int, columns: int, motion: Motion, repeating: bool) -> Counter[tuple[int, ...]]:
    """The lengths of the circles of a motion, of a repeating table with each shift, and how often they are the same."""
    shifts = [(down, across) for down in range(rows) for across in range(columns)] if repeating else [(0, 0)]
    return Counter(tuple(sorted(circles(rows, columns, motion, shift))) for shift in shifts)


def _alike(
    lengths: Mapping[int, int], motion: Motion, looks: Looks, shown: Sequence[int], content: Mapping[int, int]
) -> int:
    """How many arrangements a motion leaves as they are, that moves the cells in so many circles of each length."""
    kinds: list[tuple[int, int, Counter[int]]] = []
    for length, number in sorted(lengths.items(), key=lambda one: (one[1], one[0])):
        round_once = STAY
        for _ in range(length):
            round_once = after(motion, round_once)
        fixed = Counter(looks.looks[one].block for one in shown if looks.images[round_once][one] == one)
        kinds.append((length, number, fixed))
    if not content:
        return prod(sum(fixed.values()) ** number for _, number, fixed in kinds)
    blocks = tuple(content)
    left = {tuple(content.values()): 1}
    for place, (length, number, fixed) in enumerate(kinds):
        after_it: Counter[tuple[int, ...]] = Counter()
        ways = [fixed[block] for block in blocks]
        free = sum(fixed.values()) - sum(ways)
        last = place == len(kinds) - 1
        for wanted, times in left.items():
            for taken in _taken(wanted, length, number, last=last):
                rest = number - sum(taken)
                ordered, open_circles = 1, number
                for circles_of in taken:
                    ordered *= comb(open_circles, circles_of)
                    open_circles -= circles_of
                filled = ordered * prod(way**k for way, k in zip(ways, taken, strict=True)) * free**rest
                if filled:
                    key = tuple(want - k * length for want, k in zip(wanted, taken, strict=True))
                    after_it[key] += times * filled
        left = dict(after_it)
    return left.get((0,) * len(blocks), 0)


def _taken(wanted: tuple[int, ...], length: int, number: int, *, last: bool) -> Iterator[tuple[int, ...]]:
    """How many of so many circles may show each block, of which so many cells are wanted; all of them of the last."""
    if not wanted:
        yield ()
        return
    most = min(wanted[0] // length, number)
    if last and wanted[0] != most * length:
        return
    for first in range(most if last else 0, most + 1):
        for others in _taken(wanted[1:], length, number - first, last=last):
            yield (first, *others)


def circles(rows: int, columns: int, motion: Motion, shift: tuple[int, int] = (0, 0)) -> list[int]:
    """The lengths of the circles in which a motion and then a shift, down and across, round the edges, move the cells
    of a table."""
    left = {(row, column) for row in range(rows) for column in range(columns)}
    lengths: list[int] = []
    while left:
        start = cell = min(left)
        length = 0
        while cell in left:
            left.remove(cell)
            row, column = moved_cell(motion, cell, rows, columns)
            cell = (row + shift[0]) % rows, (column + shift[1]) % columns
            length += 1
        assert cell == start
        lengths.append(length)
    return lengths
