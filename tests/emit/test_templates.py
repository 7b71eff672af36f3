"""Templates as sheets: at true size on paper, in the page, in Markdown's folder and in plan.json."""

from __future__ import annotations

import json
import re
from functools import cache
from importlib.resources import files
from xml.etree import ElementTree

import jsonschema
import pytest
from piecewright import build, compile_source
from piecewright.emit import emit
from piecewright.emit import json as written
from piecewright.emit.document import html
from piecewright.emit.template_sheets import template_sheets
from piecewright.emit.true_size import OVER_PAGES
from piecewright.plan.model import Plan

SCHEMA = json.loads(files("piecewright.emit.templates").joinpath("plan.schema.json").read_text(encoding="utf-8"))
PATTERN = """pattern "A bend"
{settings}
fabric sand
fabric dusk

block bend (ground, path)
    square {square} of ground
    curve {radius} of path at bottom-left

make 1 of bend(sand, dusk)
"""


@cache
def planned(radius: str = "3", square: str = "6 1/2", settings: str = "") -> Plan:
    compilation = compile_source(PATTERN.format(radius=radius, square=square, settings=settings))
    assert compilation.plan is not None
    return compilation.plan


def sheet(name: str, plan: Plan) -> ElementTree.Element:
    return ElementTree.fromstring(template_sheets(plan)[name])


def points(path: str) -> list[tuple[float, float]]:
    """The corners of path data, in points."""
    found: list[tuple[float, float]] = []
    x = y = 0.0
    for letter, numbers in re.findall(r"([MLHV])([-\d. ]+)", path):
        values = [float(value) for value in numbers.split()]
        x, y = (values[0], y) if letter == "H" else (x, values[0]) if letter == "V" else (values[0], values[1])
        found.append((x, y))
    return found


@pytest.mark.parametrize(
    ("settings", "radius", "square", "name", "unit", "points_each"),
    [
        ("", "3", "6 1/2", "3", "in", 72.0),
        ("    units cm\n    seam 0.75 cm", "8 cm", "16 cm", "8", "mm", 72 / 25.4),
    ],
)
def test_a_point_of_the_drawing_is_a_point_on_paper(settings, radius, square, name, unit, points_each):
    root = sheet(f"quarter-circle-{name}", planned(radius, square, settings))
    _, _, across, down = map(float, root.attrib["viewBox"].split())
    for size, length in (("width", across), ("height", down)):
        assert root.attrib[size].endswith(unit)
        assert float(root.attrib[size].removesuffix(unit)) * points_each == pytest.approx(length, abs=0.01)


def test_the_straight_edge_is_as_long_as_it_is_cut():
    """r = 3, s = 1/4: 1/4 + √42/2 = 3.4904 in, at 72 points an inch."""
    root = sheet("quarter-circle-3", planned())
    drawn = root.iter("{http://www.w3.org/2000/svg}path")
    raw = next(path for path in drawn if path.attrib.get("stroke-width") == "1.2")
    corner, along, *_, up = points(raw.attrib["d"])
    assert along[0] - corner[0] == pytest.approx(3.4904 * 72, abs=0.02)
    assert corner[1] - up[1] == pytest.approx(3.4904 * 72, abs=0.02)


def test_an_inch_and_two_centimetres_can_be_measured():
    text = template_sheets(planned())["hollow-3"]
    lines = [points(one) for one in re.findall(r"M[-\d.]+ [-\d.]+L[-\d.]+ [-\d.]+", text)]
    lengths = [abs(b[0] - a[0]) for a, b in (line for line in lines if len(line) == 2) if a[1] == b[1]]
    assert any(length == pytest.approx(72, abs=0.011) for length in lengths)
    assert any(length == pytest.approx(20 * 72 / 25.4, abs=0.011) for length in lengths)
    assert ">1 in<" in text and ">2 cm<" in text


def test_a_sheet_larger_than_a_page_says_so():
    assert "Larger than a page" in template_sheets(planned("8", "12 1/2"))["hollow-8"]
    assert "Larger than a page" not in template_sheets(planned())["hollow-3"]
    assert OVER_PAGES.startswith("Larger than a page")


def test_the_page_holds_every_template_and_the_folder_its_file():
    plan = planned()
    page = html(plan)
    paths = [path for path, _ in emit(plan, ("html", "svg", "json"))]
    for name in ("quarter-circle-3", "hollow-3"):
        assert f'id="fig-{name}"' in page and f'href="templates/{name}.svg"' in page
        assert f"templates/{name}.svg" in paths


def test_the_plan_tells_of_templates_and_is_valid():
    document = json.loads(written(planned()))
    jsonschema.Draft202012Validator(SCHEMA).validate(document)
    assert [template["letter"] for template in document["templates"]] == ["A", "B"]
    assert document["templates"][0]["raw_radius"] == {"exact": "13/4", "ruler": "3 1/4"}
    cut = next(cut for cut in document["cuts"] if cut["shape"] == "quarter circle")
    assert cut["template"] == "A" and cut["radius"] == {"exact": "3", "ruler": "3"}


def test_half_melons_stand_in_the_plan_and_in_the_page() -> None:
    text = PATTERN.replace("curve {radius} of path at bottom-left", "curve of path on left")
    plan = compile_source(text.format(square="4 1/2", settings="")).plan
    assert plan is not None
    document = json.loads(written(plan))
    jsonschema.Draft202012Validator(SCHEMA).validate(document)
    assert [template["shape"] for template in document["templates"]] == ["half melon", "hollow"]
    cut = next(cut for cut in document["cuts"] if cut["shape"] == "half melon")
    assert cut["template"] == "A" and cut["radius"]["exact"] == "2*sqrt(2)"
    page = html(plan)
    assert "for a side of 4 finished, by template A" in page
    assert 'href="templates/half-melon-4.svg"' in page and 'href="templates/side-hollow-4.svg"' in page


def test_a_later_build_takes_away_a_template_it_no_longer_has(tmp_path):
    pattern, out = tmp_path / "bend.piece", tmp_path / "out"
    for radius in ("3", "4"):
        pattern.write_text(PATTERN.format(radius=radius, square="6 1/2", settings=""), encoding="utf-8")
        assert build(pattern, output=out).written
        (out / "templates" / "my-own.svg").write_text("<svg/>", encoding="utf-8")
    assert sorted(path.name for path in (out / "templates").iterdir()) == [
        "hollow-4.svg", "my-own.svg", "quarter-circle-4.svg",
    ]  # fmt: skip
