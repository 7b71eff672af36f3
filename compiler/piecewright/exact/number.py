"""Exact real numbers: sums of rational multiples of square roots.

The set is closed under addition, subtraction, multiplication and division. Square roots of distinct
square-free integers are linearly independent over the rationals, so a number is zero exactly when
all its coefficients are, one value has one form, and equal values have equal hashes.

Inside: one common positive denominator over an integer and integer multiples of roots, all of them
together in lowest terms. Nothing here imports `fractions` until a caller asks for one: it brings
`decimal` and `numbers` with it, and most runs never need them.
"""

from __future__ import annotations

from math import gcd
from typing import TYPE_CHECKING

from piecewright.exact.conversion import RELATIVE_ERROR, TINY, approximation, float_of, floor_of, hash_of
from piecewright.exact.field import add, invert, lowest, multiply, square_root
from piecewright.exact.notation import number_text, parse_terms
from piecewright.exact.radicals import OutsideNumbers, Terms, square_part

if TYPE_CHECKING:
    from fractions import Fraction

_new = object.__new__


class Exact:
    """An exact number, `a + b√2 + c√3 + …`. Immutable.

    `Exact(7, 2)` is 7/2. The value may also be a `fractions.Fraction`; operands are `Exact` or `int`.
    Raises `ZeroDivisionError` for a zero denominator, `TypeError` for a float or anything else inexact.
    """

    __slots__ = ("_d", "_f", "_h", "_n", "_t")

    _n: int  # numerator of the rational part
    _d: int  # denominator of everything, > 0; gcd(_d, _n, all multipliers) == 1
    _t: Terms
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
        factor, radicand = square_part(n)
        return _number(factor, 1, ()) if radicand == 1 else _number(0, 1, ((radicand, factor),))

    @classmethod
    def parse(cls, text: str) -> Exact:
        """The number that `str` writes so: `19/2 - 1/4*sqrt(2)`. `ValueError` for any other form."""
        total = _ZERO
        for top, bottom, radicand in parse_terms(text):
            total += Exact.root(radicand) * Exact(top, bottom)
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
            if d != 1 and (g := gcd(n, d)) != 1:
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
            if d != 1 and (g := gcd(n, d)) != 1:
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
            if d != 1 and (g := gcd(n, d)) != 1:
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
            return self * _inverse(other) if other._t else _scaled(self, other._d, other._n)
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
        return _number(*square_root((self._n, self._d, self._t)))

    # ── order ──

    def sign(self) -> int:
        """-1, 0 or 1."""
        if not self._t:
            n = self._n
            return (n > 0) - (n < 0)
        f = self._f
        if f is None:
            f = self._f = float_of(self._n, self._d, self._t)
        if f > 0.0:
            return 1
        if f < 0.0:
            return -1
        return 1 if approximation(self._n, self._d, self._t)[0] > 0 else -1  # too small for a float

    def __bool__(self) -> bool:
        return self._n != 0 or self._t != ()

    def __eq__(self, other: object) -> bool:
        if type(other) is Exact:
            return self._n == other._n and self._d == other._d and self._t == other._t
        if isinstance(other, int):
            return self._n == other and self._d == 1 and not self._t
        return NotImplemented

    def __hash__(self) -> int:
        h = self._h
        if h is None:
            h = self._h = hash_of(self._n, self._d, self._t)
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
            f = self._f = float_of(self._n, self._d, self._t)
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
        return floor_of(self._n, self._d, self._t)

    def ceil(self) -> int:
        """The smallest whole number not below the value."""
        return -(-self).floor()

    def __str__(self) -> str:
        """In lowest terms, as `19/2 - 1/4*sqrt(2)`."""
        return number_text(self._n, self._d, self._t)

    def __repr__(self) -> str:
        return f"Exact({self})"


def _number(n: int, d: int, t: Terms) -> Exact:
    """A number from parts that are in lowest terms already."""
    x = _new(Exact)
    x._n = n
    x._d = d
    x._t = t
    x._f = x._h = None
    return x


_ZERO = _number(0, 1, ())


def _lowest_of_one(n: int, d: int, r: int, c: int) -> Exact:
    """(n + c√r)/d with d > 0, brought to lowest terms: nearly all slanted cloth has one root."""
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
    """a + sign·b, where at least one has roots."""
    t = a._t
    u = b._t
    if len(t) < 2 and len(u) < 2:
        r, c = t[0] if t else (u[0][0], 0)
        s, e = u[0] if u else (r, 0)
        if r == s:
            d = a._d
            if d == b._d:
                return _lowest_of_one(a._n + sign * b._n, d, r, c + sign * e)
            fb = sign * d
            fa = b._d
            return _lowest_of_one(a._n * fa + b._n * fb, d * fa, r, c * fa + e * fb)
    return _number(*add((a._n, a._d, t), (b._n, b._d, u), sign))


def _product(a: Exact, b: Exact) -> Exact:
    """a·b, where at least one has roots."""
    t = a._t
    u = b._t
    if not u:
        return _scaled(a, b._n, b._d)
    if not t:
        return _scaled(b, a._n, a._d)
    if len(t) == len(u) == 1:
        r, c = t[0]
        s, e = u[0]
        if r == s:
            an = a._n
            bn = b._n
            return _lowest_of_one(an * bn + c * e * r, a._d * b._d, r, an * e + c * bn)
    return _number(*multiply((a._n, a._d, t), (b._n, b._d, u)))


def _scaled(a: Exact, n: int, d: int) -> Exact:
    """a·n/d, for any whole n and d; `ZeroDivisionError` when d is zero."""
    if d < 0:
        n, d = -n, -d
    elif d == 0:
        raise ZeroDivisionError("division by zero")
    if n == 0:
        return _ZERO
    t = a._t
    if len(t) < 2:
        r, c = t[0] if t else (0, 0)
        return _lowest_of_one(a._n * n, a._d * d, r, c * n)
    return _number(*lowest(a._n * n, a._d * d, tuple([(r, c * n) for r, c in t])))


def _inverse(a: Exact) -> Exact:
    t = a._t
    if len(t) == 1:
        r, c = t[0]
        n = a._n
        norm = n * n - c * c * r
        d = a._d if norm > 0 else -a._d
        return _lowest_of_one(n * d, abs(norm), r, -c * d)
    return _number(*invert((a._n, a._d, t)))


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
        f = a._f = float_of(a._n, a._d, a._t)
    g = b._f
    if g is None:
        g = b._f = float_of(b._n, b._d, b._t)
    # infinities make the bound infinite or the difference no number: not decided here, as it should be
    bound = RELATIVE_ERROR * (abs(f) + abs(g)) + TINY
    difference = f - g
    if difference > bound:
        return 1
    if difference < -bound:
        return -1
    return (a - b).sign()
