"""Near words, and none where none is near."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from piecewright.diagnostics.nearest import distance, nearest

WORDS = ("square", "rectangle", "strip", "border", "join", "trim", "turn", "take", "half-square", "lay", "by")


@pytest.mark.parametrize(
    ("word", "meant"),
    [
        ("squre", "square"),
        ("sqaure", "square"),
        ("squares", "square"),
        ("Square", None),  # capitals are no slip: it is the word itself
        ("rectengle", "rectangle"),
        ("stirp", "strip"),
        ("halfsquare", "half-square"),
        ("half-sqare", "half-square"),
        ("jion", "join"),
        ("tirm", "trim"),
        ("turm", "turn"),
        ("bi", None),
        ("sew", None),
        ("circle", None),
        ("quilt", None),
        ("", None),
    ],
)
def test_only_close_words_are_suggested(word: str, meant: str | None) -> None:
    assert nearest(word, WORDS) == meant


def test_the_answer_does_not_hang_on_the_order_of_the_words() -> None:
    assert nearest("tarn", ("torn", "turn")) == nearest("tarn", ("turn", "torn")) == "torn"
    assert nearest("hind", ("kind", "hint")) == nearest("hind", ("hint", "kind")) == "hint"


def slow(first: str, second: str) -> int:
    """The same distance by its recursive definition."""
    if not first or not second:
        return len(first) + len(second)
    best = min(
        slow(first[1:], second) + 1,
        slow(first, second[1:]) + 1,
        slow(first[1:], second[1:]) + (first[0] != second[0]),
    )
    if len(first) > 1 and len(second) > 1 and first[0] == second[1] and first[1] == second[0]:
        best = min(best, slow(first[2:], second[2:]) + 1)
    return best


@given(st.text("abc", max_size=5), st.text("abc", max_size=5), st.integers(0, 5))
def test_the_distance_is_the_one_of_its_definition(first: str, second: str, limit: int) -> None:
    assert distance(first, second, limit) == min(slow(first, second), limit + 1)
