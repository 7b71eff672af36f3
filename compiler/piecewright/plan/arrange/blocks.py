"""Blocks as cells of an arrangement: how each can lie, and where its seams reach its edges.

A block is compared as a picture: the same colours in the same outline; seams do not count for that.
"""

from __future__ import annotations

from collections.abc import Sequence

from piecewright.dataclass import dataclass
from piecewright.exact import Exact, Vector
from piecewright.kernel.congruence import turned_onto
from piecewright.kernel.measure import finished_bounds, finished_size
from piecewright.kernel.moves import mirrored, moved, rotated, settled
from piecewright.kernel.unit import Unit
from piecewright.plan.arrange.looks import Look, Looks, looks
from piecewright.plan.arrange.motion import MOTIONS, TURNS, Motion

EAST = Vector(1, 0)
QUARTERS = (EAST, Vector(0, 1), Vector(-1, 0), Vector(0, -1))
Marks = frozenset[Exact]  # distances along an edge, in inches


@dataclass(frozen=True, slots=True, kw_only=True)
class Edges:
    """Where seams end on each finished edge of a block as it lies: from its bottom on the left and right, from its
    left at the top and bottom, in inches. Corners do not count."""

    left: Marks
    right: Marks
    top: Marks
    bottom: Marks


def is_square(unit: Unit) -> bool:
    """Whether a unit's finished outline is a square with its sides straight up."""
    across, down = finished_size(unit)
    return is_rectangle(unit) and across == down


def is_rectangle(unit: Unit) -> bool:
    """Whether a unit's finished outline is a rectangle with its sides straight up."""
    return len(unit.corners) == 4 and all(direction in QUARTERS for direction in unit.directions)


def lying(unit: Unit, motion: Motion) -> Unit:
    """A unit after a motion, its lower left raw corner at the origin."""
    return settled(rotated(mirrored(unit) if motion >= 4 else unit, QUARTERS[motion % 4]))


def looks_of(units: Sequence[Unit], *, reversed_too: bool) -> Looks:
    """How rectangles of patchwork of one size can lie. `reversed_too`: whether they may also be made reversed."""
    quarters = all(is_square(unit) for unit in units)
    motions = [motion for motion in MOTIONS if quarters or motion % 2 == 0]
    there = {(block, motion): lying(unit, motion) for block, unit in enumerate(units) for motion in motions}

    def same(first: Look, second: Look) -> bool:
        one, other = there.get((first.block, first.motion)), there.get((second.block, second.motion))
        return one is not None and other is not None and turned_onto(one, other, EAST) is not None

    allowed = [motion for motion in motions if reversed_too or motion in TURNS]
    return looks(len(units), same, allowed)


def edges(unit: Unit) -> Edges:
    """Where the seams of a rectangle of patchwork end on its finished edges."""
    low, floor, high, ceiling = finished_bounds(unit)
    here = moved(unit, Vector(-low, -floor))
    across, down = high - low, ceiling - floor
    zero = Exact(0)
    return Edges(
        left=_marks(here, Vector(zero, zero), Vector(0, 1), down),
        right=_marks(here, Vector(across, zero), Vector(0, 1), down),
        top=_marks(here, Vector(zero, down), Vector(1, 0), across),
        bottom=_marks(here, Vector(zero, zero), Vector(1, 0), across),
    )


def _marks(unit: Unit, start: Vector, along: Vector, length: Exact) -> Marks:
    """Where seams that reach the line of an edge cross it, from its start, between its ends."""
    found: set[Exact] = set()
    for seam in unit.seams:
        slope = along.cross(seam.direction)
        if not slope:
            continue
        before, behind = along.cross(seam.start - start), along.cross(seam.end - start)
        if (before > 0 and behind > 0) or (before < 0 and behind < 0):
            continue
        at = (seam.start - start).cross(seam.direction) / slope
        if 0 < at < length:
            found.add(at)
    return frozenset(found)


def seams_meet(first: Marks, second: Marks) -> bool:
    """Whether every seam that ends on one of two edges that are sewn together goes on beyond it."""
    return first == second
