"""The arrangements of blocks on a table as plain data, for a sheet to choose from by looking."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from itertools import islice

from piecewright.dataclass import dataclass
from piecewright.kernel.build import Build, Made
from piecewright.kernel.measure import finished_outline, finished_size
from piecewright.kernel.unit import Unit
from piecewright.plan.arrange.blocks import Edges, edges, is_rectangle, is_square, looks_of, lying, seams_meet
from piecewright.plan.arrange.count import count
from piecewright.plan.arrange.looks import Look, Looks
from piecewright.plan.arrange.motion import MIRROR, Motion, table_motions
from piecewright.plan.arrange.repeats import Alike, Arrangement, Grid, TooMany, repeats
from piecewright.plan.fabrics import fabric_plans
from piecewright.plan.model import Extent, FabricPlan, Panel
from piecewright.plan.rounding import measured_extent
from piecewright.plan.table import Table, points

MOST_FOUND = 20000  # so many are made to see which of them have the symmetry that is wanted; beyond, they are counted
MOST_SHOWN = 120

MOST_ALIKE = 100000
MOST_TRIED = 2000000
"""So many beginnings of tables are looked at before a search is given up."""
MOST_NUMBERED = 6  # blocks of which a number may be asked for

TURN_WORDS = ("", "turned left", "turned around", "turned right")
SYMMETRIES = ("quarter-turn", "half-turn", "mirror", "diagonal-mirror", "none")
"""What an arrangement may be asked to have: alike after a quarter or half turn, in a mirror upright or level, in a
mirror along a diagonal, or after no motion at all."""

MOTIONS_OF: dict[str, tuple[Motion, ...]] = {
    "quarter-turn": (1,),
    "half-turn": (2,),
    "mirror": (4, 6),
    "diagonal-mirror": (5, 7),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class LookPlan:
    """One look of a cell. `block`: which of the blocks it is, from 0; `text` as it is written in a table; `picture`:
    finished cloth within its outline, its lower left corner at the origin."""

    block: int
    text: str
    picture: Panel


@dataclass(frozen=True, slots=True, kw_only=True)
class ArrangementPlan:
    """`number` from 1, as on the sheet; `rows`: the look of each cell, by its place; `text`: the lines to paste;
    `symmetry`: the words for it; `meet`: whether every seam meets another at the edges of its block, also where
    the table is repeated; `same_as`: the earlier one that gives the same endless repeat, begun elsewhere."""

    number: int
    rows: tuple[tuple[int, ...], ...]
    text: str
    symmetry: str
    meet: bool
    same_as: int | None


@dataclass(frozen=True, slots=True, kw_only=True)
class ArrangementSheet:
    """`calls` are the blocks as they were asked for; `width` and `height` of a finished block in inches and `size` in
    words; `numbers`: how many cells show each block, None where it is free; `mirrors_apart`: an arrangement and its
    mirror image count as two; `repeating`: those that repeat to the same pattern count as one, wherever the repeat
    begins; `count`: how many arrangements there are in all; `kept`: how many of them are as wanted, None where there
    were too many to look through; `wanted`: what they were narrowed to, in words, or empty; `shown` on the sheet."""

    title: str
    calls: tuple[str, ...]
    numbers: tuple[int | None, ...]
    mirrors_apart: bool
    repeating: bool
    rows: int
    columns: int
    width: float
    height: float
    size: Extent
    fabrics: tuple[FabricPlan, ...]
    looks: tuple[LookPlan, ...]
    count: int
    kept: int | None
    wanted: str
    shown: tuple[ArrangementPlan, ...]


class CannotArrange(Exception):
    """Blocks that cannot stand in one table; the text says why, in words of the craft, with the numbers."""


def arrangement_sheet(
    build: Build,
    calls: Sequence[str],
    *,
    rows: int,
    columns: int,
    numbers: Sequence[int | None] = (),
    mirrors_apart: bool = False,
    repeating: bool = False,
    reversed_too: bool = False,
    symmetry: str = "",
    meet: bool = False,
    most: int = MOST_SHOWN,
) -> ArrangementSheet:
    """All different arrangements of the blocks that a build was asked for, on a table of so many rows and columns.

    `numbers`, `mirrors_apart` and `repeating` as in `ArrangementSheet`. `reversed_too`: blocks may also be made
    reversed. `symmetry`: one of SYMMETRIES, to keep only those; `meet` to keep those whose seams meet. Up to `most` are
    drawn, the most symmetric first. CannotArrange where the blocks are no rectangles of one size, or their numbers do
    not fit the table.
    """
    numbers = tuple(numbers) or (None,) * len(calls)
    content = _content(numbers, calls, rows * columns)
    made = {one.key: one for one in build.made}
    blocks = [made[demand.key] for demand in build.demands]
    _fitting(blocks, calls, build)
    units = [one.unit for one in blocks]
    looks = looks_of(units, reversed_too=reversed_too)
    if content:
        _told_apart(looks, units, calls, reversed_too=reversed_too)
    motions = table_motions(rows, columns, square=all(is_square(unit) for unit in units))
    grid = Grid(rows, columns, motions, mirrors_apart=mirrors_apart, repeating=repeating)
    there = [lying(units[look.block], look.motion) for look in looks.looks]
    fits = Meeting([edges(unit) for unit in there])
    merging = [motion for motion in motions if motion < MIRROR or not mirrors_apart]
    total = count(rows, columns, looks, merging, content=content, repeating=repeating)
    kept, chosen = _kept(grid, looks, total, fits if meet else None, symmetry, content, most)
    width, height = finished_size(units[0])
    used = frozenset(patch.fabric for unit in units for patch in unit.patches)
    return ArrangementSheet(
        title=build.settings.title,
        calls=tuple(calls),
        numbers=numbers,
        mirrors_apart=mirrors_apart,
        repeating=repeating,
        rows=rows,
        columns=columns,
        width=float(width),
        height=float(height),
        size=measured_extent(width, height, build.settings),
        fabrics=fabric_plans(build, used),
        looks=tuple(
            LookPlan(block=look.block, text=_look_text(calls[look.block], look), picture=_picture(unit, build))
            for look, unit in zip(looks.looks, there, strict=True)
        ),
        count=total,
        kept=kept,
        wanted=_wanted(symmetry, meet),
        shown=_plans(grid, looks, fits, chosen, calls),
    )


class Meeting:
    """Whether looks fit beside and above one another, by the seams that end on their edges."""

    def __init__(self, every: Sequence[Edges]) -> None:
        self._every = every

    def beside(self, left: int, right: int) -> bool:
        return seams_meet(self._every[left].right, self._every[right].left)

    def above(self, upper: int, lower: int) -> bool:
        return seams_meet(self._every[upper].bottom, self._every[lower].top)

    def everywhere(self, grid: Grid, one: Arrangement) -> bool:
        """Whether all cells of a repeated table fit."""
        rows, columns = grid.rows, grid.columns
        return all(
            self.beside(one[r * columns + c], one[r * columns + (c + 1) % columns])
            and self.above(one[r * columns + c], one[(r + 1) % rows * columns + c])
            for r in range(rows)
            for c in range(columns)
        )


def _fitting(blocks: Sequence[Made], calls: Sequence[str], build: Build) -> None:
    """CannotArrange unless the blocks are rectangles of one finished size."""
    sizes = [finished_size(one.unit) for one in blocks]
    for one, call in zip(blocks, calls, strict=True):
        if not is_rectangle(one.unit):
            raise CannotArrange(f"{call} has no straight square corners, so that it cannot stand in a table")
    for size, call in zip(sizes, calls, strict=True):
        if size != sizes[0]:
            first, other = (
                f"{extent.width.shown} by {extent.height.shown}"
                for extent in (measured_extent(*sizes[0], build.settings), measured_extent(*size, build.settings))
            )
            raise CannotArrange(
                f"{calls[0]} finishes at {first} and {call} at {other}: blocks of one table must be of one size"
            )


def _content(numbers: Sequence[int | None], calls: Sequence[str], cells: int) -> dict[int, int]:
    """How many cells show each block that has a number. CannotArrange where these are not as many as there are."""
    content = {block: number for block, number in enumerate(numbers) if number is not None}
    asked = sum(content.values())
    named = " and ".join(f"{number} of {calls[block]}" for block, number in content.items())
    if len(content) > MOST_NUMBERED:
        raise CannotArrange(f"numbers are counted for {MOST_NUMBERED} blocks at most, and {len(content)} have one")
    if asked > cells:
        raise CannotArrange(f"{named} {'is' if asked == 1 else 'are'} more than the {cells} blocks of the table")
    if len(content) == len(calls) and asked < cells:
        lacking = cells - asked
        raise CannotArrange(
            f"{named} {'leaves' if asked == 1 else 'leave'} {lacking} of the {cells} blocks of the table open: name"
            " another block for them, or leave one number out"
        )
    return content


def _told_apart(looks: Looks, units: Sequence[Unit], calls: Sequence[str], *, reversed_too: bool) -> None:
    """CannotArrange where two blocks look the same when one is turned, so that nobody can say how many there are."""
    there = {look.block for look in looks.looks}
    for block, unit in enumerate(units):
        if block not in there:
            like = next(
                other
                for other in there
                if len(looks_of([units[other], unit], reversed_too=reversed_too))
                == len(looks_of([units[other]], reversed_too=reversed_too))
            )
            raise CannotArrange(
                f"{calls[block]} and {calls[like]} look the same, perhaps turned, so that nobody can tell how many"
                " there are of each: name one of them"
            )


def _kept(
    grid: Grid,
    looks: Looks,
    total: int,
    fits: Meeting | None,
    symmetry: str,
    content: Mapping[int, int],
    most: int,
) -> tuple[int | None, list[Arrangement]]:
    """How many are as wanted, and those to draw, the most symmetric first. Of more than can be looked through no
    number, and none to draw where nothing narrows them."""
    found: list[Arrangement] | None = None
    whole = True
    if symmetry in MOTIONS_OF:
        found = _alike(grid, looks, symmetry, content)
    if found is None:
        if total > MOST_FOUND and fits is None:
            return (None if symmetry else total), []
        beside, above = (fits.beside, fits.above) if fits else (None, None)
        found = []
        every = repeats(grid, looks, beside=beside, above=above, content=content, most_tried=MOST_TRIED)
        try:
            found.extend(islice(every, MOST_FOUND + 1))
        except TooMany:
            whole = False
        whole = whole and len(found) <= MOST_FOUND
    elif fits is not None:
        found = [one for one in found if fits.everywhere(grid, one)]
    known = [(grid.symmetries(one, looks), one) for one in found[:MOST_FOUND]]
    kept = sorted((-len(motions), one) for motions, one in known if _has(motions, symmetry))
    return (len(kept) if whole else None), [one for _, one in kept[:most]]


def _alike(grid: Grid, looks: Looks, symmetry: str, content: Mapping[int, int]) -> list[Arrangement] | None:
    """Those that have a symmetry, found without the others; None where even these are too many."""
    sets = [Alike(move, looks) for move in grid.every if move.motion in MOTIONS_OF[symmetry]]
    if sum(one.count for one in sets) > MOST_ALIKE:
        return None
    there = {one for every in sets for one in every if _holds(one, looks, content)}
    return sorted({grid.first_alike(one, looks) for one in there})


def _holds(one: Arrangement, looks: Looks, content: Mapping[int, int]) -> bool:
    """Whether so many cells show each block as are asked for."""
    return all(
        sum(looks.looks[look].block == block for look in one) == number for block, number in content.items()
    )


def _has(motions: Sequence[Motion], symmetry: str) -> bool:
    """Whether these motions that leave an arrangement as it is hold the symmetry that is wanted."""
    if not symmetry:
        return True
    if symmetry == "none":
        return len(motions) == 1
    return any(motion in motions for motion in MOTIONS_OF[symmetry])


def symmetry_words(motions: Sequence[Motion]) -> str:
    """`alike after a quarter turn and in a mirror`; empty where it is alike after no motion."""
    turn = "after a quarter turn" if 1 in motions else "after a half turn" if 2 in motions else ""
    mirror = "in a mirror" if any(motion >= MIRROR for motion in motions) else ""
    parts = [one for one in (turn, mirror) if one]
    return f"alike {' and '.join(parts)}" if parts else ""


def _wanted(symmetry: str, meet: bool) -> str:
    said = {
        "quarter-turn": "alike after a quarter turn",
        "half-turn": "alike after a half turn",
        "mirror": "alike in a mirror",
        "diagonal-mirror": "alike in a mirror along a diagonal",
        "none": "without symmetry",
    }
    parts = [said[symmetry]] if symmetry else []
    if meet:
        parts.append("sewn so that all seams meet")
    return " and ".join(parts)


def _plans(
    grid: Grid, looks: Looks, fits: Meeting, chosen: Sequence[Arrangement], calls: Sequence[str]
) -> tuple[ArrangementPlan, ...]:
    texts = [_look_text(calls[look.block], look) for look in looks.looks]
    numbers: dict[Arrangement, int] = {}
    plans: list[ArrangementPlan] = []
    for number, one in enumerate(chosen, 1):
        repeat = grid.repeat_of(one, looks)
        rows = tuple(tuple(one[r * grid.columns : (r + 1) * grid.columns]) for r in range(grid.rows))
        plans.append(
            ArrangementPlan(
                number=number,
                rows=rows,
                text=table_text([[texts[look] for look in row] for row in rows]),
                symmetry=symmetry_words(grid.symmetries(one, looks)),
                meet=fits.everywhere(grid, one),
                same_as=numbers.get(repeat),
            )
        )
        numbers.setdefault(repeat, number)
    return tuple(plans)


def table_text(rows: Sequence[Sequence[str]]) -> str:
    """The lines of a table that is laid twice each way, cells under one another."""
    columns = len(rows[0])
    wide = [max(len(row[column]) for row in rows) for column in range(columns)]
    lines = [f"lay {columns * 2} by {len(rows) * 2}"]
    for row in rows:
        cells = " | ".join(cell.ljust(size) for cell, size in zip(row, wide, strict=True)).rstrip()
        lines.append(f"    {'| ' if columns == 1 else ''}{cells}")
    return "\n".join(lines)


def _look_text(call: str, look: Look) -> str:
    parts = (call, "reversed" if look.motion >= MIRROR else "", TURN_WORDS[look.motion % 4])
    return " ".join(part for part in parts if part)


def _picture(unit: Unit, build: Build) -> Panel:
    """The finished cloth of a block as it lies, its lower left corner at the origin."""
    table = Table(build.settings, 0)
    edge = finished_outline(unit)
    left, floor = min(p.floats[0] for p in edge), min(p.floats[1] for p in edge)
    shift = (-left, -floor)
    table.put_cloth(unit, shift)
    return table.panel(clip=points(edge, shift))
