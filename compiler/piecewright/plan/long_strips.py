"""Long strips of one fabric: the ways in which they may be cut, and how much cloth none of them does without."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from itertools import combinations

from piecewright.exact import Exact
from piecewright.plan.cloth.layout import Kind, kinds_of
from piecewright.plan.cloth.longs import Long as LongMarks
from piecewright.plan.cloth.longs import area, too_short
from piecewright.plan.cloth.model import Stock
from piecewright.plan.needs import Asking, Long, Way, marks

_FEW = 2  # rows of which all choices are tried; of more, all of them whole and each by itself


def other_ways(asked: Asking) -> Iterator[tuple[dict[int, Way], Exact]]:
    """Beside all strips of a width together: each joined by itself, and rows whole; with the length of cloth that
    takes at least, in inches."""
    if any(joint.count > 1 for joint in asked.joints):
        yield {one.row: "apart" for one in asked.longs}, Exact(0)
    whole = [one for one in asked.longs if one.whole is not None]
    sizes = range(len(whole), 0, -1) if len(whole) <= _FEW else (len(whole), 1)
    for size in sizes:
        for chosen in combinations(whole, size):
            yield {one.row: "whole" for one in chosen}, max(one.reach for one in chosen)


def bounds_by_length(
    asked: Asking,
    missing: dict[int, int],
    stock: Stock,
    bought: Exact,
    step: Exact,
    mark: Exact,
    seam: Exact,
    cut_of: Callable[[Exact], int],
) -> tuple[Exact, Exact]:
    """What is bought at least where joined strips are joined from segments across the cloth, and by any way of cutting;
    both at most `bought`, a multiple of `step`. `cut_of`: how many marks are there to be cut of what is bought.
    `missing`: row and how many pieces of it are not given. With scraps, only area counts."""
    kinds, longs = _plain(asked, missing), _in_marks(asked.longs, missing, mark)
    loss = (seam * 2 / mark).floor()
    on_hand = sum(scrap.width * scrap.height * (scrap.count or 0) for scrap in stock.scraps)
    largest = max((max(scrap.width, scrap.height) for scrap in stock.scraps), default=0)

    def lacks(length: int, across: bool) -> bool:
        if not stock.scraps:
            return too_short(kinds, longs, stock.width, length, loss, across=across)
        return area(kinds, longs, max(stock.width, length, largest), loss) > stock.width * length + on_hand

    def least(across: bool) -> Exact:
        found = bought
        while found > 0 and not lacks(cut_of(found - step), across):
            found -= step
        return found

    bound = least(True)
    return bound, min(bound, least(False))


def sheets_at_least(
    asked: Asking, missing: dict[int, int], stock: Stock, number: Exact, mark: Exact, seam: Exact
) -> Exact:
    """How many sheets must be bought, by area; at most `number`."""
    kinds, longs = _plain(asked, missing), _in_marks(asked.longs, missing, mark)
    sheet = stock.sheets[0]
    longest = max(max(one.width, one.height) for one in (*stock.sheets, *stock.scraps))
    on_hand = sum(scrap.width * scrap.height * (scrap.count or 0) for scrap in stock.scraps)
    left = max(area(kinds, longs, longest, (seam * 2 / mark).floor()) - on_hand, 0)
    return min(number, Exact(-(-left // (sheet.width * sheet.height))))


def _plain(asked: Asking, missing: dict[int, int]) -> list[Kind]:
    """What is asked beside the long strips, without what is missing."""
    long = {one.row for one in asked.longs}
    needs = []
    for one in asked.asked:
        if one.row not in long:
            lacking = min(-(-missing.get(one.row, 0) // max(one.gives, 1)), one.need.count)
            needs.append(replace(one.need, count=one.need.count - lacking))
    return kinds_of(needs)


def _in_marks(longs: Sequence[Long], missing: dict[int, int], mark: Exact) -> list[LongMarks]:
    return [
        LongMarks(
            length=marks(one.length, mark),
            width=marks(one.width, mark),
            number=one.count - missing.get(one.row, 0),
            turns=one.turns or one.downward,
        )
        for one in longs
        if one.count > missing.get(one.row, 0)
    ]
