"""Rows that the sewing already answers though no sentence of the language says them yet.

Stitch and flip, a 60-degree triangle with a blunt tip, a trapezoid with one square end, and the grain of triangles.
"""

from __future__ import annotations

import pytest
from external.rows import row, rows
from kernel.sewing import (
    ROOT_2,
    ROOT_3,
    ROOT_5,
    S,
    edge_finished,
    half,
    halves,
    inches,
    join,
    oblong,
    quarter,
    sizes,
    square,
)
from piecewright.exact import Exact, Vector
from piecewright.kernel.flip import flip
from piecewright.kernel.measure import finished_size, in_balance
from piecewright.kernel.moves import moved, turned
from piecewright.kernel.pieces import polygon_piece
from piecewright.kernel.places import edge
from piecewright.kernel.points import points
from piecewright.kernel.unit import Unit


def outline(*points_at: tuple[Exact | int, Exact | int], s: Exact = S) -> Unit:
    return polygon_piece(tuple(Vector(x, y) for x, y in points_at), fabric="a", allowance=s)


# ── stitch and flip ──────────────────────────────────────────────────────────────────────────────


def flipped_goose(across: Exact, down: Exact) -> Unit:
    unit = oblong(across, down, "bird")
    corner = square(down, "sky")
    unit = flip(unit, corner, Vector(0, 0), Vector(-1, -1).unit())
    return flip(unit, moved(corner, Vector(across - down, 0)), Vector(across, 0), Vector(-1, 1).unit())


@row("FG-SF", "S57 2009; S59 2009; S60 2011")
@pytest.mark.parametrize("height", ["1", "1 1/2", "2", "3"])
def test_stitch_and_flip_goose(height: str) -> None:
    h = inches(height)
    unit = flipped_goose(2 * h + 2 * S, h + 2 * S)
    assert finished_size(unit) == (2 * h, h)
    peak = [tip for tip in points(unit) if tip.fabric == "bird"]
    assert [tip.beyond for tip in peak] == [0]  # the bird's beak meets the seam
    assert in_balance(unit)
    if height == "2":
        assert sizes(unit) == ("9/2", "5/2")


@row("FG-waste", "derived here (sympy/fractions)")
@pytest.mark.parametrize("height", ["1 1/2", "2"])
def test_what_stitch_and_flip_cuts_away(height: str) -> None:
    h = inches(height)
    unit = flipped_goose(2 * h + 2 * S, h + 2 * S)
    leg = h + 2 * S - ROOT_2 * S
    pair = leg * leg / 2
    away = [(line.fabric, line.area) for line in unit.ledger if line.kind == "flip"]
    assert away[:2] == [("bird", pair), ("sky", pair)]
    # where the second corner is sewn the first has left a little sky in the layer below
    (_, bird), (_, sliver), second = away[2:]
    assert bird + sliver == pair
    assert second == ("sky", pair)
    if height == "1 1/2":
        assert float(leg) == pytest.approx(1.646447, abs=1e-6)


@rows(
    ("finished", "base", "corner"),
    ("SIS-SF-2", "S30 table", "2", "2 1/2", "1 1/2"),
    ("SIS-SF-4", "S30 table", "4", "4 1/2", "2 1/2"),
    ("SIS-SF-8", "S30 table", "8", "8 1/2", "4 1/2"),
    ("SIS-SF-12", "S30 table", "12", "12 1/2", "6 1/2"),
)
def test_stitch_and_flip_square_in_a_square(finished: str, base: str, corner: str) -> None:
    unit = square(base)
    side, piece = inches(base), square(corner, "b")
    cut_size = inches(corner)
    for _ in range(4):
        # at the bottom left, seam from top left to bottom right of the small square; then a quarter turn
        unit = flip(unit, piece, Vector(Exact(0), cut_size), Vector(1, -1).unit())
        unit = moved(turned(unit, 90), Vector(side, Exact(0)))
    assert finished_size(unit) == (inches(finished), inches(finished))
    tips = [tip for tip in points(unit) if tip.fabric == "a"]
    assert len(tips) == 4 and {tip.beyond for tip in tips} == {Exact(0)}
    assert in_balance(unit)


# ── grain ────────────────────────────────────────────────────────────────────────────────────────


def on_grain(unit: Unit, name: str) -> bool:
    along, grain = unit.directions[edge(unit, name)], unit.patches[0].grain
    return not along.dot(grain) or not along.cross(grain)


@row("HST-grain", "S69 quilting Q&A; S80 2018")
def test_a_half_square_has_its_legs_on_the_grain() -> None:
    unit = half("4")
    assert on_grain(unit, "left") and on_grain(unit, "bottom")
    assert not on_grain(unit, "long-edge")


@row("QST-grain", "S69; S23; S22")
def test_a_quarter_square_has_its_long_edge_on_the_grain() -> None:
    unit = quarter("4")
    assert on_grain(unit, "bottom")
    assert not on_grain(unit, "left") and not on_grain(unit, "right")


# ── 60 degrees ───────────────────────────────────────────────────────────────────────────────────


@row("E60-05", "derived here (sympy/fractions)")
@pytest.mark.parametrize("height", [2, 3])
def test_a_strip_two_seams_wider_gives_the_same_triangle_with_a_blunt_tip(height: int) -> None:
    high = height + 2 * S
    base = (height + 3 * S) * 2 / ROOT_3
    step = high / ROOT_3
    unit = outline((0, 0), (base, 0), (base - step, high), (step, high))
    assert len(unit.corners) == 3
    assert finished_size(unit) == (2 * Exact(height) / ROOT_3, height)


# ── trapezoids and half rectangles ───────────────────────────────────────────────────────────────


@row("TRAP-04", "derived here (sympy/fractions)")
def test_a_trapezoid_with_one_square_end() -> None:
    long, high = Exact(6), Exact(2)
    raw_long, raw_high = long + (2 + ROOT_2) * S, high + 2 * S
    unit = outline((0, 0), (raw_long, 0), (raw_long - raw_high, raw_high), (0, raw_high))
    assert edge_finished(unit, "bottom") == long
    assert edge_finished(unit, "top") == long - high


@row("HRT-01", "derived here (sympy/fractions)")
@pytest.mark.parametrize("a", [2, 3])
def test_half_rectangle_triangles_one_to_two(a: int) -> None:
    grow = (3 + ROOT_5) / 8
    low, high = halves(oblong(a + grow, 2 * a + 2 * grow))
    assert finished_size(low) == (Exact(a), Exact(2 * a))
    assert finished_size(join(low, "long-edge", high, "long-edge")) == (Exact(a), Exact(2 * a))
    assert (float(grow), float(2 * grow)) == pytest.approx((0.654508, 1.309017), abs=1e-6)
