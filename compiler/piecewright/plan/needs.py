"""From rows of the cut list to what is asked of the cloth planner, in whole marks of the ruler.

A row becomes one need, or several: a piece longer than the cloth is joined from full strips and ends, and pieces
cut at an angle take strips of their own. Each need knows which row it serves.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from typing import Literal

from piecewright.dataclass import dataclass
from piecewright.exact import Exact
from piecewright.kernel.build import Fabric, Settings
from piecewright.plan.cloth.model import Need
from piecewright.plan.cutlist import CutRow
from piecewright.plan.joining import joined_strips, without_scraps
from piecewright.plan.leaning import length_for, per_strip
from piecewright.plan.rounding import up_to_mark

TooLarge = Literal["", "both ways", "as it lies"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """A need and what it is for: `row`, the place of a row in the cut list, and `gives`, how many of its pieces one
    such part gives (0 of a part that is only joined to another). `what`: a piece; a full strip or an end that is joined
    to others; or a strip from which pieces are cut at an angle."""

    need: Need
    row: int
    what: Literal["piece", "full", "end", "slanted"]
    gives: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Asking:
    """All needs of one fabric. `joins`: of a row, how many full strips and which ends make a piece, in inches;
    `too_large`: rows whose pieces are larger than the cloth, and whether only `as it lies` or whichever way they lie.
    """

    asked: tuple[Asked, ...]
    joins: tuple[tuple[int, int, tuple[Exact, ...]], ...]
    too_large: tuple[tuple[int, TooLarge], ...]

    @property
    def needs(self) -> tuple[Need, ...]:
        return tuple(one.need for one in self.asked)


def asking(rows: Iterable[tuple[int, CutRow]], fabric: Fabric, settings: Settings) -> Asking:
    """What the rows, each with its place in the cut list, ask of a fabric."""
    mark = settings.ruler
    cloth = _Cloth(fabric, settings)
    asked: list[Asked] = []
    joins: list[tuple[int, int, tuple[Exact, ...]]] = []
    too_large: list[tuple[int, TooLarge]] = []
    for index, row in rows:
        if row.angle is not None:
            asked += _slanted(index, row, cloth, joins)
            continue
        across, down, turns = _sides(row, fabric, settings)
        large = "" if row.shape == "strip" else cloth.too_large(across, down, turns)
        if large:
            too_large.append((index, large))
        lies = cloth.lies(across, down, turns)
        if lies is None:
            full, ends, strip_of = cloth.joined(across, down)
            if ends or full:
                joins.append((index, full, ends))
                asked += _joined(index, row.count, full, ends, strip_of, mark, turns and cloth.sheet)
                continue
            lies = across, down
        wide = marks(lies[0], mark)
        if lies[0] <= cloth.across:  # a strip of the whole width, where that ends between two marks
            wide = min(wide, (cloth.across / mark).floor())
        need = Need(width=wide, height=marks(lies[1], mark), count=row.count, turns=turns)
        asked.append(Asked(need=need, row=index, what="piece", gives=1))
    return Asking(asked=tuple(asked), joins=tuple(joins), too_large=tuple(too_large))


def marks(length: Exact, mark: Exact) -> int:
    """A length to cut, in marks, rounded up."""
    return (length / mark).ceil()


def left_of(length: Exact, shrinks: Exact, mark: Exact) -> Exact:
    """What washing leaves of a length, down to a mark."""
    return mark * (length * (1 - shrinks) / mark).floor()


class _Cloth:
    """What one length or sheet of a fabric holds, in inches; `down` is None where it is as long as one likes."""

    def __init__(self, fabric: Fabric, settings: Settings) -> None:
        self.settings, self.fabric = settings, fabric
        sold = fabric.sold or settings.sold
        self.sheet = sold.step is None
        self.across = fabric.usable
        self.down = None if sold.down is None else left_of(sold.down, fabric.shrinks, settings.ruler)
        self.scraps = [(scrap.across, scrap.down) for scrap in fabric.scraps]

    def holds(self, across: Exact, down: Exact) -> bool:
        own = across <= self.across and (self.down is None or down <= self.down)
        return own or any(across <= wide and down <= high for wide, high in self.scraps)

    def lies(self, across: Exact, down: Exact, turns: bool) -> tuple[Exact, Exact] | None:
        """The piece as it lies where the cloth holds it whole; a long one is not laid along cloth of any length."""
        if self.holds(across, down):
            return across, down
        if turns and (self.down is not None or self.scraps) and self.holds_turned(across, down):
            return down, across
        return None

    def holds_turned(self, across: Exact, down: Exact) -> bool:
        return (self.down is not None and down <= self.across and across <= self.down) or any(
            down <= wide and across <= high for wide, high in self.scraps
        )

    def too_large(self, across: Exact, down: Exact, turns: bool) -> TooLarge:
        """Whether joining strips one way does not make the piece, or only its direction is in the way."""
        if self.holds(across, down) or (turns and self.holds(down, across)):
            return ""
        if not turns and self.holds(down, across):
            return "as it lies"
        if self.down is None:
            return "both ways" if min(across, down) > self.across else ""
        return "both ways" if min(across, down) > max(self.across, self.down) else ""

    def joined(self, across: Exact, down: Exact) -> tuple[int, tuple[Exact, ...], tuple[Exact, Exact, bool]]:
        """Full strips and ends for a piece that is too long, and how they lie: length, width, and whether downward."""
        mark, seam = self.settings.ruler, self.settings.seam
        downward = self.down is not None and down > self.down and across <= self.across
        limit, long, short = (self.down, down, across) if downward else (self.across, across, down)
        assert limit is not None
        limit = mark * (limit / mark).floor()
        full, rest = joined_strips(long, limit, seam)
        full, ends = without_scraps(full, rest, limit, mark)
        return full, ends, (limit, short, downward)


def _joined(
    index: int,
    count: int,
    full: int,
    ends: tuple[Exact, ...],
    strip_of: tuple[Exact, Exact, bool],
    mark: Exact,
    turns: bool,
) -> list[Asked]:
    """The parts of each piece; the first counts as the piece."""
    limit, short, downward = strip_of
    found: list[Asked] = []
    lengths: list[tuple[Literal["full", "end"], Exact, int]] = [("end", end, 1) for end in ends]
    if full:
        lengths.append(("full", limit, full))
    for what, length, times in lengths:
        wide, high = marks(length, mark), marks(short, mark)
        if downward:
            wide, high = high, wide
        for gives, number in (((0, times),) if found else ((1, 1), (0, times - 1))):
            if number:
                need = Need(width=wide, height=high, count=number * count, turns=turns)
                found.append(Asked(need=need, row=index, what=what, gives=gives))
    return found


def _slanted(
    index: int, row: CutRow, cloth: _Cloth, joins: list[tuple[int, int, tuple[Exact, ...]]]
) -> list[Asked]:
    """Full strips, the last only as long as it must be; of a piece that no strip holds, strips joined end to end."""
    mark, directional = cloth.settings.ruler, cloth.fabric.directional
    each, length = per_strip(row, cloth.across, mark, directional)
    wide, high = (cloth.across / mark).floor(), marks(row.height, mark)
    if not each:
        full, rest = joined_strips(length, cloth.across, cloth.settings.seam)
        joins.append((index, full, (rest,) if rest else ()))
        return _joined(index, row.count, full, (rest,) if rest else (), (mark * wide, row.height, False), mark, False)
    whole, rest_count = divmod(row.count, each)
    found: list[Asked] = []
    if whole:
        need = Need(width=wide, height=high, count=whole, turns=False)
        found.append(Asked(need=need, row=index, what="slanted", gives=each))
    if rest_count:
        length = length_for(rest_count, row, mark, directional)
        need = Need(width=min(marks(length, mark), wide), height=high, count=1, turns=False)
        found.append(Asked(need=need, row=index, what="slanted", gives=rest_count))
    return found


def _sides(row: CutRow, fabric: Fabric, settings: Settings) -> tuple[Exact, Exact, bool]:
    """Across and down as a piece lies on the cloth, as the ruler cuts it, and whether it may turn."""
    mark = settings.ruler
    sides = up_to_mark(row.width, mark), up_to_mark(row.height, mark)
    if row.radius is not None:
        # above a straight edge the arc bulges past its end, to r + 2s
        sides = (up_to_mark(row.radius + settings.seam * 2, mark),) * 2
    if row.shape == "strip":  # which may be as long as the cloth is wide, wherever that ends
        return min(sides[1], max(row.height, fabric.usable)), sides[0], False
    if fabric.directional or row.shape == "panel":  # of a backing, whose selvages are decided
        return (*sides, False)
    short, long = sorted(sides)
    if row.lengthwise or fabric.lengthwise:
        return short, long, short == long
    return long, short, True


def of_print(row: CutRow) -> CutRow:
    """What a row takes of one of its prints."""
    return replace(row, units=(("", row.each or 0),))
