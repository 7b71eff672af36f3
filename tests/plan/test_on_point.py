"""Tables on point as they are told and drawn. No-break spaces stand as plain ones."""

from __future__ import annotations

from dataclasses import replace

from evaluate.pattern import built
from piecewright.plan.make import plan
from piecewright.plan.model import Plan, StepPlan


def planned(*lines: str, settings: str = "") -> Plan:
    text = f'pattern "Panes"{settings}\nfabric sand\nfabric dusk\nfabric glow\n\nquilt one\n'
    return plan(built(text + "".join(f"    {line}\n" for line in lines)))


def steps(*lines: str, settings: str = "") -> tuple[StepPlan, ...]:
    found = planned(*lines, settings=settings).units[-1].steps
    return tuple(replace(step, text=step.text.replace("\u00a0", " ")) for step in found)


BLOCKS = ("lay 3 by 4 on point", "    | square 6 1/2 of sand", "    | square 6 1/2 of glow")
FILLED = (*BLOCKS, "fill sides and corners of dusk")


def test_each_row_is_numbered_and_pressed_by_arrows() -> None:
    filled = steps(*FILLED)[1]
    rows, whole = filled.figure.panels
    assert [label.text for label in rows.labels] == [str(n) for n in range(1, 9)]  # 6 rows of blocks, 2 corners
    assert len(rows.arrows) == 30 - 6  # one on each seam between the 18 blocks and 12 triangles of 6 rows
    assert len(whole.arrows) == 7
    assert len(whole.dimensions) == 2


def test_what_is_laid_out_and_sewn() -> None:
    laid, filled = steps(*FILLED)
    assert laid.text == (
        "Lay out 18 blocks on point, 4 rows of 3 with rows of 2 between them, as the figure shows; do not sew them yet."
    )
    assert laid.details == ("Rows 1, 3, 5 and 7: 3 times sand square 6½.", "Rows 2, 4 and 6: 2 times glow square 6½.")
    assert filled.text == (
        "Cut 3 dusk squares 9¾ in twice from corner to corner, for 10 side triangles (2 left over), and 2 dusk"
        " squares 5⅛ in once from corner to corner, for 4 corner triangles. Lay the triangles round the blocks, the"
        " long sides of the side triangles outward. Sew each diagonal row together: the square corner of a side"
        " triangle even with the corner of the block beside it, the middle of the long side of a corner triangle on"
        " the middle of the block. Cut off the tips that reach beyond, then sew the rows to each other. Press the seams"
        " of each row the other way from those of the row above. Trim all four edges straight, ¼ in beyond the points"
        " of the blocks."
    )
    assert filled.details == (
        "Rows 1 and 8: dusk corner triangle.",
        "Rows 2 and 7: dusk side triangle; sand square; dusk side triangle.",
        "Rows 3 and 6: dusk side triangle; sand square; glow square; sand square; dusk side triangle.",
        "Row 4: dusk corner triangle; 2 times sand square and glow square; sand square; dusk side triangle.",
        "Row 5: dusk side triangle; 2 times sand square and glow square; sand square; dusk corner triangle.",
    )


def test_two_rows_of_two_have_one_block_between() -> None:
    laid, filled = steps("lay 2 by 2 on point", "    | square 6 1/2 of sand", "fill sides and corners of dusk")
    assert "2 rows of 2 with a row of 1 between them" in laid.text
    assert filled.text.startswith("Cut 1 dusk square 9¾ in twice from corner to corner, for 4 side triangles, and 2 ")


def test_sides_and_corners_of_two_fabrics() -> None:
    sides, corners = steps(*BLOCKS, "fill sides of dusk", "fill corners of glow")[1:]
    assert sides.text == (
        "Cut 3 dusk squares 9¾ in twice from corner to corner, for 10 side triangles (2 left over). Lay them at the"
        " sides, the long sides outward, as the figure shows; do not sew them yet."
    )
    (panel,) = sides.figure.panels
    assert sum(len(cloth.outline) == 3 for cloth in panel.cloth) == 2 * 10  # within the seams, and all of it
    assert "Sew each diagonal row together" in corners.text
    assert corners.details[0] == "Rows 1 and 8: glow corner triangle."
    corners, sides = steps(*BLOCKS, "fill corners of glow, float 1", "fill sides of dusk, float 1")[1:]
    assert corners.text.endswith(
        "for 4 corner triangles. Lay them at the corners, as the figure shows; do not sew them yet."
    )
    assert sum(len(cloth.outline) == 3 for cloth in corners.figure.panels[0].cloth) == 2 * 4
    assert "1¼ in beyond the points of the blocks" in sides.text


def test_sashes_and_posts() -> None:
    sashed, filled = steps(*BLOCKS, "sash 2 of dusk, posts of glow", "fill sides and corners of dusk")[1:]
    assert sashed.text == (
        "Lay the sashes with them, on all sides of every block, as the figure shows: 48 dusk strips 2 × 6½, 17 glow"
        " squares 2 as posts and 14 glow rectangles 2 × 2⅜ as longer posts. The longer posts lie at the ends of the"
        " diagonal rows and reach beyond the edge, where they are trimmed later. Do not sew them yet."
    )
    assert filled.details[:4] == (
        "Rows 1 and 15: dusk corner triangle.",
        "Rows 2 and 14: longer glow post; dusk strip; longer glow post.",
        "Rows 3 and 13: dusk side triangle; dusk strip; sand square; dusk strip; dusk side triangle.",
        "Rows 4 and 12: longer glow post; 2 times dusk strip and glow post; dusk strip; longer glow post.",
    )
    assert "Press every seam toward the sashes. Trim all four edges straight, ¼ in beyond the middles" in filled.text
    assert not filled.figure.panels[0].arrows


def test_blocks_go_by_their_letters() -> None:
    lines = ("lay 2 by 2 on point", "    pinwheel(sand, dusk, 6) turned right | pinwheel(sand, dusk, 6)")
    laid, filled = steps(*lines, "    | churn-dash(sand, dusk, 6)", "fill sides and corners of dusk")
    assert laid.details[1] == "Rows 1 and 3: A, turned right; A."
    assert filled.details[0] == laid.details[0] == "A: pinwheel, 4 in all; B: churn-dash, 1 in all."
    assert filled.details[3] == "Row 3: dusk corner triangle; A, turned right; B; A; dusk corner triangle."


def test_strips_along_the_rows_in_centimetres_pressed_open() -> None:
    settings = "\n    units cm\n    seam 0.75\n    ruler 0.5\n    press open"
    lines = ("lay 2 by 2 on point", "    | square 16.5 of sand", "sash 5 of glow", "fill sides and corners of dusk")
    sashed, filled = steps(*lines, settings=settings)[1:]
    assert (
        "8 glow strips 5 × 16.5, 2 glow strips 5 × 26 and 2 glow strips 5 × 63. The longer strips lie along"
        in sashed.text
    )
    assert "Press every seam open. Trim all four edges straight, 0.75 cm beyond" in filled.text
    assert filled.details[1] == "Rows 2 and 8: glow strip 5 × 26."
    assert filled.details[3] == "Rows 4 and 6: glow strip 5 × 63."


def test_a_row_a_column_and_a_block_alone() -> None:
    row, filled = steps("lay 3 by 1 on point", "    | square 6 1/2 of sand", "fill sides and corners of dusk")
    assert row.text == "Lay out 3 blocks on point, side by side, as the figure shows; do not sew them yet."
    assert row.details == ("Row 1: 3 times sand square 6½.",)
    assert filled.text.startswith(
        "Cut 1 dusk square 9¾ in twice from corner to corner, for 4 side triangles, and 2 dusk squares 5⅛ in once"
    )
    assert filled.details == (
        "Rows 1 and 5: dusk corner triangle.",
        "Row 2: dusk side triangle; sand square; dusk corner triangle.",
        "Row 3: dusk side triangle; sand square; dusk side triangle.",
        "Row 4: dusk corner triangle; sand square; dusk side triangle.",
    )
    table = ("lay 1 by 3 on point", "    | square 6 1/2 of sand", "    | square 6 1/2 of glow")
    column, filled = steps(*table, "fill sides and corners of dusk")
    assert column.text.startswith("Lay out 3 blocks on point, one below the other, as the figure shows")
    assert column.details == ("Rows 1 and 3: sand square 6½.", "Row 2: glow square 6½.")  # each row of the table serves
    assert filled.details[1:4] == (
        "Row 2: dusk corner triangle; sand square; dusk side triangle.",
        "Row 3: dusk side triangle; glow square; dusk side triangle.",
        "Row 4: dusk side triangle; sand square; dusk corner triangle.",
    )
    alone, filled = steps("lay 1 by 1 on point", "    | square 6 1/2 of sand", "fill corners of dusk")
    assert alone.text == "Lay the block on point, as the figure shows."
    assert filled.text == (
        "Cut 2 dusk squares 5⅛ in once from corner to corner, for 4 corner triangles. Sew a triangle to each of two"
        " opposite sides of the block, the middle of its long side on the middle of the side. Cut off the tips that"
        " reach beyond, then sew the other two to the other sides. Press as the arrows show. Trim all four edges"
        " straight, ¼ in beyond the points of the blocks."
    )


def test_sashes_that_float_end_in_strips() -> None:
    lines = ("sash 2 of dusk, posts of glow", "fill sides and corners of dusk, float 1")
    sashed, filled = steps(*BLOCKS, *lines)[1:]
    assert sashed.text == (
        "Lay the sashes with them, on all sides of every block, as the figure shows: 48 dusk strips 2 × 6½ and 31 glow"
        " squares 2 as posts. Do not sew them yet."
    )
    # squares for (6 + 1½) × 1.414 + 1¼ + 2 and (6 + 3) ÷ 1.414 + ⅞ + 2; strips for 1½ + √2 × 1¼ + ½
    assert filled.text.startswith(
        "Cut 3 dusk squares 13⅞ in twice from corner to corner, for 10 side triangles (2 left over), and 2 dusk squares"
        " 9¼ in once from corner to corner, for 4 corner triangles. Cut 14 dusk rectangles 2 × 3⅞ as end strips. Lay"
        " the triangles round the blocks, the long sides of the side triangles outward, and an end strip at either end"
        " of each row of sashes. Sew each diagonal row together:"
    )
    assert filled.text.endswith(
        "Press every seam toward the sashes, those of the end strips toward these. Trim all four edges straight, 1¼ in"
        " beyond the outermost points of the sashes."
    )
    assert filled.details[1] == "Rows 2 and 14: dusk end strip; glow post; dusk strip; glow post; dusk end strip."
    labels = {(cut.shape, cut.label) for cut in planned(*BLOCKS, *lines).cuts if cut.fabric == "dusk"}
    assert labels == {
        ("square", "one; to be cut twice from corner to corner"),
        ("square", "one; to be cut once from corner to corner"),
        ("rectangle", "one"),
    }


def test_strips_along_the_rows_of_sashes_that_float_are_not_longer() -> None:
    table = ("lay 2 by 1 on point", "    | square 6 1/2 of sand", "sash 2 of glow")
    floats = ("fill corners of dusk, float 1", "fill sides of sand, float 1")
    sashed, corners, sides = steps(*table, *floats)[1:]
    assert "2 glow strips 2 × 9½ and 1 glow strip 2 × 17. The longer strips lie along" in sashed.text
    assert "reach beyond" not in sashed.text
    assert corners.text.endswith("Lay them at the corners, as the figure shows; do not sew them yet.")
    assert "Cut 6 sand rectangles 2 × 3⅞ as end strips." in sides.text
    sides, corners = steps(*table, *reversed(floats))[2:]
    assert sides.text.endswith(
        "Lay them at the sides, the long sides outward, with an end strip at either end of each row of sashes, as the"
        " figure shows; do not sew them yet."
    )
    assert len(sides.figure.panels[0].placed) == len(sashed.figure.panels[0].placed) + 6
    assert "end strips." not in corners.text
    assert "reach beyond the edge" in steps(*table, "fill sides and corners of dusk")[1].text


def test_the_cut_list_says_which_squares_become_triangles() -> None:
    whole = planned(*FILLED)
    labels = {cut.label for cut in whole.cuts if cut.fabric == "dusk"}
    assert labels == {"one; to be cut twice from corner to corner", "one; to be cut once from corner to corner"}
    assert {cut.label for cut in whole.cuts if cut.fabric != "dusk"} == {"one"}
