"""What a pattern asks for: its `make` lines and the quilts they leave, or what it makes where it has neither."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING, NamedTuple

from piecewright.evaluate.arguments import handed_over
from piecewright.evaluate.bind import PieceNode, piece
from piecewright.evaluate.circles import references
from piecewright.evaluate.definition import Definition
from piecewright.evaluate.env import Env
from piecewright.evaluate.pieces import recipe
from piecewright.evaluate.products import Product, in_order
from piecewright.evaluate.recipes import Recipe
from piecewright.evaluate.report import Problem, Silent
from piecewright.evaluate.scope import Margin, Part, Scope
from piecewright.evaluate.values import Unknown, count
from piecewright.source import Span
from piecewright.syntax.ast import Call, Line, Name, Phrase
from piecewright.syntax.ast import Part as PhrasePart

if TYPE_CHECKING:
    from piecewright.evaluate.session import Session

FORM = "write `make 4 of goose(2, sand, dusk)`"


class Asked(NamedTuple):
    """So many of a product. `line` is the `make` that asks for it, and `head` what it names; None where the pattern
    makes it of itself."""

    product: Product
    number: int
    line: Line | None = None
    head: Span | None = None


def asked(session: Session) -> tuple[Asked, ...]:
    """What is to be made, in order; what is wrong with it is reported."""
    scope = session.main
    found: list[Asked] = []
    for line in scope.makes:
        try:
            found.append(asked_for(line, scope))
        except Problem as problem:
            session.report.problem(problem)
        except Silent:
            continue
    if not scope.makes or any(definition.kind == "quilt" for definition in scope.definitions):
        own = [Asked(product, 1) for product in _of_itself(scope)]
        if scope.makes or any(definition.kind == "quilt" for definition in scope.definitions):
            own = _left_by(found, own, session)
        found += own
        broken = scope.file.refused or any(definition.broken for definition in scope.definitions)
        if not found and not broken and not session.report.failed:
            _nothing(session)
    return tuple(found)


def _left_by(makes: Iterable[Asked], own: list[Asked], session: Session) -> list[Asked]:
    """The quilts that no `make` asks for, and that nothing else is made of that is asked for."""

    def definitions(asked: Iterable[Asked], *, below: bool) -> set[int]:
        keys = [one.product.key for one in asked]
        made = {one.key for one in in_order(session.products, keys)} - (set(keys) if below else set())
        return {id(session.origin(key)[0]) for key in made}

    taken = definitions(makes, below=False) | definitions(own, below=True)
    return [one for one in own if id(session.origin(one.product.key)[0]) not in taken]


def _nothing(session: Session) -> None:
    """A file whose units all wait for a size or a piece makes nothing by itself."""
    scope = session.main
    if not scope.definitions:
        return
    first = scope.definitions[0]
    waiting = [p.name for p in first.parameters if p.default is None and p.kind not in ("fabric", None)]
    told = f": `{first.name}` is not told its `{waiting[0]}`" if waiting else ""
    session.report.add(
        "W501",
        "warning",
        f"nothing is made by this file alone{told}",
        first.span,
        f"ask for some: `make 4 of {first.name}(…)`",
    )


def asked_for(line: Line, scope: Scope) -> Asked:
    """What a line `make COUNT of PIECE` asks for. Raises `Problem` and `Silent`."""
    step = line.sentence.step
    first = step.parts[0]
    if (
        len(step.parts) < 2
        or step.parts[1].word is None
        or step.parts[1].word.text != "of"
        or len(first.members) > 1
        or len(first.members[0].items) != 2
    ):
        raise Problem("E212", "this does not say how many of what to make", step.span, FORM)
    if line.sentence.clauses:
        raise Problem("E213", "`make` has no clauses", line.sentence.clauses[0].span)
    if line.children:
        raise Problem("E219", "nothing can stand under `make`", line.children[0].span)
    env = Env(scope.session, scope)
    of = step.parts[1]
    rest = PhrasePart(word=None, members=of.members, span=of.members[0].span)
    node = piece(Phrase(parts=(rest, *step.parts[2:]), span=of.members[0].span.to(step.span)))
    number: int | Unknown = 1
    problem: Problem | None = None
    try:
        number = count(first.members[0].items[1], env)
    except Problem as one:
        problem = one
    product = _product(node, env)
    if problem is not None:
        raise problem
    assert not isinstance(number, Unknown)
    return Asked(product, number, line, node.head.span if node.head is not None else None)


def _product(node: PieceNode, env: Env) -> Product:
    """The unit that a `make` names; its fabrics may be left out. Raises `Problem` and `Silent`."""
    head = node.head
    name = head.name if isinstance(head, Call) else head
    entry = env.scope.find(name.text, name.span) if name is not None else None
    made: Recipe | Unknown
    if isinstance(entry, Definition | Part) and name is not None and head is not None:
        product = _with_stand_ins(entry, head, name, env)
        made = Recipe(product, ()).turned(node.turns)
    else:
        made = recipe(node, env)
    if isinstance(made, Unknown):
        raise Silent
    if not isinstance(made.base, Product):
        raise Problem("E204", "a unit or a block is made, and this is a piece cut from cloth", node.span, FORM)
    made.brought(env.session, node.span)
    return env.session.mirror(made.base, made.mirrored)


def _with_stand_ins(entry: Definition | Part, head: Name | Call, name: Name, env: Env) -> Product:
    definition = entry.definition if isinstance(entry, Part) else entry
    if isinstance(entry, Definition) and entry.parts:
        told = " or ".join(f"`{part.text}`" for part in entry.parts)
        raise Problem("E216", f"`{entry.name}` is cut into named parts", name.span, f"make one of its parts: {told}")
    arguments = head.arguments if isinstance(head, Call) else ()
    values, spans = handed_over(definition, arguments, name, head.span, env, stand_ins=True)
    if values is None:
        raise Silent
    part = entry.name if isinstance(entry, Part) else None
    return env.session.made(definition, values, spans, head.span, part)


def _of_itself(scope: Scope) -> list[Product]:
    """Each quilt once, or, with none, each block, or each unit that no other uses, as far as nothing is left open."""
    quilts = [d for d in scope.definitions if d.kind == "quilt"]
    blocks = [d for d in scope.definitions if d.kind == "block"]
    if quilts:
        wanted = quilts
    elif blocks:
        wanted = blocks
    else:
        used = {id(user) for d in scope.definitions for user, _ in references(d) if user is not d}
        used |= _at_margin(scope)
        wanted = [d for d in scope.definitions if id(d) not in used]
    found: list[Product] = []
    for definition in wanted:
        scope.session.parameter_kinds(definition)
        if definition.broken or any(
            p.default is None and p.kind not in ("fabric", None) for p in definition.parameters
        ):
            continue
        name = Name(text=definition.name, span=definition.span)
        env = Env(scope.session, scope)
        try:
            values, _ = handed_over(definition, (), name, definition.span, env, stand_ins=True)
            if values is None:
                continue
            product = scope.session.made(definition, values, {}, None)
        except Problem as problem:
            scope.session.report.problem(problem)
            continue
        except Silent:
            continue
        if product.parts:
            found += product.parts.values()
        elif product.usable is None:
            found.append(product)
    return found


def _at_margin(scope: Scope) -> set[int]:
    """The definitions that names at the margin stand for."""
    used: set[int] = set()
    for margin in scope.names.values():
        if isinstance(margin, Margin) and isinstance(margin.node, PieceNode) and margin.node.head is not None:
            head = margin.node.head
            entry = scope.names.get(head.name.text if isinstance(head, Call) else head.text)
            if isinstance(entry, Definition):
                used.add(id(entry))
    return used
