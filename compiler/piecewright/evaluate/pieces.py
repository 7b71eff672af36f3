"""The pieces that phrases name: cut from cloth, made by a unit, or named before."""

from __future__ import annotations

from typing import TYPE_CHECKING

from piecewright.evaluate.arguments import handed_over
from piecewright.evaluate.bind import PieceNode
from piecewright.evaluate.definition import Definition
from piecewright.evaluate.recipes import Recipe
from piecewright.evaluate.report import Problem, Silent
from piecewright.evaluate.scope import Margin, Part
from piecewright.evaluate.slots import bound
from piecewright.evaluate.values import UNKNOWN, Broken, Unknown, kind_of
from piecewright.kernel.build import Fabric
from piecewright.source import Span
from piecewright.syntax.ast import Call, Name, Phrase

if TYPE_CHECKING:
    from piecewright.evaluate.env import Env


def recipe(node: PieceNode, env: Env) -> Recipe | Unknown:
    """The piece of a phrase. Raises `Problem` and `Silent`."""
    if node.noun is not None:
        said, known, _ = bound(node.noun, env)
        if not known:
            return UNKNOWN
        brought = env.session.cut_piece(node.noun, said, env)
        return Recipe(brought, ())
    head = node.head
    assert head is not None
    found = of_name(head, env) if isinstance(head, Name) else _of_call(head, env)
    return found if isinstance(found, Unknown) else found.turned(node.turns)


def of_name(name: Name, env: Env) -> Recipe | Unknown:
    """A piece by its name alone: an `is` name or parameter, or a unit that needs nothing."""
    here = env.locals.get(name.text)
    if isinstance(here, Broken):
        raise Silent
    entry = None
    if here is None:
        entry = env.scope.find(name.text, name.span)
        if isinstance(entry, Definition | Part):
            return _made(entry, (), name, name.span, env)
        if isinstance(entry, Margin):
            here = env.session.margin(entry)
        elif isinstance(entry, Fabric):
            raise Problem(
                "E204",
                f"`{name.text}` is a fabric, and a piece is wanted here",
                name.span,
                f"cut a piece from it: `square 6 1/2 of {name.text}`",
            )
        else:
            raise env.unknown(name, "unit or piece")
    if isinstance(here, Recipe):
        return here
    if isinstance(here, Unknown):
        return UNKNOWN
    raise Problem(
        "E204", f"`{name.text}` is {kind_of(here)}, and a piece is wanted here", name.span, None, *env.cause(name)
    )


def _of_call(call: Call, env: Env) -> Recipe | Unknown:
    name = call.name
    if name.text in env.locals:
        raise Problem(
            "E206",
            f"`{name.text}` is a name given here, and is handed nothing",
            call.span,
            f"write `{name.text}` without brackets",
            *env.cause(name),
        )
    entry = env.scope.find(name.text, name.span)
    if isinstance(entry, Definition | Part):
        return _made(entry, call.arguments, name, call.span, env)
    if isinstance(entry, Fabric | Margin):
        what = "a fabric" if isinstance(entry, Fabric) else "a name given here"
        raise Problem("E206", f"`{name.text}` is {what}, and is handed nothing", call.span)
    raise env.unknown(name, "unit")


def _made(
    entry: Definition | Part, arguments: tuple[Phrase, ...], name: Name, span: Span, env: Env
) -> Recipe | Unknown:
    definition = entry.definition if isinstance(entry, Part) else entry
    values, spans = handed_over(definition, arguments, name, span, env)
    if values is None:
        return UNKNOWN
    if isinstance(entry, Definition) and entry.parts:
        told = " and ".join(f"`{part.text}`" for part in entry.parts)
        raise Problem("E216", f"`{entry.name}` is cut into named parts", name.span, f"take one of its parts: {told}")
    part = entry.name if isinstance(entry, Part) else None
    product = env.session.made(definition, values, spans, span, part)
    return Recipe(product, (product.made.name,))
