"""Cutting with a die press, and in layers: what the dies on hand cut, from which rough pieces, in how many passes.

A die cuts through several layers at once. The cloth for it is cut roughly, a leeway larger on every side, in strips
that are folded to and fro so that the layers lie on one another.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from piecewright.kernel.build import Cutter, Die, Settings
from piecewright.kernel.foundation import ROUGH
from piecewright.plan.cutlist import CutRow
from piecewright.plan.model import ClothPlan, Extent, PassPlan, StripPlan
from piecewright.plan.rounding import cut_size, up_to_mark
from piecewright.plan.words import listed, plural, shape_size


def die_for(row: CutRow, cutter: Cutter | None) -> Die | None:
    """The die that cuts the pieces of a row, None where there is none: it cuts exactly this shape and size."""
    if cutter is None or cutter.kind != "press" or row.radius is not None or row.hollows:
        return None
    for die in cutter.dies:
        if (die.shape, die.angle) != (row.shape, row.angle):
            continue
        if row.shape == "strip" and die.width == row.width:
            return die
        if row.shape in ("square", "diamond") and die.width == row.width:
            return die
        if row.shape == "triangle" and die.height == row.height:
            return die
        sides = {die.width, die.height} if row.shape == "rectangle" else (die.width, die.height)
        if sides == ({row.width, row.height} if row.shape == "rectangle" else (row.width, row.height)):
            return die
    return None


def rough_rows(rows: tuple[CutRow, ...], settings: Settings) -> tuple[CutRow, ...]:
    """The rows as cloth is cut for them: what a die cuts is a rough piece, larger by the leeway on every side."""
    cutter = settings.cutter
    if cutter is None or not cutter.dies:
        return rows
    return tuple(row if die_for(row, cutter) is None else _rough(row, cutter, settings) for row in rows)


def _rough(row: CutRow, cutter: Cutter, settings: Settings) -> CutRow:
    width, height = (up_to_mark(side + cutter.leeway * 2, settings.ruler) for side in (row.width, row.height))
    if row.shape == "strip":
        return replace(row, width=width)
    return replace(row, shape=ROUGH, width=width, height=height, angle=None)


def with_passes(
    cloth: ClothPlan, strips: Sequence[StripPlan], rows: Sequence[tuple[int, CutRow]], settings: Settings
) -> ClothPlan:
    """The plan of a fabric with what is cut by which die, in how many passes; and how many stacks a ruler takes.
    `rows` are those of the cut list, with their places."""
    cutter = settings.cutter
    if cutter is None:
        return cloth
    if cutter.kind == "rotary":
        return replace(cloth, how=(*cloth.how, *_stacked(strips, cutter)))
    passes, told, left = [], [], []
    for place, row in rows:
        die = die_for(row, cutter)
        if die is None:
            left.append(f"{plural(row.count, row.shape)} {_size_text(row, settings)}")
            continue
        one = _passes(place, row, cutter, settings)
        passes.append(one)
        told.append(_pass_text(one, row, settings))
    if left:
        told.append(f"No die fits {listed(left)}: cut them with a ruler.")
    return replace(cloth, how=(*cloth.how, *told), passes=tuple(passes))


def _passes(place: int, row: CutRow, cutter: Cutter, settings: Settings) -> PassPlan:
    rough = _rough(row, cutter, settings)
    return PassPlan(
        cut=place,
        die=f"{row.shape} {_size_text(row, settings)}",
        rough=Extent(width=cut_size(rough.width, settings), height=cut_size(rough.height, settings)),
        layers=min(cutter.layers, row.count),
        passes=-(-row.count // cutter.layers),
    )


def _pass_text(one: PassPlan, row: CutRow, settings: Settings) -> str:
    layers = plural(one.layers, "layer")
    if row.shape == "strip":
        fold = f"lay the rough strips {one.rough.width.shown} wide on each other"
    else:
        fold = f"fold the rough strips to and fro, so that the folds lie {one.rough.width.shown} apart"
    passes = plural(one.passes, "pass", "passes")
    return f"Die {one.die}: {fold}, and cut {row.count} in {passes} of up to {layers}."


def _stacked(strips: Sequence[StripPlan], cutter: Cutter) -> tuple[str, ...]:
    """How many stacks of strips are cut on, where several lie on each other."""
    if cutter.layers == 1 or not strips:
        return ()
    count = sum(strip.strips for strip in strips)
    stacks = sum(-(-strip.strips // cutter.layers) for strip in strips)
    told = f"{plural(count, 'strip')} in {plural(stacks, 'stack')}"
    return (f"Cut on up to {cutter.layers} strips laid on each other: {told}.",)


def _size_text(row: CutRow, settings: Settings) -> str:
    width, height = cut_size(row.width, settings).shown, cut_size(row.height, settings).shown
    if row.shape == "strip":
        return width
    return shape_size(row.shape, width, height, row.angle)

