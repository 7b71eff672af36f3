"""Exact vectors in the plane, also points and directions."""

from __future__ import annotations

from piecewright.exact.number import Exact
from piecewright.exact.radicals import OutsideNumbers

_new = object.__new__


class _Open:
    """A vector while it is made; `_vector` then seals it by giving it its class."""

    __slots__ = ("_floats", "x", "y")

    x: Exact
    y: Exact
    _floats: tuple[float, float] | None


class Vector(_Open):
    """A vector (x, y), x to the right and y up. Immutable and hashable; whole numbers are taken as `Exact`.

    A unit vector stands for a direction, and for a turn: `v.turned(u)` turns v by the angle of u.
    """

    __slots__ = ()

    def __new__(cls, x: Exact | int, y: Exact | int) -> Vector:
        return _vector(x if isinstance(x, Exact) else Exact(x), y if isinstance(y, Exact) else Exact(y))

    def __reduce__(self) -> tuple[type[Vector], tuple[Exact, Exact]]:
        return Vector, (self.x, self.y)

    def __setattr__(self, name: str, value: object) -> None:
        raise AttributeError(f"a vector is never changed: {name}")

    def __delattr__(self, name: str) -> None:
        raise AttributeError(f"a vector is never changed: {name}")

    @classmethod
    def at(cls, degrees: int) -> Vector:
        """The unit vector at an angle, counter-clockwise from the x axis.

        Multiples of 15 degrees; `OutsideNumbers` for others: at 22.5 degrees the cosine is
        √(2 + √2)/2, no sum of rational multiples of roots.
        """
        quarters, rest = divmod(degrees % 360, 90)
        if rest not in _FIRST_QUARTER:
            raise OutsideNumbers(f"the direction at {degrees} degrees")
        v = _FIRST_QUARTER[rest]
        for _ in range(quarters):
            v = v.left()
        return v

    def __add__(self, other: Vector) -> Vector:
        return _vector(self.x + other.x, self.y + other.y)

    def __sub__(self, other: Vector) -> Vector:
        return _vector(self.x - other.x, self.y - other.y)

    def __neg__(self) -> Vector:
        return _vector(-self.x, -self.y)

    def __mul__(self, factor: Exact | int) -> Vector:
        """The vector times a number."""
        return _vector(self.x * factor, self.y * factor)

    __rmul__ = __mul__

    def __truediv__(self, divisor: Exact | int) -> Vector:
        return _vector(self.x / divisor, self.y / divisor)

    def __bool__(self) -> bool:
        return bool(self.x) or bool(self.y)

    def __eq__(self, other: object) -> bool:
        if type(other) is Vector:
            return self.x == other.x and self.y == other.y
        return NotImplemented

    def __hash__(self) -> int:
        return hash((self.x, self.y))

    def __repr__(self) -> str:
        return f"Vector({self.x}, {self.y})"

    def dot(self, other: Vector) -> Exact:
        return self.x * other.x + self.y * other.y

    def cross(self, other: Vector) -> Exact:
        """The signed area of the parallelogram: positive when `other` points to the left of this."""
        return self.x * other.y - self.y * other.x

    def cross_sign(self, other: Vector) -> int:
        """The sign of `cross`, by floats where they decide it."""
        return _sign_of_difference(self.x, other.y, self.y, other.x)

    def dot_sign(self, other: Vector) -> int:
        """The sign of `dot`, by floats where they decide it."""
        return _sign_of_difference(self.x, other.x, -self.y, other.y)

    def turned(self, direction: Vector) -> Vector:
        """Turned by the angle of a unit vector (the product of the two as complex numbers)."""
        x, y = self.x, self.y
        u, v = direction.x, direction.y
        if not v:
            return self if u == 1 else _vector(x * u, y * u)
        if not u:
            return _vector(-y, x) if v == 1 else _vector(y, -x) if v == -1 else _vector(-(y * v), x * v)
        return _vector(x * u - y * v, x * v + y * u)

    def conjugate(self) -> Vector:
        """Mirrored in the x axis; of a unit vector also the opposite turn."""
        return _vector(self.x, -self.y)

    def left(self) -> Vector:
        """Turned a quarter counter-clockwise."""
        return _vector(-self.y, self.x)

    def right(self) -> Vector:
        """Turned a quarter clockwise."""
        return _vector(self.y, -self.x)

    def squared(self) -> Exact:
        """The square of the length."""
        return self.x * self.x + self.y * self.y

    def length(self) -> Exact:
        """The length; `OutsideNumbers` when it is no number of the set."""
        if not self.y:
            return abs(self.x)
        if not self.x:
            return abs(self.y)
        return self.squared().sqrt()

    def unit(self) -> Vector:
        """The unit vector in this direction; `OutsideNumbers` when it is outside the set, `ZeroDivisionError`
        for the zero vector.

        The direction of (x, y) may be a direction of the set although its length is not a number of
        it, and then so is that of (1, y/x), whose length is: a unit vector in the set has a quotient in it.
        """
        x, y = self.x, self.y
        if not y:
            if not x:
                raise ZeroDivisionError("the zero vector has no direction")
            return _vector(Exact(x.sign()), y)
        if not x:
            return _vector(x, Exact(y.sign()))
        slope = y / x
        try:
            across = 1 / (slope * slope + 1).sqrt()
        except OutsideNumbers:
            raise OutsideNumbers(f"the direction of ({x}, {y})") from None
        if x.sign() < 0:
            across = -across
        return _vector(across, across * slope)

    @property
    def floats(self) -> tuple[float, float]:
        """Both coordinates as floats."""
        f = self._floats
        if f is None:
            f = (float(self.x), float(self.y))
            _keep_floats(self, f)
        return f


_keep_floats = vars(_Open)["_floats"].__set__  # past the seal


def _vector(x: Exact, y: Exact) -> Vector:
    # A class that forbids assignment would have to be filled through its slots, which takes three times as long.
    v = _new(_Open)
    v.x = x
    v.y = y
    v._floats = None
    v.__class__ = Vector
    return v  # type: ignore[return-value]


# A cached float is off by less than 2⁻⁴³ of its size; so is a product by less than 2⁻⁴¹, and a difference
# of two products by less than 2⁻⁴⁰ of the sum of their sizes. The constant covers underflow.
_PRODUCT_ERROR = 2.0**-40
_TINY = 1e-280


def _sign_of_difference(a: Exact, b: Exact, c: Exact, d: Exact) -> int:
    """The sign of a·b - c·d."""
    p = float(a) * float(b)
    q = float(c) * float(d)
    bound = _PRODUCT_ERROR * (abs(p) + abs(q)) + _TINY
    f = p - q
    if f > bound:
        return 1
    if f < -bound:
        return -1
    return (a * b - c * d).sign()


def orientation(a: Vector, b: Vector, c: Vector) -> int:
    """1 when the points a, b, c turn counter-clockwise, -1 when clockwise, 0 when they lie on one line."""
    ax, ay = a.floats
    bx, by = b.floats
    cx, cy = c.floats
    p = (bx - ax) * (cy - ay)
    q = (by - ay) * (cx - ax)
    size = (abs(bx) + abs(ax)) * (abs(cy) + abs(ay)) + (abs(by) + abs(ay)) * (abs(cx) + abs(ax))
    bound = _PRODUCT_ERROR * size + _TINY
    f = p - q
    if f > bound:
        return 1
    if f < -bound:
        return -1
    return (b - a).cross(c - a).sign()


_HALF = Exact(1, 2)
_ROOT_2, _ROOT_3, _ROOT_6 = Exact.root(2), Exact.root(3), Exact.root(6)
_FIRST_QUARTER = {
    0: Vector(1, 0),
    15: Vector((_ROOT_6 + _ROOT_2) / 4, (_ROOT_6 - _ROOT_2) / 4),
    30: Vector(_ROOT_3 / 2, _HALF),
    45: Vector(_ROOT_2 / 2, _ROOT_2 / 2),
    60: Vector(_HALF, _ROOT_3 / 2),
    75: Vector((_ROOT_6 - _ROOT_2) / 4, (_ROOT_6 + _ROOT_2) / 4),
}
