"""Figures as SVG: the one module that writes it.

Every number is printed with at most two decimals and every id is made from the figure's own, so that the
same figure always gives the same bytes and many figures can stand in one page.
"""

from __future__ import annotations

from typing import Any
from xml.etree import ElementTree

from svgwrite.base import Desc, Title
from svgwrite.container import Group
from svgwrite.masking import ClipPath
from svgwrite.path import Path
from svgwrite.pattern import Pattern
from svgwrite.shapes import Rect
from svgwrite.text import Text

from piecewright.emit import paths
from piecewright.emit.elements import Patch, Root, Use
from piecewright.emit.layout import (
    BADGE,
    DOT,
    LABEL,
    MARK,
    SIGN,
    SWATCH,
    Line,
    PlacedPanel,
    PlacedSign,
    Sheet,
    cut_ends,
    lay_out,
    seen_fabrics,
)
from piecewright.emit.lettering import DROP, FAMILY, SIZE
from piecewright.emit.scale import group_scales
from piecewright.emit.textures import TEXTURES, hexed, ink, print_look, rgb, wrong_side
from piecewright.plan.model import Cloth, FabricPlan, Figure, Panel, Placed, Point, Shape, Stroke

__all__ = ["figure_svg", "group_scales"]

DARK = "#1c1c1c"
QUIET = "#4a4a4a"
TOOL = "#0b5566"
GLASS = "#dff1f5"
HEAVY, MEDIUM, FINE = 1.35, 0.9, 0.55  # the three weights
HALO = 0.75  # how firm the light edging of lines over cloth is
TEXTURED = 2000  # pieces of cloth in one panel; of more each is smaller than a tile of texture
THIN = 0.12  # inches of cloth that a seam may hide, since small patches of a large quilt would be all lines
SMALL = 7.0  # points to the inch: below it allowances would be mud


def figure_svg(
    figure: Figure,
    fabrics: tuple[FabricPlan, ...],
    *,
    scale: float | None = None,
    prefix: str = "",
    strict: bool = False,
) -> str:
    """The figure as SVG text: with an XML declaration, to stand alone, unless a `prefix` for its ids asks
    for one to be set into a page. `scale` is in points to the inch, None for the largest that fits.

    `strict` checks every element and attribute against SVG 1.1 (slow): ValueError or TypeError if one does
    not belong. KeyError for a fabric that is not among `fabrics`.
    """
    if scale is None:
        scale = group_scales((figure,))[figure.scale_group]
    sheet = lay_out(figure, scale)
    drawing = _Writer(figure, fabrics, prefix, strict).drawing(sheet)
    tree = drawing.get_xml()
    ElementTree.indent(tree, space="")
    text: str = ElementTree.tostring(tree, encoding="unicode")
    return text + "\n" if prefix else f'<?xml version="1.0" encoding="UTF-8"?>\n{text}\n'


class _Writer:
    """Writes one figure. Keeps nothing but what the parts of one drawing share."""

    def __init__(self, figure: Figure, fabrics: tuple[FabricPlan, ...], prefix: str, strict: bool) -> None:
        self.figure = figure
        self.prefix = f"{prefix}{figure.id}"
        # the factory of all other elements, which share its checking
        self.root = Root(debug=strict)
        self.coloured = figure.kind != "outline"
        seen = seen_fabrics(figure)
        by_name = {f.name: f for f in fabrics}
        for name, fabric, number in figure.looks:
            by_name[name] = print_look(by_name[fabric], number, fabrics)
        self.colour = {name: rgb(by_name[name].colour) for name in seen}
        self.texture = {name: TEXTURES[by_name[name].texture] for name in seen}
        self.order = {name: i + 1 for i, name in enumerate(seen)}
        self.clips: list[Any] = []
        self.shapes: dict[Shape, tuple[str, bool]] = {}
        self.named: dict[int, tuple[str, bool]] = {}
        self.hatched = any(c.fallen for panel in figure.panels for c in panel.cloth)

    def drawing(self, sheet: Sheet) -> Any:
        width, height = paths.number(sheet.width), paths.number(sheet.height)
        root = self.root
        root.update({"width": f"{width}pt", "height": f"{height}pt", "viewBox": f"0 0 {width} {height}"})
        root["id"] = self.prefix
        title, desc = f"{self.prefix}-title", f"{self.prefix}-desc"
        root.opened = {"role": "img", "aria-labelledby": title, "aria-describedby": desc}
        # the fresh drawing holds only its empty list of definitions
        definitions = root.defs
        told = _named(Title(self.figure.title), title), _named(Desc(self.figure.description), desc)
        root.elements = [*told, definitions]
        self._define(definitions)
        for placed in sheet.panels:
            root.add(self._panel(placed, sheet.scale))
        for clip in self.clips:
            definitions.add(clip)
        notes = self._group(fill=QUIET, stroke=QUIET, stroke_width=paths.number(MEDIUM), stroke_linecap="round")
        for sign in sheet.signs:
            self._sign(notes, sign)
        if sheet.signs:
            root.add(notes)
        if sheet.swatches:
            legend = self._group(stroke=DARK, stroke_width=paths.number(FINE))
            for swatch in sheet.swatches:
                self._swatch(legend, swatch.fabric, swatch.x, swatch.y)
            root.add(legend)
        lines = [line for p in sheet.panels for line in (*p.badges, *p.words)]
        lines += [line for p in sheet.panels for line in p.labels]
        lines += [Line(x=d.middle[0], y=d.middle[1], text=d.text) for p in sheet.panels for d in p.dimensions]
        lines += [line for sign in sheet.signs for line in sign.words]
        lines += [swatch.name for swatch in sheet.swatches]
        if lines:
            root.add(self._texts([(line.x, line) for line in lines]))
        if sheet.key:
            root.add(self._texts([(line.box[0], line) for line in sheet.key], anchor="start"))
        return root

    # ── definitions ──────────────────────────────────────────────────────────────────────────────

    def _define(self, definitions: Any) -> None:
        for name, texture in self.texture.items():
            if texture is None or not self.coloured:
                continue
            tile = self._pattern(f"{self.prefix}-cloth{self.order[name]}", texture.width, texture.height)
            tone = hexed(ink(self.colour[name]))
            if texture.fill:
                tile.add(self._path(texture.fill, fill=tone))
            if texture.stroke:
                weight = paths.number(texture.weight)
                tile.add(self._path(texture.stroke, fill="none", stroke=tone, stroke_width=weight))
            definitions.add(tile)
        if self.hatched:
            tile = self._pattern(f"{self.prefix}-off", 3.5, 3.5)
            hatch = "M-1 -1L4.5 4.5M2.5 -1L4.5 1M-1 2.5L1 4.5"
            tile.add(self._path(hatch, stroke=QUIET, stroke_width=paths.number(FINE)))
            definitions.add(tile)

    def _pattern(self, name: str, width: float, height: float) -> Any:
        size = (paths.number(width), paths.number(height))
        return Pattern(insert=("0", "0"), size=size, id=name, patternUnits="userSpaceOnUse", factory=self.root)

    # ── a panel ──────────────────────────────────────────────────────────────────────────────────

    def _panel(self, placed: PlacedPanel, scale: float) -> Any:
        panel = placed.panel
        group = self._group(stroke_linejoin="round", fill="none", fill_rule="evenodd")

        def paper(p: Point) -> Point:
            return placed.x + p[0] * scale, placed.y - p[1] * scale

        inner = group
        if panel.clip:
            name = f"{self.prefix}-clip{len(self.clips) + 1}"
            clip = ClipPath(id=name, factory=self.root)
            clip.add(self._path(paths.ring(paper(p) for p in panel.clip)))
            self.clips.append(clip)
            inner = self._group(clip_path=f"url(#{name})")
            group.add(inner)
        self._placed(inner, panel.placed, paper, scale)
        shown = [c for c in panel.cloth if not (c.tint and scale < SMALL)]
        self._cloth(inner, [c for c in shown if not c.fallen], paper)
        self._strokes(inner, group, panel, paper, scale)
        self._over(group, panel, placed, paper, scale)
        measures = "".join(paths.line([s[:2], s[2:]]) for d in placed.dimensions for s in d.lines)
        if measures:
            group.add(self._path(measures, stroke=QUIET, stroke_width=paths.number(FINE)))
            ends = "".join(paths.line([s[:2], s[2:]]) for d in placed.dimensions for s in d.ticks)
            group.add(self._path(ends, stroke=DARK, stroke_width=paths.number(MEDIUM)))
        if placed.labels:
            spots = "".join(paths.circle((label.x, label.y), LABEL) for label in placed.labels)
            group.add(self._path(spots, fill="#ffffff", fill_opacity=HALO))
        if placed.badges:
            rings = "".join(paths.circle((b.x, b.y), BADGE) for b in placed.badges)
            group.add(self._path(rings, stroke=QUIET, stroke_width=paths.number(MEDIUM)))
        return group

    def _placed(self, group: Any, placed: tuple[Placed, ...], paper: Any, scale: float) -> None:
        """The cloth of all shapes; their textures over it, unless that is more than a picture of this size can show;
        then what lies over the cloth of each."""
        spots = [(self._shape(one.shape, scale), one.turn, paper(one.at)) for one in placed]
        group.elements += [Use(f"{name}-cloth", turn, at) for (name, _), turn, at in spots]
        if self.coloured and sum(len(one.shape.cloth) for one in placed if not one.shape.under) <= TEXTURED:
            found: dict[str, list[str]] = {}
            for one in placed:
                for c in () if one.shape.under else one.shape.cloth:
                    if not c.tint and self.texture[c.fabric] is not None:
                        rings = (paths.ring([paper(one.point(p)) for p in ring]) for ring in (c.outline, *c.holes))
                        found.setdefault(c.fabric, []).append("".join(rings))
            for name, outlines in found.items():
                group.add(self._path("".join(outlines), fill=f"url(#{self.prefix}-cloth{self.order[name]})"))
        group.elements += [Use(f"{name}-lines", turn, at) for (name, lines), turn, at in spots if lines]

    def _shape(self, shape: Shape, scale: float) -> tuple[str, bool]:
        """The name of a shape, which is defined the first time it is asked for, and whether there is anything over its
        cloth. A cloth of flat colours, since a printer's driver makes a picture of every shape that a pattern fills."""
        found = self.named.get(id(shape)) or self.shapes.get(shape)
        if found is None:
            name = f"{self.prefix}-shape{len(self.shapes) + 1}"
            cloth, lines = self._group(id=f"{name}-cloth"), self._group(id=f"{name}-lines")
            tints = tuple(c for c in shape.cloth if c.tint and scale >= SMALL)

            def paper(p: Point) -> Point:
                return p[0] * scale, -p[1] * scale

            self._cloth(cloth, [c for c in shape.cloth if not c.tint], paper, plain=True)
            self._cloth(lines, list(tints), paper)
            self._strokes(
                lines, lines, Panel(cloth=(), strokes=shape.strokes, arrows=(), dimensions=()), paper, scale
            )
            found = name, bool(tints or shape.strokes)
            for group in (cloth, lines)[: 1 + found[1]]:
                self.root.defs.add(group)
            self.shapes[shape] = found
        self.named[id(shape)] = found
        return found

    def _cloth(self, group: Any, cloth: list[Cloth], paper: Any, *, plain: bool = False) -> None:
        """Flat colours with their textures over them, unless `plain`; allowances, then a wrong side, hide what is
        under."""
        pending: dict[str, list[Patch]] = {}
        for c in cloth:
            d = "".join([paths.ring([paper(p) for p in outline]) for outline in (c.outline, *c.holes)])
            if c.tint:
                self._flush(group, pending)
                group.add(self._path(d, fill="#ffffff", fill_opacity="0.55"))
                continue
            patch = Patch(d, c.fabric, c.line)
            if c.wrong:
                self._flush(group, pending)
                side = self._group(fill=hexed(wrong_side(self.colour[c.fabric])) if self.coloured else "#ffffff")
                side.elements.append(patch)
                group.add(side)
            else:
                pending.setdefault(c.fabric, []).append(patch)
        self._flush(group, pending, plain)

    def _flush(self, group: Any, pending: dict[str, list[Patch]], plain: bool = False) -> None:
        """The patches so far, a fabric at a time. The texture goes over them in one path: a printer's driver
        makes a picture of every shape that a pattern fills, and hundreds of them take minutes to print."""
        for name, patches in pending.items():
            flat = self._group(fill=hexed(self.colour[name]) if self.coloured else "#ffffff")
            flat.elements += patches
            group.add(flat)
            if self.coloured and not plain and self.texture[name] is not None:
                paint = f"url(#{self.prefix}-cloth{self.order[name]})"
                group.add(self._path("".join([patch.d for patch in patches]), fill=paint))
        pending.clear()

    def _strokes(self, inner: Any, group: Any, panel: Panel, paper: Any, scale: float) -> None:
        def every(*roles: str) -> str:
            return "".join(self._stroke(s, paper, scale) for s in panel.strokes if s.role in roles)

        edging = min(1.7, scale * 0.12)
        if seams := every("seam"):
            if self.coloured:
                inner.add(self._path(seams, stroke="#ffffff", stroke_width=paths.number(edging), stroke_opacity=HALO))
            inner.add(self._path(seams, stroke=DARK, stroke_width=paths.number(min(FINE, scale * THIN))))
        if edges := every("edge"):
            self._edged(inner, edges, FINE, DARK)
        dashed = every("stitch", "fold") + (every("allowance") if scale >= SMALL else "")
        if dashed:
            group.add(self._path(dashed, stroke="#ffffff", stroke_width=paths.number(edging), stroke_opacity=HALO))
            group.add(self._path(dashed, stroke=DARK, stroke_width=paths.number(FINE), stroke_dasharray="2.6 1.8"))
        if drawn := every("drawn"):
            group.add(self._path(drawn, stroke="#ffffff", stroke_width=paths.number(edging), stroke_opacity=HALO))
            group.add(self._path(drawn, stroke=DARK, stroke_width=paths.number(FINE), stroke_dasharray="6 1.6 .9 1.6"))
        for c in panel.cloth:
            if c.fallen:
                d = "".join(paths.ring(paper(p) for p in outline) for outline in (c.outline, *c.holes))
                group.add(self._path(d, fill="#ffffff", fill_opacity="0.66"))
                group.add(self._path(d, fill=f"url(#{self.prefix}-off)"))
        if raw := every("raw"):
            weight = HEAVY if scale >= SMALL else min(FINE + (HEAVY - FINE) * scale / SMALL, scale * 3 * THIN)
            group.add(self._path(raw, stroke=DARK, stroke_width=paths.number(weight)))
        if guide := every("guide"):
            group.add(self._path(guide, stroke=QUIET, stroke_width=paths.number(FINE)))

    def _over(self, group: Any, panel: Panel, placed: PlacedPanel, paper: Any, scale: float) -> None:
        """What lies over the cloth: what falls off, the ruler, cuts, matching marks, arrows."""

        def every(role: str, closed: bool | None = None) -> str:
            chosen = [s for s in panel.strokes if s.role == role and closed in (None, s.closed)]
            return "".join(self._stroke(s, paper, scale, placed) for s in chosen)

        if ruler := every("ruler", True):
            group.add(self._path(ruler, fill=GLASS, fill_opacity="0.42"))
            self._edged(group, ruler, MEDIUM, TOOL)
        if mesh := every("ruler", False):
            self._edged(group, mesh, FINE, TOOL)
        if laid := every("ruler-seam"):
            self._edged(group, laid, MEDIUM, TOOL, dashes="7 2 1.4 2")
        if cuts := every("cut"):
            self._edged(group, cuts, HEAVY, DARK, dashes="8 3.4")
        ticks = [m for m in panel.marks if m.count]
        marks = "".join(paths.ticks(paper(m.at), (m.along[0], -m.along[1]), m.count, MARK) for m in ticks)
        if marks:
            self._edged(group, marks, MEDIUM, DARK)
        dots = "".join(paths.circle(paper(m.at), DOT) for m in panel.marks if not m.count)
        if dots:
            group.add(self._path(dots, fill=DARK, stroke="#ffffff", stroke_width="1", stroke_opacity=HALO))
        arrows = [self._arrow_data(a.start, a.end, a.role, paper, scale) for a in panel.arrows]
        if arrows:
            shafts, heads = "".join(a[0] for a in arrows), "".join(a[1] for a in arrows)
            group.add(self._path(heads, fill="#ffffff", stroke="#ffffff", stroke_width="1.6", stroke_opacity=HALO))
            self._edged(group, shafts, MEDIUM, DARK)
            group.add(self._path(heads, fill=DARK))

    def _arrow_data(self, start: Point, end: Point, role: str, paper: Any, scale: float) -> tuple[str, str]:
        if role == "grain":
            return paths.arrow(paper(start), paper(end), both=True)
        length = paths.press_length(scale)
        return paths.arrow(paper(start), paper(end), length=length, both=role == "press-open")

    def _stroke(self, stroke: Stroke, paper: Any, scale: float, placed: PlacedPanel | None = None) -> str:
        if stroke.role == "cut" and placed is not None:
            return paths.line((placed.x + x, placed.y + y) for x, y in cut_ends(stroke, scale))
        points = [paper(p) for p in stroke.points]
        return paths.ring(points) if stroke.closed else paths.line(points)

    # ── small things ─────────────────────────────────────────────────────────────────────────────

    def _sign(self, group: Any, sign: PlacedSign) -> None:
        middle = (sign.x, sign.y)
        if sign.lead == "and":
            return
        if sign.lead == "rounds":
            group.add(self._path(paths.dots(middle), stroke="none"))
            return
        if sign.lead in ("then", "below"):
            ends = (sign.x - SIGN / 2, sign.y), (sign.x + SIGN / 2, sign.y)
            shaft, head = paths.arrow(*ends)
        else:
            shaft, head = paths.turn(middle, left=sign.lead == "turn-left")
        group.add(self._path(shaft, fill="none"))
        group.add(self._path(head, stroke="none"))

    def _swatch(self, group: Any, fabric: str, x: float, y: float) -> None:
        size = (paths.number(SWATCH[0]), paths.number(SWATCH[1]))
        at = (paths.number(x), paths.number(y))
        group.add(Rect(insert=at, size=size, fill=hexed(self.colour[fabric]), factory=self.root))
        if self.texture[fabric] is not None:
            paint = f"url(#{self.prefix}-cloth{self.order[fabric]})"
            group.add(Rect(insert=at, size=size, fill=paint, factory=self.root))

    def _texts(self, lines: list[tuple[float, Line]], anchor: str = "middle") -> Any:
        group = self._group(font_family=FAMILY, font_size=paths.number(SIZE), text_anchor=anchor, fill=DARK)
        for x, line in lines:
            at = (paths.number(x), paths.number(line.y + DROP))
            group.add(Text(line.text, insert=at, factory=self.root))
        return group

    def _edged(self, group: Any, d: str, weight: float, colour: str, dashes: str = "") -> None:
        """A line over cloth, with a light edging so that it is seen on dark cloth too."""
        group.add(self._path(d, stroke="#ffffff", stroke_width=paths.number(weight + 1.6), stroke_opacity=HALO))
        extra = {"stroke_dasharray": dashes} if dashes else {}
        group.add(self._path(d, stroke=colour, stroke_width=paths.number(weight), **extra))

    def _path(self, d: str, **attributes: Any) -> Any:
        return Path(d=(d,), factory=self.root, **attributes)

    def _group(self, **attributes: Any) -> Any:
        return Group(factory=self.root, **attributes)


def _named(element: Any, name: str) -> Any:
    element.xml.set("id", name)
    return element
