"""`sash WIDTH of FABRIC` and `sash PIECE`: strips between the cells of the table above it"""

from __future__ import annotations

from piecewright.exact import Exact
from piecewright.kernel.action import Lay
from piecewright.kernel.build import Supply
from piecewright.kernel.measure import edge_length
from piecewright.verbs import press
from piecewright.verbs.bands import Band
from piecewright.verbs.cloth import LENGTHWISE, cut_from_cloth, pooled
from piecewright.verbs.lay import Row, Seams, carried
from piecewright.verbs.on_point import with_sashes
from piecewright.verbs.registry import Said, Verb
from piecewright.verbs.setting import Level, set_level
from piecewright.verbs.sewing import edge_of
from piecewright.verbs.work import Bench, Brought, Done, Refused, Work

Cells = list[tuple[Brought, bool]]  # the pieces of a row, and whether each is a sash


def run(bench: Bench, said: Said) -> Done:
    """The table widened by rows and columns of strips, sewn row by row, then the rows top to bottom."""
    pointed = bench.hand().pointed
    if pointed is not None:
        return with_sashes(bench, said, pointed)
    cells = bench.hand().set_out
    if not cells:
        raise Refused("sash-nowhere")
    taken: dict[int, Supply] = {}
    table = _table(bench, said, cells, taken)
    new = [taken[id(piece)] for pieces, _ in table for piece, _ in pieces if id(piece) in taken]
    if bench.quilt and said.clause("press") is None:
        together = set_level(_levels(bench, table))
        if together is not None:
            named = tuple(dict.fromkeys(word for pieces, _ in table for piece, _ in pieces for word in piece.words))
            return Done(
                work=Work(unit=together.result, words=named), actions=(together,), supplies=pooled(new)
            )
    seams = Seams(bench, said.clause("press"))
    rows = [_row(seams, pieces) for pieces, _ in table]
    result, units, words = rows[0]
    placed, row_units = [units], [result]
    for (row, units, names), (_, sash) in zip(rows[1:], table[1:], strict=True):
        whole = Brought(unit=row, source="", name="the row", words=names)
        joined = seams.joined(result, words, "bottom", (whole, ""), "top", "right" if sash else "left")
        placed.append(carried(units, row, joined.second))
        row_units.append(joined.second)
        words = tuple(dict.fromkeys((*words, *names)))
        result = joined.unit
    seams.refuse()
    action = Lay(
        rows=tuple(placed),
        names=tuple(tuple(piece.name for piece, _ in pieces) for pieces, _ in table),
        result=result,
        row_units=tuple(row_units),
        keys=tuple(
            tuple(piece.source if isinstance(piece.source, str) else "" for piece, _ in pieces) for pieces, _ in table
        ),
    )
    return Done(work=Work(unit=result, words=words), actions=(action,), supplies=pooled(new))


def _levels(bench: Bench, table: list[tuple[Cells, bool]]) -> list[Level]:
    """The rows, every seam toward the sash that it sews."""
    is_open = bench.settings.press == "open"
    levels: list[Level] = []
    for number, (pieces, _) in enumerate(table):
        below = number + 1 < len(table) and table[number + 1][1]
        levels.append(
            Level(
                pieces=tuple(piece for piece, _ in pieces),
                pressed="open" if is_open else "right",
                pressings=tuple("open" if is_open else "right" if sash else "left" for _, sash in pieces[1:]),
                below="open" if is_open else "right" if below else "left",
            )
        )
    return levels


def _table(
    bench: Bench, said: Said, cells: tuple[tuple[Brought, ...], ...], taken: dict[int, Supply]
) -> list[tuple[Cells, bool]]:
    """The rows with their strips, and whether each is a row of the sash; `taken` is told what each new piece takes."""
    band, posts = Band(bench, said), said.clause("posts")
    outside = said.clause("all-round") is not None
    across, down = len(cells[0]), len(cells)
    if across * down == 1 and not outside:
        raise Refused("sash-one-cell")
    if posts is not None and not outside and 1 in (across, down):
        raise Refused("sash-no-crossing", posts.at())

    def strip(length: Exact, *, upright: bool) -> Brought:
        piece, supply = band.upright(length, "PIECE") if upright else band.lying(length, "PIECE")
        taken[id(piece)] = supply
        return piece

    table: list[tuple[Cells, bool]] = []
    for row in cells:
        level = [(cell, False) for cell in row]
        if across > 1 or outside:
            level = _between(level, (strip(_cut(bench, row[0], "left"), upright=True), True), outside)
        table.append((level, False))
    if down == 1 and not outside:
        return table
    seam = 2 * bench.settings.seam
    lengths = [_cut(bench, cell, "top") for cell in cells[0]]
    if posts is not None:
        post = cut_from_cloth(bench, "square", band.depth, band.depth, posts.word("FABRIC"))
        taken[id(post)] = Supply(source=post.source, count=1)
        level = _between([(strip(one, upright=False), True) for one in lengths], (post, False), outside)
    else:
        strips = across + (1 if outside else -1)
        whole = sum((one - seam for one in lengths), seam) + (band.depth - seam) * strips
        level = [(strip(whole, upright=False), True)]
    found: list[tuple[Cells, bool]] = [(level, True)] if outside else []
    for n, one in enumerate(table):
        found += [(level, True), one] if n else [one]
    return [*found, (level, True)] if outside else found


def _cut(bench: Bench, cell: Brought, edge: str) -> Exact:
    """How long a strip is cut that is sewn to an edge of a cell."""
    return edge_length(cell.unit, edge_of(cell.unit, edge, ""), finished=True) + 2 * bench.settings.seam


def _between(cells: Cells, other: tuple[Brought, bool], outside: bool) -> Cells:
    """Cells with a piece between them, and `outside` before the first and after the last too."""
    found: Cells = [other] if outside else []
    for n, cell in enumerate(cells):
        found += [other, cell] if n else [cell]
    return [*found, other] if outside else found


def _row(seams: Seams, cells: Cells) -> Row:
    """One row sewn; every seam lies toward the sash that it sews."""
    first = cells[0][0]
    unit, words, units = first.unit, first.words, [first.unit]
    for piece, sash in cells[1:]:
        joined = seams.joined(unit, words, "right", (piece, ""), "left", "right" if sash else "left")
        unit = joined.unit
        units.append(joined.second)
        words = tuple(dict.fromkeys((*words, *piece.words)))
    return unit, tuple(units), words


VERB = Verb(
    name="sash",
    sentences=("sash WIDTH of FABRIC", "sash PIECE"),
    summary="strips between the cells of the `lay` above it, and posts where they cross",
    example="sash 2 1/2 of dusk, posts of glow, all-round",
    clauses=(*press.CLAUSES, "posts of FABRIC", "all-round", LENGTHWISE),
    cuts_strips=True,
    run=run,
)
