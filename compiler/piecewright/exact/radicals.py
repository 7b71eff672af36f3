"""Whole numbers under a root."""

from __future__ import annotations

from math import isqrt

Terms = tuple[tuple[int, int], ...]
"""Multiples of square roots: (square-free radicand > 1, multiplier != 0), by radicand."""

_LARGEST_TRIAL = 1_000_000


class OutsideNumbers(ArithmeticError):
    """The result is no sum of rational multiples of square roots (or its radicand is too large to reduce)."""


def square_part(n: int) -> tuple[int, int]:
    """(f, r) with n = f²·r and r square-free, for n >= 0 ((0, 1) for 0).

    Trial division up to the cube root: what is left then is a square, a prime or a product of two
    primes. `OutsideNumbers` when that would take too long.
    """
    factor = radicand = 1
    p = 2
    while True:
        # n has changed, or is new: often all the rest is a square
        whole = isqrt(n)
        if whole * whole == n:
            return factor * whole, radicand
        while n % p:
            p += 1 if p == 2 else 2
            if p * p * p > n:
                return factor, radicand * n
            if p > _LARGEST_TRIAL:
                raise OutsideNumbers("the number under the root is too large")
        n //= p
        if n % p == 0:
            n //= p
            factor *= p
        else:
            radicand *= p
