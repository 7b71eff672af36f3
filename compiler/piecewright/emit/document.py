"""The written pattern: one self-contained HTML page, and Markdown."""

from __future__ import annotations

import re
from collections.abc import Sequence
from importlib import resources

from jinja2 import Environment, FunctionLoader, StrictUndefined  # slow to start; imported only when files are written
from markupsafe import Markup

from piecewright.dataclass import dataclass
from piecewright.emit.data import figure_path
from piecewright.emit.drawings import drawings
from piecewright.emit.swatch import swatch_svg
from piecewright.plan.model import CutPlan, FabricPlan, Figure, Plan, Size, StepPlan, StripPlan, UnitPlan
from piecewright.plan.words import extent_text

_WIDTH = re.compile(r'<svg[^>]*? width="([\d.]+)pt"')
_MARKS = re.compile(r"([\\`*_{}\[\]<>|~&#$])")
_LINE_START = re.compile(r"^(\s*)([-+=:]|\d+(?=[.)]))")

UNIT_NAMES = {"inch": "inches", "cm": "centimetres", "mm": "millimetres"}
UNIT_MARKS = {"inch": "in", "cm": "cm", "mm": "mm"}


@dataclass(frozen=True, slots=True, kw_only=True)
class FabricPage:
    """A fabric with all that is cut from it. `cuts` keep their place in the plan's cut list, from 1."""

    fabric: FabricPlan
    length: Size | None
    cuts: tuple[tuple[int, CutPlan], ...]
    strips: tuple[StripPlan, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Stage:
    """A step, or the steps of a repeat under the sentence that says how often."""

    repeat: str
    steps: tuple[StepPlan, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class UnitPage:
    """What is made at one go: a unit, or the unlike parts of one cut. `units[0]` has the steps."""

    heading: str
    units: tuple[UnitPlan, ...]
    stages: tuple[Stage, ...]

    @property
    def unit(self) -> UnitPlan:
        return self.units[0]


def html(plan: Plan) -> str:
    """The page: styles, figures and all in one file, nothing fetched, no script."""
    drawn = drawings(plan, prefix="fig-")
    order = {fabric.name: number for number, fabric in enumerate(plan.fabrics, 1)}

    def figure(shown: Figure) -> Markup:
        text = drawn[shown.id]
        width = _WIDTH.search(text)
        style = f' style="--w:{width[1]}pt"' if width else ""
        return Markup(f'<div class="figure"{style}>{text.strip()}</div>')

    def swatch(fabric: FabricPlan, where: str) -> Markup:
        return Markup(swatch_svg(fabric, f"swatch-{where}-{order[fabric.name]}"))

    environment = _environment(autoescape=True)
    environment.filters["kept"] = kept
    environment.globals.update(figure=figure, swatch=swatch, css=Markup(_read("pattern.css")))
    return environment.get_template("pattern.html.j2").render(_context(plan))


def markdown(plan: Plan) -> str:
    """The same as Markdown (CommonMark with tables), figures as files beside it."""
    environment = _environment(autoescape=False)
    environment.filters["md"] = markdown_text
    environment.globals.update(path=figure_path)
    text = environment.get_template("pattern.md.j2").render(_context(plan))
    return re.sub(r"\n{3,}", "\n\n", text).strip() + "\n"


def markdown_text(text: str) -> str:
    """Text by a person so that Markdown shows it as it is: no emphasis, link, table, heading or HTML of it."""
    escaped = _MARKS.sub(r"\\\1", " ".join(text.split()))
    return _LINE_START.sub(r"\1\\\2", escaped) if not escaped[:1].isdigit() else _numbered(escaped)


def _numbered(text: str) -> str:
    """A text that begins like the item of a numbered list, so that it is none: the mark is escaped, not the digit."""
    return re.sub(r"^(\d+)([.)])", r"\1\\\2", text)


def _context(plan: Plan) -> dict[str, object]:
    pages = unit_pages(plan)
    return {
        "plan": plan,
        "fabrics": fabric_pages(plan),
        "pages": pages,
        "asked": [unit for unit in plan.units if unit.coloured is not None and unit.asked],
        "outlined": [unit for unit in plan.units if unit.uncoloured is not None],
        "unit_name": UNIT_NAMES[plan.units_of_length],
        "unit_mark": UNIT_MARKS[plan.units_of_length],
        "capital": capital,
        "extent": extent_text,
        "cut_size": cut_text,
    }


def fabric_pages(plan: Plan) -> tuple[FabricPage, ...]:
    """The fabrics in the order of the plan, with their share of the cut list."""
    lengths = dict(plan.cloth)
    return tuple(
        FabricPage(
            fabric=fabric,
            length=lengths.get(fabric.name),
            cuts=tuple((n, cut) for n, cut in enumerate(plan.cuts, 1) if cut.fabric == fabric.name),
            strips=tuple(strip for strip in plan.strips if strip.fabric == fabric.name),
        )
        for fabric in plan.fabrics
    )


def unit_pages(plan: Plan) -> tuple[UnitPage, ...]:
    """The units in the order of work, the parts of one cut together."""
    by_id = {unit.id: unit for unit in plan.units}
    pages = []
    for unit in plan.units:
        if unit.parts and unit.id != unit.parts[0]:
            continue
        units = tuple(by_id[part] for part in unit.parts) or (unit,)
        pages.append(UnitPage(heading=capital(unit.whole or unit.title), units=units, stages=stages(unit.steps)))
    return tuple(pages)


def stages(steps: Sequence[StepPlan]) -> tuple[Stage, ...]:
    """Steps one by one, those of a repeat together."""
    found: list[Stage] = []
    for step in steps:
        if found and step.round is not None and found[-1].steps[0].round == step.round:
            found[-1] = Stage(repeat=found[-1].repeat, steps=(*found[-1].steps, step))
        else:
            found.append(Stage(repeat=step.repeat, steps=(step,)))
    return tuple(found)


def cut_text(cut: CutPlan) -> str:
    """`2½` of a square, `2½ × 4½` of others."""
    return cut.width.shown if cut.shape == "square" else f"{cut.width.shown} × {cut.height.shown}"


def kept(text: str) -> str:
    """Text in which the two sides of a size do not part at a line's end."""
    return text.replace(" × ", "\u00a0×\u00a0")


def capital(text: str) -> str:
    return text[:1].upper() + text[1:]


def _environment(*, autoescape: bool) -> Environment:
    return Environment(
        loader=FunctionLoader(_read),
        autoescape=autoescape,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
    )


def _read(name: str) -> str:
    return resources.files("piecewright.emit.templates").joinpath(name).read_text(encoding="utf-8")
