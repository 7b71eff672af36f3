"""Arrangements to choose from by looking: one sheet of pictures as SVG, and a page in which a block can be turned.

Each look of a block is drawn once and used in every cell that shows it.
"""

from __future__ import annotations

import json
from collections.abc import Sequence
from xml.sax.saxutils import escape, quoteattr

from markupsafe import Markup

from piecewright.emit.document import environment, read
from piecewright.emit.lettering import FAMILY, SIZE
from piecewright.emit.paths import line, number, ring
from piecewright.emit.swatch import swatch_svg, texture_svg
from piecewright.plan.arrange.sheet import ArrangementPlan, ArrangementSheet, LookPlan
from piecewright.plan.model import FabricPlan, Panel

PICTURE = 150.0  # points, the longer side of a picture
BRACKET = 5.0  # points: how far from the cloth the repeat is marked
GAP = 26.0
LEGEND = 26.0
ACROSS = 5  # pictures in a row of the sheet
REPEATS = 2  # so often the table is drawn each way
DARK, QUIET = "#1c1c1c", "#4a4a4a"


def sheet_svg(sheet: ArrangementSheet) -> str:
    """All pictures on one sheet, numbered, with the fabrics under them."""
    scale = _scale(sheet)
    width, height = _extent(sheet, scale)
    step_x, step_y = width + GAP, height + GAP + SIZE
    columns = max(1, min(ACROSS, len(sheet.shown)))
    rows = -(-len(sheet.shown) // columns)
    parts: list[str] = []
    for i, one in enumerate(sheet.shown):
        x, y = GAP + i % columns * step_x, GAP + i // columns * step_y
        parts.append(f'<g transform="translate({number(x)} {number(y)})">{_picture(sheet, one, scale)}')
        parts.append(f'<text x="{number(width / 2)}" y="{number(height + SIZE + 5)}">{one.number}</text></g>')
    names = [(fabric, 30 + SIZE * 0.56 * len(_name(fabric))) for fabric in sheet.fabrics]
    wide = GAP * 2 + columns * step_x - GAP
    x, y = GAP, GAP + rows * step_y
    for fabric, size in names:
        if x > GAP and x + size > wide - GAP:
            x, y = GAP, y + LEGEND
        place = f'<svg x="{number(x)}" y="{number(y)}" '
        swatch = swatch_svg(fabric, f"arrangement-swatch-{fabric.name}").replace("<svg ", place, 1)
        parts.append(swatch.replace('pt"', '"', 2))  # points are the unit of this drawing
        named = f'x="{number(x + 29)}" y="{number(y + 11)}" text-anchor="start"'
        parts.append(f"<text {named}>{escape(_name(fabric))}</text>")
        x += size + 12
    tall = y + LEGEND + GAP / 2
    title = escape(_title(sheet))
    head = (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{number(wide)}pt" height="{number(tall)}pt" '
        f'viewBox="0 0 {number(wide)} {number(tall)}" role="img" aria-labelledby="arrangements-title">'
    )
    body = "\n".join(parts)
    return (
        f'<?xml version="1.0" encoding="UTF-8"?>\n{head}\n<title id="arrangements-title">{title}</title>\n'
        f"{_definitions(sheet, scale)}\n"
        f'<g font-family={quoteattr(FAMILY)} font-size="{number(SIZE)}" text-anchor="middle" fill="{DARK}">\n'
        f"{body}\n</g>\n</svg>\n"
    )


def sheet_html(sheet: ArrangementSheet) -> str:
    """The page: each picture with the lines to paste, and a table whose blocks turn when they are clicked."""
    scale = _scale(sheet)
    width, height = _extent(sheet, scale)
    there = environment(autoescape=True)

    def picture(one: ArrangementPlan) -> Markup:
        start = number(-BRACKET - 2)
        box = f"{start} {start} {number(width + BRACKET + 3)} {number(height + BRACKET + 3)}"
        label = f"Arrangement {one.number}" + (f", {one.symmetry}" if one.symmetry else "")
        return Markup(f'<svg viewBox="{box}" role="img" aria-label="{label}">{_picture(sheet, one, scale)}</svg>')

    cell = sheet.width * scale, sheet.height * scale
    data = {
        "rows": sheet.rows,
        "columns": sheet.columns,
        "looks": [look.text for look in sheet.looks],
        "cell": [round(cell[0], 2), round(cell[1], 2)],
        "repeats": REPEATS * 2,
        "start": list(sheet.shown[0].rows if sheet.shown else ((0,) * sheet.columns,) * sheet.rows),
    }
    there.globals.update(
        picture=picture,
        swatch=lambda fabric: Markup(swatch_svg(fabric, f"arrangement-swatch-{fabric.name}")),
        definitions=Markup(f'<svg width="0" height="0" aria-hidden="true">{_definitions(sheet, scale)}</svg>'),
        css=Markup(read("pattern.css") + read("arrangements.css")),
        script=Markup(read("arrangements.js")),
        data=Markup(json.dumps(data, ensure_ascii=True).replace("<", "\\u003c")),
        headline=_title(sheet),
        counted=counted(sheet),
    )
    return there.get_template("arrangements.html.j2").render(sheet=sheet)


def counted(sheet: ArrangementSheet) -> str:
    """How many arrangements there are, and how many of them are as wanted and drawn."""
    number_of = f"{sheet.count:,}".replace(",", "\u202f")
    there = f"is {number_of} different arrangement" if sheet.count == 1 else f"are {number_of} different arrangements"
    blocks = zip(sheet.numbers, sheet.calls, strict=True)
    asked = [f"{number} of {call}" for number, call in blocks if number is not None]
    how = f"{'turned' if sheet.mirrors_apart else 'turned and mirrored'} ones counted once"
    if sheet.repeating:
        how += ", as are those that repeat to the same pattern"
    if sheet.mirrors_apart:
        how += ", but mirrored ones apart" if sheet.repeating else ", mirrored ones apart"
    text = f"There {there}{f' with {_listed(asked)}' if asked else ''}, {how}"
    shown = len(sheet.shown)
    if sheet.wanted:
        if sheet.kept is None:
            text += f"; too many to say how many are {sheet.wanted}"
        else:
            text += f"; {sheet.kept or 'none'} of them {'is' if sheet.kept < 2 else 'are'} {sheet.wanted}"
    if not shown and (sheet.kept is None or sheet.kept):
        return text + ". They are too many to draw: ask for a symmetry, for seams that meet, or for a smaller table."
    if sheet.kept is None:  # not all were looked through, so that others may be more symmetric
        return f"{text}. {shown} of them {'is' if shown == 1 else 'are'} drawn."
    if shown < sheet.kept:
        return f"{text}. The {shown} most symmetric are drawn."
    return text + "."


def _title(sheet: ArrangementSheet) -> str:
    blocks = [
        call if number is None else f"{number} of {call}"
        for number, call in zip(sheet.numbers, sheet.calls, strict=True)
    ]
    return f"{' and '.join(blocks)}, {sheet.columns} across and {sheet.rows} down"


def _listed(parts: Sequence[str]) -> str:
    return parts[0] if len(parts) == 1 else f"{', '.join(parts[:-1])} and {parts[-1]}"


def _name(fabric: FabricPlan) -> str:
    return fabric.text or fabric.name


def _scale(sheet: ArrangementSheet) -> float:
    return PICTURE / (REPEATS * max(sheet.columns * sheet.width, sheet.rows * sheet.height))


def _extent(sheet: ArrangementSheet, scale: float) -> tuple[float, float]:
    return sheet.columns * sheet.width * scale * REPEATS, sheet.rows * sheet.height * scale * REPEATS


def _picture(sheet: ArrangementSheet, one: ArrangementPlan, scale: float) -> str:
    """The table repeated, with brackets beside what is one repeat."""
    across, down = sheet.width * scale, sheet.height * scale
    uses: list[str] = []
    for row in range(sheet.rows * REPEATS):
        for column in range(sheet.columns * REPEATS):
            look = one.rows[row % sheet.rows][column % sheet.columns]
            uses.append(f'<use href="#look-{look}" x="{number(column * across)}" y="{number(row * down)}"/>')
    width, height = sheet.columns * across, sheet.rows * down
    edge = line([(0, -BRACKET), (width, -BRACKET)]) + line([(-BRACKET, 0), (-BRACKET, height)])
    ends = "".join(
        line(pair)
        for pair in (
            [(0.0, -BRACKET - 2), (0.0, -BRACKET + 2)],
            [(width, -BRACKET - 2), (width, -BRACKET + 2)],
            [(-BRACKET - 2, 0.0), (-BRACKET + 2, 0.0)],
            [(-BRACKET - 2, height), (-BRACKET + 2, height)],
        )
    )
    return "".join(uses) + f'<path d="{edge}{ends}" fill="none" stroke="{QUIET}" stroke-width="0.8"/>'


def _definitions(sheet: ArrangementSheet, scale: float) -> str:
    """The textures and each look of a cell, drawn from its upper left corner."""
    parts = ["<defs>"]
    order = {fabric.name: place for place, fabric in enumerate(sheet.fabrics, 1)}
    tiles = {one.name: texture_svg(one, f"look-cloth{order[one.name]}") for one in sheet.fabrics}
    parts += [tile for tile in tiles.values() if tile]
    textured = frozenset(name for name, tile in tiles.items() if tile)
    across, down = number(sheet.width * scale), number(sheet.height * scale)
    parts.append(f'<clipPath id="look-cell"><rect width="{across}" height="{down}"/></clipPath>')
    for place, look in enumerate(sheet.looks):
        parts.append(f'<g id="look-{place}"><g clip-path="url(#look-cell)" fill-rule="evenodd">')
        parts += _cloth(sheet, look, scale, order, textured)
        parts.append("</g></g>")
    parts.append("</defs>")
    return "".join(parts)


def _cloth(
    sheet: ArrangementSheet,
    look: LookPlan,
    scale: float,
    order: dict[str, int],
    textured: frozenset[str],
) -> list[str]:
    panel: Panel = look.picture
    top = sheet.height

    def paper(outline: Sequence[tuple[float, float]]) -> list[tuple[float, float]]:
        return [(x * scale, (top - y) * scale) for x, y in outline]

    shapes: dict[str, list[str]] = {}
    for cloth in panel.cloth:
        shapes.setdefault(cloth.fabric, []).extend(ring(paper(one)) for one in (cloth.outline, *cloth.holes))
    colours = {fabric.name: fabric.colour for fabric in sheet.fabrics}
    parts: list[str] = []
    for fabric, rings in shapes.items():
        d = "".join(rings)
        parts.append(f'<path d="{d}" fill="{colours[fabric]}"/>')
        if fabric in textured:
            parts.append(f'<path d="{d}" fill="url(#look-cloth{order[fabric]})"/>')
    seams = "".join(line(paper(stroke.points)) for stroke in panel.strokes if stroke.role == "seam")
    edge = f"M0 0H{number(sheet.width * scale)}V{number(sheet.height * scale)}H0Z"
    parts.append(f'<path d="{seams}{edge}" fill="none" stroke="{DARK}" stroke-width="0.35"/>')
    return parts
