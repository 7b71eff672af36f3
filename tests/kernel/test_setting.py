"""A table set together at once is what sewing it piece by piece gives."""

from __future__ import annotations

from typing import Any

import pytest
from piecewright.exact import Exact
from piecewright.kernel.measure import ledger_area, seen_area
from piecewright.kernel.moves import settled
from piecewright.kernel.unit import Unit
from piecewright.verbs.lay import Seams

from tests.evaluate.pattern import built

FABRICS = "fabric sand\nfabric dusk, value dark\nfabric clay\n"


def described(unit: Unit) -> dict[str, Any]:
    """What is on the table, without an order."""
    whole = settled(unit)
    return {
        "corners": {(corner.finished, corner.raw) for corner in whole.corners},
        "patches": sorted(
            (p.fabric, p.cut.partition(":")[0], str(p.grain), str(p.up), str(sorted(map(ring, p.cells))))
            for p in whole.patches
        ),
        "seams": sorted(str((s.start, s.end, s.direction, s.pressed, s.sewn)) for s in whole.seams),
        "under": sorted((fabric, str(total(unit, fabric))) for fabric in {one.fabric for one in unit.ledger}),
        "cloth": unit.cloth,
    }


def ring(cell: Any) -> str:
    """A cell from its first corner on, whichever stands first."""
    start = min(range(len(cell)), key=lambda i: cell[i].floats)
    return str(cell[start:] + cell[:start])


def total(unit: Unit, fabric: str) -> Exact:
    return sum((one.area for one in unit.ledger if one.fabric == fabric), Exact(0))


TABLES = {
    "one-row": "    lay\n        square 2 of sand | square 2 of dusk | rectangle 3 by 2 of clay\n",
    "one-column": "    lay\n        | square 2 of sand\n        | rectangle 2 by 4 of dusk\n",
    "stars": (
        "    lay 3 by 3\n        sawtooth-star(sand, dusk, size 6) | sawtooth-star(clay, dusk, size 6) turned right\n"
        "        square 6 1/2 of sand | sawtooth-star(dusk, sand, size 6)\n"
    ),
    "alike-rows": "    lay 4 by 5\n        pinwheel(sand, dusk, size 4) | pinwheel(dusk, clay, size 4) turned left\n",
    "mirrored": (
        "    lay 2 by 2\n        pinwheel(sand, dusk) | pinwheel(sand, dusk) reversed\n"
        "        pinwheel(sand, dusk) turned right | pinwheel(sand, dusk) reversed turned right\n"
    ),
    "curved": "    lay 2 by 2\n        quarter-circle(sand, dusk) | quarter-circle(sand, dusk) turned right\n",
    "sashed": "    lay 3 by 2\n        | pinwheel(sand, dusk, size 4)\n    sash 1 1/2 of clay\n",
    "posts": (
        "    lay 3 by 2\n        pinwheel(sand, dusk, size 4) | square 4 1/2 of clay\n"
        "    sash 1 1/2 of clay, posts of dusk, all-round\n"
    ),
    "uneven-columns": (
        "    lay\n        square 2 of sand | rectangle 5 by 2 of dusk\n"
        "        square 2 of clay | rectangle 5 by 2 of sand\n"
        "    sash 1 of clay, posts of dusk\n"
    ),
}


def unit_of(kind: str, steps: str, settings: str = "") -> Unit:
    """The work of these steps in a definition of a kind."""
    made = built(f'pattern "Table"{settings}\n{FABRICS}{kind} tried\n{steps}')
    return next(one.unit for one in made.made if one.name == "tried")


@pytest.mark.parametrize("name", TABLES)
def test_a_quilt_is_what_a_block_of_the_same_lines_is(name: str, monkeypatch: pytest.MonkeyPatch) -> None:
    block = unit_of("block", TABLES[name])
    joined = Seams.joined

    def alone(self: Seams, *given: Any) -> Any:
        assert not self._bench.quilt, "no seam of the quilt's is sewn by itself"
        return joined(self, *given)

    monkeypatch.setattr(Seams, "joined", alone)
    quilt = unit_of("quilt", TABLES[name])
    assert described(quilt) == described(block)
    assert seen_area(quilt.patches) + ledger_area(quilt) == quilt.cloth


def test_pressing_open_holds_for_both() -> None:
    opened = "\n    press open"
    block, quilt = (unit_of(kind, TABLES["posts"], opened) for kind in ("block", "quilt"))
    assert quilt.seams[-1].pressed == "open"
    assert described(quilt) == described(block)


def test_what_does_not_fit_exactly_is_sewn_piece_by_piece() -> None:
    steps = "    lay\n        square 2 of sand | rectangle 2 by 2 1/32 of dusk\n"
    assert described(unit_of("quilt", steps)) == described(unit_of("block", steps))



LEAN = """
unit lean
    rectangle 4 by 3 of sand
    join rectangle 4 by 1 1/2 of dusk on bottom

"""
LYING = {  # how a cell lies, then where the lengthwise grain and the top of its pieces point, as (right, up)
    "lean": ((1, 0), (0, 1)),
    "lean reversed": ((-1, 0), (0, 1)),
    "lean turned right": ((0, -1), (1, 0)),
    "lean reversed turned right": ((0, 1), (1, 0)),
    "lean turned around": ((-1, 0), (0, -1)),
    "lean reversed turned around": ((1, 0), (0, -1)),
}


@pytest.mark.parametrize("kind", ["block", "quilt"])
def test_where_the_grain_and_the_top_of_a_piece_point(kind: str) -> None:
    """A piece is cut with its grain to the right and its top up. A mirror turns the grain round and leaves the top; a
    quarter turn to the right brings (x, y) to (y, -x)."""
    text = f'pattern "Table"\n{FABRICS}{LEAN}{kind} tried\n    lay\n        {" | ".join(LYING)}\n'
    unit = next(one.unit for one in built(text).made if one.name == "tried")
    left = min(x for corner in unit.corners for x, _ in [corner.finished.floats])
    seen: dict[int, set[object]] = {}
    for patch in unit.patches:
        x = sum(p.floats[0] for p in patch.cells[0]) / len(patch.cells[0])
        seen.setdefault(int((x - left) / 3.5), set()).add((patch.grain.floats, patch.up.floats))
    assert seen == {n: {ways} for n, ways in enumerate(LYING.values())}
    assert len(unit.patches) == 2 * len(LYING)
