"""The library stands behind every pattern, and a mistake in it is told at the user's line."""

from __future__ import annotations

import pytest
from evaluate.pattern import built, found, made, parsed
from piecewright.evaluate import session
from piecewright.evaluate.library import library_file
from piecewright.kernel.measure import width

TEXTS = {
    "tip": "unit tip (size, cloth)\n    square size of cloth\n    cut once on diagonal\n",
    "pair": "unit pair (size, a, b)\n    take tip(size, a)\n    join tip(size - 1, b) on long-edge\n",
}


@pytest.fixture(autouse=True)
def a_library(monkeypatch: pytest.MonkeyPatch) -> None:
    def lookup(name: str) -> object:
        return parsed(TEXTS[name], f"<library>/{name}.piece") if name in TEXTS else None

    monkeypatch.setattr(session, "library_file", lookup)


def test_a_unit_of_the_library_needs_no_use() -> None:
    build = built("unit one (sand)\n    take tip(4, sand)\n")
    assert made(build)["tip(4, sand)"].file == "<library>/tip.piece"


def test_the_pattern_comes_first() -> None:
    build = built("unit tip (size, cloth)\n    square size + 1 of cloth\n\nblock one (sand)\n    take tip(4, sand)\n")
    assert width(made(build)["one(sand)"].unit) == 5


def test_a_mistake_inside_is_told_at_the_line_that_led_there() -> None:
    text = "block one (sand, dusk)\n    take pair(4, sand, dusk)\n"
    build, (one,) = found(text)
    assert build is None
    assert one.code == "E301"
    assert (one.span.source.name, one.span.text) == ("pattern.piece", "pair(4, sand, dusk)")
    assert [(label.span.source.name, label.span.text) for label in one.trace] == [("<library>/pair.piece", "long-edge")]


def test_an_unknown_name_is_not_found_there_either() -> None:
    _, (one,) = found("block one (sand)\n    take top-tip(4, sand)\n")
    assert (one.code, one.message) == ("E202", "there is no unit `top-tip`")


@pytest.mark.parametrize("name", ["no-such-unit", "__init__", "../examples/01"])
def test_the_real_library_has_only_what_it_has(name: str) -> None:
    assert library_file(name) is None
