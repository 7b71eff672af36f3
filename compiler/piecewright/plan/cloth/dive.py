"""Whole plans from fractional ones: strips are fixed a few at a time, and the rest is relaxed again.

A dive goes back to another strip where the relaxation shows that the rest no longer goes into the length that is of
use. The strip-count cuts of the whole hold on the way too, each less by the strips fixed already.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from typing import NamedTuple

from piecewright.plan.cloth.ladder import MARKS
from piecewright.plan.cloth.layout import Strip, Strips, clipped, length_of, merged
from piecewright.plan.cloth.relax import Field, Relaxed, priced, relax
from piecewright.plan.cloth.sequence import fine, limits, roll_round

_TABLES = 40
_FILLED = 24  # strips that are still to be cut at most where the rest is filled without more ado
_OTHERS = 3  # strips tried in one place, and places where another than the first was tried


def by_amount(strip: Strip, amount: float) -> float:
    """Strips that are cut most often first."""
    return amount


def by_height(strip: Strip, amount: float) -> float:
    """Tall strips first, those of which there is less than one for that part of their height."""
    return min(amount, 1) * strip.height


class Way(NamedTuple):
    """How to dive: strips for which `first` is more are fixed first; `share`: of each strip of which there are several,
    so much is fixed at once; with or without strip-count cuts."""

    first: Callable[[Strip, float], float]
    share: float
    cuts: bool


WAYS = (Way(by_height, 0.5, True), Way(by_amount, 0.5, True), Way(by_height, 0, False))


class Dive:
    """One dive. `pool` takes up all strips met."""

    def __init__(
        self,
        field: Field,
        pool: dict[Strip, None],
        most: Callable[[], int],
        way: Way,
        nodes: int,
    ) -> None:
        """`most`: the longest plan that is of use at the moment; `nodes`: relaxations at most."""
        self._field, self._pool, self._most, self._way = field, pool, most, way
        self._left = nodes

    def plans(self, solved: Relaxed) -> Iterator[Strips]:
        """Plans met on the way, from the relaxation of the whole."""
        self._field = self._field._replace(cuts=priced(self._field, solved) if self._way.cuts else [])
        return self._below(solved, list(self._field.demand), [], solved.columns, 0)

    def _below(
        self, now: Relaxed, left: list[int], made: Strips, known: Sequence[Strip], others: int
    ) -> Iterator[Strips]:
        """`left`: what is still wanted, `now`: its relaxation; `made`: what is fixed."""
        if sum(amount for _, amount in now.amounts) <= _FILLED:
            width = self._field.width
            rest = roll_round(width, self._field.segments, fine(now.prices, width, now.unit), left)
            self._pool.update(dict.fromkeys(strip for strip, _ in rest))
            yield merged(made + rest)
        known = list(dict.fromkeys([*known, *now.columns]))
        ordered = sorted(now.amounts, key=lambda pair: (-self._way.first(*pair), -pair[0].height, pair[0].segments))
        share = [(strip, int(amount * self._way.share + 1e-6)) for strip, amount in ordered]
        choices = [share] if any(times for _, times in share) else [[(strip, 1)] for strip, _ in ordered[:_OTHERS]]
        for other, choice in enumerate(choices):
            if others + other > _OTHERS:
                break
            fewer, more = list(left), list(made)
            for strip, times in choice:
                _fix(strip, times, fewer, more)
            if not any(fewer):
                yield merged(more)
                continue
            if self._left == 0:
                break
            self._left -= 1
            used, most = length_of(more), self._most()
            still = [strip for strip in known if _within(strip, fewer)]
            then = relax(self._rest(fewer, more), still, MARKS, most - used + 1, _TABLES)
            self._pool.update(dict.fromkeys(then.columns))
            if used + then.bound <= most:
                yield from self._below(then, fewer, more, still, others + other)

    def _rest(self, left: list[int], made: Strips) -> Field:
        field = self._field
        fewer = [min(old, new) for old, new in zip(field.limits, limits(field.segments, left), strict=True)]
        still = [(high, count - sum(n for strip, n in made if strip.height >= high)) for high, count in field.cuts]
        return field._replace(demand=left, limits=fewer, cuts=[(high, count) for high, count in still if count > 0])


def _fix(strip: Strip, times: int, left: list[int], fixed: Strips) -> None:
    while times > 0:
        counts = strip.counts()
        whole = min(times, *(left[kind] // each for kind, each in counts.items()))
        if whole == 0:
            strip = clipped(strip, left)
            if not strip.segments:
                return
            continue
        fixed.append((strip, whole))
        times -= whole
        for kind, each in counts.items():
            left[kind] -= each * whole


def _within(strip: Strip, left: Sequence[int]) -> bool:
    return all(each <= left[kind] for kind, each in strip.counts().items())
