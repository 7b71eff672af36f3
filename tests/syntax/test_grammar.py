"""The grammar has no conflict, the tables are those of the grammar, and they are read as lark reads them."""

from __future__ import annotations

import subprocess
import sys
from typing import Any

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st
from lark import Lark, Token, Tree
from lark.exceptions import GrammarError, LexError, UnexpectedInput
from piecewright.source import Source
from piecewright.syntax import _tables, ast, generate
from piecewright.syntax.parse import parse
from syntax.shapes import children

LARK = generate.strict_parser()


def test_the_tables_are_those_of_the_grammar() -> None:
    assert generate.TABLES.read_text(encoding="utf-8") == generate.tables_text(), (
        "the grammar has changed: python -m piecewright.syntax.generate"
    )


def test_strict_mode_would_see_a_conflict() -> None:
    """Guards the guard: the same parser refuses a grammar with two ways to read one line."""
    grammar = generate.grammar_text()
    options: dict[str, Any] = {"parser": "lalr", "lexer": "basic", "start": "line", "strict": True}
    with pytest.raises(GrammarError):
        Lark(grammar.replace("call: NAME", "call: NAME? NAME"), **options)
    with pytest.raises(LexError):
        Lark(grammar + "\nOTHER: /[a-z]+x/\n%ignore OTHER\n", **options)


def test_no_verb_is_in_the_grammar() -> None:
    words = "square rectangle strip take join border lay cut subcut turn trim repeat expect note unit block make use"
    rules = [line.split("//")[0] for line in generate.grammar_text().splitlines()]
    for word in words.split():
        assert not [rule for rule in rules if word in rule.replace("outside", "").split("/")[0]]


def test_the_tables_depend_on_nothing_but_the_grammar() -> None:
    code = "import zlib, piecewright.syntax.generate as g; print(zlib.crc32(g.tables_text().encode()))"
    seen = {
        subprocess.run(
            [sys.executable, "-c", code], env={"PYTHONHASHSEED": seed}, capture_output=True, text=True, check=True
        ).stdout
        for seed in ("1", "2", "3")
    }
    assert len(seen) == 1


def test_a_pattern_is_read_without_lark() -> None:
    code = "import sys, piecewright.syntax.parse; print('lark' in sys.modules)"
    ran = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert ran.stdout == "False\n"


WORDS = [
    "a",
    "on",
    "and",
    "half-square",
    "6",
    "1/2",
    "6 1/2",
    '"t"',
    ",",
    "|",
    " + ",
    " - ",
    "*",
    "/",
    "(",
    ")",
    "is",
    "#",
    "8 cm",
    "On",
]


def _lark_reads(line: str) -> Tree[Token] | None:
    try:
        tree: Tree[Token] = LARK.parse(line)
    except UnexpectedInput:
        return None
    return tree


def _outline(node: Any) -> Any:
    """The rule and the words of a node, as lark's tree has them."""
    if isinstance(node, ast.Name | ast.Number | ast.Text):
        return node.span.text
    if isinstance(node, ast.Line):
        return _outline(node.sentence)
    if isinstance(node, ast.Phrase):
        out: list[Any] = ["phrase"]
        for part in node.parts:
            if part.word is not None:
                out.append(part.word.span.text)
            out.append(["members", *map(_outline, part.members)])
        return out
    return [type(node).__name__.lower(), *map(_outline, children(node))]


def _lark_outline(tree: Tree[Token] | Token) -> Any:
    if isinstance(tree, Token):
        return str(tree)
    kept = [child for child in tree.children if not (isinstance(child, Token) and child.type == "AND")]
    return [tree.data, *map(_lark_outline, kept)]


@given(st.lists(st.sampled_from(WORDS), min_size=1, max_size=14).map(" ".join))
@example("a is b - c / 2 * d ( e , f g ) on 6 1/2 and a , half-square 8 cm")
@settings(max_examples=400, deadline=None)
def test_lines_are_read_as_lark_reads_them(line: str) -> None:
    """Lark is the reference: what it refuses is refused, and what is read has the same tree.

    The other way round does not hold: a joining word written twice and the like are refused after the grammar.
    """
    if not line.split("#")[0].strip():
        return
    file, found = parse(Source("test.piece", "a\n  " + line))
    assert file is not None
    tree = _lark_reads(line)
    read = file.lines[0].children
    if tree is None:
        assert found and not read
    elif not found:
        assert _outline(read[0]) == _lark_outline(tree)
    else:
        assert found[0].code in ("E105", "E107", "E109", "E113", "E117", "E106", "E103", "E108")


def test_every_refusal_of_the_tables_is_said_by_name() -> None:
    """Each state of the parser with each word that does not fit it leads to one of the known slips."""
    kinds = sorted({kind for state in _tables.TABLE for kind in state if kind.isupper()} | {"$END"})
    shortest = {"NAME": "a", "NUMBER": "6", "TEXT": '"t"', "COMMA": ",", "VBAR": "|", "PLUS": "+", "MINUS": "-"}
    shortest |= {"STAR": "*", "SLASH": "/", "LPAR": "(", "RPAR": ")", "JOINING": "on", "AND": "and", "$END": ""}
    assert set(kinds) == set(shortest)
    said = set()
    for first in kinds:
        for second in kinds:
            for third in kinds:
                for head in ("", "f(a", "a | ", "a, ", "f(b("):
                    line = " ".join([head, shortest[first], shortest[second], shortest[third], "z"]).strip()
                    file, found = parse(Source("test.piece", "a\n  " + line))
                    assert file is not None and len(found) == 1 - len(file.lines[0].children), line
                    said |= {d.code for d in found}
    assert {"E104", "E105", "E112", "E113", "E114", "E116", "E109"} <= said
