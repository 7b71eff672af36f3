"""Where seams cross: how many layers of cloth lie on one another, and which pressing lets them lie side by side."""

from __future__ import annotations

from collections.abc import Iterator
from math import cos, pi, sin

from piecewright.craft.finding import Finding
from piecewright.craft.joins import NEAR, Frame, Hit, Join, Side
from piecewright.kernel.build import Step
from piecewright.kernel.unit import Pressed, Seam, Unit

# Two seams that nest, crossed by one pressed to a side, lie seven layers high; two that do not, nine.
MOST_LAYERS = 8

# Directions between those that seams take, so that no sample lies on one.
_SAMPLES = tuple((cos((n + 0.37) * pi / 8), sin((n + 0.37) * pi / 8)) for n in range(16))


def bulky(step: Step, join: Join, result: Unit) -> Iterator[Finding]:
    """Two seams that run on across the new one and are pressed to the same side, where that lies too thick and the
    other way would not: the thickest crossing."""
    s = float(join.first.unit.allowance)
    worst: tuple[int, int] | None = None
    side: Pressed | None = None
    seen: set[tuple[object, ...]] = set()
    for hit in join.first.hits:
        if hit.depth > NEAR - s or not NEAR < hit.at < join.frame.length - NEAR or hit.seam.pressed == "open":
            continue
        for other in join.second.hits:
            if other.depth > NEAR - s or abs(other.at - hit.at) > NEAR or not _same_way(hit, other):
                continue
            side = side or _pressed(join.frame, result)
            if side == "open":
                return
            alike = _crossing(join, hit, other)
            if alike in seen:  # blocks that are alike come again along a row
                continue
            seen.add(alike)
            stacked = layers(join, hit.at, side, None)
            nested = layers(join, hit.at, side, other.seam)
            if stacked > MOST_LAYERS and nested < stacked and (worst is None or stacked > worst[0]):
                worst = (stacked, nested)
    if worst is not None:
        yield Finding("not-nested", step, layers=worst[0], nested=worst[1], name=join.second.name)


def _crossing(join: Join, hit: Hit, turned: Hit) -> tuple[object, ...]:
    """All that the layers at a crossing depend on: the seams near it, as they lie from it."""
    found: list[object] = []
    for side, frame in ((join.first, join.frame), (join.second, join.frame)):
        near = []
        for one in _about(side, frame, hit.at)[1]:
            (a, b), (c, d) = frame.at(one.seam.start.floats), frame.at(one.seam.end.floats)
            place = round(a - hit.at, 6), round(b, 6), round(c - hit.at, 6), round(d, 6)
            near.append((*place, one.seam.pressed, one is turned))
        found.append(tuple(sorted(near)))
    return tuple(found)


def _same_way(hit: Hit, other: Hit) -> bool:
    """Whether two seams run on in one line with their allowances on the same side of it."""
    gx, gy = hit.seam.direction.floats
    hx, hy = other.seam.direction.floats
    if abs(gx * hy - gy * hx) > NEAR or other.seam.pressed == "open":
        return False
    return (hit.seam.pressed == other.seam.pressed) == (gx * hx + gy * hy > 0)


def _pressed(frame: Frame, result: Unit) -> Pressed:
    """How the new seam is pressed, seen along the frame: left is toward the first unit."""
    for seam in reversed(result.seam_rope):
        along, inward = frame.at(seam.start.floats)
        gx, gy = seam.direction.floats
        if abs(inward) < NEAR and abs(gx * frame.nx + gy * frame.ny) < NEAR and along < frame.length + 1:
            if seam.pressed == "open" or gx * frame.dx + gy * frame.dy > 0:
                return seam.pressed
            return "right" if seam.pressed == "left" else "left"
    return "open"


def layers(join: Join, at: float, side: Pressed, turned: Seam | None) -> int:
    """The most layers near the place `at` along the new seam, pressed to a side; `turned` is a seam taken as pressed
    the other way.

    The unit that the seam is pressed toward lies face down with its own seams; under the crossing the allowance
    of the other unit lies flat as it was sewn, and its own is folded back over the seam line.
    """
    reach = float(join.first.unit.allowance) / 2
    toward = 1.0 if side == "left" else -1.0
    most = 0
    first, second = _about(join.first, join.frame, at), _about(join.second, join.frame, at)
    for x, y in _SAMPLES:
        depth = y * reach
        here = (at + x * reach, depth)
        folded = (at + x * reach, -depth)
        one = _lying(first, join.frame, here, turned), _lying(first, join.frame, folded, turned)
        two = _lying(second, join.frame, here, turned), _lying(second, join.frame, folded, turned)
        if depth * toward > 0:  # on the side that all lies on
            own, other = (one, two) if side == "left" else (two, one)
            most = max(most, own[0] + own[1] + other[0])
    return most


_Near = tuple[float, list[Hit]]  # the allowance, and the seams that have theirs about a crossing


def _about(side: Side, frame: Frame, at: float) -> _Near:
    """The seams that pass within two allowances of a place on the new one: no sample lies farther from it than half an
    allowance, and none of theirs reaches farther than one."""
    s = float(side.unit.allowance)
    found = []
    for hit in side.hits:
        gx, gy = hit.seam.direction.floats
        if abs((at - hit.at) * (gx * frame.nx + gy * frame.ny)) <= 2 * s:
            found.append(hit)
    return s, found


def _lying(near: _Near, frame: Frame, place: tuple[float, float], turned: Seam | None) -> int:
    """The layers of one unit at a place, as it was before the join: its cloth, and two allowances on the side that a
    seam is pressed to, or one on either side of a seam pressed open."""
    s, hits = near
    count = 1
    for hit in hits:
        seam = hit.seam
        along, inward = frame.at(seam.start.floats)
        gx, gy = seam.direction.floats
        ux, uy = gx * frame.dx + gy * frame.dy, gx * frame.nx + gy * frame.ny
        px, py = place[0] - along, place[1] - inward
        off = ux * py - uy * px  # to the left of the seam
        end_along, end_inward = frame.at(seam.end.floats)
        reach = ux * px + uy * py
        if abs(off) > s or not -NEAR < reach < (end_along - along) * ux + (end_inward - inward) * uy + NEAR:
            continue
        if seam.pressed == "open":
            count += 1
        elif ((seam.pressed == "left") == (off > 0)) != (seam is turned):
            count += 2
    return count
