"""The field of sums of square roots, on plain parts: any number of roots, without regard to speed.

Parts are (n, d, t) for (n + Σ c√r)/d with d > 0, in lowest terms together.
"""

from __future__ import annotations

from math import gcd

from piecewright.exact.conversion import approximation
from piecewright.exact.radicals import OutsideNumbers, Terms, square_part

Parts = tuple[int, int, Terms]


def lowest(n: int, d: int, t: Terms) -> Parts:
    """Parts with d > 0 and no zero multiplier, brought to lowest terms."""
    if d != 1:
        g = gcd(n, d, *[c for _, c in t])
        if g != 1:
            return n // g, d // g, tuple([(r, c // g) for r, c in t])
    return n, d, t


def add(a: Parts, b: Parts, sign: int = 1) -> Parts:
    """a + sign·b."""
    an, d, t = a
    bn, e, u = b
    g = gcd(d, e)
    fa = e // g
    fb = d // g * sign
    merged = {r: c * fa for r, c in t}
    for r, c in u:
        merged[r] = merged.get(r, 0) + c * fb
    return lowest(an * fa + bn * fb, d * fa, _terms(merged))


def multiply(a: Parts, b: Parts) -> Parts:
    an, d, t = a
    bn, e, u = b
    products = {1: an * bn}
    for r, c in t:
        products[r] = c * bn
    for s, f in u:
        products[s] = products.get(s, 0) + f * an
    for r, c in t:
        for s, f in u:
            # √r·√s = g·√((r/g)·(s/g)) with g = gcd(r, s); the last radicand is square-free again
            g = gcd(r, s)
            rs = (r // g) * (s // g)
            products[rs] = products.get(rs, 0) + c * f * g
    n = products.pop(1)
    return lowest(n, d * e, _terms(products))


def invert(a: Parts) -> Parts:
    """1/a, by multiplying with conjugates until the denominator is rational; `ZeroDivisionError` for zero."""
    numerator: Parts = (1, 1, ())
    while a[2]:
        without, with_root = _split(a)
        conjugate = add(without, with_root, -1)
        numerator = multiply(numerator, conjugate)
        a = multiply(a, conjugate)
    n, d, _ = a
    if n == 0:
        raise ZeroDivisionError("division by zero")
    return multiply(numerator, (d, n, ()) if n > 0 else (-d, -n, ()))


def square_root(a: Parts) -> Parts:
    """The square root that is not negative; `OutsideNumbers` when it is no sum of square roots."""
    return _square_root(a, len(a[2]))


def _square_root(a: Parts, budget: int) -> Parts:
    """√a. Let a = A + B√b, A and B without √b, and y² = a with y a sum of square roots.

    By Kummer's theorem y = k√m with k in the field of a and m whole. So s = y·y', y' being the conjugate over
    √b, lies in the field without √b; s² = A² - B²b; and y = √((A + s)/2) ± √((A - s)/2), two roots in the field
    without √b. Each level takes one independent root away, and there are no more of them than terms: when
    the `budget` of that many levels is used up, no root exists.
    """
    n, d, t = a
    if _sign(a) < 0:
        raise OutsideNumbers("the square root of a negative number")
    if not t:
        top, r = square_part(n)
        bottom, s = square_part(d)
        # √(r/s) = √(r·s)/s, and r·s is square-free: r and s are, and they have no common factor
        return (top, bottom, ()) if r * s == 1 else lowest(0, bottom * s, ((r * s, top),))
    if budget > 0:
        without, with_root = _split(a)
        s_parts = _square_root(add(multiply(without, without), multiply(with_root, with_root), -1), budget - 1)
        half: Parts = (1, 2, ())
        first = _square_root(multiply(add(without, s_parts), half), budget - 1)
        second = _square_root(multiply(add(without, s_parts, -1), half), budget - 1)
        y = add(first, second, _sign(with_root))
        if multiply(y, y) == a:
            return y
    raise OutsideNumbers("the square root is no sum of square roots")


def _sign(a: Parts) -> int:
    n, d, t = a
    top = approximation(n, d, t)[0] if t else n
    return (top > 0) - (top < 0)


def _terms(multipliers: dict[int, int]) -> Terms:
    return tuple(sorted([item for item in multipliers.items() if item[1]]))


def _independent_root(t: Terms) -> int:
    """Some b > 1 such that every radicand is a multiple of b or prime to it.

    Changing the sign of √b, hence of every term whose radicand is a multiple of b, is then an
    automorphism of the field that the terms span.
    """
    b = t[0][0]
    for r, _ in t:
        g = gcd(b, r)
        if g != 1:
            b = g
    return b


def _split(a: Parts) -> tuple[Parts, Parts]:
    """The terms without some independent √b and those with it: a is the sum of the two, and their difference
    its conjugate."""
    n, d, t = a
    b = _independent_root(t)
    without = tuple([(r, c) for r, c in t if r % b])
    with_root = tuple([(r, c) for r, c in t if not r % b])
    return lowest(n, d, without), lowest(0, d, with_root)
