"""Fabrics that differ without colour: every texture is its own drawing, and is seen on its cloth."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from piecewright.emit.textures import TEXTURES, Texture, hexed, ink, lightness, mixed, rgb, wrong_side
from piecewright.plan import fabrics

colours = st.tuples(*[st.integers(min_value=0, max_value=255)] * 3)


def test_every_texture_that_is_dealt_out_is_drawn() -> None:
    assert set(fabrics.TEXTURES) == set(TEXTURES)


def test_no_two_textures_are_the_same_drawing() -> None:
    drawings = [(t.stroke, t.fill, t.width, t.height) if t else None for t in TEXTURES.values()]
    assert len(set(drawings)) == len(drawings)


@pytest.mark.parametrize("name", [name for name, t in TEXTURES.items() if t])
def test_a_tile_is_smaller_than_a_patch_and_not_empty(name: str) -> None:
    texture = TEXTURES[name]
    assert isinstance(texture, Texture)
    assert texture.stroke or texture.fill
    assert max(texture.width, texture.height) <= 10


@given(colour=colours)
def test_ink_differs_from_its_cloth_in_grey(colour: tuple[int, int, int]) -> None:
    assert abs(lightness(ink(colour)) - lightness(colour)) >= 0.15


@given(colour=colours)
def test_the_wrong_side_is_half_way_to_white(colour: tuple[int, int, int]) -> None:
    assert all(abs(w - (c + 255) / 2) <= 0.5 for c, w in zip(colour, wrong_side(colour), strict=True))


@given(colour=colours)
def test_colours_are_read_as_they_are_written(colour: tuple[int, int, int]) -> None:
    assert rgb(hexed(colour)) == colour
    assert mixed(colour, (0, 0, 0), 0.0) == colour
