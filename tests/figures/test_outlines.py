"""Cells of one cloth become the outline that is seen."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st
from piecewright.exact import Exact, Vector
from piecewright.kernel.polygon import ZERO, area
from piecewright.kernel.unit import Polygon
from piecewright.plan.outlines import outlines


def square(x: int, y: int, size: int = 1) -> Polygon:
    return Vector(x, y), Vector(x + size, y), Vector(x + size, y + size), Vector(x, y + size)


def total(rings: tuple[Polygon, ...]) -> Exact:
    return sum((area(ring) for ring in rings), ZERO)


def test_one_cell_is_its_own_outline() -> None:
    cell = square(0, 0)
    assert outlines((cell,)) == (cell,)


def test_a_side_shared_in_part_is_no_line() -> None:
    (ring,) = outlines((square(0, 0, 2), square(2, 0), square(2, 1)))
    assert set(ring) == {Vector(0, 0), Vector(3, 0), Vector(3, 2), Vector(0, 2)}


def test_cells_that_touch_in_a_corner_stay_apart() -> None:
    rings = outlines((square(0, 0), square(1, 1)))
    assert sorted(len(ring) for ring in rings) == [4, 4]
    assert all(area(ring) == 1 for ring in rings)


def test_a_hole_runs_the_other_way() -> None:
    cells = tuple(square(x, y) for x in range(3) for y in range(3) if (x, y) != (1, 1))
    rings = outlines(cells)
    assert sorted(area(ring) for ring in rings) == [-1, 9]


@given(st.sets(st.tuples(st.integers(0, 4), st.integers(0, 4)), min_size=1))
def test_the_area_is_kept(places: set[tuple[int, int]]) -> None:
    cells = tuple(square(x, y) for x, y in sorted(places))
    rings = outlines(cells)
    assert total(rings) == len(cells)
    corners = {corner for cell in cells for corner in cell}
    assert all(corner in corners for ring in rings for corner in ring)
