"""What a parameter is, read off from where it is used."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from piecewright.evaluate.bind import Match, PieceNode
from piecewright.evaluate.definition import Definition, Statement, ValueNode
from piecewright.evaluate.scope import Part
from piecewright.syntax.ast import Call, Item, Name, Number, Phrase, Product, Sum
from piecewright.verbs.table import VERBS
from piecewright.verbs.template import Slot

if TYPE_CHECKING:
    from piecewright.evaluate.session import Session

OF_SLOT = {
    "length": "size",
    "count": "count",
    "angle": "count",
    "fabric": "fabric",
    "edge": "place",
    "edges": "place",
    "corners": "place",
    "line": "place",
    "lines": "place",
    "point": "place",
    "place": "place",
    "places": "place",
    "end": "place",
}

Use = tuple[str, str]  # a name and what it is used as


def settle(definition: Definition, session: Session) -> None:
    """Sets `kind` of each parameter. Used as a count anywhere, a parameter is a count; else its first use says."""
    found: dict[str, str] = {}
    for name, kind in _of_definition(definition, session):
        if kind == "count" or name not in found:
            found[name] = kind
    for parameter in definition.parameters:
        parameter.kind = found.get(parameter.name)
        if parameter.kind is None and isinstance(parameter.default, Number | Sum | Product):
            parameter.kind = "size"


def _of_definition(definition: Definition, session: Session) -> Iterator[Use]:
    statements = definition.statements(session.report)
    uses: list[Use] = []
    for statement in _all(statements):
        if statement.match is not None:
            uses += _of_match(statement.match, definition, session)
        for row in statement.rows:
            for cell in row:
                uses += _of_piece(cell, definition, session)
    # what an `is` name is used as, its value is
    for statement in reversed(list(_all(statements))):
        if statement.name is not None and statement.value is not None:
            value = statement.value
            if isinstance(value, Name):
                uses += [(value.text, kind) for name, kind in uses if name == statement.name.text]
            else:
                uses += _of_value(value, definition, session)
    for parameter in definition.parameters:
        for default in parameter.defaults:
            if not isinstance(default, Name):
                uses += _of_value(default, definition, session)
    yield from uses


def _all(statements: list[Statement]) -> Iterator[Statement]:
    for statement in statements:
        yield statement
        yield from _all(statement.children)


def _of_match(match: Match, definition: Definition, session: Session) -> Iterator[Use]:
    for one in (match, *match.clauses):
        for part in one.form.parts:
            for token in part.tokens:
                if not isinstance(token, Slot) or token.name not in one.nodes:
                    continue
                node = one.nodes[token.name]
                if isinstance(node, PieceNode):
                    yield from _of_piece(node, definition, session)
                elif isinstance(node, tuple):
                    if token.kind in OF_SLOT:
                        for item in node:
                            yield from _as(item, OF_SLOT[token.kind], definition, session)
                elif token.kind in OF_SLOT:
                    yield from _as(node, OF_SLOT[token.kind], definition, session)


def _as(node: Item, kind: str, definition: Definition, session: Session) -> Iterator[Use]:
    """A node that stands where a kind of thing is wanted."""
    if isinstance(node, Name):
        yield node.text, kind
    else:
        # in arithmetic with other things a parameter is a factor as likely as a count
        yield from _in_sum(node, "count" if kind == "count" else "size", definition, session)


def _in_sum(node: Item, kind: str, definition: Definition, session: Session) -> Iterator[Use]:
    if isinstance(node, Name):
        yield node.text, kind
    elif isinstance(node, Sum):
        for term in node.terms:
            yield from _in_sum(term, kind, definition, session)
    elif isinstance(node, Product):
        for factor in node.factors:
            yield from _in_sum(factor, kind, definition, session)
    elif isinstance(node, Call):
        wanted = "size" if node.name.text == "diagonal" else "piece"
        for argument in node.arguments:
            yield from _of_argument(argument, wanted, definition, session)


def _of_value(value: ValueNode, definition: Definition, session: Session) -> Iterator[Use]:
    if isinstance(value, PieceNode):
        yield from _of_piece(value, definition, session)
    else:
        yield from _in_sum(value, "size", definition, session)


def _of_piece(node: PieceNode, definition: Definition, session: Session) -> Iterator[Use]:
    if node.noun is not None:
        yield from _of_match(node.noun, definition, session)
    elif isinstance(node.head, Name):
        yield node.head.text, "piece"
    elif node.head is not None:
        yield from _of_call(node.head, definition, session)


def _of_call(call: Call, definition: Definition, session: Session) -> Iterator[Use]:
    entry = definition.scope.peek(call.name.text)
    called = entry.definition if isinstance(entry, Part) else entry
    if not isinstance(called, Definition) or called.broken:
        return
    session.parameter_kinds(called)
    for number, argument in enumerate(call.arguments):
        items = argument.parts[0].members[0].items
        first = items[0]
        named = next((p for p in called.parameters if isinstance(first, Name) and p.name == first.text), None)
        if named is not None and len(items) > 1:
            if len(items) == 2 and named.kind is not None:
                yield from _as(items[1], named.kind, definition, session)
        elif number < len(called.parameters):
            yield from _of_argument(argument, called.parameters[number].kind, definition, session)


def _of_argument(argument: Phrase, kind: str | None, definition: Definition, session: Session) -> Iterator[Use]:
    items = argument.parts[0].members[0].items
    first = items[0]
    if isinstance(first, Name) and first.text in VERBS:
        for part in argument.parts[1:]:
            if part.word is not None and part.word.text == "of":
                for item in part.members[0].items:
                    if isinstance(item, Name):
                        yield item.text, "fabric"
        for item in items[1:]:
            yield from _in_sum(item, "size", definition, session)
    elif isinstance(first, Call):
        if first.name.text in ("width", "height", "diagonal"):
            yield from _in_sum(first, "size", definition, session)
        else:
            yield from _of_call(first, definition, session)
    elif isinstance(first, Name) and len(items) > 1:
        yield first.text, "piece"
    elif kind is not None:
        yield from _as(first, kind, definition, session)
