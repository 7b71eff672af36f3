"""A step sequence sewn with a reference: the same few lines for sympy and for shapely."""

from __future__ import annotations

from fractions import Fraction
from typing import Any, Protocol

from differential.random_steps import Sequence, Step


class Reference(Protocol):
    """What a reference has to offer; units and numbers are its own."""

    def length(self, value: Fraction) -> Any: ...
    def root_half(self, value: Any) -> Any: ...  # value / √2
    def rectangle(self, across: Any, down: Any, fabric: str, s: Any) -> Any: ...
    def size(self, unit: Any) -> tuple[Any, Any]: ...
    def join(self, first: Any, outward: str, second: Any, other: str) -> Any: ...
    def turned(self, unit: Any, eighths: int) -> Any: ...  # counter-clockwise, box at the origin again
    def cut_across(self, unit: Any, distance: Any) -> tuple[Any, Any]: ...  # left and right part
    def lower_half(self, unit: Any) -> Any: ...  # below the line from top left to bottom right
    def trimmed(self, unit: Any, across: Any, down: Any) -> Any: ...  # centred


WAYS = {"none": 0, "left": 2, "around": 4, "right": 6}


def sewn(made: Sequence, ref: Reference) -> Any:
    s = ref.length(made.seam)
    unit: Any = None
    for step in made.steps:
        unit = _step(unit, step, ref, s)
    return unit


def _tip(long: Any, fabric: str, ref: Reference, s: Any) -> Any:
    """Half a square whose finished long edge is `long`."""
    side = ref.root_half(long) + 2 * s + ref.root_half(2 * s)
    return ref.lower_half(ref.rectangle(side, side, fabric, s))


def _step(unit: Any, step: Step, ref: Reference, s: Any) -> Any:
    kind, *rest = step
    if kind == "start":
        across, down, fabric = rest
        return ref.rectangle(ref.length(across), ref.length(down), fabric, s)  # type: ignore[arg-type]
    if kind == "strips":
        across, heights, fabrics = rest
        rows = [
            ref.rectangle(ref.length(across), ref.length(high), fabric, s)  # type: ignore[arg-type]
            for high, fabric in zip(heights, fabrics, strict=True)  # type: ignore[call-overload]
        ]
        unit = rows[0]
        for row in rows[1:]:
            unit = ref.join(unit, "bottom", row, "top")
        return unit
    if kind == "join":
        side, wide, fabric = rest
        return _strip(unit, str(side), wide, str(fabric), ref, s)
    if kind == "border":
        wide, fabric, sides = rest
        for side in sides:  # type: ignore[attr-defined]
            unit = _strip(unit, side, wide, str(fabric), ref, s)
        return unit
    if kind == "tips":
        across, down = ref.size(unit)
        for side in ("left", "right", "top", "bottom"):
            long = (down if side in ("left", "right") else across) - 2 * s
            unit = ref.join(unit, side, _tip(long, str(rest[0]), ref, s), "long-edge")
        return ref.turned(unit, 1)
    if kind == "turn":
        return ref.turned(unit, WAYS[str(rest[0])])
    if kind == "slice":
        distance, wide, fabric = rest
        near, far = ref.cut_across(unit, ref.length(distance))  # type: ignore[arg-type]
        return ref.join(_strip(near, "right", wide, str(fabric), ref, s), "right", far, "left")
    if kind == "trim":
        return ref.trimmed(unit, ref.length(rest[0]), ref.length(rest[1]))  # type: ignore[arg-type]
    if kind == "half":
        return ref.lower_half(unit)
    if kind == "halve":
        plain = ref.rectangle(*ref.size(unit), str(rest[0]), s)
        return ref.join(ref.lower_half(unit), "long-edge", ref.lower_half(plain), "long-edge")
    if kind == "lay":
        cells = [ref.turned(unit, WAYS[turn]) for turn in rest[0]]  # type: ignore[attr-defined]
        rows = [ref.join(cells[n], "right", cells[n + 1], "left") for n in (0, 2)]
        return ref.join(rows[0], "bottom", rows[1], "top")
    assert kind == "roof"
    across, _ = ref.size(unit)
    return ref.join(unit, "top", _tip(across - 2 * s, str(rest[0]), ref, s), "long-edge")


def _strip(unit: Any, side: str, wide: object, fabric: str, ref: Reference, s: Any) -> Any:
    """A strip cut to the raw edge as it is by now."""
    across, down = ref.size(unit)
    width = ref.length(wide)  # type: ignore[arg-type]
    if side in ("left", "right"):
        return ref.join(unit, side, ref.rectangle(width, down, fabric, s), {"left": "right", "right": "left"}[side])
    return ref.join(unit, side, ref.rectangle(across, width, fabric, s), {"top": "bottom", "bottom": "top"}[side])
