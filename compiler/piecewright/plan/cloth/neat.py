"""Of plans that buy the same, the one for people: fewest ways of cutting, then fewest strips and segments, then the
largest rest in one piece.

Plans are made strip after strip (`shelves`), at first of everything, among them the plain ones, in which each size has
strips of its own and pieces lie all one way; then one kind of piece after another is laid otherwise while that is
better. Of the best plan a few strips at a time are taken out and laid anew. All of it stops by a count of work.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import combinations
from typing import NamedTuple, Protocol

from piecewright.plan.cloth.layout import Kind, Strip, Strips, free, length_of
from piecewright.plan.cloth.layout import ways as lies
from piecewright.plan.cloth.shelves import RESTS, Lay, Shelves
from piecewright.plan.cloth.ways import ways_of

Merit = tuple[int, ...]

_WORK = 4_000  # plans made times the strips and the kinds in them
_ANEW = 3_000
_HOPELESS = 20  # a plan that is too long by more than this part of itself is not tried on
_TOGETHER = 3  # kinds of strips laid anew at a time
MOST_STRIPS = 300
"""So many strips are laid into sheets at most."""


class Cloth(Protocol):
    """What strips are cut from."""

    @property
    def width(self) -> int: ...

    @property
    def tallest(self) -> int:
        """The tallest strip there is room for."""
        ...

    def beyond(self, length: int) -> int:
        """How far strips so long together reach at least beyond the cloth there is."""
        ...

    def merit(self, strips: Strips) -> Merit:
        """Less is better: how far the strips reach beyond the cloth; ways; strips and segments; the largest rest, less
        than nothing; and the length."""
        ...


class Length(NamedTuple):
    """So much of a roll, or of one sheet that is `height` high."""

    width: int
    room: int
    height: int | None = None

    @property
    def tallest(self) -> int:
        return self.room

    def beyond(self, length: int) -> int:
        return max(length - self.room, 0)

    def merit(self, strips: Strips) -> Merit:
        length = length_of(strips)
        cuts, rest = cuts_of(strips, self.width)
        rest = max(rest, (self.room - length) * self.width)
        return self.beyond(length), ways_of([(self.width, self.height, strips)]), cuts, -rest, length


class Sheets(NamedTuple):
    """So many sheets of one size."""

    width: int
    height: int
    number: int

    @property
    def tallest(self) -> int:
        return self.height

    def beyond(self, length: int) -> int:
        return max(length - self.number * self.height, 0)

    def merit(self, strips: Strips) -> Merit:
        if sum(times for _, times in strips) > MOST_STRIPS:
            return (self.height * MOST_STRIPS,)
        sheets = laid_in(strips, self.height)
        cuts, rest = cuts_of(strips, self.width)
        rest = max(rest, *((self.height - length_of(sheet)) * self.width for sheet in sheets))
        over = (len(sheets) - self.number) * self.height
        ways = ways_of([(self.width, self.height, sheet) for sheet in sheets])
        return max(over, 0), ways, cuts, -rest, length_of(strips)


def laid_in(strips: Strips, height: int) -> list[Strips]:
    """Strips in sheets of that height, each in the first that has room."""
    sheets: list[tuple[dict[Strip, int], int]] = []
    for strip, times in strips:
        for _ in range(times):
            place = next((i for i, (_, room) in enumerate(sheets) if room >= strip.height), len(sheets))
            if place == len(sheets):
                sheets.append(({}, height))
            sheet, room = sheets[place]
            sheet[strip] = sheet.get(strip, 0) + 1
            sheets[place] = sheet, room - strip.height
    return [list(sheet.items()) for sheet, _ in sheets]


class Neat:
    """The search for `kinds` from one cloth. `deep`: pieces may lie one above another."""

    def __init__(self, cloth: Cloth, kinds: Sequence[Kind], *, deep: bool) -> None:
        self._cloth, self._deep = cloth, deep
        self._numbers = [kind.number for kind in kinds]
        self._lies = [_well(one, cloth.width, cloth.tallest) for one in kinds]
        self._sides = {high for kind in kinds if kind.number for _, high in lies(kind)}
        self._left = 0

    def best(self, plans: Iterable[Strips]) -> Strips | None:
        """The best there is, one of these plans where no better is found; None where there is none."""
        made = [(self._cloth.merit(plan), plan) for plan in plans]
        made += [(self._cloth.merit(plan), plan) for plan in self._plain()]
        self._left = _WORK
        fresh = self._shelved([], self._numbers)
        if fresh is not None:
            made.append(fresh)
        if not made:
            return None
        self._left = _ANEW
        best = self._anew(*min(made, key=lambda pair: pair[0]))
        return None if best[0][0] else best[1]

    def _plain(self) -> Iterator[Strips]:
        """Each size in strips of its own and in the first rest that has room, all pieces lying or all upright."""
        for across in (True, False):
            way = [sorted(own, reverse=across)[:1] for own in self._lies]
            if all(own or not number for own, number in zip(way, self._numbers, strict=True)):
                shelves = Shelves(self._cloth.width, False, way, [])
                own = [Lay(kind, *way[kind][0], 1, "first") for kind, number in enumerate(self._numbers) if number]
                shelves.fill(own, self._numbers)
                yield shelves.strips()

    def _anew(self, merit: Merit, known: Strips) -> tuple[Merit, Strips]:
        """Some strips at a time taken out and laid anew, from the first again when that was better."""
        better = True
        while better:
            better = False
            for out in _together(known):
                if self._left <= 0:
                    break
                numbers = [0] * len(self._numbers)
                for place in out:
                    strip, times = known[place]
                    for kind, each in strip.counts().items():
                        numbers[kind] += each * times
                fixed = [pair for place, pair in enumerate(known) if place not in out]
                fresh = self._shelved(fixed, numbers)
                if fresh is not None and fresh[0] < merit:
                    (merit, known), better = fresh, True
                    break
        return merit, known

    def _shelved(self, fixed: Strips, numbers: Sequence[int]) -> tuple[Merit, Strips] | None:
        """The best way to lay so many of each kind beside strips that are there."""
        options = {kind: self._options(kind, number) for kind, number in enumerate(numbers) if number}
        if not all(options.values()):
            return None
        best: tuple[Merit, Strips] | None = None
        start: dict[int, Lay] = {}
        for rests in RESTS:
            for across in (True, False):
                lays = {kind: _lying(own, rests, across) for kind, own in options.items()}
                made = self._made(fixed, lays, numbers, best)
                if made is not None:
                    best, start = made, lays
        better = best is not None and best[0][0] * _HOPELESS <= best[0][-1]
        while better:
            better = False
            for kind, own in options.items():
                for lay in own:
                    if self._left <= 0:
                        return best
                    if lay != start[kind]:
                        lays = start | {kind: lay}
                        made = self._made(fixed, lays, numbers, best)
                        if made is not None:
                            best, start, better = made, lays, True
        return best

    def _made(
        self, fixed: Strips, lays: dict[int, Lay], numbers: Sequence[int], best: tuple[Merit, Strips] | None
    ) -> tuple[Merit, Strips] | None:
        """The plan so laid, if it is better than the best."""
        shelves = Shelves(self._cloth.width, self._deep, self._lies, fixed)
        shelves.fill(lays.values(), numbers)
        self._left -= (len(fixed) + len(lays)) // 4 + len(lays)
        if best is not None and self._cloth.beyond(shelves.length()) > best[0][0]:
            return None
        strips = shelves.strips()
        merit = self._cloth.merit(strips)
        return (merit, strips) if best is None or merit < best[0] else None

    def _options(self, kind: int, number: int) -> list[Lay]:
        """Every way to lay a kind, stacks only where they are as high as another piece."""
        found = []
        for wide, high in self._lies[kind]:
            most = min(high * number, self._cloth.tallest)
            stacks = [side // high for side in sorted(self._sides) if side % high == 0 and high < side <= most]
            for times in (1, *(stacks if self._deep else ())):
                found += [Lay(kind, wide, high, times, rests) for rests in RESTS]
        return found


def _well(kind: Kind, width: int, tallest: int) -> list[tuple[int, int]]:
    """Width and height of a piece as it may lie; not upright in a strip that is too tall to be ruled well, where it
    fits lying."""
    found = [(wide, high) for wide, high in lies(kind) if wide <= width and high <= tallest]
    ruled = [(wide, high) for wide, high in found if high <= width * 3 // 5]
    return ruled or found


def _lying(own: Sequence[Lay], rests: str, across: bool) -> Lay:
    fitting = [lay for lay in own if lay.rests == rests and lay.times == 1]
    return max(fitting, key=lambda lay: lay.width if across else -lay.width)


def _together(strips: Strips) -> Iterator[tuple[int, ...]]:
    """Places of strips to take out together: those that share a kind of piece or a height with the first."""
    counts = [strip.counts() for strip, _ in strips]
    for number in range(1, _TOGETHER + 1):
        for out in combinations(range(len(strips)), number):
            first, height = counts[out[0]], strips[out[0]][0].height
            if all(
                not first.keys().isdisjoint(counts[place]) or strips[place][0].height == height for place in out[1:]
            ):
                yield out


def cuts_of(strips: Strips, width: int) -> tuple[int, int]:
    """How many strips and segments there are, and the largest rest of a strip."""
    cuts, rest = 0, 0
    for strip, times in strips:
        cuts += times * (1 + sum(often for _, often in strip.segments))
        rest = max(rest, free(strip, width) * strip.height)
    return cuts, rest
