"""Scenes of sewing onto paper: the piece laid face down, the line on the printed side, the piece opened."""

from __future__ import annotations

from dataclasses import replace

from piecewright.exact import Vector
from piecewright.kernel.action import Add, Line
from piecewright.kernel.build import Settings
from piecewright.kernel.foundation import Foundation, in_glass, opened, pieced, rough, sewn
from piecewright.kernel.measure import finished_outline, raw_outline
from piecewright.kernel.moves import reflected_point
from piecewright.kernel.removal import clipped
from piecewright.kernel.unit import Polygon
from piecewright.plan.model import Cloth, Label, Panel, Side
from piecewright.plan.onto_paper import middle
from piecewright.plan.rounding import cut_size
from piecewright.plan.table import Table, points, source_line

WHOLE: tuple[Side, Side] = ("bottom", "left")
PRINTED = "printed side"


def add_panels(action: Add, settings: Settings, line: int) -> tuple[Panel, ...]:
    """One piece put on the paper, and the whole trimmed when it is the last."""
    foundation, number = action.foundation, action.number
    panels = [_printed(foundation, settings, line)] if not number else _sewing(foundation, number, settings, line)
    done = Table(settings, line)
    if number < len(foundation.pieces) - 1:
        _put(done, foundation, opened(foundation, number))
        if not number:
            _measure_rough(done, foundation)
        else:
            done.press(pieced(foundation).seams[number - 1])
        panels.append(done.panel(words="side of the cloth", lead_words="" if not number else "open"))
        return tuple(panels)
    done.put(pieced(foundation))
    done.measure(pieced(foundation), WHOLE)
    panels.append(done.panel(words="trimmed, paper left in", lead_words="" if not number else "open"))
    return tuple(panels)


def _printed(foundation: Foundation, settings: Settings, line: int, sew: int = 0) -> Panel:
    """The paper with its lines and numbers; `sew`: the piece whose line is sewn now."""
    printed = in_glass(foundation)
    table = Table(settings, line)
    _paper(table, printed)
    for number in range(1, len(printed.pieces)):
        table.stroke(points(sewn(printed, number)), "stitch" if number == sew else "guide")
    if not sew:
        table.measure(pieced(printed), WHOLE)
    labels = tuple(
        Label(at=middle(piece.finished), text=str(number)) for number, piece in enumerate(printed.pieces, 1)
    )
    words = f"{PRINTED}: sew on the broken line" if sew else PRINTED
    return replace(table.panel(words=words, lead_words="turn over" if sew else ""), labels=labels)


def _sewing(foundation: Foundation, number: int, settings: Settings, line: int) -> list[Panel]:
    """The piece face down on the work, and the line to sew seen from the other side."""
    piece = foundation.pieces[number]
    assert piece.line is not None
    laid = Table(settings, line)
    _put(laid, foundation, opened(foundation, number - 1))
    start = piece.line[0]
    down = tuple(reflected_point(p, start, piece.along) for p in reversed(rough(foundation, number).outline))
    laid.cloth.append(
        Cloth(outline=points(down), fabric=piece.fabric, line=source_line(piece.cut, line), wrong=True)
    )
    laid.stroke(points(down), "raw", closed=True)
    return [laid.panel(words="wrong side up"), _printed(foundation, settings, line, sew=number)]


def _paper(table: Table, foundation: Foundation) -> None:
    unit = pieced(foundation)
    outline = points(raw_outline(unit))
    table.cloth.append(Cloth(outline=outline, fabric="", line=0, tint=True))
    table.stroke(outline, "raw", closed=True)
    table.stroke(points(finished_outline(unit)), "allowance", closed=True)


def _put(table: Table, foundation: Foundation, cloth: tuple[Polygon, ...]) -> None:
    """The pieces so far, and of the paper under them what they leave to be seen."""
    paper = raw_outline(pieced(foundation))
    table.cloth.append(Cloth(outline=points(paper), fabric="", line=0, tint=True))
    for i, corner in enumerate(paper):
        for ends in _uncovered(corner, paper[(i + 1) % len(paper)], cloth):
            table.stroke(points(ends), "raw")
    for piece, outline in zip(foundation.pieces, cloth, strict=False):
        ring = points(outline)
        table.cloth.append(Cloth(outline=ring, fabric=piece.fabric, line=source_line(piece.cut, table.line)))
        table.stroke(ring, "raw", closed=True)


def _uncovered(start: Vector, end: Vector, cloth: tuple[Polygon, ...]) -> list[Line]:
    """The parts of a stretch that no piece of cloth covers."""
    found = [(start, end)]
    for outline in cloth:
        left: list[Line] = []
        for one, other in found:
            covered = clipped(one, other, outline)
            if covered is None:
                left.append((one, other))
                continue
            left += [ends for ends in ((one, covered[0]), (covered[1], other)) if ends[0] != ends[1]]
        found = left
    return found


def _measure_rough(table: Table, foundation: Foundation) -> None:
    """The first piece lies straight, so its size can be seen."""
    cut = rough(foundation, 0)
    low_left, low_right, _, high_left = points(cut.outline)
    across, down = (cut_size(size, table.settings).shown for size in (cut.along, cut.across))
    table.dimension(low_left, low_right, "bottom", across)
    table.dimension(low_left, high_left, "left", down)
