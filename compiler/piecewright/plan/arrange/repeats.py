"""The arrangements themselves, one of each kind, made in order and never listed all first.

Of all arrangements that the motions bring onto one another, the one kept is that whose looks, read row by row, come
first. The table is filled cell by cell, and given up as soon as some motion is known to bring it onto an earlier one.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from itertools import product
from math import prod

from piecewright.plan.arrange.looks import Looks
from piecewright.plan.arrange.motion import STAY, Motion, after, moved_cell, undone

Arrangement = tuple[int, ...]  # the look of each cell, row by row
Fits = Callable[[int, int], bool]
"""Whether a look may stand left of (or above) another."""


class Grid:
    """A table of cells, and where each motion takes its cells from."""

    def __init__(self, rows: int, columns: int, motions: Sequence[Motion]) -> None:
        self.rows = rows
        self.columns = columns
        self.motions = tuple(motions)
        cells = [(row, column) for row in range(rows) for column in range(columns)]
        place = {cell: i for i, cell in enumerate(cells)}
        self.sources = {
            motion: tuple(place[moved_cell(undone(motion), cell, rows, columns)] for cell in cells)
            for motion in motions
        }

    def moved(self, arrangement: Arrangement, motion: Motion, looks: Looks) -> tuple[int | None, ...]:
        """The arrangement after a motion; None where a cell would show what is not allowed."""
        image = looks.images[motion]
        return tuple(image[arrangement[source]] for source in self.sources[motion])

    def symmetries(self, arrangement: Arrangement, looks: Looks) -> tuple[Motion, ...]:
        """The motions that leave an arrangement as it is."""
        return tuple(motion for motion in self.motions if self.moved(arrangement, motion, looks) == arrangement)

    def shifts(self, arrangement: Arrangement) -> Iterator[Arrangement]:
        """The same endless repeat, begun at each of the cells."""
        for down in range(self.rows):
            for across in range(self.columns):
                yield tuple(
                    arrangement[(row + down) % self.rows * self.columns + (column + across) % self.columns]
                    for row in range(self.rows)
                    for column in range(self.columns)
                )

    def first_alike(self, arrangement: Arrangement, looks: Looks) -> Arrangement:
        """Of all that the motions make of an arrangement, the one that is kept."""
        there = [self.moved(arrangement, motion, looks) for motion in self.motions]
        return min(tuple(look for look in one if look is not None) for one in there if None not in one)

    def repeat_of(self, arrangement: Arrangement, looks: Looks) -> Arrangement:
        """The first arrangement that gives the same endless repeat, up to the motions and to where it begins."""
        return min(self.first_alike(one, looks) for one in self.shifts(arrangement))


class Alike:
    """The arrangements that one motion leaves as they are; `count` of them, each found by itself."""

    def __init__(self, grid: Grid, looks: Looks, motion: Motion) -> None:
        source, image = grid.sources[motion], looks.images[motion]
        target = {place: cell for cell, place in enumerate(source)}
        left = set(target)
        self._circles: list[tuple[int, ...]] = []
        self._choices: list[list[tuple[int, ...]]] = []
        while left:
            circle: list[int] = []
            cell, round_once = min(left), STAY
            while cell in left:
                left.remove(cell)
                circle.append(cell)
                cell, round_once = target[cell], after(motion, round_once)
            self._circles.append(tuple(circle))
            self._choices.append([])
            for look in range(len(looks)):
                if looks.images[round_once][look] != look:
                    continue
                shown: list[int] = []
                one: int | None = look
                while one is not None and len(shown) < len(circle):
                    shown.append(one)
                    one = image[one]
                if len(shown) == len(circle) and one == look:
                    self._choices[-1].append(tuple(shown))
        self.count = prod(len(choices) for choices in self._choices)
        self._size = len(source)

    def __iter__(self) -> Iterator[Arrangement]:
        for chosen in product(*self._choices):
            filled = [0] * self._size
            for circle, shown in zip(self._circles, chosen, strict=True):
                for cell, look in zip(circle, shown, strict=True):
                    filled[cell] = look
            yield tuple(filled)


def repeats(
    grid: Grid,
    looks: Looks,
    *,
    beside: Fits | None = None,
    above: Fits | None = None,
) -> Iterator[Arrangement]:
    """One arrangement of each kind, in order. With `beside` and `above` only those in which every cell fits its
    neighbours, also across the edges of the table, where the repeat begins again."""
    rows, columns = grid.rows, grid.columns
    size = rows * columns
    filled: list[int] = []
    every = range(len(looks))

    def fits(look: int) -> bool:
        row, column = divmod(len(filled), columns)
        if beside is not None:
            if column and not beside(filled[-1], look):
                return False
            if column == columns - 1:
                first = filled[row * columns] if column else look
                if not beside(look, first):
                    return False
        if above is not None:
            if row and not above(filled[-columns], look):
                return False
            if row == rows - 1:
                first = filled[column] if row else look
                if not above(look, first):
                    return False
        return True

    def come_first(motions: list[tuple[Motion, int]]) -> list[tuple[Motion, int]] | None:
        """Which motions may still bring what is filled onto something earlier, and how far each was compared; None
        where one does."""
        left: list[tuple[Motion, int]] = []
        known = len(filled)
        for motion, at in motions:
            source, image = grid.sources[motion], looks.images[motion]
            while at < known and source[at] < known:
                other = image[filled[source[at]]]
                if other is None or other > filled[at]:
                    break
                if other < filled[at]:
                    if _allowed(motion):
                        return None
                    break
                at += 1
            else:
                left.append((motion, at))
        return left

    def _allowed(motion: Motion) -> bool:
        """Whether the motion brings the whole table onto one that is allowed: as far as is filled, every look."""
        image = looks.images[motion]
        return all(image[look] is not None for look in filled) and (
            len(filled) == size or all(one is not None for one in image)
        )

    def go_on(motions: list[tuple[Motion, int]]) -> Iterator[Arrangement]:
        if len(filled) == size:
            one = tuple(filled)
            if grid.first_alike(one, looks) == one:
                yield one
            return
        for look in every:
            if not fits(look):
                continue
            filled.append(look)
            left = come_first(motions)
            if left is not None:
                yield from go_on(left)
            filled.pop()

    yield from go_on([(motion, 0) for motion in grid.motions if motion])
