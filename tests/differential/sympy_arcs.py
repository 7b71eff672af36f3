"""Cloth beside curved seams, exactly: what of a convex cell lies within some circles and outside others.

A straight cell is labelled with the name of its fabric, one beside a curve with a `Rounded`. Its area holds π and arc
tangents; all of them stay symbols, so that a quarter circle of radius r has r²π/4 and nothing nearly that.

The area that a polygon has in common with a disc about the origin is summed along the polygon's sides p → q: where a
side runs within the disc, the triangle ½ p × q, and where it runs outside, the sector ½ r² ∠(p, q), the angle being
atan2(p × q, p · q). (Green's theorem: both are ½ ∮ x dy - y dx, along the side and along the arc that it stands for.)
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any, NamedTuple

import sympy
from sympy import Expr, Integer, Rational, expand

Point = tuple[Expr, Expr]
ZERO = Integer(0)
DIGITS = 40  # to which a difference that holds π must vanish


class Round(NamedTuple):
    centre: Point
    radius: Expr


@dataclass(frozen=True)
class Rounded:
    """Seen within each circle of `inside` and outside each of `outside`."""

    fabric: str
    inside: frozenset[Round]
    outside: frozenset[Round]

    def area(self, cell: tuple[Point, ...]) -> Expr:
        """Of the circles within one another the innermost counts that it lies within, the outermost it lies outside."""
        within = min(self.inside, key=lambda one: float(one.radius), default=None)
        total = common(cell, within) if within is not None else _polygon(cell)
        for hole in self.outside:
            hidden = any(one.centre == hole.centre and one.radius - hole.radius > 0 for one in self.outside)
            if not hidden and (within is None or not apart(within, hole)):
                total = total - common(cell, hole)
        return expand(total)


Label = str | Rounded


def fabric_of(label: Label) -> str:
    return label if isinstance(label, str) else label.fabric


def carried(label: Label, move: Any) -> Label:
    """The label of a cell after a motion, which is given as a function of points."""
    if isinstance(label, str):
        return label
    inside, outside = (
        frozenset(Round(move(one.centre), one.radius) for one in rounds) for rounds in (label.inside, label.outside)
    )
    return Rounded(label.fabric, inside, outside)


def curved(cells: tuple[tuple[Label, tuple[Point, ...]], ...], seam: Round, fabric: str) -> Any:
    """The cells with a quarter circle sewn in: what lies within the seam is of its fabric now."""
    found: list[tuple[Label, tuple[Point, ...]]] = []
    for label, cell in cells:
        inside = label.inside if isinstance(label, Rounded) else frozenset()
        outside = label.outside if isinstance(label, Rounded) else frozenset()
        gone = any(one.centre == seam.centre and one.radius - seam.radius >= 0 for one in outside)
        if gone or any(apart(one, seam) for one in inside) or vanishes(common(cell, seam)):
            found.append((label, cell))
            continue
        found.append((Rounded(fabric_of(label), inside, outside | {seam}), cell))
        found.append((Rounded(fabric, frozenset({seam}), frozenset()), cell))
    return tuple(found)


def apart(one: Round, other: Round) -> bool:
    x, y = (expand(a - b) for a, b in zip(one.centre, other.centre, strict=True))
    return expand(x * x + y * y - (one.radius + other.radius) ** 2) >= 0


def common(cell: tuple[Point, ...], disc: Round) -> Expr:
    """The area of a counter-clockwise polygon within a disc."""
    (x, y), r = disc
    ring = [(expand(px - x), expand(py - y)) for px, py in cell]
    total: Expr = ZERO
    for a, b in zip(ring, ring[1:] + ring[:1], strict=True):
        total = total + _along(a, b, r)
    return expand(total)


def _along(a: Point, b: Point, r: Expr) -> Expr:
    d = expand(b[0] - a[0]), expand(b[1] - a[1])
    square, half = expand(_dot(d, d)), expand(_dot(a, d))
    under = expand(half * half - square * (_dot(a, a) - r * r))
    if not _sign(under) > 0:
        return _sector(a, b, r)
    root = sympy.sqrt(under)
    enters, leaves = (-half - root) / square, (-half + root) / square
    if _sign(enters - 1) >= 0 or _sign(leaves) <= 0:
        return _sector(a, b, r)
    start = a if _sign(enters) <= 0 else _at(a, d, enters)
    end = b if _sign(leaves - 1) >= 0 else _at(a, d, leaves)
    return _sector(a, start, r) + _cross(start, end) / 2 + _sector(end, b, r)


def _sector(p: Point, q: Point, r: Expr) -> Expr:
    across, along = expand(_cross(p, q)), expand(_dot(p, q))
    return ZERO if _sign(across) == 0 else r * r * sympy.atan2(across, along) / 2


def _at(a: Point, d: Point, share: Expr) -> Point:
    return expand(sympy.radsimp(a[0] + d[0] * share)), expand(sympy.radsimp(a[1] + d[1] * share))


def _dot(p: Point, q: Point) -> Expr:
    return p[0] * q[0] + p[1] * q[1]


def _cross(p: Point, q: Point) -> Expr:
    return p[0] * q[1] - p[1] * q[0]


def _sign(a: Expr) -> int:
    return 0 if vanishes(a) else (1 if sympy.N(a, 15) > 0 else -1)


def vanishes(a: Expr) -> bool:
    """Whether a number is zero: as it is written, or to so many digits where roots stand within roots."""
    if a == 0:
        return True
    if a.is_Rational:
        return False
    if abs(float(a)) > 1e-6:
        return False
    a = expand(a)
    return a == 0 or bool(abs(a.evalf(DIGITS)) < Rational(1, 10**30))


def _polygon(cell: tuple[Point, ...]) -> Expr:
    total: Expr = ZERO
    for p, q in zip(cell, cell[1:] + cell[:1], strict=True):
        total = total + _cross(p, q)
    return expand(total / 2)
