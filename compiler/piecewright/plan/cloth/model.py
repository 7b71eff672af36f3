"""What is asked of the cloth planner and what it answers, as plain data.

Every length is a whole number of the finest mark in use; width runs across the cloth from selvage to
selvage, height along it. Nothing here knows of fabrics, patterns or units of length.
"""

from __future__ import annotations

from typing import Literal

from piecewright.dataclass import dataclass
from piecewright.plan.cloth.ladder import Ladder


@dataclass(frozen=True, slots=True, kw_only=True)
class Need:
    """`count` like rectangles. `turns`: whether it may also be cut with its sides exchanged (not of a
    directional fabric, nor where the grain of the piece is fixed)."""

    width: int
    height: int
    count: int
    turns: bool = True


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """A piece of cloth of fixed size; `count` of them, or None for as many as are wanted."""

    width: int
    height: int
    count: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Stock:
    """The cloth there is to cut from. `width`: usable width of what is bought by length, in multiples of
    `step`, of which (steps * `step` - `margin`) / `per` can be cut; zero where nothing is. `scraps` are on hand and
    cost nothing; `sheets` are what is bought by the piece instead of by length (then `width` is zero). Planning buys
    least: least length, or least area of sheets."""

    width: int
    step: int = 1
    margin: int = 0
    per: int = 1
    scraps: tuple[Sheet, ...] = ()
    sheets: tuple[Sheet, ...] = ()

    @property
    def ladder(self) -> Ladder:
        """The lengths there are to buy."""
        return Ladder(self.step, self.margin, self.per)


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """A rectangle of cloth, `times` alike side by side (in `columns`) or one above another (in `rows`).

    `split` is how it is cut next: into `rows` by cuts across its width (each part is as wide as it), or into
    `columns` by cuts along its height (each part is as high as it). Parts lie in the order of cutting from the
    top or the left; what they leave over at the end is rest. A piece is a part with a `need` (its place in the
    list), no split, and exactly the size needed, `turned` where its sides are exchanged. A trim is a split with
    one part. A part with neither split nor need is rest between others.
    """

    width: int
    height: int
    times: int = 1
    split: Literal["rows", "columns"] | None = None
    parts: tuple[Part, ...] = ()
    need: int | None = None
    turned: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Used:
    """A sheet or scrap that is cut: its place in the stock's `scraps` or `sheets`, and its cuts. `part.times` such
    sheets are cut alike."""

    source: Literal["scrap", "sheet"]
    index: int
    part: Part


@dataclass(frozen=True, slots=True, kw_only=True)
class CuttingPlan:
    """How the needs are cut, and why it is least.

    `bought` is the length to buy, a multiple of the step and in its parts of a mark, and `length` what of it is cut, in
    marks; of sheets `bought` is their area. `bound`: no plan with so many stages (straight strips) needs less to be
    bought; `any_bound`: nor any way of cutting. Both are rounded up to the step. `proved`: bought equals bound.
    `stages` is the most cuts between the cloth and a piece, trims not counted but the cut across the roll always: 2 for
    strips and sub-cuts. `roll` is the cloth bought by length, None if none; its split is into rows. `missing`: place of
    a need and how many of it the stock cannot give.
    """

    bought: int
    length: int
    bound: int
    any_bound: int
    proved: bool
    stages: int
    roll: Part | None
    used: tuple[Used, ...] = ()
    missing: tuple[tuple[int, int], ...] = ()
