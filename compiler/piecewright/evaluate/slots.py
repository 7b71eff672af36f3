"""The slots of a matched sentence filled with values, each of its kind."""

from __future__ import annotations

from typing import TYPE_CHECKING, cast

from piecewright.evaluate.bind import Match, Node, PieceNode, near, way
from piecewright.evaluate.report import Problem
from piecewright.evaluate.spoken import CLOSED, SPOKEN
from piecewright.evaluate.values import Place, Unknown, angle, count, kind_of, length
from piecewright.kernel.build import Fabric
from piecewright.syntax.ast import Item, Name, Text
from piecewright.verbs.registry import Beside, Said
from piecewright.verbs.template import Slot
from piecewright.verbs.words import SIDES
from piecewright.verbs.work import Brought

if TYPE_CHECKING:
    from piecewright.evaluate.env import Env

PLACED = ("edge", "edges", "places", "corners", "line", "lines", "point", "place", "end", "targets")


def bound(match: Match, env: Env, rows: tuple[tuple[Brought, ...], ...] = ()) -> tuple[Said, bool, tuple[str, ...]]:
    """The sentence with its values, whether all of them are known, and its place words in order.

    Raises `Problem` and `Silent`.
    """
    values, known, places = _values(match, env)
    clauses: list[Said] = []
    for number, clause in enumerate(match.clauses):
        more, sure, also = _values(clause, env)
        known = known and sure
        places += also
        clauses.append(Said(clause.form.text, more, path=f"clause[{number}]"))
    return Said(match.form.text, values, tuple(clauses), rows), known, tuple(places)


def _values(match: Match, env: Env) -> tuple[dict[str, object], bool, list[str]]:
    values: dict[str, object] = {}
    known = True
    places: list[str] = []
    for part in match.form.parts:
        for token in part.tokens:
            if not isinstance(token, Slot) or token.name not in match.nodes:
                continue
            value = _value(token.kind, match.nodes[token.name], env, match.verb.cuts_strips)
            if isinstance(value, Unknown):
                known = False
                continue
            values[token.name] = value
            if token.kind in PLACED:
                places += cast("tuple[str, ...]", value) if isinstance(value, tuple) else [cast(str, value)]
    return values, known, places


def _value(kind: str, node: Node, env: Env, endless: bool) -> object:
    if isinstance(node, PieceNode):
        return env.brought(env.of(node), node.span, "a piece is wanted here", endless=endless)
    if isinstance(node, tuple):
        if kind == "way":
            return way(node)
        if kind == "names":
            return tuple(item.text for item in node if isinstance(item, Name))
        words = [_word(kind, item, env) for item in node]
        return next((word for word in words if isinstance(word, Unknown)), tuple(words))
    if kind == "length":
        return length(node, env)
    if kind == "angle":
        return angle(node, env)
    if kind == "count":
        return count(node, env)
    if kind == "fabric":
        return env.fabric(node)
    if kind == "name":
        return node.text if isinstance(node, Name) else ""
    if kind == "text":
        if not isinstance(node, Text):
            raise Problem(
                "E204", f"`{node.span.text}` is not a text", node.span, "a text stands between quotation marks"
            )
        return node.text
    if kind == "side":
        return _beside(node, env)
    return _word(kind, node, env)


def _word(kind: str, node: Item, env: Env) -> str | Unknown:
    """A place, line or measure: one of the words of its kind, or a parameter that stands for one."""
    allowed = CLOSED[kind]
    text = node.text if isinstance(node, Name) else ""
    if text in allowed:
        return text
    if isinstance(node, Name) and text in env.locals:
        value = env.value(node)
        if isinstance(value, Unknown):
            return value
        if isinstance(value, Place) and value.word in allowed:
            return value.word
        word = f"`{value.word}`" if isinstance(value, Place) else kind_of(value)
        raise Problem(
            "E204", f"`{text}` is {word}, and {SPOKEN[kind]} is wanted here", node.span, None, *env.cause(node)
        )
    hint = near(text, allowed)
    if hint is None:
        some = ", ".join(f"`{word}`" for word in allowed[:5])
        hint = f"there are {some}" + (" and more" if len(allowed) > 5 else "")
    raise Problem("E203", f"`{node.span.text}` is not {SPOKEN[kind].split(',')[0]}", node.span, hint)


def _beside(node: Item, env: Env) -> Beside | Unknown:
    if isinstance(node, Name):
        if node.text == "darker":
            return "darker", ""
        if node.text in SIDES:
            return "side", node.text
        if node.text not in env.locals and env.scope.has(node.text):
            return "unit", node.text
        value = env.value(node, "fabric, unit or side")
        if isinstance(value, Unknown):
            return value
        if isinstance(value, Fabric):
            return "fabric", value.name
        if isinstance(value, Place) and value.word in SIDES:
            return "side", value.word
        if not hasattr(value, "amount"):
            return "unit", node.text
    raise Problem(
        "E204",
        f"`{node.span.text}` is nothing a seam is pressed toward",
        node.span,
        "press toward a fabric or a unit beside the seam, a side, or `darker`",
    )
