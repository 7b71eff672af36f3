"""A shorter plan from a plan: some strips are taken out, and what lay in them is filled in again.

Strips with much waste are taken out sooner, by chance, and at times those of about one height; the chance is a row of
numbers that is always the same. What is filled in again may be as long as before, so that plans go on changing where
none is shorter.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from piecewright.plan.cloth.layout import Kind, Strips, exactly, length_of
from piecewright.plan.cloth.relax import Field
from piecewright.plan.cloth.sequence import corrected, roll_round

_FEWEST, _MOST = 6, 20  # strips taken out
_ROUNDS = 4
_NEAR = 4  # difference of height that halves the chance of a strip, where strips of about one height are taken out
_SPREAD = 300  # thousandths by which prices are raised by chance at most


class _Chance:
    """Numbers as if by chance, from 0 on and below a limit (a linear congruence modulo 2^64, factor from Knuth)."""

    def __init__(self) -> None:
        self._state = 2

    def below(self, limit: int) -> int:
        self._state = (self._state * 6364136223846793005 + 1442695040888963407) % (1 << 64)
        return (self._state >> 32) * limit >> 32


def refilled(
    field: Field, kinds: Sequence[Kind], plan: Strips, prices: Sequence[Sequence[int]], times: int
) -> Iterator[Strips]:
    """Plans no longer than the one before, each when it is shorter than all or has other strips. `prices`: of the
    kinds, each tried; `times`: how often strips are taken out."""
    chance = _Chance()
    size = [kind.width * kind.height for kind in kinds]
    now = plan
    for _ in range(times):
        units = [strip for strip, often in now for _ in range(often)]
        waste = [
            strip.height * field.width - sum(size[kind] * each for kind, each in strip.counts().items())
            for strip in units
        ]
        mean = sum(waste) // len(waste) + 1
        drawn = [(-(over + mean) * chance.below(1 << 20), place) for place, over in enumerate(waste)]
        if chance.below(2):
            height = units[min(drawn)[1]].height
            drawn = [(value // (1 + abs(units[place].height - height) // _NEAR), place) for value, place in drawn]
        drawn.sort()
        number = min(_FEWEST + chance.below(_MOST - _FEWEST + 1), len(units))
        out = {place for _, place in drawn[:number]}
        left = [0] * len(kinds)
        for place in out:
            for kind, each in units[place].counts().items():
                left[kind] += each
        price = [value + value * chance.below(_SPREAD) // 1000 for value in prices[chance.below(len(prices))]]
        before = sum(units[place].height for place in out)
        best = _filled(field, kinds, price, left, before)
        if length_of(best) <= before:
            kept: Strips = [(strip, 1) for place, strip in enumerate(units) if place not in out]
            now, _ = exactly(kept + best, field.demand)
            yield now


def _filled(field: Field, kinds: Sequence[Kind], prices: list[int], left: list[int], before: int) -> Strips:
    """The shortest of some rounds, or the first that is shorter than before."""
    best: Strips | None = None
    for _ in range(_ROUNDS):
        made = roll_round(field.width, field.segments, prices, left)
        if best is None or length_of(made) < length_of(best):
            best = made
        if length_of(best) < before:
            break
        prices = corrected(kinds, prices, [(field.width * strip.height, [(strip, 1)], times) for strip, times in made])
    assert best is not None
    return best
