"""Sentences for work in layers: pieces laid face down, stitched, cut apart and opened; and for stitch and flip."""

from __future__ import annotations

from collections.abc import Sequence

from piecewright.exact import Exact, Vector
from piecewright.kernel.action import AWAY_FROM_CORNER, TOWARD_CORNER, Flip, Line, Open, Place, Stitch, Subcut
from piecewright.kernel.alike import piece_shape
from piecewright.kernel.build import Piece, Settings, Step
from piecewright.kernel.measure import height, raw_outline, width
from piecewright.kernel.polygon import apart, area, carve
from piecewright.kernel.unit import Unit
from piecewright.plan.cutting import cut_where, turned_text
from piecewright.plan.places import edges_words, is_edge, point_words
from piecewright.plan.rounding import given_size
from piecewright.plan.tongue import Source, Tongue, brought
from piecewright.plan.words import article, listed, plural, sentence

ALL_ROUND = 4  # edges
_HALVES = {2: "both halves", 4: "all four parts"}


def place_text(action: Place, step: Step, tongue: Tongue) -> str:
    """`Draw a line corner to corner on the wrong side of a dusk square 3⅞. Lay it on the sand square, right sides
    together, raw edges even.`"""
    count = len(action.pieces)
    sources = brought(step)
    source = sources[0] if sources else None
    one, several = _named(source, action.name, count, tongue)
    texts: list[str] = []
    subject = article(one) if isinstance(source, Piece) else f"one {one}"
    if action.drawn:
        what = "a line" if len(action.drawn) == count else "both lines"
        where = "corner to corner " if _from_corners(action) else ""
        shown = "" if where else ", where the figure shows it"
        many = count > 1 or step.copies > 1
        texts.append(sentence(f"draw {what} {where}on the wrong side of {several if many else subject}{shown}"))
        subject = "one" if many else "it"
    on = _base(action, step)
    if action.corners:
        corners = [point_words(corner) for corner in action.corners]
        if count in (1, ALL_ROUND):
            on = f"on {corners[0] if count == 1 else 'each corner'} of {on}"
        else:
            subject = "one" if action.drawn else subject
            on = f"on {' and one on '.join(corners)} of {on}"
    else:
        on = f"on {on}"
    unlike = ", unlike fabrics against each other" if _all_unlike(action) else ""
    texts.append(sentence(f"lay {subject} {on}, right sides together, raw edges even{unlike}"))
    return " ".join(texts)


def _named(source: Source | None, name: str, count: int, tongue: Tongue) -> tuple[str, str]:
    """What a piece is called alone, and several of it: `sky square 2⅞`, `2 sky squares 2⅞`."""
    one = tongue.called(source, name)
    if isinstance(source, Piece) and source.width is not None:
        many = tongue.piece(source, f"{piece_shape(source, source.width)}s")
        return one, f"{count} {many}" if count > 1 else f"each {one}"
    return one, f"each {one}"


def _base(action: Place, step: Step) -> str:
    unit = action.before.base
    what = "piece of work" if step.copies > 1 else "work"
    if len(unit.patches) == 1 and not unit.seams and not action.before.uppers:
        square = len(raw_outline(unit)) == 4 and width(unit) == height(unit)
        what = f"{unit.patches[0].fabric} {'square' if square else 'piece'}"
    return f"{'each' if step.copies > 1 else 'the'} {what}"


def _from_corners(action: Place) -> bool:
    """Whether every line runs from corner to corner of the piece that it is drawn on."""
    tips = {p for piece in action.facing for p in raw_outline(piece)}
    return all(start in tips and end in tips for start, end in action.drawn)


def _all_unlike(action: Place) -> bool:
    """Whether a pieced piece meets nothing but other fabrics."""
    base = action.before.base
    if len(base.patches) == 1 or not action.facing or all(len(piece.patches) == 1 for piece in action.facing):
        return False
    return not any(_overlap(base, piece) for piece in action.facing)


def _overlap(first: Unit, second: Unit) -> bool:
    return any(
        bool(inside and area(inside))
        for patch in first.patches
        for other in second.patches
        if patch.fabric == other.fabric
        for cell in patch.cells
        for hole in other.cells
        if not apart(cell, hole)
        for inside in (carve(cell, hole)[0],)
    )


def stitch_text(action: Stitch, step: Step, settings: Settings) -> str:
    """`Sew ¼ on each side of the drawn line.`"""
    seam = given_size(settings.seam, settings).shown
    edges = [place for place in step.places if is_edge(place)]
    parts: list[str] = []
    if action.drawn:
        lines = len(action.lines) - (0 if action.beside else len(edges))
        drawn = "line" if lines == (2 if action.beside else 1) else "lines"
        parts.append(f"{seam} on each side of the drawn {drawn}" if action.beside else f"on the drawn {drawn}")
    if len(edges) == ALL_ROUND:
        parts.append(f"all round, {seam} from the raw edges")
    elif edges:
        parts.append(f"{seam} from {edges_words(edges)}")
    return sentence(f"{'on each, ' if step.copies > 1 else ''}sew {' and '.join(parts)}")


def apart_text(actions: Sequence[Subcut | Open], step: Step, settings: Settings) -> str:
    """`Cut on the drawn line, between the two seams. Open both halves and press toward dusk: 2 units.`"""
    cut = next(action for action in actions if isinstance(action, Subcut))
    opens = [action for action in actions if isinstance(action, Open)]
    count = len(cut.parts)
    before = 1 if cut.names else max(step.copies // count, 1)
    where = "on the drawn line, between the two seams" if _between_seams(cut) else cut_where(cut, step, settings)
    texts = [f"{'cut each' if before > 1 else 'cut'} {where}, through all layers"]
    if not opens:
        texts[0] += f": {plural(before * count, 'piece')}, still in layers"
    if cut.names:
        texts[0] += f": {listed(cut.names)}"
        texts += [f"open {_opened_name(cut, one)} and {_pressing(one)}" for one in opens]
    elif opens:
        texts.append(f"open {_HALVES.get(count, 'all parts')} and {_pressing(opens[0])}: {step.copies} units")
    if count > 1 and not cut.names:
        texts.append(turned_text(cut))
    return " ".join(sentence(text) for text in texts)


def _opened_name(cut: Subcut, one: Open) -> str:
    return next(name for name, half in zip(cut.names, cut.halves, strict=True) if half is one.layers)


def _pressing(action: Open | Flip) -> str:
    return "press the seam open" if action.toward == "open" else f"press {action.toward}"


def _between_seams(cut: Subcut) -> bool:
    """Whether every cut runs midway between two seams an allowance to each side."""
    if cut.layers is None:
        return False
    s = cut.layers.base.allowance
    return all(_gaps(line, cut.layers.stitches) >= {s, -s} for line in cut.lines)


def _gaps(line: Line, stitches: Sequence[tuple[Vector, Vector]]) -> set[Exact]:
    """How far stitches that run along a line lie left of it."""
    start, end = line
    step = end - start
    found: set[Exact] = set()
    for point, along in stitches:
        if not along.cross(step):
            way = along if along.dot(step) > 0 else -along
            found.add(way.cross(point - start))
    return found


def flip_text(flips: Sequence[Flip], step: Step, tongue: Tongue) -> str:
    """`Lay a sky square 2½ on the top left corner, right sides together, and sew it corner to corner. Cut ¼ outside
    the seam, open it and press toward sky.`"""
    sources = brought(step)
    source = sources[0] if sources else None
    seam = given_size(tongue.settings.seam, tongue.settings).shown
    one = tongue.called(source, flips[0].name)
    what = article(one) if isinstance(source, Piece) else f"one {one}"
    of = " of each" if step.copies > 1 else ""
    pressing = " and ".join(dict.fromkeys(_pressing(flip) for flip in flips))
    if len(flips) > 1 and flips[0].toward in (TOWARD_CORNER, AWAY_FROM_CORNER):
        pressing += "s"
    if len(flips) == 1:
        return " ".join(
            (
                sentence(
                    f"lay {what} on {point_words(flips[0].corner)}{of}, right sides together, and sew it corner to "
                    "corner, across the corner of the work"
                ),
                sentence(f"cut {seam} outside the seam, open it and {pressing}"),
            )
        )
    corners = "each corner" if len(flips) == ALL_ROUND else listed([point_words(flip.corner) for flip in flips])
    return " ".join(
        (
            sentence(f"lay {what} on {corners}{of}, right sides together, and sew each corner to corner, across the "
                     "corner of the work"),
            sentence(f"cut {seam} outside the seams, open the corners and {pressing}"),
        )
    )
