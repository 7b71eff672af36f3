"""Borders with posts, mitred and of units: how they are told, and how their seams are pressed."""

from __future__ import annotations

from evaluate.pattern import built
from piecewright.kernel.action import Sew
from piecewright.kernel.build import Made
from piecewright.plan.make import plan

TEXT = """
fabric sand
fabric dusk
fabric glow

unit tooth (light, dark)
    strip 1 1/2 of light
    join strip 1 1/2 of dark on top
    subcut 2 1/2

block framed
    square 6 1/2 of sand
    {}
"""

SIZES = "border tooth(sand, dusk, 2 1/2)\n    border tooth(sand, dusk, 3) on left"


def told(border: str) -> str:
    return next(unit for unit in plan(built(TEXT.format(border))).units if unit.name == "framed").steps[1].text


def made(border: str) -> Made:
    return next(one for one in built(TEXT.format(border)).made if one.name == "framed")


def test_posts_are_sewn_to_the_ends_before_top_and_bottom() -> None:
    assert told("border 2 1/2 of dusk, posts of glow, press toward dusk") == (
        "Sew a dusk strip 2½ × 6½ to the left and the right edge. Sew a glow square 2½ to each end of two dusk strips"
        " 2½ × 6½, and press away from the squares. Then sew these to the top and the bottom edge, so that the seams at"
        " the corners meet. Press the seams along the edges toward the border."
    )


def test_units_are_counted_for_each_side() -> None:
    assert told("border tooth(sand, dusk)").startswith(
        "Sew the units of each side together in a row, end to end. Then sew a row of 3 tooth units to the left and"
        " the right edge and a row of 5 tooth units to the top and the bottom edge."
    )


def test_how_the_units_of_a_row_are_turned_is_told() -> None:
    assert "a row of 3 tooth units, turned right, to the left" in told("border tooth(sand, dusk) turned right")


def test_a_mitre_is_told_dot_by_dot() -> None:
    text = told("border 2 1/2 of dusk, mitred")
    assert text.startswith("Sew a dusk strip 2½ × 11¼ to the left, the right, the top and the bottom edge. ")
    assert "begin and end the seam ¼\u00a0in from the raw edges" in text
    assert text.endswith("press that seam open. Press the seams along the edges toward the border.")


def test_mitres_are_pressed_open_and_run_at_45_degrees() -> None:
    unit = made("border 2 1/2 of dusk, mitred").unit
    mitres = [seam for seam in unit.seams if seam.direction.x and seam.direction.y]
    assert len(mitres) == 4
    assert all(seam.pressed == "open" and abs(seam.direction.x) == abs(seam.direction.y) for seam in mitres)
    assert {seam.pressed for seam in unit.seams if seam not in mitres} == {"right"}


def test_the_last_two_are_sewn_round_the_corners() -> None:
    sews = [one for one in made("border 2 1/2 of dusk, mitred").steps[1].actions if isinstance(one, Sew)]
    assert [len(one.first_edges) for one in sews] == [1, 1, 3, 3]



def test_rows_of_units_have_their_posts_too() -> None:
    assert (
        "Sew the units of each side together in a row, end to end. Then sew a row of 3 tooth units, turned right, to"
        " the left and the right edge. Sew a glow square 2½ to each end of two rows of 3 tooth units, turned right, and"
        " press away from the squares. Then sew these to the top and the bottom edge,"
    ) in told("border tooth(sand, dusk) turned right, posts of glow")


def test_what_tells_like_named_units_apart_is_told_with_their_number() -> None:
    text = told("border tooth(sand, dusk)\n    border tooth(dusk, glow)")
    assert "a row of 3 tooth units in sand and dusk to the left and the right edge" in text
    sized = TEXT.replace("unit tooth (light, dark)", "unit tooth (light, dark, size 2 1/2)").replace(
        "subcut 2 1/2", "subcut size"
    )
    steps = next(one for one in plan(built(sized.format(SIZES))).units if one.name == "framed").steps
    assert "a row of 3 tooth units (2½) to the left and the right edge" in steps[1].text


def test_each_round_of_a_repeat_is_told() -> None:
    def steps(border: str) -> tuple[str, tuple[str, ...]]:
        text = TEXT.format(f"repeat 2\n        {border}")
        step = next(unit for unit in plan(built(text)).units if unit.name == "framed").steps[1]
        return step.text, step.details

    text, (second,) = steps("border 2 1/2 of dusk, posts of glow, press toward dusk")
    assert text == told("border 2 1/2 of dusk, posts of glow, press toward dusk")
    assert second == (
        "Round 2: Sew a dusk strip 2½ × 10½ to the left and the right edge. Sew a glow square 2½ to each end of two"
        " dusk strips 2½ × 10½, and press away from the squares. Then sew these to the top and the bottom edge, so that"
        " the seams at the corners meet."
    )
    text, (second,) = steps("border 2 1/2 of dusk, mitred")
    assert text.startswith("Sew a dusk strip 2½ × 11¼ to the left, the right, the top and the bottom edge. ")
    assert second.startswith("Round 2: Sew a dusk strip 2½ × 15¼ to the left, the right, the top and the bottom edge. ")
    text, (second,) = steps("border tooth(sand, dusk), posts of glow")
    assert "a row of 3 tooth units" in text and "a row of 5 tooth units" in second
