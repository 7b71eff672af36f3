"""The table of the best fillings of a strip against counting every filling."""

from __future__ import annotations

import random
from itertools import product

import pytest
from piecewright.plan.cloth.knapsack import Fillings
from piecewright.plan.cloth.layout import Segment


def segment(kind: int, width: int, height: int) -> Segment:
    return Segment(height, width, ((kind, width, height, 1),))


@pytest.mark.parametrize("run", range(10))
def test_no_filling_is_worth_more(run: int) -> None:
    for seed in range(20 * run, 20 * run + 20):
        rng = random.Random(seed)
        unit = rng.choice([1, 1, 3])
        room = unit * rng.randint(4, 14)
        number = rng.randint(1, 4)
        segments = sorted(segment(i, unit * rng.randint(1, 6), rng.randint(1, 5)) for i in range(number))
        values = [rng.choice([0, 1, rng.randint(1, 10), rng.randint(1, 1 << 40)]) for _ in segments]
        limits = [rng.choice([0, 1, 2, 9]) for _ in segments]
        table = Fillings(room, segments, values, limits)
        counts = list(product(*(range(min(limit, 14) + 1) for limit in limits)))
        for level, (height, whole) in enumerate(table.levels):
            low = [i for i, one in enumerate(segments) if one.height <= height]
            for width in range(unit, room + 1, unit):
                best = max(
                    sum(values[i] * count[i] for i in low)
                    for count in counts
                    if sum(segments[i].width * count[i] for i in low) <= width
                )
                assert table.value(level, width) == best
                strip = table.strip(level, width)
                held = dict(strip.segments)
                place = {one: i for i, one in enumerate(segments)}
                assert sum(one.width * times for one, times in held.items()) <= width
                assert all(times <= limits[place[one]] for one, times in held.items())
                assert sum(values[place[one]] * times for one, times in held.items()) == best
            assert whole == table.value(level, room)
