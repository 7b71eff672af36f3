"""How pieces are cut from cloth so that least is bought: the way in.

Cloth by the length is cut into strips across its width, strips into pieces, and where that saves cloth pieces are
cut one above another out of a strip. Scraps are used where less is bought then, and no more of them than that takes.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Literal, NamedTuple

from piecewright.plan.cloth.bounds import beside_scraps
from piecewright.plan.cloth.layout import Teller, kinds_of
from piecewright.plan.cloth.model import CuttingPlan, Need, Part, Sheet, Stock, Used
from piecewright.plan.cloth.neat_sheets import neat_each
from piecewright.plan.cloth.purchase import Filled, Purchase, Task
from piecewright.plan.cloth.roll import buy_length
from piecewright.plan.cloth.sheets import buy_sheets, fill_scraps


class _Choice(NamedTuple):
    scraps: list[int]
    cut: list[Filled]
    bought: Purchase

    def cost(self) -> tuple[int, int]:
        return sum(self.bought.lacking), self.bought.bought


def plan_cloth(
    needs: Sequence[Need], stock: Stock, *, cuts: int = 3, solver: bool | None = None, sketch: bool = False
) -> CuttingPlan:
    """A plan for all needs that the stock can give, and how good it is at least.

    Lengths are whole numbers of one unit. `cuts`: 2 keeps to strips and sub-cuts of them; 3 also stacks pieces in a
    strip, where less is bought then. `solver`: None uses highspy where it is installed, False never. `sketch`: of cloth
    by the length only a plan that is found at once, strip after strip. The same arguments always give the same plan.
    What cannot be given is `missing`; nothing is raised for it."""
    task = Task(kinds_of(needs), stock, cuts, solver, sketch)
    best = _with(task, [])
    if stock.scraps and any(best.cost()):
        size = [sheet.width * sheet.height for sheet in stock.scraps]
        other = _with(task, sorted(range(len(size)), key=lambda i: (-size[i], i)))
        if other.cost() < best.cost():
            best = other
            for place in sorted({one.place for one in other.cut}, key=lambda i: (-size[i], i)):
                fewer = _with(task, [i for i in best.scraps if i != place])
                if fewer.cost() <= best.cost():
                    best = fewer
    return _told(needs, task, best)


def _with(task: Task, scraps: list[int]) -> _Choice:
    """The best with these scraps, which are filled first; what is bought cannot give is then cut from the others."""
    demand = [kind.number for kind in task.kinds]
    cut, left = fill_scraps(task, demand, scraps)
    bought = buy_length(task, left) if task.stock.width > 0 else buy_sheets(task, left)
    if any(bought.lacking):
        others = [i for i in range(len(task.stock.scraps)) if i not in scraps]
        more, lacking = fill_scraps(task, bought.lacking, others)
        cut, bought = [*cut, *more], bought._replace(lacking=lacking)
    return _Choice(scraps, cut, bought)


def _told(needs: Sequence[Need], task: Task, choice: _Choice) -> CuttingPlan:
    bought = choice.bought
    scraps = neat_each(task, task.stock.scraps, choice.cut, deep=task.cuts > 2)
    teller = Teller(task.kinds, needs)
    used = list(_sheets(teller, "scrap", task.stock.scraps, scraps))
    used += _sheets(teller, "sheet", task.stock.sheets, bought.sheets)
    roll = None
    if bought.strips:
        width = task.stock.width
        roll = Part(width=width, height=bought.length, split="rows", parts=teller.strips(width, bought.strips))
    bound, any_bound = bought.bound, bought.any_bound
    if task.stock.scraps:
        given = [kind.number - lack for kind, lack in zip(task.kinds, bought.lacking, strict=True)]
        bound = any_bound = beside_scraps(task, given)
    return CuttingPlan(
        bought=bought.bought,
        length=bought.length,
        bound=bound,
        any_bound=any_bound,
        proved=bought.bought == bound,
        stages=max([_stages(roll, roll=True), *(_stages(one.part) for one in used)]),
        roll=roll,
        used=tuple(used),
        missing=tuple(teller.missing()),
    )


def _sheets(
    teller: Teller, source: Literal["scrap", "sheet"], sheets: tuple[Sheet, ...], cut: list[Filled]
) -> Iterator[Used]:
    for one in cut:
        sheet, times = sheets[one.place], one.times
        while times:
            alike = min(times, teller.alike(one.strips))
            part = teller.sheet(sheet.width, sheet.height, one.strips, alike)
            yield Used(source=source, index=one.place, part=part)
            times -= alike


def _stages(part: Part | None, *, roll: bool = False) -> int:
    """Cuts between the cloth and a piece, trims not counted, at least two; none where nothing is cut. The first cut of
    a roll is never a trim."""

    def inner(part: Part, first: bool = False) -> int:
        if part.split is None:
            return 0
        trim = len(part.parts) == 1 and part.parts[0].times == 1 and not first
        return max(inner(one) for one in part.parts) + (not trim)

    return 0 if part is None else max(2, inner(part, roll))
