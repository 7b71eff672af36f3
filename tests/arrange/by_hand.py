"""Arrangements as pictures of pixels, turned, mirrored and shifted as pictures, without anything of the compiler."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from itertools import product

Picture = tuple[str, ...]  # rows of pixels, from the top

PLAIN = ("aaaa", "aaaa", "aaaa", "aaaa")
OTHER = ("bbbb", "bbbb", "bbbb", "bbbb")
HALF_SQUARE = ("abbb", "aabb", "aaab", "aaaa")  # alike in the mirror of the rising diagonal alone
DIAGONAL = ("xaaa", "axaa", "aaxa", "aaax")
HOOK = ("caaa", "caaa", "ccaa", "aaaa")  # no symmetry at all
PINWHEEL = ("acaa", "aaac", "caaa", "aaca")  # alike after a quarter turn


def turned(picture: Picture) -> Picture:
    """A quarter turn to the left."""
    return tuple("".join(row[-1 - n] for row in picture) for n in range(len(picture[0])))


def mirrored(picture: Picture) -> Picture:
    return tuple(row[::-1] for row in picture)


def ways(block: Picture, *, turns: Sequence[int], mirrors: bool) -> list[Picture]:
    """A block as it may lie: turned by so many quarters, and perhaps mirrored before."""
    found: list[Picture] = []
    for start in (block, mirrored(block)) if mirrors else (block,):
        for quarters in turns:
            picture = start
            for _ in range(quarters):
                picture = turned(picture)
            if picture not in found:
                found.append(picture)
    return found


def kinds(
    blocks: Sequence[Picture],
    rows: int,
    columns: int,
    *,
    quarters: bool,
    mirrors: bool,
    shifts: bool,
    block_quarters: bool = True,
    reversed_too: bool = False,
) -> Counter[tuple[int, ...]]:
    """How many arrangements there are that no turn, mirror or shift brings onto one another, by how many cells show
    each block. `quarters`: whether the table may be turned by a quarter; `block_quarters`: whether each block may."""
    turns = (0, 1, 2, 3) if block_quarters else (0, 2)
    block_of = {
        picture: n for n, block in enumerate(blocks) for picture in ways(block, turns=turns, mirrors=reversed_too)
    }
    pixels = len(blocks[0])
    seen: set[Picture] = set()
    found: Counter[tuple[int, ...]] = Counter()
    for cells in product(block_of, repeat=rows * columns):
        table = _together(cells, rows, columns)
        if table in seen:
            continue
        shown = Counter(block_of[cell] for cell in cells)
        found[tuple(shown[n] for n in range(len(blocks)))] += 1
        waiting = [table]
        while waiting:
            one = waiting.pop()
            if one not in seen:
                seen.add(one)
                waiting.extend(_next(one, pixels, quarters=quarters, mirrors=mirrors, shifts=shifts))
    return found


def _together(cells: Sequence[Picture], rows: int, columns: int) -> Picture:
    pixels = len(cells[0])
    return tuple(
        "".join(cells[r * columns + c][pixel] for c in range(columns)) for r in range(rows) for pixel in range(pixels)
    )


def _next(table: Picture, pixels: int, *, quarters: bool, mirrors: bool, shifts: bool) -> Iterator[Picture]:
    """What one turn, mirror or shift makes of a table; all of the group follows from these."""
    once = turned(table)
    yield once if quarters else turned(once)
    if mirrors:
        yield mirrored(table)
    if shifts:
        yield (*table[pixels:], *table[:pixels])
        yield tuple(row[pixels:] + row[:pixels] for row in table)
