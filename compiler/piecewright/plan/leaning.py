"""Pieces cut from a strip at an angle: how many a strip gives, and how they are cut.

Along the strip a piece is as long at one edge as `long` and at the other as `short` (of a triangle: nothing). Turned
alternately, or leaning all one way, each takes the mean of the two; the slant at the ends of the strip, height · cot a,
is lost once. On a directional fabric triangles and trapezoids are not turned, and each takes its long side.
"""

from __future__ import annotations

from piecewright.exact import Exact
from piecewright.kernel.build import Settings
from piecewright.kernel.slanted import diamond_side, slant, triangle_base
from piecewright.plan.cutlist import CutRow
from piecewright.plan.rounding import cut_size, up_to_mark
from piecewright.plan.words import plural

_TURNED = ("triangle", "trapezoid")


def per_strip(row: CutRow, usable: Exact, mark: Exact, directional: bool) -> tuple[int, Exact]:
    """How many pieces a strip of the usable length gives, and what length one piece takes, in inches; sizes as the
    ruler cuts them."""
    run, step = _along(row, mark, directional)
    return max(((usable - run) / step).floor(), 0), step + run


def length_for(count: int, row: CutRow, mark: Exact, directional: bool) -> Exact:
    """The length of strip that so many pieces take, in inches."""
    run, step = _along(row, mark, directional)
    return step * count + run


def covered(row: CutRow) -> Exact:
    """The area of one piece, in square inches: its height times the mean of its two edges along the strip."""
    assert row.angle is not None
    run = slant(row.height, row.angle)
    if row.shape == "diamond":
        return row.height * diamond_side(row.height, row.angle)
    mean = {"triangle": run, "trapezoid": row.width - run}.get(row.shape, row.width)
    return row.height * mean


def _along(row: CutRow, mark: Exact, directional: bool) -> tuple[Exact, Exact]:
    """What the ends of the strip lose by the slant, and what each piece takes beside that."""
    assert row.angle is not None
    height, width = up_to_mark(row.height, mark), up_to_mark(row.width, mark)
    run = slant(height, row.angle)
    if row.shape == "diamond":
        step = diamond_side(height, row.angle)
    elif row.shape == "parallelogram":
        step = width
    elif directional:
        long = triangle_base(height, row.angle) if row.shape == "triangle" else width
        return Exact(0), long
    else:
        step = run if row.shape == "triangle" else width - run
    return run, step


def slanted_text(
    fabric: str,
    count: int,
    row: CutRow,
    each: int,
    settings: Settings,
    directional: bool,
) -> str:
    """How the strips are cut, with the line of the ruler named."""
    height = cut_size(row.height, settings).shown
    text = f"From {fabric} cut {plural(count, 'strip')} {height} by the width."
    name = plural(row.count, ("reversed " if row.reversed else "") + row.shape)
    each_text = f", {each} from a strip" if each and row.count > each else ""
    return f"{text} {slanted_how(row, settings, directional, f': {name}{each_text}')}"


def slanted_how(row: CutRow, settings: Settings, directional: bool, what: str = "") -> str:
    """How pieces are cut from a strip at an angle; `what` is said behind it."""
    height, width = cut_size(row.height, settings).shown, cut_size(row.width, settings).shown
    text = "Lay each strip wrong side up. " if row.reversed else ""
    line = f"the ruler's {row.angle}° line on the long edge"
    text += f"Lay {line} and cut off the end;"
    if row.shape == "diamond":
        text += f" then cut alongside every {height}, measured square to the cut"
    elif row.shape == "parallelogram":
        text += f" then cut alongside every {width}, measured along the strip"
    elif row.shape == "triangle":
        text += " then lay the same line the other way from the point, and cut; turn the ruler so for each piece"
    else:
        text += (
            f" measure {width} along the edge with the sharp corner, lay the same line the other way there, and cut;"
            " turn the ruler so for each piece, measuring on the one edge and the other by turns"
        )
    text += f"{what}."
    if directional and row.shape in _TURNED:
        text += " Cut all of them the same way up."
    return text
