"""All figures of a plan, drawn: to stand alone as files, or to be set into a page."""

from __future__ import annotations

from piecewright.emit.svg import figure_svg, group_scales
from piecewright.plan.model import Figure, Plan


def figures(plan: Plan) -> tuple[Figure, ...]:
    """Every figure of the plan: what is made in the order of work, then how each fabric is cut."""
    found: list[Figure] = []
    for unit in plan.units:
        found.extend(picture for picture in (unit.coloured, unit.uncoloured) if picture is not None)
        found.extend(step.figure for step in unit.steps)
    found.extend(figure for cloth in plan.fabric_cloth for figure in cloth.figures)
    if plan.kits is not None:
        found.extend(figure for kit in plan.kits.fabrics for figure in kit.cloth.figures)
    return tuple(found)


def drawings(plan: Plan) -> dict[str, str]:
    """SVG text of every figure by its id, made to stand in one page: all ids begin with `fig-`."""
    shown = figures(plan)
    scales = group_scales(shown)
    return {
        figure.id: figure_svg(figure, plan.fabrics, scale=scales[figure.scale_group], prefix="fig-") for figure in shown
    }


def alone(text: str) -> str:
    """One of the drawings as a file of its own."""
    return f'<?xml version="1.0" encoding="UTF-8"?>\n{text}'
