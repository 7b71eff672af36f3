"""The templates of a plan as sheets to print and cut out."""

from __future__ import annotations

from piecewright.emit.true_size import true_size
from piecewright.plan.model import Plan, Point, TemplatePlan


def template_sheets(plan: Plan) -> dict[str, str]:
    """SVG text of each template by its id."""
    return {template.id: template_sheet(template, plan.units_of_length) for template in plan.templates}


def template_path(template_id: str) -> str:
    """Where a template's file stands, from the folder of the build."""
    return f"templates/{template_id}.svg"


def template_sheet(template: TemplatePlan, units: str) -> str:
    """`units`: the pattern's."""
    return true_size(
        template.panel,
        name=template.id,
        title=template.title,
        words=(template.text,),
        units=units,
        labels=((_inside(template), template.letter),),
    )


def _inside(template: TemplatePlan) -> Point:
    """Where the letter stands, clear of lines, grain and notches."""
    start, end = template.panel.arrows[0].start, template.panel.arrows[0].end
    if template.shape == "hollow":
        return (start[0] + end[0]) / 2, start[1] + 0.25
    return start[0], start[1] + 0.3
