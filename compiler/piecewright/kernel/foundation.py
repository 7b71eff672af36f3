"""Sewing onto a paper foundation: piece after piece along lines on the paper, each opened over what lies on its side.

The first piece covers the paper; every later one covers all that lies left of its line, so that earlier cloth there
goes under. What is seen of a piece is therefore its own half plane less those of the pieces after it: one convex cell.

A piece is cut roughly, as a rectangle with one side along its seam. How large it must be, only the pieces after it
tell; `pieced` takes those so far for all there are.
"""

from __future__ import annotations

from dataclasses import replace

from piecewright.dataclass import dataclass
from piecewright.exact import Exact, Vector
from piecewright.kernel.errors import SewingError
from piecewright.kernel.pieces import EAST, rectangle
from piecewright.kernel.polygon import HALF, ZERO, area, clip, inset, side
from piecewright.kernel.unit import Offcut, Patch, Polygon, Seam, Unit

Line = tuple[Vector, Vector]
ROUGH = "rough piece"
"""The shape, in the cut list, of a piece that is trimmed only when it is sewn."""


@dataclass(frozen=True, slots=True, kw_only=True)
class OnPaper:
    """One piece of cloth on the paper. `line`: its seam from edge to edge of the paper, the piece left of it; None for
    the first. `along` is the unit vector of the line, and of the lengthwise grain. `seen`: what shows of it, to the cut
    outline; `finished`: what shows within the outer seam lines; `kept`: what trimming leaves of it, with the allowance
    under its neighbours. `cut` names the cut piece."""

    fabric: str
    cut: str
    line: Line | None
    along: Vector
    seen: Polygon
    finished: Polygon
    kept: Polygon


@dataclass(frozen=True, slots=True, kw_only=True)
class Foundation:
    """A paper of `width` by `height`, cut size, its lower left corner at the origin, and the pieces on it in sewing
    order. Lengths are inches. `margin` is what a rough piece has on every side beyond its allowance; `mark` the
    ruler's, to which its sizes are rounded up."""

    width: Exact
    height: Exact
    allowance: Exact
    margin: Exact
    mark: Exact
    pieces: tuple[OnPaper, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Rough:
    """The rectangle that a piece is cut to: `along` its seam and `across` it, inches. `outline`: where it lies when it
    is opened, counter-clockwise from the end of the raw edge that is sewn."""

    along: Exact
    across: Exact
    outline: Polygon


def started(
    width: Exact, height: Exact, *, fabric: str, allowance: Exact, margin: Exact, mark: Exact, cut: str = ""
) -> Foundation:
    """The paper with its first piece. SewingError as for `rectangle`."""
    paper = rectangle(width, height, fabric=fabric, allowance=allowance).patches[0].cells[0]
    first = OnPaper(
        fabric=fabric,
        cut=cut,
        line=None,
        along=EAST,
        seen=paper,
        finished=inset(paper, allowance),
        kept=paper,
    )
    return Foundation(width=width, height=height, allowance=allowance, margin=margin, mark=mark, pieces=(first,))


def added(foundation: Foundation, fabric: str, start: Vector, end: Vector, *, cut: str = "") -> Foundation:
    """The foundation with one piece more, left of the line through two points.

    SewingError: `line-off-paper` when the line does not divide the finished paper, `piece-covered` (number, fabric)
    when nothing of an earlier piece would be seen within the outer seams. OutsideNumbers for a line whose unit vector
    cannot be written.
    """
    s = foundation.allowance
    along = (end - start).unit()
    inward = along.left() * s
    paper = _paper(foundation)
    new = OnPaper(
        fabric=fabric,
        cut=cut,
        line=_ends(paper, start, along),
        along=along,
        seen=clip(paper, start, along)[0],
        finished=clip(inset(paper, s), start, along)[0],
        kept=clip(paper, start - inward, along)[0],
    )
    if not new.finished or not clip(inset(paper, s), start, along)[1]:
        raise SewingError("line-off-paper")
    pieces: list[OnPaper] = []
    for number, piece in enumerate(foundation.pieces, 1):
        finished = clip(piece.finished, start, along)[1]
        if not finished:
            raise SewingError("piece-covered", number=number, fabric=piece.fabric)
        seen, kept = clip(piece.seen, start, along)[1], clip(piece.kept, start + inward, along)[1]
        pieces.append(replace(piece, seen=seen, finished=finished, kept=kept))
    return replace(foundation, pieces=(*pieces, new))


def rough(foundation: Foundation, number: int) -> Rough:
    """The smallest rectangle along the seam of a piece that covers its finished area with the seam allowance all round,
    and all that it shows to the raw edge; with the margin on every side, and rounded up to the mark. What rounding
    adds lies in halves along the seam, and across it on the far side."""
    piece = foundation.pieces[number]
    s, more = foundation.allowance, foundation.margin
    up = piece.along.left()
    low = Vector(
        min(_least(piece.seen, piece.along), _least(piece.finished, piece.along) - s) - more,
        min(_least(piece.seen, up), _least(piece.finished, up) - s) - more,
    )
    high = Vector(
        more - min(_least(piece.seen, -piece.along), _least(piece.finished, -piece.along) - s),
        more - min(_least(piece.seen, -up), _least(piece.finished, -up) - s),
    )
    across, wide = (_up_to(size, foundation.mark) for size in (high.y - low.y, high.x - low.x))
    left = low.x - (wide - (high.x - low.x)) * HALF
    corners = ((left, low.y), (left + wide, low.y), (left + wide, low.y + across), (left, low.y + across))
    return Rough(along=wide, across=across, outline=tuple(piece.along * x + up * y for x, y in corners))


def pieced(foundation: Foundation) -> Unit:
    """What lies on the paper, trimmed to it, as a unit. Its cloth is that of the rough pieces; what is under seams and
    what is trimmed off is in the ledger."""
    unit = rectangle(foundation.width, foundation.height, fabric="", allowance=foundation.allowance)
    ledger: list[Offcut] = []
    cloth = ZERO
    for number, piece in enumerate(foundation.pieces):
        cut = rough(foundation, number)
        whole, seen = cut.along * cut.across, area(piece.seen)
        under = area(within(piece.kept, cut.outline)) - seen
        cloth = cloth + whole
        if under:
            ledger.append(Offcut(kind="allowance", fabric=piece.fabric, area=under))
        ledger.append(Offcut(kind="trim", fabric=piece.fabric, area=whole - seen - under))
    return replace(
        unit,
        patches=tuple(
            Patch(fabric=piece.fabric, cells=(piece.seen,), grain=piece.along, cut=piece.cut)
            for piece in foundation.pieces
        ),
        seams=tuple(
            Seam(start=ends[0], end=ends[1], direction=foundation.pieces[number].along, pressed="left")
            for number in range(1, len(foundation.pieces))
            for ends in (sewn(foundation, number),)
        ),
        ledger=tuple(ledger),
        cloth=cloth,
    )


def sewn(foundation: Foundation, number: int) -> Line:
    """How far the seam of a piece is seen: the side of what shows of it that lies on its line."""
    piece = foundation.pieces[number]
    assert piece.line is not None
    return _on_line(piece.seen, piece.line[0], piece.along)


def beside(foundation: Foundation, number: int) -> tuple[int, ...]:
    """The earlier pieces that a piece meets along its seam, by their places from 0."""
    piece = foundation.pieces[number]
    start, end = sewn(foundation, number)
    low, high = start.dot(piece.along), end.dot(piece.along)
    found: list[int] = []
    for at, other in enumerate(foundation.pieces[:number]):
        ends = [p.dot(piece.along) for p in other.seen if not side(start, piece.along, p)]
        if len(ends) > 1 and min(max(ends), high) > max(min(ends), low):
            found.append(at)
    return tuple(found)


def opened(foundation: Foundation, number: int) -> tuple[Polygon, ...]:
    """The cloth as it lies on the paper when a piece has just been opened, untrimmed at the outer edges: what shows of
    each piece so far."""
    shown: list[Polygon] = []
    for at, piece in enumerate(foundation.pieces[: number + 1]):
        cloth = rough(foundation, at).outline
        if piece.line is not None:
            cloth = clip(cloth, piece.line[0], piece.along)[0]
        for later in foundation.pieces[at + 1 : number + 1]:
            assert later.line is not None
            cloth = clip(cloth, later.line[0], later.along)[1] if cloth else ()
        shown.append(cloth)
    return tuple(shown)


def in_glass(foundation: Foundation) -> Foundation:
    """The foundation as in a mirror, left for right, on the same rectangle; so it is printed."""

    def flip(p: Vector) -> Vector:
        return Vector(foundation.width - p.x, p.y)

    def ring(polygon: Polygon) -> Polygon:
        return tuple(flip(p) for p in reversed(polygon))

    return replace(
        foundation,
        pieces=tuple(
            replace(
                piece,
                line=None if piece.line is None else (flip(piece.line[1]), flip(piece.line[0])),
                along=piece.along.conjugate(),
                seen=ring(piece.seen),
                finished=ring(piece.finished),
                kept=ring(piece.kept),
            )
            for piece in foundation.pieces
        ),
    )


def within(polygon: Polygon, hole: Polygon) -> Polygon:
    """What of a convex polygon lies in another; `()` when nothing does."""
    for i, corner in enumerate(hole):
        polygon = clip(polygon, corner, hole[(i + 1) % len(hole)] - corner)[0] if polygon else ()
    return polygon


def _paper(foundation: Foundation) -> Polygon:
    w, h = foundation.width, foundation.height
    return (Vector(ZERO, ZERO), Vector(w, ZERO), Vector(w, h), Vector(ZERO, h))


def _ends(paper: Polygon, start: Vector, along: Vector) -> Line:
    """Where a line enters the paper and where it leaves it."""
    left, right = clip(paper, start, along)
    if not left or not right:
        raise SewingError("line-off-paper")
    return _on_line(left, start, along)


def _on_line(polygon: Polygon, start: Vector, along: Vector) -> Line:
    ends = [p for p in polygon if not side(start, along, p)]
    ends.sort(key=lambda p: p.dot(along))
    return ends[0], ends[-1]


def _least(polygon: Polygon, direction: Vector) -> Exact:
    return min(p.dot(direction) for p in polygon)


def _up_to(size: Exact, mark: Exact) -> Exact:
    return mark * (size / mark).ceil()
