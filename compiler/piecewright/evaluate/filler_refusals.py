"""Cells of a table that do not fit, and the strips that bring them to size, in craft words."""

from __future__ import annotations

from collections.abc import Callable
from typing import cast

from piecewright.evaluate.facts import Facts, Saying
from piecewright.evaluate.shown import plain
from piecewright.exact import Exact
from piecewright.verbs.fillers import Fill, Spacer

_FEW = 3  # so many cells are told; the next are told when these are mended


def _cells_differ(f: Facts) -> Saying:
    fills = cast("tuple[Fill, ...]", f.words("fills"))
    spacers = cast("tuple[Spacer, ...]", f.words("spacers"))
    told = [_fill(f, fill) for fill in fills[:_FEW]] + [_spacer(f, spacer) for spacer in spacers[:_FEW]]
    return Saying("E301", _message(f, spacers), "; ".join(told) + _hint_of_seams(f, fills))


def _message(f: Facts, spacers: tuple[Spacer, ...]) -> str:
    if not f.has("pair"):
        lengths = f.lengths("lengths")
        short = spacers[0].row if spacers else lengths.index(min(lengths)) + 1
        long = lengths.index(max(lengths)) + 1
        less, more = lengths[short - 1], lengths[long - 1]
        both = f"row {short} finishes {f.shown(less)} across and row {long} {f.shown(more)}"
        return f"{both}, {f.exactly(more - less)} longer"
    (first, *one), (second, *other) = cast("tuple[tuple[str, Exact, Exact], ...]", f.words("pair"))
    sizes = [" by ".join(f.shown(side) for side in size) for size in (one, other)]
    return (
        f"`{f.written(first)}` finishes {sizes[0]} and `{f.written(second)}` {sizes[1]}, so the edges that meet here"
        f" differ by {f.exactly(f.length('difference'))}"
    )


def _fill(f: Facts, fill: Fill) -> str:
    """How a cell is brought to size: `border 1 of FABRIC` adds half an inch on every side."""
    seams = f.settings.seam * 2
    across, down = fill.target
    to = f"`{f.written(fill.slot)}` to {f.shown(across)} by {f.shown(down)}"
    if not all(side.is_rational for side in fill.short):
        return _trimmed(f, fill)
    if fill.is_cloth:
        size = _typed(f, across + seams) + ("" if across == down else f" by {_typed(f, down + seams)}")
        return f"cut `{f.written(fill.slot)}` {size}, to finish {f.shown(across)} by {f.shown(down)}"
    ways = []
    if _is_wide(f, fill):
        ways.append(_borders(f, fill, (("left", "right"), ("top", "bottom")), Exact(1, 2)))
    ways.append(_borders(f, fill, (("right",), ("bottom",)), Exact(1)))
    return f"to bring {to}, `take` it in a unit and sew {', or '.join(ways)}"


def _is_wide(f: Facts, fill: Fill) -> bool:
    """Whether strips on both sides would each finish at least one seam wide."""
    return all(not side or side >= f.settings.seam * 2 for side in fill.short)


def _borders(f: Facts, fill: Fill, edges: tuple[tuple[str, ...], tuple[str, ...]], part: Exact) -> str:
    """The lines that sew a part of what is lacking to each edge named, and how wide the strips finish."""
    seams = f.settings.seam * 2
    across, down = (side * part for side in fill.short)
    finished = f.shown(across or down) if across == down or not (across and down) else ""
    if across == down:
        on = "" if len(edges[0]) == 2 else f" on {' and '.join((*edges[0], *edges[1]))}"
        return f"`border {_typed(f, across + seams)} of FABRIC{on}` ({finished} wide finished)"
    lines = [
        f"`border {_typed(f, side + seams)} of FABRIC on {' and '.join(names)}`"
        + ("" if finished else f" ({f.shown(side)} wide finished)")
        for side, names in zip((across, down), edges, strict=True)
        if side
    ]
    return " and ".join(lines) + (f" ({finished} wide finished)" if finished else "")


def _trimmed(f: Facts, fill: Fill) -> str:
    """Where no ruler has the width of the strips: wider ones, and a trim to the size of a cell that has it."""
    ruler, seams = f.settings.ruler, f.settings.seam * 2
    needed = max(fill.short) / 2 + seams + Exact(1, 8)  # an eighth more, so that there is something to trim
    strip = _typed(f, ruler * (needed / ruler).ceil())
    like = f.written(fill.like) if fill.like else "the larger one"
    return (
        f"to bring `{f.written(fill.slot)}` to the size of `{like}`, `take` it in a unit, sew"
        f" `border {strip} of FABRIC` and `trim to width({like}) by height({like}), centred`"
    )


def _spacer(f: Facts, spacer: Spacer) -> str:
    seams = f.settings.seam * 2
    size = f"{_typed(f, spacer.short + seams)} by {_typed(f, spacer.height + seams)}"
    told = f"`rectangle {size} of FABRIC` ({f.shown(spacer.short)} wide finished)"
    return f"lengthen row {spacer.row} with one more cell, {told}"


def _hint_of_seams(f: Facts, fills: tuple[Fill, ...]) -> str:
    seams = f.settings.seam * 2
    if not any(seams in fill.short for fill in fills):
        return ""
    return f"; two seams are {f.shown(seams)}: is one of these sizes cut and the other finished?"


def _typed(f: Facts, length: Exact) -> str:
    """A length as it is written in the pattern."""
    return plain(length, f.settings.units)


FILLER_SAYINGS: dict[str, Callable[[Facts], Saying]] = {"cells-differ": _cells_differ}
