"""Plans for random cuttings: always sound, and for small ones as good as they say."""

from __future__ import annotations

from math import ceil, inf

import pytest
from cloth.brute import Brute
from cloth.cuttings import any_size, small, small_sheets
from cloth.verifier import verify
from piecewright.plan.cloth.planner import plan_cloth

RUNS = 20


@pytest.mark.parametrize("run", range(RUNS))
def test_every_plan_is_sound(run: int) -> None:
    """Thirty cuttings a run, of every kind of stock; every third in two stages, every fourth with the solver."""
    faults: list[str] = []
    for seed in range(30 * run, 30 * run + 30):
        needs, stock = any_size(seed)
        cuts = 2 if seed % 3 == 0 else 3
        plan = plan_cloth(needs, stock, cuts=cuts, solver=None if seed % 4 == 0 else False)
        faults += [f"{seed}: {fault}" for fault in verify(needs, stock, plan)]
        if cuts == 2 and plan.stages > 2:
            faults.append(f"{seed}: two stages asked, {plan.stages} planned")
    assert faults == []


@pytest.mark.parametrize("run", range(RUNS))
def test_small_plans_agree_with_trying_every_way(run: int) -> None:
    """No bound is above what some cutting needs, and what is called proved cannot be done with less."""
    faults: list[str] = []
    for seed in range(10 * run, 10 * run + 10):
        needs, stock = small(seed)
        every = Brute(needs)
        least = [_up(every.least_length(stock.width, stages), stock.step) for stages in (None, 2, 3)]
        for cuts in (2, 3):
            plan = plan_cloth(needs, stock, cuts=cuts)
            here = f"{seed} in {cuts}: {plan.bought} bought, bound {plan.bound}, any {plan.any_bound}, least {least}"
            faults += [f"{here}: {fault}" for fault in verify(needs, stock, plan)]
            of_stages = {2: least[1], 3: least[2]}.get(max(plan.stages, 2), least[0])
            if plan.any_bound > least[0] or plan.bound > of_stages:
                faults.append(f"{here}: a bound too high")
            if plan.bought < of_stages or (plan.proved and plan.bought != of_stages):
                faults.append(f"{here}: less than can be")
    assert faults == []


def test_few_small_plans_are_not_the_least() -> None:
    """Of two hundred: how many in two stages, and by default against any through cuts."""
    worse = {2: 0, 3: 0}
    for seed in range(200):
        needs, stock = small(seed)
        every = Brute(needs)
        for cuts in (2, 3):
            least = every.least_length(stock.width, 2 if cuts == 2 else None)
            worse[cuts] += plan_cloth(needs, stock, cuts=cuts).bought > _up(least, stock.step)
    assert worse[2] == 0
    assert worse[3] <= 7


@pytest.mark.parametrize("run", range(4))
def test_small_plans_of_sheets_agree_with_trying_every_way(run: int) -> None:
    faults: list[str] = []
    for seed in range(25 * run, 25 * run + 25):
        needs, stock = small_sheets(seed)
        sheet = stock.sheets[0]
        every = Brute(needs).fewest_sheets(sheet.width, sheet.height)
        plan = plan_cloth(needs, stock)
        faults += [f"{seed}: {fault}" for fault in verify(needs, stock, plan)]
        number = plan.bought / (sheet.width * sheet.height)
        bound = plan.any_bound / (sheet.width * sheet.height)
        if (every == inf) != bool(plan.missing) or (every < inf and not bound <= every <= number):
            faults.append(f"{seed}: {number} sheets, bound {bound}, least {every}, missing {plan.missing}")
    assert faults == []


def _up(length: int | float, step: int) -> int:
    return ceil(length / step) * step
