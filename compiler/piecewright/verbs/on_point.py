"""Tables on point: what is set out by `lay`, widened by `sash`, and sewn in diagonal rows by `fill`."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from piecewright.dataclass import dataclass
from piecewright.exact import Exact, Vector
from piecewright.kernel.action import Lay
from piecewright.kernel.build import Supply
from piecewright.kernel.measure import finished_bounds
from piecewright.kernel.moves import moved, turned
from piecewright.kernel.on_point import SEEN, Lattice, corner_square, filler, is_corner, outer_part, side_square
from piecewright.kernel.polygon import ZERO
from piecewright.kernel.setting import Course, Laid, Row
from piecewright.kernel.unit import Pressed, Unit
from piecewright.verbs.bands import Band
from piecewright.verbs.cloth import cut_from_cloth, pooled, supply
from piecewright.verbs.registry import Said
from piecewright.verbs.setting import Spotted, is_level, laid_out, refuse_pressing
from piecewright.verbs.work import Bench, Brought, Done, Refused, Work

Cell = tuple[Brought, str]  # a piece and the slot it is written in
LEAST = 2  # wide rows, and blocks in one, that have rows between them


@dataclass(frozen=True, slots=True, kw_only=True)
class Sashes:
    """What lies round blocks on point: a strip standing beside a block and one lying below it; a post where they
    cross and an outer one, whose far part is cut off, lying left to right; or none, then a strip lies along the whole
    row, by the number of blocks it passes, longer by as much at either end."""

    upright: Brought
    lying: Brought | None
    post: Brought | None
    outer: Brought | None
    rows: Mapping[int, Brought]


@dataclass(frozen=True, slots=True, kw_only=True)
class Pointed:
    """A table on point, set out and not sewn. `cells`: its rows as they are seen, wide ones and those between.
    `filled`: the fabrics of the triangles named so far, by `sides` and `corners`; `outside`: how far the edge then lies
    beyond the points, in inches."""

    lattice: Lattice
    cells: tuple[tuple[Brought, ...], ...]
    sashes: Sashes | None = None
    filled: tuple[tuple[str, str], ...] = ()
    outside: Exact = ZERO


_NONE: Mapping[str, Brought] = {}
Placed = tuple[Brought, Unit]  # a piece and the unit where it lies
_Row = list[tuple[Brought, Laid]]


def set_out(bench: Bench, said: Said, written: list[list[Cell]]) -> Done:
    """The blocks as they will be seen, turned to stand on their points."""
    refuse_pressing(said, "fill")
    columns, rows = said.count("COLUMNS"), said.count("ROWS")
    if not bench.quilt:
        raise Refused("point-in-block")
    if min(columns, rows) < LEAST:
        raise Refused("point-too-small", "COLUMNS" if columns < LEAST else "ROWS", across=columns, down=rows)
    block: Exact | None = None
    for row in written:
        for cell, slot in row:
            across = _square(cell, slot)
            if block is None:
                block, first = across, cell.name
            elif across != block:
                raise Refused("point-sizes-differ", slot, piece=cell.name, other=first, first=across, second=block)
    assert block is not None
    lattice = Lattice(columns=columns, rows=rows, block=block)
    cells = tuple(
        tuple(written[r % len(written)][c % len(written[r % len(written)])][0] for c in range(columns - r % 2))
        for r in range(2 * rows - 1)
    )
    pointed = Pointed(lattice=lattice, cells=cells)
    action = _seen(pointed)
    supplies = pooled(supply(one) for row_of in cells for one in row_of)
    return Done(work=Work(unit=action.result, pointed=pointed), actions=(action,), supplies=supplies)


def _square(cell: Brought, slot: str) -> Exact:
    """The finished size of a block that may be set on point."""
    left, bottom, right, top = finished_bounds(cell.unit)
    if not is_level(cell.unit) or right - left != top - bottom:
        raise Refused("point-not-square", slot, piece=cell.name, first=right - left, second=top - bottom)
    return right - left


def with_sashes(bench: Bench, said: Said, pointed: Pointed) -> Done:
    """Strips on all sides of every block, so that all rows end in a strip or a post."""
    refuse_pressing(said, "fill")
    clause = said.clause("all-round")
    if clause is not None:
        raise Refused("point-all-round", clause.at())
    if pointed.sashes is not None or pointed.filled:
        raise Refused("sash-nowhere")
    band, posts = Band(bench, said), said.clause("posts")
    lattice = replace(pointed.lattice, sash=band.depth - bench.settings.seam * 2)
    if lattice.sash <= 0:
        raise Refused("too-small", "WIDTH" if band.piece is None else "PIECE")
    if band.is_units:
        if posts is None:
            raise Refused("point-units-need-posts", "PIECE")
        band.fills_exactly(lattice.block)
    raw = bench.settings.seam * 2
    upright, standing = band.upright(lattice.block + raw, "PIECE")
    if not is_level(upright.unit):
        raise Refused("point-sash-slants", "PIECE", piece=upright.name.removesuffix(" turned left"))
    blocks = sum(len(row) for row in pointed.cells)
    levels = [lattice.between(q) for q in range(lattice.lowest - 1, lattice.highest + 1)]
    number = blocks + lattice.highest - lattice.lowest + 1
    supplies = [replace(standing, count=standing.count * number)]
    lying: Brought | None = None
    post: Brought | None = None
    outer: Brought | None = None
    more = outer_part(bench.settings.seam)
    rows: dict[int, Brought] = {}
    if posts is not None:
        lying, flat = band.lying(lattice.block + raw, "PIECE")
        cloth = posts.word("FABRIC")
        post = replace(cut_from_cloth(bench, "square", band.depth, band.depth, cloth), name=f"{cloth} post")
        supplies.append(replace(flat, count=flat.count * sum(len(level) for level in levels)))
        outer = cut_from_cloth(bench, "rectangle", band.depth + more, band.depth, cloth)
        outer = replace(outer, name=f"{cloth} longer post")
        supplies.append(supply(post, sum(len(level) - 1 for level in levels)))
        supplies.append(supply(outer, 2 * len(levels)))
    else:
        for level in levels:
            count = len(level)
            row, taken = band.lying(lattice.pitch * count + lattice.sash + raw + more * 2, "PIECE")
            rows.setdefault(count, row)
            supplies.append(taken)
    sashes = Sashes(upright=upright, lying=lying, post=post, outer=outer, rows=rows)
    pointed = replace(pointed, lattice=lattice, sashes=sashes)
    action = _seen(pointed)
    return Done(work=Work(unit=action.result, pointed=pointed), actions=(action,), supplies=pooled(supplies))


def filled(bench: Bench, said: Said, pointed: Pointed) -> Done:
    """Triangles for the sides or the corners; when both are named, all is sewn and the edges are trimmed."""
    fabric = said.word("FABRIC")
    named = dict(pointed.filled)
    targets = said.words("TARGETS")
    for number, target in enumerate(targets):
        if target in named or target in targets[:number]:
            raise Refused("filled-already", f"TARGETS[{number}]", place=target)
        named[target] = fabric
    lattice = pointed.lattice
    beyond = said.clause("float")
    outside = beyond.length("SIZE") if beyond is not None else ZERO
    if beyond is not None and lattice.sash:
        raise Refused("point-floats", beyond.at())
    if pointed.filled and outside != pointed.outside:
        slot = beyond.at() if beyond is not None else ""
        raise Refused("fill-floats-differ", slot, first=pointed.outside, second=outside)
    seam = bench.settings.seam
    supplies: list[Supply] = []
    size = {"sides": side_square(lattice.block, seam, outside), "corners": corner_square(lattice.block, seam, outside)}
    squares = {one: cut_from_cloth(bench, "square", size[one], size[one], cloth) for one, cloth in named.items()}
    if "sides" in targets:
        supplies.append(supply(squares["sides"], -(-2 * (lattice.columns + lattice.rows - 2) // 4)))
    if "corners" in targets:
        supplies.append(supply(squares["corners"], 2))
    pointed = replace(pointed, filled=tuple(named.items()), outside=outside)
    if len(named) < 2:
        refuse_pressing(said, "fill")
        action = _seen(pointed, squares)
        return Done(work=Work(unit=action.result, pointed=pointed), actions=(action,), supplies=tuple(supplies))
    is_open = said.clause("press") is not None or bench.settings.press == "open"
    action = _sewn(bench, pointed, squares, is_open)
    words = tuple(dict.fromkeys(word for row in pointed.cells for cell in row for word in cell.words))
    return Done(work=Work(unit=action.result, words=words), actions=(action,), supplies=pooled(supplies))


# ── where all lies ──────────────────────────────────────────────────────────────────────────────────


def _level(pointed: Pointed, q: int) -> _Row:
    """A row of blocks and the strips beside them, lying level."""
    lattice, sashes = pointed.lattice, pointed.sashes
    row: _Row = []
    span = lattice.span(q)
    low = lattice.low(q)
    if sashes is not None:
        row.append(_at(sashes.upright, lattice.left(span.start) - lattice.sash, low))
    for p in span:
        r, c = lattice.seen_at(p, q)
        row.append(_at(pointed.cells[r][c], lattice.left(p), low))
        if sashes is not None:
            row.append(_at(sashes.upright, lattice.left(p) + lattice.block, low))
    return row


def _crossing(pointed: Pointed, q: int) -> _Row:
    """The row of sashes above row `q`."""
    lattice, sashes = pointed.lattice, pointed.sashes
    assert sashes is not None
    span, low = lattice.between(q), lattice.high(q)
    more = outer_part(sashes.upright.unit.allowance)
    start = lattice.left(span.start) - lattice.sash - more
    if sashes.post is None or sashes.lying is None or sashes.outer is None:
        return [_at(sashes.rows[len(span)], start, low)]
    row = [_at(sashes.outer, start, low)]
    for p in span:
        row.append(_at(sashes.lying, lattice.left(p), low))
        row.append(_at(sashes.outer if p == span[-1] else sashes.post, lattice.left(p) + lattice.block, low))
    return row


def _at(piece: Brought, left: Exact, low: Exact) -> tuple[Brought, Laid]:
    """A piece with its lower left finished corner at a place."""
    x, y, across, _ = finished_bounds(piece.unit)
    return piece, Laid(unit=piece.unit, at=Vector(left - x, low - y), left=left, right=left + across - x)


def _seen(pointed: Pointed, squares: Mapping[str, Brought] = _NONE) -> Lay:
    """The action of a table that is set out: rows as they are seen, or as they will be sewn where there are sashes or
    triangles, which are cut from `squares`, by sides or corners."""
    lattice = pointed.lattice
    spots = Spotted()
    rows: list[list[Placed]] = []

    def placed(row: _Row) -> list[Placed]:
        return [(piece, moved(spots.of(laid.unit), laid.at)) for piece, laid in row]

    if pointed.sashes is None and not squares:
        rows = [[] for _ in pointed.cells]
        for q in range(lattice.highest, lattice.lowest - 1, -1):
            for one, p in zip(placed(_level(pointed, q)), lattice.span(q), strict=True):
                rows[lattice.seen_at(p, q)[0]].append(one)
        for row in rows:
            row.sort(key=lambda one: _middle(one[1]))
    else:
        for q in range(lattice.highest + 1, lattice.lowest - 2, -1):
            if pointed.sashes is not None and q <= lattice.highest:
                rows.append(placed(_crossing(pointed, q)))
            left = _triangle(pointed, q, squares, right=False)
            if lattice.lowest <= q <= lattice.highest:
                rows.append([*left, *placed(_level(pointed, q)), *_triangle(pointed, q, squares, right=True)])
            elif left:
                rows.append(left)
    seen = tuple(tuple(turned(unit, SEEN) for _, unit in row) for row in rows)
    return Lay(
        rows=seen,
        names=tuple(tuple(piece.name for piece, _ in row) for row in rows),
        result=seen[0][0],
        keys=tuple(tuple(piece.source if isinstance(piece.source, str) else "" for piece, _ in row) for row in rows),
        sewn=False,
        along=Vector.at(SEEN),
    )


def _triangle(pointed: Pointed, q: int, squares: Mapping[str, Brought], *, right: bool) -> list[Placed]:
    """The triangle at an end of a row, where there is a square to cut it from."""
    target = "corners" if is_corner(pointed.lattice, q, right=right) else "sides"
    if target not in squares:
        return []
    unit = filler(pointed.lattice, q, squares[target].unit, right=right)
    return [(Brought(unit=unit, source="", name=_called(pointed, target)), unit)]


def _called(pointed: Pointed, target: str) -> str:
    """`dusk side triangle`"""
    return f"{dict(pointed.filled)[target]} {target.removesuffix('s')} triangle"


def _middle(unit: Unit) -> float:
    """How far right the middle of a piece lies when it is turned to be seen."""
    xs = [corner.finished.floats for corner in unit.corners]
    return sum(x + y for x, y in xs) / len(xs)


def _sewn(bench: Bench, pointed: Pointed, squares: Mapping[str, Brought], is_open: bool) -> Lay:
    """All of it, sewn in diagonal rows and trimmed."""
    lattice = pointed.lattice
    courses: list[Course] = []
    pieces: list[list[Brought]] = []

    def add(row: _Row, low: Exact | None, high: Exact | None, pressed: Sequence[Pressed], above: Pressed) -> None:
        laid = [one for _, one in row]
        # ends of a row have no seam line of their own beyond them
        laid = [
            replace(one, left=None if n == 0 else laid[n - 1].right, right=None if n + 1 == len(laid) else one.right)
            for n, one in enumerate(laid)
        ]
        lies: list[Pressed] = ["open"] * len(pressed) if is_open else list(pressed)
        courses.append(
            Course(
                row=Row(pieces=tuple(laid), pressed=tuple(lies)),
                at=Vector(ZERO, ZERO),
                bottom=low,
                top=high,
                above="open" if is_open else above,
            )
        )
        pieces.append([piece for piece, _ in row])

    def cross(q: int) -> None:
        """The row of sashes above row `q`, where there are sashes; every seam toward its strips."""
        if lattice.sash:
            row = _crossing(pointed, q)
            toward: list[Pressed] = ["left" if n % 2 else "right" for n in range(len(row) - 1)]
            add(row, lattice.high(q), lattice.high(q) + lattice.sash, toward, "right")

    def end(q: int, beside: Exact | None, *, right: bool = False) -> tuple[Brought, Laid]:
        """The triangle at an end of a row, and the seam line between it and the row."""
        ((piece, unit),) = _triangle(pointed, q, squares, right=right)
        return piece, Laid(unit=unit, at=Vector(ZERO, ZERO), left=None, right=beside)

    above, below = lattice.highest + 1, lattice.lowest - 1
    add([end(above, None)], lattice.low(above), None, (), "open")
    for number, q in enumerate(range(lattice.highest, below, -1)):
        cross(q)
        row = _level(pointed, q)
        row = [end(q, row[0][1].left), *row, end(q, None, right=True)]
        if lattice.sash:
            inner: list[Pressed] = ["right" if n % 2 else "left" for n in range(len(row) - 3)]
            add(row, lattice.low(q), lattice.high(q), ("right", *inner, "left"), "left")
        else:
            by_turns: Pressed = "left" if number % 2 else "right"
            add(row, lattice.low(q), lattice.high(q), (by_turns,) * (len(row) - 1), "right")
    cross(below)
    add([end(below, None)], None, lattice.high(below), (), "left" if lattice.sash else "right")
    action = laid_out(tuple(courses), lattice.frame(bench.settings.seam, pointed.outside), pieces)
    return replace(
        action,
        rows=tuple(tuple(turned(unit, SEEN) for unit in row) for row in action.rows),
        row_units=tuple(turned(unit, SEEN) for unit in action.row_units),
        result=turned(action.result, SEEN),
        along=Vector.at(SEEN),
        trimmed=pointed.outside + bench.settings.seam,
    )
