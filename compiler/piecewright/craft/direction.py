"""Fabrics whose print has a direction, and how their pieces lie in what is finished."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from math import atan2, degrees
from typing import NamedTuple

from piecewright.craft.finding import Finding
from piecewright.craft.joins import NEAR
from piecewright.exact import Vector
from piecewright.kernel.action import Lay
from piecewright.kernel.build import Build, Fabric, Made
from piecewright.kernel.foundation import ROUGH
from piecewright.kernel.unit import Patch

UPRIGHT = 10  # degrees: a block trimmed to its seams is often turned by a few, and nobody sees that in a print
_TURNS = (90, 120)


class Turned(NamedTuple):
    """Pieces of one fabric that lie alike: `way` in whole degrees clockwise from upright, how
    `many` they are, and of one
    of them what it is called, where it lies (empty in the middle), and which part of a cut square it would have to be
    to lie upright (empty where it is none)."""

    way: int
    many: int
    shape: str
    where: str
    keep: str


class Directions:
    """What a pattern's one-way fabrics do: each is told of once, in the smallest block or quilt that shows it so."""

    def __init__(self, build: Build) -> None:
        self._fabrics: Mapping[str, Fabric] = {one.name: one for one in build.fabrics if one.directional}
        self._told: dict[str, frozenset[str]] = {}

    def turned(self, made: Made) -> Iterator[Finding]:
        """One finding for each fabric that does not lie upright all over a block or quilt.

        What lies all ways is meant so: who sets units round a middle wants the print to turn with them. On a paper
        foundation nothing says how a rough piece is laid.
        """
        if not self._fabrics:
            return
        told = frozenset[str]().union(
            *(self._told.get(supply.source, ()) for supply in made.supplies if isinstance(supply.source, str))
        )
        if made.kind != "unit":
            for name, patches in self._lying(made).items():
                if name in told:
                    continue
                ways = _ways(patches, _set_on_point(made))
                if set(ways) == {0} or _goes_round(ways):
                    continue
                told |= {name}
                found = (
                    Turned(way, len(those), _shape(those[0]), _where(made, those[0]), _half(those[0]))
                    for way, those in sorted(ways.items())
                    if way
                )
                of = self._fabrics[name].of or name
                yield Finding("one-way", None, fabric=of, name=made.name, ways=tuple(found), pieces=len(patches))
        self._told[made.key] = told

    def _lying(self, made: Made) -> dict[str, list[Patch]]:
        found: dict[str, list[Patch]] = {}
        for patch in made.unit.patches:
            if patch.fabric in self._fabrics and not patch.cut.startswith(ROUGH):
                found.setdefault(patch.fabric, []).append(patch)
        return found


def _set_on_point(made: Made) -> Vector | None:
    """The way that rows run of a table that is not level: its blocks stand on a corner, which nobody overlooks."""
    for step in made.steps:
        for action in step.actions:
            if isinstance(action, Lay) and not action.is_level:
                return action.along
    return None


def _ways(patches: list[Patch], along: Vector | None) -> dict[int, list[Patch]]:
    """The patches by the way they lie, in whole degrees clockwise from upright; those that lie as the rows do count as
    upright."""
    found: dict[int, list[Patch]] = {}
    level = 0 if along is None else _clockwise(along.left())
    for patch in patches:
        way = _clockwise(patch.up)
        if _apart(way, 0) <= UPRIGHT or _apart(way, level) <= UPRIGHT:
            way = 0
        found.setdefault(way, []).append(patch)
    return found


def _clockwise(up: Vector) -> int:
    x, y = up.floats
    return round(degrees(atan2(x, y))) % 360


def _apart(one: int, other: int) -> int:
    return min((one - other) % 360, (other - one) % 360)


def _goes_round(ways: Mapping[int, object]) -> bool:
    """Whether pieces lie all ways, by quarters or by thirds of a turn."""
    return any(all((way + turn) % 360 in ways for way in ways) for turn in _TURNS)


def _shape(patch: Patch) -> str:
    """What the cloth that is seen is called."""
    return "triangle" if len(patch.cells) == 1 and len(patch.cells[0]) == 3 else "piece"


def _where(made: Made, patch: Patch) -> str:
    """The third of the block in which the middle of a patch lies, in words: `bottom left`; empty in the middle."""
    outline = [p.floats for corner in made.unit.corners for p in corner.raw]
    cells = [p.floats for cell in patch.cells for p in cell]
    words = []
    for axis, low, high in ((1, "bottom", "top"), (0, "left", "right")):
        ends = [p[axis] for p in outline]
        box = [p[axis] for p in cells]
        share = ((min(box) + max(box)) / 2 - min(ends)) / (max(ends) - min(ends))
        words.append(low if share < 0.4 else high if share > 0.6 else "")
    return " ".join(word for word in words if word)


def _half(patch: Patch) -> str:
    """Where in a square a right triangle lies that is half or a quarter of it, as it lies now; empty for others."""
    if len(patch.cells) != 1 or len(patch.cells[0]) != 3:
        return ""
    corners = [p.floats for p in patch.cells[0]]
    for n, (x, y) in enumerate(corners):
        (ax, ay), (bx, by) = corners[n - 1], corners[n - 2]
        if abs((ax - x) * (bx - x) + (ay - y) * (by - y)) > NEAR:
            continue
        dx, dy = x - (ax + bx) / 2, y - (ay + by) / 2  # from the middle of the long side to the right angle
        if abs(abs(dx) - abs(dy)) < NEAR:
            return f"{'top' if dy > 0 else 'bottom'}-{'right' if dx > 0 else 'left'}"
        if abs(dx) < NEAR:
            return "bottom" if dy > 0 else "top"
        if abs(dy) < NEAR:
            return "left" if dx > 0 else "right"
    return ""
