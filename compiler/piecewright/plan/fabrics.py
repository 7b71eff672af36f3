"""Colour, texture and value of every fabric, so that they differ on a screen, in print and in grey."""

from __future__ import annotations

from collections.abc import Mapping

from piecewright.kernel.build import Build, Fabric
from piecewright.kernel.shade import Value, lightness, value_of
from piecewright.plan.model import FabricPlan
from piecewright.plan.rounding import given_size
from piecewright.plan.words import plain

TEXTURES = ("plain", "dots", "rules", "crosses", "waves", "checks", "slants", "rings")
"""The fills that tell fabrics apart where colour is absent; each is drawn by the figures."""

# Chosen for this project: linen, sea, clay, moss, heather and slate, each light, medium and dark.
_PALETTE: dict[Value, tuple[str, ...]] = {
    "light": ("#efe6d3", "#d5e3e4", "#f2dacb", "#e1e6cc", "#e6dbe6", "#dbe1ea"),
    "medium": ("#b99a6b", "#6f9ca6", "#c58467", "#8e9f62", "#a184a4", "#8094b0"),
    "dark": ("#5a4630", "#1f4e5c", "#6e3426", "#3f4f26", "#4c3354", "#2b3a55"),
}
_NO_PRINTS: Mapping[str, tuple[str, ...]] = {}
_SHADES: tuple[Value, ...] = ("light", "dark", "medium")


def fabric_plans(
    build: Build, used: frozenset[str], prints: Mapping[str, tuple[str, ...]] = _NO_PRINTS
) -> tuple[FabricPlan, ...]:
    """The fabrics that are used, in the order of the pattern; a chosen print is not one of them. `prints`: of the
    assorted ones, how many prints are needed."""
    colours = _colours(tuple(fabric for fabric in build.fabrics if not fabric.of))
    textures = _textures(colours)
    usable = build.settings.usable
    return tuple(
        FabricPlan(
            name=fabric.name,
            text=plain(fabric.text),
            colour=colours[fabric.name],
            texture=textures[fabric.name],
            value=fabric.value or value_of(colours[fabric.name]),
            assorted=fabric.assorted,
            directional=fabric.directional,
            stand_in=fabric.stand_in,
            prints=prints.get(fabric.name, ()),
            usable=None if fabric.usable == usable else given_size(fabric.usable, build.settings),
        )
        for fabric in build.fabrics
        if fabric.name in used and not fabric.of
    )


def _colours(fabrics: tuple[Fabric, ...]) -> dict[str, str]:
    """Colours as given, the others from the palette: the next of their value that nobody has."""
    given = {fabric.colour.lower() for fabric in fabrics if fabric.colour}
    colours: dict[str, str] = {}
    bare = 0
    for fabric in fabrics:
        if fabric.colour:
            colours[fabric.name] = fabric.colour.lower()
            continue
        value = fabric.value
        if value is None:
            value = _SHADES[bare % len(_SHADES)]
            bare += 1
        taken = given | set(colours.values())
        free = [colour for colour in _PALETTE[value] if colour not in taken]
        colours[fabric.name] = free[0] if free else _PALETTE[value][len(colours) % len(_PALETTE[value])]
    return colours


def _textures(colours: dict[str, str]) -> dict[str, str]:
    """Textures dealt out in the order of lightness, so that any eight neighbours all differ."""
    names = sorted(colours, key=lambda name: (-lightness(colours[name]), name))
    return {name: TEXTURES[i % len(TEXTURES)] for i, name in enumerate(names)}
