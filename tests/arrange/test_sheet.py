"""Sheets of arrangements of real blocks: how they lie, whether seams meet, and text that makes what is drawn."""

from __future__ import annotations

import pytest
from piecewright import compile_source
from piecewright.emit.arrangements import counted
from piecewright.evaluate.run import evaluate, evaluate_lines
from piecewright.kernel.build import Build
from piecewright.kernel.moves import settled
from piecewright.kernel.unit import Unit
from piecewright.plan.arrange.blocks import edges, is_square, looks_of, lying
from piecewright.plan.arrange.sheet import SYMMETRIES, ArrangementSheet, CannotArrange, arrangement_sheet, table_text
from piecewright.reading import Reader, read_nothing
from piecewright.source import Source
from piecewright.syntax.ast import Line
from piecewright.syntax.parse import parse

FABRICS = """pattern "Trial"
fabric sand, colour "#efe0c0"
fabric dusk, colour "#3d3355"
fabric clay, colour "#a5573d"
"""
CORNER = """
block corner (light, dark)
    lay
        square 2 1/2 of dark | square 2 1/2 of light
        square 2 1/2 of light | square 2 1/2 of light
"""
BARS = """
block bars (light, dark)
    rectangle 4 1/2 by 2 1/2 of light
    join rectangle 4 1/2 by 2 1/2 of dark on bottom
"""
HOOK = """
block hook (light, dark)
    lay
        square 2 1/2 of dark | square 2 1/2 of light | square 2 1/2 of light
        square 2 1/2 of dark | square 2 1/2 of dark | square 2 1/2 of light
        square 2 1/2 of light | square 2 1/2 of light | square 2 1/2 of light
"""


def build_of(text: str, *calls: str) -> Build:
    file, found = parse(Source("trial.piece", FABRICS + text))
    assert file is not None and not found
    lines = []
    for call in calls:
        asked, slips = parse(Source("<block>", f"make 1 of {call}"))
        assert asked is not None and not slips
        lines += [one for one in asked.lines if isinstance(one, Line)]
    build, diagnostics = evaluate_lines(file, Reader(read_nothing).load, lines)
    assert build is not None, diagnostics
    return build


def sheet_of(text: str, *calls: str, across: int = 2, down: int = 2, **more: object) -> ArrangementSheet:
    return arrangement_sheet(build_of(text, *calls), calls, rows=down, columns=across, **more)  # type: ignore[arg-type]


def units_of(text: str, *calls: str) -> list[Unit]:
    build = build_of(text, *calls)
    made = {one.key: one.unit for one in build.made}
    return [made[one.key] for one in build.demands]


def test_a_block_lies_in_as_many_ways_as_it_looks_different() -> None:
    ways = {
        text: len(looks_of(units_of(text, call), reversed_too=False))
        for text, call in ((CORNER, "corner(sand, dusk)"), (BARS, "bars(sand, dusk)"), (HOOK, "hook(sand, dusk)"))
    }
    assert ways == {CORNER: 4, BARS: 4, HOOK: 4}
    assert len(looks_of(units_of("", "pinwheel(sand, dusk)"), reversed_too=False)) == 1
    assert len(looks_of(units_of("", "pinwheel(sand, dusk)"), reversed_too=True)) == 2
    assert len(looks_of(units_of(HOOK, "hook(sand, dusk)"), reversed_too=True)) == 8
    assert len(looks_of(units_of(BARS, "bars(sand, dusk)", "bars(dusk, sand)"), reversed_too=False)) == 4


def test_a_block_that_is_not_square_only_turns_around() -> None:
    text = BARS.replace("4 1/2", "6 1/2")
    (unit,) = units_of(text, "bars(sand, dusk)")
    assert not is_square(unit)
    assert len(looks_of([unit], reversed_too=False)) == 2
    assert sheet_of(text, "bars(sand, dusk)").count == 7  # two looks, half turn and both mirrors: OEIS A225910


def test_seams_are_found_where_they_end_on_the_finished_edges() -> None:
    (unit,) = units_of(BARS, "bars(sand, dusk)")
    there = edges(unit)
    assert [str(at) for at in there.left] == [str(at) for at in there.right] == ["2"]
    assert there.top == there.bottom == frozenset()
    on_side = edges(lying(unit, 1))
    assert on_side.top == on_side.bottom == there.left
    assert on_side.left == frozenset()


def test_the_count_is_told_and_all_are_drawn() -> None:
    sheet = sheet_of(CORNER, "corner(sand, dusk)")
    # four looks alike along a diagonal, as half-square triangle units: 43 of them up to turning and mirroring
    assert (sheet.count, sheet.kept, len(sheet.shown)) == (43, 43, 43)
    assert [one.number for one in sheet.shown] == list(range(1, 44))
    assert sheet.shown[0].symmetry == "alike after a quarter turn and in a mirror"
    assert {one.symmetry for one in sheet.shown[-3:]} == {""}


def test_symmetries_part_them() -> None:
    whole = sheet_of(CORNER, "corner(sand, dusk)")
    shown = {name: sheet_of(CORNER, "corner(sand, dusk)", symmetry=name) for name in SYMMETRIES}
    assert all(one.count == 43 for one in shown.values())
    assert shown["none"].kept == sum(not one.symmetry for one in whole.shown)
    assert shown["quarter-turn"].kept == sum("quarter" in one.symmetry for one in whole.shown)
    mirrored = {one.rows for name in ("mirror", "diagonal-mirror") for one in shown[name].shown}
    assert mirrored == {one.rows for one in whole.shown if "mirror" in one.symmetry}
    turned = {one.rows for one in shown["half-turn"].shown}
    assert turned == {one.rows for one in whole.shown if "turn" in one.symmetry}


def test_only_those_whose_seams_meet() -> None:
    sheet = sheet_of(BARS, "bars(sand, dusk)", meet=True)
    # all seams across, so each cell is one of two looks, exchanged by a half turn and one mirror: (16 + 4 + 4 + 4) / 4
    assert sheet.kept == len(sheet.shown) == 7
    assert all(one.meet for one in sheet.shown)
    every = sheet_of(BARS, "bars(sand, dusk)")
    assert {one.text for one in every.shown if one.meet} == {one.text for one in sheet.shown}


def test_a_large_table_is_counted_and_not_drawn() -> None:
    sheet = sheet_of(CORNER, "corner(sand, dusk)", across=4, down=4)
    assert sheet.count == 536911936  # OEIS A302484
    assert sheet.shown == ()
    symmetric = sheet_of(CORNER, "corner(sand, dusk)", across=4, down=4, symmetry="quarter-turn")
    assert symmetric.kept is not None and 0 < len(symmetric.shown) <= symmetric.kept
    assert all("quarter" in one.symmetry for one in symmetric.shown)


def test_the_lines_make_what_is_drawn() -> None:
    sheet = sheet_of(HOOK, "hook(sand, dusk)", "hook(clay, dusk)", across=2, down=1)
    one = next(one for one in sheet.shown if "turned" in one.text and "clay" in one.text)
    lines = "\n".join(f"    {line}" for line in one.text.splitlines())
    pattern = f"{FABRICS}{HOOK}\nblock whole\n{lines}\nmake 1 of whole\n"
    made = compile_source(pattern)
    assert not made.failed, made.diagnostics
    file, _ = parse(Source("whole.piece", pattern))
    assert file is not None
    build, _ = evaluate(file, Reader(read_nothing).load)
    assert build is not None
    whole = settled(next(one.unit for one in build.made if one.name == "whole"))
    cells = {(one.block, one.text) for one in sheet.looks}
    assert len(cells) == 8
    width = sheet.width
    for row in range(2):
        for column in range(4):
            look = sheet.looks[one.rows[row % 1][column % 2]]
            for cloth in look.picture.cloth:
                x = sum(p[0] for p in cloth.outline) / len(cloth.outline)
                y = sum(p[1] for p in cloth.outline) / len(cloth.outline)
                if 0 < x < width and 0 < y < width:
                    at = (x + column * width + 0.25, y + (1 - row) * width + 0.25)
                    assert shown_at(whole, at) == cloth.fabric


def shown_at(unit: Unit, point: tuple[float, float]) -> str:
    """The fabric seen at a point, by whether it lies left of every side of a cell."""
    for patch in unit.patches:
        for cell in patch.cells:
            floats = [p.floats for p in cell]
            pairs = zip(floats, floats[1:] + floats[:1], strict=True)
            if all((qx - px) * (point[1] - py) - (qy - py) * (point[0] - px) >= -1e-9 for (px, py), (qx, qy) in pairs):
                return str(patch.fabric)
    raise AssertionError(f"nothing at {point}")


def test_mirror_images_may_count_apart() -> None:
    apart = sheet_of(CORNER, "corner(sand, dusk)", mirrors_apart=True)
    assert (apart.count, len(apart.shown)) == (70, 70)  # up to turning: OEIS A367532 for tables of an even size
    together = sheet_of(CORNER, "corner(sand, dusk)")
    mirrored = {one.rows for one in together.shown if "mirror" in one.symmetry}
    # one of each pair was drawn; those alike in a mirror have no other half
    assert apart.count == 2 * together.count - len(mirrored)
    assert sum("mirror" in one.symmetry for one in apart.shown) == len(mirrored)
    shown = sheet_of(CORNER, "corner(sand, dusk)", mirrors_apart=True, symmetry="mirror")
    assert {one.rows for one in shown.shown} <= {one.rows for one in apart.shown if "mirror" in one.symmetry}
    assert counted(apart) == "There are 70 different arrangements, turned ones counted once, mirrored ones apart."


def test_repeats_count_as_one_wherever_they_begin() -> None:
    whole = sheet_of(CORNER, "corner(sand, dusk)")
    repeating = sheet_of(CORNER, "corner(sand, dusk)", repeating=True)
    assert repeating.count == len(repeating.shown) == sum(one.same_as is None for one in whole.shown)
    assert all(one.same_as is None for one in repeating.shown)
    first = {one.rows for one in whole.shown if one.same_as is None}
    assert len(first) == repeating.count
    assert counted(repeating) == (
        f"There are {repeating.count} different arrangements, turned and mirrored ones counted once, as are those that"
        " repeat to the same pattern."
    )


def test_so_many_of_one_block() -> None:
    calls = ("corner(sand, dusk)", "corner(dusk, sand)")
    every = sheet_of(CORNER, *calls, across=2, down=1)
    found = []
    for number in range(1, 3):
        sheet = sheet_of(CORNER, *calls, across=2, down=1, numbers=(number, None))
        assert sheet.count == sheet.kept == len(sheet.shown)
        for one in sheet.shown:
            assert sum(sheet.looks[look].block == 0 for row in one.rows for look in row) == number
        found += [one.rows for one in sheet.shown]
    none = sheet_of(CORNER, calls[1], across=2, down=1).count
    assert len(set(found)) == every.count - none
    both = sheet_of(CORNER, *calls, across=2, down=1, numbers=(1, 1))
    assert counted(both) == (
        f"There are {both.count} different arrangements with 1 of corner(sand, dusk) and 1 of corner(dusk, sand),"
        " turned and mirrored ones counted once."
    )
    symmetric = sheet_of(CORNER, *calls, across=2, down=1, numbers=(2, None), symmetry="half-turn")
    assert symmetric.kept == sum("half" in one.symmetry for one in sheet_of(CORNER, calls[0], across=2, down=1).shown)


def test_numbers_that_do_not_fit_the_table() -> None:
    calls = ("corner(sand, dusk)", "corner(dusk, sand)")
    with pytest.raises(CannotArrange, match=r"5 of corner\(sand, dusk\) are more than the 4 blocks of the table"):
        sheet_of(CORNER, *calls, numbers=(5, None))
    with pytest.raises(CannotArrange, match="leave 1 of the 4 blocks of the table open"):
        sheet_of(CORNER, *calls, numbers=(2, 1))
    with pytest.raises(CannotArrange, match="look the same, perhaps turned"):
        sheet_of(BARS, "bars(sand, dusk)", "bars(dusk, sand)", numbers=(1, None))


def test_what_was_not_looked_through_is_not_called_the_most_symmetric() -> None:
    calls = ("corner(sand, dusk)", "corner(dusk, sand)")
    sheet = sheet_of(CORNER, *calls, across=4, down=4, numbers=(8, None), meet=True)
    assert sheet.kept is None and sheet.shown
    assert counted(sheet).endswith(
        "; too many to say how many are sewn so that all seams meet. 120 of them are drawn."
    )


def test_blocks_of_two_sizes_are_told_apart_with_their_numbers() -> None:
    with pytest.raises(CannotArrange, match=r"finishes at 4 by 4 and hook\(sand, dusk\) at 6 by 6"):
        sheet_of(BARS + HOOK, "bars(sand, dusk)", "hook(sand, dusk)")
    triangle = "\nunit half (light)\n    square 4 of light\n    cut once on diagonal\n"
    with pytest.raises(CannotArrange, match="no straight square corners"):
        sheet_of(triangle, "half(sand)")


def test_one_column_keeps_its_bar() -> None:
    assert table_text([["corner(sand, dusk)"], ["corner(sand, dusk) turned left"]]) == (
        "lay 2 by 4\n    | corner(sand, dusk)\n    | corner(sand, dusk) turned left"
    )
