"""Nothing on a sheet meets anything else, whatever the figure and the scale."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

import pytest
from figures.clear import meetings
from figures.handmade import figures
from hypothesis import given, settings
from hypothesis import strategies as st
from piecewright.emit.layout import lay_out
from piecewright.emit.lettering import SIZE, text_lines, text_width
from piecewright.emit.scale import LADDER, TALLEST, WIDEST, group_scales
from piecewright.plan.model import Dimension, Figure, Panel, Stroke

ALL = figures()
SCALES = group_scales(ALL)


@pytest.mark.parametrize("figure", ALL, ids=lambda f: f.id)
def test_nothing_meets_anything(figure: Figure) -> None:
    assert meetings(lay_out(figure, SCALES[figure.scale_group])) == []


@pytest.mark.parametrize("scale", [28.0, 10.0, 3.0])
@pytest.mark.parametrize("figure", ALL, ids=lambda f: f.id)
def test_nothing_meets_anything_at_any_scale(figure: Figure, scale: float) -> None:
    assert meetings(lay_out(figure, scale)) == []


def test_the_check_finds_a_text_on_cloth() -> None:
    figure = ALL[1]
    sheet = lay_out(figure, 14.0)
    first = sheet.panels[0]
    size = first.dimensions[0]
    lifted = replace(size, box=(first.x, first.y - 20, first.x + 20, first.y - 10))
    broken = replace(sheet, panels=(replace(first, dimensions=(lifted, *first.dimensions[1:])), *sheet.panels[1:]))
    assert any("cloth" in meeting for meeting in meetings(broken))


def test_the_check_finds_lines_that_cross() -> None:
    panel = _square_with(
        Dimension(start=(0, 1), end=(2, 1), side="top", row=0, text="2"),
        Dimension(start=(1, 1), end=(3, 1), side="top", row=1, text="2"),
    )
    figure = replace(ALL[0], panels=(panel,))
    sheet = lay_out(figure, 28.0)
    first, second = sheet.panels[0].dimensions
    assert first.middle[1] != second.middle[1]
    assert meetings(sheet) != []


def test_one_scale_for_a_group_that_fits_the_page() -> None:
    for figure in ALL:
        scale = SCALES[figure.scale_group]
        assert scale in LADDER
        sheet = lay_out(figure, scale)
        assert sheet.width <= WIDEST
        assert sheet.height <= TALLEST
    assert SCALES["framed"] == group_scales(tuple(f for f in ALL if f.scale_group == "framed"))["framed"]


def test_text_is_never_smaller_than_seven_points_nor_turned() -> None:
    # one size for all text, and a box that is wider than it is high for anything longer than a sign
    assert SIZE >= 7
    for figure in ALL:
        for placed in lay_out(figure, SCALES[figure.scale_group]).panels:
            for d in placed.dimensions:
                left, top, right, bottom = d.box
                assert bottom - top < SIZE * 1.5
                assert right - left == pytest.approx(text_width(d.text))


lengths = st.lists(st.floats(min_value=0.05, max_value=4.0), min_size=1, max_size=2)

sides = st.sampled_from(["left", "right", "top", "bottom"])


@settings(max_examples=150, deadline=None)
@given(lengths=lengths, side=sides, scale=st.sampled_from([24.0, 10.0, 5.0]))
def test_a_chain_of_sizes_and_the_whole_never_meet(lengths: list[float], side: str, scale: float) -> None:
    """One after the other in the inner row, the whole in the outer one: short ones too, whose text must stand
    beside them."""
    whole = sum(lengths)
    stops = [sum(lengths[:i]) for i in range(len(lengths) + 1)]

    def at(reach: float) -> tuple[float, float]:
        across = side in ("top", "bottom")
        edge = whole if side in ("top", "right") else 0.0
        return (reach, edge) if across else (edge, reach)

    chain = [Dimension(start=at(a), end=at(b), side=side, row=0, text="12⅞") for a, b in pairwise(stops)]
    outer = Dimension(start=at(0.0), end=at(whole), side=side, row=1, text="scant 24")
    panel = _cloth_panel(whole, (*chain, outer))
    figure = replace(ALL[0], panels=(panel,))
    assert meetings(lay_out(figure, scale)) == []


def test_lines_of_text_break_between_words() -> None:
    text = "4 alike, turned to lie like this"
    lines = text_lines(text, 60.0)
    assert " ".join(lines) == text
    assert all(text_width(line) <= 60.0 for line in lines)
    assert text_lines("unbreakable-word", 1.0) == ("unbreakable-word",)


def _square_with(*dimensions: Dimension) -> Panel:
    return _cloth_panel(3.0, dimensions, height=1.0)


def _cloth_panel(size: float, dimensions: tuple[Dimension, ...], height: float | None = None) -> Panel:
    top = size if height is None else height
    ring = ((0.0, 0.0), (size, 0.0), (size, top), (0.0, top))
    return Panel(
        cloth=(),
        strokes=(Stroke(points=ring, role="raw", closed=True),),
        arrows=(),
        dimensions=dimensions,
    )
