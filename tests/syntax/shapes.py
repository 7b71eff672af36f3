"""A tree written in one line, so that a test can say what it expects."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from piecewright.source import Source
from piecewright.syntax import ast
from piecewright.syntax.parse import parse


def shape(node: Any) -> str:
    """Words as they read; `[a b]` items side by side, `{a + b}` arithmetic, `a(b, c)` a call, `word: …` a part."""
    match node:
        case ast.Name():
            return node.text
        case ast.Text():
            return f"'{node.text}'"
        case ast.Number():
            return f"{node.value}{node.unit or ''}".replace(" ", "")
        case ast.Call():
            return f"{node.name.text}({', '.join(map(shape, node.arguments))})"
        case ast.Sum():
            return _arithmetic(node.terms, node.operators)
        case ast.Product():
            return _arithmetic(node.factors, node.operators)
        case ast.Member():
            return f"[{' '.join(map(shape, node.items))}]"
        case ast.Part():
            members = " and ".join(map(shape, node.members))
            return f"{node.word.text}: {members}" if node.word else members
        case ast.Phrase():
            return " ".join(map(shape, node.parts))
        case ast.Sentence():
            return ", ".join(map(shape, (node.step, *node.clauses)))
        case ast.Row():
            return "| " + " | ".join(map(shape, node.cells))
        case ast.Line():
            under = "; ".join(map(shape, node.children))
            return shape(node.sentence) + (f" {{ {under} }}" if under else "")
        case ast.File():
            return "\n".join(map(shape, node.lines))
    raise TypeError(type(node))


def _arithmetic(values: tuple[Any, ...], operators: tuple[str, ...]) -> str:
    signs = ("", *(f" {sign} " for sign in operators))
    return "{" + "".join(sign + shape(value) for sign, value in zip(signs, values, strict=True)) + "}"


def parsed(text: str) -> ast.File:
    """The tree of a text in which nothing is refused."""
    file, found = parse(Source("test.piece", text))
    assert not found, [d.message for d in found]
    assert file is not None
    return file


def children(node: Any) -> tuple[Any, ...]:
    """The nodes directly in a node, in the order of the text."""
    match node:
        case ast.File():
            return node.lines
        case ast.Line():
            return (node.sentence, *node.children)
        case ast.Sentence():
            return (node.step, *node.clauses)
        case ast.Row():
            return node.cells
        case ast.Phrase():
            return node.parts
        case ast.Part():
            return (node.word, *node.members) if node.word else node.members
        case ast.Member():
            return node.items
        case ast.Call():
            return (node.name, *node.arguments)
        case ast.Sum():
            return node.terms
        case ast.Product():
            return node.factors
    return ()


def all_nodes(node: Any) -> Iterator[Any]:
    """A node and all in it."""
    yield node
    for child in children(node):
        yield from all_nodes(child)
