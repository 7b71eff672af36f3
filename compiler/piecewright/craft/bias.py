"""Edges of a finished block that stretch, since they run neither along nor across the threads."""

from __future__ import annotations

from collections.abc import Iterator

from piecewright.craft.finding import Finding
from piecewright.craft.joins import NEAR, Frame
from piecewright.exact import Vector
from piecewright.kernel.build import Made
from piecewright.kernel.foundation import ROUGH
from piecewright.kernel.measure import raw_edge
from piecewright.kernel.rope import farther_than
from piecewright.kernel.unit import Patch

# An edge counts as straight up to 10 degrees off the threads: cloth hardly stretches there, and a block trimmed to
# its seams is often turned by a few degrees. The product of sine and cosine of the angle is half the sine of twice it.
OFF_GRAIN = 0.171


def bias_edges(made: Made) -> Iterator[Finding]:
    """One finding for all of them. A stretch no longer than two allowances holds with its neighbours, and so does the
    edge of a quilt that is straight for the most part, as between the posts of a table on point.

    Only of blocks whose corners are all square: on others, as on a diamond, some edge must be on the bias.
    """
    unit = made.unit
    if not all(_is_square(unit.directions[n - 1], along) for n, along in enumerate(unit.directions)):
        return
    least = 2 * float(unit.allowance)
    fabrics: dict[str, None] = {}
    ways: dict[str, None] = {}
    worst = 0.0
    for edge, along in enumerate(unit.directions):
        dx, dy = along.floats
        frame: Frame | None = None
        start, _ = raw_edge(unit, edge)
        slanting: list[tuple[str, float]] = []
        stretch = 0.0
        for patch in unit.patch_rope.unless(farther_than(start.floats, along.left().floats, NEAR)):
            gx, gy = patch.grain.floats
            off = abs((gx * dx + gy * dy) * (gx * dy - gy * dx))
            if off < OFF_GRAIN or patch.cut.startswith(ROUGH):  # paper holds it until the edge is sewn
                continue
            frame = frame or Frame(unit, edge)
            length = _length_on(patch, frame, float(unit.allowance))
            if length > least + NEAR:
                slanting.append((patch.fabric, off))
                stretch += length
        if slanting and frame is not None and (made.kind != "quilt" or stretch * 2 > frame.length):
            fabrics.update((fabric, None) for fabric, _ in slanting)
            ways[_way(dy, -dx)] = None
            worst = max(worst, *(off for _, off in slanting))
    if fabrics:
        from math import asin, pi  # an angle is only said, never worked with

        angle = asin(min(1.0, 2 * worst)) / 2 * 180 / pi
        yield Finding("bias-edge", None, name=made.name, fabrics=tuple(fabrics), ways=tuple(ways), angle=angle)


def _is_square(along: Vector, then: Vector) -> bool:
    (ax, ay), (bx, by) = along.floats, then.floats
    return abs(ax * bx + ay * by) < NEAR or abs(ax * by - ay * bx) < NEAR


def _length_on(patch: Patch, frame: Frame, allowance: float) -> float:
    """How much of the raw edge a patch takes up between the finished ends."""
    total = 0.0
    for cell in patch.cells:
        placed = [frame.at(p.floats) for p in cell]
        for (u, one), (v, other) in zip(placed, placed[1:] + placed[:1], strict=True):
            if one < NEAR - allowance and other < NEAR - allowance:
                total += max(0.0, min(v, frame.length) - max(u, 0.0))
    return total


def _way(x: float, y: float) -> str:
    """The place word for an edge that faces this way."""
    if abs(x) < NEAR or abs(y) < NEAR:
        return ("right" if x > 0 else "left") if abs(y) < NEAR else ("top" if y > 0 else "bottom")
    return f"{'upper' if y > 0 else 'lower'}-{'right' if x > 0 else 'left'}"
