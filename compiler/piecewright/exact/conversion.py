"""Exact numbers as floats, as whole numbers and as hashes.

A number comes as its parts: numerator n of the rational part, common denominator d > 0, and the terms t, so
that it is (n + Σ c√r)/d.
"""

from __future__ import annotations

import sys
from math import inf, isqrt, sqrt

from piecewright.exact.radicals import Terms

RELATIVE_ERROR = 2.0**-43
"""Bounds the relative error of every float made here that is finite and not below `TINY`."""

TINY = 1e-290
"""Near the smallest floats the relative error is unbounded: no decision rests on a difference below this."""


_MODULUS = sys.hash_info.modulus
_INVERSES: dict[int, int] = {}  # of small denominators, modulo that


def float_of(n: int, d: int, t: Terms) -> float:
    """The value as a float, with a relative error below `RELATIVE_ERROR`; infinite past the largest float.

    A term rounds at most three times (multiplier, root, product), a sum of m terms and the rational part m
    times, the quotient twice: the error is below (m + 6)·2⁻⁵³ of the sum of absolute values. With m up to 16,
    and the total more than a sixteenth of that sum, the relative error is below 22·16·2⁻⁵³ < 2⁻⁴⁴. Where
    the terms cancel further, integers of growing precision take over.
    """
    if not t:
        try:
            return n / d
        except OverflowError:
            return inf if n > 0 else -inf
    if len(t) <= 16:
        try:
            total = float(n)
            size = abs(total)
            for r, c in t:
                term = c * sqrt(r)
                total += term
                size += abs(term)
            value = total / d
        except OverflowError:
            pass
        else:
            if TINY < abs(value) < inf and abs(total) * 16.0 > size:
                return value
    top, bottom = approximation(n, d, t)
    try:
        return top / bottom
    except OverflowError:
        return inf if top > 0 else -inf


def fixed_point(n: int, t: Terms, bits: int) -> tuple[int, int]:
    """(total, error): n + Σ c√r, times 2^bits, lies between total - error and total + error."""
    total = n << bits
    for r, c in t:
        # isqrt is less than one below the root
        root = isqrt((c * c * r) << (2 * bits))
        total += root if c > 0 else -root
    return total, len(t)


def approximation(n: int, d: int, t: Terms) -> tuple[int, int]:
    """Numerator and denominator of a rational with the sign of the value, off by less than 2⁻⁶⁰ of its size.

    For a value with at least one term: it is not zero, so some precision is enough.
    """
    bits = 64
    while True:
        total, error = fixed_point(n, t, bits)
        if abs(total) > error << 60:
            return total, d << bits
        bits *= 2


def floor_of(n: int, d: int, t: Terms) -> int:
    """The largest whole number not above the value."""
    if not t:
        return n // d
    bits = 64
    while True:
        total, error = fixed_point(n, t, bits)
        scale = d << bits
        low = (total - error) // scale
        if low == (total + error) // scale:
            return low
        bits *= 2


def hash_of(n: int, d: int, t: Terms) -> int:
    """Equal to the hash of an equal `int` or `Fraction`, by the rule that Python documents for numeric types."""
    if t:
        return hash((n, d, t))
    if d == 1:
        return hash(n)
    inverse = _INVERSES.get(d)
    if inverse is None:
        try:
            inverse = pow(d, -1, _MODULUS)
        except ValueError:  # d is a multiple of the modulus
            return sys.hash_info.inf if n > 0 else -sys.hash_info.inf
        if d <= 1024:
            _INVERSES[d] = inverse
    h = hash(hash(abs(n)) * inverse)
    if n < 0:
        h = -h
    return -2 if h == -1 else h
