"""What a verb is given and what it hands back, as plain data."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import TYPE_CHECKING

from piecewright.dataclass import dataclass
from piecewright.exact import Exact
from piecewright.kernel.action import Action
from piecewright.kernel.build import Expect, Fabric, Piece, Settings, Supply
from piecewright.kernel.foundation import Foundation
from piecewright.kernel.layers import Layers
from piecewright.kernel.unit import Unit

if TYPE_CHECKING:
    from piecewright.verbs.on_point import Pointed


class Refused(Exception):
    """What a verb cannot do, without a place in the text.

    `slot` is where it lies in the sentence: `SIZE`, `EDGES[1]`, `press.SIDE`, `CELL[0][2]`, or empty for the
    whole line. `facts` hold the numbers (inches) and words.
    """

    def __init__(self, kind: str, slot: str = "", /, **facts: object) -> None:
        super().__init__(kind)
        self.kind = kind
        self.slot = slot
        self.facts = facts


def not_more(size: Exact, least: Exact, slot: str) -> None:
    """Refuses what goes round the work and is more than the work itself, at its narrowest."""
    if size > least:
        raise Refused("more-than-work", slot, size=size, least=least)


class Redraw(Exception):
    """The strips of this definition have to be drawn `length` long, in inches, for the step to be shown."""

    def __init__(self, length: Exact) -> None:
        super().__init__(length)
        self.length = length


@dataclass(frozen=True, slots=True, kw_only=True)
class Brought:
    """A piece as it comes to the table.

    `source` is the piece of cloth or the key of the unit; `name` what it is called, with its turning;
    `words` all words that may mean it; `usable` the length in inches of a strip that has no ends yet, else None; then,
    of a strip set of a unit, `cut` gives a length of it, in inches, lying left to right.
    """

    unit: Unit
    source: Piece | str
    name: str
    words: tuple[str, ...] = ()
    usable: Exact | None = None
    cut: Callable[[Exact], Brought] | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Work:
    """The work in hand: a pile of `copies` like units.

    `words` are the names of the units in it; `usable` as in `Brought`; `segments` is how many segments a full
    strip set gives after it was cut, `segment` how much of its length each takes and `slant` how much of it cuts
    at an angle waste, in inches; `parts` are the name, the
    unit and the copies of each kind after a cut that names its parts.

    Of work in layers `unit` is the base, which lies face up and which all places are read from; `layers` is the
    whole, and `over` the pieces that were placed on it. Of work on a paper foundation `unit` is what shows, and
    `paper` all that is on it; `add` goes on with that as long as nothing else was done. Of a table that
    is set out and not sewn yet, `set_out` are the cells, and `unit` is only the first of them; `pointed`: the same of a
    table on point. `quilted`: the verb that
    made a quilt of the top, `back` or `bind`, after which nothing is sewn to it.
    """

    unit: Unit
    copies: int = 1
    words: tuple[str, ...] = ()
    usable: Exact | None = None
    segments: int | None = None
    segment: Exact | None = None
    slant: Exact | None = None
    parts: tuple[tuple[str, Unit, int], ...] = ()
    layers: Layers | None = None
    over: tuple[Brought, ...] = ()
    paper: Foundation | None = None
    set_out: tuple[tuple[Brought, ...], ...] = ()
    pointed: Pointed | None = None
    quilted: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Bench:
    """Where a step is done. `work` is None before the first; `drawn` is how long, in inches, a strip without
    ends is drawn; `line` is the source line, which every piece cut there remembers; `sashed`: the next step
    sews strips between what is laid out; `floats`: a step after it sets the edge of a table on point outside its
    outermost points; `used` counts what one run of the
    steps so far takes, as `kernel.tally` does; `quilt`: it is a step of a quilt."""

    work: Work | None
    settings: Settings
    fabrics: Mapping[str, Fabric]
    drawn: Exact
    line: int = 0
    sashed: bool = False
    floats: bool = False
    used: Callable[[], Mapping[Piece | str, int]] = dict
    quilt: bool = False

    def print_of(self, name: str) -> str:
        """The assorted fabric from which a fabric was chosen, or empty."""
        fabric = self.fabrics.get(name)
        return fabric.of if fabric is not None else ""

    def hand(self) -> Work:
        """The work in hand. The evaluator calls no verb but a start without any."""
        if self.work is None:
            raise Refused("nothing-on-table")
        return self.work


@dataclass(frozen=True, slots=True, kw_only=True)
class Done:
    """What a step did. `work` None: it did not change; `supplies` are what one unit of the pile took; `rounds`:
    how often the steps under the line are done; `chosen`: a new name, and the assorted fabric of which it is one
    print."""

    work: Work | None = None
    actions: tuple[Action, ...] = ()
    supplies: tuple[Supply, ...] = ()
    expects: tuple[Expect, ...] = ()
    notes: tuple[str, ...] = ()
    rounds: int = 1
    chosen: tuple[str, str] | None = None
