"""Sheets and scraps cut as somebody would cut them, where no more sheets are taken for it."""

from __future__ import annotations

from collections.abc import Sequence

from piecewright.plan.cloth.layout import Strips
from piecewright.plan.cloth.model import Sheet
from piecewright.plan.cloth.neat import MOST_STRIPS, Length, Neat, Sheets, cuts_of, laid_in
from piecewright.plan.cloth.purchase import Filled, Task
from piecewright.plan.cloth.ways import ways_of


def neat_sheets(task: Task, made: Sequence[Filled], *, deep: bool) -> list[Filled]:
    """The sheets that are bought, cut in fewer ways: all of one size anew, or each by itself. `deep`: pieces may lie
    one above another."""
    sheets = task.stock.sheets
    given = [0] * len(task.kinds)
    for one in made:
        _give(given, one.strips, one.times)
    kinds = [kind._replace(number=number) for kind, number in zip(task.kinds, given, strict=True)]
    plans = [list(made), neat_each(task, sheets, made, deep=deep)]
    area = area_of(sheets, made)
    for place, sheet in enumerate(sheets):
        each = sheet.width * sheet.height
        number = area // each if each > 0 else 0
        if sheet.count is not None:
            number = min(number, sheet.count)
        if 0 < number <= MOST_STRIPS:
            strips = Neat(Sheets(sheet.width, sheet.height, number), kinds, deep=deep).best([])
            if strips is not None:
                plans.append(neat_each(task, sheets, _filled(place, laid_in(strips, sheet.height)), deep=deep))
    return min(plans, key=lambda plan: _merit(sheets, plan))


def neat_each(task: Task, sheets: Sequence[Sheet], made: Sequence[Filled], *, deep: bool) -> list[Filled]:
    """Every sheet or scrap by itself cut in fewer ways."""
    found = list(made)
    for place, one in enumerate(made):
        sheet = sheets[one.place]
        given = [0] * len(task.kinds)
        _give(given, one.strips, 1)
        kinds = [kind._replace(number=number) for kind, number in zip(task.kinds, given, strict=True)]
        strips = Neat(Length(sheet.width, sheet.height, sheet.height), kinds, deep=deep).best([one.strips])
        if strips is not None:
            other = [*found[:place], one._replace(strips=strips), *found[place + 1 :]]
            found = min(found, other, key=lambda plan: _merit(sheets, plan))
    return found


def _give(given: list[int], strips: Strips, times: int) -> None:
    for strip, often in strips:
        for kind, each in strip.counts().items():
            given[kind] += each * often * times


def _filled(place: int, cut: Sequence[Strips]) -> list[Filled]:
    """Sheets cut alike together."""
    found: dict[tuple[object, ...], Filled] = {}
    for strips in cut:
        key = tuple(strips)
        before = found.get(key)
        found[key] = Filled(place, 1, strips) if before is None else before._replace(times=before.times + 1)
    return list(found.values())


def area_of(sheets: Sequence[Sheet], made: Sequence[Filled]) -> int:
    """What the sheets have together."""
    return sum(sheets[one.place].width * sheets[one.place].height * one.times for one in made)


def _merit(sheets: Sequence[Sheet], made: Sequence[Filled]) -> tuple[int, int, int]:
    """Area, ways, then strips and segments."""
    cloths = [(sheets[one.place].width, sheets[one.place].height, one.strips) for one in made]
    cuts = sum(one.times * cuts_of(one.strips, sheets[one.place].width)[0] for one in made)
    return area_of(sheets, made), ways_of(cloths), cuts
