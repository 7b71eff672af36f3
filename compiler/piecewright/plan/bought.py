"""The cloth of a whole pattern, fabric by fabric; and of several kits of it, cut at once."""

from __future__ import annotations

from dataclasses import replace

from piecewright.dataclass import dataclass
from piecewright.exact import Exact
from piecewright.kernel.build import Build, Fabric, Settings
from piecewright.plan.cloth_plans import assorted_length, assorted_plan, bought_text, cloth_plan
from piecewright.plan.cutlist import CutRow, row_letters
from piecewright.plan.dies import rough_rows
from piecewright.plan.model import ClothPlan, KitCloth, KitsPlan, StripPlan
from piecewright.plan.press import as_joined, dies_of, press_cut, runs_of, runs_of_prints, with_passes
from piecewright.plan.rounding import cut_size, with_unit
from piecewright.plan.strip_text import sheets_text
from piecewright.plan.strips import Strips, strips
from piecewright.plan.titles import ids
from piecewright.plan.yardage import ClothCut, fabric_rows


@dataclass(frozen=True, slots=True, kw_only=True)
class FabricCloth:
    """One fabric: `cut` is None of an assorted one, whose prints are cut one by one; `length` is how much of it is
    bought, or where it is sold in sheets how much of one cloth the prints are together, in inches."""

    fabric: Fabric
    plan: ClothPlan
    strips: tuple[StripPlan, ...]
    cut: ClothCut | None
    length: Exact


def cloth_of(
    build: Build, rows: tuple[CutRow, ...], planned: tuple[Strips, ...], cuts: int, mark: str = "cutting"
) -> tuple[FabricCloth, ...]:
    """What to buy of each fabric and how it is cut. `planned`: the strips of assorted fabrics; `mark` begins the names
    of the drawings."""
    settings = build.settings
    cut_rows = rough_rows(build, rows)
    of_row, named = dict(enumerate(cut_rows)), row_letters(rows)
    files = ids(fabric.name for fabric in build.fabrics)
    found: list[FabricCloth] = []
    for fabric, own in fabric_rows(build, cut_rows):
        cut = None
        listed = [(place, rows[place]) for place, _ in own]
        dies = dies_of(listed, fabric, settings)
        if fabric.assorted:
            loose = tuple(one for one in planned if one.fabric == fabric.name)
            plan, told = assorted_plan(build, fabric, cut_rows, loose)
            length, runs = assorted_length(build, fabric, loose), runs_of_prints(loose, of_row)
        else:
            cut = press_cut(own, dies, fabric, settings, cuts)
            plan, told = cloth_plan(as_joined(cut, dies), of_row, named, f"{mark}-{files[fabric.name]}")
            length, runs = cut.bought, runs_of(cut, of_row, dies)
        plan = with_passes(plan, runs, told, listed, dies, fabric, settings)
        found.append(FabricCloth(fabric=fabric, plan=plan, strips=told, cut=cut, length=length))
    return tuple(found)


def kits_plan(
    build: Build, rows: tuple[CutRow, ...], single: tuple[FabricCloth, ...], kits: int, cuts: int
) -> KitsPlan:
    """The cutting for so many kits at once. `single`: the cloth of one. Pieces of each kit are the same, so that every
    row is wanted so many times; where planning them together saves nothing, each kit is cut by itself. Of an assorted
    fabric every kit has the same prints, and each print gives its pieces for all of them."""
    together = tuple(replace(row, units=tuple((key, count * kits) for key, count in row.units)) for row in rows)
    planned = strips(build, rough_rows(build, together))
    many = {one.fabric.name: one for one in cloth_of(build, together, planned, cuts, "kits")}
    found: list[KitCloth] = []
    for one in single:
        both = many[one.fabric.name]
        worse = both.length > one.length * kits
        kept = one if worse else both
        cloth = replace(kept.plan, figures=(), text=(_ALONE, *kept.plan.text)) if worse else kept.plan
        if any(row.batches is not None and row.fabric == one.fabric.name for row in rows):
            cloth = replace(cloth, text=(*cloth.text, _SAME_PRINTS))
        found.append(
            KitCloth(
                fabric=one.fabric.name,
                apart=_apart(one, kits, build.settings),
                saves=both.length < one.length * kits,
                alone=worse,
                cloth=cloth,
                strips=kept.strips,
            )
        )
    return KitsPlan(count=kits, fabrics=tuple(found))


_ALONE = "Cut each kit by itself; this is the plan for one."
_SAME_PRINTS = "The kits have the same prints: each print gives its pieces for all of them."


def _apart(one: FabricCloth, kits: int, settings: Settings) -> str:
    if not one.length:
        return "nothing"
    sold = one.fabric.sold or settings.sold
    if sold.step is not None:
        return bought_text(sold, one.length * kits, settings)
    if one.cut is None:
        return with_unit(cut_size(one.length * kits, settings).shown, settings.units)
    return sheets_text(one.cut.bought.floor() * kits, sold.name)
