"""Lengths of cloth below which no plan can go, found without a solver."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from math import gcd

from piecewright.plan.cloth.ladder import MARKS
from piecewright.plan.cloth.layout import Kind, Segment, Strip, ways
from piecewright.plan.cloth.model import Sheet
from piecewright.plan.cloth.purchase import Task
from piecewright.plan.cloth.relax import Field, relax
from piecewright.plan.cloth.segments import rising

_SUMS = 100_000  # areas, in units of their greatest common divisor, up to which sums are looked through
_PARTS = 24  # how many parts the width is divided into at most for the rounding functions


def roll_length(kinds: Sequence[Kind], width: int) -> int:
    """A length that any way of cutting needs, whole and in no step.

    A *dual feasible function* u gives each width a weight such that widths that fit side by side never weigh more
    than the cloth: so the heights of the pieces, each times its weight, add up to at most the length times the
    cloth's weight. The area is the case u(w) = w. The functions are those of Fekete and Schepers (small widths
    weigh nothing, large ones all) and their rounding of (k + 1) w / W; a piece that may turn counts with the lesser
    of both ways.
    """
    best = 0
    sides = [side for kind in kinds for side in ((kind.width, kind.height) if kind.turns else (kind.width,))]
    for weight, whole in weights(width, sides):
        best = max(best, _weighed(kinds, width, weight, whole))
    return best


def weights(width: int, sides: Iterable[int]) -> Iterator[tuple[Callable[[int], int], int]]:
    """The dual feasible functions for a width and what the whole width weighs by each. `sides`: the lengths at which
    those functions may change that let small ones weigh nothing."""
    for small in sorted({0} | {side for side in sides if 2 * side <= width}):
        yield _cut_off(width, small), width
    for parts in range(1, _PARTS + 1):
        yield _rounded(width, parts), width * parts


def bar_field(kinds: Sequence[Kind], width: int) -> Field:
    """The *bar relaxation*: a line across the cloth meets pieces whose widths fit in it, and as the line goes down the
    cloth each piece is met for just its height, however it is cut. So bars that hold widths, in fractions, never need
    more length than the pieces. A piece is counted by area: a bar that meets its side gives that side times its own
    height."""
    segments, limits = [], list[int]()
    for i, kind in enumerate(kinds):
        for wide, _ in ways(kind):
            if wide <= width and kind.number:
                segments.append(Segment(1, wide, ((i, wide, 1, wide),)))
                limits.append(kind.number)
    demand = [kind.width * kind.height * kind.number for kind in kinds]
    return Field(width, segments, limits, demand, [])


def strip_counts(kinds: Sequence[Kind], width: int) -> list[tuple[int, int]]:
    """Strip-count cuts for plans in two stages: at least so many strips are at least so high, since the pieces that
    need that height do not fit side by side in fewer. From the tallest on, only where the number rises."""
    found: list[tuple[int, int]] = []
    before = 0
    known: list[Strip] = []
    least = [kind.width if kind.turns else kind.height for kind in kinds]
    for height in sorted({high for high, kind in zip(least, kinds, strict=True) if kind.number}, reverse=True):
        needing = [kind.number if high >= height else 0 for high, kind in zip(least, kinds, strict=True)]
        number, known = _lines([kind.width for kind in kinds], needing, width, known)
        if number > before:
            found.append((height, number))
            before = number
    return found


def _lines(sides: Sequence[int], numbers: Sequence[int], width: int, known: Sequence[Strip]) -> tuple[int, list[Strip]]:
    """How many lines of that width are needed at least for so many of each side, and fillings of lines that were found
    useful. `known`: those found for fewer sides."""
    pieces = [Kind(side, 1, False, number, ()) for side, number in zip(sides, numbers, strict=True)]
    segments = rising([Segment(1, side, ((i, side, 1, 1),)) for i, side in enumerate(sides) if numbers[i]])
    field = Field(width, segments, numbers_of(segments, numbers), list(numbers), [])
    solved = relax(field, known, MARKS, 1 << 60)
    return max(roll_length(pieces, width), solved.bound), solved.columns


def numbers_of(segments: Sequence[Segment], numbers: Sequence[int]) -> list[int]:
    """How often each segment can be wanted at most."""
    return [min(numbers[kind] // times for kind, _, _, times in segment.stack) for segment in segments]


def any_area(kinds: Sequence[Kind], given: Sequence[int], sheets: Sequence[Sheet]) -> int:
    """An area of sheets that any way of cutting needs: that of the pieces, or where all sheets are alike what a whole
    number of them must hold by weight, with dual feasible functions across and along."""
    pieces = [kind._replace(number=number) for kind, number in zip(kinds, given, strict=True) if number]
    plain = sum(kind.width * kind.height * kind.number for kind in pieces)
    if len(sheets) != 1:
        return plain
    width, height = sheets[0].width, sheets[0].height
    best = plain
    sides = sorted({0} | {side for kind in pieces for side in (kind.width, kind.height)})
    for small in (side for side in sides if 2 * side <= width):
        across = _cut_off(width, small)
        for low in (side for side in sides if 2 * side <= height):
            along = _cut_off(height, low)
            total = 0
            for kind in pieces:
                each = [across(wide) * along(high) for wide, high in ways(kind) if wide <= width and high <= height]
                total += min(each) * kind.number
            best = max(best, total)
    return best


def least_sheets(least: int, sheets: Sequence[Sheet]) -> int:
    """The smallest area of at least that size which whole sheets can make."""
    areas = sorted({sheet.width * sheet.height for sheet in sheets if sheet.width > 0 and sheet.height > 0})
    if not areas or least <= 0:
        return 0
    unit = gcd(*areas)
    units = [one // unit for one in areas]
    target = -(-least // unit)
    if len(areas) == 1 or target > _SUMS:
        return target * unit
    reached = [True] + [False] * (target + units[0])
    for total in range(1, len(reached)):
        reached[total] = any(one <= total and reached[total - one] for one in units)
    return next(total for total in range(target, len(reached)) if reached[total]) * unit


def beside_scraps(task: Task, given: Sequence[int]) -> int:
    """What must be bought, by area, when all scraps are used up; `given` is how many of each kind are cut."""
    left = sum(kind.width * kind.height * count for kind, count in zip(task.kinds, given, strict=True))
    for scrap in task.stock.scraps:
        if scrap.count is None:
            return 0
        left -= scrap.width * scrap.height * scrap.count
    left = max(left, 0)
    if task.stock.width > 0:
        return task.stock.ladder.sold(-(-left // task.stock.width))
    return least_sheets(left, task.stock.sheets)


def _weighed(kinds: Sequence[Kind], width: int, weight: Callable[[int], int], whole: int) -> int:
    total = 0
    for kind in kinds:
        each = kind.height * weight(kind.width)
        if kind.turns and kind.height <= width:
            each = min(each, kind.width * weight(kind.height))
        total += kind.number * each
    return -(-total // whole)


def _cut_off(width: int, small: int) -> Callable[[int], int]:
    def weight(side: int) -> int:
        return width if side > width - small else side if side >= small else 0

    return weight


def _rounded(width: int, parts: int) -> Callable[[int], int]:
    """(k + 1) w / W kept where whole, else rounded down and divided by k; all times k W to stay whole."""

    def weight(side: int) -> int:
        whole, rest = divmod((parts + 1) * side, width)
        return whole * width if rest else side * parts

    return weight
