"""Cells of a table that finish at different sizes, and the strips that bring them to one size."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from piecewright.dataclass import dataclass
from piecewright.exact import Exact
from piecewright.kernel.build import Piece
from piecewright.kernel.measure import finished_size, lies_straight
from piecewright.verbs.registry import Said
from piecewright.verbs.work import Bench, Brought, Done, Refused

Run = Callable[[Bench, Said], Done | Brought]
Size = tuple[Exact, Exact]  # finished, across and down
Key = tuple[Piece | str, str]  # a cell by what it is and how it is turned
Rows = list[list[Key]]
Cells = dict[Key, tuple[Size, str]]  # with its size and where it is written first


@dataclass(frozen=True, slots=True, kw_only=True)
class Fill:
    """The cell written in `slot` finishes `short` of `target`, across and down, in inches. `like`: where a cell of that
    size is written, or empty."""

    slot: str
    is_cloth: bool
    short: Size
    target: Size
    like: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Spacer:
    """A row that finishes `short` of the longest one, and how high it is, in inches."""

    row: int
    short: Exact
    height: Exact


def fitted(run: Run) -> Run:
    """The verb of a table, whose refusal of cells that do not fit tells the strips that mend it."""

    def fit(bench: Bench, said: Said) -> Done | Brought:
        try:
            return run(bench, said)
        except Refused as refused:
            told = _told(bench, said) if refused.kind == "edges-differ" and refused.slot.startswith("CELL[") else None
            if told is None:
                raise
            raise Refused("cells-differ", refused.slot, **told) from refused

    return fit


def _told(bench: Bench, said: Said) -> dict[str, object] | None:
    """What does not fit and what mends it; None where a cell is no rectangle that lies straight."""
    rows, cells = _table(said)
    if cells is None:
        return None
    sizes = {key: size for key, (size, _) in cells.items()}
    within = bench.settings.tolerance
    pair = _pair(rows, sizes, within, columns=bench.sashed)
    # a table that is repeated has no place for one more cell
    target, spacers = _targets(rows, sizes, within, columns=bench.sashed or "COLUMNS" in said)
    fills = []
    for key, (size, slot) in cells.items():
        short = _short(size[0], target[key][0], within), _short(size[1], target[key][1], within)
        if short[0] or short[1]:
            like = next((at for other, at in cells.values() if other == target[key]), "")
            is_cloth = isinstance(key[0], Piece)
            fills.append(Fill(slot=slot, is_cloth=is_cloth, short=short, target=target[key], like=like))
    if pair is None and not spacers and not fills:
        return None
    found: dict[str, object] = {"fills": tuple(fills), "spacers": tuple(spacers)}
    if pair is not None:
        found["pair"] = tuple((cells[key][1], *sizes[key]) for key in pair[:2])
        found["difference"] = pair[2]
    else:
        wide = {key: size[0] for key, size in sizes.items()}
        found["lengths"] = tuple(_length(row, wide) for row in rows)
    return found


def _table(said: Said) -> tuple[Rows, Cells | None]:
    written = [[(cell.source, cell.name) for cell in row] for row in said.rows]
    cells: Cells = {}
    for r, row in enumerate(said.rows):
        for c, cell in enumerate(row):
            if not lies_straight(cell.unit):
                return written, None
            cells.setdefault((cell.source, cell.name), (finished_size(cell.unit), f"CELL[{r}][{c}]"))
    if "COLUMNS" not in said:
        return written, cells
    across, down = said.count("COLUMNS"), said.count("ROWS")
    laid = [written[r % len(written)] for r in range(down)]
    return [[row[c % len(row)] for c in range(across)] for row in laid], cells


def _pair(
    rows: Rows, sizes: dict[Key, Size], within: Exact, *, columns: bool
) -> tuple[Key, Key, Exact] | None:
    """The first two neighbours whose common edges differ, and by how much; `columns`: also one below the other."""
    for row in rows:
        for c, key in enumerate(row):
            beside = [(row[c - 1], 1)] if c else []
            if columns and c < len(rows[0]):
                beside.append((rows[0][c], 0))
            for other, axis in beside:
                difference = abs(sizes[key][axis] - sizes[other][axis])
                if difference > within:
                    return other, key, difference
    return None


def _targets(
    rows: Rows, sizes: dict[Key, Size], within: Exact, *, columns: bool
) -> tuple[dict[Key, Size], list[Spacer]]:
    """The size that each cell is to have, at least its own; and what rows lack then. Squares of several sizes all
    become the largest; else the cells of a row become equally high, and those of a column equally wide where they have
    to be (`columns`), or where that is all that a short row lacks."""
    wide = {key: size[0] for key, size in sizes.items()}
    high = {key: size[1] for key, size in sizes.items()}
    if all(abs(across - down) <= within for across, down in sizes.values()):
        wide = high = dict.fromkeys(sizes, max(max(size) for size in sizes.values()))
    else:
        high = _evened(rows, high)
        lengths = [_length(row, wide) for row in rows]
        longest = rows[lengths.index(max(lengths))]
        even = len({len(row) for row in rows}) == 1
        short = max(lengths) - min(lengths) > within
        if even and (columns or (short and _is_within(rows, longest, wide))):
            wide = _evened([list(column) for column in zip(*rows, strict=True)], wide)
    lengths = [_length(row, wide) for row in rows]
    spacers = [
        Spacer(row=number, short=max(lengths) - length, height=max(high[key] for key in row))
        for number, (row, length) in enumerate(zip(rows, lengths, strict=True), 1)
        if max(lengths) - length > within
    ]
    return {key: (wide[key], high[key]) for key in sizes}, [] if columns else spacers


def _is_within(rows: Rows, longest: Sequence[Key], wide: dict[Key, Exact]) -> bool:
    """Whether no cell is wider than that of the longest row in its column."""
    return all(wide[key] <= wide[above] for row in rows for key, above in zip(row, longest, strict=True))


def _evened(lines: Rows, lengths: dict[Key, Exact]) -> dict[Key, Exact]:
    """Lengths grown until all cells of each line have one, where a cell may stand in several lines."""
    grown = dict(lengths)
    while True:
        before = dict(grown)
        for line in lines:
            most = max(grown[key] for key in line)
            grown.update(dict.fromkeys(line, most))
        if grown == before:
            return grown


def _length(row: Sequence[Key], wide: dict[Key, Exact]) -> Exact:
    return sum((wide[key] for key in row), Exact(0))


def _short(there: Exact, wanted: Exact, within: Exact) -> Exact:
    return wanted - there if wanted - there > within else Exact(0)
