"""The closed set of things done to cloth. Figures, sentences and counts are made from these alone.

In each action the geometry before and after stands in one frame, so that a figure can draw both.
"""

from __future__ import annotations

from piecewright.dataclass import dataclass
from piecewright.exact import Exact, Vector
from piecewright.kernel.backing import Backing
from piecewright.kernel.binding import Binding
from piecewright.kernel.curve import Bend, CurveShape
from piecewright.kernel.foundation import Foundation
from piecewright.kernel.layers import Layers
from piecewright.kernel.unit import Pressed, Unit

Line = tuple[Vector, Vector]
TOWARD_SEWN, AWAY_FROM_SEWN = "toward the piece just sewn on", "away from the piece just sewn on"
TOWARD_CORNER, AWAY_FROM_CORNER = "toward the corner", "away from the corner"


@dataclass(frozen=True, slots=True, kw_only=True)
class CutPiece:
    """A piece cut from cloth is laid on the table. `shape`: square, rectangle, strip, …; `width`
    across and `height` down as cut. A strip has no ends yet: its `width` is only drawn. `angle`: of a piece cut
    from a strip at an angle, in degrees."""

    shape: str
    width: Exact
    height: Exact
    fabric: str
    unit: Unit
    angle: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Take:
    """A unit made before is laid on the table. `name` is what it is called, with its turning."""

    name: str
    unit: Unit


@dataclass(frozen=True, slots=True, kw_only=True)
class Turn:
    """The work is turned by `degrees` counter-clockwise (negative: clockwise). Of work in layers `before` and
    `result` are the base, and `layers` all of it before and after."""

    degrees: int
    before: Unit
    result: Unit
    layers: tuple[Layers, Layers] | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Subcut:
    """A cut through the work. `lines`: each cut from edge to edge. `parts`: all that result, where they
    lie when cut. `kept`: one part of each kind, as it lies afterwards (alike parts give one). `distance`:
    how far from the edge it is measured, or the width of the segments, square to the cut; None for a cut from
    point to point. `names`: of the kinds, where they were named, in the order of `kept`. `angle`: in degrees,
    between segments and the edge of the strips, where they are not cut square to it. `keep`: where the part lies
    that stays as it is, where the step says so. Of work in layers these
    units are the base; `layers` is all that was cut, and `halves` the part of each kind, still closed."""

    before: Unit
    lines: tuple[Line, ...]
    parts: tuple[Unit, ...]
    kept: tuple[Unit, ...]
    distance: Exact | None
    names: tuple[str, ...] = ()
    angle: int | None = None
    keep: str = ""
    layers: Layers | None = None
    halves: tuple[Layers, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """Pieces are laid face down on the work, right sides together, raw edges even. `before`: the work and
    what lies on it already. `pieces`: as they will lie when they are opened. `corners`: the corner of each, none
    for one that covers the work. Over which line a piece is turned, only a stitching says: when it is known,
    `facing` are the pieces as they lie, seen through their wrong side, and `drawn` the lines to draw on it."""

    before: Layers
    pieces: tuple[Unit, ...]
    name: str
    corners: tuple[str, ...]
    facing: tuple[Unit, ...] = ()
    drawn: tuple[Line, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Stitch:
    """Seams through all layers. `result`: the layers with every stitching so far. `lines`: the new ones, from end
    to end. `drawn`: the lines they run on or beside, where these are no edges; `beside`: one on each side."""

    result: Layers
    lines: tuple[Line, ...]
    drawn: tuple[Line, ...]
    beside: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Open:
    """A part that one seam holds is opened over it and pressed. `seams`: the new ones in the result, more than
    one where several pieces lie along the stitching. `toward`: as for `Press`."""

    layers: Layers
    result: Unit
    seams: tuple[int, ...]
    toward: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Flip:
    """A square, face down in a corner of the work, is sewn corner to corner, cut an allowance outside the seam
    and opened. `piece`: as it lies before it is opened. `line`: the seam from end to end; `cut`: where both
    layers are cut. `seam` is its number in the result; `toward`: as for `Press`."""

    before: Unit
    piece: Unit
    line: Line
    cut: Line
    result: Unit
    seam: int
    toward: str
    name: str
    corner: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Add:
    """A piece is put on a paper foundation: the first is laid on it, each other one sewn along its line and opened.
    `foundation` has all its pieces, those to come too, so that each is known as it will be seen; `number` is the place
    of this one, from 0. `result`: what lies on the paper then, trimmed to it."""

    foundation: Foundation
    number: int
    result: Unit


@dataclass(frozen=True, slots=True, kw_only=True)
class Curve:
    """A piece with a round edge is sewn into a hollow that was cut for it: a curved seam. `shape`: a quarter circle in
    a corner, the seam of a radius about its finished point, or a half melon on a side, from one finished corner to the
    other. `at` is the number of that corner or edge in the outline of `before`, `place` the word for it. `pressed` is
    the side its allowances lie to, left for the work and right for the piece; `toward`: as for `Press`."""

    before: Unit
    shape: CurveShape
    at: int
    place: str
    radius: Exact
    fabric: str
    result: Unit
    toward: str
    pressed: Pressed

    @property
    def bend(self) -> Bend:
        return Bend(self.shape, self.radius)


@dataclass(frozen=True, slots=True, kw_only=True)
class Sew:
    """Two units become one. `second` is placed as it lies in `result`; the edges are those that are
    sewn, in the order of each unit's outline. `name`: what the second is called. `eased`: by how much
    the edges differ in finished length, taken up within the tolerance. `stops`: the finished corners or marks
    where the stitching ends, short of the raw edge; `part`: what lies beyond stays open, to be finished later.
    `step`: of strips without ends, how far the second's left end lies right of the first's (left: negative)."""

    first: Unit
    second: Unit
    first_edges: tuple[int, ...]
    second_edges: tuple[int, ...]
    result: Unit
    name: str
    eased: Exact
    stops: tuple[Vector, ...] = ()
    part: bool = False
    step: Exact | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Finish:
    """The open end of a seam that was partly sewn is sewn. `edges`: the two edges of the work that lie against
    each other; `stop`: where the part sewn before ends."""

    before: Unit
    edges: tuple[int, int]
    stop: Vector
    result: Unit


@dataclass(frozen=True, slots=True, kw_only=True)
class Press:
    """The seam just sewn is pressed: `toward` says where in words ("open", "toward dusk", `TOWARD_SEWN`); the
    geometry is in the seam."""

    result: Unit
    seam: int
    toward: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Lay:
    """Units set out in rows, top row first, left to right, each where it lies in `result`; sewn row
    by row. `names[r][c]` is what each is called. `row_units`: each row when it is sewn, where it lies in
    `result`, its outer allowances still on. `keys[r][c]` is the key of the unit, empty for a piece of cloth.
    Not `sewn`: they are only set out, side by side without seams, and `result` is the first of them. `along`: the unit
    vector that rows run along, to their right; on point not level, and the edges are `trimmed` so far outside the
    points of the blocks or, with sashes, the middles of the outer posts, or their outer points where strips lie at the
    ends of the sashes, in inches."""

    rows: tuple[tuple[Unit, ...], ...]
    names: tuple[tuple[str, ...], ...]
    result: Unit
    row_units: tuple[Unit, ...] = ()
    keys: tuple[tuple[str, ...], ...] = ()
    sewn: bool = True
    along: Vector = Vector(1, 0)
    trimmed: Exact | None = None

    @property
    def is_level(self) -> bool:
        return not self.along.y


@dataclass(frozen=True, slots=True, kw_only=True)
class Ruler:
    """Where the ruler lies for a trim: its four corners counter-clockwise from the bottom left of the
    trimmed piece, in the frame of the work before; `alignments` are lines or points laid on something,
    each with the word for it (`seam`, `point`, `centre`) and its distance from the ruler's edge or None."""

    corners: tuple[Vector, Vector, Vector, Vector]
    alignments: tuple[tuple[str, Line, Exact | None], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Trim:
    """The work is cut to a rectangle. `off`: what comes off left, right, top, bottom, at most and
    measured square to the ruler. `result` lies straight."""

    before: Unit
    ruler: Ruler
    width: Exact
    height: Exact
    off: tuple[Exact, Exact, Exact, Exact]
    result: Unit


@dataclass(frozen=True, slots=True, kw_only=True)
class Back:
    """The top, with a batting and a backing under it, becomes a quilt. `top` is the work, which stays as it is."""

    top: Unit
    fabric: str
    backing: Backing


@dataclass(frozen=True, slots=True, kw_only=True)
class Bind:
    """The edge of the quilt is bound. `top` is the work, which stays as it is."""

    top: Unit
    fabric: str
    binding: Binding


Action = (
    CutPiece
    | Take
    | Turn
    | Subcut
    | Place
    | Stitch
    | Open
    | Flip
    | Add
    | Curve
    | Sew
    | Finish
    | Press
    | Lay
    | Trim
    | Back
    | Bind
)
