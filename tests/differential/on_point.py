"""Tables on point worked out a second time, by what is seen of each piece.

The recorded places of the pieces are used, and proved: of each piece its finished outline is seen, of a triangle all
that lies on the inner side of its seams, and together these fill the rectangle that is cut out, without a gap or an
overlap. The rectangle is found from the blocks alone. A row by itself has its allowances above and below still on.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from differential.back import Back, Cloth, Ends, ends
from differential.on_the_table import within
from piecewright.exact import Exact, Vector
from piecewright.kernel.action import Lay
from piecewright.kernel.build import Made, Piece
from piecewright.kernel.measure import raw_outline
from piecewright.kernel.unit import Unit

HALF_ROOT_2 = Exact.root(2) / 2
SIDES = (Vector(1, 0), Vector(0, 1), Vector(-1, 0), Vector(0, -1))


def sewn(action: Lay, made: Made, back: Back) -> None:
    """Each row is what its pieces give, the whole is what the rows give, and no cloth is lost or won."""
    assert action.trimmed is not None and len(action.row_units) == len(action.rows)
    edge = _edges(action)
    low, high = edge[0][0], edge[2][0]
    s, result = action.result.allowance, action.result
    assert set(raw_outline(result)) == {p for p, _ in edge}
    inner = s, high.x - low.x - s, high.y - low.y - s
    assert {corner.finished - low for corner in result.corners} == {
        Vector(x, y) for x in (inner[0], inner[1]) for y in (inner[0], inner[2])
    }
    whole: Cloth = ()
    for row, unit in zip(action.rows, action.row_units, strict=True):
        alone: Cloth = ()
        for number, piece in enumerate(row):
            if is_triangle(piece):
                _from_a_square(piece, made)
            alone = (*alone, *_clipped(back.cloth(piece), _across(action, row, number), back))
        alone = _clipped(_clipped(alone, edge, back), _band(action, row, s), back)
        _the_same(alone, back.cloth(unit), back)
        within(unit)
        whole = (*whole, *_clipped(alone, _band(action, row, s * 0), back))
    _the_same(whole, back.cloth(result), back)
    width, height = high.x - low.x, high.y - low.y
    assert abs(back.area(whole) - float(width * height)) < 1e-8
    within(result)
    cloth = sum((piece.cloth for row in action.rows for piece in row), Exact(0))
    assert result.cloth == cloth
    assert sum((unit.cloth for unit in action.row_units), Exact(0)) == cloth


def _the_same(mine: Cloth, theirs: Cloth, back: Back) -> None:
    """The other way round too, since pieces that overlap would fill less than their area."""
    back.same(mine, theirs)
    back.same(theirs, mine)


def is_triangle(unit: Unit) -> bool:
    return len(unit.corners) == 3


def _edges(action: Lay) -> list[Ends]:
    """The raw edges, counter-clockwise from the bottom: so far outside the points of the blocks, or the middles of
    the outer posts, which lie beyond a block's points by half the diagonal of a post; where strips lie at the ends of
    the sashes, outside their outer points, half a diagonal farther out."""
    sashed = not is_triangle(action.rows[1][0])
    rows = action.rows[2::2] if sashed else action.rows[1:-1]
    blocks = [piece for row in rows for piece in (row[2:-1:2] if sashed else row[1:-1])]
    points = [corner.finished for block in blocks for corner in block.corners]
    assert action.trimmed is not None
    out = action.trimmed
    if sashed:
        strip = rows[0][1]
        sides = [(q - p).squared() for p, q in (ends(strip, n) for n in range(4))]
        floats = action.names[1][0].endswith("end strip")
        out = out + min(sides).sqrt() * HALF_ROOT_2 * (2 if floats else 1)
    left, right = min(p.x for p in points) - out, max(p.x for p in points) + out
    bottom, top = min(p.y for p in points) - out, max(p.y for p in points) + out
    corners = [Vector(left, bottom), Vector(right, bottom), Vector(right, top), Vector(left, top)]
    return list(zip(corners, corners[1:] + corners[:1], strict=True))


def _across(action: Lay, row: tuple[Unit, ...], number: int) -> Iterator[Ends]:
    """The seam lines of a piece to its neighbours in the row, the cloth on their left."""
    piece, up = row[number], action.along.left()
    for n, along in enumerate(piece.directions):
        if (along == up and number + 1 < len(row)) or (along == -up and number):
            yield ends(piece, n)


def _band(action: Lay, row: tuple[Unit, ...], beyond: Exact) -> list[Ends]:
    """The seam lines above and below a row, or lines so far outside; of a corner alone its one seam."""
    pieces = [piece for piece in row if not is_triangle(piece)] or list(row)
    found: list[Ends] = []
    for way in (action.along, -action.along):
        lines = [ends(piece, n) for piece in pieces for n, along in enumerate(piece.directions) if along == way]
        assert not any(way.cross(p - lines[0][0]) for line in lines for p in line)
        out = way.right() * beyond
        found += [(p + out, q + out) for p, q in lines[:1]]
    return found


def _clipped(cloth: Cloth, lines: Iterable[Ends], back: Back) -> Cloth:
    for line in lines:
        cloth = back.on_left(cloth, line)
    return cloth


def _from_a_square(unit: Unit, made: Made) -> None:
    assert is_filler(unit, made)
    (patch,) = unit.patches
    outer = [along for along in unit.directions if along in SIDES]
    assert outer and not any(patch.grain.dot(along) and patch.grain.cross(along) for along in outer)  # no bias edge


def is_filler(unit: Unit, made: Made) -> bool:
    """Whether a piece is a square of the definition cut once or twice from corner to corner."""
    if len(unit.patches) != 1 or len(unit.patches[0].cells) != 1 or len(unit.patches[0].cells[0]) != 3:
        return False
    (cell,) = unit.patches[0].cells
    one, other, longest = sorted((q - p).squared() for p, q in zip(cell, cell[1:] + cell[:1], strict=True))
    squares = [
        supply.source.height * supply.source.height
        for supply in made.supplies
        if isinstance(supply.source, Piece)
        and supply.source.width == supply.source.height
        and supply.source.fabric == unit.patches[0].fabric
    ]
    return one == other and one + other == longest and (one in squares or longest in squares)
