"""`lay`, `lay COLUMNS by ROWS` and `lay COLUMNS by ROWS on point`, with the table under it"""

from __future__ import annotations

from piecewright.exact import Exact, Vector
from piecewright.kernel.action import Lay
from piecewright.kernel.build import Supply
from piecewright.kernel.chain import Joined, chain
from piecewright.kernel.errors import SewingError
from piecewright.kernel.measure import edge_length, finished_bounds
from piecewright.kernel.moves import moved, rotated
from piecewright.kernel.unit import Pressed, Unit
from piecewright.verbs import on_point, press
from piecewright.verbs.cloth import pooled, supply
from piecewright.verbs.fillers import fitted
from piecewright.verbs.registry import Said, Verb
from piecewright.verbs.setting import Level, Spotted, refuse_pressing, set_level
from piecewright.verbs.sewing import edge_of
from piecewright.verbs.work import Bench, Brought, Done, Refused, Work

Cell = tuple[Brought, str]  # a piece and the slot it is written in
Row = tuple[Unit, tuple[Unit, ...], tuple[str, ...]]  # a sewn row, its cells where they lie in it, their names

MOST_CELLS = 10_000


def run(bench: Bench, said: Said) -> Done:
    """Each row is sewn left to right, then the rows top to bottom."""
    if "on point" in said.form:
        return on_point.set_out(bench, said, _written(said))
    table = _table(said)
    if bench.sashed:
        return _set_out(bench, said, table)
    if bench.quilt and said.clause("press") is None:
        action = set_level(_levels(bench, table))
        if action is not None:
            words = tuple(dict.fromkeys(word for row in table for cell, _ in row for word in cell.words))
            return Done(work=Work(unit=action.result, words=words), actions=(action,), supplies=_supplies(table))
    seams = Seams(bench, said.clause("press"))
    rows = _rows(seams, table)
    result, units, words = rows[0]
    placed, row_units = [units], [result]
    for (row, units, names), cells in zip(rows[1:], table[1:], strict=True):
        whole = Brought(unit=row, source="", name="the row", words=names)
        joined = seams.joined(result, words, "bottom", (whole, cells[0][1]), "top", "right")
        placed.append(carried(units, row, joined.second))
        row_units.append(joined.second)
        words = tuple(dict.fromkeys((*words, *names)))
        result = joined.unit
    seams.refuse()
    action = Lay(
        rows=tuple(placed),
        names=tuple(tuple(cell.name for cell, _ in row) for row in table),
        result=result,
        row_units=tuple(row_units),
        keys=tuple(tuple(cell.source if isinstance(cell.source, str) else "" for cell, _ in row) for row in table),
    )
    return Done(work=Work(unit=result, words=words), actions=(action,), supplies=_supplies(table))


def _levels(bench: Bench, table: list[list[Cell]]) -> list[Level]:
    """The rows, each pressed the other way from the one above."""
    is_open = bench.settings.press == "open"
    return [
        Level(
            pieces=tuple(cell for cell, _ in row),
            pressed="open" if is_open else "left" if r % 2 else "right",
            below="open" if is_open else "right",
        )
        for r, row in enumerate(table)
    ]


def _set_out(bench: Bench, said: Said, table: list[list[Cell]]) -> Done:
    """The cells as they will lie, side by side, for strips to be sewn between them: all in a row are equally high
    and all in a column equally wide."""
    refuse_pressing(said, "sash")
    placed: list[tuple[Unit, ...]] = []
    spots = Spotted()
    y = Exact(0)
    sizes: dict[int, tuple[Exact, Exact, Exact]] = {}  # of each different piece: across, and its lower left corner
    fit: set[tuple[str, int, int]] = set()
    for row in table:
        for cell in row:
            if id(cell[0].unit) not in sizes:
                x, low, _, _ = finished_bounds(cell[0].unit)
                sizes[id(cell[0].unit)] = _finished(cell, "top"), x, low
        if len(row) != len(table[0]):
            raise Refused("sash-rows-differ", row[0][1], first=len(table[0]), second=len(row))
        units: list[Unit] = []
        x = Exact(0)
        y = y - _finished(row[0], "left")
        for c, cell in enumerate(row):
            for first, its, edges in ((row[0], "left", ("left", "right")), (table[0][c], "top", ("top", "bottom"))):
                pair = its, id(first[0].unit), id(cell[0].unit)
                for edge in () if pair in fit else edges:
                    _matches(bench, first, its, cell, edge)
                fit.add(pair)
            unit = spots.of(cell[0].unit) if bench.quilt else cell[0].unit
            _, left, low = sizes[id(cell[0].unit)]
            units.append(moved(unit, Vector(x - left, y - low)))
            x = x + sizes[id(table[0][c][0].unit)][0]
        placed.append(tuple(units))
    action = Lay(
        rows=tuple(placed),
        names=tuple(tuple(cell.name for cell, _ in row) for row in table),
        result=placed[0][0],
        keys=tuple(tuple(cell.source if isinstance(cell.source, str) else "" for cell, _ in row) for row in table),
        sewn=False,
    )
    cells = tuple(tuple(cell for cell, _ in row) for row in table)
    return Done(work=Work(unit=placed[0][0], set_out=cells), actions=(action,), supplies=_supplies(table))


def _finished(cell: Cell, edge: str) -> Exact:
    unit = cell[0].unit
    return edge_length(unit, edge_of(unit, edge, cell[1]), finished=True)


def _matches(bench: Bench, one: Cell, its: str, other: Cell, edge: str) -> None:
    """Raises where a strip that fits one cell does not fit another."""
    first, second = _finished(one, its), _finished(other, edge)
    if abs(first - second) > bench.settings.tolerance:
        raise Refused("edges-differ", other[1], first=first, second=second, difference=abs(first - second), table=True)


def _table(said: Said) -> list[list[Cell]]:
    """The cells as they will lie: the written table once, or repeated and cut off as needed."""
    written = _written(said)
    if "COLUMNS" not in said:
        return written
    across, down = said.count("COLUMNS"), said.count("ROWS")
    return [[written[r % len(written)][c % len(written[r % len(written)])] for c in range(across)] for r in range(down)]


def _written(said: Said) -> list[list[Cell]]:
    """The table as it is written, of pieces that have their ends."""
    written = [[(cell, f"CELL[{r}][{c}]") for c, cell in enumerate(row)] for r, row in enumerate(said.rows)]
    for row in written:
        for cell, slot in row:
            if cell.usable is not None:
                raise Refused("strip-no-ends", slot)
    if "COLUMNS" in said and said.count("COLUMNS") * said.count("ROWS") > MOST_CELLS:
        raise Refused("too-many", "COLUMNS", most=MOST_CELLS)
    return written


def _rows(seams: Seams, table: list[list[Cell]]) -> list[Row]:
    """The rows sewn; of equal ones only the first is worked out."""
    sewn: dict[tuple[object, ...], Row] = {}
    rows: list[Row] = []
    for r, cells in enumerate(table):
        key = (r % 2, *(id(cell) for cell, _ in cells))
        if key not in sewn:
            # rows alternate, so that the seams of neighbouring rows lie against each other
            sewn[key] = _row(seams, cells, "left" if r % 2 else "right")
        rows.append(sewn[key])
    return rows


def _row(seams: Seams, cells: list[Cell], side: Pressed) -> Row:
    first = cells[0][0]
    unit, words, units = first.unit, first.words, [first.unit]
    for cell in cells[1:]:
        joined = seams.joined(unit, words, "right", cell, "left", side)
        unit = joined.unit
        units.append(joined.second)
        words = tuple(dict.fromkeys((*words, *cell[0].words)))
    return unit, tuple(units), words


class Seams:
    """The seams of a table, and how each is pressed. A clause holds for the seams it can decide."""

    def __init__(self, bench: Bench, clause: Said | None) -> None:
        self._bench = bench
        self._clause = clause
        self._decided = False
        self._refused: Refused | None = None

    def joined(
        self, unit: Unit, words: tuple[str, ...], place: str, cell: Cell, facing: str, alternate: Pressed
    ) -> Joined:
        """A cell or a row sewn to the edge `place` of what is sewn already."""
        brought, slot = cell
        mine, theirs = edge_of(unit, place, slot), edge_of(brought.unit, facing, slot)
        side = alternate
        if self._clause is not None:
            try:
                side = press.pressed(self._bench, self._clause, unit, words, mine, brought, theirs)[1]
                self._decided = True
            except Refused as refused:
                self._refused = self._refused or refused
        elif self._bench.settings.press == "open":
            side = "open"
        try:
            return chain(unit, mine, brought.unit, theirs, tolerance=self._bench.settings.tolerance, pressed=side)
        except SewingError as error:
            raise Refused(error.kind, slot, **{"piece": brought.name, "table": True, **error.facts}) from error

    def refuse(self) -> None:
        """Raises what the clause was refused for, if it decided none of the seams."""
        if self._refused is not None and not self._decided:
            raise self._refused


def carried(units: tuple[Unit, ...], row: Unit, placed: Unit) -> tuple[Unit, ...]:
    """The cells of a row moved as the row was."""
    turn = placed.directions[0].turned(row.directions[0].conjugate())
    if turn != Vector(1, 0):
        units = tuple(rotated(unit, turn) for unit in units)
    by = placed.corners[0].finished - row.corners[0].finished.turned(turn)
    return tuple(moved(unit, by) for unit in units)


def _supplies(table: list[list[Cell]]) -> tuple[Supply, ...]:
    return pooled(supply(cell) for row in table for cell, _ in row)


VERB = Verb(
    name="lay",
    sentences=("lay", "lay COLUMNS by ROWS", "lay COLUMNS by ROWS on point"),
    summary="sews the table under it, row by row; with a number across and down the table is repeated",
    example="lay 8 by 1",
    clauses=press.CLAUSES,
    role="start",
    under="rows",
    run=fitted(run),
)
