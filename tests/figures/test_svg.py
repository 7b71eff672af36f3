"""The SVG text: well formed, valid, named for ears, the same bytes every time."""

from __future__ import annotations

import re
import subprocess
import sys
from dataclasses import replace
from xml.etree import ElementTree

import pytest
from figures.compare import differences
from figures.handmade import FABRICS, figure, figures, framed_steps, rect, step
from piecewright.emit.svg import figure_svg, group_scales
from piecewright.exact import Exact
from piecewright.kernel.action import CutPiece
from piecewright.plan.model import Figure

ALL = figures()
SCALES = group_scales(ALL)
SVG = "{http://www.w3.org/2000/svg}"


def drawn(figure: Figure, *, prefix: str = "", strict: bool = False) -> str:
    return figure_svg(figure, FABRICS, scale=SCALES[figure.scale_group], prefix=prefix, strict=strict)


@pytest.mark.parametrize("figure", ALL, ids=lambda f: f.id)
def test_every_element_and_attribute_is_of_svg(figure: Figure) -> None:
    assert drawn(figure, strict=True) == drawn(figure)


def test_the_validator_refuses_what_is_not_of_svg() -> None:
    broken = replace(ALL[0], id="not an id")
    with pytest.raises((TypeError, ValueError)):
        drawn(broken, strict=True)


@pytest.mark.parametrize("figure", ALL, ids=lambda f: f.id)
def test_it_is_well_formed_and_named_for_ears(figure: Figure) -> None:
    root = ElementTree.fromstring(drawn(figure))
    assert root.tag == f"{SVG}svg"
    assert root.get("role") == "img"
    title, desc = root.find(f"{SVG}title"), root.find(f"{SVG}desc")
    assert title is not None
    assert desc is not None
    assert (title.text, desc.text) == (figure.title, figure.description)
    assert root.get("aria-labelledby") == title.get("id")
    assert root.get("aria-describedby") == desc.get("id")


@pytest.mark.parametrize("figure", ALL, ids=lambda f: f.id)
def test_every_patch_carries_its_fabric_and_line(figure: Figure) -> None:
    root = ElementTree.fromstring(drawn(figure))
    patches = [e for e in root.iter(f"{SVG}path") if e.get("data-fabric")]
    wanted = [(c.fabric, str(c.line)) for panel in figure.panels for c in panel.cloth if c.fabric]
    assert sorted((e.get("data-fabric"), e.get("data-line")) for e in patches) == sorted(wanted)
    assert wanted


@pytest.mark.parametrize("figure", ALL, ids=lambda f: f.id)
def test_ids_are_unique_and_every_reference_is_met(figure: Figure) -> None:
    text = drawn(figure, prefix="p-") + drawn(figure, prefix="q-")
    ids = re.findall(r'\bid="([^"]+)"', text)
    assert len(ids) == len(set(ids))
    assert set(re.findall(r"url\(#([^)]+)\)", text)) <= set(ids)
    assert all(name.startswith(("p-", "q-")) for name in ids)


def test_an_inlined_figure_has_no_declaration() -> None:
    assert drawn(ALL[0]).startswith('<?xml version="1.0" encoding="UTF-8"?>\n<svg ')
    assert drawn(ALL[0], prefix="fig-").startswith("<svg ")


def test_numbers_are_short() -> None:
    for f in ALL:
        assert not re.search(r"\d\.\d{3,}", drawn(f)), f.id
        assert "-0 " not in drawn(f)
        assert "e-" not in "".join(re.findall(r' d="([^"]*)"', drawn(f)))


def test_the_bytes_are_the_same_in_another_process() -> None:
    """With another seed for hashing: no order of a set may show."""
    code = (
        "import hashlib, sys; sys.path.insert(0, 'tests')\n"
        "from figures.handmade import FABRICS, figures\n"
        "from piecewright.emit.svg import figure_svg\n"
        "text = ''.join(figure_svg(f, FABRICS) for f in figures())\n"
        "print(hashlib.sha256(text.encode()).hexdigest())\n"
    )
    sums = {
        subprocess.run(
            [sys.executable, "-c", code],
            env={"PYTHONHASHSEED": seed, "PYTHONPATH": ":".join(sys.path)},
            capture_output=True,
            text=True,
            check=True,
        ).stdout
        for seed in ("1", "2")
    }
    assert len(sums) == 1


def test_changing_one_step_changes_only_its_own_figure() -> None:
    changed = list(framed_steps())
    wide = rect(Exact(5), Exact(11, 2), "moss")
    piece = CutPiece(shape="rectangle", width=Exact(5), height=Exact(11, 2), fabric="moss", unit=wide)
    changed[0] = (piece,)

    def texts(steps: list[tuple[object, ...]]) -> list[str]:
        made = tuple(figure(step(actions, n + 1), "framed", n) for n, actions in enumerate(steps, 1))
        scales = group_scales(made)
        return [figure_svg(f, FABRICS, scale=scales["framed"]) for f in made]

    before, after = texts(list(framed_steps())), texts(changed)
    assert [a == b for a, b in zip(before, after, strict=True)] == [False, True, True]


def test_the_picture_to_colour_in_has_outlines_only() -> None:
    outline = next(f for f in ALL if f.kind == "outline")
    text = drawn(outline)
    root = ElementTree.fromstring(text)
    groups = [g for g in root.iter(f"{SVG}g") if g.find(f"{SVG}path[@data-fabric]") is not None]
    assert {g.get("fill") for g in groups} == {"#ffffff"}
    assert "<pattern" not in text
    assert "night" not in "".join(e.text or "" for e in root.iter(f"{SVG}text"))


def test_user_text_is_escaped() -> None:
    sly = replace(ALL[0], title='<b>"&', description="a < b")
    root = ElementTree.fromstring(drawn(sly))
    assert root.findtext(f"{SVG}title") == '<b>"&'
    assert root.find(f"{SVG}b") is None


# ── the comparer ────────────────────────────────────────────────────────────────────────────────


def test_a_figure_is_like_itself_however_it_is_spelled() -> None:
    text = drawn(ALL[1])
    respelled = text.replace('stroke-width="0.9"', 'stroke-width="0.90"').replace("\n", " ")
    assert respelled != text
    assert differences(text, respelled) == []


@pytest.mark.parametrize(
    ("pattern", "change"),
    [
        (r'data-fabric="night"', 'data-fabric="moss"'),
        (r"M(\d+)", "M9"),
        (r"<path ", "<circle "),
        (r">2¼<", ">2½<"),
        (r'stroke-dasharray="[^"]*"', ""),
        (r"<g [^>]*/>|<rect [^>]*/>", ""),
    ],
)
def test_the_comparer_finds_a_change(pattern: str, change: str) -> None:
    text = drawn(ALL[1])
    changed = re.sub(pattern, change, text, count=1)
    assert changed != text
    assert differences(text, changed) != []
