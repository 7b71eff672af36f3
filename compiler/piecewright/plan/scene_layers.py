"""Scenes of work in layers: what is drawn on a wrong side, where it is stitched, where it is cut, how it opens.

What lies face down shows its wrong side. In these scenes no allowances are marked, so that the only broken lines
are those that are drawn, stitched and cut.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from piecewright.kernel.action import Flip, Line, Open, Place, Stitch, Subcut, Turn
from piecewright.kernel.build import Settings
from piecewright.kernel.layers import Layers, stitching, stretch
from piecewright.kernel.measure import raw_outline
from piecewright.kernel.polygon import HALF, side
from piecewright.kernel.removal import clipped
from piecewright.kernel.unit import Unit
from piecewright.plan.model import Lead, Panel, Side
from piecewright.plan.rounding import given_size
from piecewright.plan.table import Table, is_plain, points

WHOLE: tuple[Side, Side] = ("bottom", "left")


def place_panels(action: Place, settings: Settings, line: int) -> tuple[Panel, ...]:
    """The work, the piece with its wrong side up and the line drawn on it, and the one on the other. The size of the
    work stands where it was made, as does that of a pieced piece; two more beside each other would make all small."""
    base = Table(settings, line)
    _put_layers(base, action.before)
    count = len(action.pieces)
    piece = Table(settings, line)
    facing = action.facing or action.pieces
    _put_wrong(piece, facing[0])
    _draw(piece, (ends for ends in action.drawn if _on(facing[0], ends)))
    if is_plain(action.pieces[0]):
        piece.measure(facing[0], WHOLE)
    laid = Table(settings, line)
    _put_layers(laid, replace(action.before, uppers=action.before.uppers + facing))
    _draw(laid, action.drawn)
    words = "wrong side up" if count == 1 else f"{count}, wrong side up"
    return base.panel(words="right side up"), piece.panel(words=words, lead="and"), laid.panel()


def stitch_panels(action: Stitch, settings: Settings, line: int, words: str) -> tuple[Panel, ...]:
    """The layers with the lines drawn and every seam through them."""
    table = Table(settings, line)
    _put_layers(table, action.result)
    _draw(table, _within(action.result, action.drawn))
    _stitches(table, action.result)
    seam = given_size(settings.seam, settings).shown
    told = f"sewn {seam} on each side of the line" if action.beside else "sewn on the broken lines"
    return (table.panel(words=f"{words}, {told}" if words else told),)


def layered_cut_panels(action: Subcut, settings: Settings, line: int, words: str) -> tuple[Panel, ...]:
    """The layers with their seams and the cut, then the part of each kind. `words`: how many alike, for parts
    that stay in layers."""
    assert action.layers is not None
    before = Table(settings, line)
    _put_layers(before, action.layers)
    _stitches(before, action.layers)
    for cut in action.lines:
        before.stroke(points(cut), "cut")
    panels = [before.panel()]
    for number, half in enumerate(action.halves):
        table = Table(settings, line)
        _put_layers(table, half)
        _stitches(table, half)
        opens = bool(half.uppers) and len(half.stitches) == 1
        if not opens:
            table.measure(half.base, WHOLE)
        told = action.names[number] if action.names else "" if opens else words
        panels.append(table.panel(words=told, lead="and" if number else "then"))
    return tuple(panels)


def open_panels(action: Open, settings: Settings, line: int, words: str) -> tuple[Panel, ...]:
    """The part opened, with its size and the pressing."""
    table = Table(settings, line)
    table.put(action.result)
    for number in action.seams:
        table.press(action.result.seams[number])
    table.measure(action.result, WHOLE)
    return (table.panel(words=words, lead_words="open"),)


def flip_panels(flips: tuple[Flip, ...], settings: Settings, line: int, words: str) -> tuple[Panel, ...]:
    """The squares face down in their corners, with the seams and the cuts; then all of them opened."""
    first, last = flips[0], flips[-1]
    before = Table(settings, line)
    _put_layers(before, Layers(base=first.before, placed=(), uppers=tuple(f.piece for f in flips), stitches=()))
    for flip in flips:
        before.stroke(points(flip.line), "stitch")
        before.stroke(points(flip.cut), "cut")
    before.measure(first.before, WHOLE)
    after = Table(settings, line)
    after.put(last.result)
    for flip in flips:
        after.press(flip.result.seams[flip.seam])
    after.measure(last.result, WHOLE)
    return before.panel(), after.panel(words=words, lead_words="open")


def layered_turn_panels(action: Turn, settings: Settings, line: int) -> tuple[Panel, ...]:
    """The layers before and after, with the turn between them."""
    assert action.layers is not None
    before, after = Table(settings, line), Table(settings, line)
    for table, layers in zip((before, after), action.layers, strict=True):
        _put_layers(table, layers)
        _stitches(table, layers)
    lead: Lead = "turn-left" if action.degrees > 0 else "turn-right"
    return before.panel(), after.panel(lead=lead, lead_words=f"{abs(action.degrees)}°")


# ── cloth on cloth ──────────────────────────────────────────────────────────────────────────────


def _put_layers(table: Table, layers: Layers) -> None:
    """The base with its right side up, what lies on it face down; seams only where they are seen."""
    kept = len(table.strokes)
    table.put_cloth(layers.base)
    del table.strokes[kept:]
    for seam in layers.base.seams:
        for ends in _seen((seam.start, seam.end), layers.uppers):
            table.stroke(points(ends), "seam" if seam.sewn else "stitch")
    table.stroke(points(raw_outline(layers.base)), "raw", closed=True)
    for upper in layers.uppers:
        _put_wrong(table, upper)


def _put_wrong(table: Table, unit: Unit) -> None:
    first = len(table.cloth)
    table.put_cloth(unit)
    table.cloth[first:] = [replace(cloth, wrong=True) for cloth in table.cloth[first:]]
    table.stroke(points(raw_outline(unit)), "raw", closed=True)


def _seen(line: Line, uppers: tuple[Unit, ...]) -> list[Line]:
    """What of a line is not covered by what lies on it."""
    start, end = line
    along = end - start
    holes = sorted(
        (
            (ends[0].dot(along), ends[1].dot(along), ends)
            for upper in uppers
            for patch in upper.patches
            for cell in patch.cells
            for ends in (clipped(start, end, cell),)
            if ends is not None
        ),
        key=lambda hole: hole[0],
    )
    found: list[Line] = []
    here = start
    for low, high, ends in holes:
        if low > here.dot(along):
            found.append((here, ends[0]))
        if high > here.dot(along):
            here = ends[1]
    if here.dot(along) < end.dot(along):
        found.append((here, end))
    return [line for line in found if not _between_cells(line, uppers)]


def _between_cells(line: Line, uppers: tuple[Unit, ...]) -> bool:
    """Whether a line runs along a seam of what lies on it, and so is covered from both sides."""
    middle = (line[0] + line[1]) * HALF
    cells = [cell for upper in uppers for patch in upper.patches for cell in patch.cells]
    return sum(all(side(p, cell[i - 1] - p, middle) <= 0 for i, p in enumerate(cell)) for cell in cells) > 1


def _draw(table: Table, lines: Iterable[Line]) -> None:
    for ends in lines:
        table.stroke(points(ends), "drawn")


def _on(piece: Unit, line: Line) -> bool:
    """Whether a line that was drawn on one of several pieces, which may lie on each other, is that of this one."""
    return stretch(piece, line[0], (line[1] - line[0]).unit()) == line


def _within(layers: Layers, lines: tuple[Line, ...]) -> list[Line]:
    """Lines as far as they run on what lies face down."""
    return list(stitching(layers, tuple((start, (end - start).unit()) for start, end in lines)))


def _stitches(table: Table, layers: Layers) -> None:
    for ends in stitching(layers, layers.stitches):
        table.stroke(points(ends), "stitch")
