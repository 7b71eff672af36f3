"""No root sign stands in what is printed: a ruler shows none, and what is measured is said instead."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import fields, is_dataclass
from pathlib import Path
from typing import Any

import pytest
from piecewright.evaluate.catalogue import entries, sample
from piecewright.evaluate.shown import exactly, measured
from piecewright.exact import Exact
from piecewright.kernel.build import Units
from piecewright.pipeline import Cutting, compile_file, compile_source, emitted

EXAMPLES = sorted((Path(__file__).parents[2] / "examples").glob("*.piece"))
ROOT = re.compile("√|sqrt")
DIAGONAL = """pattern "Diagonal"
    units {units}

fabric lamp
fabric dusk

block across
    square diagonal({size}) of lamp
    join rectangle {size} by diagonal({size}) of dusk on right
"""


def words(of: Any) -> Iterator[str]:
    """Every text of a plan, but for the exact sizes, which are data for other programs and printed nowhere."""
    if isinstance(of, str):
        yield of
    elif isinstance(of, dict):
        yield from words(tuple(of.items()))
    elif isinstance(of, (tuple, list)):
        for one in of:
            yield from words(one)
    elif is_dataclass(of):
        for field in fields(of):
            if field.name != "exact":
                yield from words(getattr(of, field.name))


def test_no_description_of_the_library_has_a_root() -> None:
    about = {entry.name: entry.about for entry in entries()}
    assert len(about) > 100
    assert [name for name, text in about.items() if ROOT.search(text)] == []


@pytest.mark.parametrize("example", EXAMPLES, ids=lambda path: path.stem)
def test_no_example_prints_a_root(example: Path) -> None:
    plan = compile_file(example, cutting=Cutting(cuts=2)).plan  # the quickest plans: they are told in the same words
    found = list(words(plan))
    assert len(found) > 50
    assert [text for text in found if ROOT.search(text)] == []


def test_no_unit_of_the_library_prints_a_root() -> None:
    """Every third, each with the units that it is made of; descriptions are looked through above, of all."""
    seen = 0
    for entry in entries()[::3]:
        for name in entry.parts or (entry.name,):
            plan = compile_source(sample(entry, name)).plan
            assert plan is not None
            found = [text for text in words(plan) if ROOT.search(text)]
            assert found == [], entry.name
            seen += len(plan.units)
    assert seen > 100


MEASURED: list[tuple[Exact, Units, str]] = [
    (Exact.root(2) * 3, "inch", "about 4 1/4"),  # 4.2426
    (Exact(7, 4) - Exact.root(2) * Exact(9, 8), "inch", "about 5/32"),  # 0.1590
    (Exact(1, 20), "inch", "about 1/16"),  # 0.05
    (Exact(3, 2) - Exact.root(2), "inch", "about 3/32"),  # 0.0858
    (Exact(71, 50) - Exact.root(2), "inch", "less than 1/32"),  # 0.0058
    (Exact(21, 20), "inch", "about 1 1/16"),  # 1.05
    (Exact.root(2), "inch", "about 1 13/32"),  # 1.4142
    (Exact(5, 2), "inch", "2 1/2"),
    (Exact.root(2) * 3 * Exact(50, 127), "cm", "about 4.24"),
    (Exact(1, 3) * Exact(5, 127), "mm", "about 0.3"),
]


@pytest.mark.parametrize(("length", "units", "text"), MEASURED)
def test_what_is_measured_is_said(length: Exact, units: Units, text: str) -> None:
    said = f"the lamp square of {exactly(length, units)} lies off at the left - 3 - times"
    assert measured(said, units) == f"the lamp square of {text} lies off at the left - 3 - times"


@pytest.mark.parametrize(("units", "size", "text"), [("inch", "3", "about 4¼"), ("cm", "8", "about 11.31")])
def test_what_to_watch_for_is_printed_without_roots(units: str, size: str, text: str) -> None:
    contents = DIAGONAL.format(units=units, size=size)
    compiled, files = emitted("diagonal.piece", contents=contents.encode(), to=("html", "md"))
    assert any("√" in one.message for one in compiled.diagnostics), "the terminal says it exactly"
    assert compiled.plan is not None and compiled.plan.warnings
    pages = [page for name, page in files if name.endswith((".html", ".md"))]
    assert len(pages) == 2
    for page in pages:
        assert f"square of {text} lies between the ruler" in page
        assert not ROOT.search(page)
