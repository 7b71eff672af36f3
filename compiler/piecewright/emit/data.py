"""The plan as JSON, for other programs. `plan-format.md` beside this file says what each key means."""

from __future__ import annotations

import json as notation  # this module is imported only when files are written
from typing import Any

from piecewright.emit.template_sheets import template_path
from piecewright.plan.model import (
    ClothPlan,
    CutPlan,
    Extent,
    FabricPlan,
    FoundationPlan,
    KitsPlan,
    PassPlan,
    Plan,
    SheetPlan,
    Size,
    StepPlan,
    StripPlan,
    TemplatePlan,
    UnitPlan,
)

SCHEMA = "piecewright-plan/1"


def json(plan: Plan) -> str:
    """The plan as text, keys in a fixed order, letters as they are."""
    cloth = {one.fabric: one for one in plan.fabric_cloth}
    document = {
        "schema": SCHEMA,
        "title": plan.title,
        "edition": plan.edition,
        "units_of_length": plan.units_of_length,
        "seam": _size(plan.seam),
        "usable": _size(plan.usable),
        "ruler_mark": _size(plan.ruler),
        "fabrics": [_fabric(fabric, cloth.get(fabric.name)) for fabric in plan.fabrics],
        "units": [_unit(unit) for unit in plan.units],
        "cuts": [_cut(cut) for cut in plan.cuts],
        "strips": [_strip(strip) for strip in plan.strips],
        "steps": [_step(unit, step) for unit in plan.units for step in unit.steps],
        "abbreviations": [{"short": short, "meaning": meaning} for short, meaning in plan.abbreviations],
        "cautions": list(plan.cautions),
        "warnings": list(plan.warnings),
        "templates": [_template(template) for template in plan.templates],
        "kits": None if plan.kits is None else _kits(plan.kits),
    }
    return notation.dumps(document, ensure_ascii=False, indent=2) + "\n"


def _size(size: Size) -> dict[str, str]:
    return {"exact": size.exact, "ruler": size.ruler}


def _extent(extent: Extent) -> dict[str, Any]:
    return {"width": _size(extent.width), "height": _size(extent.height)}


def _fabric(fabric: FabricPlan, cloth: ClothPlan | None) -> dict[str, Any]:
    length = None if cloth is None else cloth.length
    return {
        "name": fabric.name,
        "text": fabric.text,
        "colour": fabric.colour,
        "texture": fabric.texture,
        "value": fabric.value,
        "assorted": fabric.assorted,
        "directional": fabric.directional,
        "stand_in": fabric.stand_in,
        "prints": list(fabric.prints),
        "usable": None if fabric.usable is None else _size(fabric.usable),
        "length": None if length is None else _size(length),
        "cutting": None if cloth is None else _cloth(cloth),
    }


def _cloth(cloth: ClothPlan) -> dict[str, Any]:
    def size(one: Size | None) -> dict[str, str] | None:
        return None if one is None else _size(one)

    return {
        "bought": size(cloth.bought),
        "bought_text": cloth.bought_text,
        "bound": size(cloth.bound),
        "any_bound": size(cloth.any_bound),
        "sheets": [_sheet(sheet) for sheet in cloth.sheets],
        "scraps": [_sheet(sheet) for sheet in cloth.scraps],
        "least": cloth.least,
        "any_least": cloth.any_least,
        "proved": cloth.proved,
        "waste": cloth.waste,
        "remnant": None if cloth.remnant is None else _extent(cloth.remnant),
        "strips": cloth.strips,
        "settings": cloth.settings,
        "ways": cloth.ways,
        "text": list(cloth.text),
        "how": list(cloth.how),
        "pictures": [figure_path(figure.id) for figure in cloth.figures],
        "missing": [{"cut": index, "count": count} for index, count in cloth.missing],
        "passes": [_pass(one) for one in cloth.passes],
    }


def _pass(one: PassPlan) -> dict[str, Any]:
    return {
        "die": one.die,
        "pieces": [{"cut": index, "count": count} for index, count in one.pieces],
        "rough": [
            {"width": _size(part.width), "length": _size(part.length), "count": part.count} for part in one.rough
        ],
        "lay": one.lay,
        "layers": one.layers,
        "passes": one.passes,
    }


def _kits(kits: KitsPlan) -> dict[str, Any]:
    fabrics = [
        {
            "fabric": one.fabric,
            "apart_text": one.apart,
            "saves": one.saves,
            "alone": one.alone,
            "cutting": _cloth(one.cloth),
            "strips": [_strip(strip) for strip in one.strips],
        }
        for one in kits.fabrics
    ]
    return {"count": kits.count, "fabrics": fabrics}


def _sheet(sheet: SheetPlan) -> dict[str, Any]:
    return {"name": sheet.name, "width": _size(sheet.width), "height": _size(sheet.height), "count": sheet.count}


def _unit(unit: UnitPlan) -> dict[str, Any]:
    pictures = [picture for picture in (unit.coloured, unit.uncoloured) if picture is not None]
    return {
        "id": unit.id,
        "name": unit.name,
        "title": unit.title,
        "kind": unit.kind,
        "description": unit.description,
        "arguments": [{"name": name, "value": value} for name, value in unit.arguments],
        "colours": list(unit.fabrics),
        "makes": unit.makes,
        "spare": unit.spare,
        "runs": unit.runs,
        "copies": unit.copies,
        "reversed": unit.reversed,
        "unfinished": _extent(unit.unfinished),
        "finished": _extent(unit.finished),
        "bound": None if unit.bound is None else _extent(unit.bound),
        "whole": unit.whole,
        "parts": list(unit.parts),
        "work": unit.work,
        "pictures": [figure_path(picture.id) for picture in pictures],
        "foundation": None if unit.foundation is None else _foundation(unit.foundation),
        "file": unit.file,
        "line": unit.line,
    }


def _cut(cut: CutPlan) -> dict[str, Any]:
    return {
        "fabric": cut.fabric,
        "shape": cut.shape,
        "angle": cut.angle,
        "width": _size(cut.width),
        "height": _size(cut.height),
        "count": cut.count,
        "reversed": cut.reversed,
        "label": cut.label,
        "units": list(cut.units),
        "radius": None if cut.radius is None else _size(cut.radius),
        "template": cut.template,
        "letter": cut.letter,
        "each": cut.each,
        "batches": cut.batches,
        "prints": cut.prints,
    }


def _template(template: TemplatePlan) -> dict[str, Any]:
    return {
        "id": template.id,
        "letter": template.letter,
        "shape": template.shape,
        "title": template.title,
        "text": template.text,
        "radius": _size(template.radius),
        "raw_radius": _size(template.raw_radius),
        "file": template_path(template.id),
    }


def _strip(strip: StripPlan) -> dict[str, Any]:
    return {
        "fabric": strip.fabric,
        "height": _size(strip.height),
        "number": strip.number,
        "source": strip.source,
        "length": _size(strip.length),
        "count": strip.strips,
        "pieces": [{"cut": index, "count": count} for index, count in strip.pieces],
        "text": strip.text,
    }


def _step(unit: UnitPlan, step: StepPlan) -> dict[str, Any]:
    return {
        "unit": unit.id,
        "number": step.number,
        "text": step.text,
        "details": list(step.details),
        "measures": list(step.measures),
        "notes": list(step.notes),
        "times": step.times,
        "round": step.round,
        "repeat": step.repeat,
        "figure": figure_path(step.figure.id),
        "file": unit.file,
        "line": step.line,
    }


def _foundation(foundation: FoundationPlan) -> dict[str, Any]:
    return {
        "file": foundation_path(foundation.id),
        "count": foundation.count,
        "size": _extent(foundation.size),
        "areas": [{"number": area.number, "fabric": area.fabric} for area in foundation.areas],
    }


def foundation_path(foundation_id: str) -> str:
    """Where the sheet of a paper foundation stands, from the folder of the build."""
    return f"foundations/{foundation_id}.svg"


def figure_path(figure_id: str) -> str:
    """Where a figure's file stands, from the folder of the build."""
    return f"figures/{figure_id}.svg"
