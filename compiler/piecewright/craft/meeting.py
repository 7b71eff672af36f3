"""Seams that should meet across a new one, and points that the new one should touch."""

from __future__ import annotations

from collections.abc import Iterator

from piecewright.craft.finding import Finding
from piecewright.craft.joins import NEAR, Frame, Hit, Join, Side
from piecewright.craft.retrim import is_right, outward, retrim
from piecewright.exact import Exact, Vector
from piecewright.kernel.action import Add
from piecewright.kernel.build import Build, Made, Step
from piecewright.kernel.foundation import ROUGH
from piecewright.kernel.points import Tip, points_on
from piecewright.kernel.rope import box
from piecewright.kernel.unit import Polygon, Seam


def misses(step: Step, join: Join, tolerance: Exact) -> Iterator[Finding]:
    """Two seams that end at the new one, nearer to each other than one allowance and farther than the tolerance:
    the widest miss. What is less is eased; what is more was not meant to meet."""
    first, second = _to_edge(join.first), _to_edge(join.second)
    if not first or not second:
        return
    low, high = float(tolerance) - NEAR, float(join.first.unit.allowance) - NEAR
    worst: tuple[Exact, Hit, Hit] | None = None
    for hit in first:
        other = min(second, key=lambda one: abs(one.at - hit.at))
        gap = abs(other.at - hit.at)
        if not low < gap < high or any(abs(one.at - other.at) < gap - NEAR for one in first):
            continue
        exact = abs(_crossing(join, hit.seam) - _crossing(join, other.seam))
        if exact > tolerance and (worst is None or exact > worst[0]):
            worst = (exact, hit, other)
    if worst is not None:
        yield Finding("seams-miss", step, by=worst[0], tolerance=tolerance)


def off_points(build: Build, made: Made, number: int, join: Join) -> Iterator[Finding]:
    """The points of both sides that the seam cuts off or leaves floating: the worst of each side.

    A point counts as lost where more than half of the tolerance goes, so that its blunt end is seen; as floating
    where it stops farther inside than the tolerance, and nearer than one allowance: what is more was meant so.
    """
    for side in (join.first, join.second):
        worst = _worst(side, build.settings.tolerance)
        if worst is not None:
            mend = retrim(build, made, number, side, worst)
            yield Finding(
                _kind(worst), made.steps[number], by=abs(worst.beyond), fabric=worst.fabric, name=side.name, mend=mend,
                seam=worst.allowance,
            )  # fmt: skip


def points_on_paper(build: Build, made: Made) -> Iterator[Finding]:
    """The points that the outer seam of a finished foundation does not meet, the worst toward each edge: it is drawn on
    the paper, so that nothing has to be sewn to it first."""
    steps = [step for step in made.steps if any(isinstance(action, Add) for action in step.actions)]
    if not steps:
        return
    for edge in range(len(made.unit.directions)):
        side = Side(made.unit, edge, Frame(made.unit, edge), "", False)
        worst = _worst(side, build.settings.tolerance)
        if worst is not None and worst.cut.startswith(ROUGH):
            mend = retrim(build, made, len(made.steps) - 1, side, worst)
            yield Finding(
                f"paper-{_kind(worst)}", steps[-1], by=abs(worst.beyond), fabric=worst.fabric, name=made.name,
                mend=mend, seam=worst.allowance, way=outward(made.unit.directions[edge]),
            )  # fmt: skip


def _kind(tip: Tip) -> str:
    return "point-floats" if tip.beyond > 0 else "point-lost"


def _worst(side: Side, tolerance: Exact) -> Tip | None:
    """The point toward an edge that lies farthest off, if it is off at all."""
    if not _may_be_off(side, float(tolerance)):
        return None
    worst: Tip | None = None
    for tip in points_on(side.unit, side.edge):
        along = side.frame.at(tip.spot.floats)[0]
        if not NEAR < along < side.frame.length - NEAR:
            continue
        if is_right(tip, tolerance) or tip.beyond >= side.unit.allowance or not _is_seen(side, tip):
            continue
        if worst is None or abs(tip.beyond) > abs(worst.beyond):
            worst = tip
    return worst


def _to_edge(side: Side) -> list[Hit]:
    """The seams that go to the raw edge and cross the seam line between its ends."""
    s = float(side.unit.allowance)
    return [hit for hit in side.hits if hit.depth < NEAR - s and NEAR < hit.at < side.frame.length - NEAR]


def _crossing(join: Join, seam: Seam) -> Exact:
    """Where the line of a seam meets the new one, along it from its start, exactly."""
    unit, edge = join.first.unit, join.first.edge
    start, along = unit.corners[edge].finished, unit.directions[edge]
    return (seam.start - start).cross(seam.direction) / along.cross(seam.direction)


def _may_be_off(side: Side, tolerance: float) -> bool:
    """Whether a seam ends short of the raw edge or a little past the seam line, or two run together beyond it."""
    s = float(side.unit.allowance)
    before: Hit | None = None
    for hit in side.hits:
        if hit.depth > NEAR - s:
            if hit.depth > tolerance - NEAR or hit.depth < NEAR - tolerance / 2:
                return True
            continue
        if before is not None:
            wide, narrow = hit.at - before.at, hit.raw - before.raw
            # lines that close from `wide` to `narrow` within one allowance meet within another one
            if wide > narrow + NEAR and narrow <= wide - narrow:
                return True
        before = hit
    return False


def _is_seen(side: Side, tip: Tip) -> bool:
    """Whether the tip is a point to the eye: no other cell of its fabric touches it on this side of the seam."""
    unit, frame = side.unit, Frame(side.unit, tip.edge)
    s = float(unit.allowance)
    ends = [p for p in tip.cell if frame.at(p.floats)[1] < NEAR - s] or [tip.spot]
    return not any(
        _touches(cell, end)
        for patch in unit.patch_rope.near(box(ends))
        if patch.fabric == tip.fabric
        for cell in patch.cells
        if cell is not tip.cell and not (side.doubled and _is_across(cell, frame))
        for end in ends
    )


def _is_across(cell: Polygon, frame: Frame) -> bool:
    """Whether most of a cell lies beyond the seam line."""
    return sum(frame.at(p.floats)[1] for p in cell) < 0


def _touches(cell: Polygon, point: Vector) -> bool:
    """Whether a point lies in a cell or on its edge."""
    x, y = point.floats
    px, py = cell[-1].floats
    for corner in cell:
        qx, qy = corner.floats
        if (qx - px) * (y - py) - (qy - py) * (x - px) < -NEAR:
            return False
        px, py = qx, qy
    return True
