"""Warnings about sizes and hands: marks of the ruler, what a trim takes off, pieces cut as in a mirror."""

from __future__ import annotations

import pytest
from craft.looked import FABRICS, TRIANGLES, found, said, warned


def test_a_size_between_the_marks() -> None:
    text = FABRICS + "block tile\n    square 5 1/16 of dark\n"
    assert warned(text) == [("W506", "square 5 1/16 of dark")]
    assert said(text) == (
        "the dark square of 5 1/16 lies between the ruler's marks; it is cut 5 1/8, and no later trim takes the excess"
        " off"
    )
    assert warned(text + 'pattern "Tile"\n    ruler 1/16\n') == []


def test_a_note_of_the_same_definition_declares_a_size_between_the_marks() -> None:
    tile = FABRICS + "unit tile\n    square 5 1/16 of dark\n"
    note = '    note "It lies between the ruler\'s marks; ease it."\n'
    assert warned(tile + note) == []
    assert [code for code, _ in warned(tile + "block user\n    take tile\n" + note)] == ["W506"], "another's note"
    assert [code for code, _ in warned(tile + '    note "Cut it with a ruler."\n')] == ["W506"]


def test_a_later_trim_takes_the_excess_off() -> None:
    tile = FABRICS + "unit tile\n    square 5 1/16 of dark\n\n"
    user = "block user\n    take tile\n"
    assert [code for code, _ in warned(tile + user)] == ["W506"]
    assert warned(tile + user + "    trim to 4 by 4\n") == []
    # what is asked for outright is used as it is
    assert [code for code, _ in warned(tile + user + "    trim to 4 by 4\nmake 1 of tile\nmake 1 of user\n")] == [
        "W506"
    ]


def test_a_border_is_cut_as_long_as_the_work_measures() -> None:
    text = FABRICS + "block tile\n    square 6 of dark\n    trim to 5 1/16 by 5 1/16\n    border {} of light\n"
    assert warned(text.format("2")) == []
    assert [code for code, _ in warned(text.format("2 1/16"))] == ["W506"]


def test_backing_binding_and_what_a_table_on_point_trims_may_lie_between_the_marks() -> None:
    text = FABRICS + (
        "quilt mat\n    lay 2 by 2 on point\n        | square 5 of light\n    fill sides and corners of dark\n"
        "    border 2 of light\n    back of dark\n    bind 2 1/4 of dark\n"
    )
    assert warned(text) == []


TWO = (
    TRIANGLES
    + """\
pattern "Two"
    ruler {ruler}
unit two
    take half({cut}, light)
    join half({cut}, dark) on long-edge
    trim to {size} + 1/2 by {size} + 1/2, seam on diagonal
"""
)


def test_a_trim_with_little_to_spare() -> None:
    text = FABRICS + TWO.format(ruler="1/16", cut="3 15/16", size="3")
    assert warned(text) == [("W507", "trim to 3 + 1/2 by 3 + 1/2, seam on diagonal")]
    # (3 15/16 - √2/4 - 3 1/2) / 2 on every side
    (one,) = found(text)
    assert one.message == (
        "this trim takes off only about 0.0420, exactly 7/32 - 1/8·√2 at the left, less than 1/16:"
        " squares of 3 15/16 are too large to be sewn to size and too small for a trim"
    )
    assert one.hint == "cut the squares 4 if you mean to trim; or cut them 3 7/8 and sew exactly"


@pytest.mark.parametrize("finished", ["1", "2 1/2", "4", "7 3/8"])
@pytest.mark.parametrize("ruler", ["1/8", "1/16", "1/4"])
def test_what_the_published_rule_leaves_is_trimmed_and_not_told(finished: str, ruler: str) -> None:
    """7/8 for 0.8536: the trim takes off 0.0107 on every side, since no ruler has the exact size."""
    assert warned(FABRICS + TWO.format(ruler=ruler, cut=f"{finished} + 7/8", size=finished)) == []
    more = FABRICS + TWO.format(ruler="1/16", cut=f"{finished} + 15/16", size=finished)
    assert [code for code, _ in warned(more)] == ["W507"]


@pytest.mark.parametrize("seam", ["0.5", "0.6", "0.7", "0.75", "1"])
def test_three_and_a_half_seams_in_centimetres_are_trimmed_and_not_told(seam: str) -> None:
    """The published 3.5 seams for 3.4142."""
    head = f'pattern "Two"\n    units cm\n    seam {seam}\n'
    text = TRIANGLES + head + (
        "unit two\n    take half(8 + 3.5 * seam, light)\n    join half(8 + 3.5 * seam, dark) on long-edge\n"
        "    trim to 8 + 2 * seam by 8 + 2 * seam, seam on diagonal\n"
    )  # fmt: skip
    assert warned(FABRICS + text) == []


@pytest.mark.parametrize("finished", ["1", "2 1/2", "4", "7 3/8"])
@pytest.mark.parametrize(
    ("ruler", "more"), [("1/16", "15/16"), ("1/32", "29/32"), ("1/32", "15/16"), ("1/64", "57/64")]
)
def test_the_sizes_that_are_told_mend_it_and_the_mark_below_does_not(finished: str, ruler: str, more: str) -> None:
    def told(cut: str) -> list[str]:
        return [code for code, _ in warned(FABRICS + TWO.format(ruler=ruler, cut=cut, size=finished))]

    (one,) = found(FABRICS + TWO.format(ruler=ruler, cut=f"{finished} + {more}", size=finished))
    assert one.code == "W507" and one.hint is not None
    trimmed, exact = one.hint.removeprefix("cut the squares ").removesuffix(" and sew exactly").split(
        " if you mean to trim; or cut them "
    )
    assert told(trimmed) == [] and told(exact) == []
    assert told(f"{trimmed} - {ruler}") == ["W507"] and told(f"{exact} - {ruler}") == ["E302"], "too small"


def test_a_scant_trim_of_other_work_is_told_without_a_size() -> None:
    (one,) = found(FABRICS + "block tile\n    square 6 of dark\n    trim to 5 15/16 by 5 15/16, centred\n")
    assert one.code == "W507"
    assert one.hint == "cut the pieces one mark larger, so that there is something to trim"


@pytest.mark.parametrize(("across", "down"), [("5", "5"), ("5 7/8", "5 7/8"), ("6", "5 1/2"), ("6", "6")])
def test_a_ruler_laid_even_spares_nothing_and_is_sound(across: str, down: str) -> None:
    assert warned(FABRICS + f"block tile\n    square 6 of dark\n    trim to {across} by {down}\n") == []


def test_a_piece_in_both_hands() -> None:
    text = FABRICS + "unit lean\n    parallelogram 3 by 2 at 45 of dark\n{}"
    both = text.format("make 2 of lean\nmake 2 of lean reversed\n")
    assert warned(both) == [("W508", "parallelogram 3 by 2 at 45 of dark")]
    assert said(both) == (
        "the dark parallelogram is needed 2 times as it is and 2 times mirrored:"
        " 2 cuts through folded cloth give 2 of each and nothing over"
    )
    assert warned(text.format("make 4 of lean\n")) == []
    assert warned(text.format("make 4 of lean reversed\n")) == []
    assert warned(both.replace("make", '    note "Cut it through folded cloth."\nmake', 1)) == []
    assert warned(both.replace("parallelogram 3 by 2 at 45", "rectangle 3 by 2")) == []


def test_a_diamond_has_hands_only_on_a_print_with_a_direction() -> None:
    """Mirrored, it is the same diamond turned; but a print that is turned shows it."""
    text = "unit lean\n    diamond 2 at 45 of dark\nmake 3 of lean\nmake 1 of lean reversed\n"
    assert warned(FABRICS + text) == []
    one_way = FABRICS.replace("value dark", "value dark, directional") + text
    assert warned(one_way) == [("W508", "diamond 2 at 45 of dark")]
    assert said(one_way).startswith("the dark diamond is needed 3 times as it is and once mirrored: 1 cut through")
    assert warned(one_way.replace("make 1 of lean reversed", "make 1 of lean turned right")) == []


@pytest.mark.parametrize(
    ("plain", "turned", "said_so", "mend"),
    [
        (
            4, 1,
            "needed 4 times as it is and once mirrored: 1 cut through folded cloth gives 1 of each, and 3 more are"
            " needed as it is",
            "cut 1 through folded cloth and the other 3 from a single layer; all cut folded would"
            " leave 3 over mirrored",
        ),
        (
            2, 3,
            "needed 2 times as it is and 3 times mirrored: 2 cuts through folded cloth give 2 of each, and 1 more is"
            " needed mirrored",
            "cut 2 through folded cloth and the other 1 from a single layer; all cut folded would"
            " leave 1 over as it is",
        ),
    ],
)  # fmt: skip
def test_how_many_of_each_hand(plain: int, turned: int, said_so: str, mend: str) -> None:
    lean = "unit lean\n    parallelogram 3 by 2 at 45 of dark\n"
    (one,) = found(FABRICS + lean + f"make {plain} of lean\nmake {turned} of lean reversed\n")
    assert one.message == f"the dark parallelogram is {said_so}"
    assert one.hint == f"{mend}; a `note` that says folded tells so"


def test_hands_are_counted_through_every_use() -> None:
    text = (
        FABRICS
        + "unit lean\n    parallelogram 3 by 2 at 45 of dark\n"
        + "block pair\n    take lean\n    join lean on right\n"
        + "make 3 of pair\nmake 2 of lean reversed\n"
    )
    (one,) = [one for one in found(text) if one.code == "W508"]
    assert "needed 6 times as it is and 2 times mirrored" in one.message
