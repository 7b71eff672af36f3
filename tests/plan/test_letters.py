"""Letters of the blocks in a table: which stand where, what the words say, and that nothing on the sheet meets."""

from __future__ import annotations

import pytest
from evaluate.pattern import built
from figures.clear import meetings
from piecewright.emit import emit
from piecewright.emit.layout import LABEL, lay_out, lines_of
from piecewright.emit.scale import PAGE, TALLEST, WIDEST, group_scales
from piecewright.plan.letters import letter
from piecewright.plan.make import plan
from piecewright.plan.model import Plan, StepPlan

TEXT = """
pattern "Letters"
fabric sand
fabric dusk
fabric glow

block oar (light, dark)
    rectangle 4 1/2 by 2 1/2 of light
    join rectangle 4 1/2 by 2 1/2 of dark on bottom
    flip square 2 1/2 of dark at top-right

block tile (light, dark)
    square 2 1/2 of light
    border 1 1/2 of dark

{kind} cloth
{table}
"""


def planned(table: str, kind: str = "quilt") -> Plan:
    lines = "\n".join(f"    {line}" for line in table.strip().splitlines())
    return plan(built(TEXT.format(kind=kind, table=lines)))


def first(table: str, kind: str = "quilt") -> StepPlan:
    return next(unit for unit in planned(table, kind).units if unit.name == "cloth").steps[0]


def grid(step: StepPlan) -> list[str]:
    """The letters of the first panel from the top left, a row to a text."""
    rows: dict[float, list[tuple[float, str]]] = {}
    for label in step.figure.panels[0].labels:
        rows.setdefault(round(-label.at[1], 3), []).append((label.at[0], label.text))
    return ["".join(text for _, text in sorted(row)) for _, row in sorted(rows.items())]


TABLE = """
lay 4 by 3
    oar(sand, dusk) turned right | tile(sand, glow) | oar(sand, dusk) | oar(sand, dusk) reversed turned left
    tile(sand, glow) | square 4 1/2 of glow | oar(glow, dusk) turned around | oar(sand, dusk)
"""


def test_a_letter_for_each_piece_in_order_of_appearance() -> None:
    step = first(TABLE)
    assert grid(step) == ["ABAC", "BDEA", "ABAC"]
    assert [label for panel in step.figure.panels[1:] for label in panel.labels] == []


def test_the_key_names_and_counts_them() -> None:
    step = first(TABLE)
    assert step.figure.key == (
        "A: oar in sand and dusk, 5 in all",
        "B: tile, 3 in all",
        "C: oar in sand and dusk reversed, 2 in all",
        "D: glow square 4½, 1 in all",
        "E: oar in glow and dusk, 1 in all",
    )
    assert step.details[0] == "; ".join(step.figure.key) + "."
    assert step.figure.description.endswith(step.details[0])


def test_the_rows_are_told_by_letters_and_how_the_blocks_are_turned() -> None:
    assert first(TABLE).details[1:] == (
        "Rows 1 and 3: A, turned right; B; A; C, turned left.",
        "Row 2: B; D; E, turned around; A.",
    )


def test_where_each_stands_once_its_name_stands_with_its_letter() -> None:
    step = first("lay\n    oar(sand, dusk) turned left | tile(sand, dusk)\n    tile(dusk, sand) | oar(dusk, sand)")
    assert grid(step) == ["AB", "CD"]
    assert step.details == (
        "Row 1: A (oar in sand and dusk), turned left; B (tile in sand and dusk).",
        "Row 2: C (tile in dusk and sand); D (oar in dusk and sand).",
    )
    assert step.figure.key[0] == "A: oar in sand and dusk"


@pytest.mark.parametrize(
    "table",
    [
        "lay 2 by 2\n    oar(sand, dusk) | oar(sand, dusk) turned around",
        "lay 4 by 1\n    oar(sand, dusk) | tile(sand, dusk)",
        "lay 2 by 2\n    oar(sand, dusk) | square 4 1/2 of glow",
    ],
    ids=["one block", "one row", "one block and plain squares"],
)
def test_no_letters_where_no_blocks_differ(table: str) -> None:
    step = first(table)
    assert grid(step) == [] and step.figure.key == ()
    assert any("oar" in line for line in step.details)


def test_units_of_a_block_have_no_letters_and_those_of_a_quilt_have() -> None:
    text = TEXT.replace("block", "unit")
    table = "    lay 2 by 2\n        oar(sand, dusk) | tile(sand, dusk)\n        tile(sand, dusk) | oar(sand, dusk)"
    for kind, letters in (("block", []), ("quilt", ["AB", "BA"])):
        made = plan(built(text.format(kind=kind, table=table)))
        assert grid(next(unit for unit in made.units if unit.name == "cloth").steps[0]) == letters


def test_a_table_that_is_only_set_out_is_drawn_at_a_scale_of_its_own() -> None:
    step = first(TABLE + "sash 1 1/2 of glow, posts of dusk")
    assert grid(step) == ["ABAC", "BDEA", "ABAC"]
    assert step.figure.scale_group.endswith("-layout")
    assert first(TABLE).figure.scale_group == step.figure.scale_group.removesuffix("-layout")


def test_letters_are_clear_of_each_other_and_their_key_of_all_else() -> None:
    for table in (TABLE, TABLE + "sash 1 1/2 of glow, posts of dusk"):
        figures = tuple(step.figure for unit in planned(table).units for step in unit.steps)
        scales = group_scales(figures)
        for figure in figures:
            sheet = lay_out(figure, scales[figure.scale_group])
            assert meetings(sheet) == []
            assert [line.text for line in sheet.key] == list(figure.key)
            assert len(sheet.panels[0].labels) == len(figure.panels[0].labels)


def test_where_there_is_no_room_letters_and_key_are_left_out() -> None:
    figure = first(TABLE).figure
    left, right = (label.at[0] for label in figure.panels[0].labels[:2])
    just = (2 * LABEL + 1) / (right - left)  # points to the inch at which the grounds have a point between them
    roomy, narrow = just * 1.001, just * 0.999
    assert lay_out(figure, roomy).panels[0].labels and lay_out(figure, roomy).key
    assert not lay_out(figure, narrow).panels[0].labels and not lay_out(figure, narrow).key
    assert meetings(lay_out(figure, narrow)) == []


@pytest.mark.parametrize(("across", "down", "lines"), [(6, 8, 1), (7, 4, 2), (4, 9, 2), (12, 14, 2)])
def test_the_cells_of_a_large_table_have_a_line_of_their_own(across: int, down: int, lines: int) -> None:
    table = f"lay {across} by {down}\n    oar(sand, dusk) | tile(sand, dusk)\n    tile(sand, dusk) | oar(sand, dusk)"
    units = planned(table + "\nborder 3 of glow").units
    figures = tuple(step.figure for unit in units if unit.name == "cloth" for step in unit.steps)
    figure = figures[0]
    assert len(lines_of(figure)) == lines
    assert figure.whole_page == (lines > 1)
    scale = group_scales(figures)[figure.scale_group]
    sheet = lay_out(figure, scale)
    assert meetings(sheet) == []
    assert sheet.width <= WIDEST and sheet.height <= (PAGE if lines > 1 else TALLEST)
    assert len(sheet.panels[0].labels) == across * down
    if lines > 1:
        first_line, second = sheet.panels[0], sheet.panels[1]
        assert first_line.y < second.y and sheet.signs[0].y > first_line.y
        assert len(sheet.signs) == 2


def test_narrow_strips_do_not_make_a_table_large() -> None:
    *_, cloth = planned("lay 4 by 5\n    | tile(sand, dusk)\nsash 1 1/2 of glow, posts of dusk").units
    assert len(lines_of(cloth.steps[1].figure)) == 1


def test_the_letters_are_in_the_drawing() -> None:
    files = dict(emit(planned(TABLE), ("svg",)))
    drawing = files["figures/cloth-step-1.svg"]
    for text in ("A", "E", "B: tile, 3 in all"):
        assert f">{text}</text>" in drawing


def test_letters_go_on_after_z() -> None:
    assert [letter(n) for n in (0, 25, 26, 27, 51, 52, 701, 702)] == ["A", "Z", "AA", "AB", "AZ", "BA", "ZZ", "AAA"]
