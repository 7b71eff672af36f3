"""The two references as `sew_steps` and the replay of recorded actions use them."""

from __future__ import annotations

import math
from fractions import Fraction
from typing import Any

import sympy
from differential import shapely_reference as floats
from differential import sympy_reference as exact

FACING = {"left": (-1, 0), "right": (1, 0), "top": (0, 1), "bottom": (0, -1)}
EIGHTH = (sympy.sqrt(2) / 2, sympy.sqrt(2) / 2)


class Exactly:
    """With sympy."""

    def length(self, value: Fraction) -> Any:
        return sympy.Rational(value.numerator, value.denominator)

    def root_half(self, value: Any) -> Any:
        return sympy.expand(value * sympy.sqrt(2) / 2)

    def rectangle(self, across: Any, down: Any, fabric: str, s: Any) -> Any:
        return exact.rectangle(across, down, fabric, s)

    def size(self, unit: Any) -> tuple[Any, Any]:
        return unit.size()  # type: ignore[no-any-return]

    def join(self, first: Any, outward: str, second: Any, other: str) -> Any:
        return exact.sew(first, self._edge(first, outward), second, self._edge(second, other))

    def _edge(self, unit: Any, name: str) -> int:
        if name == "long-edge":
            corners = [(float(x), float(y)) for x, y in unit.finished()]
            lengths = [math.dist(p, q) for p, q in zip(corners, corners[1:] + corners[:1], strict=True)]
            return max(range(len(lengths)), key=lengths.__getitem__)
        x, y = FACING[name]
        return next(i for i, (n, _) in enumerate(unit.lines) if n == (x, y))

    def turned(self, unit: Any, eighths: int) -> Any:
        direction = (exact.ONE, exact.ZERO)
        for _ in range(eighths):
            direction = tuple(sympy.expand(c) for c in exact.product(direction, EIGHTH))  # type: ignore[assignment]
        return self.settled(exact.turned(unit, direction))

    def settled(self, unit: Any) -> Any:
        left, bottom, _, _ = unit.box()
        return exact.moved(unit, (-left, -bottom))

    def cut_across(self, unit: Any, distance: Any) -> tuple[Any, Any]:
        left, _, _, _ = unit.box()
        return exact.cut(unit, (left + distance, exact.ZERO), (exact.ZERO, exact.ONE))

    def lower_half(self, unit: Any) -> Any:
        _, bottom, right, _ = unit.box()
        return exact.cut(unit, (right, bottom), (-EIGHTH[0], EIGHTH[1]))[0]

    def trimmed(self, unit: Any, across: Any, down: Any) -> Any:
        left, bottom, right, top = unit.box()
        x, y = sympy.expand((left + right - across) / 2), sympy.expand((bottom + top - down) / 2)
        return exact.trim(unit, ((x, y), (x + across, y), (x + across, y + down), (x, y + down)))


class Nearly:
    """With shapely."""

    def length(self, value: Fraction) -> float:
        return float(value)

    def root_half(self, value: float) -> float:
        return value / math.sqrt(2)

    def rectangle(self, across: float, down: float, fabric: str, s: float) -> Any:
        return floats.rectangle(across, down, fabric, s)

    def size(self, unit: Any) -> tuple[float, float]:
        left, bottom, right, top = unit.outline.bounds
        return right - left, top - bottom

    def join(self, first: Any, outward: str, second: Any, other: str) -> Any:
        return floats.sew(first, self._edge(first, outward), second, self._edge(second, other))

    def _edge(self, unit: Any, name: str) -> int:
        if name == "long-edge":
            ring = unit.finished()
            lengths = [math.dist(p, q) for p, q in zip(ring, ring[1:] + ring[:1], strict=True)]
            return max(range(len(lengths)), key=lengths.__getitem__)
        return floats.facing(unit, FACING[name])

    def turned(self, unit: Any, eighths: int) -> Any:
        angle = eighths * math.pi / 4
        return self.settled(floats.turned(unit, (math.cos(angle), math.sin(angle))))

    def settled(self, unit: Any) -> Any:
        left, bottom, _, _ = unit.outline.bounds
        return floats.moved(unit, -left, -bottom)

    def cut_across(self, unit: Any, distance: float) -> tuple[Any, Any]:
        return floats.cut(unit, (unit.outline.bounds[0] + distance, 0.0), (0.0, 1.0))

    def lower_half(self, unit: Any) -> Any:
        _, bottom, right, _ = unit.outline.bounds
        return floats.cut(unit, (right, bottom), (-math.sqrt(0.5), math.sqrt(0.5)))[0]

    def trimmed(self, unit: Any, across: float, down: float) -> Any:
        left, bottom, right, top = unit.outline.bounds
        x, y = (left + right - across) / 2, (bottom + top - down) / 2
        return floats.trim(unit, [(x, y), (x + across, y), (x + across, y + down), (x, y + down)])

    def same_after_half_a_turn(self, unit: Any) -> bool:
        """Whether no cloth lies on another fabric when the unit is laid on itself, turned around."""
        here, there = self.settled(unit), self.turned(unit, 4)
        return all(
            one.intersection(other).area < floats.NEAR
            for fabric, one in here.cells
            for name, other in there.cells
            if name != fabric
        )
