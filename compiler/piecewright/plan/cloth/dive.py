"""Whole plans from fractional ones: strips are fixed a few at a time, and the rest is relaxed again."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

from piecewright.plan.cloth.layout import Strip, Strips, clipped, merged
from piecewright.plan.cloth.relax import Field, Relaxed, relax
from piecewright.plan.cloth.sequence import limits, roll_round

_TABLES = 40


def dives(
    field: Field,
    solved: Relaxed,
    share: float,
    pool: dict[Strip, None],
    cuts: Callable[[Sequence[int]], list[tuple[int, int]]],
) -> Iterator[Strips]:
    """Plans on the way of one dive. A strip of the fractional plan is cut as often as its whole part says, and once
    more where the part over is at least `share`; if there is none, the strip with the largest part. After each step
    the rest is also filled strip by strip with the prices of the moment, which gives a plan. All strips met are put
    into the pool. `cuts`: the strip-count cuts for what is left."""
    left = list(field.demand)
    made: Strips = []
    pool.update(dict.fromkeys(solved.columns))
    known = solved.columns
    now = solved
    while True:
        prices = [price * 16 + 1 for price in now.prices]
        rest = roll_round(field.width, field.segments, prices, left)
        pool.update(dict.fromkeys(strip for strip, _ in rest))
        yield merged(made + rest)
        fixed = _fixed(now.amounts, left, share)
        if not fixed:
            return
        made += fixed
        if not any(left):
            yield merged(made)
            return
        known = [strip for strip in known if _within(strip, left)]
        smaller = field._replace(demand=list(left), limits=_limits(field, left), cuts=cuts(left))
        now = relax(smaller, known, 1, 1 << 60, _TABLES)
        known = list(dict.fromkeys([*known, *now.columns]))
        pool.update(dict.fromkeys(now.columns))


def _fixed(amounts: Sequence[tuple[Strip, float]], left: list[int], share: float) -> Strips:
    """The strips to cut now; they are taken from `left`."""
    ordered = sorted(amounts, key=lambda pair: (-(pair[1] % 1), -pair[0].height, pair[0].segments))
    fixed: Strips = []
    for strip, amount in ordered:
        whole = int(amount + 1e-6)
        _fix(strip, whole, left, fixed)
    for place, (strip, amount) in enumerate(ordered):
        part = amount - int(amount + 1e-6)
        if part >= share or (not fixed and place == 0):
            _fix(strip, 1, left, fixed)
    return fixed


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


def _limits(field: Field, left: Sequence[int]) -> list[int]:
    return [min(old, new) for old, new in zip(field.limits, limits(field.segments, left), strict=True)]
