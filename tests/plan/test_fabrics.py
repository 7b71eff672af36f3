"""Colours, values and textures of the fabrics."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st
from piecewright.emit.textures import TEXTURES as DRAWN
from piecewright.kernel.build import Fabric
from piecewright.kernel.shade import lightness, value_of
from piecewright.plan.fabrics import TEXTURES, fabric_plans
from piecewright.plan.model import FabricPlan
from plan import builds


def planned(*fabrics: Fabric) -> tuple[FabricPlan, ...]:
    return fabric_plans(builds.build((), fabrics=fabrics), frozenset(fabric.name for fabric in fabrics))


def bare(name: str, value: str | None = None, colour: str | None = None) -> Fabric:
    return replace(builds.SAND, name=name, value=value, colour=colour)  # type: ignore[arg-type]


def test_every_texture_is_drawn() -> None:
    assert set(TEXTURES) == set(DRAWN)


def test_a_given_colour_is_kept_and_its_value_read_off_it() -> None:
    (fabric,) = planned(bare("dusk", None, "#27355F"))
    assert (fabric.colour, fabric.value) == ("#27355f", "dark")


def test_a_colour_is_chosen_by_value_and_never_twice() -> None:
    fabrics = planned(*(bare(f"f{i}", value) for i, value in enumerate(("light", "dark", "medium") * 6)))
    assert len({fabric.colour for fabric in fabrics}) == 18
    for fabric in fabrics:
        assert value_of(fabric.colour) == fabric.value


def test_a_colour_that_someone_gave_is_not_chosen_again() -> None:
    first = planned(bare("a", "light"))[0].colour
    fabrics = planned(bare("a", "light"), bare("b", "light", first))
    assert fabrics[0].colour != fabrics[1].colour


def test_only_fabrics_that_are_used_are_listed() -> None:
    build = builds.build((), fabrics=(builds.DUSK, builds.GLOW))
    assert [fabric.name for fabric in fabric_plans(build, frozenset({"glow"}))] == ["glow"]


@given(st.lists(st.from_regex(r"#[0-9a-f]{6}", fullmatch=True), min_size=2, max_size=12))
def test_neighbours_in_lightness_have_different_textures(colours: list[str]) -> None:
    fabrics = sorted(
        planned(*(bare(f"f{i}", None, colour) for i, colour in enumerate(colours))),
        key=lambda f: (-lightness(f.colour), f.name),
    )
    for i, fabric in enumerate(fabrics):
        assert all(fabric.texture != other.texture for other in fabrics[i + 1 : i + len(TEXTURES)])


@pytest.mark.parametrize(("colour", "light"), [("#ffffff", 100.0), ("#000000", 0.0), ("#777777", 50.03)])
def test_lightness_is_that_of_the_standard(colour: str, light: float) -> None:
    assert lightness(colour) == pytest.approx(light, abs=0.01)


def test_line_ends_and_control_characters_of_a_description_are_spaces() -> None:
    (fabric,) = planned(replace(builds.SAND, text="oat\n\x07linen"))
    assert fabric.text == "oat linen"
