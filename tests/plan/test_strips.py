"""Strips of assorted fabrics, whose prints are cut one by one: enough of them, and never too many by first fit."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st
from piecewright.exact import Exact
from piecewright.plan.joining import joined_strips, without_scraps
from piecewright.plan.strips import strips, strips_length, strips_needed
from plan.told import ASSORTED, BUILD, row, together

WIDTH = Exact(40)


def test_pieces_of_any_prints_are_counted_together() -> None:
    assert together(row("square", "13/2", "13/2", 12)) == [
        "From dusk, assorted, cut 12 squares 6½; together they take 2 strips 6½ by the width."
    ]
    rows = (row("rectangle", "5/2", "21", 2), row("square", "5/2", "5/2", 14))
    assert together(*rows) == [
        "From dusk, assorted, cut 2 rectangles 2½ × 21 and 14 squares 2½; together they take 2 strips 2½ by the width."
    ]


def test_only_assorted_fabrics_are_planned_so() -> None:
    assert strips(BUILD, (row("square", "13/2", "13/2", 12),)) == ()


def test_a_size_between_marks_takes_the_strip_of_the_next_mark() -> None:
    (planned,) = strips(ASSORTED, (row("square", "2 + 1/4*sqrt(2)", "2 + 1/4*sqrt(2)", 1),))
    assert planned.height == Exact(19, 8)  # 2.354 up to 2 3/8


def test_the_length_of_cloth_is_that_of_all_strips() -> None:
    rows = (row("square", "13/2", "13/2", 12), row("square", "5/2", "5/2", 1))
    assert strips_length(ASSORTED, strips(ASSORTED, rows)) == Exact(31, 2)


@given(st.integers(161, 4000))
def test_joined_strips_are_as_long_as_the_piece_seams_taken_off(quarters: int) -> None:
    length, seam = Exact(quarters, 4), Exact(1, 4)
    full, rest = joined_strips(length, WIDTH, seam)
    pieces = full + (1 if rest else 0)
    assert WIDTH * full + rest - seam * 2 * (pieces - 1) == length
    assert not rest or seam * 2 < rest < WIDTH
    assert WIDTH * (pieces - 1) - seam * 2 * (pieces - 2) < length  # not one strip more than it takes


def test_a_piece_is_not_pieced_out_with_a_scrap() -> None:
    assert without_scraps(1, Exact(1), WIDTH, Exact(1, 8)) == (0, (Exact(36), Exact(5)))
    assert without_scraps(2, Exact(5), WIDTH, Exact(1, 8)) == (2, (Exact(5),))
    assert without_scraps(2, Exact(0), WIDTH, Exact(1, 8)) == (2, ())
    assert without_scraps(0, Exact(1), WIDTH, Exact(1, 8)) == (0, (Exact(1),))


LENGTHS = st.dictionaries(st.integers(1, 320).map(lambda n: Exact(n, 8)), st.integers(1, 30), min_size=1, max_size=6)


@given(LENGTHS)
def test_strips_are_those_of_first_fit_one_piece_at_a_time(lengths: dict[Exact, int]) -> None:
    count = strips_needed(lengths, WIDTH)
    assert count == first_fit([float(length) for length, n in lengths.items() for _ in range(n)], 40.0)
    total = sum((length * n for length, n in lengths.items()), Exact(0))
    assert (total / WIDTH).ceil() <= count


def first_fit(lengths: list[float], width: float) -> int:
    """First fit, longest first, one piece at a time."""
    free: list[float] = []
    for length in sorted(lengths, reverse=True):
        for i, room in enumerate(free):
            if room >= length:
                free[i] -= length
                break
        else:
            free.append(width - length)
    return len(free)
