"""From what was made to the plan: the one place where the parts of the plan are put together."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from piecewright.kernel.batches import handed
from piecewright.kernel.build import Build, Made, Settings, Step
from piecewright.kernel.demand import Wanted, cuttings, wanted
from piecewright.kernel.measure import fabrics_of, finished_size, height, width
from piecewright.plan.assorted import Words, prints_needed
from piecewright.plan.bought import cloth_of, kits_plan
from piecewright.plan.curves import letters, template_plans
from piecewright.plan.cutlist import cut_plans, cut_rows
from piecewright.plan.dies import rough_rows
from piecewright.plan.fabrics import fabric_plans
from piecewright.plan.figures import finished_figure, step_figure
from piecewright.plan.letters import lettered
from piecewright.plan.mirrored import description_of
from piecewright.plan.model import (
    CutPlan,
    Extent,
    Figure,
    FoundationPlan,
    Plan,
    StepPlan,
    UnitPlan,
)
from piecewright.plan.onto_paper import CAUTIONS as PAPER
from piecewright.plan.onto_paper import foundation_of, foundation_plan
from piecewright.plan.quilted import bound_in, bound_size
from piecewright.plan.rounding import given_size, measured_extent
from piecewright.plan.steps import step_plans
from piecewright.plan.strips import strips
from piecewright.plan.titles import figure_id, ids, titles
from piecewright.plan.tongue import Tongue
from piecewright.plan.words import extent_text, listed, plain, sentence
from piecewright.plan.working import work_text
from piecewright.plan.yardage import CUTS

CAUTIONS = (
    "Close the cutter's blade every time you put it down.",
    "Cut away from your body, and keep the fingers of the other hand off the ruler's edge.",
    "The iron is hot: set it upright, and let pieces cool before you handle them.",
    "If you cut with a die machine, follow the machine's own manual.",
)


def plan(build: Build, *, most_cuts: int = CUTS, kits: int = 1) -> Plan:
    """The plan of a pattern that was made without an error. `most_cuts`: 2 keeps to strips and sub-cuts of them.
    `kits`: for so many copies the cutting is planned at once too."""
    work = wanted(build)
    names, files = titles(build), ids(key for made in build.made for key in (made.key, made.whole) if key)
    words, prints = Words(build), handed(build)
    asked = frozenset(demand.key for demand in build.demands)
    rows = cut_rows(build, cuttings(build, work))
    of_cloth = rough_rows(build, rows)
    planned = strips(build, of_cloth)
    cloth = cloth_of(build, rows, planned, most_cuts)
    by_template = letters(build)
    tongue = Tongue(
        settings=build.settings,
        made={made.key: made for made in build.made},
        titles=names,
        directional=frozenset(fabric.name for fabric in build.fabrics if fabric.directional),
        templates=by_template,
    )
    units = tuple(
        words.unit(unit, prints[made.key].union(made.chosen))
        for item in work
        for made, unit in zip(item.parts, _unit_plans(item, tongue, files, asked, prints, words), strict=True)
    )
    cuts = cut_plans(build, rows, names, files)
    used = frozenset(row.fabric for row in rows) | frozenset(name for unit in units for name in unit.fabrics)
    return Plan(
        title=plain(build.settings.title),
        edition=plain(build.settings.edition),
        units_of_length=build.settings.units,
        seam=given_size(build.settings.seam, build.settings),
        usable=given_size(build.settings.usable, build.settings),
        ruler=given_size(build.settings.ruler, build.settings),
        fabrics=fabric_plans(build, used, prints_needed(build, of_cloth, planned)),
        units=units,
        cuts=cuts,
        strips=tuple(strip for one in cloth for strip in one.strips),
        cloth=tuple((one.plan.fabric, one.plan.length) for one in cloth if one.plan.length is not None),
        abbreviations=_abbreviations(build.settings, units, cuts),
        cautions=(*CAUTIONS, *PAPER) if any(unit.foundation for unit in units) else CAUTIONS,
        templates=template_plans(by_template, build.settings),
        fabric_cloth=tuple(one.plan for one in cloth),
        kits=kits_plan(build, rows, cloth, kits, most_cuts) if kits > 1 else None,
    )


def _unit_plans(
    item: Wanted,
    tongue: Tongue,
    files: Mapping[str, str],
    asked: frozenset[str],
    prints: Mapping[str, frozenset[str]],
    words: Words,
) -> list[UnitPlan]:
    """One entry for a unit, or one for each unlike part it is cut into; the first has the steps."""
    whole = item.made.whole
    plans = []
    for index, made in enumerate(item.parts):
        unit_id = files[made.key]
        title = tongue.titles[made.key]
        outer = measured_extent(width(made.unit), height(made.unit), tongue.settings)
        inner = measured_extent(*finished_size(made.unit), tongue.settings)
        draw = _drawer(files[item.key], tongue.titles[item.key], made, tongue)
        steps = step_plans(made, tongue, draw, item.sets) if index == 0 else ()
        edge = bound_in(made)
        fabrics = fabrics_of(made.unit) if edge is None else (*fabrics_of(made.unit), edge)
        seen = words.seen(fabrics, prints[made.key].union(made.chosen))
        bound = bound_size(made, tongue.settings)
        shown = inner if bound is None else bound
        pictured = made.kind != "unit" or made.key in asked
        plans.append(
            UnitPlan(
                id=unit_id,
                name=made.name,
                title=title,
                kind=made.kind,
                description=description_of(made, tongue.made, tongue.titles),
                arguments=made.arguments,
                fabrics=tuple(dict.fromkeys(fabrics)),
                makes=item.needed[index],
                spare=item.spare[index],
                runs=item.runs,
                copies=made.copies,
                reversed=made.reversed,
                unfinished=outer,
                finished=inner,
                steps=steps,
                coloured=_picture(made, unit_id, title, shown, tongue.settings, seen) if pictured else None,
                uncoloured=_picture(made, unit_id, title, shown, tongue.settings, ()) if pictured else None,
                file=made.file,
                line=made.line,
                parts=tuple(files[part.key] for part in item.parts) if whole else (),
                whole=tongue.titles[item.key] if whole else "",
                work=work_text(item, tongue, prints) if index == 0 else "",
                asked=made.key in asked,
                foundation=_foundation(made, unit_id, title, item.runs, tongue) if index == 0 else None,
                bound=bound,
            )
        )
    return plans


def _foundation(made: Made, unit_id: str, title: str, count: int, tongue: Tongue) -> FoundationPlan | None:
    found = foundation_of(made)
    return None if found is None else foundation_plan(found, unit_id, title, count, tongue)


def _drawer(unit_id: str, title: str, made: Made, tongue: Tongue) -> Callable[[Step, int, str], Figure]:
    def draw(step: Step, number: int, text: str) -> Figure:
        figure = step_figure(
            step,
            id=figure_id(unit_id, number),
            title=sentence(f"{title}, step {number}"),
            description=text,
            group=unit_id,
            settings=tongue.settings,
        )
        return lettered(figure, step, made, tongue)

    return draw


def _picture(
    made: Made, unit_id: str, title: str, size: Extent, settings: Settings, fabrics: tuple[str, ...]
) -> Figure:
    """The finished picture, of that size, and without fabrics the outlines."""
    outline = not fabrics
    whole_page = outline and made.kind == "quilt"  # its patches are small enough as it is
    what = ", outlines only, to colour in" if outline else "" if " in " in title else f", in {listed(fabrics)}"
    return finished_figure(
        made.unit,
        id=figure_id(unit_id, "outlines" if outline else "finished"),
        title=sentence(f"{title}, {'outlines' if outline else 'finished'}"),
        description=sentence(f"the finished {title}, {extent_text(size)}{what}"),
        group=f"{unit_id}-outlines" if whole_page else f"{unit_id}-finished",
        outline=outline,
        settings=settings,
        line=made.line,
        binding=bound_in(made),
        whole_page=whole_page,
    )


def _abbreviations(
    settings: Settings, units: tuple[UnitPlan, ...], cuts: tuple[CutPlan, ...]
) -> tuple[tuple[str, str], ...]:
    """The short words that this plan uses, and no others, each with its meaning."""
    texts = [text for unit in units for step in unit.steps for text in _texts(step)]
    texts += [
        size.shown
        for unit in units
        for extent in (unit.unfinished, unit.finished)
        for size in (extent.width, extent.height)
    ]
    known = {
        "inch": ("in", "inches"),
        "cm": ("cm", "centimetres"),
        "mm": ("mm", "millimetres"),
    }
    found = [known[settings.units]] if cuts else []
    if cuts:
        found.append(("×", "by; the narrow side of a piece first"))
    for word, meaning in (("scant", "a thread less than the mark"), ("generous", "a thread more than the mark")):
        if any(word in text for text in texts):
            found.append((word, meaning))
    return tuple(found)


def _texts(step: StepPlan) -> tuple[str, ...]:
    return (step.text, *step.details, *step.measures)
