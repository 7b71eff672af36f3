"""Tables on point: what is set out by `lay` and widened by `sash`, and where all of it lies."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from piecewright.dataclass import dataclass
from piecewright.exact import Exact, Vector
from piecewright.kernel.action import Lay
from piecewright.kernel.measure import finished_bounds, finished_size
from piecewright.kernel.moves import moved, turned
from piecewright.kernel.on_point import ROOT_2, SEEN, Lattice, filler, is_corner, outer_part
from piecewright.kernel.polygon import ZERO
from piecewright.kernel.setting import Laid
from piecewright.kernel.unit import Unit
from piecewright.verbs.bands import Band
from piecewright.verbs.cloth import cut_from_cloth, pooled, supply
from piecewright.verbs.registry import Said
from piecewright.verbs.setting import Spotted, is_level, refuse_pressing
from piecewright.verbs.words import TARGETS
from piecewright.verbs.work import Bench, Brought, Done, Refused, Work

Cell = tuple[Brought, str]  # a piece and the slot it is written in
END = " end strip"  # behind its fabric


@dataclass(frozen=True, slots=True, kw_only=True)
class Sashes:
    """What lies round blocks on point: a strip standing beside a block and one lying below it; a post where they
    cross and an outer one, lying left to right; or none, then a strip lies along the whole row, by the number of blocks
    it passes. `reach`: how much longer outer posts, or such strips at either end, are than the sash is wide, in inches;
    the far part is cut off by the edge."""

    upright: Brought
    lying: Brought | None
    post: Brought | None
    outer: Brought | None
    rows: Mapping[int, Brought]
    reach: Exact


@dataclass(frozen=True, slots=True, kw_only=True)
class Pointed:
    """A table on point, set out and not sewn. `cells`: its rows as they are seen, from the top. `filled`: the fabrics
    of the triangles named so far, by `sides` and `corners`; `given`: the squares that they are cut from, in inches,
    where the pattern says so; `floats`: how far the edge is to lie outside the outermost points, in inches, None where
    nothing floats."""

    lattice: Lattice
    cells: tuple[tuple[Brought, ...], ...]
    sashes: Sashes | None = None
    filled: tuple[tuple[str, str], ...] = ()
    given: tuple[tuple[str, Exact], ...] = ()
    floats: Exact | None = None

    @property
    def lacking(self) -> tuple[str, ...]:
        """Where triangles are not named yet; one block alone has corners only."""
        named = dict(self.filled)
        one = self.lattice.columns == self.lattice.rows == 1
        return tuple(target for target in (("corners",) if one else TARGETS) if target not in named)

    @property
    def outside(self) -> Exact:
        """How far the finished edge lies outside the points of the blocks or, with sashes, the middles of the outer
        posts, in inches. Sashes that float show whole posts, whose outer points lie half a post's diagonal out."""
        if self.floats is None:
            return ZERO
        return self.floats + self.lattice.sash * ROOT_2 / 2


_NONE: Mapping[str, Brought] = {}
Placed = tuple[Brought, Unit]  # a piece and the unit where it lies
Pieces = list[tuple[Brought, Laid]]


def set_out(bench: Bench, said: Said, written: list[list[Cell]]) -> Done:
    """The blocks as they will be seen, turned to stand on their points."""
    refuse_pressing(said, "fill")
    columns, rows = said.count("COLUMNS"), said.count("ROWS")
    if not bench.quilt:
        raise Refused("point-in-block")
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
        tuple(written[r % len(written)][c % len(written[r % len(written)])][0] for c in range(wide))
        for r, wide in enumerate(lattice.seen_rows)
    )
    pointed = Pointed(lattice=lattice, cells=cells)
    action = seen(pointed)
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
    more = ZERO if bench.floats else outer_part(bench.settings.seam)
    rows: dict[int, Brought] = {}
    if posts is not None:
        lying, flat = band.lying(lattice.block + raw, "PIECE")
        cloth = posts.word("FABRIC")
        post = replace(cut_from_cloth(bench, "square", band.depth, band.depth, cloth), name=f"{cloth} post")
        supplies.append(replace(flat, count=flat.count * sum(len(level) for level in levels)))
        outer = post
        if more:
            outer = cut_from_cloth(bench, "rectangle", band.depth + more, band.depth, cloth)
            outer = replace(outer, name=f"{cloth} longer post")
        inner = sum(len(level) - 1 for level in levels)
        if inner:
            supplies.append(supply(post, inner))
        supplies.append(supply(outer, 2 * len(levels)))
    else:
        for level in levels:
            count = len(level)
            row, taken = band.lying(lattice.pitch * count + lattice.sash + raw + more * 2, "PIECE")
            rows.setdefault(count, row)
            supplies.append(taken)
    sashes = Sashes(upright=upright, lying=lying, post=post, outer=outer, rows=rows, reach=more)
    pointed = replace(pointed, lattice=lattice, sashes=sashes)
    action = seen(pointed)
    return Done(work=Work(unit=action.result, pointed=pointed), actions=(action,), supplies=pooled(supplies))


# ── where all lies ──────────────────────────────────────────────────────────────────────────────────


def level(pointed: Pointed, q: int) -> Pieces:
    """A row of blocks and the strips beside them, lying level."""
    lattice, sashes = pointed.lattice, pointed.sashes
    row: Pieces = []
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


def crossing(pointed: Pointed, q: int, end: Brought | None = None) -> Pieces:
    """The row of sashes above row `q`; with a strip at either end, where these reach from the sashes to the edge."""
    lattice, sashes = pointed.lattice, pointed.sashes
    assert sashes is not None
    span, low = lattice.between(q), lattice.high(q)
    start = lattice.left(span.start) - lattice.sash - sashes.reach
    if sashes.post is None or sashes.lying is None or sashes.outer is None:
        row = [_at(sashes.rows[len(span)], start, low)]
    else:
        row = [_at(sashes.outer, start, low)]
        for p in span:
            row.append(_at(sashes.lying, lattice.left(p), low))
            row.append(_at(sashes.outer if p == span[-1] else sashes.post, lattice.left(p) + lattice.block, low))
    if end is None:
        return row
    wide, _ = finished_size(end.unit)
    return [_at(end, start - wide, low), *row, _at(end, lattice.left(span[-1]) + lattice.block + lattice.sash, low)]


def _at(piece: Brought, left: Exact, low: Exact) -> tuple[Brought, Laid]:
    """A piece with its lower left finished corner at a place."""
    x, y, across, _ = finished_bounds(piece.unit)
    return piece, Laid(unit=piece.unit, at=Vector(left - x, low - y), left=left, right=left + across - x)


def seen(pointed: Pointed, squares: Mapping[str, Brought] = _NONE, end: Brought | None = None) -> Lay:
    """The action of a table that is set out: rows as they are seen, or as they will be sewn where there are sashes or
    triangles, which are cut from `squares`, by sides or corners, and strips at the `end` of the sashes."""
    lattice = pointed.lattice
    spots = Spotted()
    rows: list[list[Placed]] = []

    def placed(row: Pieces) -> list[Placed]:
        return [(piece, moved(spots.of(laid.unit), laid.at)) for piece, laid in row]

    if pointed.sashes is None and not squares:
        rows = [[] for _ in pointed.cells]
        for q in range(lattice.highest, lattice.lowest - 1, -1):
            for one, p in zip(placed(level(pointed, q)), lattice.span(q), strict=True):
                rows[lattice.seen_at(p, q)[0]].append(one)
        for row in rows:
            row.sort(key=lambda one: _middle(one[1]))
    else:
        for q in range(lattice.highest + 1, lattice.lowest - 2, -1):
            if pointed.sashes is not None and q <= lattice.highest:
                rows.append(placed(crossing(pointed, q, end)))
            left = triangle(pointed, q, squares, right=False)
            if lattice.lowest <= q <= lattice.highest:
                rows.append([*left, *placed(level(pointed, q)), *triangle(pointed, q, squares, right=True)])
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


def triangle(pointed: Pointed, q: int, squares: Mapping[str, Brought], *, right: bool) -> list[Placed]:
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
