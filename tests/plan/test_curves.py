"""Curved seams in the plan: templates, the cut list, sentences, and arcs as they are drawn."""

from __future__ import annotations

from functools import cache
from itertools import pairwise
from math import asin, cos, hypot, isclose, pi, sin

import pytest
from piecewright import compile_source
from piecewright.exact import Exact
from piecewright.kernel.curve import QUARTER, Bend, curved
from piecewright.kernel.pieces import rectangle
from piecewright.plan.arcs import arc, clipped, rounded, uncovered
from piecewright.plan.model import Plan, Point
from piecewright.plan.rounding import quarter_arc
from piecewright.plan.scene_curve import hollow_panel, piece_panel
from plan import builds

PATTERN = """pattern "Bends"
    press toward darker
{settings}
fabric sand, value light
fabric dusk, value dark

block bend (ground, path)
    square {square} of ground
    curve {radius} of path at bottom-left
    curve {inner} of ground at bottom-left

block plain (ground, path)
    square {square} of ground
    border {border} of path

make 4 of bend(sand, dusk)
make 1 of plain(sand, dusk)
"""


@cache
def planned(
    square: str = "4 1/2", radius: str = "3", inner: str = "1 1/2", settings: str = "", border: str = "1"
) -> Plan:
    text = PATTERN.format(square=square, radius=radius, inner=inner, settings=settings, border=border)
    compilation = compile_source(text)
    assert compilation.plan is not None, compilation.diagnostics
    return compilation.plan


def area(ring: tuple[Point, ...]) -> float:
    return sum(ring[i - 1][0] * p[1] - p[0] * ring[i - 1][1] for i, p in enumerate(ring)) / 2


def test_quarter_circles_are_cut_by_template_and_what_is_hollowed_says_so():
    rows = [(cut.fabric, cut.shape, cut.count, cut.label) for cut in planned().cuts]
    assert ("sand", "square", 4, "bend; then hollowed by template B") in rows
    assert ("sand", "square", 1, "plain") in rows
    assert ("sand", "quarter circle", 4, "bend") in rows
    assert ("dusk", "quarter circle", 4, "bend; then hollowed by template D") in rows
    outer = next(cut for cut in planned().cuts if cut.shape == "quarter circle" and cut.fabric == "dusk")
    assert outer.template == "A" and outer.width == outer.height
    assert outer.width.exact == "1/4 + 1/2*sqrt(42)"
    assert outer.radius is not None and outer.radius.exact == "3"


def test_of_pieced_work_no_piece_is_said_to_be_hollowed():
    text = PATTERN.format(square="4 1/2", radius="3", inner="1 1/2", settings="", border="1")
    text = text.replace("    curve 3 of", "    border 2 of path on right and top\n    curve 3 of")
    plan = compile_source(text).plan
    assert plan is not None
    told = [cut.label for cut in plan.cuts if cut.shape != "quarter circle"]
    assert "4 for bend; 1 for plain" in told
    assert not any("hollowed" in label for label in told)


def test_strips_are_as_high_as_the_bulge_of_the_arc():
    """r = 2 1/2, s = 1/4 at a ruler of 1/64: a straight edge is 1/4 + √7.5 = 2.9886, and the arc stands r + 2s high."""
    strips = [strip for strip in planned(radius="2 1/2", settings="    ruler 1/64").strips if strip.fabric == "dusk"]
    assert "3" in [strip.height.ruler for strip in strips]
    assert not any(strip.height.ruler.startswith("2 63/64") for strip in strips)


def test_one_template_of_each_kind_for_each_radius():
    found = [(template.id, template.letter, template.raw_radius.exact) for template in planned().templates]
    assert found == [
        ("quarter-circle-3", "A", "13/4"),
        ("hollow-3", "B", "11/4"),
        ("quarter-circle-1-1-2", "C", "7/4"),
        ("hollow-1-1-2", "D", "5/4"),
    ]


def test_centimetres_are_told_as_such():
    plan = planned("12 cm", "8 cm", "4 cm", "    units cm\n    seam 0.75 cm", "3 cm")
    assert plan.templates[0].id == "quarter-circle-8"
    assert "radius of 8\u00a0cm and is about 12.6\u00a0cm long" in plan.templates[0].text


def test_only_the_length_of_an_arc_says_about():
    settings = builds.build(()).settings
    assert quarter_arc(Exact(3), settings) == "4\u202f¹¹⁄₁₆\u00a0in"  # 3π/2 = 4.7124
    assert isclose(3 * pi / 2, 4.6875 + 0.0249, abs_tol=1e-4)


def test_the_step_names_both_templates():
    steps = next(unit for unit in planned().units if unit.name == "bend").steps
    assert steps[1].text == (
        "Cut away the bottom left corner by template B. Sew a dusk quarter circle (template A) into the hollow, right"
        " sides together: pin at both ends and at the notches, and ease the curve between the pins. Press toward dusk."
    )


@pytest.mark.parametrize("radius", ["5/8", "3", "9"])
def test_templates_are_true_to_their_radii(radius):
    """Every point of a raw arc is as far from the centre as it says, and each straight edge as long."""
    r, s = float(Exact.parse(radius)), 0.25
    piece = next(x for x in piece_panel(Bend(QUARTER, Exact.parse(radius)), Exact(1, 4)).strokes if x.role == "raw")
    corner, *curve = piece.points
    assert corner == pytest.approx((-s, -s))
    assert all(isclose(hypot(*p), r + s) for p in curve)
    assert curve[0][1] == pytest.approx(-s) and curve[0][0] == pytest.approx((r * r + 2 * r * s) ** 0.5)
    assert curve[-1] == pytest.approx(curve[0][::-1])
    strokes = hollow_panel(Bend(QUARTER, Exact.parse(radius)), Exact(1, 4)).strokes
    hollow = next(x for x in strokes if len(x.points) > 2 and x.role == "raw")
    assert all(isclose(hypot(*p), r - s) for p in hollow.points)
    assert hollow.points[0][1] == pytest.approx(-s)


def test_notches_of_both_templates_meet_along_the_seam():
    """They stand at the same angles with the same ticks, so that they lie at the same shares of the arc."""
    both = [panel(Bend(QUARTER, Exact(3)), Exact(1, 4)).marks for panel in (piece_panel, hollow_panel)]
    for one, other in zip(*both, strict=True):
        assert one.count == other.count
        assert one.at[0] * other.at[1] == pytest.approx(one.at[1] * other.at[0])


# ── arcs ────────────────────────────────────────────────────────────────────────────────────────


def test_a_chord_lies_close_to_its_arc():
    points = arc((0.0, 0.0), 1.0, 0.0, 90.0)
    middles = [((x + u) / 2, (y + v) / 2) for (x, y), (u, v) in pairwise(points)]
    assert min(hypot(*p) for p in middles) > 1 - 1 / 4200


def test_patches_on_both_sides_of_a_curve_fill_the_square_between_them():
    side = Exact(9, 2)
    unit = curved(rectangle(side, side, fabric="ground", allowance=Exact(1, 4)), 0, Exact(3), fabric="pie")
    unit = curved(unit, 0, Exact(1), fabric="core")
    cells = [cell for patch in unit.patches for cell in rounded(patch, (0.0, 0.0))]
    seen = [area(cell.outline) - sum(map(area, cell.holes)) for cell in cells]
    assert sum(seen) == pytest.approx(4.5 * 4.5, abs=1e-5)
    s, r = 0.25, 1.0
    # the core within its arc, by the parts of its disc beyond both finished edges
    strip = s * (r * r - s * s) ** 0.5 + r * r * asin(s / r)
    core = pi * r * r / 4 + strip + s * s
    assert seen[2] == pytest.approx(core, abs=1e-3)
    assert [len(cell.arcs) for cell in cells] == [0, 1, 1]


def test_what_a_circle_does_not_reach_is_not_drawn():
    ring = tuple((cos(pi * n / 36), sin(pi * n / 36)) for n in range(72))
    assert clipped(ring, ((2.0, 2.0), (3.0, 2.0), (3.0, 3.0), (2.0, 3.0))) == ()
    assert area(clipped(ring, ((-2.0, -2.0), (2.0, -2.0), (2.0, 2.0), (-2.0, 2.0)))) == pytest.approx(area(ring))


def test_seams_under_a_curve_are_hidden_and_those_beside_it_are_not():
    square = ((0.0, 0.0), (2.0, 0.0), (2.0, 2.0), (0.0, 2.0))
    parts = uncovered((1.0, -1.0), (1.0, 3.0), (square,))
    assert [tuple(p[1] for p in part) for part in parts] == [
        pytest.approx((-1.0, 0.0), abs=1e-3), pytest.approx((2.0, 3.0), abs=1e-3),
    ]  # fmt: skip
    assert uncovered((2.0, -1.0), (2.0, 3.0), (square,)) == (((2.0, -1.0), (2.0, 3.0)),)
