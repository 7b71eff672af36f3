"""Half melons on the sides of a rectangle: arcs and areas worked out anew with sympy, and what cannot be sewn."""

from __future__ import annotations

import pytest
import sympy
from kernel.sequences import SEAM
from piecewright.exact import Exact, Vector
from piecewright.kernel.chain import chain
from piecewright.kernel.congruence import alike
from piecewright.kernel.curve import curved, finished_areas, hollowed, melon_arc, melon_box
from piecewright.kernel.cut import cut
from piecewright.kernel.errors import SewingError
from piecewright.kernel.measure import in_balance, outline_area
from piecewright.kernel.moves import mirrored, turned
from piecewright.kernel.pieces import rectangle
from piecewright.kernel.places import edge, fabric_at
from piecewright.kernel.unit import Unit

WAYS = ("bottom", "right", "top", "left")  # edges of a rectangle, counter-clockwise


def ground(across: str, down: str, seam: Exact = SEAM) -> Unit:
    """A rectangle of that finished size."""
    width, height = (Exact.parse(one) + seam * 2 for one in (across, down))
    return rectangle(width, height, fabric="ground", allowance=seam, cut="ground")


def with_melons(unit: Unit, *sides: str) -> Unit:
    for side in sides:
        unit = hollowed(unit, edge(unit, side), fabric="melon", cut="melon")
    return unit


def number(exact: Exact) -> sympy.Expr:
    return sympy.sympify(str(exact), rational=True)


def segment(f: sympy.Expr) -> sympy.Expr:
    """The area between a side and the arc over it that meets both its ends at 45 degrees, integrated. At slope 1 the
    arc y = √(r² - x²) + c has x = -r/√2, which is -f/2; there it is at 0."""
    x = sympy.Symbol("x", real=True)
    r = f / sympy.sqrt(2)
    return sympy.integrate(sympy.sqrt(r**2 - x**2) - f / 2, (x, -f / 2, f / 2))


def vanishes(a: sympy.Expr) -> bool:
    """Zero to forty digits: roots stand within roots here."""
    return bool(abs(sympy.N(a, 50)) < sympy.Rational(1, 10**40))


@pytest.mark.parametrize("side", WAYS)
def test_the_arc_meets_both_corners_at_45_degrees(side: str) -> None:
    unit = ground("4", "3")
    at = edge(unit, side)
    centre, radius = melon_arc(unit, at)
    along = unit.directions[at]
    ends = unit.corners[at].finished, unit.corners[(at + 1) % 4].finished
    for end, lean in zip(ends, (-1, 1), strict=True):
        spoke = end - centre
        assert spoke.squared() == radius * radius
        assert spoke.dot(along) == spoke.dot(along.left()) * lean
    assert unit.directions[at].cross(centre - ends[0]) < 0, "outside the work"


@pytest.mark.parametrize("f", ["3", "4", "7/2", "2*sqrt(2)"])
def test_areas_of_a_square_with_four(f: str) -> None:
    side = number(Exact.parse(f))
    areas = finished_areas(with_melons(ground(f, f), *WAYS), ("ground", "melon"))
    seen = {name: number(a) + number(b) * sympy.pi for name, (a, b) in areas.items()}
    assert vanishes(seen["melon"] - 4 * segment(side))
    assert vanishes(seen["melon"] - side**2 * (sympy.pi - 2) / 2)
    assert vanishes(seen["ground"] - side**2 * (4 - sympy.pi) / 2)


def test_areas_of_a_rectangle_and_beside_a_quarter_circle() -> None:
    """Neighbouring sides of any rectangle, and a quarter circle across the work from one."""
    areas = finished_areas(with_melons(ground("6", "4"), "bottom", "left"), ("ground", "melon"))
    a, b = (number(one) for one in areas["melon"])
    assert vanishes(a + b * sympy.pi - segment(sympy.Integer(6)) - segment(sympy.Integer(4)))
    unit = curved(with_melons(ground("6", "4"), "left"), 2, Exact(2), fabric="pie")
    areas = finished_areas(unit, ("ground", "melon", "pie"))
    assert areas["pie"] == (0, 1)
    total = sum(number(a) + number(b) * sympy.pi for a, b in areas.values())
    assert vanishes(total - 24)
    assert vanishes(number(areas["melon"][0]) + number(areas["melon"][1]) * sympy.pi - segment(sympy.Integer(4)))


def test_what_it_is_cut_from() -> None:
    """Along the side f + 2s; across it the height of the raw arc, r + s about the same centre, above the raw edge."""
    f, s = sympy.Integer(4), sympy.Rational(1, 4)
    along, across = (number(one) for one in melon_box(Exact(4) / Exact(2).sqrt(), SEAM))
    assert along == f + 2 * s
    top, raw_edge = f / sympy.sqrt(2) + s - f / 2, -s
    assert vanishes(across - (top - raw_edge))


@pytest.mark.parametrize("way", range(0, 360, 90))
def test_it_goes_along_with_turns_mirrors_and_joins(way: int) -> None:
    unit = with_melons(ground("4", "4"), *WAYS)
    assert in_balance(unit)
    assert outline_area(unit) == outline_area(ground("4", "4"))
    assert alike(unit, turned(unit, way)) is not None
    assert alike(unit, mirrored(unit)) is not None
    lone = turned(with_melons(ground("4", "4"), "left"), way)
    assert alike(lone, with_melons(ground("4", "4"), "right")) is not None
    assert alike(lone, ground("4", "4")) is None
    assert fabric_at(lone, WAYS[(WAYS.index("left") + way // 90) % 4]) == "melon"
    pair = chain(lone, edge(lone, "right"), unit, edge(unit, "left")).unit
    assert in_balance(pair)
    assert sum(disc.inside for patch in pair.patches for disc in patch.discs) == 5


def test_only_the_ground_is_hollowed() -> None:
    """Raw corners of neighbouring half melons lie on each other; neither is hollowed by the other."""
    unit = with_melons(ground("4", "4"), *WAYS)
    discs = [(patch.fabric, [disc.inside for disc in patch.discs]) for patch in unit.patches]
    assert discs == [("ground", [False] * 4), *[("melon", [True])] * 4]


@pytest.mark.parametrize(
    ("size", "sides", "kind"),
    [
        (("8", "3/2"), ("top",), "melon-too-deep"),  # 8 (√2 - 1)/2 = 1.66
        (("6", "12/5"), ("top", "bottom"), "curves-cross"),  # twice 1.24
        (("4", "4"), ("top", "top"), "curves-cross"),
        (("1", "4"), ("top",), "melon-too-flat"),  # 0.207
        (("6/5", "4"), ("top",), "melon-too-flat"),  # 0.2485
    ],
)
def test_what_has_no_room(size: tuple[str, str], sides: tuple[str, ...], kind: str) -> None:
    unit = with_melons(ground(*size), *sides[:-1])
    with pytest.raises(SewingError, match=kind):
        with_melons(unit, sides[-1])


@pytest.mark.parametrize(
    ("size", "sides"),
    [(("8", "17/10"), ("top",)), (("6", "5/2"), ("top", "bottom")), (("5/4", "4"), ("top",)), (("9", "2"), WAYS[1::2])],
)
def test_what_has_just_room(size: tuple[str, str], sides: tuple[str, ...]) -> None:
    assert len(with_melons(ground(*size), *sides).patches) == 1 + len(sides)


def test_a_corner_has_one_curve_only() -> None:
    with pytest.raises(SewingError, match="curves-cross"):
        curved(with_melons(ground("4", "4"), "bottom"), 0, Exact(1), fabric="pie")
    with pytest.raises(SewingError, match="curves-cross"):
        with_melons(curved(ground("4", "4"), 0, Exact(1), fabric="pie"), "left")


def test_only_a_rectangle_has_half_melons() -> None:
    triangle, _ = cut(ground("4", "4"), Vector(Exact(0), Exact(9, 2)), Vector.at(-45))
    for side in range(len(triangle.corners)):
        with pytest.raises(SewingError, match="melon-no-rectangle"):
            hollowed(triangle, side, fabric="melon")
