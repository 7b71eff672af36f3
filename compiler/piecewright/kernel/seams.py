"""Seams as they are seen: stretches in one line taken together, and where seams cross or end on another."""

from __future__ import annotations

from piecewright.dataclass import dataclass
from piecewright.exact import Exact, Vector
from piecewright.kernel.unit import Unit


@dataclass(frozen=True, slots=True, kw_only=True)
class Run:
    """A straight run of seams between its visible ends. `direction` is the unit vector from start to end."""

    start: Vector
    end: Vector
    direction: Vector

    @property
    def length(self) -> Exact:
        return (self.end - self.start).dot(self.direction)


def runs(unit: Unit) -> tuple[Run, ...]:
    """The runs of seams; stretches in one line that touch, overlap or face each other across one narrow
    piece of cloth count as one run, from the first visible end to the last."""
    lines: list[tuple[Vector, Vector, Exact, Exact]] = []  # direction, point, low, high
    for seam in unit.seams:
        along = seam.direction
        if along.x < 0 or (not along.x and along.y < 0):
            along = -along
        low, high = sorted((seam.start.dot(along), seam.end.dot(along)))
        for i, (direction, point, first, last) in enumerate(lines):
            if direction == along and not direction.cross(seam.start - point):
                lines[i] = (direction, point, min(first, low), max(last, high))
                break
        else:
            lines.append((along, seam.start, low, high))
    return tuple(
        Run(
            start=point + direction * (low - point.dot(direction)),
            end=point + direction * (high - point.dot(direction)),
            direction=direction,
        )
        for direction, point, low, high in lines
    )


def crossings(unit: Unit) -> tuple[Vector, ...]:
    """Where two seams that do not run in one line meet: ends that lie on another seam, and crossings."""
    found: dict[Vector, None] = {}
    for seam in unit.seam_rope:
        for other in unit.seam_rope.near(seam.reach):
            det = seam.direction.cross(other.direction)
            if not det:
                continue
            share = (other.start - seam.start).cross(other.direction) / det
            spot = seam.start + seam.direction * share
            if spot not in found and _on(seam.start, seam.end, spot) and _on(other.start, other.end, spot):
                found[spot] = None
    return tuple(found)


def _on(start: Vector, end: Vector, spot: Vector) -> bool:
    return (spot - start).dot(end - spot) >= 0
