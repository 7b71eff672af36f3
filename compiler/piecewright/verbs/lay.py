"""`lay` and `lay COLUMNS by ROWS`, with the table under it"""

from __future__ import annotations

from piecewright.exact import Vector
from piecewright.kernel.action import Lay
from piecewright.kernel.build import Piece, Supply
from piecewright.kernel.chain import Joined, chain
from piecewright.kernel.errors import SewingError
from piecewright.kernel.moves import moved, rotated
from piecewright.kernel.unit import Pressed, Unit
from piecewright.verbs import press
from piecewright.verbs.registry import Said, Verb
from piecewright.verbs.sewing import edge_of
from piecewright.verbs.work import Bench, Brought, Done, Refused, Work

Cell = tuple[Brought, str]  # a piece and the slot it is written in


def run(bench: Bench, said: Said) -> Done:
    """Each row is sewn left to right, then the rows top to bottom."""
    table = _table(said)
    result: Unit | None = None
    placed: list[tuple[Unit, ...]] = []
    row_units: list[Unit] = []
    words: tuple[str, ...] = ()
    for r, row in enumerate(table):
        unit, units, names = _row(bench, said, row, r)
        if result is None:
            result, placed, row_units, words = unit, [units], [unit], names
            continue
        whole = Brought(unit=unit, source="", name="the row", words=names), row[0][1]
        joined = _joined(bench, said, result, words, "bottom", whole, "top", -1)
        placed.append(_carried(units, unit, joined.second))
        row_units.append(joined.second)
        words = tuple(dict.fromkeys((*words, *names)))
        result = joined.unit
    assert result is not None
    action = Lay(
        rows=tuple(placed),
        names=tuple(tuple(cell.name for cell, _ in row) for row in table),
        result=result,
        row_units=tuple(row_units),
        keys=tuple(tuple(cell.source if isinstance(cell.source, str) else "" for cell, _ in row) for row in table),
    )
    return Done(work=Work(unit=result, words=words), actions=(action,), supplies=_supplies(table))


def _table(said: Said) -> list[list[Cell]]:
    """The cells as they will lie: the written table once, or repeated and cut off as needed."""
    written = [[(cell, f"CELL[{r}][{c}]") for c, cell in enumerate(row)] for r, row in enumerate(said.rows)]
    for row in written:
        for cell, slot in row:
            if cell.usable is not None:
                raise Refused("strip-no-ends", slot)
    if "COLUMNS" not in said:
        return written
    across, down = said.count("COLUMNS"), said.count("ROWS")
    return [[written[r % len(written)][c % len(written[r % len(written)])] for c in range(across)] for r in range(down)]


def _row(bench: Bench, said: Said, row: list[Cell], r: int) -> tuple[Unit, tuple[Unit, ...], tuple[str, ...]]:
    unit = row[0][0].unit
    units = [unit]
    words = row[0][0].words
    for cell in row[1:]:
        joined = _joined(bench, said, unit, words, "right", cell, "left", r)
        unit = joined.unit
        units.append(joined.second)
        words = tuple(dict.fromkeys((*words, *cell[0].words)))
    return unit, tuple(units), words


def _joined(
    bench: Bench, said: Said, unit: Unit, words: tuple[str, ...], place: str, cell: Cell, facing: str, r: int
) -> Joined:
    """A cell or a row sewn on. `r` is the row, -1 for the seams between rows."""
    brought, slot = cell
    mine, theirs = edge_of(unit, place, slot), edge_of(brought.unit, facing, slot)
    clause = said.clause("press")
    side: Pressed
    if clause is not None:
        side = press.pressed(bench, clause, unit, words, mine, brought, theirs)[1]
    elif bench.settings.press == "open":
        side = "open"
    else:
        # rows alternate, so that the seams of neighbouring rows lie against each other
        side = "right" if r % 2 == 0 or r < 0 else "left"
    try:
        return chain(unit, mine, brought.unit, theirs, tolerance=bench.settings.tolerance, pressed=side)
    except SewingError as error:
        raise Refused(error.kind, slot, **{"piece": brought.name, "table": True, **error.facts}) from error


def _carried(units: tuple[Unit, ...], row: Unit, placed: Unit) -> tuple[Unit, ...]:
    """The cells of a row moved as the row was."""
    turn = placed.directions[0].turned(row.directions[0].conjugate())
    if turn != Vector(1, 0):
        units = tuple(rotated(unit, turn) for unit in units)
    by = placed.corners[0].finished - row.corners[0].finished.turned(turn)
    return tuple(moved(unit, by) for unit in units)


def _supplies(table: list[list[Cell]]) -> tuple[Supply, ...]:
    counts: dict[Piece | str, int] = {}
    for row in table:
        for cell, _ in row:
            counts[cell.source] = counts.get(cell.source, 0) + 1
    return tuple(Supply(source=source, count=count) for source, count in counts.items())


VERB = Verb(
    name="lay",
    sentences=("lay", "lay COLUMNS by ROWS"),
    summary="sews the table under it, row by row; with a number across and down the table is repeated",
    example="lay 8 by 1",
    clauses=press.CLAUSES,
    role="start",
    under="rows",
    run=run,
)
