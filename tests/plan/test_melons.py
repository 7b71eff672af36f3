"""Half melons in the plan: templates and drawings against shapely's, the cut list and the sentences."""

from __future__ import annotations

from functools import cache
from math import pi

import pytest
import shapely
from piecewright import compile_source
from piecewright.exact import Exact
from piecewright.kernel.curve import MELON, Bend, hollowed
from piecewright.kernel.pieces import rectangle
from piecewright.plan.arcs import rounded
from piecewright.plan.model import Panel, Plan, Point
from piecewright.plan.scene_curve import hollow_panel, piece_panel

PATTERN = """pattern "Melons"
    press toward darker
fabric sand, value light
fabric dusk, value dark

block hollow (ground, melon)
    square 4 1/2 of ground
    curve of melon

block boat (ground, melon)
    rectangle 4 1/2 by 3 1/2 of ground
    curve of melon on top and left

make 2 of hollow(sand, dusk)
make 1 of boat(sand, dusk)
make 3 of hollow(dusk, sand)
"""
SIDES = ("2", "4", "9")
CHORDS = 2e-4  # of f²: chords of 2 1/2 degrees leave 36 r² θ³/12 of a quarter circle, with r = f/√2 1.25e-4 f²


@cache
def planned() -> Plan:
    compilation = compile_source(PATTERN)
    assert compilation.plan is not None, compilation.diagnostics
    return compilation.plan


def disc(side: float, more: float) -> shapely.Polygon:
    """About the point half of the side before its middle, which is the origin, and so much beyond its ends."""
    return shapely.Point(0, -side / 2).buffer(side / 2**0.5 + more, quad_segs=720)


def templates(side: str, seam: Exact) -> tuple[Panel, Panel]:
    bend = Bend(MELON, Exact.parse(side) / Exact(2).sqrt())
    return piece_panel(bend, seam), hollow_panel(bend, seam)


def raw(panel: Panel) -> list[tuple[Point, ...]]:
    return [stroke.points for stroke in panel.strokes if stroke.role == "raw"]


def lifted(points: tuple[Point, ...], side: float) -> list[Point]:
    """From about the centre of the arc to about the middle of the side."""
    return [(x, y - side / 2) for x, y in points]


@pytest.mark.parametrize("seam", [Exact(1, 4), Exact(1, 8)], ids=str)
@pytest.mark.parametrize("side", SIDES)
def test_the_piece_is_the_melon_with_an_allowance_within_the_raw_edges_of_the_work(side: str, seam: Exact) -> None:
    f, s = float(Exact.parse(side)), float(seam)
    cut = shapely.box(-f / 2 - s, -s, f / 2 + s, f).intersection(disc(f, s))
    (outline,) = raw(templates(side, seam)[0])
    drawn = shapely.Polygon(lifted(outline, f))
    assert drawn.is_valid
    assert drawn.symmetric_difference(cut).area < CHORDS * f * f
    assert all(cut.boundary.distance(shapely.Point(p)) < 1e-4 for p in lifted(outline, f))
    assert drawn.bounds == pytest.approx((-f / 2 - s, -s, f / 2 + s, f * (2**0.5 - 1) / 2 + s), abs=1e-9)
    finished = shapely.box(-f, 0, f, f).intersection(disc(f, 0))
    (seen,) = [one.points for one in templates(side, seam)[0].strokes if one.role == "allowance"]
    assert shapely.Polygon(lifted(seen, f)).symmetric_difference(finished).area < CHORDS * f * f
    assert finished.area == pytest.approx(f * f * (pi - 2) / 8, rel=1e-5)


@pytest.mark.parametrize("side", SIDES)
def test_the_hollow_is_cut_where_the_seam_leaves_an_allowance(side: str) -> None:
    """What the solid lines of the template and its end go round is the raw work near that side without its hollow."""
    f, s = float(Exact.parse(side)), 0.25
    panel = templates(side, Exact(1, 4))[1]
    (end,) = [one.points for one in panel.strokes if one.role == "guide"]
    lines = [shapely.LineString(lifted(points, f)) for points in (*raw(panel), end)]
    (drawn,) = shapely.polygonize([shapely.union_all(lines, grid_size=1e-9)]).geoms
    top = max(y for _, y in lifted(end, f))
    assert top > f * (2**0.5 - 1) / 2 + 0.5
    work = shapely.box(-f / 2 - s, -s, f / 2 + s, top).difference(disc(f, -s))
    assert drawn.symmetric_difference(work).area < CHORDS * f * f


def test_notches_of_both_templates_meet_along_the_seam() -> None:
    """They stand on one line through the centre, on the raw edges, at a quarter, half and three quarters of the arc."""
    melon, hollow = templates("4", Exact(1, 4))
    radius = 8**0.5
    assert len(melon.marks) == len(hollow.marks) == 3
    for one, other in zip(melon.marks, hollow.marks, strict=True):
        assert one.count == other.count
        assert one.at[0] * other.at[1] == pytest.approx(one.at[1] * other.at[0])
        assert shapely.Point(one.at).distance(shapely.Point(0, 0)) == pytest.approx(radius + 0.25)
        assert shapely.Point(other.at).distance(shapely.Point(0, 0)) == pytest.approx(radius - 0.25)
    assert melon.marks[1].at[0] == pytest.approx(0) and melon.marks[1].count == 2


def test_the_finished_picture_is_the_square_without_four_circles() -> None:
    unit = rectangle(Exact(9, 2), Exact(9, 2), fabric="ground", allowance=Exact(1, 4))
    for side in range(4):
        unit = hollowed(unit, side, fabric="melon")
    square = shapely.box(0.25, 0.25, 4.25, 4.25)
    middles = ((2.25, -1.75), (6.25, 2.25), (2.25, 6.25), (-1.75, 2.25))
    circles = shapely.union_all([shapely.Point(x, y).buffer(8**0.5, quad_segs=720) for x, y in middles])
    seen: dict[str, shapely.Geometry] = {}
    for patch in unit.patches:
        for cell in rounded(patch, (0.0, 0.0)):
            shape = shapely.Polygon(cell.outline)
            for hole in cell.holes:
                shape = shape.difference(shapely.Polygon(hole))
            seen[patch.fabric] = seen.get(patch.fabric, shapely.Polygon()).union(shape)
    for fabric, expected in (("ground", square.difference(circles)), ("melon", square.intersection(circles))):
        assert seen[fabric].intersection(square).symmetric_difference(expected).area < 4 * CHORDS * 16
    assert seen["ground"].intersection(square).area == pytest.approx(8 * (4 - pi), abs=4 * CHORDS * 16)


def test_the_cut_list_has_half_melons_by_side_and_says_what_is_hollowed() -> None:
    rows = [(cut.fabric, cut.shape, cut.count, cut.template, cut.bend) for cut in planned().cuts if cut.template]
    assert rows == [
        ("sand", "half melon", 12, "A", "for a side of 4 finished"),
        ("dusk", "half melon", 9, "A", "for a side of 4 finished"),
        ("dusk", "half melon", 1, "C", "for a side of 3 finished"),
    ]
    labels = {(cut.fabric, cut.shape): cut.label for cut in planned().cuts}
    assert labels["sand", "square"].endswith("then hollowed by template B")
    assert labels["sand", "rectangle"] == "boat; then hollowed by templates B and D"
    assert "hollowed" not in labels["dusk", "half melon"]


def test_half_melons_lie_in_their_rectangles() -> None:
    """Side 3, s = 1/4: 3 (√2 - 1)/2 + 1/2 = 1.1213, so 1 1/8 by 3 1/2 at the ruler."""
    small = next(cut for cut in planned().cuts if cut.template == "C")
    assert {small.width.ruler, small.height.ruler} == {"1 1/8", "3 1/2"}
    assert small.radius is not None and small.radius.exact == "3/2*sqrt(2)"


def test_cloth_for_half_melons_is_that_of_their_rectangles() -> None:
    """Side 4: 4 (√2 - 1)/2 + 1/2 = 1.3284, so 1 3/8 by 4 1/2. Of 40 in eight lie in a strip: forty take five strips,
    6 7/8 in of cloth, and no less than their area."""
    plan = compile_source(PATTERN.partition("make 2")[0] + "make 10 of hollow(sand, dusk)\n").plan
    assert plan is not None
    (row,) = (n for n, cut in enumerate(plan.cuts) if cut.shape == "half melon")
    strips = [strip for strip in plan.strips if strip.fabric == "dusk"]
    assert sum(count for strip in strips for place, count in strip.pieces if place == row) == 40
    taken = sum(float(Exact.parse(strip.height.exact)) * strip.strips for strip in strips)
    assert 40 * 4.5 * 1.375 / 40 <= taken <= 5 * 1.375
    assert all(float(Exact.parse(strip.height.exact)) >= 1.375 for strip in strips)


def test_two_templates_for_each_side_that_differs() -> None:
    found = [(one.id, one.letter, one.shape) for one in planned().templates]
    assert found == [
        ("half-melon-4", "A", "half melon"), ("side-hollow-4", "B", "hollow"),
        ("half-melon-3", "C", "half melon"), ("side-hollow-3", "D", "hollow"),
    ]  # fmt: skip
    # a quarter of the circle of radius 4/√2: 4.4429, and 4 7/16 is 4.4375
    assert "is about 4\u202f⁷⁄₁₆\u00a0in long" in planned().templates[0].text
    assert 4 / 2**0.5 * pi / 2 == pytest.approx(4.4375, abs=1 / 32)


def test_the_steps_say_where_each_goes() -> None:
    steps = {unit.name: unit.steps[1].text for unit in reversed(planned().units)}
    assert steps["hollow"].startswith(
        "Cut a hollow from each edge by template B. Sew a dusk half melon (template A) into each hollow, right"
        " sides together: pin at both ends and at the notches"
    )
    assert steps["boat"].startswith(
        "Cut a hollow from the top edge by template B. Cut a hollow from the left edge by template D. Sew the dusk half"
        " melons into the hollows, those of template A on the top edge and those of template C on the left edge,"
    )
    assert all(text.endswith("Press toward dusk.") for text in steps.values())


def test_pressed_toward_all_of_them_where_no_fabric_tells_them() -> None:
    for edges, told in (("left", "toward the half melon"), ("left and right", "toward the half melons")):
        steps = f"block alike\n    square 4 1/2 of dusk\n    curve of dusk on {edges}\n"
        plan = compile_source(PATTERN.partition("block")[0] + steps).plan
        assert plan is not None
        assert plan.units[0].steps[1].text.endswith(f" Press {told}.")
