"""Every recorded action of a pattern worked out a second time from what went into it, and compared.

Each action is checked by itself, starting from the cloth as it lay before; what went in was checked as the result of
an earlier action, or is a rectangle as cut. No action is passed over: one that is not known here is an error, and one
of which a part is not worked out gives the reason, a key of `IN_PART`.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping

from differential import bands, finishing, on_point, on_the_table
from differential.back import Back, Ends, ends, is_open, slanted_sides, unmarked
from differential.finishing import facing, near
from differential.with_shapely import WithShapely
from differential.with_sympy import WithSympy
from piecewright.exact import Exact, Vector
from piecewright.kernel import action as done_to
from piecewright.kernel.action import (
    Action,
    Add,
    Curve,
    CutPiece,
    Finish,
    Flip,
    Lay,
    Open,
    Place,
    Press,
    Sew,
    Stitch,
    Subcut,
    Take,
    Trim,
    Turn,
)
from piecewright.kernel.build import Build, Made, Piece, Step
from piecewright.kernel.moves import settled
from piecewright.kernel.unit import Unit

__all__ = ["Back", "Replay", "WithShapely", "WithSympy", "actions", "ends", "replay"]

FULL = ""
IN_PART = {
    "round an inner corner": "allowances lap in the corner, and which one shows is no matter of the seam lines",
    "beside a slanted inner corner": "the same: there one allowance shows beyond the end of the other",
    "sewn in part": "beside the open part one allowance lies over the other's cloth",
    "finished": "the same, until it is sewn",
    "beside an open seam": "the same",
}
"""What of a seam the references work out by its finished picture alone, within the seam lines, and why: outline and
fabrics there are those of the parts, side by side."""


def actions(build: Build) -> Iterator[tuple[str, Action, Step]]:
    for made in build.made:
        for step in made.steps:
            for action in (*step.actions, *step.last):
                yield f"{made.key}, line {step.line}", action, step


def replay(build: Build, back: Back) -> Counter[tuple[str, str]]:
    """Checks all actions of a build. Gives how many of each kind there were, with the reason where one was worked out
    only in part."""
    done: Counter[tuple[str, str]] = Counter()
    units = {made.key: made.unit for made in build.made}
    for made in build.made:
        done += Replay(made, back, units).run()
    return done


class Replay:
    """The steps of one definition in order."""

    def __init__(self, made: Made, back: Back, units: Mapping[str, Unit]) -> None:
        self.made = made
        self.back = back
        self.units = units  # all that was made, by its key
        self.waiting: list[Place] = []
        self.before: Unit | None = None

    def run(self) -> Counter[tuple[str, str]]:
        done: Counter[tuple[str, str]] = Counter()
        for step in self.made.steps:
            for action in (*step.actions, *step.last):
                kind = type(action).__name__
                try:
                    done[kind, self.action(action, step)] += 1
                except AssertionError as error:
                    raise AssertionError(f"{self.made.key}, line {step.line}: {kind}: {error}") from error
        assert not self.waiting
        return done

    def action(self, action: Action, step: Step) -> str:
        """Checks one. Gives `FULL`, or the key of `IN_PART`."""
        back = self.back
        reason = FULL
        if isinstance(action, CutPiece):
            self._cut_piece(action, step)
        elif isinstance(action, Take):
            pass  # laid on the table as it was made; the tests see that it was
        elif isinstance(action, Turn):
            back.check(back.turned(back.read(action.before), action.degrees), action.result)
            if action.layers is not None:
                on_the_table.turned(action, back)
        elif isinstance(action, Subcut):
            _subcut(action, back)
        elif isinstance(action, Place):
            self.waiting.append(action)
        elif isinstance(action, Stitch):
            on_the_table.stitched(action, self.waiting, back)
            self.waiting = []
        elif isinstance(action, Open):
            on_the_table.opened(action, back)
        elif isinstance(action, Flip):
            on_the_table.flipped(action, back)
        elif isinstance(action, Add):
            on_the_table.on_paper(action, back)
        elif isinstance(action, Curve):
            centre, radius = _arc(action)
            back.check(back.curved(back.read(action.before), centre, radius, action.fabric), action.result)
            assert action.radius == radius
        elif isinstance(action, Sew):
            if step.verb == "border":
                bands.brought(action, step, self.units, back, _against)
            reason = partly(action)
            if reason:
                back.together((action.first, action.second), action.result, action.eased)
            else:
                _sew(action, back)
        elif isinstance(action, Finish):
            reason = "finished"
            back.together((action.before,), action.result, action.before.allowance * 0)
        elif isinstance(action, Press):
            self._pressed(action)
        elif isinstance(action, Lay):
            if action.sewn and not action.is_level:
                on_point.sewn(action, self.made, back)
            else:
                _lay(action, back)
        elif isinstance(action, Trim):
            _trim(action, back)
        elif isinstance(action, done_to.Back):
            finishing.backed(action, back)
        elif isinstance(action, done_to.Bind):
            finishing.bound(action, back)
        else:
            raise TypeError(f"{type(action).__name__} is not replayed")
        self.before = _left_by(action)
        return reason

    def _cut_piece(self, action: CutPiece, step: Step) -> None:
        s = action.unit.allowance
        if action.angle is None:
            piece = self.back.piece(action.width, action.height, action.fabric, s)
        else:
            cut = [one.source for one in step.supplies if isinstance(one.source, Piece)]
            (mirrored,) = {one.reversed for one in cut if (one.shape, one.angle) == (action.shape, action.angle)}
            sides = slanted_sides(action.shape, action.width, action.height, action.angle, mirrored=mirrored)
            piece = self.back.polygon(sides, action.fabric, s)
        self.back.check(piece, settled(action.unit))

    def _pressed(self, action: Press) -> None:
        """Pressing moves no cloth."""
        assert self.before is not None
        assert action.result.corners == self.before.corners
        assert action.result.patches == self.before.patches


def _left_by(action: Action) -> Unit | None:
    if isinstance(action, CutPiece | Take):
        return action.unit
    if isinstance(action, Subcut):
        return action.kept[0]
    if isinstance(action, Place | Stitch):
        return None
    if isinstance(action, done_to.Back | done_to.Bind):
        return action.top
    return action.result


def partly(action: Sew) -> str:
    """Why the references do not sew it edge to edge."""
    if action.part:
        return "sewn in part"
    if len(action.first_edges) > 1:
        return "round an inner corner"
    units = (action.first, action.second, action.result)
    if any(is_open(unit) for unit in units):
        return "beside an open seam"
    seam = action.first.directions[action.first_edges[0]]
    turns = [(unit.directions[n - 1], along) for unit in units for n, along in enumerate(unit.directions)]
    inner = any(before.cross(along) < 0 for before, along in turns)
    slanted = any(seam.dot(along) and seam.cross(along) for _, along in turns)
    return "beside a slanted inner corner" if inner and slanted else FULL


def _sew(action: Sew, back: Back) -> None:
    """The edges are found by where they lie, marks on them left out."""
    first, second = unmarked(action.first), unmarked(action.second)
    edge = action.first_edges[0]
    sewn, along = ends(action.first, edge), action.first.directions[edge]
    mine, theirs = _on_line(first, along, sewn), _on_line(second, -along, sewn)
    lengths = [(e[1] - e[0]).squared() for e in (mine, theirs)]
    placed = action.step is not None or (lengths[0] != lengths[1] and not action.eased)
    if placed:
        _placed_as_said(action, mine, theirs)
    back.check(back.sew(back.read(first), mine, back.read(second), theirs, placed), action.result)


def _on_line(unit: Unit, along: Vector, sewn: Ends) -> Ends:
    """The edge that runs one way and lies along the stretch that is sewn."""
    found = [
        ends(unit, n)
        for n, direction in enumerate(unit.directions)
        if direction == along and not along.cross(unit.corners[n].finished - sewn[0])
    ]
    (edge,) = [
        (p, q)
        for p, q in found
        if max(at.dot(along) for at in sewn) > p.dot(along) and q.dot(along) > min(at.dot(along) for at in sewn)
    ]
    return edge


def _placed_as_said(action: Sew, mine: Ends, theirs: Ends) -> None:
    """Edges of unequal length lie middle on middle, or even at one end; those of stepped strips a step apart."""
    if action.step is not None:
        left = [min(edge, key=lambda p: p.x).x for edge in (mine, theirs)]
        assert left[1] - left[0] == action.step
    else:
        assert mine[0] == theirs[1] or mine[1] == theirs[0] or mine[0] + mine[1] == theirs[0] + theirs[1]


def _arc(action: Curve) -> tuple[Vector, Exact]:
    """Centre and radius of a curved seam. That of a half melon goes through both finished corners at 45 degrees to the
    side, so that lines square to it there meet half of the side outside its middle."""
    corners = [corner.finished for corner in action.before.corners]
    start, end = corners[action.at], corners[(action.at + 1) % len(corners)]
    if action.shape == "quarter circle":
        return start, action.radius
    half = (end - start) / 2
    centre = start + half + Vector(half.y, -half.x)
    return centre, (centre - start).squared().sqrt()


def _subcut(action: Subcut, back: Back) -> None:
    """Each part is what the reference cuts there. Of a set cut at an angle the wedges at its ends are no segments."""
    parts = [back.read(action.before)]
    for start, end in action.lines:
        parts = back.cut(parts, start, end)
    rest = list(parts)
    for part in action.parts:
        own = next((n for n, own in enumerate(rest) if _same(back, own, part)), None)
        assert own is not None, "a part of the cut is not where the reference has one"
        del rest[own]
    assert bool(rest) == (action.angle is not None)
    assert {_shape(kept) for kept in action.kept} == {_shape(part) for part in action.parts}
    if action.layers is not None:
        on_the_table.cut_through(action, back)


def _shape(unit: Unit) -> tuple[object, ...]:
    """What turning does not change: the finished sides, and how much of each fabric is seen."""
    corners = [corner.finished for corner in unit.corners]
    sides = sorted((q - p).squared() for p, q in zip(corners, corners[1:] + corners[:1], strict=True))
    return (*sides, *sorted({patch.fabric for patch in unit.patches}))


def _same(back: Back, own: object, part: Unit) -> bool:
    try:
        back.check(own, part)
    except AssertionError:
        return False
    return True


def _trim(action: Trim, back: Back) -> None:
    low_left, low_right, _, high_left = corners = action.ruler.corners
    across, up = low_right - low_left, high_left - low_left
    assert across.squared() == action.width * action.width and up.squared() == action.height * action.height
    assert corners[2] == low_right + up and across.dot(up) == 0 and across.cross(up) > 0
    back.check(back.trim(back.read(action.before), corners), settled(action.result))


def _lay(action: Lay, back: Back) -> None:
    """Cell to cell and row to row, each set on by its own edge; the recorded places are not used."""
    if not action.sewn:
        back.same(back.cloth(action.rows[0][0]), back.cloth(action.result))
        return
    rows = []
    for cells in action.rows:
        row = back.read(cells[0])
        for cell in cells[1:]:
            row = back.sew(row, *_against(row, cell, (1.0, 0.0), back), False)
        rows.append(row)
    for row, unit in zip(rows, action.row_units, strict=bool(action.row_units)):
        back.check(row, unit)
    whole = rows[0]
    for row in rows[1:]:
        mine, theirs = facing(whole, (0.0, -1.0), back), facing(row, (0.0, 1.0), back)
        whole = back.sew(whole, mine, row, theirs, False)
    back.check(whole, action.result)


def _against(row: object, cell: Unit, outward: tuple[float, float], back: Back) -> tuple[int, object, Ends]:
    """The edge of a row to the right and the edge of a cell that faces it: upright ones, or else the ones that slant
    alike."""
    found = []
    for n, (normal, length) in enumerate(back.normals(row)):
        if normal[0] * outward[0] + normal[1] * outward[1] <= 1e-9:
            continue
        for m, along in enumerate(cell.directions):
            x, y = along.right().floats
            if near(normal, (-x, -y)):
                p, q = ends(cell, m)
                found.append((near(normal, outward), length, float((q - p).squared()), n, m))
    *_, mine, theirs = max(found)
    return mine, back.read(cell), ends(cell, theirs)
