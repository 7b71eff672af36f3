"""From rows of the cut list to what is asked of the cloth planner, in whole marks of the ruler.

A row becomes one need, or several: strips longer than the cloth are joined from full strips and ends, in one `Way` or
another, and pieces cut at an angle take strips of their own. Each need knows which rows it serves.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from typing import Literal

from piecewright.dataclass import dataclass
from piecewright.exact import Exact
from piecewright.kernel.build import Fabric, Settings
from piecewright.plan.bends import bend_box
from piecewright.plan.cloth.model import Need
from piecewright.plan.cutlist import CutRow
from piecewright.plan.joining import Joint, apart, beginnings, may_join, together
from piecewright.plan.leaning import length_for, per_strip
from piecewright.plan.rounding import up_to_mark

TooLarge = Literal["", "both ways", "as it lies"]


Way = Literal["together", "apart", "whole"]
"""How a row of long strips is cut: from the one long strip of its width, each joined by itself, or whole along the
selvage or from a scrap."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """A need and what it is for: `row`, the place of a row in the cut list, and `gives`, how many of its pieces one
    such part gives. `what`: a piece; a full strip or an end that is joined to others; or a strip from which pieces are
    cut at an angle. Of a strip that is joined `begins` are the rows of the pieces that begin in each such part, in the
    order of sewing, `joint` is the place of the joint among those of the fabric, and `downward` says that it runs along
    the cloth."""

    need: Need
    row: int
    what: Literal["piece", "full", "end", "slanted"]
    gives: int
    begins: tuple[tuple[int, ...], ...] = ()
    joint: int = -1
    downward: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Long:
    """Strips of one row that may be joined, since no strip across the cloth is long enough: so many, as the ruler cuts
    them, in inches. Each is joined from strips as long as `limit`, `downward` if those run along the cloth. `whole`: as
    it lies, across and down, where cloth may hold it whole; then `reach` is the length of cloth that takes, 0 from a
    scrap. `turns`: whether it may be turned; `rough`: a die cuts its strips, which are joined with no others."""

    row: int
    count: int
    length: Exact
    width: Exact
    limit: Exact
    downward: bool
    turns: bool
    whole: tuple[Exact, Exact] | None
    reach: Exact = Exact(0)
    rough: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Asking:
    """All needs of one fabric. `longs`: the rows that are joined or may be, and `joints` how they are;
    `too_large`: rows whose pieces are larger than the cloth, and whether only `as it lies` or whichever way they lie.
    """

    asked: tuple[Asked, ...]
    joints: tuple[Joint, ...]
    longs: tuple[Long, ...]
    too_large: tuple[tuple[int, TooLarge], ...]

    @property
    def needs(self) -> tuple[Need, ...]:
        return tuple(one.need for one in self.asked)

    def rows_of(self, place: int) -> tuple[int, ...]:
        """The rows that the need at that place serves."""
        one = self.asked[place]
        return (one.row,) if one.joint < 0 else tuple(sorted({row for row, _, _ in self.joints[one.joint].pieces}))


def asking(
    rows: Iterable[tuple[int, CutRow]], fabric: Fabric, settings: Settings, ways: Mapping[int, Way] | None = None
) -> Asking:
    """What the rows, each with its place in the cut list, ask of a fabric. `ways`: how rows of long strips are cut,
    together unless it says otherwise."""
    cloth = _Cloth(fabric, settings)
    asked: list[Asked] = []
    longs: list[Long] = []
    too_large: list[tuple[int, TooLarge]] = []
    for index, row in rows:
        if row.angle is not None:
            asked += _slanted(index, row, cloth, too_large)
            continue
        across, down, turns = _sides(row, fabric, settings)
        long = cloth.long(index, row, across, down, turns)
        if long is not None:
            longs.append(long)
            if (ways or {}).get(index) == "whole" and long.whole is not None:
                asked.append(_piece(index, row, *long.whole, turns, cloth))
            continue
        large = cloth.too_large(across, down, turns)
        if large:
            too_large.append((index, large))
        asked.append(_piece(index, row, across, down, turns, cloth))
    joints = _joints([one for one in longs if (ways or {}).get(one.row) != "whole"], ways or {}, settings)
    for place, joint in enumerate(joints):
        turns = cloth.sheet and any(one.turns for one in longs if one.row == joint.pieces[0][0])
        asked += _parts(place, joint, settings.ruler, turns)
    return Asking(asked=tuple(asked), joints=tuple(joints), longs=tuple(longs), too_large=tuple(too_large))


def across_instead(row: CutRow, fabric: Fabric, settings: Settings) -> Exact | None:
    """Of a row whose pieces are longer than the cloth is wide, are no strips that may be joined and so lie along the
    selvage though nobody says so: the length of cloth that joined strips would take, where that is less."""
    if row.angle is not None or may_join(row) or row.lengthwise or fabric.lengthwise or fabric.assorted:
        return None
    across, down, turns = _sides(row, fabric, settings)
    cloth, seam = _Cloth(fabric, settings), settings.seam
    if cloth.sheet or not turns or cloth.holds(across, down) or not cloth.holds(down, across):
        return None
    if cloth.on_hand(across, down, turns):
        return None
    strips = ((across * row.count - seam * 2) / (cloth.across - seam * 2)).ceil()
    return down * strips if down * strips < across else None


def _piece(index: int, row: CutRow, across: Exact, down: Exact, turns: bool, cloth: _Cloth) -> Asked:
    mark = cloth.settings.ruler
    wide = marks(across, mark)
    if across <= cloth.across:  # a strip of the whole width, where that ends between two marks
        wide = min(wide, (cloth.across / mark).floor())
    need = Need(width=wide, height=marks(down, mark), count=row.count, turns=turns)
    return Asked(need=need, row=index, what="piece", gives=1)


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
        return self._own(across, down) or self.on_hand(across, down, False)

    def _own(self, across: Exact, down: Exact) -> bool:
        return across <= self.across and (self.down is None or down <= self.down)

    def on_hand(self, across: Exact, down: Exact, turns: bool) -> bool:
        return any(
            (across <= wide and down <= high) or (turns and down <= wide and across <= high)
            for wide, high in self.scraps
        )

    def too_large(self, across: Exact, down: Exact, turns: bool) -> TooLarge:
        """Whether no cloth holds the piece, or only its direction is in the way."""
        if self.holds(across, down) or (turns and self.holds(down, across)):
            return ""
        return "as it lies" if not turns and self.holds(down, across) else "both ways"

    def long(self, index: int, row: CutRow, across: Exact, down: Exact, turns: bool) -> Long | None:
        """The row as strips that may be joined, None where they need not or must not be."""
        if not may_join(row) or self._own(across, down):
            return None
        if turns and self.down is not None and self._own(down, across):
            return None
        # a strip that may turn runs the longer way of a sheet
        if turns and self.down is not None and self.down > self.across:
            across, down = down, across
        downward = self.down is not None and down > self.down and across <= self.across
        limit, length, width = (self.down, down, across) if downward else (self.across, across, down)
        assert limit is not None
        mark = self.settings.ruler
        limit = mark * (limit / mark).floor()
        if limit <= self.settings.seam * 2 or (not downward and self.down is not None and width > self.down):
            return None
        whole, reach = None, Exact(0)
        if self.holds(across, down) or (turns and self.holds(down, across)):
            whole = across, down
            reach = Exact(0) if self.on_hand(across, down, turns) else length
        return Long(
            row=index,
            count=row.count,
            length=length,
            width=width,
            limit=limit,
            downward=downward,
            turns=turns,
            whole=whole,
            reach=reach,
            rough=row.lies is not None,
        )


def _joints(longs: Sequence[Long], ways: Mapping[int, Way], settings: Settings) -> list[Joint]:
    """Rows of one width that run the same way share a long strip; rows that are cut apart have each a joint."""
    groups: dict[tuple[object, ...], list[Long]] = {}
    for one in longs:
        own = ways.get(one.row) == "apart"
        alike = one.width, one.limit, one.downward, one.turns, one.rough, one.row if own else -1
        groups.setdefault(alike, []).append(one)
    found: list[Joint] = []
    seam, mark = settings.seam, settings.ruler
    for key, group in groups.items():
        first = group[0]
        pieces = [(one.row, one.length, one.count) for one in group]
        if key[-1] == -1:
            found.append(together(pieces, first.width, first.limit, seam, mark, downward=first.downward))
        else:
            found.append(apart(*pieces[0], first.width, first.limit, seam, mark, downward=first.downward))
    return found


def _parts(place: int, joint: Joint, mark: Exact, turns: bool) -> list[Asked]:
    """The strips of a joint: the full ones, then the ends."""
    lengths: list[tuple[Literal["full", "end"], Exact, int]] = [("full", joint.limit, joint.full)] if joint.full else []
    lengths += [("end", end, 1) for end in joint.ends]
    row = joint.pieces[0][0]
    if joint.together:
        begun = beginnings(joint)
        ends = begun[joint.before : joint.before + len(joint.ends)]
        full = begun[: joint.before] + begun[joint.before + len(joint.ends) :]
        begins = ([full] if joint.full else []) + [(one,) for one in ends]
    else:
        begins = [
            (((row,) if n == 0 else ()),) + ((),) * (times - 1) for n, (_, _, times) in enumerate(lengths)
        ]
        begins = [one * joint.count for one in begins]
        lengths = [(what, length, times * joint.count) for what, length, times in lengths]
    found: list[Asked] = []
    for (what, length, times), starts in zip(lengths, begins, strict=True):
        wide, high = marks(length, mark), marks(joint.width, mark)
        if joint.downward:
            wide, high = high, wide
        need = Need(width=wide, height=high, count=times, turns=turns)
        found.append(Asked(need=need, row=row, what=what, gives=0, begins=starts, joint=place, downward=joint.downward))
    return found


def _slanted(index: int, row: CutRow, cloth: _Cloth, too_large: list[tuple[int, TooLarge]]) -> list[Asked]:
    """Full strips, the last only as long as it must be. A piece that no strip holds is one piece all the same, and
    too large."""
    mark, directional = cloth.settings.ruler, cloth.fabric.directional
    each, length = per_strip(row, cloth.across, mark, directional)
    wide, high = (cloth.across / mark).floor(), marks(row.height, mark)
    if not each:
        too_large.append((index, "both ways"))
        need = Need(width=marks(length, mark), height=high, count=row.count, turns=False)
        return [Asked(need=need, row=index, what="slanted", gives=1)]
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
    if row.lies is not None:
        return row.lies
    sides = up_to_mark(row.width, mark), up_to_mark(row.height, mark)
    if row.radius is not None:
        across, down = bend_box(row.shape, row.radius, settings.seam)
        sides = up_to_mark(across, mark), up_to_mark(down, mark)
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
