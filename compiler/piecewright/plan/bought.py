"""The cloth of a whole pattern, fabric by fabric; and of several kits of it, cut at once."""

from __future__ import annotations

from dataclasses import replace

from piecewright.dataclass import dataclass
from piecewright.kernel.build import Build, Fabric, Settings
from piecewright.plan.cloth_plans import assorted_plan, bought_text, cloth_plan
from piecewright.plan.cutlist import CutRow, row_letters
from piecewright.plan.dies import rough_rows, with_passes
from piecewright.plan.model import ClothPlan, KitCloth, KitsPlan, StripPlan
from piecewright.plan.strip_text import sheets_text
from piecewright.plan.strips import Strips
from piecewright.plan.titles import ids
from piecewright.plan.yardage import ClothCut, cut_cloth, fabric_rows


@dataclass(frozen=True, slots=True, kw_only=True)
class FabricCloth:
    """One fabric: `cut` is None of an assorted one, whose prints are cut one by one."""

    fabric: Fabric
    plan: ClothPlan
    strips: tuple[StripPlan, ...]
    cut: ClothCut | None


def cloth_of(
    build: Build, rows: tuple[CutRow, ...], planned: tuple[Strips, ...], cuts: int, mark: str = "cutting"
) -> tuple[FabricCloth, ...]:
    """What to buy of each fabric and how it is cut. `planned`: the strips of assorted fabrics; `mark` begins the names
    of the drawings."""
    settings = build.settings
    cut_rows = rough_rows(rows, settings)
    of_row, named = dict(enumerate(cut_rows)), row_letters(rows)
    files = ids(fabric.name for fabric in build.fabrics)
    found: list[FabricCloth] = []
    for fabric, own in fabric_rows(build, cut_rows):
        cut = None
        if fabric.assorted:
            strips = tuple(one for one in planned if one.fabric == fabric.name)
            plan, told = assorted_plan(build, fabric, rows, strips)
        else:
            cut = cut_cloth(own, fabric, settings, cuts=cuts)
            plan, told = cloth_plan(cut, of_row, named, f"{mark}-{files[fabric.name]}")
        plan = with_passes(plan, told, [(place, rows[place]) for place, _ in own], settings)
        found.append(FabricCloth(fabric=fabric, plan=plan, strips=told, cut=cut))
    return tuple(found)


def kits_plan(
    build: Build, rows: tuple[CutRow, ...], single: tuple[FabricCloth, ...], kits: int, cuts: int
) -> KitsPlan:
    """The cutting for so many kits at once. `single`: the cloth of one. Pieces of each kit are the same, so that every
    row is wanted so many times; where planning them together saves nothing, each kit is cut by itself."""
    together = tuple(replace(row, units=tuple((key, count * kits) for key, count in row.units)) for row in rows)
    many = {one.fabric.name: one for one in cloth_of(build, together, (), cuts, "kits") if one.cut is not None}
    found: list[KitCloth] = []
    for one in single:
        both = many.get(one.fabric.name)
        if one.cut is None or both is None or both.cut is None:
            continue
        saves = both.cut.bought < one.cut.bought * kits
        worse = both.cut.bought > one.cut.bought * kits
        kept = one if worse else both
        found.append(
            KitCloth(
                fabric=one.fabric.name,
                apart=_apart(one.cut, kits, build.settings),
                saves=saves,
                cloth=replace(kept.plan, figures=()) if worse else kept.plan,
                strips=kept.strips,
            )
        )
    return KitsPlan(count=kits, fabrics=tuple(found))


def _apart(cut: ClothCut, kits: int, settings: Settings) -> str:
    if not cut.bought:
        return "nothing"
    if cut.sold.step is not None:
        return bought_text(cut.sold, cut.bought * kits, settings)
    return sheets_text(cut.bought.floor() * kits, cut.sold.name)
