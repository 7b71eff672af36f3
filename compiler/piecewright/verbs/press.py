"""The clause `press`: which way the allowances of a seam lie."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from piecewright.exact import Exact, OutsideNumbers, Vector
from piecewright.kernel.action import AWAY_FROM_SEWN, TOWARD_SEWN
from piecewright.kernel.build import Fabric
from piecewright.kernel.measure import raw_edge
from piecewright.kernel.polygon import clear_of, sides_of_line
from piecewright.kernel.rope import box
from piecewright.kernel.unit import Disc, Pressed, Seam, Unit
from piecewright.verbs.registry import Said
from piecewright.verbs.work import Bench, Brought, Refused

CLAUSES = ("press open", "press toward SIDE")

SIDES = {"left": (-1, 0), "right": (1, 0), "top": (0, 1), "bottom": (0, -1)}
Lengths = dict[str, Exact]
_SHADE = {"light": 0, "medium": 1, "dark": 2, None: 1}


def pressed(
    bench: Bench,
    clause: Said | None,
    first: Unit,
    words: tuple[str, ...],
    first_edge: int,
    brought: Brought,
    second_edge: int,
) -> tuple[str, Pressed]:
    """What is said of the pressing ("toward dusk") and the side of the seam, seen along the first unit's edge.

    That edge has the first unit on its left. `words` are the names of the units in the first.
    """
    return pressed_round(bench, clause, first, words, (first_edge,), brought, (second_edge,))


def pressed_round(
    bench: Bench,
    clause: Said | None,
    first: Unit,
    words: tuple[str, ...],
    first_edges: tuple[int, ...],
    brought: Brought,
    second_edges: tuple[int, ...],
) -> tuple[str, Pressed]:
    """The same of seams round a corner, which are pressed to one side: toward the first unit or toward the other."""

    def lengths() -> tuple[Lengths, Lengths]:
        return _together(first, first_edges), _together(brought.unit, second_edges)

    ways = {
        decided(
            bench,
            clause,
            SeamSides(
                along=first.directions[edge],
                words=words,
                other_words=brought.words,
                told=(AWAY_FROM_SEWN, TOWARD_SEWN),
                lengths=lengths,
            ),
        )
        for edge in first_edges
    }
    if len(ways) > 1:
        assert clause is not None
        raise Refused("side-of-two", clause.at("SIDE"), word=clause.beside()[1])
    return ways.pop()


def _together(unit: Unit, edges: tuple[int, ...]) -> Lengths:
    """How much of each fabric lies along some edges."""
    if len(edges) == 1:
        return lengths_along(unit, edges[0])
    found: Lengths = {}
    for edge in edges:
        for fabric, length in lengths_along(unit, edge).items():
            found[fabric] = found.get(fabric, Exact(0)) + length
    return found


class SeamSides:
    """What lies left and right of a seam along its direction: the work and its `words`, and the other piece.

    `told`: what is said of a seam pressed to the left and to the right where no fabric or side tells it; the name of a
    unit is on no cloth. `lengths()` is how much of each fabric lies along it on either side, in inches; worked out only
    where it counts.
    """

    __slots__ = ("along", "lengths", "other_words", "told", "words")

    def __init__(
        self,
        *,
        along: Vector,
        words: tuple[str, ...],
        other_words: tuple[str, ...],
        told: tuple[str, str],
        lengths: Callable[[], tuple[Lengths, Lengths]],
    ) -> None:
        self.along = along
        self.words = words
        self.other_words = other_words
        self.told = told
        self.lengths = lengths


def decided(bench: Bench, clause: Said | None, seam: SeamSides) -> tuple[str, Pressed]:
    """What is said of the pressing, and the side, seen along the seam with the work on its left."""
    if clause is None:
        if bench.settings.press == "open":
            return "open", "open"
        return _toward_darker(bench, seam)
    if clause.form == "press open":
        return "open", "open"
    kind, word = clause.beside()
    slot = clause.at("SIDE")
    if kind == "darker":
        return _toward_darker(bench, seam)
    if kind == "side":
        return f"toward the {word}", _toward_side(seam.along, word, slot)
    if kind == "unit":
        if word in seam.other_words:
            return seam.told[1], "right"
        if word in seam.words:
            return seam.told[0], "left"
        raise Refused("not-beside-seam", slot, word=word)
    mine, theirs = (_of(word, lengths, bench) for lengths in seam.lengths())
    if mine is None and theirs is None:
        raise Refused("not-beside-seam", slot, word=word)
    if mine is None or (theirs is not None and mine < theirs):
        return f"toward {word}", "right"
    if theirs is not None and mine == theirs:
        raise Refused("both-beside-seam", slot, word=word)
    return f"toward {word}", "left"


def _of(word: str, lengths: Lengths, bench: Bench) -> Exact | None:
    """How much of a fabric lies there, prints of an assorted one together; None where it does not."""
    found = [length for name, length in lengths.items() if word in (name, bench.print_of(name))]
    return sum(found, Exact(0)) if found else None


def _toward_side(along: Vector, word: str, slot: str) -> Pressed:
    x, y = SIDES[word]
    outward = along.right()
    sign = (outward.x * x + outward.y * y).sign()
    if not sign:
        raise Refused("side-along-seam", slot, word=word)
    return "right" if sign > 0 else "left"


def _toward_darker(bench: Bench, seam: SeamSides) -> tuple[str, Pressed]:
    """Toward the side that is darker on the average along the seam; toward the piece that was just
    joined where neither is."""
    mine, theirs = seam.lengths()
    to_first = _darkness(mine, bench) > _darkness(theirs, bench)
    fabrics, others = (mine, theirs) if to_first else (theirs, mine)
    told = "toward the darker side" if to_first else seam.told[1]
    if len(fabrics) == 1 and fabrics.keys() != others.keys():
        told = f"toward {next(iter(fabrics))}"
    return told, "left" if to_first else "right"


def _darkness(lengths: dict[str, Exact], bench: Bench) -> Exact:
    total, dark = Exact(0), Exact(0)
    for name, length in lengths.items():
        fabric: Fabric | None = bench.fabrics.get(name)
        total = total + length
        dark = dark + length * _SHADE[fabric.value if fabric else None]
    return dark / total if total else Exact(1)


def lengths_along(unit: Unit, edge: int) -> dict[str, Exact]:
    """How much of each fabric lies along a raw edge, in inches, in the order of the unit's patches."""
    start, end = raw_edge(unit, edge)
    along = unit.directions[edge]
    found: dict[str, Exact] = {}
    if unit.patch_rope.count == 1:
        return {unit.patches[0].fabric: (end - start).dot(along)}
    reach = box((start, end))
    for patch in unit.patch_rope.near(reach):
        for cell in patch.cells:
            if clear_of(cell, reach):
                continue
            sides = sides_of_line(start, along, cell)
            for i, p in enumerate(cell):
                if sides[i] == 0 and sides[i - 1] == 0:
                    length = (p - cell[i - 1]).dot(along)
                    if patch.discs and length > 0:
                        length = _beside_curves(cell[i - 1], p, along, patch.discs, unit.allowance)
                    if length > 0:
                        found[patch.fabric] = found.get(patch.fabric, Exact(0)) + length
    return found


def _beside_curves(start: Vector, end: Vector, along: Vector, discs: tuple[Disc, ...], s: Exact) -> Exact:
    """How much of a stretch along a raw edge lies within or outside circles. It is measured where the edge's seam will
    run, one allowance s inside: there a curve ends at a finished corner or runs to the seam square to it, and the root
    is a number. Where it is none, as after a trim across a curve, the circle counts with all its radius."""
    low, high, hidden = start.dot(along), end.dot(along), Exact(0)
    for disc in discs:
        middle, away = disc.centre.dot(along), along.cross(disc.centre - start) - s
        first, last = _span(middle, disc.radius, away)
        first, last = max(low, first), min(high, last)
        if disc.inside:
            low, high = first, max(first, last)
        elif last > first:
            hidden = hidden + (last - first)
    return high - low - hidden


def _span(middle: Exact, radius: Exact, away: Exact) -> tuple[Exact, Exact]:
    """From where to where a line lies within a circle whose middle is so far away."""
    under = radius * radius - away * away
    if under <= 0:
        return middle, middle
    try:
        reach = under.sqrt()
    except OutsideNumbers:
        reach = radius
    return middle - reach, middle + reach


def lengths_beside(unit: Unit, seams: tuple[Seam, ...]) -> tuple[Lengths, Lengths]:
    """How much of each fabric lies along seams of one direction, in inches: on their left, and on their right."""
    left: Lengths = {}
    right: Lengths = {}
    for seam in seams:
        along = seam.direction
        low, high = seam.start.dot(along), seam.end.dot(along)
        for patch in unit.patches:
            for cell in patch.cells:
                sides = sides_of_line(seam.start, along, cell)
                for i, p in enumerate(cell):
                    if sides[i] or sides[i - 1]:
                        continue
                    ends = sorted((cell[i - 1].dot(along), p.dot(along)))
                    length = min(ends[1], high) - max(ends[0], low)
                    if length > 0:
                        side = left if (p - cell[i - 1]).dot_sign(along) > 0 else right
                        side[patch.fabric] = side.get(patch.fabric, Exact(0)) + length
    return left, right


def pressed_to(unit: Unit, seams: tuple[int, ...], side: Pressed) -> Unit:
    """The unit with some of its seams pressed."""
    return replace(
        unit,
        seams=tuple(replace(seam, pressed=side) if n in seams else seam for n, seam in enumerate(unit.seams)),
    )
