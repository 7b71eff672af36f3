"""The plan: everything an emitter may see, as plain data.

Numbers that are only drawn are floats in inches, made by `rounding`; sizes that are read carry the
exact value in lowest terms (in the pattern's units), the ruler size and the typographic form.
"""

from __future__ import annotations

from typing import Literal

from piecewright.dataclass import dataclass
from piecewright.plan.picture import (
    Arrow as Arrow,
)
from piecewright.plan.picture import (
    Badge as Badge,
)
from piecewright.plan.picture import (
    Cloth as Cloth,
)
from piecewright.plan.picture import (
    Dimension as Dimension,
)
from piecewright.plan.picture import (
    Figure as Figure,
)
from piecewright.plan.picture import (
    Label as Label,
)
from piecewright.plan.picture import (
    Lead as Lead,
)
from piecewright.plan.picture import (
    Mark as Mark,
)
from piecewright.plan.picture import (
    Panel as Panel,
)
from piecewright.plan.picture import (
    Placed as Placed,
)
from piecewright.plan.picture import (
    Point as Point,
)
from piecewright.plan.picture import (
    Shape as Shape,
)
from piecewright.plan.picture import (
    Side as Side,
)
from piecewright.plan.picture import (
    Stroke as Stroke,
)
from piecewright.plan.picture import (
    StrokeRole as StrokeRole,
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Size:
    """One length, in the pattern's units. `exact` as `13/2` or `19/2 - 1/4*sqrt(2)`; `ruler` as
    `6 1/2`, rounded up for a cut and to the nearest mark for a measure; `shown` with typographic
    fractions and, for a measure off the mark, `scant` or `generous`; `value` as a float."""

    exact: str
    ruler: str
    shown: str
    value: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Extent:
    width: Size
    height: Size


@dataclass(frozen=True, slots=True, kw_only=True)
class FabricPlan:
    """`colour` is always given (`#rrggbb`), chosen where the pattern gives none; `texture` is the name
    of one of the fills, so that fabrics differ without colour; `value` light, medium or dark; `usable` the
    width of this cloth, None where it is the pattern's. `prints`: of an assorted one, how many prints are needed and
    how much of each."""

    name: str
    text: str
    colour: str
    texture: str
    value: Literal["light", "medium", "dark"]
    assorted: bool
    directional: bool
    stand_in: bool
    usable: Size | None = None
    prints: tuple[str, ...] = ()


# ── paper foundations ───────────────────────────────────────────────────────────────────────────


@dataclass(frozen=True, slots=True, kw_only=True)
class FoundationArea:
    """An area of the paper and the fabric that covers it. `at`: where its number stands."""

    number: int
    fabric: str
    outline: tuple[Point, ...]
    at: Point


@dataclass(frozen=True, slots=True, kw_only=True)
class FoundationPlan:
    """What is printed at true size, as in a mirror: `width` and `height` to the cut edge, and the seam `allowance`
    inside it, in inches; `size` the same in words; `areas` in sewing order and the `lines` to sew on, from the second
    area on; `count` how many are wanted."""

    id: str
    title: str
    count: int
    size: Extent
    width: float
    height: float
    allowance: float
    areas: tuple[FoundationArea, ...]
    lines: tuple[tuple[Point, Point], ...]


# ── units, steps, cuts ──────────────────────────────────────────────────────────────────────────


@dataclass(frozen=True, slots=True, kw_only=True)
class StepPlan:
    """`number` counts within its unit from 1; `text` is the whole instruction with typographic sizes;
    `details` lines that spell it out (the rows of a table, the sizes of each round); `measures` the
    sentences of the expectations; `notes` the designer's remarks; `times` how often a repeat does it, and
    `repeat` the sentence that says so, at the first step of its `round`, else empty."""

    number: int
    text: str
    measures: tuple[str, ...]
    notes: tuple[str, ...]
    figure: Figure
    line: int
    times: int = 1
    round: int | None = None
    details: tuple[str, ...] = ()
    repeat: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class UnitPlan:
    """`id` fits a file name; `title` is for people (`half-square 2½, sand and dusk`); `makes`: how many
    are needed; `spare`: made beyond that; `runs`: how often the steps are done (of a strip set: how many
    segments are cut), and `work` the sentences that say so; `fabrics` those seen in it; `coloured` and
    `uncoloured` are the finished pictures, None for units that are only steps. A definition that ends in
    unlike parts has an entry for each: `whole` is what the definition is called, `parts` the ids of all its
    parts, and the first of them has the steps. `asked`: asked for outright, not only used. `bound`: of a quilt that is
    bound, how large it is then."""

    id: str
    name: str
    title: str
    kind: Literal["unit", "block", "quilt"]
    description: str
    arguments: tuple[tuple[str, str], ...]
    fabrics: tuple[str, ...]
    makes: int
    spare: int
    runs: int
    copies: int
    reversed: bool
    unfinished: Extent
    finished: Extent
    steps: tuple[StepPlan, ...]
    coloured: Figure | None
    uncoloured: Figure | None
    file: str
    line: int
    parts: tuple[str, ...] = ()
    whole: str = ""
    work: str = ""
    asked: bool = False
    foundation: FoundationPlan | None = None
    bound: Extent | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class CutPlan:
    """One row of the cut list: like pieces of one fabric. `label` says what they are for. `angle`: of pieces cut from
    a strip at an angle, in degrees; then `height` is the strip's, and `width` the long side along it, or of a diamond
    the distance square to the cut. Of an assorted fabric `prints` says from which prints; where they are chosen, there
    are `batches` of them and `each` pieces of every one. Of a piece with a round edge `radius` is that of its seam,
    `bend` says what for, and `template` is the letter of the template it is cut by. `letter`: what the row is called
    where its fabric is drawn."""

    fabric: str
    shape: str
    width: Size
    height: Size
    count: int
    reversed: bool
    label: str
    units: tuple[str, ...] = ()
    angle: int | None = None
    each: int | None = None
    batches: int | None = None
    prints: str = ""
    radius: Size | None = None
    bend: str = ""
    template: str = ""
    letter: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class StripPlan:
    """Strips that are cut alike: cut `strips` of `height`, `length` long; from them what `pieces` says (places in
    `cuts`, from 0, and how many in all). `number` counts the strips of a fabric in cutting order, from 1; `source` is
    the cloth bought by the length, a sheet that is bought, or a scrap on hand; `text` is the whole instruction."""

    fabric: str
    height: Size
    strips: int
    pieces: tuple[tuple[int, int], ...]
    text: str
    number: int
    length: Size
    source: Literal["cloth", "sheet", "scrap"] = "cloth"


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetPlan:
    """`count` pieces of cloth of a fixed size, to buy or on hand. `name` as it is called: `fat quarter`."""

    name: str
    width: Size
    height: Size
    count: int


Lay = Literal["folded", "folded in pairs", "apart", "right side up", "wrong side up", "in pairs", "strips"]
"""How cloth lies under a die: strips folded to and fro, or so that as many layers lie right side up as wrong side up;
rough pieces cut apart and laid on each other, whichever side is up, all on one side, or half of them on each; or whole
rough strips on each other."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RoughPlan:
    """`count` rough pieces alike: `width` is that of the strip they lie in, and `length` what each takes along it,
    which is how far apart the folds lie. Of strips the length of each."""

    width: Size
    length: Size
    count: int


@dataclass(frozen=True, slots=True, kw_only=True)
class PassPlan:
    """What a die cuts of a fabric: `die` is its shape and size, `pieces` places in `cuts` and how many of each, `rough`
    the cloth for them; so many `layers` at most at a time, in so many `passes`, and how the cloth lies."""

    die: str
    pieces: tuple[tuple[int, int], ...]
    rough: tuple[RoughPlan, ...]
    lay: Lay
    layers: int
    passes: int


@dataclass(frozen=True, slots=True, kw_only=True)
class ClothPlan:
    """What to have of one fabric, why no less will do, and how to cut it.

    Cloth by the length: `bought` is how much to buy, `length` how much of it the strips take, and `bound` and
    `any_bound` what no plan with straight strips, and no way of cutting, does without. In sheets: `sheets` to buy, and
    the two bounds are `least` and `any_least`, numbers of sheets. `scraps` are those on hand that are used. `proved`:
    no plan of the kind buys less; None where nothing is proved, as of assorted prints. `waste`: whole percent of the
    cloth that is in no piece; `remnant` the largest rest, across and down. `settings`: how often the ruler is set to
    another strip. `text`: sentences on what to buy and why; `how`: on joining, and on cutting at an angle. `missing`:
    place in `cuts` and how many pieces there is no cloth for. `passes`: of a die press."""

    fabric: str
    bought: Size | None
    bought_text: str
    length: Size | None
    bound: Size | None
    any_bound: Size | None
    sheets: tuple[SheetPlan, ...]
    scraps: tuple[SheetPlan, ...]
    least: int | None
    any_least: int | None
    proved: bool | None
    waste: int
    remnant: Extent | None
    strips: int
    settings: int
    ways: int | None
    text: tuple[str, ...]
    how: tuple[str, ...]
    figures: tuple[Figure, ...]
    missing: tuple[tuple[int, int], ...]
    passes: tuple[PassPlan, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class KitCloth:
    """One fabric of several kits cut at once: `apart` is what they take when each is bought for by itself, in words;
    `saves` whether that is more. `cloth` and `strips` are the plan for all of them, or where each kit is better cut
    `alone`, that for one."""

    fabric: str
    apart: str
    saves: bool
    alone: bool
    cloth: ClothPlan
    strips: tuple[StripPlan, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class KitsPlan:
    """Cutting for `count` copies of the whole pattern at once."""

    count: int
    fabrics: tuple[KitCloth, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class TemplatePlan:
    """A shape to print at true size and cut by. `id` fits a file name; `letter` is what cut list and steps call it;
    `shape` is `quarter circle`, `half melon` or `hollow`. `radius` is that of the seam, `raw_radius` that of the edge
    to cut, about the same centre. `panel` holds lines, grain and notches in inches, no cloth."""

    id: str
    letter: str
    shape: Literal["quarter circle", "half melon", "hollow"]
    title: str
    text: str
    radius: Size
    raw_radius: Size
    panel: Panel


@dataclass(frozen=True, slots=True, kw_only=True)
class Plan:
    """`cuts` are ordered by fabric, then from large to small; `units` in the order of work;
    `cloth[fabric]` is the length of cloth the strips take, in the pattern's units, of fabrics sold by the length;
    `fabric_cloth` stand in the order of the fabrics."""

    title: str
    edition: str
    units_of_length: Literal["inch", "cm", "mm"]
    seam: Size
    usable: Size
    ruler: Size
    fabrics: tuple[FabricPlan, ...]
    units: tuple[UnitPlan, ...]
    cuts: tuple[CutPlan, ...]
    strips: tuple[StripPlan, ...]
    cloth: tuple[tuple[str, Size], ...]
    abbreviations: tuple[tuple[str, str], ...]
    cautions: tuple[str, ...]
    warnings: tuple[str, ...] = ()
    templates: tuple[TemplatePlan, ...] = ()
    fabric_cloth: tuple[ClothPlan, ...] = ()
    kits: KitsPlan | None = None
