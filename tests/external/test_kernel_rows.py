"""Rows that the sewing already answers though no sentence of the language says them yet.

Stitch and flip, 60-degree triangles and diamonds, 45-degree stars, trapezoids, and the grain of triangles.
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
    raw_length,
    sizes,
    square,
)
from kernel.stars import ray, star_of_eight
from piecewright.exact import Exact, Vector
from piecewright.kernel.cut import cut
from piecewright.kernel.flip import flip
from piecewright.kernel.measure import finished_size, in_balance, raw_outline
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


def spike(high: Exact, s: Exact = S) -> Unit:
    side = high * 2 / ROOT_3
    return outline((0, 0), (side, 0), (side / 2, high), s=s)


@row("E60-01", "S01 Clements, The Quilter's Bible, David & Charles, 2011; S76 2015; S77 magazine")
@row("E60-04", "derived here (sympy/fractions)")
@row("E60-06", "derived here (sympy/fractions)")
@pytest.mark.parametrize("s", [Exact(1, 4), Exact(3, 8)])
@pytest.mark.parametrize("height", [2, 3, 5])
def test_sixty_degree_triangle(height: int, s: Exact) -> None:
    unit = spike(height + 3 * s, s)
    assert finished_size(unit)[1] == height
    side = edge_finished(unit, "bottom")
    assert side == 2 * Exact(height) / ROOT_3
    assert raw_length(unit, "bottom") == side + 2 * ROOT_3 * s
    if (height, s) == (3, S):
        assert float(side) == pytest.approx(3.464102, abs=1e-6)


@row("E60-03", "S76 2015")
def test_a_strip_of_3_3_4_for_a_triangle_of_3() -> None:
    assert finished_size(spike(inches("3 3/4")))[1] == 3


@row("E60-05", "derived here (sympy/fractions)")
@pytest.mark.parametrize("height", [2, 3])
def test_a_strip_two_seams_wider_gives_the_same_triangle_with_a_blunt_tip(height: int) -> None:
    high = height + 2 * S
    base = (height + 3 * S) * 2 / ROOT_3
    step = high / ROOT_3
    unit = outline((0, 0), (base, 0), (base - step, high), (step, high))
    assert len(unit.corners) == 3
    assert finished_size(unit) == (2 * Exact(height) / ROOT_3, height)


@row("D60-01", "S01 Clements, The Quilter's Bible, David & Charles, 2011; S76 2015")
@row("D45-01", "S01 Clements, The Quilter's Bible, David & Charles, 2011; S77")
@pytest.mark.parametrize("lean", [Vector(1, ROOT_3) / 2, Vector(ROOT_2, ROOT_2) / 2])
@pytest.mark.parametrize("height", ["2", "3 1/4"])
def test_diamonds_are_cut_from_strips_two_seams_wider(height: str, lean: Vector) -> None:
    high = inches(height) + 2 * S
    side = high / lean.y  # cut at the same width, measured square to the cut
    arm = lean * side
    unit = outline((0, 0), (side, 0), (side + arm.x, arm.y), (arm.x, arm.y))
    assert finished_size(unit)[1] == inches(height)
    lengths = {edge_finished(unit, n) for n in range(4)}
    assert lengths == {inches(height) / lean.y}


@row("HEX-03", "derived here (sympy/fractions)")
def test_a_hexagon_comes_from_a_sixty_degree_diamond_not_one_of_45() -> None:
    for lean, regular in ((Vector(1, ROOT_3) / 2, True), (Vector(ROOT_2, ROOT_2) / 2, False)):
        side, arm = Vector(4, 0), lean * 4
        angles = []
        for first, second, tip in ((arm, side, Vector(0, 0)), (-arm, -side, side + arm)):
            # a tip with sides of half the diamond's: all equal only when its angle is 60 degrees
            across = (second - first) / 2
            angles.append(across.squared() == 4 and bool(tip + across))
        assert angles == [regular, regular]
    side, arm = Vector(4, 0), Vector(2, 2 * ROOT_3)
    unit = outline((0, 0), (4, 0), (6, arm.y), (2, arm.y))
    unit, _ = cut(unit, arm / 2, (side - arm).unit())
    unit, _ = cut(unit, side + arm / 2, (arm - side).unit())
    assert len(unit.corners) == 6
    assert {unit.directions[n - 1].dot(unit.directions[n]) for n in range(6)} == {Exact(1, 2)}
    assert {raw.length() for raw in sides(unit)} == {Exact(2)}


def sides(unit: Unit) -> list[Vector]:
    raw = raw_outline(unit)
    return [q - p for p, q in zip(raw, raw[1:] + raw[:1], strict=True)]


# ── 45-degree stars ──────────────────────────────────────────────────────────────────────────────


@row("D45-02", "S13 Combs 2002 prints 3.41")
@pytest.mark.parametrize("side", [2, 3])
def test_a_star_block_is_3_41_diamond_sides(side: int) -> None:
    width, height = finished_size(star_of_eight(Exact(side)))
    assert width == height == side * (2 + ROOT_2)
    assert float(width) / side == pytest.approx(3.414214, abs=1e-6)
    assert 0 < float(width) / side - 3.41 < 0.0043  # what the printed factor leaves off


@rows(
    ("block", "corner", "side", "strip"),
    ("D45-star8", "derived here (sympy/fractions)", 8, 2.843146, 4.520815, 2.156854),
    ("D45-star12", "derived here (sympy/fractions)", 12, 4.014719, 6.177670, 2.985281),
)
def test_eight_point_star_of_a_given_size(block: int, corner: float, side: float, strip: float) -> None:
    f = block / (2 + ROOT_2)
    star = star_of_eight(f)
    assert finished_size(star) == (Exact(block), Exact(block))
    assert [
        float(each) for each in (f + 2 * S, f * ROOT_2 + (2 + 2 * ROOT_2) * S, f / ROOT_2 + 2 * S)
    ] == pytest.approx([corner, side, strip], abs=1e-6)
    assert finished_size(ray(f, "a"))[1] + 2 * S == f / ROOT_2 + 2 * S


@row("BL-19", "common practice, no source")
def test_an_eight_point_star_has_16_patches() -> None:
    fabrics = [patch.fabric for patch in star_of_eight(Exact(3)).patches]
    assert {name: fabrics.count(name) for name in sorted(set(fabrics))} == {"diamond": 8, "square": 4, "triangle": 4}


# ── trapezoids and half rectangles ───────────────────────────────────────────────────────────────


@row("TRAP-01", "derived here (sympy/fractions)")
@row("TRAP-02", "derived here (sympy/fractions)")
@row("TRAP-03", "derived here (sympy/fractions)")
@pytest.mark.parametrize(
    ("cotangent", "half_angle", "adds"),
    [(Exact(1), ROOT_2 - 1, (1.207107, 0.207107)), (1 / ROOT_3, 1 / ROOT_3, (0.866025, 0.288675))],
    ids=["45", "60"],
)
def test_what_a_trapezoid_adds(cotangent: Exact, half_angle: Exact, adds: tuple[float, float]) -> None:
    """`half_angle`: the tangent of half the base angle."""
    long, high = Exact(6), Exact(2)
    raw_high = high + 2 * S
    raw_long = long + 2 * S / half_angle
    raw_short = raw_long - 2 * raw_high * cotangent
    step = raw_high * cotangent
    unit = outline((0, 0), (raw_long, 0), (raw_long - step, raw_high), (step, raw_high))
    assert finished_size(unit) == (long, high)
    short = edge_finished(unit, "top")
    assert short == long - 2 * high * cotangent
    assert raw_short - short == 2 * S * half_angle
    assert (float(raw_long - long), float(raw_short - short)) == pytest.approx(adds, abs=1e-6)


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
