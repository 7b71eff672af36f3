"""The arrangements themselves, one of each kind, made in order and never listed all first.

Of all arrangements that the motions bring onto one another, the one kept is that whose looks, read row by row, come
first. The table is filled cell by cell, and given up as soon as some motion is known to bring it onto an earlier one.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator, Mapping, Sequence
from itertools import product
from math import prod

from piecewright.dataclass import dataclass
from piecewright.plan.arrange.count import ANY
from piecewright.plan.arrange.looks import Looks
from piecewright.plan.arrange.motion import MIRROR, STAY, Motion, after, moved_cell, undone

Arrangement = tuple[int, ...]  # the look of each cell, row by row
Fits = Callable[[int, int], bool]
"""Whether a look may stand left of (or above) another."""


class TooMany(Exception):
    """More has been tried than is worth while."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Move:
    """A motion of the table, perhaps with a shift round its edges; `sources`: where each cell takes its look from."""

    motion: Motion
    sources: tuple[int, ...]


class Grid:
    """A table of cells, and what moves it. `motions` bring the table onto itself; arrangements are one where one of
    the `moves` brings the one onto the other: every motion, or with `mirrors_apart` only the turns, and where the
    table is `repeating`, each of these with every shift round its edges."""

    def __init__(
        self,
        rows: int,
        columns: int,
        motions: Sequence[Motion],
        *,
        mirrors_apart: bool = False,
        repeating: bool = False,
    ) -> None:
        self.rows = rows
        self.columns = columns
        self.motions = tuple(motions)
        cells = [(row, column) for row in range(rows) for column in range(columns)]
        place = {cell: i for i, cell in enumerate(cells)}
        self.sources = {
            motion: tuple(place[moved_cell(undone(motion), cell, rows, columns)] for cell in cells)
            for motion in motions
        }
        shifts = cells if repeating else [(0, 0)]
        shifted = [
            tuple(place[(row - down) % rows, (column - across) % columns] for row, column in cells)
            for down, across in shifts
        ]
        every = [
            Move(motion=motion, sources=tuple(self.sources[motion][cell] for cell in shift))
            for motion in motions
            for shift in shifted
        ]
        self.every = tuple(every)
        self.moves = tuple(move for move in every if move.motion < MIRROR or not mirrors_apart)

    def moved(self, arrangement: Arrangement, motion: Motion, looks: Looks) -> tuple[int | None, ...]:
        """The arrangement after a motion; None where a cell would show what is not allowed."""
        image = looks.images[motion]
        return tuple(image[arrangement[source]] for source in self.sources[motion])

    def symmetries(self, arrangement: Arrangement, looks: Looks) -> tuple[Motion, ...]:
        """The motions that leave an arrangement as it is; of a table that is repeating, up to where it begins."""
        cells = range(len(arrangement))
        there: set[Motion] = set()
        for move in self.every:
            if move.motion not in there:
                image, sources = looks.images[move.motion], move.sources
                if all(image[arrangement[sources[cell]]] == arrangement[cell] for cell in cells):
                    there.add(move.motion)
        return tuple(motion for motion in self.motions if motion in there)

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
        """Of all that the moves make of an arrangement, the one that is kept."""
        there = [_after(move, arrangement, looks) for move in self.moves]
        return min(tuple(look for look in one if look is not None) for one in there if None not in one)

    def repeat_of(self, arrangement: Arrangement, looks: Looks) -> Arrangement:
        """The first arrangement that gives the same endless repeat, up to the moves and to where it begins."""
        return min(self.first_alike(one, looks) for one in self.shifts(arrangement))


def _after(move: Move, arrangement: Arrangement, looks: Looks) -> tuple[int | None, ...]:
    image = looks.images[move.motion]
    return tuple(image[arrangement[source]] for source in move.sources)


class Alike:
    """The arrangements that one move leaves as they are; `count` of them, each found by itself."""

    def __init__(self, move: Move, looks: Looks) -> None:
        source, image = move.sources, looks.images[move.motion]
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
                cell, round_once = target[cell], after(move.motion, round_once)
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
    content: Mapping[int, int] = ANY,
    most_tried: int | None = None,
) -> Iterator[Arrangement]:
    """One arrangement of each kind, in order. With `beside` and `above` only those in which every cell fits its
    neighbours, also across the edges of the table, where the repeat begins again; `content`: how many cells show a
    block, by its place in the list. TooMany when more than `most_tried` beginnings of tables were looked at."""
    rows, columns = grid.rows, grid.columns
    size = rows * columns
    filled: list[int] = []
    every = range(len(looks))
    block_of = [one.block for one in looks.looks]
    blocks = set(block_of)
    left_of = Counter(dict(content))
    free = bool(blocks - set(content))
    all_allowed = all(None not in looks.images[move.motion] for move in grid.moves)  # then nothing was left undecided
    tried = 0

    def is_wanted(look: int) -> bool:
        """Whether the numbers of the blocks can still come out when a cell shows this look."""
        if not content:
            return True
        block = block_of[look]
        if block in content and not left_of[block]:
            return False
        after_it = sum(left_of.values()) - (block in content)
        cells = size - len(filled) - 1
        return after_it <= cells if free else after_it == cells

    def fits(look: int) -> bool:
        if not is_wanted(look):
            return False
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

    def come_first(moves: list[tuple[Move, int]]) -> list[tuple[Move, int]] | None:
        """Which moves may still bring what is filled onto something earlier, and how far each was compared; None
        where one does."""
        left: list[tuple[Move, int]] = []
        known = len(filled)
        for move, at in moves:
            source, image = move.sources, looks.images[move.motion]
            while at < known and source[at] < known:
                other = image[filled[source[at]]]
                if other is None or other > filled[at]:
                    break
                if other < filled[at]:
                    if _allowed(move.motion):
                        return None
                    break
                at += 1
            else:
                left.append((move, at))
        return left

    def _allowed(motion: Motion) -> bool:
        """Whether the motion brings the whole table onto one that is allowed: as far as is filled, every look."""
        image = looks.images[motion]
        return all(image[look] is not None for look in filled) and (
            len(filled) == size or all(one is not None for one in image)
        )

    def go_on(moves: list[tuple[Move, int]]) -> Iterator[Arrangement]:
        nonlocal tried
        if len(filled) == size:
            one = tuple(filled)
            if all_allowed or grid.first_alike(one, looks) == one:
                yield one
            return
        for look in every:
            if not fits(look):
                continue
            tried += 1
            if most_tried is not None and tried > most_tried:
                raise TooMany
            filled.append(look)
            left_of[block_of[look]] -= block_of[look] in content
            left = come_first(moves)
            if left is not None:
                yield from go_on(left)
            left_of[block_of[look]] += block_of[look] in content
            filled.pop()

    stays = tuple(range(size))
    yield from go_on([(move, 0) for move in grid.moves if move.motion or move.sources != stays])
