"""The written outputs of every example of ours."""

from __future__ import annotations

import csv
import io
import json
import re
from functools import cache
from pathlib import Path

import html5lib
import jsonschema
import pytest
from emit.test_data import SCHEMA
from piecewright.emit import emit
from piecewright.pipeline import FORMATS, compile_file

EXAMPLES = Path(__file__).parent.parent.parent / "examples"
NAMES = sorted(path.name for path in EXAMPLES.glob("*.piece"))


@cache
def files(name: str) -> dict[str, str]:
    plan = compile_file(EXAMPLES / name).plan
    assert plan is not None
    return dict(emit(plan, FORMATS))


@pytest.mark.parametrize("name", NAMES)
def test_the_page_is_valid_and_its_ids_are_unique(name: str) -> None:
    page = files(name)["pattern.html"]
    html5lib.HTMLParser(strict=True).parse(page)
    ids = re.findall(r'\bid="([^"]*)"', page)
    assert len(ids) == len(set(ids)) and "None" not in re.sub(r"<[^>]*>", "", page)


@pytest.mark.parametrize("name", NAMES)
def test_the_data_is_valid_and_the_cut_list_agrees(name: str) -> None:
    document = json.loads(files(name)["plan.json"])
    jsonschema.Draft202012Validator(SCHEMA).validate(document)
    rows = list(csv.DictReader(io.StringIO(files(name)["cut-list.csv"], newline="")))
    assert [(row["fabric"], row["width"], row["height"], int(row["count"])) for row in rows] == [
        (cut["fabric"], cut["width"]["ruler"], cut["height"]["ruler"], cut["count"]) for cut in document["cuts"]
    ]


@pytest.mark.parametrize("name", NAMES)
def test_every_figure_that_is_named_is_there_and_the_other_way_round(name: str) -> None:
    every = files(name)
    figures = {path for path in every if path.startswith("figures/")}
    assert set(re.findall(r"\]\((figures/[^)]*)\)", every["pattern.md"])) == figures
    document = json.loads(every["plan.json"])
    named = {step["figure"] for step in document["steps"]} | {p for unit in document["units"] for p in unit["pictures"]}
    named |= {p for fabric in document["fabrics"] if fabric["cutting"] for p in fabric["cutting"]["pictures"]}
    assert named == figures


@pytest.mark.parametrize("name", NAMES)
def test_every_step_has_words_and_every_unit_a_title_of_its_own(name: str) -> None:
    document = json.loads(files(name)["plan.json"])
    titles = [unit["title"] for unit in document["units"]]
    assert len(titles) == len(set(titles))
    for step in document["steps"]:
        assert re.fullmatch(r"[A-Z].*\.", step["text"]), step
        assert "  " not in step["text"] and "None" not in step["text"] and "sqrt" not in step["text"]
