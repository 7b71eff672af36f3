"""The page: valid, self-contained, accessible, and safe whatever the designer writes."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ElementTree
from collections.abc import Iterator
from itertools import pairwise

import html5lib
import pytest
from emit import plans
from piecewright.emit import html
from piecewright.plan.model import Plan

XHTML = "{http://www.w3.org/1999/xhtml}"
SVG = "{http://www.w3.org/2000/svg}"
PLANS = plans.several()
EVERY = [*PLANS.items(), *((f"attack {i}", plans.hostile(attack)) for i, attack in enumerate(plans.ATTACKS))]


def parsed(text: str) -> ElementTree.Element:
    """The page as a tree; any parse error of the HTML standard fails."""
    parser = html5lib.HTMLParser(strict=True)
    tree: ElementTree.Element = parser.parse(text)
    return tree


def elements(tree: ElementTree.Element) -> Iterator[ElementTree.Element]:
    return (element for element in tree.iter() if isinstance(element.tag, str))


def tag(element: ElementTree.Element) -> str:
    return str(element.tag).split("}")[-1]


@pytest.fixture(scope="module", params=EVERY, ids=[name for name, _ in EVERY])
def page(request: pytest.FixtureRequest) -> tuple[Plan, str, ElementTree.Element]:
    plan: Plan = request.param[1]
    text = html(plan)
    return plan, text, parsed(text)


def test_it_parses_as_the_standard_says(page: tuple[Plan, str, ElementTree.Element]) -> None:
    _, text, tree = page
    assert text.startswith('<!doctype html>\n<html lang="en">') and tree.tag == f"{XHTML}html"


def test_ids_are_unique_and_every_reference_is_met(page: tuple[Plan, str, ElementTree.Element]) -> None:
    _, text, tree = page
    names = [element.attrib["id"] for element in elements(tree) if "id" in element.attrib]
    assert len(names) == len(set(names)) and not any(" " in name for name in names)
    wanted = set(re.findall(r"url\(#([^)]*)\)", text))
    for element in elements(tree):
        for key in ("aria-labelledby", "aria-describedby", "for"):
            wanted.update(element.attrib.get(key, "").split())
        wanted.update(value[1:] for key, value in element.attrib.items() if str(key).endswith("href"))
    assert wanted <= set(names)


def test_nothing_is_fetched_and_nothing_runs(page: tuple[Plan, str, ElementTree.Element]) -> None:
    _, _, tree = page
    for element in elements(tree):
        assert tag(element) not in (
            "script",
            "link",
            "iframe",
            "object",
            "embed",
            "base",
            "form",
            "img",
            "image",
        )
        for key, value in element.attrib.items():
            name = str(key).split("}")[-1]
            assert not name.startswith("on") and name != "src"
            if name == "href":
                assert value.startswith("#")
    styles = [element.text or "" for element in elements(tree) if tag(element) == "style"]
    assert len(styles) == 1 and "@import" not in styles[0] and "url(" not in styles[0]


def test_every_picture_has_a_name_or_is_hidden(page: tuple[Plan, str, ElementTree.Element]) -> None:
    _, _, tree = page
    named = {element.attrib["id"]: "".join(element.itertext()) for element in elements(tree) if "id" in element.attrib}
    pictures = [element for element in elements(tree) if element.tag == f"{SVG}svg"]
    assert pictures
    for picture in pictures:
        if picture.attrib.get("aria-hidden") != "true":
            assert picture.attrib["role"] == "img"
            assert (
                named[picture.attrib["aria-labelledby"]].strip() and named[picture.attrib["aria-describedby"]].strip()
            )


def test_headings_form_an_outline_without_gaps(page: tuple[Plan, str, ElementTree.Element]) -> None:
    _, _, tree = page
    levels = [int(tag(element)[1]) for element in elements(tree) if re.fullmatch(r"h[1-6]", tag(element))]
    assert levels[0] == 1 and levels.count(1) == 1
    assert all(after <= before + 1 for before, after in pairwise(levels))


def test_landmarks_and_names(page: tuple[Plan, str, ElementTree.Element]) -> None:
    _, _, tree = page
    tags = [tag(element) for element in elements(tree)]
    assert (tags.count("main"), tags.count("header"), tags.count("title") > 0) == (1, 1, True)
    for element in elements(tree):
        if tag(element) in ("section", "nav"):
            assert element.attrib.get("aria-labelledby") or element.attrib.get("aria-label")
        if tag(element) == "input":
            assert element.attrib["aria-label"]
        if tag(element) == "th":
            assert element.attrib["scope"] in ("row", "col")


def test_every_step_figure_measure_and_note_stands_in_it(page: tuple[Plan, str, ElementTree.Element]) -> None:
    plan, _, tree = page
    shown = {
        element.attrib["id"] for element in elements(tree) if element.tag == f"{SVG}svg" and "id" in element.attrib
    }
    words = " ".join("".join(tree.itertext()).replace("\u00a0", " ").split())
    for unit in plan.units:
        for step in unit.steps:
            assert f"fig-{step.figure.id}" in shown
            for text in (step.text, *step.details, *step.measures, *step.notes, step.repeat):
                assert " ".join(text.split()) in words
    for text in (plan.title, *plan.cautions, *plan.warnings, *(strip.text for strip in plan.strips)):
        assert " ".join(text.split()) in words
    assert sum(tag(element) == "input" for element in elements(tree)) == len(plan.cuts) + len(plan.strips)


def test_words_of_the_designer_never_become_elements() -> None:
    plain = sorted({tag(element) for element in elements(parsed(html(plans.hostile("word"))))})
    for attack in plans.ATTACKS:
        assert sorted({tag(element) for element in elements(parsed(html(plans.hostile(attack))))}) == plain


def test_the_page_has_a_title_and_says_its_unit_of_length() -> None:
    text = html(PLANS["lantern"])
    assert "<title>Lantern</title>" in text and "Sizes are in inches." in text
    assert "Sizes are in centimetres." in html(PLANS["centimetres"])


def contrast(one: str, other: str) -> float:
    """The contrast ratio of WCAG 2.2."""

    def luminance(colour: str) -> float:
        parts = [int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5)]
        red, green, blue = (p / 12.92 if p <= 0.04045 else ((p + 0.055) / 1.055) ** 2.4 for p in parts)
        return 0.2126 * red + 0.7152 * green + 0.0722 * blue

    light, dark = sorted((luminance(one), luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def test_words_stand_out_from_the_paper() -> None:
    colours = dict(re.findall(r"--(ink|quiet|link|paper|wash): (#[0-9a-f]{6})", html(PLANS["lantern"])))
    for paper in (colours["paper"], colours["wash"]):
        for words in ("ink", "quiet", "link"):
            assert contrast(colours[words], paper) >= 7 or (words == "link" and contrast(colours[words], paper) >= 4.5)
