"""The files of a build, made from a plan and nothing else."""

from __future__ import annotations

from piecewright.emit.cutlist import csv, cutting_csv
from piecewright.emit.data import foundation_path, json
from piecewright.emit.document import html, markdown
from piecewright.emit.drawings import alone, drawings
from piecewright.emit.foundation import foundation_svg, foundations
from piecewright.emit.template_sheets import template_path, template_sheets
from piecewright.plan.model import Plan

__all__ = ["csv", "emit", "html", "json", "markdown"]


def emit(plan: Plan, formats: tuple[str, ...]) -> tuple[tuple[str, str], ...]:
    """The files of the formats asked for (`html`, `md`, `svg`, `csv`, `json`), as relative path and text.

    Markdown shows the figures by their files, so it brings them with it.
    """
    files: list[tuple[str, str]] = []
    drawn = drawings(plan) if {"html", "svg", "md"} & set(formats) else {}
    if "html" in formats:
        files.append(("pattern.html", html(plan, drawn)))
    if "md" in formats:
        files.append(("pattern.md", markdown(plan)))
    if "csv" in formats:
        files.append(("cut-list.csv", csv(plan)))
        files.append(("cutting.csv", cutting_csv(plan, plan.strips)))
        if plan.kits is not None:
            strips = tuple(strip for kit in plan.kits.fabrics for strip in kit.strips)
            files.append(("kits.csv", cutting_csv(plan, strips)))
    if "json" in formats:
        files.append(("plan.json", json(plan)))
    if "svg" in formats or "md" in formats:
        files.extend((f"figures/{name}.svg", alone(text)) for name, text in drawn.items())
        files.extend(
            (foundation_path(one.id), alone(foundation_svg(one, plan.units_of_length))) for one in foundations(plan)
        )
        files.extend((template_path(name), alone(text)) for name, text in template_sheets(plan).items())
    return tuple(files)
