"""What a unit is handed: in order or by name, checked against what each parameter is used for."""

from __future__ import annotations

from typing import TYPE_CHECKING

from piecewright.diagnostics.model import Label
from piecewright.evaluate.bind import near
from piecewright.evaluate.definition import Definition, Parameter
from piecewright.evaluate.recipes import Recipe
from piecewright.evaluate.report import Problem, Silent
from piecewright.evaluate.values import Place, Quantity, Unknown, kind_of
from piecewright.kernel.build import Fabric
from piecewright.source import Span
from piecewright.syntax.ast import Member, Name, Part, Phrase
from piecewright.verbs.table import VERBS

if TYPE_CHECKING:
    from piecewright.evaluate.env import Env, Value

WANTED = {
    "fabric": "a fabric",
    "size": "a size",
    "count": "a number",
    "piece": "a piece",
    "place": "a place",
}


def handed_over(
    definition: Definition,
    arguments: tuple[Phrase, ...],
    name: Name,
    span: Span,
    env: Env,
    *,
    stand_ins: bool = False,
) -> tuple[dict[str, Value] | None, dict[str, Span]]:
    """The value of each parameter and where it was written; None where a value is not known.

    With `stand_ins`, fabrics may all be left out. Raises `Problem` and `Silent`.
    """
    session = env.session
    session.parameter_kinds(definition)
    values: dict[str, Value] = {}
    spans: dict[str, Span] = {}
    free = list(definition.parameters)
    silent = False
    by_name = False
    for phrase in arguments:
        parameter, given = _named(definition, phrase, env)
        if parameter is None:
            if by_name:
                raise Problem("E206", "after one that is handed over by name, all are", phrase.span, _takes(definition))
            if not free:
                raise Problem(
                    "E206",
                    f"`{name.text}` is handed more than it takes",
                    phrase.span,
                    _takes(definition),
                    Label(span=definition.span, text="it is defined here"),
                )
            parameter = free[0]
        else:
            by_name = True
            if parameter.name in spans:
                raise Problem("E206", f"`{parameter.name}` is handed over twice", phrase.span)
        if parameter in free:
            free.remove(parameter)
        spans[parameter.name] = given.span
        try:
            values[parameter.name] = _fitting(definition, parameter, env.argument(given), given.span, env)
        except Silent:
            silent = True
    if silent:
        raise Silent
    _fill(definition, free, values, name, span, env, stand_ins)
    if any(isinstance(value, Unknown) for value in values.values()):
        return None, spans
    return {p.name: values[p.name] for p in definition.parameters}, spans


def _named(definition: Definition, phrase: Phrase, env: Env) -> tuple[Parameter | None, Phrase]:
    """The parameter that an argument names, and the rest of it; (None, all of it) where it names none."""
    part = phrase.parts[0]
    items = part.members[0].items
    first = items[0]
    if len(items) < 2 or not isinstance(first, Name) or first.text in VERBS:
        return None, phrase
    second = items[1]
    if isinstance(second, Name) and second.text in ("turned", "reversed"):
        return None, phrase
    parameter = next((p for p in definition.parameters if p.name == first.text), None)
    if parameter is None:
        names = [p.name for p in definition.parameters]
        raise Problem(
            "E206",
            f"`{definition.name}` has no parameter `{first.text}`",
            first.span,
            near(first.text, names) or _takes(definition),
            Label(span=definition.span, text="it is defined here"),
        )
    span = second.span.to(phrase.span)
    member = Member(items=items[1:], span=second.span.to(items[-1].span))
    rest = Part(word=None, members=(member, *part.members[1:]), span=member.span)
    return parameter, Phrase(parts=(rest, *phrase.parts[1:]), span=span)


def _takes(definition: Definition) -> str:
    names = ", ".join(p.name for p in definition.parameters)
    return f"it is `{definition.name}({names})`" if names else f"`{definition.name}` takes nothing"


def _fitting(definition: Definition, parameter: Parameter, value: Value, span: Span, env: Env) -> Value:
    """The value as the parameter takes it. Raises `Problem` when it is of another kind."""
    kind = parameter.kind
    if kind is None or isinstance(value, Unknown):
        return value
    fits = {
        "fabric": isinstance(value, Fabric),
        "size": isinstance(value, Quantity),
        "count": isinstance(value, Quantity) and value.units is not None,
        "piece": isinstance(value, Recipe),
        "place": isinstance(value, Place),
    }[kind]
    if not fits:
        raise Problem(
            "E204",
            f"this is {kind_of(value)}, and `{parameter.name}` of `{definition.name}` is {WANTED[kind]}",
            span,
            None,
            Label(span=parameter.span, text=f"`{parameter.name}` is named here"),
        )
    if isinstance(value, Quantity) and value.units not in (None, definition.scope.units):
        # a bare number of a file with other units: a count stays what it is, a size is a length
        return Quantity(value.amount, definition.scope.units) if kind == "count" else Quantity(value.inches, None)
    if isinstance(value, Recipe):
        return value.called(parameter.name)
    return value


def _fill(
    definition: Definition,
    free: list[Parameter],
    values: dict[str, Value],
    name: Name,
    span: Span,
    env: Env,
    stand_ins: bool,
) -> None:
    """Defaults for what was not handed over, and stand-ins where no fabric was."""
    fabrics = [p for p in definition.parameters if p.kind == "fabric"]
    standing = stand_ins and all(p in free and p.default is None for p in fabrics)
    missing: list[Parameter] = []
    for parameter in free:
        if parameter.default is not None:
            values[parameter.name] = env.session.default(definition, parameter, values)
        elif standing and parameter.kind in ("fabric", None):
            values[parameter.name] = env.session.stand_in(definition, parameter)
        else:
            missing.append(parameter)
    if missing:
        told = " and ".join(f"`{p.name}`" for p in missing)
        raise Problem(
            "E205",
            f"`{name.text}` is not told its {told}",
            span,
            _takes(definition),
            Label(span=missing[0].span, text=f"`{missing[0].name}` has no default"),
        )
