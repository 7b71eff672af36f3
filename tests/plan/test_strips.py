"""Strips across the width: enough of them, never too many by first fit, and said in a sentence."""

from __future__ import annotations

from dataclasses import replace

from hypothesis import given
from hypothesis import strategies as st
from piecewright.exact import Exact
from piecewright.kernel.build import Build
from piecewright.plan.cutlist import CutRow
from piecewright.plan.strips import cloth_lengths, joined_strips, strip_plans, strips, strips_needed, without_scraps
from plan import builds

BUILD = builds.build(())
WIDTH = Exact(40)


def row(shape: str, width: str, height: str, count: int, fabric: str = "dusk") -> CutRow:
    return CutRow(
        fabric=fabric,
        shape=shape,
        width=Exact.parse(width),
        height=Exact.parse(height),
        reversed=False,
        units=(("u", count),),
    )


def texts(*rows: CutRow, build: Build = BUILD) -> list[str]:
    return [plan.text for plan in strip_plans(build, rows, strips(build, rows))]


def test_squares_by_the_strip() -> None:
    assert texts(row("square", "13/2", "13/2", 12)) == [
        "From dusk cut 2 strips 6½ by the width; from them cut 12 squares 6½."
    ]
    assert texts(row("square", "13/2", "13/2", 13))[0].startswith("From dusk cut 3 strips 6½")
    assert texts(row("square", "13/2", "13/2", 1)) == [
        "From dusk cut 1 strip 6½ by the width; from it cut 1 square 6½."
    ]


def test_pieces_of_one_height_share_strips_the_longest_first() -> None:
    rows = (row("rectangle", "5/2", "21", 2), row("square", "5/2", "5/2", 14))
    assert texts(*rows) == [
        "From dusk cut 2 strips 2½ by the width; from them cut 2 rectangles 2½ × 21 and 14 squares 2½."
    ]


def test_a_piece_lies_along_the_strip_unless_the_fabric_has_a_direction() -> None:
    rows = (row("rectangle", "9", "2", 4),)
    assert texts(*rows)[0].startswith("From dusk cut 1 strip 2 by")
    directional = builds.build((), fabrics=(replace(builds.DUSK, directional=True),))
    upright = (row("rectangle", "2", "9", 4),)
    assert texts(*upright, build=directional)[0].startswith("From dusk cut 1 strip 9 by")


def test_strips_of_the_whole_width_need_no_second_cut() -> None:
    assert texts(row("strip", "5/2", "40", 3)) == ["From dusk cut 3 strips 2½ by the width."]
    assert texts(row("strip", "5/2", "40", 3), row("strip", "5/2", "10", 2)) == [
        "From dusk cut 4 strips 2½ by the width; from them cut 2 lengths of 10."
    ]


def test_what_is_longer_than_the_width_is_joined() -> None:
    assert texts(row("rectangle", "9/2", "115/2", 2)) == [
        "From dusk cut 3 strips 4½ by the width; from them cut 2 rectangles 4½ × 57½."
        " Each piece 57½ long is joined end to end from 1 full strip and a length of 18."
    ]


def test_of_many_sizes_the_cut_list_tells() -> None:
    rows = tuple(row("rectangle", "3/2", str(length), 2) for length in range(2, 8))
    assert texts(*rows) == [
        "From dusk cut 2 strips 1½ by the width; from them cut the pieces 1½ wide listed below, the longest first."
    ]


def test_a_size_between_marks_takes_the_strip_of_the_next_mark() -> None:
    (planned,) = strips(BUILD, (row("square", "2 + 1/4*sqrt(2)", "2 + 1/4*sqrt(2)", 1),))
    assert planned.height == Exact(19, 8)  # 2.354 up to 2 3/8


def test_the_length_of_cloth_is_that_of_all_strips() -> None:
    rows = (row("square", "13/2", "13/2", 12), row("square", "5/2", "5/2", 1), row("square", "3", "3", 1, "glow"))
    lengths = {fabric: size.ruler for fabric, size in cloth_lengths(BUILD, strips(BUILD, rows))}
    assert lengths == {"dusk": "15 1/2", "glow": "3"}


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
    assert texts(row("rectangle", "2", "81/2", 4)) == [
        "From dusk cut 5 strips 2 by the width; from them cut 4 rectangles 2 × 40½."
        " Each piece 40½ long is joined end to end from a length of 36 and a length of 5."
    ]


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
