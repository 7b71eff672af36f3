"""The strips that a refused table names: done as they are told, they mend it."""

from __future__ import annotations

import re

import pytest
from evaluate.pattern import found as evaluated
from hypothesis import given, settings
from hypothesis import strategies as st

HEAD = """
fabric sand
fabric dusk

block tile (a, across 8, down 8)
    rectangle across + seam * 2 by down + seam * 2 of a

"""
CELL = re.compile(r"to bring `([^`]+)` to [^`]*, `take` it in a unit and sew (.*?)(?=; |$)")
TRIMMED = re.compile(r"to bring `([^`]+)` to the size of `[^`]+`, `take` it in a unit, sew `([^`]+)` and `([^`]+)`")
ROW = re.compile(r"lengthen row (\d+) with one more cell, `([^`]+)`")
Rows = list[list[str]]


def quilt(rows: Rows, sash: str = "", lay: str = "lay", units: str = "", head: str = HEAD) -> str:
    table = "".join("        " + ("| " if len(row) == 1 else "") + " | ".join(row) + "\n" for row in rows)
    return f"{head}{units}quilt all\n    {lay}\n{table}    {sash}\n"


def mended(rows: Rows, hint: str, option: int) -> tuple[Rows, str]:
    """The table and the units for it, as the hint says; `option`: of two ways the first or the second."""
    units, names = "", {}
    told = [(name, re.findall(r"`(border [^`]+)`", ways.split(", or ")[min(option, ways.count(", or "))]))
            for name, ways in CELL.findall(hint)]  # fmt: skip
    told += [(name, [border, trim]) for name, border, trim in TRIMMED.findall(hint)]
    for number, (name, lines) in enumerate(told):
        names[name] = f"mended-{'abcdefghij'[number]}"
        steps = "".join(f"    {line.replace('FABRIC', 'dusk')}\n" for line in lines)
        units += f"unit {names[name]}\n    take {name}\n{steps}\n"
    rows = [[names.get(cell, cell) for cell in row] for row in rows]
    for row, cell in ROW.findall(hint):
        rows[int(row) - 1].append(cell.replace("FABRIC", "dusk"))
    return rows, units


def cured(rows: Rows, option: int, sash: str = "", lay: str = "lay", head: str = HEAD) -> int:
    """How many hints it took; every mistake on the way is of this kind."""
    units = ""
    for rounds in range(8):
        found = [one for one in evaluated(quilt(rows, sash, lay, units, head))[1] if one.severity == "error"]
        if not found:
            return rounds
        assert [one.code for one in found] == ["E301"] and found[0].hint, found
        rows, more = mended(rows, found[0].hint, option)
        assert more or ROW.search(found[0].hint), found[0].hint
        for letter in "abcdefghij":
            fresh = f"mended-{letter}{rounds}"
            more = re.sub(rf"mended-{letter}\b", fresh, more)
            rows = [[re.sub(rf"mended-{letter}\b", fresh, cell) for cell in row] for row in rows]
        units += more
    raise AssertionError(rows)


SIDES = st.sampled_from(("4", "6", "8", "8 1/4", "9", "12"))


@st.composite
def cells(draw: st.DrawFn, *, square: bool) -> str:
    across = draw(SIDES)
    turned = "" if square else draw(st.sampled_from(("", " turned left")))
    return f"tile(sand, {across}, {across if square else draw(SIDES)}){turned}"


@st.composite
def tables(draw: st.DrawFn, *, ragged: bool = False) -> Rows:
    square = draw(st.booleans())
    across = draw(st.integers(2, 3))
    return [
        [draw(cells(square=square)) for _ in range(draw(st.integers(1, 3)) if ragged else across)]
        for _ in range(draw(st.integers(1, 3)))
    ]


@settings(max_examples=25)
@given(tables(), st.integers(0, 1))
def test_strips_mend_any_table(rows: Rows, option: int) -> None:
    assert cured(rows, option) <= 3


@settings(max_examples=25)
@given(tables(), st.integers(0, 1))
def test_strips_mend_any_sashed_table(rows: Rows, option: int) -> None:
    assert cured(rows, option, sash="sash 1 1/2 of dusk") <= 3


@settings(max_examples=25)
@given(tables(), st.integers(0, 1), st.integers(2, 5), st.integers(2, 5))
def test_strips_mend_any_repeated_table(rows: Rows, option: int, across: int, down: int) -> None:
    assert cured(rows, option, lay=f"lay {across} by {down}") <= 3


@settings(max_examples=25)
@given(tables(ragged=True), st.integers(0, 1))
def test_strips_and_spacers_mend_any_rows(rows: Rows, option: int) -> None:
    assert cured(rows, option) <= 4


@pytest.mark.parametrize("option", [0, 1])
def test_a_sampler_of_the_library_comes_to_one_size(option: int) -> None:
    rows = [["pinwheel(sand, dusk, 8)", "friendship-star(sand, dusk, 9)"], ["pinwheel(sand, dusk, 12)"] * 2]
    assert cured(rows, option) == 1


@pytest.mark.parametrize("option", [0, 1])
def test_it_holds_in_centimetres_and_at_any_seam(option: int) -> None:
    head = HEAD.replace("\nfabric sand", 'pattern "Sampler"\n    units cm\n    seam 0.75\n\nfabric sand', 1)
    assert cured([["tile(sand, 20, 20)", "tile(dusk, 22.5, 22.5)"]], option, head=head) == 1
    head = HEAD.replace("\nfabric sand", 'pattern "Sampler"\n    seam 3/8\n\nfabric sand', 1)
    assert cured([["tile(sand, 8, 8)", "tile(dusk, 9, 9)"]], option, head=head) == 1


def test_where_no_ruler_has_the_width_wider_strips_are_trimmed() -> None:
    assert cured([["tile(sand, 8, 8)", "tile(sand, 6 * 3 / 2 - 1 / 3, 9 - 1 / 3)"]], 0) == 1
    round_ = "diagonal(6)"
    assert cured([["tile(sand, 8, 8)", f"tile(sand, {round_}, {round_})"]], 0) == 1


@pytest.mark.parametrize("sizes", [(8, 9), (9, 8)])
def test_a_frame_mends_blocks_of_two_sizes_on_point(sizes: tuple[int, int]) -> None:
    rows = [[f"tile(sand, {size}, {size})" for size in sizes]]
    (one,) = evaluated(quilt(rows, lay="lay 3 by 4 on point"))[1]
    told = re.fullmatch(r"frame `([^`]+)` in a unit of its own: `([^`]+)` \(1/2 wide finished\)", one.hint or "")
    assert one.code == "E330" and told and told[1] == "tile(sand, 8, 8)"
    unit = f"unit framed\n    take {told[1]}\n    {told[2].replace('FABRIC', 'dusk')}\n\n"
    mended_rows = [["framed" if cell == told[1] else cell for cell in row] for row in rows]
    fill = "fill sides and corners of sand"
    found = evaluated(quilt(mended_rows, fill, "lay 3 by 4 on point", unit))[1]
    assert not [one for one in found if one.severity == "error"]
