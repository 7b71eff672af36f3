"""Whether a cutting plan can be carried out and is what it claims to be, found without the planner's code.

The tree of cuts is checked cut by cut; then every piece is laid out at its coordinates, and the coordinates alone
are checked for overlaps (a sweep along the cloth) and for through cuts. A fault is one line of text that starts
with where it is.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from typing import NamedTuple

from piecewright.plan.cloth.model import CuttingPlan, Need, Part, Stock


class Placed(NamedTuple):
    """A piece where it lies on one cloth, from the top left corner."""

    left: int
    top: int
    right: int
    bottom: int
    need: int


def verify(needs: Sequence[Need], stock: Stock, plan: CuttingPlan) -> list[str]:
    """The faults of a plan for `needs` from `stock`; none of a sound one."""
    faults: list[str] = []
    cloths = _cloths(stock, plan, faults)
    got: Counter[int] = Counter()
    stages = 0
    for name, part, sheets in cloths:
        faults += [f"{name}: {fault}" for fault in _cut_faults(part, needs, "cloth")]
        placed = list(_lay_out(part, 0, 0))
        for one in placed:
            got[one.need] += sheets
        faults += [f"{name}: {fault}" for fault in _layout_faults(placed, part.width, part.height)]
        stages = max(stages, _stages(part, first=name == "roll") or 0)
    faults += _missing_faults(needs, stock, plan, got)
    faults += _bought_faults(stock, plan)
    if not stages <= plan.stages <= max(2, stages):
        faults.append(f"stages: {plan.stages} claimed, but the cuts make it {stages}")
    return faults


def _cloths(stock: Stock, plan: CuttingPlan, faults: list[str]) -> list[tuple[str, Part, int]]:
    """Name, cuts and number of every cloth that is cut. Faults of what the stock does not hold."""
    found: list[tuple[str, Part, int]] = []
    if plan.roll is not None:
        found.append(("roll", plan.roll, 1))
        if plan.roll.width != stock.width:
            faults.append(f"roll: {plan.roll.width} wide, but the cloth is {stock.width}")
        if plan.roll.times != 1:
            faults.append(f"roll: {plan.roll.times} of it")
        if plan.roll.split != "rows":
            faults.append("roll: not cut across first")
    taken: Counter[tuple[str, int]] = Counter()
    for one in plan.used:
        there = stock.scraps if one.source == "scrap" else stock.sheets
        name = f"{one.source} {one.index}"
        if not 0 <= one.index < len(there):
            faults.append(f"{name}: not in the stock")
            continue
        sheet = there[one.index]
        if (one.part.width, one.part.height) != (sheet.width, sheet.height):
            size = f"{one.part.width} by {one.part.height}"
            faults.append(f"{name}: cut as {size}, but it is {sheet.width} by {sheet.height}")
        taken[one.source, one.index] += one.part.times
        found.append((name, one.part, one.part.times))
    for (source, index), times in taken.items():
        count = (stock.scraps if source == "scrap" else stock.sheets)[index].count
        if count is not None and times > count:
            faults.append(f"{source} {index}: used {times} times, but there are {count}")
    return found


def _cut_faults(part: Part, needs: Sequence[Need], where: str) -> Iterator[str]:
    """What is wrong with the cuts of a part, taken as its own; each fault with the path to it."""
    if part.width <= 0 or part.height <= 0 or part.times <= 0:
        yield f"{where}: {part.times} of {part.width} by {part.height} is nothing"
    if part.need is not None:
        yield from _piece_faults(part, needs, where)
    elif part.turned:
        yield f"{where}: turned, but no piece"
    if part.split is None:
        if part.parts:
            yield f"{where}: parts, but no cut"
        return
    if not part.parts:
        yield f"{where}: cut into no parts"
    used = 0
    for place, child in enumerate(part.parts):
        here = f"{where} {part.split} {place}"
        if part.split == "rows":
            used += child.height * child.times
            if child.width != part.width:
                yield f"{here}: {child.width} wide, but a cut across leaves {part.width}"
        else:
            used += child.width * child.times
            if child.height != part.height:
                yield f"{here}: {child.height} high, but a cut along leaves {part.height}"
        yield from _cut_faults(child, needs, here)
    room = part.height if part.split == "rows" else part.width
    if used > room:
        yield f"{where}: {part.split} take {used} of {room}"


def _piece_faults(part: Part, needs: Sequence[Need], where: str) -> Iterator[str]:
    assert part.need is not None
    if part.split is not None or part.parts:
        yield f"{where}: a piece that is cut again"
    if not 0 <= part.need < len(needs):
        yield f"{where}: no need {part.need}"
        return
    need = needs[part.need]
    if part.turned and not need.turns:
        yield f"{where}: need {part.need} must not be turned"
    size = (need.height, need.width) if part.turned else (need.width, need.height)
    if (part.width, part.height) != size:
        yield f"{where}: {part.width} by {part.height}, but need {part.need} is {size[0]} by {size[1]}"


def _lay_out(part: Part, left: int, top: int) -> Iterator[Placed]:
    """Every piece of a part whose corner is at (left, top); the part itself once, whatever its times."""
    if part.need is not None:
        yield Placed(left, top, left + part.width, top + part.height, part.need)
        return
    for child in part.parts:
        for _ in range(max(child.times, 0)):
            yield from _lay_out(child, left, top)
            if part.split == "rows":
                top += child.height
            else:
                left += child.width


def _layout_faults(placed: list[Placed], width: int, height: int) -> Iterator[str]:
    for one in placed:
        if one.left < 0 or one.top < 0 or one.right > width or one.bottom > height:
            yield f"need {one.need} at {one.left}, {one.top} reaches beyond {width} by {height}"
    clash = _overlap(placed)
    if clash is not None:
        one, other = clash
        yield f"need {one.need} at {one.left}, {one.top} overlaps need {other.need} at {other.left}, {other.top}"
    elif not _separable(placed):
        yield "the pieces cannot be parted by through cuts"


def _overlap(placed: list[Placed]) -> tuple[Placed, Placed] | None:
    """The first two pieces that share cloth, by a line swept down it."""
    open_now: list[Placed] = []
    for one in sorted(placed, key=lambda piece: (piece.top, piece.left)):
        open_now = [other for other in open_now if other.bottom > one.top]
        for other in open_now:
            if other.left < one.right and one.left < other.right:
                return other, one
        open_now.append(one)
    return None


def _separable(placed: list[Placed]) -> bool:
    """Whether through cuts alone part all pieces. Any cut that goes through no piece may be made first: what
    other cuts were to part stays partable on either side of it."""
    waiting = [placed]
    while waiting:
        pieces = waiting.pop()
        if len(pieces) < 2:
            continue
        groups = _groups([(one.top, one.bottom, one) for one in pieces])
        if len(groups) == 1:
            groups = _groups([(one.left, one.right, one) for one in pieces])
        if len(groups) == 1:
            return False
        waiting += groups
    return True


def _groups(spans: list[tuple[int, int, Placed]]) -> list[list[Placed]]:
    """The pieces grouped by where no span reaches across."""
    groups: list[list[Placed]] = []
    end = -1
    for low, high, one in sorted(spans):
        if not groups or low >= end:
            groups.append([])
        groups[-1].append(one)
        end = max(end, high)
    return groups


def _stages(part: Part, *, first: bool = False) -> int | None:
    """The most cuts between a part and a piece, None where it holds no piece. The first cut of a roll, into strips,
    always counts; any other that leaves one part that holds pieces is a trim."""
    if part.need is not None:
        return 0
    full = [(child.times, below) for child in part.parts if (below := _stages(child)) is not None]
    if not full:
        return None
    trim = len(full) == 1 and full[0][0] == 1 and not first
    return max(below for _, below in full) + (0 if trim else 1)


def _missing_faults(needs: Sequence[Need], stock: Stock, plan: CuttingPlan, got: Counter[int]) -> Iterator[str]:
    missing: Counter[int] = Counter()
    for index, count in plan.missing:
        if not 0 <= index < len(needs) or count <= 0 or index in missing:
            yield f"missing: {count} of need {index}"
        missing[index] += count
    for index, need in enumerate(needs):
        if got[index] + missing[index] != need.count:
            yield f"need {index}: {got[index]} cut and {missing[index]} missing, but {need.count} needed"
    used: Counter[tuple[str, int]] = Counter()
    for one in plan.used:
        used[one.source, one.index] += one.part.times
    whole = [(s.width, s.height) for i, s in enumerate(stock.scraps) if s.count is None or used["scrap", i] < s.count]
    whole += [(s.width, s.height) for i, s in enumerate(stock.sheets) if s.count is None or used["sheet", i] < s.count]
    for index in missing:
        if not 0 <= index < len(needs):
            continue
        need = needs[index]
        sizes = [(need.width, need.height)] + ([(need.height, need.width)] if need.turns else [])
        if any(across <= stock.width for across, _ in sizes):
            yield f"need {index}: called missing, but the cloth by length gives it"
        if any(across <= width and down <= height for across, down in sizes for width, height in whole):
            yield f"need {index}: called missing, but it fits a sheet that is left"


def _bought_faults(stock: Stock, plan: CuttingPlan) -> Iterator[str]:
    if stock.width:
        cut = sum(row.height * row.times for row in plan.roll.parts) if plan.roll is not None else 0
        if plan.length != cut:
            yield f"length: {plan.length} claimed, but {cut} is cut"
        if plan.bought % stock.step:
            yield f"bought: {plan.bought} is no multiple of {stock.step}"
        lost = stock.margin if cut else 0
        if not cut * stock.per + lost <= plan.bought < cut * stock.per + lost + stock.step:
            yield f"bought: {plan.bought} for a length of {plan.length} in steps of {stock.step}"
        if plan.roll is not None and not cut <= plan.roll.height <= max(plan.bought // stock.per, cut):
            yield f"roll: {plan.roll.height} high, but {plan.bought} is bought"
        for name, bound in (("bound", plan.bound), ("any_bound", plan.any_bound)):
            if bound % stock.step:
                yield f"{name}: {bound} is no multiple of {stock.step}"
        if any(one.source == "sheet" for one in plan.used):
            yield "bought: sheets beside cloth by length"
    else:
        if plan.roll is not None:
            yield "roll: there is no cloth by length"
        area = sum(one.part.width * one.part.height * one.part.times for one in plan.used if one.source == "sheet")
        if plan.bought != area:
            yield f"bought: {plan.bought} claimed, but the sheets used have {area}"
    if not 0 <= plan.any_bound <= plan.bound <= plan.bought:
        yield f"bounds: not 0 <= {plan.any_bound} <= {plan.bound} <= {plan.bought}"
    if plan.proved != (plan.bought == plan.bound):
        yield f"proved: {plan.proved}, but {plan.bought} is bought and the bound is {plan.bound}"
