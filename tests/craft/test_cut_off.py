"""Tables that do not divide their setting: what is cut off, which settings come out, and what is meant so."""

from __future__ import annotations

import pytest
from craft.looked import FABRICS, found, said, warned
from hypothesis import given
from hypothesis import strategies as st

TWO = ("A | B", "B | A")
THREE = ("A | B | C", "B | C | A", "C | A | B")
CELLS = {"A": "tile(light)", "B": "tile(dark)", "C": "tile(light) turned right", "D": "tile(dark) turned left"}
HEAD = FABRICS + "unit tile (cloth)\n    rectangle 4 by 3 1/2 of cloth\n    border 1 of cloth on top, press open\n\n"


def table(setting: str, rows: tuple[str, ...], kind: str = "quilt", more: str = "") -> str:
    written = "".join(f"        {'| ' * (len(row) == 1)}{row}\n" for row in rows)
    for letter, cell in CELLS.items():
        written = written.replace(letter, cell)
    press = "" if "sash" in more else ", press open"
    return f"{HEAD}{kind} all\n    lay {setting}{press}\n{written}{more}"


def is_told(setting: str, rows: tuple[str, ...], **more: str) -> bool:
    return "W511" in [code for code, _ in warned(table(setting, rows, **more))]


def test_one_column_of_the_last_repeat_is_cut_off() -> None:
    text = table("5 by 4", TWO)
    assert warned(text) == [("W511", "lay 5 by 4, press open")]
    assert said(text) == (
        "the table under it, 2 by 2, does not divide 5 by 4: of the last repeat 1 of 2 columns is cut off at the right"
    )
    (one,) = found(text)
    assert one.hint == (
        "lay 4 by 4 or 6 by 4, which it divides, or 5 by 3 or 5 by 5, where it is cut off alike at all four sides;"
        " where it is meant so, a `note` that says cut off tells so"
    )


def test_columns_and_rows_of_a_larger_table() -> None:
    assert said(table("4 by 8", THREE)) == (
        "the table under it, 3 by 3, does not divide 4 by 8: of the last repeat 2 of 3 columns are cut off at the right"
        " and 1 of 3 rows is cut off at the bottom"
    )
    (one,) = found(table("4 by 8", THREE))
    assert (one.hint or "").startswith("lay 3 by 6, 3 by 9, 6 by 6 or 6 by 9, which it divides; where")
    (small,) = found(table("2 by 6", THREE))
    assert (small.hint or "").startswith("lay 3 by 6, which it divides;")


@pytest.mark.parametrize(
    ("setting", "rows"),
    [
        ("6 by 4", TWO),
        ("5 by 5", TWO),  # all four sides alike
        ("5 by 3", TWO),
        ("5 by 1", TWO),  # a single row
        ("1 by 5", TWO),
        ("5 by 4", ("A",)),  # one cell
        ("5 by 4", ("A | B",)),  # columns, both ends alike
        ("6 by 6", THREE),
    ],
)
def test_what_comes_out_or_ends_alike_is_not_told(setting: str, rows: tuple[str, ...]) -> None:
    assert not is_told(setting, rows)


@pytest.mark.parametrize(
    ("setting", "rows"),
    [
        ("4 by 5", TWO),
        ("4 by 4", THREE),
        ("4 by 3", ("A | B | C",)),
        ("5 by 5", ("A | B", "C | D", "B | A")),
        ("3 by 2", ("A | B", "A | B | C")),  # the second row comes out, the first does not
    ],
)
def test_what_ends_otherwise_is_told(setting: str, rows: tuple[str, ...]) -> None:
    assert is_told(setting, rows)


def test_only_in_a_quilt_and_not_where_a_note_tells_of_it() -> None:
    assert not is_told("5 by 4", TWO, kind="block")
    assert not is_told("5 by 4", TWO, more='    note "The last column is cut off, for the bed stands at the wall."\n')
    assert is_told("5 by 4", TWO, more='    note "Press well."\n')


def test_under_a_sash_too() -> None:
    assert is_told("5 by 4", TWO, more="    sash 1 1/2 of dark\n")
    assert not is_told("4 by 4", TWO, more="    sash 1 1/2 of dark\n")


PAIRS = st.lists(st.lists(st.sampled_from("ABCD"), min_size=2, max_size=2), min_size=2, max_size=3)


@given(st.integers(2, 7), st.integers(2, 7), PAIRS)
def test_it_is_told_where_neither_repeat_nor_mirror_comes_out(across: int, down: int, cells: list[list[str]]) -> None:
    grid = [[cells[r % len(cells)][c % 2] for c in range(across)] for r in range(down)]
    ends_alike = grid == grid[::-1] and all(row == row[::-1] for row in grid)
    comes_out = across % 2 == 0 and down % len(cells) == 0
    rows = tuple(" | ".join(row) for row in cells)
    assert is_told(f"{across} by {down}", rows) == (not ends_alike and not comes_out)
