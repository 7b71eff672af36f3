"""Arrangements counted by the lemma, made one by one and listed by hand are as many."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import product

import pytest
from arrange.shapes import BOTH_HANDS, HALF_SQUARE, HANDED, PINWHEEL, plain
from piecewright.plan.arrange.count import count
from piecewright.plan.arrange.looks import Looks, looks_with
from piecewright.plan.arrange.motion import MOTIONS, TURNS, after, moved_cell, table_motions, undone
from piecewright.plan.arrange.repeats import Alike, Grid, repeats


def test_motions_make_a_group() -> None:
    for first, second, third in product(MOTIONS, repeat=3):
        assert after(third, after(second, first)) == after(after(third, second), first)
    for motion in MOTIONS:
        assert after(motion, undone(motion)) == after(undone(motion), motion) == 0
    for first, second in product(MOTIONS, repeat=2):
        for cell in product(range(3), repeat=2):
            moved = moved_cell(second, moved_cell(first, cell, 3, 3), 3, 3)
            assert moved == moved_cell(after(second, first), cell, 3, 3)


def test_a_quarter_turn_goes_to_the_left() -> None:
    assert moved_cell(1, (0, 0), 3, 3) == (2, 0)  # from the top left to the bottom left
    assert moved_cell(4, (0, 0), 2, 3) == (0, 2)
    with pytest.raises(ValueError, match="not square"):
        moved_cell(1, (0, 0), 2, 3)


def by_hand(rows: int, columns: int, looks: Looks, motions: Sequence[int]) -> set[frozenset[tuple[int, ...]]]:
    """All arrangements listed, and gathered by what the motions bring together."""
    grid = Grid(rows, columns, motions)
    found: set[frozenset[tuple[int, ...]]] = set()
    for one in product(range(len(looks)), repeat=rows * columns):
        images = (grid.moved(one, motion, looks) for motion in motions)
        found.add(frozenset(tuple(x for x in image if x is not None) for image in images if None not in image))
    return found


MIXED = looks_with([(0,), TURNS, MOTIONS], TURNS)  # one with no symmetry, one that only turns, one plain


LISTED = [
    (looks, rows, columns)
    for looks in (HALF_SQUARE, HANDED, PINWHEEL, BOTH_HANDS, MIXED, plain(3))
    for rows, columns in ((1, 1), (1, 2), (2, 2), (1, 3), (2, 3))
    if len(looks) ** (rows * columns) < 70000
]


@pytest.mark.parametrize(("looks", "rows", "columns"), LISTED)
def test_counted_made_and_listed_agree(looks: Looks, rows: int, columns: int) -> None:
    for mirrors in (False, True):
        motions = table_motions(rows, columns, mirrors=mirrors)
        listed = by_hand(rows, columns, looks, motions)
        made = list(repeats(Grid(rows, columns, motions), looks))
        assert len(listed) == len(made) == count(rows, columns, looks, motions)
        assert {min(one) for one in listed} == set(made)
        assert made == sorted(made)


def test_a_block_without_mirror_symmetry_is_not_mirrored() -> None:
    motions = table_motions(2, 2)
    assert count(2, 2, HANDED, motions) == count(2, 2, HANDED, TURNS) == 70
    assert count(2, 2, BOTH_HANDS, motions) < count(2, 2, BOTH_HANDS, TURNS)


def test_only_what_fits_its_neighbours_is_made() -> None:
    grid = Grid(2, 2, MOTIONS)

    def unlike(first: int, second: int) -> bool:
        return first != second

    assert list(repeats(grid, plain(2), beside=unlike, above=unlike)) == [(0, 1, 1, 0)]
    odd = Grid(3, 3, MOTIONS)
    assert list(repeats(odd, plain(2), beside=unlike, above=unlike)) == []  # the repeat would meet itself
    assert all(
        one[0] != one[1] and one[2] != one[3] for one in repeats(grid, HALF_SQUARE, beside=unlike)
    )


def test_one_endless_repeat_may_begin_at_any_cell() -> None:
    grid = Grid(1, 2, table_motions(1, 2))
    assert grid.repeat_of((1, 0), plain(2)) == grid.repeat_of((0, 1), plain(2)) == (0, 1)
    square = Grid(2, 2, MOTIONS)
    kinds = {square.repeat_of(one, plain(2)) for one in repeats(square, plain(2))}
    assert kinds == {(0, 0, 0, 0), (0, 0, 0, 1), (0, 0, 1, 1), (0, 1, 1, 0), (0, 1, 1, 1), (1, 1, 1, 1)}


@pytest.mark.parametrize("looks", [HALF_SQUARE, HANDED, PINWHEEL, MIXED, plain(2)])
def test_those_that_a_motion_leaves_alike_are_found_by_themselves(looks: Looks) -> None:
    grid = Grid(2, 2, MOTIONS)
    assert len(grid.every) == len(MOTIONS)
    for move in grid.every:
        motion = move.motion
        alike = Alike(move, looks)
        found = list(alike)
        assert len(found) == len(set(found)) == alike.count
        listed = product(range(len(looks)), repeat=4)
        assert set(found) == {one for one in listed if grid.moved(one, motion, looks) == one}
