"""The written pattern: one self-contained HTML page, and Markdown."""

from __future__ import annotations

import re
from collections.abc import Mapping
from importlib import resources

from jinja2 import Environment, FunctionLoader, StrictUndefined  # slow to start; imported only when files are written
from markupsafe import Markup

from piecewright.emit.data import figure_path, foundation_path
from piecewright.emit.drawings import drawings
from piecewright.emit.foundation import foundation_svg, foundations, larger_than_page
from piecewright.emit.pages import cut_text, page
from piecewright.emit.swatch import swatch_svg
from piecewright.emit.template_sheets import template_path, template_sheet
from piecewright.plan.model import FabricPlan, Figure, Plan

_WIDTH = re.compile(r'<svg[^>]*? width="([\d.]+)pt"')
_MARKS = re.compile(r"([\\`*_{}\[\]<>|~&#$])")
_LIST_MARK = re.compile(r"^(\d*)([-+=:.)])")  # at the start of a line


def html(plan: Plan, drawn: Mapping[str, str] | None = None) -> str:
    """The page: styles, figures and all in one file, nothing fetched, no script. `drawn` are the plan's
    drawings, where they have been made already."""
    drawn = drawings(plan) if drawn is None else drawn
    order = {fabric.name: number for number, fabric in enumerate(plan.fabrics, 1)}

    def figure(shown: Figure) -> Markup:
        text = drawn[shown.id]
        width = _WIDTH.search(text)
        style = f' style="--w:{width[1]}pt"' if width else ""
        return Markup(f'<div class="figure"{style}>{text.strip()}</div>')

    def swatch(fabric: FabricPlan, where: str) -> Markup:
        return Markup(swatch_svg(fabric, f"swatch-{where}-{order[fabric.name]}"))

    there = environment(autoescape=True)
    there.filters["kept"] = kept
    there.filters["template"] = lambda template: Markup(template_sheet(template, plan.units_of_length).strip())
    there.filters["true_size"] = lambda sheet: Markup(foundation_svg(sheet, plan.units_of_length).strip())
    there.globals.update(figure=figure, swatch=swatch, css=Markup(read("pattern.css")))
    return there.get_template("pattern.html.j2").render(_context(plan))


def markdown(plan: Plan) -> str:
    """The same as Markdown (CommonMark with tables), figures as files beside it."""
    there = environment(autoescape=False)
    there.filters["md"] = markdown_text
    there.filters["image"] = _image
    text = there.get_template("pattern.md.j2").render(_context(plan))
    return re.sub(r"\n{3,}", "\n\n", text).strip() + "\n"


def markdown_text(text: str) -> str:
    """Text by a person so that Markdown shows it as it is: no emphasis, link, table, heading, list or HTML of it."""
    return _LIST_MARK.sub(r"\1\\\2", _MARKS.sub(r"\\\1", " ".join(text.split())))


def _image(figure: Figure) -> str:
    """The figure's file, with its title and description as the words in its place."""
    return f"![{markdown_text(f'{figure.title} {figure.description}')}]({figure_path(figure.id)})"


def _context(plan: Plan) -> dict[str, object]:
    large = {sheet.id for sheet in foundations(plan) if larger_than_page(sheet, plan.units_of_length)}
    return {
        "page": page(plan),
        "plan": plan,
        "large": large,
        "sheet_file": foundation_path,
        "template_file": template_path,
    }


def kept(text: str) -> str:
    """Text in which the two sides of a size do not part at a line's end."""
    return text.replace(" × ", "\u00a0×\u00a0")


def environment(*, autoescape: bool) -> Environment:
    """Where templates are found, with what every page needs."""
    there = Environment(
        loader=FunctionLoader(read),
        autoescape=autoescape,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
    )
    there.filters["size"] = cut_text
    return there


def read(name: str) -> str:
    """The text of a template or style sheet."""
    return resources.files("piecewright.emit.templates").joinpath(name).read_text(encoding="utf-8")
