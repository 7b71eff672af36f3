"""Exact numbers against `fractions` and sympy: ratios within one run, each the best of several."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from itertools import pairwise
from time import perf_counter
from typing import Any

import pytest
import sympy
from piecewright.exact import Exact
from sympy.core.cache import clear_cache

pytestmark = pytest.mark.alone


def best(work: Callable[[], object], repeats: int) -> float:
    """The shortest of several runs, in seconds: what disturbs a run only lengthens it."""
    times = []
    for _ in range(repeats):
        start = perf_counter()
        work()
        times.append(perf_counter() - start)
    return min(times)


def corners(number: Callable[[int, int], Any]) -> list[Any]:
    """Coordinates as quilting has them: eighths and sixteenths up to some tens."""
    return [number((37 * i) % 611 - 200, (1, 2, 4, 8, 16)[i % 5]) for i in range(120)]


def work_of_a_clip(values: list[Any]) -> Callable[[], object]:
    """Differences, products, quotients and comparisons, as in cutting a polygon by a line."""

    def work() -> int:
        left = 0
        for a, b, c, d in zip(values, values[1:], values[2:], values[3:], strict=False):
            cross = (b - a) * (d - c) - (c - a) * (d - b)
            if cross > a and cross != d:
                left += 1
            a + (b - a) * (cross / (d * d + 1))
        return left

    return work


def test_rationals_are_faster_than_fractions() -> None:
    ours, theirs = work_of_a_clip(corners(Exact)), work_of_a_clip(corners(Fraction))
    assert ours() == theirs()
    assert best(theirs, 15) >= 2.0 * best(ours, 15)


def test_roots_are_far_faster_than_sympy() -> None:
    """The same sums and products with √2 and √3, simplified to one form, and their signs."""
    plain = corners(Exact)
    ours = [a + b * Exact.root(2) + a * Exact.root(3) / 4 for a, b in pairwise(plain)]
    theirs = [sympy.sympify(str(x), rational=True) for x in ours]

    def by_us() -> list[int]:
        return [((b - a) * (c - b) - a).sign() for a, b, c in zip(ours, ours[1:], ours[2:], strict=False)]

    def by_them() -> list[int]:
        crosses = [sympy.expand((b - a) * (c - b) - a) for a, b, c in zip(theirs, theirs[1:], theirs[2:], strict=False)]
        return [1 if cross.is_positive else -1 if cross.is_negative else 0 for cross in crosses]

    def by_them_afresh() -> list[int]:
        clear_cache()  # sympy remembers what it has worked out, and a second run would only look it up
        return by_them()

    assert by_us() == by_them()
    assert best(by_them_afresh, 3) >= 100 * best(by_us, 15)
