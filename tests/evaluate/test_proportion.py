"""Sizes out of all proportion are told, each at the line that says it; just within bounds nothing is."""

from __future__ import annotations

import pytest
from evaluate.pattern import found, nothing, parsed
from piecewright.evaluate.run import evaluate

BLOCK = "\nblock one\n    square 5 of sand\n"


def told(text: str, settings: dict[str, str] | None = None) -> list[tuple[str, str]]:
    return [(one.code, one.span.text) for one in found(text, settings)[1]]


@pytest.mark.parametrize(
    ("beyond", "within"),
    [
        ("seam 1 1/8", "seam 1"),
        ("usable 151", "usable 150"),
        ("usable 4000 mm", "usable 3800 mm"),
        ("sold by 11 yard", "sold by 10 yard"),
    ],
)
def test_a_setting_beyond_what_is_usual(beyond: str, within: str) -> None:
    head = 'fabric sand\n\npattern "Small"\n    '
    assert told(head + beyond + BLOCK) == [("W512", beyond)]
    assert told(head + within + BLOCK) == []


@pytest.mark.parametrize(
    ("beyond", "within"),
    [
        ("usable 151", "usable 150"),
        ("margin 361", "margin 360"),
        ("sold by 11 yard", "sold by 10 yard"),
        ("sold in sheets 18 by 361", "sold in sheets 18 by 360"),
    ],
)
def test_a_fabric_beyond_what_is_usual(beyond: str, within: str) -> None:
    assert told(f"fabric sand, {beyond}\n{BLOCK}") == [("W512", "sand")]
    assert told(f"fabric sand, {within}\n{BLOCK}") == []


def test_a_setting_from_outside_is_told_at_the_beginning() -> None:
    text = f'pattern "Small"\n    ruler 1/8\n\nfabric sand\n{BLOCK}'
    assert told(text, {"ruler": "6"}) == [("E226", 'pattern "Small"')]
    assert told(text, {"tolerance": "1"}) == [("E224", 'pattern "Small"')]
    assert told(text, {"usable": "400"}) == [("W512", 'pattern "Small"')]
    assert told(text, {"ruler": "5", "tolerance": "1/4", "usable": "60"}) == []


def test_the_mark_of_another_cutter_is_told_where_it_is_said() -> None:
    pattern = parsed(f"fabric sand\n{BLOCK}")
    press = parsed("cutter press, ruler 6\n", "press.piece")
    _, (one,) = evaluate(pattern, nothing, {}, press)
    assert (one.code, one.span.source.name, one.span.text) == ("E226", "press.piece", "ruler 6")
