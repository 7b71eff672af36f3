"""How findings are handed to programs."""

from __future__ import annotations

import json

import jsonschema
import pytest
from diagnostics.samples import ALL, EDGES, at
from piecewright.diagnostics.codes import CODES
from piecewright.diagnostics.model import Diagnostic, Label
from piecewright.diagnostics.report import report
from piecewright.diagnostics.sarif import sarif
from piecewright.source import Source, Span


def closed(required: str, **properties: object) -> dict[str, object]:
    return {
        "type": "object",
        "additionalProperties": False,
        "required": required.split(),
        "properties": properties,
    }


def many(of: object, **more: object) -> dict[str, object]:
    return {"type": "array", "items": of, **more}


def ref(name: str) -> dict[str, str]:
    return {"$ref": f"#/definitions/{name}"}


TEXT = {"type": "string"}
COUNT = {"type": "integer", "minimum": 1}
LEVEL = {"enum": ["none", "note", "warning", "error"]}

# The parts of SARIF 2.1.0 (OASIS Standard, 27 March 2020) that are written here, each with what the standard
# requires of it; the section stands beside each. Objects are closed, as the standard's own schema has them.
SARIF = {
    "$schema": "http://json-schema.org/draft-07/schema#",
    **closed("version runs", **{"$schema": TEXT, "version": {"const": "2.1.0"}, "runs": many(ref("run"))}),  # 3.13
    "definitions": {
        "run": closed(  # 3.14
            "tool",
            tool=closed("driver", driver=ref("toolComponent")),  # 3.18
            results=many(ref("result")),
            columnKind={"enum": ["utf16CodeUnits", "unicodeCodePoints"]},
        ),
        "toolComponent": closed("name", name=TEXT, version=TEXT, rules=many(ref("rule"), uniqueItems=True)),  # 3.19
        "rule": closed(  # reportingDescriptor, 3.49
            "id",
            id=TEXT,
            shortDescription=ref("multiformat"),
            help=ref("multiformat"),
            defaultConfiguration=closed("", level=LEVEL),  # 3.50
        ),
        "multiformat": closed("text", text=TEXT, markdown=TEXT),  # multiformatMessageString, 3.12
        "message": {**closed("", text=TEXT, id=TEXT), "anyOf": [{"required": ["text"]}, {"required": ["id"]}]},  # 3.11
        "result": closed(  # 3.27
            "message",
            ruleId=TEXT,
            ruleIndex={"type": "integer", "minimum": -1},
            level=LEVEL,
            message=ref("message"),
            locations=many(ref("location")),
            relatedLocations=many(ref("location"), uniqueItems=True),
            stacks=many(closed("frames", frames=many(closed("", location=ref("location")))), uniqueItems=True),  # 3.44
            properties={"type": "object"},
        ),
        "location": closed(  # 3.28
            "",
            id={"type": "integer", "minimum": -1},
            message=ref("message"),
            physicalLocation=closed(  # 3.29
                "artifactLocation",
                artifactLocation=closed("uri", uri={"type": "string", "format": "uri-reference"}),  # 3.4
                region=closed("", startLine=COUNT, startColumn=COUNT, endLine=COUNT, endColumn=COUNT),  # 3.30
            ),
        ),
    },
}


def test_sarif_is_as_the_standard_requires() -> None:
    log = json.loads(sarif(ALL, version="1.2.3"))
    jsonschema.Draft7Validator.check_schema(SARIF)
    jsonschema.validate(log, SARIF)
    (run,) = log["runs"]
    for result in run["results"]:
        assert run["tool"]["driver"]["rules"][result["ruleIndex"]]["id"] == result["ruleId"]
        for place in result["locations"]:
            region = place["physicalLocation"].get("region")
            if region:
                assert (region["startLine"], region["startColumn"]) <= (region["endLine"], region["endColumn"])


@pytest.mark.parametrize("path", [("version",), ("runs", 0, "tool"), ("runs", 0, "results", 0, "message")])
def test_the_schema_finds_what_is_left_out(path: tuple[str | int, ...]) -> None:
    log = json.loads(sarif(ALL, version="1.2.3"))
    inner = log
    for step in path[:-1]:
        inner = inner[step]
    del inner[path[-1]]
    with pytest.raises(jsonschema.ValidationError):
        jsonschema.validate(log, SARIF)


def test_sarif_holds_every_part_of_a_finding() -> None:
    log = json.loads(sarif([EDGES], version="1.2.3"))
    (result,) = log["runs"][0]["results"]
    assert result["message"]["text"] == f"{EDGES.message}. {EDGES.hint}"
    assert result["locations"][0]["physicalLocation"] == {
        "artifactLocation": {"uri": "lantern.piece"},
        "region": {"startLine": 10, "startColumn": 10, "endLine": 10, "endColumn": 26},
    }
    assert [one["id"] for one in result["relatedLocations"]] == [1, 2]
    assert result["relatedLocations"][1]["physicalLocation"]["artifactLocation"]["uri"] == "parts/posts.piece"
    assert len(result["stacks"][0]["frames"]) == 1


@pytest.mark.parametrize(
    ("name", "uri"),
    [("a b.piece", "a%20b.piece"), ("/x/é.piece", "file:///x/%C3%A9.piece"), ("<stdin>", "%3Cstdin%3E")],
)
def test_sarif_names_files_as_uris(name: str, uri: str) -> None:
    one = Diagnostic(
        code="E901", severity="error", message="gone", labels=(Label(span=Span(Source(name, "x"), 0, 1)),)
    )
    log = json.loads(sarif([one], version="1"))
    assert log["runs"][0]["results"][0]["locations"][0]["physicalLocation"]["artifactLocation"]["uri"] == uri


def test_json_has_the_shape_that_is_documented() -> None:
    place = closed("file text start end", file=TEXT, text=TEXT, start=ref("position"), end=ref("position"))
    position = closed("line column offset", line=COUNT, column=COUNT, offset={"type": "integer", "minimum": 0})
    schema = {
        **closed(
            "schema errors warnings diagnostics",
            schema={"const": "piecewright-diagnostics/1"},
            errors={"type": "integer"},
            warnings={"type": "integer"},
            diagnostics=many(
                closed(
                    "code severity title message hint labels trace",
                    code={"enum": list(CODES)},
                    severity={"enum": ["error", "warning", "note"]},
                    title=TEXT,
                    message=TEXT,
                    hint={"type": ["string", "null"]},
                    labels=many(ref("place"), minItems=1),
                    trace=many(ref("place")),
                )
            ),
        ),
        "definitions": {"place": place, "position": {"anyOf": [{"type": "null"}, position]}},
    }
    whole = json.loads(report(ALL))
    jsonschema.validate(whole, schema)
    assert (whole["errors"], whole["warnings"]) == (2, 1)
    first = whole["diagnostics"][1]["labels"][0]
    start = {"line": 10, "column": 10, "offset": at("rectangle 9 by 3").start}
    assert (first["start"], first["end"]["column"]) == (start, 26)
    assert json.loads(report([])) == {
        "schema": "piecewright-diagnostics/1",
        "errors": 0,
        "warnings": 0,
        "diagnostics": [],
    }
