"""Which definitions use which, and those that lead back to themselves."""

from __future__ import annotations

from collections.abc import Iterator

from piecewright.diagnostics.model import Label
from piecewright.evaluate.bind import Match, PieceNode
from piecewright.evaluate.definition import Definition, Statement, ValueNode
from piecewright.evaluate.report import Problem
from piecewright.evaluate.scope import Margin, Part, Scope
from piecewright.source import Span
from piecewright.syntax.ast import Call, Item, Name, Number, Phrase, Product, Sum, Text
from piecewright.verbs.table import VERBS

Reference = tuple[Definition, Span]

DEEPEST = 40  # units within units; each level is some calls deep


def references(definition: Definition) -> tuple[Reference, ...]:
    """The definitions of the same file that one uses, each with the first place where it does."""
    scope = definition.scope
    own = {p.name for p in definition.parameters}
    statements = list(_all(definition.statements(scope.session.report)))
    own.update(s.name.text for s in statements if s.name is not None)
    chosen = [s.match.nodes.get("NAME") for s in statements if s.match is not None]
    own.update(node.text for node in chosen if isinstance(node, Name))
    found: dict[int, Reference] = {}
    for parameter in definition.parameters:
        for default in parameter.defaults:
            for name in _in_value(default):
                if name.text not in own:
                    _follow(scope, name, found)
    for statement in statements:
        for name in _in_statement(statement):
            if name.text not in own:
                _follow(scope, name, found)
    return tuple(found.values())


def _follow(scope: Scope, name: Name, found: dict[int, Reference]) -> None:
    entry = scope.names.get(name.text)
    if isinstance(entry, Part):
        entry = entry.definition
    if isinstance(entry, Definition):
        found.setdefault(id(entry), (entry, name.span))
    elif isinstance(entry, Margin) and not entry.running:
        entry.running = True
        for inner in _in_value(entry.node):
            _follow(scope, inner, found)
        entry.running = False


def refuse_circles(scope: Scope) -> None:
    """Reports each circle of definitions once, and what is nested too deep; marks the definitions as broken."""
    graph = {id(d): references(d) for d in scope.definitions}
    depths: dict[int, int] = {}
    for definition in scope.definitions:
        _walk(definition, graph, depths, scope)
    for definition in scope.definitions:
        if depths[id(definition)] > DEEPEST:
            definition.broken = True
        if depths[id(definition)] == DEEPEST + 1:
            message = f"units are nested more than {DEEPEST} deep here"
            scope.session.report.problem(Problem("E118", message, definition.span))


def _walk(start: Definition, graph: dict[int, tuple[Reference, ...]], depths: dict[int, int], scope: Scope) -> None:
    """Depths of a definition and all that it uses, a unit of cloth alone being 1 deep; circles are reported."""
    if id(start) in depths:
        return
    path: list[Definition] = [start]
    left: list[list[Reference]] = [list(graph[id(start)])]
    spans: list[Span] = []
    while path:
        if left[-1]:
            used, span = left[-1].pop(0)
            spans[len(path) - 1 :] = [span]
            if used in path:
                at = path.index(used)
                _report(list(zip(path[at:], spans[at:], strict=True)), scope)
            elif id(used) not in depths:
                path.append(used)
                left.append(list(graph[id(used)]))
            continue
        left.pop()
        done = path.pop()
        depths[id(done)] = 1 + max((depths.get(id(used), 0) for used, _ in graph[id(done)]), default=0)


def _report(circle: list[Reference], scope: Scope) -> None:
    """`circle`: each definition with the place where it uses the next, the last using the first."""
    for definition, _ in circle:
        definition.broken = True
    first, span = circle[0]
    following = [*circle[1:], circle[0]]
    others = tuple(
        Label(span=place, text=f"`{user.name}` uses `{used.name}`")
        for (user, place), (used, _) in list(zip(circle, following, strict=True))[1:]
    )
    if len(circle) == 1:
        message = f"`{first.name}` uses itself"
    else:
        message = f"`{first.name}` leads back to itself, by way of " + " and ".join(
            f"`{d.name}`" for d, _ in circle[1:]
        )
    scope.session.report.problem(
        Problem("E209", message, span, "a unit is made of smaller ones; to do steps again use `repeat`", *others)
    )


def _all(statements: list[Statement]) -> Iterator[Statement]:
    for statement in statements:
        yield statement
        yield from _all(statement.children)


def _in_statement(statement: Statement) -> Iterator[Name]:
    """The names and calls a line may make pieces of."""
    if statement.value is not None:
        yield from _in_value(statement.value)
    if statement.match is not None:
        yield from _in_match(statement.match)
    for row in statement.rows:
        for cell in row:
            yield from _in_value(cell)


def _in_match(match: Match) -> Iterator[Name]:
    for node in match.nodes.values():
        if isinstance(node, tuple):
            continue
        if isinstance(node, PieceNode):
            yield from _in_value(node)
        else:
            yield from _in_item(node)


def _in_value(node: ValueNode) -> Iterator[Name]:
    if isinstance(node, PieceNode):
        if node.noun is not None:
            yield from _in_match(node.noun)
        elif isinstance(node.head, Name):
            yield node.head
        elif node.head is not None:
            yield from _in_item(node.head)
    elif isinstance(node, Name):
        yield node
    else:
        yield from _in_item(node)


def _in_item(item: Item) -> Iterator[Name]:
    """Calls within arithmetic or arguments; a bare name there is a size."""
    if isinstance(item, Call):
        yield item.name
        for argument in item.arguments:
            yield from _in_argument(argument)
    elif isinstance(item, Sum):
        for term in item.terms:
            yield from _in_item(term)
    elif isinstance(item, Product):
        for factor in item.factors:
            yield from _in_item(factor)


def _in_argument(phrase: Phrase) -> Iterator[Name]:
    """An argument is a piece by its name, or by the name of its parameter and then its own."""
    items = phrase.parts[0].members[0].items
    for item in items[:2]:
        if isinstance(item, Name):
            if item.text not in VERBS:
                yield item
        elif not isinstance(item, Number | Text):
            yield from _in_item(item)
