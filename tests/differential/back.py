"""What a replay asks of a reference, and what both references read off a recorded action.

Units, cloth and numbers are the reference's own. `Cloth` is a list of a fabric and a shape, as it lies on the table.
"""

from __future__ import annotations

from abc import ABC, abstractmethod
from dataclasses import replace
from typing import Any

import sympy
from piecewright.exact import Exact, Vector
from piecewright.kernel.unit import Unit

Ends = tuple[Vector, Vector]  # the finished ends of an edge, or two points on a line
Sides = list[tuple[tuple[Any, Any], int]]  # each corner as sympy numbers, and the degrees at which its edge runs
Cloth = Any


class Back(ABC):
    @abstractmethod
    def read(self, unit: Unit) -> Any: ...
    @abstractmethod
    def check(self, mine: Any, unit: Unit) -> None:
        """AssertionError unless outlines, areas and sizes agree, where they lie."""

    @abstractmethod
    def piece(self, width: Exact, height: Exact, fabric: str, s: Exact) -> Any: ...
    @abstractmethod
    def polygon(self, sides: Sides, fabric: str, s: Exact) -> Any: ...
    @abstractmethod
    def normals(self, unit: Any) -> list[tuple[tuple[float, float], float]]:
        """Which way each edge of the reference's unit faces, and how long it is, in floats to choose by."""

    @abstractmethod
    def sew(self, first: Any, i: Ends | int, second: Any, j: Ends | int, as_it_lies: bool) -> Any: ...
    @abstractmethod
    def turned(self, unit: Any, degrees: int) -> Any: ...
    @abstractmethod
    def cut(self, parts: list[Any], start: Vector, end: Vector) -> list[Any]: ...
    @abstractmethod
    def trim(self, unit: Any, corners: tuple[Vector, ...]) -> Any:
        """The trimmed piece, straight and with its lower left corner at the origin."""

    @abstractmethod
    def curved(self, unit: Any, centre: Vector, radius: Exact, fabric: str) -> Any:
        """The unit with all that lies within a circle of one fabric."""

    @abstractmethod
    def together(self, parts: tuple[Unit, ...], whole: Unit, eased: Exact) -> None:
        """AssertionError unless the finished picture of what is sewn is the finished pictures of its parts side by
        side: the same outline and as much of each fabric within it, up to what is eased along the edges."""

    @abstractmethod
    def goes_round(self, unit: Unit, length: Exact) -> None:
        """AssertionError unless the raw edge is so long all round."""

    # cloth without seam lines
    @abstractmethod
    def cloth(self, unit: Unit) -> Cloth: ...
    @abstractmethod
    def on_left(self, cloth: Cloth, line: Ends) -> Cloth: ...
    @abstractmethod
    def reflected(self, cloth: Cloth, line: Ends) -> Cloth: ...
    @abstractmethod
    def less(self, cloth: Cloth, holes: Cloth) -> Cloth: ...
    @abstractmethod
    def evened(self, cloth: Cloth, base: Cloth, corner: str) -> Cloth:
        """Moved so that the boxes round both have a corner in common: `bottom-left`, …"""

    @abstractmethod
    def area(self, cloth: Cloth) -> float:
        """In floats, to choose by."""

    @abstractmethod
    def same(self, one: Cloth, other: Cloth) -> None:
        """AssertionError unless each fabric lies in the same places."""

    @abstractmethod
    def runs(self, cloth: Cloth, line: Ends) -> list[tuple[float, float]]:
        """Where a line runs through the shapes: 0 is its start and 1 its end."""


def ends(unit: Unit, edge: int) -> Ends:
    return unit.corners[edge].finished, unit.corners[(edge + 1) % len(unit.corners)].finished


def unmarked(unit: Unit) -> Unit:
    """Without corners of 180 degrees, where a seam of another length begins or ends."""
    kept = [n for n, along in enumerate(unit.directions) if along != unit.directions[n - 1]]
    return replace(
        unit,
        corners=tuple(unit.corners[n] for n in kept),
        directions=tuple(unit.directions[n] for n in kept),
    )


def backward(line: Ends) -> Ends:
    return line[1], line[0]


def is_open(unit: Unit) -> bool:
    """Whether a seam sewn in part leaves two edges lying against each other."""
    return any(along == -unit.directions[n - 1] for n, along in enumerate(unit.directions))


def slanted_sides(shape: str, width: Exact, height: Exact, degrees: int, *, mirrored: bool = False) -> Sides:
    """The corners of a piece cut at an angle, by its shape, sizes and angle alone."""
    a = sympy.pi * degrees / 180
    high, wide = sympy.sympify(str(height), rational=True), sympy.sympify(str(width), rational=True)
    run = sympy.radsimp(high / sympy.tan(a))
    base = {"triangle": 2 * run, "diamond": sympy.radsimp(high / sympy.sin(a))}.get(shape, wide)
    if shape in ("diamond", "parallelogram"):
        top, turns = [base + run, run], [0, degrees, 180, 180 + degrees]
    else:
        top, turns = [base - run, run], [0, 180 - degrees, 180, 180 + degrees]
    if shape == "triangle":
        top, turns = top[1:], [turns[0], turns[1], turns[3]]
    zero = sympy.Integer(0)
    corners = [(zero, zero), (base, zero), *((sympy.expand(x), high) for x in top)]
    if mirrored:  # the edge from corner to corner runs the other way, and as far below the level as it rose above
        reach = max((x for x, _ in corners), key=float)
        following = corners[1:] + corners[:1]
        corners = [(sympy.expand(reach - x), y) for x, y in reversed(following)]
        turns = [-each % 360 for each in reversed(turns)]
    return list(zip(corners, turns, strict=True))
