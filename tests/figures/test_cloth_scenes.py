"""Drawings of how cloth is cut: to scale, complete, and with nothing in the way of anything."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from itertools import combinations

import pytest
from figures.clear import meetings
from hypothesis import given, settings
from hypothesis import strategies as st
from piecewright.emit.layout import lay_out
from piecewright.emit.scale import group_scales
from piecewright.emit.svg import LABEL, figure_svg
from piecewright.exact import Exact
from piecewright.kernel.build import Fabric, Scrap, Sold
from piecewright.plan.cutlist import CutRow
from piecewright.plan.fabrics import fabric_plans
from piecewright.plan.model import ClothPlan, Figure, StripPlan
from plan import builds
from plan.told import row, told
from shapely import Polygon, box, union_all

SHEETS = replace(
    builds.DUSK,
    usable=Exact(20),
    sold=Sold(across=Exact(20), down=Exact(18), name="fat quarter"),
    scraps=(Scrap(across=Exact(9), down=Exact(21), count=2),),
)
WIDE = replace(builds.DUSK, usable=Exact(108))
CLOTHS = st.sampled_from([builds.DUSK, SHEETS, WIDE, replace(builds.DUSK, lengthwise=True)])
SIDES = st.integers(6, 300).map(lambda eighths: str(Exact(eighths, 8)))
ROWS = st.lists(st.builds(row, st.just("rectangle"), SIDES, SIDES, st.integers(1, 12)), min_size=1, max_size=6)


def areas(figure: Figure) -> tuple[float, float]:
    """Of the cloth and of what is hatched, in square inches."""
    pieces = [Polygon(c.outline) for panel in figure.panels for c in panel.cloth if not c.fallen]
    rests = [Polygon(c.outline) for panel in figure.panels for c in panel.cloth if c.fallen]
    return sum(one.area for one in pieces), sum(one.area for one in rests)


def scaled(plan: ClothPlan) -> list[tuple[Figure, float]]:
    scales = group_scales(plan.figures)
    return [(figure, scales[figure.scale_group]) for figure in plan.figures]


@settings(max_examples=25, deadline=None)
@given(ROWS, CLOTHS)
def test_nothing_meets_anything_whatever_is_cut(rows: list[CutRow], cloth: Fabric) -> None:
    plan, _ = told(*rows, fabric=cloth)
    for figure, scale in scaled(plan):
        sheet = lay_out(figure, scale)
        assert meetings(sheet) == [], figure.id
        for placed in sheet.panels:
            spots = [box(line.x - LABEL, line.y - LABEL, line.x + LABEL, line.y + LABEL) for line in placed.labels]
            for one, other in combinations(spots, 2):
                assert not one.buffer(-0.3).intersects(other.buffer(-0.3)), figure.id


@settings(max_examples=25, deadline=None)
@given(ROWS, CLOTHS)
def test_pieces_and_rests_fill_the_strips_and_never_overlap(rows: list[CutRow], cloth: Fabric) -> None:
    plan, _ = told(*rows, fabric=cloth)
    for figure in plan.figures:
        for panel in figure.panels:
            polygons = [Polygon(c.outline) for c in panel.cloth]
            whole = union_all([Polygon(s.points) for s in panel.strokes if s.role == "raw"])
            assert sum(one.area for one in polygons) == pytest.approx(whole.area, abs=0.05)
            assert union_all(polygons).area == pytest.approx(whole.area, abs=0.05)


def drawn(*rows: CutRow, fabric: Fabric = builds.DUSK) -> tuple[Figure, tuple[StripPlan, ...]]:
    plan, strips = told(*rows, fabric=fabric)
    (figure,) = plan.figures
    return figure, strips


def test_a_repeated_strip_is_drawn_once_with_its_count() -> None:
    figure, strips = drawn(row("square", "9/2", "9/2", 24))
    (panel,) = figure.panels
    assert [(dimension.side, dimension.text) for dimension in panel.dimensions] == [
        ("top", "40"), ("left", "3 of 4½"),
    ]  # fmt: skip
    assert len([cloth for cloth in panel.cloth if cloth.fabric]) == 8
    assert [badge.text for badge in panel.badges] == [str(strip.number) for strip in strips] == ["1"]
    assert [label.text for label in panel.labels] == ["a"]
    assert [arrow.role for arrow in panel.arrows] == ["grain"]
    assert strips[0].text in figure.description
    pieces, rests = areas(figure)
    assert pieces == pytest.approx(8 * 4.5**2) and rests == pytest.approx(4 * 4.5)


def test_what_is_left_of_the_length_is_hatched_below() -> None:
    figure, _ = drawn(row("square", "13/2", "13/2", 12))
    assert [dimension.text for dimension in figure.panels[0].dimensions][-1] == "left ½"


def test_sheets_stand_side_by_side_with_their_numbers() -> None:
    figure, strips = drawn(row("square", "9/2", "9/2", 30), fabric=SHEETS)
    assert [panel.words for panel in figure.panels] == ["2 scraps 9 × 21", "1 fat quarter"]
    shown = Counter(badge.text for panel in figure.panels for badge in panel.badges)
    assert shown == Counter(str(strip.number) for strip in strips)


def test_much_is_drawn_in_several_figures_with_names_of_their_own() -> None:
    plan, strips = told(*(row("square", str(side), str(side), 9) for side in range(3, 15)))
    assert len(plan.figures) > 1
    assert [figure.id for figure in plan.figures][:2] == ["cutting-dusk", "cutting-dusk-2"]
    badges = [badge.text for figure in plan.figures for panel in figure.panels for badge in panel.badges]
    assert badges == [str(strip.number) for strip in strips]


def test_every_drawing_is_valid_svg() -> None:
    plan, _ = told(row("square", "9/2", "9/2", 24), row("diamond", "5/2", "5/2", 9, angle=45))
    fabrics = fabric_plans(builds.build(()), frozenset(["dusk"]))
    for figure, scale in scaled(plan):
        assert "cutting-dusk" in figure_svg(figure, fabrics, scale=scale, strict=True)
