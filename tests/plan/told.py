"""Rows of a cut list made by hand, and what is told of the cloth they take."""

from __future__ import annotations

from dataclasses import replace

from piecewright.exact import Exact
from piecewright.kernel.build import Build, Fabric, Settings
from piecewright.plan.cloth_plans import cloth_plan
from piecewright.plan.cutlist import CutRow, row_letters
from piecewright.plan.model import ClothPlan, StripPlan
from piecewright.plan.strips import strip_texts, strips
from piecewright.plan.yardage import ClothCut, cut_cloth
from plan import builds

BUILD = builds.build(())
ASSORTED = replace(BUILD, fabrics=tuple(replace(fabric, assorted=True) for fabric in BUILD.fabrics))


def row(
    shape: str,
    width: str,
    height: str,
    count: int = 1,
    *,
    fabric: str = "dusk",
    angle: int | None = None,
    backward: bool = False,
    lengthwise: bool = False,
    joins: bool = False,
) -> CutRow:
    """Sizes as exact numbers are written, in inches: `13/2`."""
    return CutRow(
        fabric=fabric,
        shape=shape,
        width=Exact.parse(width),
        height=Exact.parse(height),
        reversed=backward,
        units=(("u", count),),
        angle=angle,
        lengthwise=lengthwise,
        joins=joins,
    )


def planned(
    *rows: CutRow, fabric: Fabric = builds.DUSK, settings: Settings = builds.SETTINGS, cuts: int = 3
) -> ClothCut:
    return cut_cloth(enumerate(rows), fabric, settings, cuts=cuts)


def told(
    *rows: CutRow, fabric: Fabric = builds.DUSK, settings: Settings = builds.SETTINGS
) -> tuple[ClothPlan, tuple[StripPlan, ...]]:
    cut = planned(*rows, fabric=fabric, settings=settings)
    return cloth_plan(cut, dict(enumerate(rows)), row_letters(rows), "cutting-dusk")


def texts(*rows: CutRow, fabric: Fabric = builds.DUSK, settings: Settings = builds.SETTINGS) -> list[str]:
    """The sentences on the strips, then those on how they are joined or cut at an angle."""
    plan, found = told(*rows, fabric=fabric, settings=settings)
    return [strip.text for strip in found] + list(plan.how)


def together(*rows: CutRow, build: Build = ASSORTED) -> list[str]:
    """The sentences on strips of assorted fabrics."""
    return [plan.text for plan in strip_texts(build, rows, strips(build, rows))]
