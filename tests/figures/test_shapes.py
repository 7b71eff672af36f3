"""Pictures of quilts are made of shapes placed many times: they show what the quilt is."""

from __future__ import annotations

from collections import defaultdict

import pytest
from piecewright.emit.svg import figure_svg
from piecewright.kernel.measure import finished_area
from piecewright.kernel.polygon import area
from piecewright.kernel.setting import finished_picture
from piecewright.kernel.unit import Unit
from piecewright.pipeline import compile_source
from piecewright.plan.figures import finished_figure
from piecewright.plan.model import Figure
from shapely.geometry import Polygon
from shapely.ops import unary_union

from tests.evaluate.pattern import built

HEAD = "fabric sand\nfabric dusk, value dark\nfabric clay\nquilt tried\n"
QUILTS = {
    "turned": "    lay 3 by 2\n        pinwheel(sand, dusk) | pinwheel(clay, dusk) turned right\n",
    "sashed": "    lay 2 by 2\n        | pinwheel(sand, dusk)\n    sash 1 of clay, posts of dusk, all-round\n",
    "bordered": "    lay 2 by 2\n        | pinwheel(sand, dusk)\n    border 2 of clay\n    border 1 of sand\n",
    "mitred": "    lay 2 by 2\n        | pinwheel(sand, dusk, size 4)\n    border 2 of clay, mitred\n",
    "curved": "    lay 2 by 2\n        quarter-circle(sand, dusk) | quarter-circle(sand, dusk) turned right\n",
    "on-point": (
        "    lay 3 by 2 on point\n        | pinwheel(sand, dusk, size 4)\n        | square 4 1/2 of clay\n"
        "    fill sides and corners of dusk, float 1/2\n    border 2 of sand\n"
    ),
    "sashed-on-point": (
        "    lay 2 by 3 on point\n        | pinwheel(sand, dusk, size 4)\n"
        "    sash 1 1/2 of clay, posts of dusk\n    fill sides and corners of sand\n"
    ),
}  # fmt: skip


def drawn(figure: Figure) -> tuple[dict[str, float], float]:
    """The area of each fabric in a picture, and of all of it together."""
    areas: dict[str, float] = defaultdict(float)
    shapes = []
    (panel,) = figure.panels
    for one in panel.placed:
        for cloth in one.shape.cloth:
            holes = [[one.point(p) for p in hole] for hole in cloth.holes]
            shape = Polygon([one.point(p) for p in cloth.outline], holes)
            areas[cloth.fabric] += shape.area
            shapes.append(shape)
    return areas, unary_union(shapes).area


def quilt_of(steps: str) -> tuple[Unit, Figure]:
    build = built(HEAD + steps)
    unit = next(one.unit for one in build.made if one.name == "tried")
    figure = finished_figure(
        unit, id="t", title="t", description="t", group="t", outline=False, settings=build.settings
    )
    return unit, figure


@pytest.mark.parametrize("name", QUILTS)
def test_the_placed_shapes_are_the_finished_quilt(name: str) -> None:
    unit, figure = quilt_of(QUILTS[name])
    assert figure.panels[0].placed
    areas, together = drawn(figure)
    whole = float(finished_area(unit))
    assert together == pytest.approx(whole, abs=1e-6)
    if name == "curved":
        return  # its arcs are drawn as chords; the cells of both patches that an arc divides are one and the same
    assert sum(areas.values()) == pytest.approx(whole, abs=1e-6)  # nothing lies double
    seen: dict[str, float] = defaultdict(float)
    for patch in finished_picture(unit).patches:
        seen[patch.fabric] += sum(float(area(cell)) for cell in patch.cells)
    assert areas == pytest.approx(seen, abs=1e-6)


def test_a_quilt_that_is_cut_is_drawn_by_its_patches() -> None:
    """What is trimmed off a piece is not drawn."""
    steps = "    lay 2 by 2\n        | pinwheel(sand, dusk, size 4)\n    trim to 7 by 7, centred\n"
    _, figure = quilt_of(steps)
    (panel,) = figure.panels
    assert panel.cloth and not panel.placed


def test_prints_of_an_assorted_fabric_are_told_apart_in_shapes() -> None:
    text = (
        "fabric sands, assorted\nfabric dusk\nblock tile\n    choose light from sands\n    square 4 1/2 of light\n"
        "    border 1 of dusk\nquilt tried\n    lay 2 by 2\n        | tile\n"
    )
    plan = compile_source(text).plan
    assert plan is not None
    coloured = next(unit.coloured for unit in plan.units if unit.name == "tried")
    assert coloured is not None
    fabrics = {cloth.fabric for panel in coloured.panels for cloth in panel.all_cloth()}
    assert fabrics == {"sands", "dusk"}
    assert coloured.legend


def test_a_texture_fills_one_path_of_a_panel_however_many_blocks_there_are() -> None:
    """A printer's driver makes a picture of every shape that a pattern fills: with one in each block, a page of 400
    blocks came to 142 MB and took a minute to print."""
    text = "fabric sand\nfabric dusk, value dark\nquilt tried\n    lay 6 by 6\n        | pinwheel(sand, dusk, size 4)\n"
    plan = compile_source(text).plan
    assert plan is not None
    coloured = next(unit.coloured for unit in plan.units if unit.name == "tried")
    assert coloured is not None
    svg = figure_svg(coloured, plan.fabrics)
    textured = [fabric.name for fabric in plan.fabrics if fabric.texture is not None]
    drawing = svg.partition("</defs>")[2]
    swatches = len(textured)  # of the legend
    assert svg.count("<pattern") >= 1
    assert drawing.count('fill="url(#') <= 2 * swatches
    assert 'fill="url(#' not in svg.partition("</defs>")[0]
