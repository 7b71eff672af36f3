"""What stands on the pages, HTML and Markdown alike: the plan put into the order and the words of a reader.

The templates only set it; anything that needs thought is thought here.
"""

from __future__ import annotations

from collections.abc import Sequence

from piecewright.dataclass import dataclass
from piecewright.plan.model import (
    ClothPlan,
    CutPlan,
    FabricPlan,
    Figure,
    FoundationPlan,
    KitCloth,
    Plan,
    StepPlan,
    StripPlan,
    UnitPlan,
)
from piecewright.plan.words import extent_text, shape_size

UNIT_NAMES = {"inch": "inches", "cm": "centimetres", "mm": "millimetres"}
UNIT_MARKS = {"inch": "in", "cm": "cm", "mm": "mm"}


@dataclass(frozen=True, slots=True, kw_only=True)
class FabricPage:
    """A fabric with all that is cut from it. `about`: the description and what is particular about it; `cuts` keep
    their place in the plan's cut list, from 1. `buy`: what to buy, in short; `cloth` is None where nothing is cut."""

    fabric: FabricPlan
    about: str
    buy: str
    cuts: tuple[tuple[int, CutPlan], ...]
    cloth: ClothPlan | None
    strips: tuple[StripPlan, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Stage:
    """A step, or the steps of a repeat under the sentence that says how often."""

    repeat: str
    steps: tuple[StepPlan, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class UnitPage:
    """What is made at one go: a unit, or the unlike parts of one cut. `count`: how many to make; `facts`: a line on
    each part; `pictures`: the finished ones that do not stand at the head of the page."""

    id: str
    heading: str
    count: int
    description: str
    facts: tuple[str, ...]
    pictures: tuple[Figure, ...]
    foundation: FoundationPlan | None
    stages: tuple[Stage, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class KitPage:
    """One fabric of several kits: what they take, and how it is cut."""

    fabric: FabricPlan
    bought: str
    cloth: ClothPlan
    strips: tuple[StripPlan, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Page:
    """The whole. `asked` and `outlined`: words and picture of what is made in the end, and of what can be
    coloured in."""

    plan: Plan
    sizes: str
    lengths: str
    fabrics: tuple[FabricPage, ...]
    units: tuple[UnitPage, ...]
    asked: tuple[tuple[str, Figure], ...]
    outlined: tuple[tuple[str, Figure], ...]
    sheets: tuple[FoundationPlan, ...]
    kits: tuple[KitPage, ...]


def page(plan: Plan) -> Page:
    name, mark = UNIT_NAMES[plan.units_of_length], UNIT_MARKS[plan.units_of_length]
    unless = " unless another is given" if any(fabric.usable for fabric in plan.fabrics) else ""
    return Page(
        plan=plan,
        sizes=f"Sizes are in {name}. The seam allowance is {plan.seam.shown}; sizes to cut include it.",
        lengths=(
            f"What to buy is for {plan.usable.shown} {mark} of usable width{unless}; a margin told with it is for"
            " straightening the ends."
        ),
        fabrics=_fabric_pages(plan, mark),
        units=_unit_pages(plan),
        asked=tuple((_wanted(unit), unit.coloured) for unit in plan.units if unit.asked and unit.coloured),
        outlined=tuple((capital(unit.title), unit.uncoloured) for unit in plan.units if unit.uncoloured),
        sheets=tuple(unit.foundation for unit in plan.units if unit.foundation is not None),
        kits=() if plan.kits is None else tuple(_kit(plan, plan.kits.count, one) for one in plan.kits.fabrics),
    )


def _kit(plan: Plan, count: int, kit: KitCloth) -> KitPage:
    fabric = next(one for one in plan.fabrics if one.name == kit.fabric)
    if kit.saves:
        bought = f"{count} kits cut at once take {kit.cloth.bought_text}; bought for one by one they take {kit.apart}."
    else:
        bought = f"{count} kits take {kit.apart}; cutting them at once saves none of it."
    return KitPage(fabric=fabric, bought=bought, cloth=kit.cloth, strips=kit.strips)


def _fabric_pages(plan: Plan, mark: str) -> tuple[FabricPage, ...]:
    """The fabrics in the order of the plan, with their share of the cut list."""
    cloth = {one.fabric: one for one in plan.fabric_cloth}
    return tuple(
        FabricPage(
            fabric=fabric,
            about=_about(fabric, mark),
            buy=_buy(cloth.get(fabric.name)),
            cuts=tuple((n, cut) for n, cut in enumerate(plan.cuts, 1) if cut.fabric == fabric.name),
            cloth=cloth.get(fabric.name),
            strips=tuple(strip for strip in plan.strips if strip.fabric == fabric.name),
        )
        for fabric in plan.fabrics
    )


def _buy(cloth: ClothPlan | None) -> str:
    if cloth is None:
        return "nothing"
    return f"{cloth.bought_text} in all" if cloth.proved is None else cloth.bought_text


def _about(fabric: FabricPlan, mark: str) -> str:
    told = [fabric.text]
    told += ["has a direction"] if fabric.directional else []
    told += ["assorted", *fabric.prints] if fabric.assorted else []
    told += [f"{fabric.usable.shown} {mark} usable"] if fabric.usable else []
    told += [f"any {fabric.value} fabric"] if fabric.stand_in else []
    return "; ".join(part for part in told if part)


def _unit_pages(plan: Plan) -> tuple[UnitPage, ...]:
    """The units in the order of work, the parts of one cut together."""
    by_id = {unit.id: unit for unit in plan.units}
    pages = []
    for unit in plan.units:
        if unit.parts and unit.id != unit.parts[0]:
            continue
        units = tuple(by_id[part] for part in unit.parts) or (unit,)
        pages.append(
            UnitPage(
                id=unit.id,
                heading=capital(unit.whole or unit.title),
                count=unit.runs if unit.whole else unit.makes,
                description=unit.description,
                facts=tuple(_facts(part) for part in units),
                pictures=tuple(part.coloured for part in units if part.coloured and not part.asked),
                foundation=unit.foundation,
                stages=_stages(unit.steps),
            )
        )
    return tuple(pages)


def _wanted(unit: UnitPlan) -> str:
    """`12 × lantern, 7½ by 7½ finished`, and of a quilt both its sizes."""
    title = f"{unit.makes} × {unit.title}" if unit.makes > 1 else capital(unit.title)
    return f"{title}, {_sizes(unit) if unit.kind == 'quilt' else _finished(unit)}"


def _facts(unit: UnitPlan) -> str:
    part = f"{capital(unit.title)}, {unit.makes} wanted: " if unit.whole else ""
    spare = f"; {unit.spare} left over" if unit.spare else ""
    return f"{capital(f'{part}{_sizes(unit)}{spare}')}. {unit.work}".strip()


def _sizes(unit: UnitPlan) -> str:
    """`8 by 8 unfinished, 7½ by 7½ finished`; of a quilt `top 36½ by 48½ with seam allowance, bound 36½ by 48½`."""
    if unit.kind != "quilt":
        return f"{extent_text(unit.unfinished)} unfinished, {_finished(unit)}"
    last = _finished(unit) if unit.bound is None else f"bound {extent_text(unit.bound)}"
    return f"top {extent_text(unit.unfinished)} with seam allowance, {last}"


def _finished(unit: UnitPlan) -> str:
    return f"{extent_text(unit.finished)} finished"


def _stages(steps: Sequence[StepPlan]) -> tuple[Stage, ...]:
    """Steps one by one, those of a repeat together."""
    found: list[Stage] = []
    for step in steps:
        if found and step.round is not None and found[-1].steps[0].round == step.round:
            found[-1] = Stage(repeat=found[-1].repeat, steps=(*found[-1].steps, step))
        else:
            found.append(Stage(repeat=step.repeat, steps=(step,)))
    return tuple(found)


def cut_text(cut: CutPlan) -> str:
    """`2½` of a square, `2½ × 4½` of others, `for a seam of radius 3, by template A` of a piece with a round edge."""
    if cut.radius is not None:
        return f"{cut.bend}, by template {cut.template}"
    return shape_size(cut.shape, cut.width.shown, cut.height.shown, cut.angle)


def capital(text: str) -> str:
    return text[:1].upper() + text[1:]
