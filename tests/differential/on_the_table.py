"""Layers and corners that are turned over, and paper foundations: each said by its lines, worked out by either
reference.

A piece placed face down is its mirror image in the line that is stitched first, raw edges even with the work. What is
opened shows the work on its side of the seam, the mirror image in the seam of what of the upper pieces lies there, and
of the work's own allowance only what no flap and no allowance of a flap covers. A piece on paper shows its own side of
its line, less those of the later ones.
"""

from __future__ import annotations

from differential.back import Back, Cloth, Ends, backward
from piecewright.exact import Exact, Vector
from piecewright.kernel.action import Add, Flip, Open, Place, Stitch, Subcut, Turn
from piecewright.kernel.layers import Layers
from piecewright.kernel.measure import raw_outline
from piecewright.kernel.unit import Unit

CLOSE = 1e-6


def stitched(action: Stitch, waiting: list[Place], back: Back) -> None:
    """The pieces that wait lie face down now, and each seam runs through all that lies on the work."""
    base = back.cloth(action.result.base)
    new = [(piece, corner) for place in waiting for piece, corner in _each(place)]
    uppers = action.result.uppers[len(action.result.uppers) - len(new) :]
    for (piece, corner), upper in zip(new, uppers, strict=True):
        turned = back.reflected(back.cloth(piece), action.lines[0])
        back.same(back.evened(turned, base, corner or "bottom-left"), back.cloth(upper))
        if not corner:
            assert set(raw_outline(upper)) == set(raw_outline(action.result.base))
    facing = [unit for place in waiting for unit in place.facing]
    if facing:
        assert facing == list(uppers)
    over = [run for upper in action.result.uppers for run in [back.cloth(upper)]]
    for line in action.lines:
        assert any(_is_whole(run) for run in _joined([_reach(back.runs(cloth, line)) for cloth in over]))
        assert any(_beside(line, drawn, action.beside, action.result.base.allowance) for drawn in action.drawn) or (
            not action.beside and any(_on(line, p, along) for p, along in _edges(action.result.base))
        )


def _each(place: Place) -> list[tuple[Unit, str]]:
    return list(zip(place.pieces, place.corners or ("",), strict=True))


def _edges(unit: Unit) -> list[tuple[Vector, Vector]]:
    return [(corner.finished, along) for corner, along in zip(unit.corners, unit.directions, strict=True)]


def _on(line: Ends, p: Vector, along: Vector) -> bool:
    return not along.cross(line[0] - p) and not along.cross(line[1] - p)


def _beside(line: Ends, drawn: Ends, beside: bool, s: Exact) -> bool:
    along = drawn[1] - drawn[0]
    away = [along.cross(p - drawn[0]) for p in line]
    wanted = s * s * along.squared() if beside else Exact(0)
    return away[0] == away[1] and away[0] * away[0] == wanted


def _reach(runs: list[tuple[float, float]]) -> tuple[float, float] | None:
    return (min(low for low, _ in runs), max(high for _, high in runs)) if runs else None


def _joined(runs: list[tuple[float, float] | None]) -> list[tuple[float, float]]:
    """Stretches of one line, those that meet made one."""
    found: list[tuple[float, float]] = []
    for low, high in sorted(run for run in runs if run is not None):
        if found and low <= found[-1][1] + CLOSE:
            found[-1] = found[-1][0], max(high, found[-1][1])
        else:
            found.append((low, high))
    return found


def _is_whole(run: tuple[float, float]) -> bool:
    return abs(run[0]) < CLOSE and abs(run[1] - 1) < CLOSE


def cut_through(action: Subcut, back: Back) -> None:
    """Of each part that is kept in layers, the upper pieces are cut along the same lines as the work below."""
    assert action.layers is not None
    for half in action.halves:
        assert half.base in action.parts
        wanted: Cloth = tuple(each for upper in action.layers.uppers for each in back.cloth(upper))
        for line in action.lines:
            whole = back.cloth(half.base)
            left, right = back.area(back.on_left(whole, line)), back.area(back.on_left(whole, backward(line)))
            assert min(left, right) < CLOSE
            wanted = back.on_left(wanted, line if left > right else backward(line))
        back.same(wanted, tuple(each for upper in half.uppers for each in back.cloth(upper)))


def turned(action: Turn, back: Back) -> None:
    assert action.layers is not None
    before, after = action.layers
    for one, other in zip(before.uppers, after.uppers, strict=True):
        back.check(back.turned(back.read(one), action.degrees), other)


def opened(action: Open, back: Back) -> None:
    back.same(_opened(action.layers, back), back.cloth(action.result))
    within(action.result)


def _opened(layers: Layers, back: Back) -> Cloth:
    ((start, along),) = layers.stitches
    line = start, start + along
    base = back.cloth(layers.base)
    sides = back.on_left(base, line), back.on_left(base, backward(line))
    if back.area(sides[0]) < back.area(sides[1]):  # beyond the seam there is only the allowance
        line, sides = backward(line), (sides[1], sides[0])
    flaps: Cloth = ()
    under: Cloth = ()
    for upper in layers.uppers:
        cloth = back.cloth(upper)
        flap = back.reflected(back.on_left(cloth, line), line)
        flaps = (*flaps, *back.less(flap, flaps))
        under = (*under, *back.on_left(cloth, backward(line)))
    return (*sides[0], *flaps, *back.less(sides[1], (*flaps, *under)))


def within(unit: Unit) -> None:
    """The seam lines of a unit lie one allowance inside its raw edges."""
    count = len(unit.corners)
    for n, along in enumerate(unit.directions):
        here, there = unit.corners[n], unit.corners[(n + 1) % count]
        assert not along.cross(there.finished - here.finished)
        for p, q in ((here.raw[-1], here.finished), (there.raw[0], there.finished)):
            assert (p - q).dot(along.right()) == unit.allowance


def flipped(action: Flip, back: Back) -> None:
    start, end = action.line
    s, along = action.before.allowance, end - start
    away = [along.cross(p - start) for p in action.cut]
    assert away[0] == away[1] and away[0] * away[0] == s * s * along.squared()  # cut an allowance outside the seam
    line = action.line if away[0] < 0 else backward(action.line)
    before, piece = back.cloth(action.before), back.cloth(action.piece)
    back.same(back.evened(piece, before, action.corner), piece)  # raw edges even in that corner
    assert {start, end} <= set(raw_outline(action.piece))  # sewn from corner to corner
    opened = back.reflected(back.on_left(piece, line), line)
    back.same((*back.on_left(before, line), *opened), back.cloth(action.result))
    assert action.result.corners == action.before.corners


def on_paper(action: Add, back: Back) -> None:
    """What each piece shows so far, on a paper whose lower left corner is the origin."""
    foundation = action.foundation
    width, height, s = foundation.width, foundation.height, foundation.allowance
    shown: list[Cloth] = []
    for piece in foundation.pieces[: action.number + 1]:
        own = back.piece(width, height, piece.fabric, s).cells
        if piece.line is not None:
            own = back.on_left(own, piece.line)
            shown = [back.on_left(seen, backward(piece.line)) for seen in shown]
        shown.append(own)
    result = action.result
    paper = tuple(each for seen in shown for each in seen)
    lies = back.cloth(result)
    back.same(back.evened(paper, lies, "bottom-left"), lies)
    assert len(result.corners) == 4 and result.allowance == s
    (xs, ys) = zip(*((p.x, p.y) for p in raw_outline(result)), strict=True)
    assert max(xs) - min(xs) == width and max(ys) - min(ys) == height
    within(result)
