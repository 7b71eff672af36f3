"""Path data of everything that a figure is drawn with, as text with short decimals.

Points are in points of the sheet, y down. Nothing here knows colours or weights.
"""

from __future__ import annotations

from collections.abc import Iterable
from functools import lru_cache
from math import cos, hypot, pi, sin

from piecewright.plan.model import Point

PRESS = 16.0  # length of a pressing arrow
HEAD = 4.6  # length of an arrow head
PAIR = 2.6  # between the ticks of a matching mark


@lru_cache(maxsize=1 << 15)
def number(value: float) -> str:
    """At most two decimals, none that say nothing, no minus nought."""
    text = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text


def ring(points: Iterable[Point]) -> str:
    """A closed outline."""
    parts: list[str] = []
    before_x = before_y = ""
    for x, y in points:
        this_x, this_y = number(x), number(y)
        if not parts:
            parts.append(f"M{this_x} {this_y}")
        elif this_y == before_y:
            parts.append(f"H{this_x}")
        elif this_x == before_x:
            parts.append(f"V{this_y}")
        else:
            parts.append(f"L{this_x} {this_y}")
        before_x, before_y = this_x, this_y
    parts.append("Z")
    return "".join(parts)


def line(points: Iterable[Point]) -> str:
    """An open line through the points."""
    return "M" + "L".join(f"{number(x)} {number(y)}" for x, y in points)


def head(tip: Point, dx: float, dy: float, size: float = HEAD) -> str:
    """A filled arrow head with its tip at `tip`, pointing along the unit vector (dx, dy)."""
    x, y = tip
    back_x, back_y = x - dx * size, y - dy * size
    half = size * 0.42
    return ring([tip, (back_x - dy * half, back_y + dx * half), (back_x + dy * half, back_y - dx * half)])


def arrow(start: Point, end: Point, *, length: float | None = None, both: bool = False) -> tuple[str, str]:
    """Shaft and head of an arrow; of the given `length` about its middle, or from start to end."""
    dx, dy, full = _unit(start, end)
    if length is not None:
        x, y = (start[0] + end[0]) / 2, (start[1] + end[1]) / 2
        start = x - dx * length / 2, y - dy * length / 2
        end = x + dx * length / 2, y + dy * length / 2
        full = length
    size = min(HEAD, full * 0.4)
    inner_end = end[0] - dx * size * 0.8, end[1] - dy * size * 0.8
    inner_start = (start[0] + dx * size * 0.8, start[1] + dy * size * 0.8) if both else start
    heads = head(end, dx, dy, size) + (head(start, -dx, -dy, size) if both else "")
    return line([inner_start, inner_end]), heads


def press_length(scale: float) -> float:
    """How long a pressing arrow is: it must be seen, and not reach over narrow strips."""
    return min(PRESS, max(10.5, scale))


def ticks(at: Point, along: Point, count: int, half: float) -> str:
    """Matching marks across an edge."""
    x, y = at
    dx, dy = along
    parts: list[str] = []
    for i in range(count):
        shift = (i - (count - 1) / 2) * PAIR
        px, py = x + dx * shift, y + dy * shift
        parts.append(line([(px - dy * half, py + dx * half), (px + dy * half, py - dx * half)]))
    return "".join(parts)


def turn(middle: Point, *, left: bool) -> tuple[str, str]:
    """Shaft and head of the sign for turning the work, three quarters of a circle."""
    radius = 10.0
    x, y = middle
    # angles run clockwise on paper; the mirror gives the turn to the left
    sign = -1 if left else 1

    def at(angle: float) -> Point:
        return x + sign * radius * cos(angle), y + radius * sin(angle)

    start, end = at(-1.25 * pi), at(0.1 * pi)
    sweep = 0 if left else 1
    shaft = f"M{number(start[0])} {number(start[1])}A{radius} {radius} 0 1 {sweep} {number(end[0])} {number(end[1])}"
    tip_angle = 0.1 * pi
    dx, dy = sign * -sin(tip_angle), cos(tip_angle)
    tip = end[0] + dx * HEAD * 0.8, end[1] + dy * HEAD * 0.8
    return shaft, head(tip, dx, dy, HEAD + 0.6)


def dots(middle: Point) -> str:
    """Three dots: rounds that are not drawn."""
    x, y = middle
    return "".join(circle((x + shift, y), 1.3) for shift in (-6.0, 0.0, 6.0))


def circle(middle: Point, radius: float) -> str:
    x, y = middle
    r, twice = number(radius), number(2 * radius)
    return f"M{number(x - radius)} {number(y)}a{r} {r} 0 1 0 {twice} 0a{r} {r} 0 1 0 -{twice} 0Z"


def _unit(start: Point, end: Point) -> tuple[float, float, float]:
    dx, dy = end[0] - start[0], end[1] - start[1]
    length = hypot(dx, dy) or 1.0
    return dx / length, dy / length, length
