"""Tables of rectangles that fit exactly, set together at once: the blocks, sashes and posts of a quilt."""

from __future__ import annotations

from collections.abc import Sequence

from piecewright.dataclass import dataclass
from piecewright.exact import Exact, Vector
from piecewright.kernel.action import Lay
from piecewright.kernel.measure import finished_bounds, lies_straight
from piecewright.kernel.moves import moved
from piecewright.kernel.setting import Course, Frame, Laid, Row, level_frame, set_together
from piecewright.kernel.unit import Pressed, Unit, spotted
from piecewright.verbs.registry import Said
from piecewright.verbs.work import Brought, Refused


@dataclass(frozen=True, slots=True, kw_only=True)
class Level:
    """A row of a table. `pressed`: its seams, left toward the piece on their left; `below`: the seam to the row below,
    left toward this row."""

    pieces: tuple[Brought, ...]
    pressed: Pressed
    pressings: tuple[Pressed, ...] = ()
    below: Pressed = "right"


def set_level(levels: Sequence[Level]) -> Lay | None:
    """A table sewn row by row, top row first; None where its pieces are no rectangles that fit exactly, so that they
    have to be joined one by one."""
    known: dict[int, tuple[Exact, Exact, Exact, Exact]] = {}
    rows: dict[tuple[object, ...], tuple[Row, Exact, Exact]] = {}
    placed: list[tuple[Row, Exact, Exact]] = []
    for level in levels:
        for piece in level.pieces:
            if id(piece.unit) not in known:
                if not is_level(piece.unit):
                    return None
                known[id(piece.unit)] = finished_bounds(piece.unit)
        key = tuple(id(piece.unit) for piece in level.pieces), level.pressed, level.pressings
        found = rows.get(key) or _row(level, known)
        if found is None:
            return None
        rows[key] = found
        placed.append(found)
    width = placed[0][1]
    if any(one[1] != width for one in placed):
        return None
    allowance = levels[0].pieces[0].unit.allowance
    y = sum((one[2] for one in placed), Exact(0))
    frame = level_frame(width, y, allowance)
    courses: list[Course] = []
    for number, (row, _, height) in enumerate(placed):
        top = y if number else None
        y = y - height
        above = levels[number - 1].below if number else "open"
        bottom = y if number + 1 < len(placed) else None
        courses.append(Course(row=row, at=Vector(Exact(0), y), bottom=bottom, top=top, above=above))
    return laid_out(tuple(courses), frame, [level.pieces for level in levels])


def laid_out(courses: tuple[Course, ...], frame: Frame, pieces: Sequence[Sequence[Brought]]) -> Lay:
    """The action of a table set together."""
    result, row_units = set_together(courses, frame)
    spots = Spotted()
    rows = [[moved(spots.of(one.unit), course.at + one.at) for one in course.row.pieces] for course in courses]
    return Lay(
        rows=tuple(map(tuple, rows)),
        names=tuple(tuple(piece.name for piece in row) for row in pieces),
        result=result,
        row_units=row_units,
        keys=tuple(tuple(piece.source if isinstance(piece.source, str) else "" for piece in row) for row in pieces),
    )


def refuse_pressing(said: Said, sewer: str) -> None:
    """`Refused` where a step that sews nothing says how to press; `sewer` is the step that sews it."""
    clause = said.clause("press")
    if clause is not None:
        raise Refused("pressed-before-sewn", clause.at(), sewer=sewer)


class Spotted:
    """Units as spots, each made once."""

    def __init__(self) -> None:
        self._known: dict[int, tuple[Unit, Unit]] = {}

    def of(self, unit: Unit) -> Unit:
        found = self._known.get(id(unit))
        if found is None:
            found = self._known[id(unit)] = (unit, spotted(unit))
        return found[1]


def is_level(unit: Unit) -> bool:
    """True for a rectangle whose sides run across and down, with nothing left open at its corners."""
    return lies_straight(unit) and all(len(corner.raw) == 1 for corner in unit.corners)


def _row(level: Level, known: dict[int, tuple[Exact, Exact, Exact, Exact]]) -> tuple[Row, Exact, Exact] | None:
    """A row from its lower left finished corner, its width and its height; None where the heights differ."""
    x = Exact(0)
    height: Exact | None = None
    laid: list[Laid] = []
    for number, piece in enumerate(level.pieces):
        left, bottom, right, top = known[id(piece.unit)]
        if height is None:
            height = top - bottom
        elif top - bottom != height:
            return None
        start, x = x, x + right - left
        last = number + 1 == len(level.pieces)
        laid.append(
            Laid(
                unit=piece.unit,
                at=Vector(start - left, -bottom),
                left=start if number else None,
                right=None if last else x,
            )
        )
    assert height is not None
    pressed = level.pressings or (level.pressed,) * (len(laid) - 1)
    return Row(pieces=tuple(laid), pressed=pressed), x, height
