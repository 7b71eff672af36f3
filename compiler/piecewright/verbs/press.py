"""The clause `press`: which way the allowances of a seam lie."""

from __future__ import annotations

from piecewright.exact import Exact, Vector
from piecewright.kernel.build import Fabric
from piecewright.kernel.measure import raw_edge
from piecewright.kernel.polygon import box, clear_of, sides_of_line
from piecewright.kernel.unit import Pressed, Unit
from piecewright.verbs.registry import Said
from piecewright.verbs.work import Bench, Brought, Refused

CLAUSES = ("press open", "press toward SIDE")

SIDES = {"left": (-1, 0), "right": (1, 0), "top": (0, 1), "bottom": (0, -1)}
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
    if clause is None:
        if bench.settings.press == "open":
            return "open", "open"
        return _toward_darker(bench, first, first_edges, brought, second_edges)
    if clause.form == "press open":
        return "open", "open"
    kind, word = clause.beside()
    slot = clause.at("SIDE")
    if kind == "darker":
        return _toward_darker(bench, first, first_edges, brought, second_edges)
    if kind == "side":
        sides = {_toward_side(first.directions[edge], word, slot) for edge in first_edges}
        if len(sides) > 1:
            raise Refused("side-of-two", slot, word=word)
        return f"toward the {word}", sides.pop()
    if kind == "unit":
        if word in brought.words:
            return f"toward {word}", "right"
        if word in words:
            return f"toward {word}", "left"
        raise Refused("not-beside-seam", slot, word=word)
    mine = _together(first, first_edges).get(word)
    theirs = _together(brought.unit, second_edges).get(word)
    if mine is None and theirs is None:
        raise Refused("not-beside-seam", slot, word=word)
    if mine is None or (theirs is not None and mine < theirs):
        return f"toward {word}", "right"
    if theirs is not None and mine == theirs:
        raise Refused("both-beside-seam", slot, word=word)
    return f"toward {word}", "left"


def _toward_side(along: Vector, word: str, slot: str) -> Pressed:
    x, y = SIDES[word]
    outward = along.right()
    sign = (outward.x * x + outward.y * y).sign()
    if not sign:
        raise Refused("side-along-seam", slot, word=word)
    return "right" if sign > 0 else "left"


def _toward_darker(
    bench: Bench, first: Unit, first_edges: tuple[int, ...], brought: Brought, second_edges: tuple[int, ...]
) -> tuple[str, Pressed]:
    """Toward the side that is darker on the average along the seam; toward the piece that was just
    joined where neither is."""
    mine = _together(first, first_edges)
    theirs = _together(brought.unit, second_edges)
    to_first = _darkness(mine, bench) > _darkness(theirs, bench)
    fabrics, others = (mine, theirs) if to_first else (theirs, mine)
    told = "the darker side"
    if len(fabrics) == 1 and fabrics.keys() != others.keys():
        told = next(iter(fabrics))
    elif not to_first:
        told = brought.words[0] if brought.words else brought.name
    return f"toward {told}", "left" if to_first else "right"


def _darkness(lengths: dict[str, Exact], bench: Bench) -> Exact:
    total, dark = Exact(0), Exact(0)
    for name, length in lengths.items():
        fabric: Fabric | None = bench.fabrics.get(name)
        total = total + length
        dark = dark + length * _SHADE[fabric.value if fabric else None]
    return dark / total if total else Exact(1)


def _together(unit: Unit, edges: tuple[int, ...]) -> dict[str, Exact]:
    """How much of each fabric lies along some edges."""
    if len(edges) == 1:
        return lengths_along(unit, edges[0])
    found: dict[str, Exact] = {}
    for edge in edges:
        for fabric, length in lengths_along(unit, edge).items():
            found[fabric] = found.get(fabric, Exact(0)) + length
    return found


def lengths_along(unit: Unit, edge: int) -> dict[str, Exact]:
    """How much of each fabric lies along a raw edge, in inches, in the order of the unit's patches."""
    start, end = raw_edge(unit, edge)
    along = unit.directions[edge]
    found: dict[str, Exact] = {}
    if len(unit.patches) == 1:
        return {unit.patches[0].fabric: (end - start).dot(along)}
    reach = box((start, end))
    for patch in unit.patches:
        for cell in patch.cells:
            if clear_of(cell, reach):
                continue
            sides = sides_of_line(start, along, cell)
            for i, p in enumerate(cell):
                if sides[i] == 0 and sides[i - 1] == 0:
                    length = (p - cell[i - 1]).dot(along)
                    if length > 0:
                        found[patch.fabric] = found.get(patch.fabric, Exact(0)) + length
    return found
