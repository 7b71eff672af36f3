"""Quarter circles: exact arcs, templates and areas."""

from __future__ import annotations

from math import isclose, pi

import pytest
import sympy
from kernel.sequences import SEAM
from piecewright.exact import Exact, Vector
from piecewright.kernel.chain import chain
from piecewright.kernel.congruence import alike
from piecewright.kernel.curve import curved, finished_areas, ground_arc, quarter_circle
from piecewright.kernel.cut import cut
from piecewright.kernel.errors import SewingError
from piecewright.kernel.measure import in_balance, outline_area
from piecewright.kernel.moves import mirrored, turned
from piecewright.kernel.pieces import rectangle
from piecewright.kernel.places import edge, fabric_at
from piecewright.kernel.trim import Centred, trim
from piecewright.kernel.unit import Unit


def ground(size: int = 4) -> Unit:
    side = Exact(size) + SEAM * 2
    return rectangle(side, side, fabric="ground", allowance=SEAM, cut="ground")


THREE = Exact(3)


def quarter(radius: Exact = THREE, corner: int = 0) -> Unit:
    return curved(ground(), corner, radius, fabric="pie", cut="pie")


def test_the_straight_edge_of_a_quarter_circle_is_no_round_figure():
    """r = 3, s = 1/4: s + √(r² + 2rs) = 1/4 + √(21/2) = 3.4904, not 3 1/2 (derived; sympy)."""
    template = quarter_circle(Exact(3), SEAM)
    assert str(template.straight) == "1/4 + 1/2*sqrt(42)"
    assert template.arc == Exact(13, 4)
    assert ground_arc(Exact(3), SEAM) == Exact(11, 4)
    r, s = sympy.Integer(3), sympy.Rational(1, 4)
    assert sympy.simplify(s + sympy.sqrt((r + s) ** 2 - s**2) - sympy.sympify("1/4 + sqrt(42)/2")) == 0
    assert isclose(float(template.straight), 3.4904, abs_tol=5e-5)


@pytest.mark.parametrize("corner", range(4))
def test_finished_areas_are_exact_with_pi(corner):
    areas = finished_areas(quarter(corner=corner), ("ground", "pie"))
    assert areas["pie"] == (0, Exact(9, 4))
    assert areas["ground"] == (16, -Exact(9, 4))
    assert isclose(sum(float(a) + float(b) * pi for a, b in areas.values()), 16)


def test_nested_curves_take_theirs_from_the_larger():
    unit = curved(quarter(), 0, Exact(2), fabric="core", cut="core")
    areas = finished_areas(unit, ("ground", "pie", "core"))
    assert areas["core"] == (0, 1)
    assert areas["pie"] == (0, Exact(9, 4) - 1)
    assert areas["ground"] == (16, -Exact(9, 4))
    with pytest.raises(SewingError, match="curves-cross"):
        curved(unit, 0, Exact(5, 2), fabric="between")


def test_what_shows_where():
    unit = quarter()
    assert fabric_at(unit, "bottom-left") == "pie"
    assert fabric_at(unit, "top-right") == "ground"
    assert fabric_at(unit, "centre") == "pie"  # 2√2 from the corner


def test_the_curve_goes_along_with_turns_mirrors_joins_and_trims():
    unit = quarter()
    assert in_balance(unit)
    assert outline_area(unit) == outline_area(ground())
    half = turned(unit, 90)
    assert alike(unit, half) is not None
    assert alike(unit, mirrored(unit)) is not None  # a quarter circle is its own mirror image
    assert alike(unit, ground()) is None
    pair = chain(unit, edge(unit, "right"), half, edge(half, "left")).unit
    assert in_balance(pair)
    assert {disc.radius for patch in pair.patches for disc in patch.discs} == {3}
    smaller = trim(pair, Exact(8), Exact(4), (Centred(),)).unit
    assert in_balance(smaller)
    assert fabric_at(smaller, "bottom-left") == "pie"


@pytest.mark.parametrize(
    ("radius", "kind"),
    [(Exact(1, 4), "curve-too-small"), (Exact(4), "curve-too-large"), (Exact(5), "curve-too-large")],
)
def test_radii_that_cannot_be_sewn(radius, kind):
    with pytest.raises(SewingError, match=kind):
        quarter(radius)


def test_curves_that_would_cross():
    with pytest.raises(SewingError, match="curves-cross"):
        curved(quarter(), 2, Exact(3), fabric="pie")
    both = curved(quarter(Exact(2)), 2, Exact(3), fabric="pie")
    assert len(both.patches) == 3


def test_only_a_square_corner_takes_a_quarter_circle():
    triangle, _ = cut(ground(), Vector(Exact(0), Exact(9, 2)), Vector.at(-45))
    slanted = next(i for i, d in enumerate(triangle.directions) if d.x and d.y)
    with pytest.raises(SewingError, match="corner-not-square"):
        curved(triangle, slanted, Exact(1), fabric="pie")


@pytest.mark.parametrize("way", range(0, 360, 90))
@pytest.mark.parametrize("other_way", range(0, 360, 90))
def test_edges_that_a_curve_runs_to_are_sewn_like_others(way, other_way):
    first, second = turned(quarter(), way), turned(quarter(), other_way)
    pair = chain(first, edge(first, "right"), second, edge(second, "left")).unit
    assert in_balance(pair)
    assert sum(len(patch.discs) for patch in pair.patches) == 4
    assert {disc.radius for patch in pair.patches for disc in patch.discs} == {3}
