"""What lies on the table: cloth, its outline twice (finished and raw), seams and what went under.

Lengths are inches, exact; outlines run counter-clockwise with x to the right and y up. Edge `i` runs
from corner `i` to corner `i + 1`.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import Literal

from piecewright.dataclass import dataclass
from piecewright.exact import Exact, Vector

Polygon = tuple[Vector, ...]  # counter-clockwise, no point twice in a row
Pressed = Literal["left", "right", "open"]
OffcutKind = Literal["allowance", "ear", "sliver", "trim", "flip"]


Box = tuple[float, float, float, float]  # left, bottom, right, top

# inches; far above the error of the floats and far below any cloth
_SLACK = 1e-6


def box(points: Iterable[Vector]) -> Box:
    """The box round some points in floats, widened by more than their error."""
    floats = [p.floats for p in points]
    xs = [f[0] for f in floats]
    ys = [f[1] for f in floats]
    return min(xs) - _SLACK, min(ys) - _SLACK, max(xs) + _SLACK, max(ys) + _SLACK


class _Reaching:
    """Keeps the box round what it is, once it was asked for: most of a large unit lies clear of any one seam."""

    __slots__ = ("_reach",)

    _reach: Box

    @property
    def reach(self) -> Box:
        try:
            return self._reach
        except AttributeError:
            reach = box(self._points())
            object.__setattr__(self, "_reach", reach)
            return reach

    def _points(self) -> Iterable[Vector]:
        raise NotImplementedError


@dataclass(frozen=True, slots=True, kw_only=True)
class Corner:
    """`finished`: where the seam lines of the two edges meet. `raw`: the raw outline there, in the
    order of the outline: one point at a convex corner, more at a reflex one (chord ends) or a mark."""

    finished: Vector
    raw: tuple[Vector, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Disc:
    """A curved seam: the circle it runs along, about a point. `inside`: the cloth is seen within it, else
    outside."""

    centre: Vector
    radius: Exact
    inside: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Patch(_Reaching):
    """What is seen of one piece of cloth, as convex cells. `grain` is the unit vector of the
    lengthwise grain; `cut` names the cut piece it came from. With `discs`, only what of the cells lies within
    or outside each of them: two patches divided by a curve share their cells there."""

    fabric: str
    cells: tuple[Polygon, ...]
    grain: Vector
    cut: str
    discs: tuple[Disc, ...] = ()

    def _points(self) -> Iterable[Vector]:
        return (p for cell in self.cells for p in cell)


@dataclass(frozen=True, slots=True, kw_only=True)
class Seam(_Reaching):
    """A sewn seam between its visible ends. `direction` is the unit vector from start to end, carried
    through turns; `pressed` is the side its allowances lie to, seen along that direction; `sewn` False
    for the part of a seam that is still open."""

    start: Vector
    end: Vector
    direction: Vector
    pressed: Pressed
    sewn: bool = True

    def _points(self) -> Iterable[Vector]:
        return self.start, self.end


@dataclass(frozen=True, slots=True, kw_only=True)
class Offcut:
    """Cloth that is no longer seen: under a seam, or cut away. Area in square inches."""

    kind: OffcutKind
    fabric: str
    area: Exact


@dataclass(frozen=True, slots=True, kw_only=True)
class Unit:
    """A piece of cloth, or pieces sewn together.

    `corners` and `directions` have the same length; `directions[i]` is the unit vector along edge i.
    `allowance` is the seam allowance; `cloth` the area that went in since the last cut: always the
    area seen plus the ledger.
    """

    corners: tuple[Corner, ...]
    directions: tuple[Vector, ...]
    patches: tuple[Patch, ...]
    seams: tuple[Seam, ...]
    ledger: tuple[Offcut, ...]
    allowance: Exact
    cloth: Exact
