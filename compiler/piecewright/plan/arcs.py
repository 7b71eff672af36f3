"""Curved seams as they are drawn: cloth within and outside a circle as fine polylines.

Only here are arcs straightened, into chords of 2 1/2 degrees that always begin at the same angles, so that two patches
share every chord of the seam between them. A chord lies at most r / 4200 inside its arc. Points are floats in inches.
"""

from __future__ import annotations

from math import atan2, cos, degrees, hypot, radians, sin

from piecewright.dataclass import dataclass
from piecewright.kernel.unit import Disc, Patch
from piecewright.plan.model import Point
from piecewright.plan.rounding import drawn_points

STEP = 2.5  # degrees
Ring = tuple[Point, ...]
_NEAR = 1e-6  # inches
_FLAT = 3e-4  # of the radius: how far a chord may lie inside its arc, with a little room


@dataclass(frozen=True, slots=True, kw_only=True)
class Rounded:
    """One cell of a patch as it is seen: convex outline, holes cut out by curves, and the arcs that are its seam."""

    outline: Ring
    holes: tuple[Ring, ...]
    arcs: tuple[Ring, ...]


def rounded(patch: Patch, shift: Point) -> tuple[Rounded, ...]:
    """The cells of a patch with discs, without those that no cloth is seen of."""
    found: list[Rounded] = []
    for cell in patch.cells:
        outline: Ring = drawn_points(cell, shift)
        arcs: list[Ring] = []
        for disc in patch.discs:
            if disc.inside:
                outline = clipped(circle(disc, shift), outline)
        for disc in patch.discs:
            if disc.inside:
                arcs += _arcs(outline, disc, shift)
        holes = [clipped(circle(disc, shift), outline) for disc in patch.discs if not disc.inside]
        seen = _area(outline) - sum(_area(hole) for hole in holes)
        if seen > _NEAR:
            found.append(Rounded(outline=outline, holes=tuple(hole for hole in holes if hole), arcs=tuple(arcs)))
    return tuple(found)


def circle(disc: Disc, shift: Point) -> Ring:
    x, y = disc.centre.floats
    return arc((x + shift[0], y + shift[1]), float(disc.radius), 0.0, 360.0 - STEP)


def arc(centre: Point, radius: float, first: float, last: float) -> Ring:
    """Points along an arc from one angle to another, in degrees counter-clockwise, both ends among them."""
    x, y = centre
    turns = [first]
    turn = (first // STEP + 1) * STEP
    while turn < last - _NEAR:
        turns.append(turn)
        turn += STEP
    turns.append(last)
    return tuple((x + radius * cos(radians(t)), y + radius * sin(radians(t))) for t in turns)


def clipped(ring: Ring, convex: Ring) -> Ring:
    """What of a convex ring lies within another, both counter-clockwise; empty when nothing does."""
    for i, start in enumerate(convex):
        if not ring:
            return ()
        end = convex[(i + 1) % len(convex)]
        dx, dy = end[0] - start[0], end[1] - start[1]
        length = hypot(dx, dy)
        if length < _NEAR:
            continue
        sides = [(dx * (p[1] - start[1]) - dy * (p[0] - start[0])) / length for p in ring]
        kept: list[Point] = []
        for n, p in enumerate(ring):
            before, here = sides[n - 1], sides[n]
            if (before > _NEAR and here < -_NEAR) or (before < -_NEAR and here > _NEAR):
                q = ring[n - 1]
                share = before / (before - here)
                kept.append((q[0] + (p[0] - q[0]) * share, q[1] + (p[1] - q[1]) * share))
            if here >= -_NEAR:
                kept.append(p)
        ring = tuple(kept)
    return ring if _area(ring) > _NEAR else ()


def uncovered(start: Point, end: Point, covers: tuple[Ring, ...]) -> tuple[tuple[Point, Point], ...]:
    """The parts of a stretch that lie within none of some convex rings; along their edges it is not covered."""
    spans = [(0.0, 1.0)]
    for ring in covers:
        hidden = _within(start, end, ring)
        if hidden is None:
            continue
        low, high = hidden
        spans = [
            span for a, b in spans for span in ((a, min(b, low)), (max(a, high), b)) if span[1] - span[0] > _NEAR
        ]
    dx, dy = end[0] - start[0], end[1] - start[1]
    return tuple(
        ((start[0] + dx * a, start[1] + dy * a), (start[0] + dx * b, start[1] + dy * b)) for a, b in spans
    )


def leaving_angle(out: Point) -> float:
    """The angle, in degrees, at which the first edge of a corner leaves it: a quarter circle runs a quarter on."""
    return degrees(atan2(out[1], out[0]))


def _within(start: Point, end: Point, ring: Ring) -> tuple[float, float] | None:
    low, high = 0.0, 1.0
    dx, dy = end[0] - start[0], end[1] - start[1]
    for i, p in enumerate(ring):
        q = ring[(i + 1) % len(ring)]
        ex, ey = q[0] - p[0], q[1] - p[1]
        length = hypot(ex, ey)
        if length < _NEAR:
            continue
        here = (ex * (start[1] - p[1]) - ey * (start[0] - p[0])) / length - 1e-4
        rate = (ex * dy - ey * dx) / length
        if abs(rate) < 1e-12:
            if here < 0:
                return None
            continue
        share = -here / rate
        if rate > 0:
            low = max(low, share)
        else:
            high = min(high, share)
    return (low, high) if high - low > _NEAR else None


def _arcs(outline: Ring, disc: Disc, shift: Point) -> list[Ring]:
    """The runs of an outline that lie on a circle."""
    x, y = disc.centre.floats
    x, y, radius = x + shift[0], y + shift[1], float(disc.radius)
    on = [abs(hypot(px - x, py - y) - radius) < radius * _FLAT + _NEAR for px, py in outline]
    longest = 2 * radius * sin(radians(STEP / 2)) * 1.01
    count = len(outline)
    joined = [
        on[n]
        and on[(n + 1) % count]
        and hypot(outline[(n + 1) % count][0] - p[0], outline[(n + 1) % count][1] - p[1]) <= longest
        for n, p in enumerate(outline)
    ]
    if all(joined):
        return [(*outline, outline[0])]
    runs: list[Ring] = []
    for n in range(count):
        if joined[n] and not joined[n - 1]:
            run, at = [outline[n]], n
            while joined[at % count]:
                at += 1
                run.append(outline[at % count])
            runs.append(tuple(run))
    return runs


def _area(ring: Ring) -> float:
    return sum(ring[i - 1][0] * p[1] - p[0] * ring[i - 1][1] for i, p in enumerate(ring)) / 2
