"""What evaluation hands on: everything that was made, step by step, as plain data.

Lengths are inches, exact. It stands in the kernel so that planning needs neither the text nor the
evaluator.
"""

from __future__ import annotations

from typing import Literal

from piecewright.dataclass import dataclass
from piecewright.exact import INCH_PER, Exact
from piecewright.kernel.action import Action
from piecewright.kernel.unit import Unit

Kind = Literal["unit", "block", "quilt"]
Units = Literal["inch", "cm", "mm"]
CutterKind = Literal["rotary", "press"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Sold:
    """How cloth is bought: by the length in steps of `step` inches, told in yards, centimetres or the pattern's units
    (`by`); or in sheets, `across` by `down` inches and called `name`, of which there are `only` so many (None: as many
    as are wanted)."""

    step: Exact | None = None
    by: Literal["yard", "cm", ""] = ""
    across: Exact | None = None
    down: Exact | None = None
    name: str = ""
    only: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Die:
    """A die of a press: it cuts a piece of this shape, `width` by `height` inches, seams and all; of a strip `width` is
    its width. `angle` as of a piece. A rectangle has its narrow side first, and one with equal sides is a square. `at`:
    name of the text and first and last character of the line that names it."""

    shape: str
    width: Exact
    height: Exact
    angle: int | None = None
    at: tuple[str, int, int] = ("", 0, 0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Cutter:
    """What cloth is cut with, at most so many `layers` at a time. Of a press, `leeway` inches on every side are cut
    more than a die cuts, and `dies` are those on hand, no two alike. `at` as of a die; `on_hand`: said in a file of its
    own, so that its dies are a shelf and not this pattern's."""

    kind: CutterKind
    layers: int
    leeway: Exact
    dies: tuple[Die, ...]
    at: tuple[str, int, int] = ("", 0, 0)
    on_hand: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Settings:
    """The pattern's settings. Lengths in inches whatever `units` says; `units` is what sizes are
    printed in. `press` is the default pressing as written ("toward darker", "open"). `margin` is the length of a fabric
    that straightening its end may take."""

    title: str
    edition: str
    seam: Exact
    units: Units
    ruler: Exact
    tolerance: Exact
    usable: Exact
    press: str
    sold: Sold = Sold(step=Exact(9, 2), by="yard")
    cutter: Cutter | None = None
    margin: Exact = Exact(0)

    @property
    def squaring(self) -> Exact:
        """The length of a strip set that squaring its end may take, none where a fabric has no margin."""
        if not self.margin:
            return Exact(0)
        return Exact(1, 2) if self.units == "inch" else INCH_PER["cm"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Scrap:
    """Cloth on hand: `count` pieces `across` by `down` inches."""

    across: Exact
    down: Exact
    count: int
    name: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Fabric:
    """`text` is the designer's description or empty; `colour` is `#rrggbb` or None; `value` is light,
    medium or dark (read off the colour if not written) or None; `stand_in` marks a fabric parameter
    shown without a fabric. `of` is the assorted fabric from which this one print was chosen, else empty; a print's
    name is that fabric's and its own, `lights/light`, which no fabric of a pattern can have. `sold`: None as the
    pattern says; of cloth in sheets `usable` is how wide a sheet is. `shrinks` is the part of its length and width that
    washing takes before it is cut, `margin` inches and `margin_part` a part of the length that are bought beyond what
    is cut; `lengthwise`: long pieces are cut along the selvage. `at`: name of the text and first and last character of
    the line that defines it."""

    name: str
    text: str
    colour: str | None
    value: Literal["light", "medium", "dark"] | None
    usable: Exact
    directional: bool = False
    assorted: bool = False
    stand_in: bool = False
    of: str = ""
    sold: Sold | None = None
    scraps: tuple[Scrap, ...] = ()
    shrinks: Exact = Exact(0)
    margin: Exact = Exact(0)
    margin_part: Exact = Exact(0)
    lengthwise: bool = False
    at: tuple[str, int, int] = ("", 0, 0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """A piece cut from cloth. `shape` as the cutting noun; `width` across and `height` down as cut; a
    strip's `width` is None until it is known how much of it is wanted; `angle` in degrees or None. Of a piece
    with a round edge `radius` is that of its seam; width and height are the straight raw edges of a quarter circle, and
    those of the rectangle that a half melon is cut from. `lengthwise`: its long side is cut
    along the selvage. `joins`: it is a strip of a border or a sash, which is joined from strips end to end where the
    cloth is too narrow for it; any other piece is one piece."""

    shape: str
    width: Exact | None
    height: Exact
    fabric: str
    reversed: bool = False
    angle: int | None = None
    radius: Exact | None = None
    lengthwise: bool = False
    joins: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Supply:
    """What one run of a unit takes: `count` of a piece or of another unit (by its key).

    A strip's `length` is how much of it one segment takes; the plan pools them.
    """

    source: Piece | str
    count: int
    length: Exact | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Expect:
    """One line the designer proved. `text` is what is printed ("should measure 9 by 9") is made by the
    plan from these: `measure` is size, width, height, an edge's name, copies, shows, or pieces; `values`
    are the lengths (or the count); `words` the fabric and the place named; of pieces `source` is the piece of cloth or
    the key of the unit."""

    measure: str
    values: tuple[Exact, ...]
    words: tuple[str, ...] = ()
    within: Exact | None = None
    finished: bool = False
    line: int = 0
    source: Piece | str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """One line of a definition: one instruction and one figure.

    `copies`: how many like pieces of work one run holds after the step. `times`: how often a `repeat`
    does it, 1 outside; the steps of a repeat share its `round` number and hold the actions of the first
    and, when it runs more than once, `last` those of the last round and `between` those of the others.
    `says` is the verb's own sentence or None (then the actions' default ones serve). `places`: the place words
    written, in order. `supplies`:
    what this step brings to the table, each with the word it is called by.
    """

    verb: str
    file: str
    line: int
    actions: tuple[Action, ...]
    copies: int
    expects: tuple[Expect, ...] = ()
    notes: tuple[str, ...] = ()
    times: int = 1
    round: int | None = None
    says: str | None = None
    places: tuple[str, ...] = ()
    supplies: tuple[Supply, ...] = ()
    last: tuple[Action, ...] = ()
    between: tuple[tuple[Action, ...], ...] = ()

    @property
    def rounds(self) -> tuple[tuple[Action, ...], ...]:
        """What is done, a round at a time; outside a repeat there is one."""
        return (self.actions, *self.between, self.last) if self.last else (self.actions,)


@dataclass(frozen=True, slots=True, kw_only=True)
class Handed:
    """What a parameter was handed that is no fabric, count or place: a size in inches, a piece of cloth, or a unit by
    its key, with how it is `turned` (` turned left`, or nothing)."""

    parameter: str
    value: Exact | Piece | str
    turned: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Made:
    """One definition with what it was handed, evaluated once.

    `key` is unique and stable: `half-square(2 1/2, sand, dusk)`, with ` reversed` behind it where it is
    made as in a mirror; of a definition that ends in unlike parts there is one for each named part, with
    the part's name and `whole` the key under which the steps stand. `arguments` are pairs of parameter and
    printed value; of those that are sizes or pieces `handed` has the values themselves. `copies` is what one
    run gives. For a strip set `segments` is how many segments one full set gives (else None), `segment` how
    much of the set's length each takes, and `slant` what the ends of a set cut at an angle waste of it. `unit`
    is the result as it lies. `chosen` are the names of the prints that one run of its steps chooses.
    """

    key: str
    name: str
    kind: Kind
    arguments: tuple[tuple[str, str], ...]
    file: str
    line: int
    unit: Unit
    copies: int
    steps: tuple[Step, ...]
    supplies: tuple[Supply, ...]
    description: str = ""
    reversed: bool = False
    whole: str | None = None
    segments: int | None = None
    segment: Exact | None = None
    slant: Exact | None = None
    chosen: tuple[str, ...] = ()
    handed: tuple[Handed, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Demand:
    """A quantity asked for outright, or one of a quilt or block that nobody else uses."""

    key: str
    count: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Build:
    """A whole pattern, made. `made` stands with what a unit uses before the unit itself."""

    settings: Settings
    fabrics: tuple[Fabric, ...]
    made: tuple[Made, ...]
    demands: tuple[Demand, ...]
