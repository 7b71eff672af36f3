"""The sheets of paper foundations: at true size, the mirror image of the unit, numbered in sewing order."""

from __future__ import annotations

import re
from pathlib import Path
from xml.etree import ElementTree

import pytest
from piecewright.emit import emit
from piecewright.emit.foundation import INCH, MARGIN, foundation_svg, foundations, larger_than_page, sheet_size
from piecewright.pipeline import build, compile_source
from piecewright.plan.model import FoundationPlan, Plan, UnitPlan

SVG = "{http://www.w3.org/2000/svg}"

PATTERN = """\
pattern "On paper"
    units {units}
    seam {seam}

fabric sky, colour "#c9dbe6"
fabric linen, colour "#efe3c8"
fabric plank, colour "#5b3a29"

block boat
    foundation {across} by {down} of linen
    add sky at top-left from bottom-left, top {one} from left
    add plank at bottom, left {two} from bottom, right {one} from bottom
"""

INCHES = {"units": "inch", "seam": "1/4", "across": "6 1/2", "down": "4 1/2", "one": "2 3/4", "two": "1 1/4"}
METRIC = {"units": "cm", "seam": "0.75", "across": "16.5", "down": "11.5", "one": "7", "two": "3"}


def planned(**words: str) -> Plan:
    plan = compile_source(PATTERN.format(**words)).plan
    assert plan is not None
    return plan


def sheet(plan: Plan) -> tuple[FoundationPlan, ElementTree.Element]:
    (foundation,) = foundations(plan)
    return foundation, ElementTree.fromstring(foundation_svg(foundation, plan.units_of_length))


def length(text: str) -> float:
    """Inches of a length with its unit."""
    found = re.fullmatch(r"([\d.]+)(in|mm)", text)
    assert found
    return float(found[1]) / (25.4 if found[2] == "mm" else 1)


def paths_of(tree: ElementTree.Element) -> list[list[tuple[float, float]]]:
    """Every stretch that is drawn, as its points in points of the sheet."""
    found: list[list[tuple[float, float]]] = []
    for path in tree.iter(f"{SVG}path"):
        for kind, numbers in re.findall(r"([MLHVZ])([-\d. ]*)", path.get("d", "")):
            values = [float(n) for n in numbers.split()]
            if kind == "M":
                found.append([(values[0], values[1])])
            elif kind == "L":
                found[-1].append((values[0], values[1]))
            elif kind == "H":
                found[-1].append((values[0], found[-1][-1][1]))
            elif kind == "V":
                found[-1].append((found[-1][-1][0], values[0]))
            else:
                found[-1].append(found[-1][0])
    return found


@pytest.mark.parametrize("words", [INCHES, METRIC], ids=["inch", "cm"])
def test_true_size(words: dict[str, str]) -> None:
    """A point of the drawing is a seventy-second of a real inch, and the paper is as large as the unit is cut."""
    plan = planned(**words)
    foundation, tree = sheet(plan)
    _, _, across, down = (float(n) for n in tree.get("viewBox", "").split())
    assert length(tree.get("width", "")) * INCH == pytest.approx(across, abs=0.01)
    assert length(tree.get("height", "")) * INCH == pytest.approx(down, abs=0.01)
    per = 1 if words["units"] == "inch" else 2.54
    outline = paths_of(tree)[0]
    width = max(x for x, _ in outline) - min(x for x, _ in outline)
    height = max(y for _, y in outline) - min(y for _, y in outline)
    unit = plan.units[-1].unfinished
    assert width / INCH == pytest.approx(unit.width.value / per, abs=1e-3)
    assert height / INCH == pytest.approx(unit.height.value / per, abs=1e-3)
    seam = paths_of(tree)[1]
    assert (width - max(x for x, _ in seam) + min(x for x, _ in seam)) / INCH == pytest.approx(
        2 * foundation.allowance, abs=1e-3
    )


def test_check_marks() -> None:
    """One of them is an inch long and one is two centimetres."""
    _, tree = sheet(planned(**INCHES))
    level = [line for line in paths_of(tree) if len(line) == 2 and line[0][1] == line[1][1]]
    lengths = sorted((end[0] - start[0]) / INCH for start, end in level)
    assert lengths == pytest.approx([2 / 2.54, 1], abs=1e-3)


def shapes(unit: UnitPlan) -> dict[str, list[list[tuple[float, float]]]]:
    """The cloth of the finished picture, by fabric, from its lower left corner to the cut edge."""
    assert unit.coloured is not None
    found: dict[str, list[list[tuple[float, float]]]] = {}
    for cloth in unit.coloured.panels[0].cloth:
        found.setdefault(cloth.fabric, []).append(sorted((round(x, 3), round(y, 3)) for x, y in cloth.outline))
    return found


def test_it_is_the_mirror_image_of_the_finished_picture() -> None:
    plan = planned(**INCHES)
    foundation, tree = sheet(plan)
    mirrored: dict[str, list[list[tuple[float, float]]]] = {}
    for area in foundation.areas:
        corners = sorted((round(foundation.width - x, 3), round(y, 3)) for x, y in area.outline)
        mirrored.setdefault(area.fabric, []).append(corners)
    assert mirrored == shapes(plan.units[-1])
    # and what is drawn are the seams of the picture, from behind
    picture = plan.units[-1].coloured
    assert picture is not None
    wide = MARGIN + foundation.width * INCH
    high = MARGIN + foundation.height * INCH
    seams = sorted(
        sorted((round(wide - x * INCH, 1), round(high - y * INCH, 1)) for x, y in stroke.points)
        for stroke in picture.panels[0].strokes
        if stroke.role == "seam"
    )
    drawn = sorted(sorted((round(x, 1), round(y, 1)) for x, y in line) for line in paths_of(tree)[2:4])
    assert len(seams) == 2
    assert drawn == seams


def test_numbers_stand_within_their_areas() -> None:
    _, tree = sheet(planned(**INCHES))
    texts = [text.text for text in tree.iter(f"{SVG}text")]
    assert [text for text in texts if text in ("1", "2", "3")] == ["1", "2", "3"]
    assert "1 inch: measure before sewing" in texts


def test_a_name_that_is_markup_stays_text() -> None:
    foundation, _ = sheet(planned(**INCHES))
    odd = foundation_svg(FoundationPlan(**{**_fields(foundation), "title": "<b>&"}), "inch")
    assert "Foundation for &lt;b&gt;&amp;, to print at true size" in odd
    ElementTree.fromstring(odd)


def _fields(foundation: FoundationPlan) -> dict[str, object]:
    return {name: getattr(foundation, name) for name in foundation.__slots__}


def test_files_and_links() -> None:
    plan = planned(**INCHES)
    files = dict(emit(plan, ("html", "md", "svg")))
    assert "foundations/boat.svg" in files
    assert 'href="foundations/boat.svg"' in files["pattern.html"]
    assert "(foundations/boat.svg): print 1." in files["pattern.md"]
    assert "larger than one page" not in files["pattern.html"]
    assert "foundations/boat.svg" in dict(emit(plan, ("svg",)))
    assert not [name for name, _ in emit(plan, ("csv", "json")) if name.startswith("foundations/")]


def test_one_larger_than_a_page_says_so() -> None:
    plan = planned(**{**INCHES, "across": "12 1/2"})
    (foundation,) = foundations(plan)
    assert larger_than_page(foundation, "inch")
    files = dict(emit(plan, ("html", "md")))
    assert "It is larger than one page" in files["pattern.html"]
    assert "It is larger than one page" in files["pattern.md"]


@pytest.mark.parametrize(("across", "fits"), [("7", True), ("7 1/4", False)])
def test_what_fits_on_a_page(across: str, fits: bool) -> None:
    """190 by 259 mm are printed on both papers: 7.48 in, of which 1/4 in is margin of the sheet."""
    (foundation,) = foundations(planned(**{**INCHES, "across": across}))
    assert larger_than_page(foundation, "inch") is not fits
    assert sheet_size(foundation, "inch").across == float(foundation.width) * INCH + 2 * MARGIN


def test_a_later_build_takes_away_a_sheet_it_no_longer_has(tmp_path: Path) -> None:
    pattern, out = tmp_path / "boat.piece", tmp_path / "out"
    pattern.write_text(PATTERN.format(**INCHES), encoding="utf-8")
    build(pattern, out, to=("svg",))
    (out / "foundations" / "mine.svg").write_text("<svg/>", encoding="utf-8")
    pattern.write_text(PATTERN.format(**INCHES).replace("block boat", "block ferry"), encoding="utf-8")
    build(pattern, out, to=("svg",))
    assert sorted(one.name for one in (out / "foundations").iterdir()) == ["ferry.svg", "mine.svg"]
