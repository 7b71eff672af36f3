"""Which die of a press cuts which pieces, and how large the cloth for them is cut.

A die cuts a piece of its own shape and size. Its rough piece is the box round the shape as the die cuts it, one side of
which is the piece's edge on the strip, larger by the leeway on every side. A strip die cuts strips: those of strip
sets, and those that rectangles and squares of its width are then cut from with a ruler. Its rough strips are two
leeways wider, and their ends stay as they are.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from piecewright.exact import Exact
from piecewright.kernel.build import Build, Die, Fabric, Settings
from piecewright.kernel.foundation import ROUGH
from piecewright.kernel.slanted import diamond_side, slant
from piecewright.plan.cutlist import CutRow
from piecewright.plan.joining import may_join
from piecewright.plan.needs import left_of
from piecewright.plan.rounding import up_to_mark

Lies = tuple[Exact, Exact, bool]
"""Across and down the cloth in inches, and whether it may lie the other way too."""


def box(row: CutRow) -> tuple[Exact, Exact]:
    """The rectangle round a piece, its base along the first side; both in inches. A slanted side leans height · cot a
    beyond the base of a parallelogram, and of a diamond, whose base is height / sin a; triangles and trapezoids stay
    within their bases."""
    if row.angle is None or row.shape in ("triangle", "trapezoid"):
        return row.width, row.height
    base = diamond_side(row.height, row.angle) if row.shape == "diamond" else row.width
    return base + slant(row.height, row.angle), row.height


def die_for(row: CutRow, fabric: Fabric, settings: Settings) -> Die | None:
    """The die that cuts the pieces of a row: one of just this shape and size, or else a strip die that cuts the strips
    they come from. None where there is none, and where the cloth is too small for the rough piece."""
    return next((die for die in dies_of_shape(row, settings) if rough_lies(row, die, fabric, settings)), None)


def dies_of_shape(row: CutRow, settings: Settings) -> tuple[Die, ...]:
    """The dies that cut such pieces where the cloth is large enough: the one that fits, then from narrow to wide."""
    cutter = settings.cutter
    if cutter is None or cutter.kind != "press" or row.radius is not None or row.hollows:
        return ()
    exact = [die for die in cutter.dies if _cuts(die, row)]
    if row.shape not in ("rectangle", "square"):
        return tuple(exact)
    strips = [die for die in cutter.dies if die.shape == "strip" and die.width in (row.width, row.height)]
    return (*exact, *sorted(strips, key=lambda die: die.width))


def _cuts(die: Die, row: CutRow) -> bool:
    if (die.shape, die.angle) != (row.shape, row.angle):
        return False
    if row.shape == "rectangle":
        return {die.width, die.height} == {row.width, row.height}
    if row.shape in ("strip", "square", "diamond"):
        return die.width == row.width
    return die.height == row.height and (row.shape == "triangle" or die.width == row.width)


def by_strips(row: CutRow, die: Die) -> bool:
    """Whether the die cuts only the strips that the pieces then come from."""
    return die.shape == "strip" and row.shape != "strip"


def rough_lies(row: CutRow, die: Die, fabric: Fabric, settings: Settings) -> Lies | None:
    """How the cloth for one piece lies, None where the fabric is too small for it."""
    cutter, mark = settings.cutter, settings.ruler
    assert cutter is not None
    more = cutter.leeway * 2
    if row.shape == "strip":
        across = min(up_to_mark(row.height, mark), max(row.height, fabric.usable))
        down = up_to_mark(row.width + more, mark)
        return (across, down, False) if _fits(down, down, fabric, settings) else None
    held = fabric.directional or ((row.lengthwise or fabric.lengthwise) and row.width != row.height)
    if by_strips(row, die):
        return _along(row, die, held, fabric, settings)
    across, down = (up_to_mark(side + more, mark) for side in box(row))
    if row.angle is None and not fabric.directional:
        short, long = sorted((across, down))
        across, down = (short, long) if held else (long, short)
    elif fabric.lengthwise:
        held = True  # pieces at an angle come from strips across, as ever
    if _fits(across, down, fabric, settings):
        return across, down, not held
    if not held and _fits(down, across, fabric, settings):
        return down, across, True
    return None


def _along(row: CutRow, die: Die, held: bool, fabric: Fabric, settings: Settings) -> Lies | None:
    """A rectangle as it lies in the rough strip of a strip die: that is as high as the strip is wide."""
    cutter, mark = settings.cutter, settings.ruler
    assert cutter is not None
    across, down = row.width, row.height
    if not fabric.directional:
        short, long = sorted((across, down))
        across, down = (short, long) if held else (long, short)
    if die.width != down:
        if held:
            return None
        across, down = down, across
    across, down = up_to_mark(across, mark), up_to_mark(down + cutter.leeway * 2, mark)
    if _fits(across, down, fabric, settings):
        return across, down, not held
    return (across, down, False) if may_join(row) and _fits(Exact(0), down, fabric, settings) else None


def _fits(across: Exact, down: Exact, fabric: Fabric, settings: Settings) -> bool:
    return any(across <= wide and (high is None or down <= high) for wide, high in cloths(fabric, settings))


def cloths(fabric: Fabric, settings: Settings) -> tuple[tuple[Exact, Exact | None], ...]:
    """How large the pieces of a fabric are, across and down, to the mark below; None down of cloth by the length, and
    of an assorted fabric, of whose prints that is not known."""
    mark, sold = settings.ruler, fabric.sold or settings.sold
    own = sold.down is None or fabric.assorted
    down = None if own or sold.down is None else left_of(sold.down, fabric.shrinks, mark)
    scraps = tuple((_down_to(one.across, mark), _down_to(one.down, mark)) for one in fabric.scraps)
    return ((_down_to(fabric.usable, mark), down), *scraps)


def _down_to(length: Exact, mark: Exact) -> Exact:
    return mark * (length / mark).floor()


def rough_rows(build: Build, rows: tuple[CutRow, ...]) -> tuple[CutRow, ...]:
    """The rows as cloth is cut for them, each where it was: what a die cuts is a rough piece."""
    settings = build.settings
    if settings.cutter is None or not settings.cutter.dies:
        return rows
    fabrics = {fabric.name: fabric for fabric in build.fabrics}
    return tuple(_rough(row, fabrics, settings) for row in rows)


def _rough(row: CutRow, fabrics: Mapping[str, Fabric], settings: Settings) -> CutRow:
    fabric = fabrics[row.fabric]
    die = die_for(row, fabric, settings)
    lies = None if die is None else rough_lies(row, die, fabric, settings)
    if die is None or lies is None:
        return row
    if row.shape == "strip":
        return replace(row, width=lies[1], lies=lies)
    width, height = lies[:2] if fabric.directional else sorted(lies[:2])
    if by_strips(row, die) and lies[0] > max(wide for wide, _ in cloths(fabric, settings)):
        return replace(row, width=width, height=height, lies=lies)  # a strip to be joined
    return replace(row, shape=ROUGH, width=width, height=height, angle=None, reversed=False, lies=lies)
