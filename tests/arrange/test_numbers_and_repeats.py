"""So many of a block, mirror images apart and repeats that begin anywhere: counted by the lemma, made one by one, and
listed as pictures by arithmetic of the tests' own."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

import pytest
from arrange import by_hand
from arrange.by_hand import Picture, kinds
from arrange.shapes import BOTH_HANDS, HALF_SQUARE, HANDED, PINWHEEL, SLANT, plain
from piecewright.plan.arrange.count import count
from piecewright.plan.arrange.looks import Looks, looks_with
from piecewright.plan.arrange.motion import MIRROR, MOTIONS, TURNS, table_motions
from piecewright.plan.arrange.repeats import Grid, TooMany, repeats

MIXED = looks_with([(0,), MOTIONS], TURNS)  # one with no symmetry, and a plain one
HALVES = looks_with([(0,), (0, SLANT)], TURNS)  # one that a mirror cannot show, and one that it turns
CHIRAL = looks_with([TURNS, MOTIONS], TURNS)
BLOCKS: dict[str, tuple[Looks, tuple[Picture, ...], bool]] = {
    "plain": (plain(2), (by_hand.PLAIN, by_hand.OTHER), False),
    "half-square": (HALF_SQUARE, (by_hand.HALF_SQUARE,), False),
    "handed": (HANDED, (by_hand.HOOK,), False),
    "both hands": (BOTH_HANDS, (by_hand.HOOK,), True),
    "pinwheel": (PINWHEEL, (by_hand.PINWHEEL,), False),
    "handed and plain": (MIXED, (by_hand.HOOK, by_hand.PLAIN), False),
    "handed and half-square": (HALVES, (by_hand.HOOK, by_hand.HALF_SQUARE), False),
    "pinwheel and plain": (CHIRAL, (by_hand.PINWHEEL, by_hand.PLAIN), False),
}
MOST = 700  # tables listed as pictures
CASES = [
    (name, rows, columns, apart, repeating)
    for name, (looks, _, _) in BLOCKS.items()
    for rows, columns in ((1, 1), (1, 2), (2, 2), (1, 3), (3, 1), (2, 3), (3, 3))
    for apart in (False, True)
    for repeating in (False, True)
    if len(looks) ** (rows * columns) <= MOST
]


@pytest.mark.parametrize("name", BLOCKS)
def test_counted_made_and_listed_as_pictures(name: str) -> None:
    looks, blocks, reversed_too = BLOCKS[name]
    tried = 0
    for _, rows, columns, apart, repeating in (case for case in CASES if case[0] == name):
        motions = table_motions(rows, columns)
        merging = [motion for motion in motions if motion < MIRROR or not apart]
        listed = kinds(
            blocks,
            rows,
            columns,
            # blocks are squares and turn by quarters in any table; the table itself only where it is square
            quarters=rows == columns,
            block_quarters=True,
            mirrors=not apart,
            shifts=repeating,
            reversed_too=reversed_too,
        )
        grid = Grid(rows, columns, motions, mirrors_apart=apart, repeating=repeating)
        made = list(repeats(grid, looks))
        assert sum(listed.values()) == len(made) == count(rows, columns, looks, merging, repeating=repeating)
        assert Counter(_shown(one, looks, len(blocks)) for one in made) == listed
        if len(blocks) == 2:
            for first in range(rows * columns + 1):
                second = rows * columns - first
                for content in ({0: first}, {1: second}, {0: first, 1: second}):
                    number = listed[first, second]
                    assert count(rows, columns, looks, merging, content=content, repeating=repeating) == number
                    some = list(repeats(grid, looks, content=content))
                    assert some == [one for one in made if _shown(one, looks, 2)[0] == first]
                    assert len(some) == number
        tried += 1
    assert tried >= 8


def _shown(one: Sequence[int], looks: Looks, blocks: int) -> tuple[int, ...]:
    shown = Counter(looks.looks[look].block for look in one)
    return tuple(shown[block] for block in range(blocks))


def test_three_colours_of_which_two_have_a_number() -> None:
    blocks = (by_hand.PLAIN, by_hand.OTHER, tuple(row.replace("a", "c") for row in by_hand.PLAIN))
    listed = kinds(blocks, 2, 3, quarters=False, block_quarters=True, mirrors=True, shifts=False)
    motions = table_motions(2, 3)
    assert len(listed) == 28
    for (first, second, third), number in listed.items():
        for content in ({0: first, 1: second}, {2: third, 0: first, 1: second}, {1: second, 2: third}):
            assert count(2, 3, plain(3), motions, content=content) == number
    assert count(2, 3, plain(3), motions, content={0: 2}) == sum(n for shown, n in listed.items() if shown[0] == 2)


def test_numbers_on_the_largest_table_are_exact() -> None:
    """Of all numbers together there are as many as without any."""
    motions = table_motions(12, 12)
    whole = count(12, 12, plain(2), motions)
    assert sum(count(12, 12, plain(2), motions, content={0: number}) for number in range(145)) == whole
    shifted = count(12, 12, plain(2), motions, repeating=True)
    numbers = [count(12, 12, plain(2), motions, content={0: number}, repeating=True) for number in range(145)]
    assert sum(numbers) == shifted
    assert numbers == numbers[::-1]  # either colour may be the one that is counted


def test_a_search_that_finds_little_is_given_up() -> None:
    grid = Grid(4, 4, MOTIONS)
    with pytest.raises(TooMany):
        list(repeats(grid, plain(2), beside=lambda one, other: one != other, most_tried=3))
