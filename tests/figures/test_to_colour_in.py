"""Pictures to colour in: that of a quilt has a page to itself, those of blocks are as large as in colour."""

from __future__ import annotations

import pytest
from evaluate.pattern import built
from figures.clear import meetings
from piecewright.emit.layout import lay_out
from piecewright.emit.scale import PAGE, TALLEST, WIDEST, group_scales
from piecewright.plan.make import plan
from piecewright.plan.model import Figure

TEXT = """
fabric sand
fabric dusk

block tile
    square 4 1/2 of sand
    border 2 1/2 of dusk

quilt cloth
    lay {} by {}
        | tile
    border 3 of sand
"""


def pictures(across: int, down: int) -> dict[str, tuple[Figure, Figure, float, float]]:
    """By the name of a unit its pictures in colour and in outline, each with its scale."""
    units = plan(built(TEXT.format(across, down))).units
    pairs = [(u.name, u.coloured, u.uncoloured) for u in units if u.coloured and u.uncoloured]
    scales = group_scales(tuple(figure for _, *both in pairs for figure in both))
    return {name: (a, b, scales[a.scale_group], scales[b.scale_group]) for name, a, b in pairs}


@pytest.mark.parametrize(("across", "down"), [(3, 3), (4, 6), (8, 5)])
def test_a_quilt_to_colour_in_fills_a_page(across: int, down: int) -> None:
    coloured, outlines, small, large = pictures(across, down)["cloth"]
    sheet = lay_out(outlines, large)
    assert outlines.whole_page and not coloured.whole_page
    assert large > small
    assert sheet.width <= WIDEST and sheet.height <= PAGE
    assert lay_out(coloured, small).height <= TALLEST
    assert meetings(sheet) == []


def test_a_block_to_colour_in_is_as_large_as_in_colour() -> None:
    _, outlines, small, large = pictures(3, 3)["tile"]
    assert not outlines.whole_page and small == large
