"""What stands where on a sheet, for asking whether anything meets anything."""

from __future__ import annotations

from itertools import combinations

from piecewright.emit.layout import BADGE, LABEL, SIGN, SWATCH, Sheet, panel_ink, paper
from shapely import LineString, MultiLineString, Point, Polygon, box, union_all
from shapely.geometry.base import BaseGeometry

HAIR = 0.2  # points: what may be shared without being seen to


def meetings(sheet: Sheet) -> list[str]:
    """Every pair of things on the sheet that overlap and must not, in words; empty when all is clear."""
    texts = _texts(sheet)
    cloth = _cloth(sheet)
    solids = cloth + _signs(sheet) + _swatches(sheet)
    rows = [
        (f"{name} dimension {d.text}", MultiLineString([(s[:2], s[2:]) for s in d.lines if s[:2] != s[2:]]))
        for name, p in _named(sheet)
        for d in p.dimensions
    ]
    ticks = [
        (f"{name} ticks of {d.text}", MultiLineString([(s[:2], s[2:]) for s in d.ticks]))
        for name, p in _named(sheet)
        for d in p.dimensions
    ]
    badges = [(f"badge {b.text}", Point(b.x, b.y).buffer(BADGE)) for p in sheet.panels for b in p.badges]
    found: list[str] = []
    for (a, one), (b, other) in combinations(texts, 2):
        if one.buffer(-HAIR).intersects(other):
            found.append(f"{a} meets {b}")
    for a, one in texts:
        for b, other in solids + rows + ticks:
            if one.buffer(-HAIR).intersects(other):
                found.append(f"{a} meets {b}")
    for a, one in rows + ticks:
        for b, other in solids + badges:
            if one.intersects(other.buffer(-HAIR)):
                found.append(f"{a} meets {b}")
    for (a, one), (b, other) in combinations(rows, 2):
        if one.crosses(other) and _crossing(one, other):
            found.append(f"{a} crosses {b}")
    for (a, one), (b, other) in combinations(solids + badges, 2):
        if one.buffer(-HAIR).intersects(other.buffer(-HAIR)):
            found.append(f"{a} meets {b}")
    for p in sheet.panels:
        for one, other in combinations(p.labels, 2):
            if (one.x - other.x) ** 2 + (one.y - other.y) ** 2 < (2 * LABEL) ** 2:
                found.append(f"letter {one.text} meets letter {other.text}")
    whole = box(0, 0, sheet.width, sheet.height)
    found += [f"{a} leaves the sheet" for a, one in texts + solids + rows + ticks + badges if not whole.covers(one)]
    return found


def _crossing(one: BaseGeometry, other: BaseGeometry) -> bool:
    """Two lines of a chain share their extension lines; only a true crossing counts."""
    shared = one.intersection(other)
    ends = [Point(c) for lines in (one, other) for line in lines.geoms for c in line.coords]
    return not all(any(part.distance(end) < HAIR for end in ends) for part in getattr(shared, "geoms", [shared]))


def _named(sheet: Sheet) -> list[tuple[str, object]]:
    return [(f"panel {number}", p) for number, p in enumerate(sheet.panels, 1)]


def _texts(sheet: Sheet) -> list[tuple[str, BaseGeometry]]:
    found = []
    for name, p in _named(sheet):
        found += [(f"{name} size {d.text}", box(*d.box)) for d in p.dimensions]
        found += [(f"{name} words {line.text}", box(*line.box)) for line in (*p.words, *p.badges)]
    found += [(f"sign words {line.text}", box(*line.box)) for sign in sheet.signs for line in sign.words]
    found += [(f"name {s.fabric}", box(*s.name.box)) for s in sheet.swatches]
    found += [(f"key {line.text}", box(*line.box)) for line in sheet.key]
    return found


def _cloth(sheet: Sheet) -> list[tuple[str, BaseGeometry]]:
    """All cloth of a panel with the lines drawn over it, as one."""
    found = []
    for name, p in _named(sheet):
        shapes: list[BaseGeometry] = []
        rings = [p.panel.clip] if p.panel.clip else [c.outline for c in p.panel.cloth if not c.tint]
        for ring in rings:
            shapes.append(Polygon([_at(p, q, sheet.scale) for q in ring]).buffer(0))
        for x0, y0, x1, y1 in panel_ink(p.panel, sheet.scale):
            line = LineString([(p.x + x0, p.y + y0), (p.x + x1, p.y + y1)])
            shapes.append(line.buffer(0.3))
        found.append((f"{name} cloth", union_all(shapes)))
    return found


def _at(placed: object, point: tuple[float, float], scale: float) -> tuple[float, float]:
    x, y = paper(point, scale)
    return placed.x + x, placed.y + y


def _signs(sheet: Sheet) -> list[tuple[str, BaseGeometry]]:
    half = SIGN / 2
    signs = [s for s in sheet.signs if s.lead != "and"]
    return [(f"sign {s.lead}", box(s.x - half, s.y - half, s.x + half, s.y + half)) for s in signs]


def _swatches(sheet: Sheet) -> list[tuple[str, BaseGeometry]]:
    return [(f"swatch {s.fabric}", box(s.x, s.y, s.x + SWATCH[0], s.y + SWATCH[1])) for s in sheet.swatches]


