"""60-degree triangles, diamonds, hexagons, eight-pointed stars and trapezoids, said in the language."""

from __future__ import annotations

import pytest
from external.harness import cuts, number, planned, sewn, size, strips, unit
from external.rows import row, rows
from piecewright.exact import Exact
from piecewright.kernel.measure import edge_length, finished_size, in_balance
from piecewright.kernel.places import edge
from piecewright.kernel.unit import Unit

ROOT_2, ROOT_3 = Exact.root(2), Exact.root(3)


def finished(made: Unit, name: str) -> Exact:
    return edge_length(made, edge(made, name), finished=True)


def raw(made: Unit, name: str) -> Exact:
    return edge_length(made, edge(made, name), finished=False)


# ── 60 degrees ───────────────────────────────────────────────────────────────────────────────────


@row("E60-01", "S01 Clements, The Quilter's Bible, David & Charles, 2011; S76 2015; S77 magazine")
@row("E60-04", "derived here (sympy/fractions)")
@row("E60-06", "derived here (sympy/fractions)")
@pytest.mark.parametrize("seam", ["1/4", "3/8"])
@pytest.mark.parametrize("height", [2, 3, 5])
def test_sixty_degree_triangle(height: int, seam: str) -> None:
    made = sewn(f"block spike (sand)\n    triangle {height} + 3 * seam at 60 of sand", "spike", seam=seam)
    assert finished_size(made)[1] == height
    side = finished(made, "bottom")
    assert side == 2 * Exact(height) / ROOT_3 == finished(made, "upper-left") == finished(made, "upper-right")
    assert raw(made, "bottom") == side + 2 * ROOT_3 * number(seam)
    if (height, seam) == (3, "1/4"):
        assert float(side) == pytest.approx(3.464102, abs=1e-6)


@row("E60-03", "S76 2015")
def test_a_strip_of_3_3_4_for_a_triangle_of_3() -> None:
    plan = planned("block spike (sand)\n    triangle 3 3/4 at 60 of sand")
    assert size(plan, "spike", finished=True)[1] == "3"
    assert strips(plan, "sand") == {"15/4": 1}


@row("D60-01", "S01 Clements, The Quilter's Bible, David & Charles, 2011; S76 2015")
@row("D45-01", "S01 Clements, The Quilter's Bible, David & Charles, 2011; S77")
@pytest.mark.parametrize(("angle", "sine"), [(60, ROOT_3 / 2), (45, ROOT_2 / 2)])
@pytest.mark.parametrize("height", ["2", "3 1/4"])
def test_diamonds_are_cut_from_strips_two_seams_wider(height: str, angle: int, sine: Exact) -> None:
    body = f"block ray (sand)\n    diamond {height} + 2 * seam at {angle} of sand"
    plan, made = planned(body), sewn(body, "ray")
    assert size(plan, "ray", finished=True)[1] == str(number(height))
    assert {edge_length(made, n, finished=True) for n in range(4)} == {number(height) / sine}
    # subcut at the same width, measured square to the cut
    wide = str(number(height) + Exact(1, 2))
    assert strips(plan, "sand") == {wide: 1} and cuts(plan) == {(wide, wide): 1}
    assert "measured square to the cut" in plan.fabric_cloth[0].how[0]


@row("HEX-03", "derived here (sympy/fractions)")
@pytest.mark.parametrize(("angle", "regular"), [(60, True), (45, False)])
def test_a_hexagon_comes_from_a_sixty_degree_diamond_not_one_of_45(angle: int, regular: bool) -> None:
    """A tip with two sides of half the diamond's is cut off either end. Its third side, which becomes one of the
    hexagon's, is as long only when its angle is 60 degrees."""
    body = f"block hexagon (sand)\n    diamond 4 at {angle} of sand"
    made = sewn(body, "hexagon")
    side = raw(made, "bottom")
    along, lean = made.directions[0] * (side / 2), made.directions[1] * (side / 2)
    assert ((lean - along).squared() == side * side / 4) is regular


# ── eight-pointed stars ──────────────────────────────────────────────────────────────────────────


def star(strip: str, corner: str, side: str) -> str:
    """The star from the sizes of its pieces: the strip of the diamonds, the corner square, the square to quarter."""
    return f"""
unit ray (cloth)
    diamond {strip} at 45 of cloth

unit ray-pair (a, b)
    take ray(a)
    join bottom of ray(b) on left, stop short

unit half-star (a, b)
    take ray-pair(a, b)
    join bottom of ray-pair(a, b) on left, stop short

unit star-side (sky)
    square {side} of sky
    cut twice on diagonal

block star (a, b, sky, ground)
    take half-star(a, b)
    join bottom of half-star(a, b) on bottom, stop short
    set star-side(sky) into top and right and bottom and left
    set square {corner} of ground into corners

make 1 of star(dusk, clay, sand, glow)
"""


# A diagonal is the root of two times its square, so that exact sizes can be said: block · (√2 - 1) is a ray's side.
STARS = {
    8: star("diagonal(4) - 3 1/2", "8 1/2 - diagonal(4)", "diagonal(8) + diagonal(1/2) - 7 1/2"),
    12: star("diagonal(6) - 5 1/2", "12 1/2 - diagonal(6)", "diagonal(12) + diagonal(1/2) - 11 1/2"),
}


@row("D45-02", "S13 Combs 2002 prints 3.41")
@pytest.mark.parametrize("block", [8, 12])
def test_a_star_block_is_3_41_diamond_sides(block: int) -> None:
    made = sewn(STARS[block], "star")
    side = finished(sewn(STARS[block], "ray"), "bottom")
    assert finished_size(made) == (Exact(block), Exact(block)) == (side * (2 + ROOT_2), side * (2 + ROOT_2))
    factor = float(finished_size(made)[0] / side)
    assert factor == pytest.approx(3.414214, abs=1e-6)
    assert 0 < factor - 3.41 < 0.0043  # what the printed factor leaves off


@rows(
    ("block", "corner", "side", "strip"),
    ("D45-star8", "derived here (sympy/fractions)", 8, 2.843146, 4.520815, 2.156854),
    ("D45-star12", "derived here (sympy/fractions)", 12, 4.014719, 6.177670, 2.985281),
)
def test_eight_point_star_of_a_given_size(block: int, corner: float, side: float, strip: float) -> None:
    plan, made = planned(STARS[block]), sewn(STARS[block], "star")
    assert finished_size(made) == (Exact(block), Exact(block)) and in_balance(made)
    found = {(cut.shape, cut.fabric): (cut.width.value, cut.count) for cut in plan.cuts}
    assert found["square", "glow"] == (pytest.approx(corner, abs=1e-6), 4)
    assert found["square", "sand"] == (pytest.approx(side, abs=1e-6), 1)
    assert found["diamond", "dusk"] == found["diamond", "clay"] == (pytest.approx(strip, abs=1e-6), 4)


@row("BL-19", "common practice, no source")
def test_an_eight_point_star_has_16_patches() -> None:
    fabrics = [patch.fabric for patch in sewn(STARS[8], "star").patches]
    assert {name: fabrics.count(name) for name in sorted(set(fabrics))} == {"clay": 4, "dusk": 4, "glow": 4, "sand": 4}
    assert unit(planned(STARS[8]), "star").makes == 1


# ── trapezoids ───────────────────────────────────────────────────────────────────────────────────


@row("TRAP-01", "derived here (sympy/fractions)")
@row("TRAP-02", "derived here (sympy/fractions)")
@row("TRAP-03", "derived here (sympy/fractions)")
@pytest.mark.parametrize(
    ("angle", "half_angle", "adds"),
    [(45, ROOT_2 - 1, (1.207107, 0.207107)), (60, 1 / ROOT_3, (0.866025, 0.288675))],
)
def test_what_a_trapezoid_adds(angle: int, half_angle: Exact, adds: tuple[float, float]) -> None:
    """`half_angle`: the tangent of half the base angle."""
    s = Exact(1, 4)
    made = sewn(f"block roof (sand)\n    trapezoid 8 by 2 1/2 at {angle} of sand", "roof")
    assert finished_size(made)[1] == 2
    long, short = (raw(made, name) - finished(made, name) for name in ("bottom", "top"))
    assert (long, short) == (2 * s / half_angle, 2 * s * half_angle)
    assert (float(long), float(short)) == pytest.approx(adds, abs=1e-6)
