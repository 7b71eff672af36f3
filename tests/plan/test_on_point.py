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


def test_the_cut_list_says_which_squares_become_triangles() -> None:
    whole = planned(*FILLED)
    labels = {cut.label for cut in whole.cuts if cut.fabric == "dusk"}
    assert labels == {"one; to be cut twice from corner to corner", "one; to be cut once from corner to corner"}
    assert {cut.label for cut in whole.cuts if cut.fabric != "dusk"} == {"one"}
