"""Every node knows the characters it was read from."""

from __future__ import annotations

import re
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from piecewright.source import Source
from piecewright.syntax import ast
from piecewright.syntax.parse import parse
from syntax.shapes import all_nodes, children, parsed
from syntax.test_parse import CONSTRUCTIONS

TEXT = """\
unit goose (size, sky)   # a remark
    join long-edge of goose-wing(2 * size + 1, sky) turned left on left and right, press toward "x" # why
    lay
        a turned left | b(1, 2)
        |  c
"""


def texts(kind: type[Any]) -> list[str]:
    return [node.span.text for node in all_nodes(parsed(TEXT)) if type(node) is kind]


@pytest.mark.parametrize(
    ("kind", "expected"),
    [
        (ast.File, [TEXT]),
        (
            ast.Line,
            [
                "unit goose (size, sky)",
                'join long-edge of goose-wing(2 * size + 1, sky) turned left on left and right, press toward "x"',
                "lay",
            ],
        ),
        (ast.Row, ["a turned left | b(1, 2)", "|  c"]),
        (ast.Call, ["goose (size, sky)", "goose-wing(2 * size + 1, sky)", "b(1, 2)"]),
        (ast.Sum, ["2 * size + 1"]),
        (ast.Product, ["2 * size"]),
        (ast.Number, ["2", "1", "1", "2"]),
        (ast.Text, ['"x"']),
        (
            ast.Part,
            [
                "unit goose (size, sky)",
                "size",
                "sky",
                "join long-edge",
                "of goose-wing(2 * size + 1, sky) turned left",
                "2 * size + 1",
                "sky",
                "on left and right",
                "press",
                'toward "x"',
                "lay",
                "a turned left",
                "b(1, 2)",
                "1",
                "2",
                "c",
            ],
        ),
        (
            ast.Member,
            [
                "unit goose (size, sky)",
                "size",
                "sky",
                "join long-edge",
                "goose-wing(2 * size + 1, sky) turned left",
                "2 * size + 1",
                "sky",
                "left",
                "right",
                "press",
                '"x"',
                "lay",
                "a turned left",
                "b(1, 2)",
                "1",
                "2",
                "c",
            ],
        ),
    ],
)
def test_spans(kind: type[Any], expected: list[str]) -> None:
    assert texts(kind) == expected


def check_spans(file: ast.File) -> None:
    """A node's span holds those of its parts, in order and apart; what lies between them is signs and blanks."""
    for node in all_nodes(file):
        span, parts = node.span, children(node)
        if isinstance(node, ast.Line):
            assert node.sentence.span == span
            assert all(under.span.start > span.end for under in node.children)
            continue
        if isinstance(node, ast.Name):
            assert node.text == span.text.lower()
        elif isinstance(node, ast.Text):
            assert node.text == span.text[1:-1]
        place = span.start
        between = ""
        for part in parts:
            assert place <= part.span.start
            between += span.source.text[place : part.span.start]
            place = part.span.end
        assert place <= span.end
        if parts and not isinstance(node, ast.File):
            assert re.fullmatch(r"(?:[ ,|+*/()-]|and)*", (between + span.source.text[place : span.end]).lower()), (
                between
            )
            assert span.text == span.text.strip()
            assert "\n" not in span.text


def test_the_spans_of_the_constructions() -> None:
    check_spans(parsed(CONSTRUCTIONS))


def test_the_words_in_spans_are_all_the_words_there_are() -> None:
    file = parsed(CONSTRUCTIONS)
    leaves = [node for node in all_nodes(file) if isinstance(node, ast.Name | ast.Number | ast.Text)]
    left = list(CONSTRUCTIONS)
    for leaf in leaves:
        left[leaf.span.start : leaf.span.end] = " " * (leaf.span.end - leaf.span.start)
    rest = re.sub(r"#.*", "", "".join(left))
    assert set(re.findall(r"\w+", rest)) == {"and"}


SENTENCES = [line for line in CONSTRUCTIONS.splitlines() if line.strip() and not line.startswith("#")]


@given(st.lists(st.sampled_from(SENTENCES), max_size=12), st.integers(0, 3))
@settings(max_examples=100, deadline=None)
def test_spans_of_lines_in_any_order(lines: list[str], blanks: int) -> None:
    file, _ = parse(Source("test.piece", ("\n" * blanks + "\n").join(lines)))
    if file is not None:
        check_spans(file)
