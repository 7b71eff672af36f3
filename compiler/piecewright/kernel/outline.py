"""The outline of cloth from its cells alone, finished outline included.

Where work has been opened, folded or cut so that its edges are no longer those of one join, the raw
outline is the boundary of what is seen, and every raw edge is taken to have its allowance inside.
"""

from __future__ import annotations

from collections.abc import Iterable
from itertools import pairwise

from piecewright.exact import Exact, Vector
from piecewright.kernel.errors import SewingError
from piecewright.kernel.polygon import meet
from piecewright.kernel.unit import Corner, Patch, Polygon

Outline = tuple[tuple[Corner, ...], tuple[Vector, ...]]


def outlined(patches: tuple[Patch, ...], directions: Iterable[Vector], allowance: Exact) -> Outline:
    """Corners and directions of the cloth that the patches cover. `directions`: unit vectors among which, either
    way round, those of all edges are found.

    SewingError: `in-pieces` (count) when the cloth does not hang together or has a hole, `cloth-double` when cells
    overlap, `too-small` when the seams leave nothing.
    """
    loops = boundaries([cell for patch in patches for cell in patch.cells], tuple(directions))
    if len(loops) != 1:
        raise SewingError("in-pieces", count=len(loops))
    return _with_seam_lines(loops[0], allowance)


_Edge = tuple[Vector, Vector]  # where it starts, and its direction


def boundaries(cells: list[Polygon], directions: tuple[Vector, ...]) -> list[list[_Edge]]:
    """The closed boundaries of convex cells that do not overlap, the cloth on their left.

    Sides that lie against each other cancel along their common stretch, so cells need not meet corner to corner.
    """
    lines: dict[tuple[Vector, Exact], list[tuple[Exact, Exact, int]]] = {}
    for cell in cells:
        for i, p in enumerate(cell):
            q = cell[(i + 1) % len(cell)]
            along, sign = _direction(p, q, directions)
            low, high = p.dot(along), q.dot(along)
            stretch = (low, high, 1) if sign > 0 else (high, low, -1)
            lines.setdefault((along, along.cross(p)), []).append(stretch)
    following: dict[Vector, list[_Edge]] = {}
    for (along, offset), stretches in lines.items():
        origin = along.left() * offset
        for low, high, sign in _net(stretches):
            start, end = origin + along * low, origin + along * high
            edge = (start, along) if sign > 0 else (end, -along)
            following.setdefault(edge[0], []).append((end if sign > 0 else start, edge[1]))
    return _loops(following)


def _direction(p: Vector, q: Vector, directions: tuple[Vector, ...]) -> tuple[Vector, int]:
    """The direction of a side, pointing east or straight north, and whether the side runs along it."""
    step = q - p
    for known in directions:
        if not step.cross_sign(known):
            along = known if known.x > 0 or (not known.x and known.y > 0) else -known
            return along, step.dot_sign(along)
    along = step.unit()
    if along.x < 0 or (not along.x and along.y < 0):
        along = -along
    return along, step.dot_sign(along)


def _net(stretches: list[tuple[Exact, Exact, int]]) -> list[tuple[Exact, Exact, int]]:
    """What is left of stretches of one line when opposite ones cancel."""
    marks = sorted({end for low, high, _ in stretches for end in (low, high)})
    left: list[tuple[Exact, Exact, int]] = []
    for low, high in pairwise(marks):
        net = sum(sign for a, b, sign in stretches if a <= low and b >= high)
        if abs(net) > 1:
            raise SewingError("cloth-double")
        if net:
            if left and left[-1][1] == low and left[-1][2] == net:
                left[-1] = (left[-1][0], high, net)
            else:
                left.append((low, high, net))
    return left


def _loops(following: dict[Vector, list[_Edge]]) -> list[list[_Edge]]:
    loops: list[list[_Edge]] = []
    while following:
        start = next(iter(following))
        loop: list[_Edge] = []
        here = start
        while True:
            choices = following[here]
            if len(choices) > 1 and loop:
                # two parts of the cloth touch at a point: the sharpest turn to the right keeps to this one
                came = loop[-1][1]
                choices.sort(key=lambda edge: _turn(came, edge[1]))
            end, along = choices.pop(0)
            if not choices:
                del following[here]
            loop.append((here, along))
            here = end
            if here == start:
                break
        loops.append(_straightened(loop))
    return loops


def _turn(came: Vector, along: Vector) -> tuple[int, float]:
    """Orders directions by how far they turn left of the one before, sharpest right turn first."""
    turned = along.turned(came.conjugate())
    x, y = turned.floats
    return (0, x) if y < 0 else (1, -x)


def _straightened(loop: list[_Edge]) -> list[_Edge]:
    return [edge for i, edge in enumerate(loop) if edge[1] != loop[i - 1][1]]


def _with_seam_lines(loop: list[_Edge], allowance: Exact) -> Outline:
    """Corners where the seam lines of neighbouring edges meet. A convex edge that its neighbours' seam lines pass
    by drops out of the finished outline; its raw corners stay in the corner there."""
    edges = list(loop)
    raw: list[tuple[Vector, ...]] = [(start,) for start, _ in edges]
    while True:
        count = len(edges)
        if count < 3:
            raise SewingError("too-small", side="left")
        finished = [_seam_corner(edges[i - 1], edges[i], allowance) for i in range(count)]
        lost = next(
            (
                i
                for i in range(count)
                if (finished[(i + 1) % count] - finished[i]).dot_sign(edges[i][1]) <= 0
            ),
            None,
        )
        if lost is None:
            break
        after = (lost + 1) % count
        if edges[lost - 1][1].cross_sign(edges[after][1]) <= 0:
            raise SewingError("too-small", side="left")
        raw[after] = raw[lost] + raw[after]
        del edges[lost], raw[lost]
    return (
        tuple(Corner(finished=f, raw=path) for f, path in zip(finished, raw, strict=True)),
        tuple(along for _, along in edges),
    )


def _seam_corner(before: _Edge, after: _Edge, allowance: Exact) -> Vector:
    if not before[1].cross(after[1]):
        raise SewingError("too-small", side="left")
    return meet(
        before[0] + before[1].left() * allowance,
        before[1],
        after[0] + after[1].left() * allowance,
        after[1],
    )
