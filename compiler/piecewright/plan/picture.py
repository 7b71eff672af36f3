"""Pictures of the plan: scenes in inches, no page, no text extents.

Numbers that are only drawn are floats in inches, made by `rounding`.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Literal

from piecewright.dataclass import dataclass

Point = tuple[float, float]  # inches, x to the right and y up

Side = Literal["left", "right", "top", "bottom"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Cloth:
    """One polygon of cloth, with `holes` in it. `tint` marks the seam allowance round a raw edge (and
    is of no fabric); `wrong` the wrong side; `fallen` what is cut away (hatched, of no fabric). `line`
    is the source line that brought it."""

    outline: tuple[Point, ...]
    fabric: str
    line: int
    wrong: bool = False
    tint: bool = False
    fallen: bool = False
    holes: tuple[tuple[Point, ...], ...] = ()


StrokeRole = Literal[
    "raw", "seam", "edge", "stitch", "allowance", "cut", "ruler", "ruler-seam", "fold", "guide", "drawn"
]  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class Stroke:
    """A line and what it is: raw edge, sewn seam, edge of a piece still to be cut from a strip, stitching to come,
    line drawn on a wrong side, cut, ruler outline or ruler line laid on a seam. A closed one joins its ends. A cut is
    drawn on past both its ends."""

    points: tuple[Point, ...]
    role: StrokeRole
    closed: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Arrow:
    """`press`: across a seam, head on the side of `end`; `press-open`: heads on both sides; `grain`: a
    double arrow along the lengthwise grain. The first two are drawn at one size about their middle, so
    only their place and direction count."""

    start: Point
    end: Point
    role: Literal["press", "press-open", "grain"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Mark:
    """Matching marks: `count` short ticks side by side across a raw edge at `at`; `along` is the unit
    direction of the edge. The same count stands on the edge that it meets. A count of 0 is a dot, where the
    stitching stops short of the raw edge."""

    at: Point
    along: Point
    count: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Dimension:
    """A measured distance, to be drawn outside the cloth on `side`, `row` 0 nearest the cloth; it runs
    from `start` to `end`, points on the cloth's outline. `beyond`: its text stands on the far side of its line, as
    where short distances follow each other down the cloth; then all of a side stand so, in one row."""

    start: Point
    end: Point
    side: Side
    row: int
    text: str
    beyond: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Badge:
    """A number of order in a circle, outside the cloth on `side`, level with the point `at`."""

    at: Point
    side: Side
    text: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Label:
    """A number within an area, its middle at `at`."""

    at: Point
    text: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Shape:
    """Something that is drawn in several places, in its own frame: cloth, and lines over it. `under`: others lie on
    most of it."""

    cloth: tuple[Cloth, ...]
    strokes: tuple[Stroke, ...]
    under: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Placed:
    """A shape where it lies: turned about its origin by a unit vector, then moved to `at`."""

    shape: Shape
    turn: Point
    at: Point

    def point(self, point: Point) -> Point:
        """A point of the shape where it lies."""
        (x, y), (u, v) = point, self.turn
        return x * u - y * v + self.at[0], x * v + y * u + self.at[1]


Lead = Literal["then", "below", "and", "turn-left", "turn-right", "rounds"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Panel:
    """One thing on the table, in its own frame. `words` stand under it ("make 12"). `lead` is the sign
    between it and the panel before: a plain arrow, the same on a new line of panels (`below`), nothing (`and`), a turn
    either way or the dots of rounds left out, with `lead_words` under it. `clip`: only what lies within that polygon is
    drawn. `placed` are shapes under all else, in their order."""

    cloth: tuple[Cloth, ...]
    strokes: tuple[Stroke, ...]
    arrows: tuple[Arrow, ...]
    dimensions: tuple[Dimension, ...]
    words: str = ""
    marks: tuple[Mark, ...] = ()
    badges: tuple[Badge, ...] = ()
    clip: tuple[Point, ...] = ()
    lead: Lead = "then"
    lead_words: str = ""
    labels: tuple[Label, ...] = ()
    placed: tuple[Placed, ...] = ()

    def all_cloth(self) -> Iterator[Cloth]:
        """The cloth of the shapes, each once, and all other cloth; points of a shape are in its own frame."""
        for shape in {id(one.shape): one.shape for one in self.placed}.values():
            yield from shape.cloth
        yield from self.cloth


@dataclass(frozen=True, slots=True, kw_only=True)
class Figure:
    """One picture: panels left to right with signs between them. `id` is stable across builds:
    `<unit id>-<step number>` or `<unit id>`. `scale_group`: figures of one group share one scale.
    `title` and `description` are sentences for ears and programs. `legend`: a fabric and the words beside its sample,
    where those are not its name. `looks`: of a print that is told from the first of its fabric, the name its cloth has
    here, the fabric, and which print it is, from 2 on. `key`: what the letters in its labels stand for, one line for
    each; where there is no room for the letters, it is left out with them. `whole_page`: it has a page to itself."""

    id: str
    title: str
    description: str
    panels: tuple[Panel, ...]
    scale_group: str
    kind: Literal["step", "finished", "outline", "cutting"]
    legend: tuple[tuple[str, str], ...] = ()
    looks: tuple[tuple[str, str, int], ...] = ()
    key: tuple[str, ...] = ()
    whole_page: bool = False
