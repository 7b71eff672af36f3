"""plan.json against its schema, its description and the plan."""

from __future__ import annotations

import json
import re
from importlib.resources import files
from typing import Any

import jsonschema
import pytest
from emit import plans
from piecewright.emit import json as written
from piecewright.exact import Exact, fraction_text

SCHEMA = json.loads(files("piecewright.emit.templates").joinpath("plan.schema.json").read_text(encoding="utf-8"))
DESCRIPTION = files("piecewright.emit").joinpath("plan-format.md").read_text(encoding="utf-8")
PLANS = plans.several()
VALIDATOR = jsonschema.Draft202012Validator(SCHEMA)


def sizes(value: Any) -> list[dict[str, str]]:
    if isinstance(value, dict):
        if set(value) == {"exact", "ruler"}:
            return [value]
        return [size for part in value.values() for size in sizes(part)]
    return [size for part in value for size in sizes(part)] if isinstance(value, list) else []


def test_the_schema_is_one() -> None:
    jsonschema.Draft202012Validator.check_schema(SCHEMA)


@pytest.mark.parametrize("name", PLANS)
def test_it_is_valid(name: str) -> None:
    document = json.loads(written(PLANS[name]))
    assert [error.message for error in VALIDATOR.iter_errors(document)] == []
    assert next(iter(document)) == "schema" and document["schema"] == "piecewright-plan/1"


@pytest.mark.parametrize("attack", plans.ATTACKS)
def test_it_is_valid_whatever_the_designer_writes(attack: str) -> None:
    assert [error.message for error in VALIDATOR.iter_errors(json.loads(written(plans.hostile(attack))))] == []


def test_a_plan_that_breaks_the_schema_is_found() -> None:
    document = json.loads(written(PLANS["lantern"]))
    document["units"][0]["unfinished"]["width"]["exact"] = "4.5"
    document["cuts"][0]["count"] = 0
    document["cuts"][0]["more"] = 1
    assert len(list(VALIDATOR.iter_errors(document))) == 3


@pytest.mark.parametrize("name", PLANS)
def test_exact_sizes_are_in_lowest_terms_and_near_their_ruler_sizes(name: str) -> None:
    for size in sizes(json.loads(written(PLANS[name]))):
        exact = Exact.parse(size["exact"])
        assert str(exact) == size["exact"]
        if name != "centimetres" and exact.is_rational and exact.ratio[1] in (1, 2, 4, 8):
            assert size["ruler"] == fraction_text(exact)


def test_the_lantern_as_data() -> None:
    document = json.loads(written(PLANS["lantern"]))
    block = next(unit for unit in document["units"] if unit["id"] == "lantern-dusk-glow")
    assert (block["name"], block["colours"], block["makes"], block["spare"]) == ("lantern", ["dusk", "glow"], 12, 0)
    assert block["unfinished"] == {"width": {"exact": "8", "ruler": "8"}, "height": {"exact": "8", "ruler": "8"}}
    assert block["finished"]["width"] == {"exact": "15/2", "ruler": "7 1/2"}
    half = next(unit for unit in document["units"] if unit["name"] == "half-plain")
    assert half["finished"]["width"] == {"exact": "17/2 - 1/4*sqrt(2)", "ruler": "8 1/8"}
    assert document["cuts"][2] == {
        "fabric": "dusk",
        "shape": "rectangle",
        "angle": None,
        "width": {"exact": "9/4", "ruler": "2 1/4"},
        "height": {"exact": "9", "ruler": "9"},
        "count": 12,
        "reversed": False,
        "label": "framed in glow and dusk",
        "units": ["framed-glow-dusk"],
        "each": None,
        "batches": None,
        "prints": "",
        "radius": None,
        "template": "",
        "letter": "c",
    }
    assert [step["number"] for step in document["steps"] if step["unit"] == "lantern-dusk-glow"] == [1, 2, 3]


@pytest.mark.parametrize("name", PLANS)
def test_what_it_refers_to_is_there(name: str) -> None:
    document = json.loads(written(PLANS[name]))
    units = [unit["id"] for unit in document["units"]]
    assert len(units) == len(set(units))
    for step in document["steps"]:
        assert step["unit"] in units
    for unit in document["units"]:
        assert set(unit["parts"]) <= set(units)
        assert set(unit["colours"]) <= {fabric["name"] for fabric in document["fabrics"]}
    cut = [0] * len(document["cuts"])
    for strip in document["strips"]:
        for piece in strip["pieces"]:
            assert document["cuts"][piece["cut"]]["fabric"] == strip["fabric"]
            cut[piece["cut"]] += piece["count"]
    assert cut == [row["count"] for row in document["cuts"]]


def test_every_key_is_described() -> None:
    keys = {key for part in (SCHEMA, *SCHEMA["$defs"].values()) for key in part.get("properties", {})}
    described = set(re.findall(r"`([a-z_]+)(?:\[\])?`", DESCRIPTION))
    assert keys - described == set()
