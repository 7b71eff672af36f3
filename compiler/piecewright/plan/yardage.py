"""How much of a fabric to buy, and the plan it is cut by: one problem for each fabric.

`cut_cloth` takes rows of the cut list, a fabric and the settings, and gives the proved plan of the cloth planner with
what it means in inches. All that is rounded is rounded here or in the needs: pieces up to the ruler's mark, cloth down
to it, and what is bought up to how it is sold.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from math import lcm

from piecewright.dataclass import dataclass
from piecewright.exact import Exact
from piecewright.kernel.build import Build, Fabric, Settings, Sold
from piecewright.kernel.buying import to_buy
from piecewright.plan.cloth.model import CuttingPlan, Part, Sheet, Stock
from piecewright.plan.cloth.planner import plan_cloth
from piecewright.plan.cutlist import CutRow
from piecewright.plan.joining import without
from piecewright.plan.leaning import covered
from piecewright.plan.long_strips import bounds_by_length, other_ways, sheets_at_least
from piecewright.plan.needs import Asking, Way, asking, left_of

CUTS = 3
_CAREFUL = 2  # ways of cutting long strips, beside the first, that are planned with care
_MANY = 40  # needs of a fabric from which on no other way is tried


@dataclass(frozen=True, slots=True, kw_only=True)
class ClothCut:
    """One fabric, planned. Lengths in inches: `bought` by the length (zero of sheets), and what no plan of the kind
    (`bound`) and no way of cutting at all (`any_bound`, however a backing is pieced) does without; of sheets the same
    three are numbers of sheets. `washed` is what of `bought` is there to be cut. `waste` is the part of all cloth
    bought and used that is in no piece, and `remnant` the largest rectangle of it, across and down."""

    fabric: Fabric
    settings: Settings
    asking: Asking
    stock: Stock
    plan: CuttingPlan
    bought: Exact
    bound: Exact
    any_bound: Exact
    washed: Exact
    waste: Exact
    remnant: tuple[Exact, Exact] | None

    @property
    def sold(self) -> Sold:
        return self.fabric.sold or self.settings.sold

    @property
    def proved(self) -> bool:
        return self.bought == self.bound

    @property
    def mark(self) -> Exact:
        return self.settings.ruler


def cut_cloth(
    rows: Iterable[tuple[int, CutRow]], fabric: Fabric, settings: Settings, *, cuts: int = CUTS
) -> ClothCut:
    """The plan for rows of one fabric, each with its place in the cut list. `cuts`: 2 keeps to strips and sub-cuts."""
    own = list(rows)
    asked = asking(own, fabric, settings)
    if not asked.longs or len(asked.needs) > _MANY:
        return _planned(asked, own, fabric, settings, cuts)
    best = _planned(asked, own, fabric, settings, cuts)
    others = [
        asking(own, fabric, settings, ways) for ways, reach in other_ways(asked) if _may_be_better(best, ways, reach)
    ]
    # a quick plan of each tells which ones to plan with care: those that are no worse by it
    level = _quick(asked, fabric, settings)[:2] if others else (0, 0)
    quick = [(_quick(one, fabric, settings), place) for place, one in enumerate(others)]
    for _, place in sorted(one for one in quick if one[0][:2] <= level)[:_CAREFUL]:
        other = _planned(others[place], own, fabric, settings, cuts)
        if _rank(other) < _rank(best):
            best = other
    return best


def _may_be_better(best: ClothCut, ways: Mapping[int, Way], reach: Exact) -> bool:
    """Whether a plan with some strips whole, for which at least `reach` is cut, or with each joined by itself may be
    better than one that joins all together."""
    if best.sold.step is not None and to_buy(reach, best.fabric, best.sold.step) > best.bought:
        return False
    return "whole" in ways.values() or not best.proved or bool(best.plan.missing)


def _quick(asked: Asking, fabric: Fabric, settings: Settings) -> tuple[int, int, int]:
    """Pieces lacking, what is bought, and joined pieces of a plan that is made quickly."""
    plan = plan_cloth(asked.needs, stock_of(fabric, settings), cuts=2, solver=False, sketch=True)
    joined = sum(joint.count for joint in asked.joints)
    return sum(count for _, count in _lacking(asked, plan)), plan.bought, joined


def _rank(cut: ClothCut) -> tuple[int, Exact, int, int]:
    """Plans with less of this are better: pieces lacking, what is bought, joined pieces, strips."""
    parts = [(part, used.part.times) for used in cut.plan.used for part in cuts_of_sheet(used.part)]
    parts += [(part, 1) for part in cuts_of_sheet(cut.plan.roll)] if cut.plan.roll is not None else []
    strips = sum(part.times * sheets for part, sheets in parts)
    return (
        sum(count for _, count in lacking(cut)),
        cut.bought,
        sum(joint.count for joint in cut.asking.joints),
        strips,
    )


def _planned(
    asked: Asking, rows: Iterable[tuple[int, CutRow]], fabric: Fabric, settings: Settings, cuts: int
) -> ClothCut:
    stock = stock_of(fabric, settings)
    sold, mark = fabric.sold or settings.sold, settings.ruler
    step, seam = sold.step, settings.seam
    plan = plan_cloth(asked.needs, stock, cuts=cuts)
    if step is not None:
        bought, bound, any_bound = (step * (n // stock.step) for n in (plan.bought, plan.bound, plan.any_bound))
        washed = left_of(bought, fabric.shrinks, mark)
        if asked.longs:
            bound, any_bound = bounds_by_length(
                asked,
                dict(_lacking(asked, plan)),
                stock,
                bought,
                step,
                mark,
                seam,
                lambda length: marks_of(length, fabric, mark),
            )
    else:
        area = stock.sheets[0].width * stock.sheets[0].height
        number = sum(used.part.times for used in plan.used if used.source == "sheet")
        bought, bound, any_bound = Exact(number), Exact(-(-plan.bound // area)), Exact(-(-plan.any_bound // area))
        washed = Exact(0)
        if asked.longs:
            bound = any_bound = sheets_at_least(asked, dict(_lacking(asked, plan)), stock, bought, mark, seam)
    of_row = dict(rows)
    leaning = any(row.angle is not None for row in of_row.values())
    if leaning or is_backing(of_row.values()):
        any_bound = min(any_bound, _by_area(of_row, asked, stock, fabric, settings))
        bound = min(bound, any_bound) if leaning else bound
    return ClothCut(
        fabric=fabric,
        settings=settings,
        asking=asked,
        stock=stock,
        plan=plan,
        bought=bought,
        bound=bound,
        any_bound=any_bound,
        washed=washed,
        waste=_waste(asked, stock, plan, washed, mark),
        remnant=_remnant(stock, plan, mark),
    )


def is_backing(rows: Iterable[CutRow]) -> bool:
    """Whether panels of a backing are among what is cut, which could be other panels."""
    return any(row.shape == "panel" for row in rows)


def _by_area(
    rows: Mapping[int, CutRow], asked: Asking, stock: Stock, fabric: Fabric, settings: Settings
) -> Exact:
    """What no way of cutting does without, by area, however a backing is pieced and whichever pieces that are cut at an
    angle share a strip: of panels only what no seam takes, since what they show together is the backing; of long strips
    only what is no seam between their lengths; of pieces at an angle only themselves."""
    sold, mark = fabric.sold or settings.sold, settings.ruler
    seams = settings.seam * 2
    long = {one.row for one in asked.longs}
    cut = [(one.row, one.length, one.width, one.count) for one in asked.longs]
    cut += [
        (one.row, mark * one.need.width, mark * one.need.height, one.need.count)
        for one in asked.asked
        if one.row not in long and one.what != "slanted"
    ]
    area = sum((covered(rows[row]) * rows[row].count for row in rows if rows[row].angle is not None), Exact(0))
    for row, wide, high, count in cut:
        around = seams if rows[row].shape == "panel" else Exact(0)
        area += (wide - around) * (high - around) * count
    area -= sum((mark * one.width * mark * one.height * (one.count or 0) for one in stock.scraps), Exact(0))
    if sold.step is None:
        sheet = stock.sheets[0]
        return Exact(max(0, (area / (mark * sheet.width * mark * sheet.height)).ceil()))
    return to_buy(mark * max(0, (area / (mark * stock.width) / mark).ceil()), fabric, sold.step)


def stock_of(fabric: Fabric, settings: Settings) -> Stock:
    """The cloth there is, in marks, rounded down. What is sold by the length is given in such parts of a mark that a
    step, the margin, and what washing and a margin in percent leave of a step are whole numbers of them."""
    sold, mark = fabric.sold or settings.sold, settings.ruler
    scraps = tuple(
        Sheet(width=(one.across / mark).floor(), height=(one.down / mark).floor(), count=one.count)
        for one in fabric.scraps
    )
    wide = (fabric.usable / mark).floor()
    if sold.step is None:
        assert sold.down is not None
        high = (left_of(sold.down, fabric.shrinks, mark) / mark).floor()
        return Stock(width=0, scraps=scraps, sheets=(Sheet(width=wide, height=high, count=sold.only),))
    mark *= 1 + fabric.margin_part
    step, margin = (sold.step * (1 - fabric.shrinks) / mark).ratio, (fabric.margin / mark).ratio
    per = lcm(step[1], margin[1])
    return Stock(
        width=wide, step=step[0] * per // step[1], margin=margin[0] * per // margin[1], per=per, scraps=scraps
    )


def fabric_rows(build: Build, rows: tuple[CutRow, ...]) -> Iterator[tuple[Fabric, list[tuple[int, CutRow]]]]:
    """Each fabric that something is cut from, in the order of the pattern, with its rows."""
    own: dict[str, list[tuple[int, CutRow]]] = {}
    for index, row in enumerate(rows):
        own.setdefault(row.fabric, []).append((index, row))
    for fabric in build.fabrics:
        if fabric.name in own:
            yield fabric, own[fabric.name]


def marks_of(bought: Exact, fabric: Fabric, mark: Exact) -> int:
    """How many marks of what is bought may be cut, after washing and with the margin kept: `to_buy` backwards."""
    return max(((bought * (1 - fabric.shrinks) - fabric.margin) / (1 + fabric.margin_part) / mark).floor(), 0)


def lacking(cut: ClothCut) -> tuple[tuple[int, int], ...]:
    """What there is no cloth for: place in the cut list and how many pieces."""
    return _lacking(cut.asking, cut.plan)


def _lacking(asking: Asking, plan: CuttingPlan) -> tuple[tuple[int, int], ...]:
    found: dict[int, int] = {}
    parts: dict[int, list[int]] = {}
    for place, count in plan.missing:
        asked = asking.asked[place]
        if asked.joint >= 0:
            parts.setdefault(asked.joint, [0, 0])[asked.what == "end"] += count
        else:
            found[asked.row] = found.get(asked.row, 0) + asked.gives * count
    for joint, (full, ends) in parts.items():
        for row, count in without(asking.joints[joint], full, ends):
            found[row] = found.get(row, 0) + count
    return tuple(sorted(found.items()))


def cuts_of_sheet(part: Part) -> tuple[Part, ...]:
    """The strips of a sheet or of the cloth bought."""
    return part.parts if part.split == "rows" else (part,)


def rests(part: Part) -> Iterator[tuple[int, int, int, int]]:
    """What is left over of a part: x and y from its top left corner, width and height; of like parts each."""
    if part.need is not None:
        return
    x = y = 0
    for one in part.parts:
        for _ in range(one.times):
            for left, top, wide, high in rests(one):
                yield x + left, y + top, wide, high
            if part.split == "rows":
                y += one.height
            else:
                x += one.width
    if part.split == "rows":
        if y < part.height:
            yield 0, y, part.width, part.height - y
        for one, top in _tops(part):
            if one.width < part.width:
                yield one.width, top, part.width - one.width, one.height
    elif x < part.width:
        yield x, 0, part.width - x, part.height


def _tops(part: Part) -> Iterator[tuple[Part, int]]:
    y = 0
    for one in part.parts:
        for _ in range(one.times):
            yield one, y
            y += one.height


def _waste(asked: Asking, stock: Stock, plan: CuttingPlan, washed: Exact, mark: Exact) -> Exact:
    lacking = dict(plan.missing)
    pieces = sum(
        need.width * need.height * (need.count - lacking.get(place, 0)) for place, need in enumerate(asked.needs)
    )
    cloth = stock.width * (washed / mark).floor()
    cloth += sum(used.part.width * used.part.height * used.part.times for used in plan.used)
    return 1 - Exact(pieces, cloth) if cloth else Exact(0)


def _remnant(stock: Stock, plan: CuttingPlan, mark: Exact) -> tuple[Exact, Exact] | None:
    """The largest rest that is an inch or more both ways; what is smaller is a scrap."""
    found = [(stock.width, stock.ladder.room(plan.bought // stock.step) - plan.length)] if plan.roll else []
    for part in (*(used.part for used in plan.used), *([plan.roll] if plan.roll else [])):
        found += [(wide, high) for _, _, wide, high in rests(part)]
    large = [rest for rest in found if min(rest) * mark >= 1]
    wide, high = max(large, key=lambda rest: (rest[0] * rest[1], rest), default=(0, 0))
    return (mark * wide, mark * high) if large else None
