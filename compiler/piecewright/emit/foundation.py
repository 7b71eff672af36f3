"""The sheet of a paper foundation, at true size: its SVG is given in inches or millimetres, and so printed.

Coordinates are points, 72 to the inch, y down. The plan's foundation is the mirror image of the unit already.
"""

from __future__ import annotations

from typing import Any
from xml.etree import ElementTree

import svgwrite  # heavy; this module is imported only when files are written
from svgwrite.base import Desc, Title
from svgwrite.container import Group
from svgwrite.path import Path
from svgwrite.text import Text

from piecewright.dataclass import dataclass
from piecewright.emit import paths, true_size
from piecewright.emit.lettering import FAMILY, SIZE, text_width
from piecewright.emit.true_size import INCH, MARGIN, MILLIMETRE, bar, real
from piecewright.plan.model import FoundationArea, FoundationPlan, Plan, Point

FOOT = 46.0  # points under the paper for the check marks
LEAST = 190.0  # points: the check marks and their words need this width
LARGEST, SMALLEST = 15.0, 5.0  # points, of the numbers in the areas
DARK = "#1c1c1c"


@dataclass(frozen=True, slots=True, kw_only=True)
class Size:
    """The whole sheet in points, and as it stands in the file."""

    across: float
    down: float
    width: str
    height: str


def sheet_size(foundation: FoundationPlan, units: str) -> Size:
    """`units`: the pattern's; sheets of patterns in centimetres are given in millimetres."""
    across = max(foundation.width * INCH, LEAST) + 2 * MARGIN
    down = foundation.height * INCH + 2 * MARGIN + FOOT
    return Size(across=across, down=down, width=real(across, units), height=real(down, units))


def larger_than_page(foundation: FoundationPlan, units: str) -> bool:
    """Whether the sheet does not fit on one page of paper, upright."""
    size = sheet_size(foundation, units)
    return true_size.larger_than_page(size.across, size.down)


def foundations(plan: Plan) -> tuple[FoundationPlan, ...]:
    """All foundations of a plan, in the order of work."""
    return tuple(unit.foundation for unit in plan.units if unit.foundation is not None)


def foundation_svg(foundation: FoundationPlan, units: str) -> str:
    """The sheet as SVG text without an XML declaration, to be set into a page or to stand as a file."""
    size = sheet_size(foundation, units)
    title = f"Foundation for {foundation.title}, to print at true size"
    told = f"The mirror image of the unit, {len(foundation.areas)} areas numbered in sewing order, with check marks."
    root = svgwrite.Drawing(debug=False)
    view = f"0 0 {paths.number(size.across)} {paths.number(size.down)}"
    root.update({"width": size.width, "height": size.height, "viewBox": view})
    name = f"fig-{foundation.id}-foundation"
    root["id"] = name
    root.elements = [_named(Title(title), f"{name}-title"), _named(Desc(told), f"{name}-desc")]
    group = Group(fill="none", stroke=DARK, stroke_linejoin="round", factory=root)

    def paper(p: Point) -> Point:
        return MARGIN + p[0] * INCH, MARGIN + (foundation.height - p[1]) * INCH

    group.add(_path(root, _box(foundation, 0.0, paper), stroke_width="0.75", stroke_dasharray="5 3"))
    group.add(_path(root, _box(foundation, foundation.allowance, paper), stroke_width="0.75"))
    lines = "".join(paths.line(paper(p) for p in line) for line in foundation.lines)
    if lines:
        group.add(_path(root, lines, stroke_width="1.1"))
    foot = MARGIN + foundation.height * INCH + 12.0
    group.add(_path(root, bar(MARGIN, foot + 6, INCH) + bar(MARGIN, foot + 24, 20 * MILLIMETRE), stroke_width="0.75"))
    root.add(group)
    words = Group(font_family=FAMILY, font_size=paths.number(SIZE), fill=DARK, factory=root)
    words.add(_text(root, "1 inch: measure before sewing", (MARGIN + INCH + 6, foot + 9.5)))
    words.add(_text(root, "2 cm", (MARGIN + 20 * MILLIMETRE + 6, foot + 27.5)))
    root.add(words)
    numbers = Group(font_family=FAMILY, text_anchor="middle", fill=DARK, factory=root)
    for area in foundation.areas:
        _number(root, numbers, area, paper)
    root.add(numbers)
    tree = root.get_xml()
    for key, value in (("role", "img"), ("aria-labelledby", f"{name}-title"), ("aria-describedby", f"{name}-desc")):
        tree.set(key, value)  # SVG 1.1, which svgwrite checks against, does not know them
    ElementTree.indent(tree, space="")
    return ElementTree.tostring(tree, encoding="unicode") + "\n"


def _number(root: Any, group: Any, area: FoundationArea, paper: Any) -> None:
    """The number, and under it the fabric where there is room for both."""
    x, y = paper(area.at)
    room = _room([paper(p) for p in area.outline], (x, y))
    text = str(area.number)
    size = max(SMALLEST, min(LARGEST, room * 1.1))
    both = size == LARGEST and text_width(area.fabric) <= 2 * (room - 4) and room > 2 * LARGEST
    up = 4.0 if both else 0.0
    group.add(_text(root, text, (x, y + size * 0.35 - up), size=size))
    if both:
        group.add(_text(root, area.fabric, (x, y + size * 0.35 + 8.0), size=SIZE))


def _room(outline: list[Point], at: Point) -> float:
    """How far a point within a convex outline is from its nearest side."""
    best = float("inf")
    for i, (x1, y1) in enumerate(outline):
        x0, y0 = outline[i - 1]
        length = ((x1 - x0) ** 2 + (y1 - y0) ** 2) ** 0.5
        if length:
            best = min(best, abs((x1 - x0) * (at[1] - y0) - (y1 - y0) * (at[0] - x0)) / length)
    return best


def _box(foundation: FoundationPlan, inside: float, paper: Any) -> str:
    w, h = foundation.width - inside, foundation.height - inside
    return paths.ring(paper(p) for p in ((inside, inside), (w, inside), (w, h), (inside, h)))


def _named(element: Any, name: str) -> Any:
    element.xml.set("id", name)
    return element


def _text(root: Any, text: str, at: Point, size: float | None = None) -> Any:
    extra = {} if size is None else {"font_size": paths.number(size)}
    return Text(text, insert=(paths.number(at[0]), paths.number(at[1])), factory=root, **extra)


def _path(root: Any, d: str, **attributes: Any) -> Any:
    return Path(d=(d,), factory=root, **attributes)
