"""Exact real numbers: sums of rational multiples of square roots.

The set is closed under addition, subtraction, multiplication and division. Square roots of distinct
square-free integers are linearly independent over the rationals, so a number is zero exactly when
all its coefficients are, one value has one form, and equal values have equal hashes.

Inside: one common positive denominator over an integer and integer multiples of roots, all of them
together in lowest terms. Nothing here imports `fractions` until a caller asks for one: it brings
`decimal` and `numbers` with it, and most runs never need them.
"""

from __future__ import annotations

import sys
from math import gcd, inf, isqrt, sqrt
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from fractions import Fraction

_Terms = tuple[tuple[int, int], ...]  # (square-free radicand > 1, multiplier != 0), by radicand

# Of every cached float: relative error below this, given that the float is finite and normal (see `_float_of`).
_RELATIVE = 2.0**-43
# Below this two floats are not compared: near the smallest floats the relative error is unbounded.
_TINY = 1e-290
_LARGEST_TRIAL = 1_000_000
_MODULUS = sys.hash_info.modulus
_INVERSES: dict[int, int] = {}  # of small denominators, modulo that

_new = object.__new__


class OutsideNumbers(ArithmeticError):
    """The result is no sum of rational multiples of square roots (or its radicand is too large to reduce)."""


class Exact:
    """An exact number, `a + b√2 + c√3 + …`. Immutable.

    `Exact(7, 2)` is 7/2. The value may also be a `fractions.Fraction`; operands are `Exact` or `int`.
    Raises `ZeroDivisionError` for a zero denominator, `TypeError` for a float or anything else inexact.
    """

    __slots__ = ("_d", "_f", "_h", "_n", "_t")

    _n: int  # numerator of the rational part
    _d: int  # denominator of everything, > 0; gcd(_d, _n, all multipliers) == 1
    _t: _Terms
    _f: float | None  # the value as a float, once asked for
    _h: int | None

    def __init__(self, value: int | Fraction = 0, den: int = 1) -> None:
        if isinstance(value, int):
            n, d = int(value), 1
        else:
            try:
                n, d = value.numerator, value.denominator
            except AttributeError:
                raise TypeError(f"not an exact number: {value!r}") from None
        if not isinstance(den, int):
            raise TypeError(f"not a whole denominator: {den!r}")
        d *= den
        if d < 0:
            n, d = -n, -d
        elif d == 0:
            raise ZeroDivisionError("zero denominator")
        g = gcd(n, d)
        self._n = n // g
        self._d = d // g
        self._t = ()
        self._f = None
        self._h = None

    @classmethod
    def root(cls, n: int) -> Exact:
        """√n for a whole number n >= 0; `OutsideNumbers` for a negative one."""
        if n < 0:
            raise OutsideNumbers("the square root of a negative number")
        factor, radicand = _square_part(n)
        return _number(factor, 1, ()) if radicand == 1 else _number(0, 1, ((radicand, factor),))

    @classmethod
    def parse(cls, text: str) -> Exact:
        """The number that `str` writes so: `19/2 - 1/4*sqrt(2)`. `ValueError` for any other form."""
        total = _ZERO
        for piece in text.replace(" - ", " + -").split(" + "):
            total += _parse_term(piece, text)
        return total

    # ── arithmetic ──

    def __add__(self, other: Exact | int) -> Exact:
        if type(other) is Exact:
            if self._t or other._t:
                return _sum(self, other, 1)
            d = self._d
            e = other._d
            if d == e:
                n = self._n + other._n
            else:
                n = self._n * e + other._n * d
                d *= e
            if d != 1:
                g = gcd(n, d)
                if g != 1:
                    n //= g
                    d //= g
            x = _new(Exact)
            x._n = n
            x._d = d
            x._t = ()
            x._f = x._h = None
            return x
        if type(other) is int:
            # gcd(n + k·d, d) == gcd(n, d): still in lowest terms
            return _number(self._n + other * self._d, self._d, self._t)
        return NotImplemented

    __radd__ = __add__

    def __sub__(self, other: Exact | int) -> Exact:
        if type(other) is Exact:
            if self._t or other._t:
                return _sum(self, other, -1)
            d = self._d
            e = other._d
            if d == e:
                n = self._n - other._n
            else:
                n = self._n * e - other._n * d
                d *= e
            if d != 1:
                g = gcd(n, d)
                if g != 1:
                    n //= g
                    d //= g
            x = _new(Exact)
            x._n = n
            x._d = d
            x._t = ()
            x._f = x._h = None
            return x
        if type(other) is int:
            return _number(self._n - other * self._d, self._d, self._t)
        return NotImplemented

    def __rsub__(self, other: int) -> Exact:
        if type(other) is int:
            return _number(other * self._d - self._n, self._d, tuple([(r, -c) for r, c in self._t]))
        return NotImplemented

    def __mul__(self, other: Exact | int) -> Exact:
        if type(other) is Exact:
            if self._t or other._t:
                return _product(self, other)
            n = self._n * other._n
            d = self._d * other._d
            if d != 1:
                g = gcd(n, d)
                if g != 1:
                    n //= g
                    d //= g
            x = _new(Exact)
            x._n = n
            x._d = d
            x._t = ()
            x._f = x._h = None
            return x
        if type(other) is int:
            return _scaled(self, other, 1)
        return NotImplemented

    __rmul__ = __mul__

    def __truediv__(self, other: Exact | int) -> Exact:
        if type(other) is Exact:
            if self._t or other._t:
                return self * _inverse(other) if other._t else _scaled(self, other._d, other._n)
            n = self._n * other._d
            d = self._d * other._n
            if d < 0:
                n = -n
                d = -d
            elif d == 0:
                raise ZeroDivisionError("division by zero")
            if d != 1:
                g = gcd(n, d)
                if g != 1:
                    n //= g
                    d //= g
            x = _new(Exact)
            x._n = n
            x._d = d
            x._t = ()
            x._f = x._h = None
            return x
        if type(other) is int:
            return _scaled(self, 1, other)
        return NotImplemented

    def __rtruediv__(self, other: int) -> Exact:
        if type(other) is int:
            return _scaled(_inverse(self), other, 1)
        return NotImplemented

    def __neg__(self) -> Exact:
        t = self._t
        return _number(-self._n, self._d, tuple([(r, -c) for r, c in t]) if t else t)

    def __pos__(self) -> Exact:
        return self

    def __abs__(self) -> Exact:
        return -self if self.sign() < 0 else self

    def sqrt(self) -> Exact:
        """The square root that is not negative; `OutsideNumbers` when it is no number of this kind."""
        return _square_root(self, len(self._t))

    # ── order ──

    def sign(self) -> int:
        """-1, 0 or 1."""
        if not self._t:
            n = self._n
            return (n > 0) - (n < 0)
        f = self._f
        if f is None:
            f = self._f = _float_of(self)
        if f > 0.0:
            return 1
        if f < 0.0:
            return -1
        return 1 if _approximation(self)[0] > 0 else -1  # too small for a float

    def __bool__(self) -> bool:
        return self._n != 0 or self._t != ()

    def __eq__(self, other: object) -> bool:
        if type(other) is Exact:
            return self._n == other._n and self._d == other._d and self._t == other._t
        if isinstance(other, int):
            return self._n == other and self._d == 1 and not self._t
        return NotImplemented

    def __ne__(self, other: object) -> bool:
        if type(other) is Exact:
            return self._n != other._n or self._d != other._d or self._t != other._t
        if isinstance(other, int):
            return self._n != other or self._d != 1 or self._t != ()
        return NotImplemented

    def __hash__(self) -> int:
        h = self._h
        if h is None:
            h = self._h = _hash_of(self)
        return h

    def __lt__(self, other: Exact | int) -> bool:
        if type(other) is Exact and not self._t and not other._t:
            return self._n * other._d < other._n * self._d
        c = _compare(self, other)
        return NotImplemented if c is None else c < 0

    def __le__(self, other: Exact | int) -> bool:
        if type(other) is Exact and not self._t and not other._t:
            return self._n * other._d <= other._n * self._d
        c = _compare(self, other)
        return NotImplemented if c is None else c <= 0

    def __gt__(self, other: Exact | int) -> bool:
        if type(other) is Exact and not self._t and not other._t:
            return self._n * other._d > other._n * self._d
        c = _compare(self, other)
        return NotImplemented if c is None else c > 0

    def __ge__(self, other: Exact | int) -> bool:
        if type(other) is Exact and not self._t and not other._t:
            return self._n * other._d >= other._n * self._d
        c = _compare(self, other)
        return NotImplemented if c is None else c >= 0

    # ── other forms ──

    def __float__(self) -> float:
        """The value as a float, relative error below 2⁻⁴³ (half a last place when rational); infinite past
        the largest float, never an error."""
        f = self._f
        if f is None:
            f = self._f = _float_of(self)
        return f

    @property
    def is_rational(self) -> bool:
        return not self._t

    @property
    def fraction(self) -> Fraction:
        """The value as a `Fraction`; `ValueError` when it is irrational."""
        if self._t:
            raise ValueError(f"{self} is irrational")
        from fractions import Fraction  # heavy at start-up, and seldom asked for

        return Fraction(self._n, self._d)

    @property
    def ratio(self) -> tuple[int, int]:
        """Numerator and positive denominator, in lowest terms; `ValueError` when it is irrational."""
        if self._t:
            raise ValueError(f"{self} is irrational")
        return self._n, self._d

    def floor(self) -> int:
        """The largest whole number not above the value."""
        d = self._d
        if not self._t:
            return self._n // d
        bits = 64
        while True:
            total, error = _fixed_point(self, bits)
            scale = d << bits
            low = (total - error) // scale
            if low == (total + error) // scale:
                return low
            bits *= 2

    def ceil(self) -> int:
        """The smallest whole number not below the value."""
        return -(-self).floor()

    def __str__(self) -> str:
        parts: list[str] = []
        if self._n or not self._t:
            parts.append(_ratio_text(self._n, self._d))
        for r, c in self._t:
            size = _ratio_text(abs(c), self._d)
            text = f"sqrt({r})" if size == "1" else f"{size}*sqrt({r})"
            if parts:
                parts.append("- " if c < 0 else "+ ")
                parts[-1] += text
            else:
                parts.append("-" + text if c < 0 else text)
        return " ".join(parts)

    def __repr__(self) -> str:
        return f"Exact({self})"


def _number(n: int, d: int, t: _Terms) -> Exact:
    """A number from parts that are in lowest terms already."""
    x = _new(Exact)
    x._n = n
    x._d = d
    x._t = t
    x._f = x._h = None
    return x


_ZERO = _number(0, 1, ())


def _lowest(n: int, d: int, t: _Terms) -> Exact:
    """A number from parts with d > 0 and no zero multiplier, brought to lowest terms."""
    if d != 1:
        g = gcd(n, d) if not t else gcd(n, d, *[c for _, c in t])
        if g != 1:
            return _number(n // g, d // g, tuple([(r, c // g) for r, c in t]))
    return _number(n, d, t)


def _lowest_of_one(n: int, d: int, r: int, c: int) -> Exact:
    """(n + c√r)/d with d > 0, brought to lowest terms: `_lowest` for the case of nearly all slanted cloth."""
    if d != 1:
        g = gcd(n, d, c)
        if g != 1:
            n //= g
            d //= g
            c //= g
    x = _new(Exact)
    x._n = n
    x._d = d
    x._t = ((r, c),) if c else ()
    x._f = x._h = None
    return x


def _sum(a: Exact, b: Exact, sign: int) -> Exact:
    """a + sign·b."""
    fa = 1
    fb = sign
    d = a._d
    e = b._d
    if d != e:
        g = gcd(d, e)
        fa = e // g
        fb *= d // g
        d *= fa
    n = a._n * fa + b._n * fb
    t = a._t
    u = b._t
    if not u:
        if len(t) == 1:
            return _lowest_of_one(n, d, t[0][0], t[0][1] * fa)
        return _lowest(n, d, tuple([(r, c * fa) for r, c in t]))
    if not t:
        if len(u) == 1:
            return _lowest_of_one(n, d, u[0][0], u[0][1] * fb)
        return _lowest(n, d, tuple([(r, c * fb) for r, c in u]))
    if len(t) == len(u) == 1:
        r, c = t[0]
        s, e = u[0]
        if r == s:
            return _lowest_of_one(n, d, r, c * fa + e * fb)
    merged = {r: c * fa for r, c in t}
    for r, c in u:
        merged[r] = merged.get(r, 0) + c * fb
    return _lowest(n, d, _terms(merged))


def _terms(multipliers: dict[int, int]) -> _Terms:
    return tuple(sorted([item for item in multipliers.items() if item[1]]))


def _product(a: Exact, b: Exact) -> Exact:
    t = a._t
    u = b._t
    if not u:
        return _scaled(a, b._n, b._d)
    if not t:
        return _scaled(b, a._n, a._d)
    d = a._d * b._d
    an = a._n
    bn = b._n
    if len(t) == len(u) == 1:
        r, c = t[0]
        s, e = u[0]
        if r == s:
            return _lowest_of_one(an * bn + c * e * r, d, r, an * e + c * bn)
    products = {1: an * bn}
    for r, c in t:
        products[r] = c * bn
    for r, c in u:
        products[r] = products.get(r, 0) + c * an
    for r, c in t:
        for s, e in u:
            # √r·√s = g·√((r/g)·(s/g)) with g = gcd(r, s); the last radicand is square-free again
            g = gcd(r, s)
            rs = (r // g) * (s // g)
            products[rs] = products.get(rs, 0) + c * e * g
    n = products.pop(1)
    return _lowest(n, d, _terms(products))


def _scaled(a: Exact, n: int, d: int) -> Exact:
    """a·n/d, for any whole n and d; `ZeroDivisionError` when d is zero."""
    if d < 0:
        n, d = -n, -d
    elif d == 0:
        raise ZeroDivisionError("division by zero")
    if n == 0:
        return _ZERO
    t = a._t
    if len(t) == 1:
        return _lowest_of_one(a._n * n, a._d * d, t[0][0], t[0][1] * n)
    return _lowest(a._n * n, a._d * d, tuple([(r, c * n) for r, c in t]) if t else t)


def _independent_root(t: _Terms) -> int:
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


def _split(a: Exact, b: int) -> tuple[Exact, Exact]:
    """The terms without √b and those with it: a is the sum of the two."""
    with_root = tuple([(r, c) for r, c in a._t if r % b == 0])
    without = tuple([(r, c) for r, c in a._t if r % b != 0])
    return _lowest(a._n, a._d, without), _lowest(0, a._d, with_root)


def _inverse(a: Exact) -> Exact:
    """1/a, by multiplying with conjugates until the denominator is rational."""
    t = a._t
    if len(t) == 1:
        r, c = t[0]
        n = a._n
        norm = n * n - c * c * r
        d = a._d if norm > 0 else -a._d
        return _lowest_of_one(n * d, abs(norm), r, -c * d)
    numerator = _number(1, 1, ())
    while a._t:
        without, with_root = _split(a, _independent_root(a._t))
        conjugate = without - with_root
        numerator = numerator * conjugate
        a = a * conjugate
    return _scaled(numerator, a._d, a._n)


def _square_root(a: Exact, budget: int) -> Exact:
    """√a. If y² = a = A + B√b with y a multiquadratic number, then y = k√m with k in the field of a and
    m whole, so s = y·y' (y' the conjugate over √b) lies in the field of A; s² = A² - B²b, and
    y = √((A + s)/2) ± √((A - s)/2), two roots in the smaller field. So each level takes one
    independent root away, and `budget`, the number of terms at the start, ends a hopeless search."""
    if a.sign() < 0:
        raise OutsideNumbers("the square root of a negative number")
    t = a._t
    if not t:
        top, n = _square_part(a._n)
        bottom, d = _square_part(a._d)
        # √(n/d) = √(n·d)/d, and n·d is square-free: n and d are, and they have no common factor
        if n * d == 1:
            return _number(top, bottom, ())
        return _lowest(0, bottom * d, ((n * d, top),))
    if budget > 0:
        without, with_root = _split(a, _independent_root(t))
        s = _square_root(without * without - with_root * with_root, budget - 1)
        first = _square_root((without + s) / 2, budget - 1)
        second = _square_root((without - s) / 2, budget - 1)
        y = first + second if with_root.sign() > 0 else first - second
        if y * y == a:
            return y
    raise OutsideNumbers(f"the square root of {a} is no sum of square roots")


def _square_part(n: int) -> tuple[int, int]:
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


def _float_of(a: Exact) -> float:
    """The value as a float with a relative error below `_RELATIVE`.

    A term rounds at most three times (multiplier, root, product), a sum of m terms m - 1 times, the
    quotient twice: the error is below (m + 6)·2⁻⁵³ of the sum of absolute values. Where the terms cancel
    to less than a sixteenth of that, integers of growing precision take over.
    """
    t = a._t
    if not t:
        try:
            return a._n / a._d
        except OverflowError:
            return inf if a._n > 0 else -inf
    if len(t) <= 16:
        try:
            total = float(a._n)
            size = abs(total)
            for r, c in t:
                term = c * sqrt(r)
                total += term
                size += abs(term)
            total /= a._d
            size /= a._d
        except OverflowError:
            total = size = inf
        if _TINY < abs(total) < inf and abs(total) * 16.0 > size:
            return total
    total_bits, scale = _approximation(a)
    try:
        return total_bits / scale
    except OverflowError:
        return inf if total_bits > 0 else -inf


def _fixed_point(a: Exact, bits: int) -> tuple[int, int]:
    """(total, error): the value times denominator times 2^bits lies between total - error and total + error."""
    total = a._n << bits
    for r, c in a._t:
        # isqrt is at most one below the root
        root = isqrt((c * c * r) << (2 * bits))
        total += root if c > 0 else -root
    return total, len(a._t)


def _approximation(a: Exact) -> tuple[int, int]:
    """(n, d) of a rational with the sign of `a`, not zero, off by less than 2⁻⁶⁰ of its size; for an irrational a."""
    bits = 64
    while True:
        total, error = _fixed_point(a, bits)
        if abs(total) > error << 60:
            return total, a._d << bits
        bits *= 2


def _compare(a: Exact, b: Exact | int) -> int | None:
    """The sign of a - b; None when b is no number of ours."""
    if type(b) is not Exact:
        if type(b) is not int:
            return None
        if not a._t:
            n = a._n - b * a._d
            return (n > 0) - (n < 0)
        return _number(a._n - b * a._d, a._d, a._t).sign()
    f = a._f
    if f is None:
        f = a._f = _float_of(a)
    g = b._f
    if g is None:
        g = b._f = _float_of(b)
    # infinities make the bound infinite or the difference no number: not decided here, as it should be
    bound = _RELATIVE * (abs(f) + abs(g)) + _TINY
    difference = f - g
    if difference > bound:
        return 1
    if difference < -bound:
        return -1
    return (a - b).sign()


def _hash_of(a: Exact) -> int:
    """Equal to the hash of an equal `int` or `Fraction`, by the rule of Python's numeric types."""
    if a._t:
        return hash((a._n, a._d, a._t))
    if a._d == 1:
        return hash(a._n)
    inverse = _INVERSES.get(a._d)
    if inverse is None:
        try:
            inverse = pow(a._d, -1, _MODULUS)
        except ValueError:
            return sys.hash_info.inf if a._n > 0 else -sys.hash_info.inf
        if a._d <= 1024:
            _INVERSES[a._d] = inverse
    h = hash(hash(abs(a._n)) * inverse)
    if a._n < 0:
        h = -h
    return -2 if h == -1 else h


def _ratio_text(n: int, d: int) -> str:
    g = gcd(n, d)
    return str(n // g) if d == g else f"{n // g}/{d // g}"


def _parse_term(piece: str, text: str) -> Exact:
    """One `-3/4*sqrt(2)`, `sqrt(2)` or `19/2`."""
    negative = piece.startswith("-")
    body = piece[1:] if negative else piece
    coefficient, star, root = body.rpartition("*")
    if root.startswith("sqrt(") and root.endswith(")"):
        radicand = root[5:-1]
    else:
        coefficient, star, radicand = body, "*", "1"
    top, slash, bottom = coefficient.partition("/")
    if not star and not coefficient:
        top = "1"
    if not slash:
        bottom = "1"
    if not all(digits.isascii() and digits.isdigit() for digits in (top, bottom, radicand)) or int(bottom) == 0:
        raise ValueError(f"not an exact number: {text!r}")
    value = Exact.root(int(radicand)) * Exact(int(top), int(bottom))
    return -value if negative else value
