"""Methods that sew first and cut afterwards, against what the same units measure when sewn from cut pieces."""

from __future__ import annotations

import pytest
from kernel.sequences import SEAM, Order, carried_out, start
from piecewright.exact import Exact, Vector
from piecewright.kernel.congruence import alike
from piecewright.kernel.errors import SewingError
from piecewright.kernel.layers import (
    Layers,
    Placed,
    Stitch,
    alike_layers,
    cut_layers,
    opened,
    placed_on,
    stitched,
    turned_over,
)
from piecewright.kernel.measure import finished_size, in_balance, outline_area
from piecewright.kernel.moves import moved, turned
from piecewright.kernel.outline import outlined
from piecewright.kernel.pieces import rectangle
from piecewright.kernel.places import SIDES, edge, fabric_at, line, point
from piecewright.kernel.points import points
from piecewright.kernel.trim import PointFrom, SeamOnDiagonal, trim
from piecewright.kernel.unit import Unit

ROOT2 = Exact.root(2)


def square(size: Exact, fabric: str) -> Unit:
    return rectangle(size, size, fabric=fabric, allowance=SEAM, cut=fabric)


def through(unit: Unit, name: str) -> Stitch:
    start, end = line(unit, name)
    return start, (end - start).unit()


def between(unit: Unit, first: str, last: str) -> Stitch:
    start, end = point(unit, first), point(unit, last)
    return start, (end - start).unit()


def beside(unit: Unit, name: str) -> tuple[Stitch, Stitch]:
    start, along = through(unit, name)
    across = along.left() * SEAM
    return (start + across, along), (start - across, along)


def on_edge(unit: Unit, name: str) -> Stitch:
    number = edge(unit, name)
    return unit.corners[number].finished, unit.directions[number]


def pair(size: Exact) -> Layers:
    return placed_on(square(size, "light"), (Placed(piece=square(size, "dark"), corner=None),))


def test_two_at_a_time_leave_the_square_less_root_two_seams():
    """The row "half-square triangle, square c cut and sewn two at a time": c - √2·s (derived)."""
    size = Exact(31, 8)
    work = stitched(pair(size), beside(square(size, "light"), "diagonal"))
    halves = [opened(half) for half in cut_layers(work, *through(work.base, "diagonal"))]
    for unit in halves:
        assert in_balance(unit)
        assert outline_area(unit) == (size - ROOT2 * SEAM) * (size - ROOT2 * SEAM)
    assert alike(*halves) is not None
    low = min(halves, key=lambda unit: float(point(unit, "bottom-left").x))
    assert fabric_at(low, "bottom-left") == "light"
    assert fabric_at(low, "top-right") == "dark"


def test_four_at_a_time_have_bias_edges():
    """Sewn round the outside and cut twice: (c - 2s)/√2 unfinished (derived)."""
    size = ROOT2 * 3 + Exact(5, 4)
    work = stitched(pair(size), tuple(on_edge(square(size, "light"), side) for side in SIDES))
    quarters = [
        opened(quarter)
        for half in cut_layers(work, *through(work.base, "diagonal"))
        for quarter in cut_layers(half, *through(work.base, "rising-diagonal"))
    ]
    assert len(quarters) == 4
    side = (size - SEAM * 2) / ROOT2
    for unit in quarters:
        assert in_balance(unit)
        assert outline_area(unit) == side * side
        assert alike(quarters[0], unit) is not None


def test_eight_at_a_time():
    """Parts stay in layers until one seam is left in each."""
    size = Exact(31, 4)
    work = stitched(
        pair(size), (*beside(square(size, "light"), "diagonal"), *beside(square(size, "light"), "rising-diagonal"))
    )
    halves = cut_layers(work, *between(work.base, "top-middle", "bottom-middle"))
    assert alike_layers(*halves)
    with pytest.raises(SewingError, match="still-layered"):
        opened(halves[0])
    quarters = [
        quarter for half in halves for quarter in cut_layers(half, *between(half.base, "left-middle", "right-middle"))
    ]
    assert all(alike_layers(quarters[0], quarter) for quarter in quarters)
    units = []
    for quarter in quarters:
        falls = quarter.stitches[0][1].x.sign() * quarter.stitches[0][1].y.sign() < 0
        slope = "diagonal" if falls else "rising-diagonal"
        units.extend(opened(half) for half in cut_layers(quarter, *through(quarter.base, slope)))
    assert len(units) == 8
    for unit in units:
        assert in_balance(unit)
        assert alike(units[0], unit) is not None
        assert outline_area(unit) == (size / 2 - ROOT2 * SEAM) * (size / 2 - ROOT2 * SEAM)


def goose_by_four(size: Exact) -> list[Unit]:
    """Four geese without waste, finished `2·size` by `size`, before they are trimmed."""
    body = square(size * 2 + Exact(5, 4), "bird")
    wing = square(size + Exact(7, 8), "sky")
    work = stitched(
        placed_on(body, (Placed(piece=wing, corner="top-left"), Placed(piece=wing, corner="bottom-right"))),
        beside(body, "diagonal"),
    )
    hearts = [opened(half) for half in cut_layers(work, *through(body, "diagonal"))]
    assert alike(*hearts) is not None
    heart = min(hearts, key=lambda unit: float(point(unit, "bottom-left").x))
    assert len(heart.corners) == 6
    assert in_balance(heart)
    work = stitched(placed_on(heart, (Placed(piece=wing, corner="bottom-left"),)), beside(heart, "rising-diagonal"))
    return [opened(half) for half in cut_layers(work, *through(heart, "rising-diagonal"))]


@pytest.mark.parametrize("size", [Exact(1), Exact(3, 2), Exact(2), Exact(4)])
def test_geese_without_waste(size):
    geese = goose_by_four(size)
    assert alike(*geese) is not None
    for goose in geese:
        assert in_balance(goose)
    upright = next(unit for unit in geese if finished_size(unit)[0] > finished_size(unit)[1])
    trimmed = trim(
        upright, size * 2 + SEAM * 2, size + SEAM * 2, (PointFrom(distance=SEAM, side="top"),)
    ).unit
    assert in_balance(trimmed)
    assert fabric_at(trimmed, "bottom-middle") == "bird"
    assert [tip.beyond for tip in points(trimmed)] == [0]


def test_hourglass_from_two_halves():
    size = Exact(21, 4)
    work = stitched(pair(size), beside(square(size, "light"), "diagonal"))
    half = next(
        unit
        for unit in map(opened, cut_layers(work, *through(work.base, "diagonal")))
        if fabric_at(unit, "bottom-left") == "light"
    )
    work = stitched(
        placed_on(half, (Placed(piece=turned(half, 180), corner=None),)), beside(half, "rising-diagonal")
    )
    glasses = [opened(part) for part in cut_layers(work, *through(half, "rising-diagonal"))]
    assert alike(*glasses) is not None
    trimmed = trim(glasses[0], Exact(9, 2), Exact(9, 2), (SeamOnDiagonal(rising=False),)).unit
    assert in_balance(trimmed)
    assert fabric_at(trimmed, "top") == fabric_at(trimmed, "bottom") != fabric_at(trimmed, "left")


def test_layers_turned_over_twice_are_the_same():
    size = Exact(4)
    work = stitched(pair(size), beside(square(size, "light"), "diagonal"))
    assert turned_over(turned_over(work)) == work


@pytest.mark.parametrize(
    ("pieces", "lines", "kind"),
    [
        ((("dark", Exact(3), None),), "diagonal", "not-even"),
        ((("dark", Exact(1), "top-right"),), "diagonal", "stitch-misses"),
    ],
)
def test_what_cannot_be_stitched(pieces, lines, kind):
    base = square(Exact(4), "light")
    placed = tuple(Placed(piece=square(size, fabric), corner=corner) for fabric, size, corner in pieces)
    with pytest.raises(SewingError, match=kind):
        stitched(placed_on(base, placed), (through(base, lines),))


def test_the_outline_from_cells_is_the_outline_from_sewing():
    """Of a unit sewn edge to edge the boundary of its cells, moved in, is its finished outline."""
    order = Order(verb="border", side="left", size=Exact(2), fabric="glow")
    unit = start(order)
    for side in SIDES:
        (unit,) = carried_out(unit, Order(verb="border", side=side, size=Exact(5, 4), fabric=side))
    corners, directions = outlined(unit.patches, unit.directions, unit.allowance)
    assert {corner.finished for corner in corners} == {corner.finished for corner in unit.corners}
    assert set(directions) == set(unit.directions)


def test_cloth_that_does_not_hang_together_has_no_outline():
    one = square(Exact(2), "light")
    other = moved(square(Exact(2), "dark"), Vector(5, 0))
    with pytest.raises(SewingError, match="in-pieces"):
        outlined(one.patches + other.patches, one.directions, SEAM)
