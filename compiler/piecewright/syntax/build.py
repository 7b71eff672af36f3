"""The nodes of the tree, made as the parser puts a rule together.

Each function is named after its rule in the grammar and is given what the rule took, in order:
nodes for words and rules, a `Span` for a sign.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from piecewright.source import Span
from piecewright.syntax import slips
from piecewright.syntax.ast import Call, Member, Name, Number, Part, Phrase, Product, Row, Sentence, Sum

Values = list[Any]


def sentence(values: Values) -> Sentence:
    step = values[0]
    return Sentence(step=step, clauses=tuple(values[2::2]), span=_from_to(step.span, values[-1].span))


def row(values: Values) -> Row:
    cells = tuple([value for value in values if type(value) is Phrase])
    first = values[0]
    return Row(cells=cells, span=_from_to(first if type(first) is Span else first.span, cells[-1].span))


def phrase(values: Values) -> Phrase:
    members = values[0]
    parts = [Part(word=None, members=members, span=_from_to(members[0].span, members[-1].span))]
    for index in range(1, len(values), 2):
        word, members = values[index], values[index + 1]
        for part in parts:
            if part.word is not None and part.word.text == word.text:
                raise slips.word_twice(word.span, part.word.span)
        parts.append(Part(word=word, members=members, span=_from_to(word.span, members[-1].span)))
    return Phrase(parts=tuple(parts), span=_from_to(parts[0].span, parts[-1].span))


def members(values: Values) -> tuple[Member, ...]:
    return tuple(values[::2])


def member(values: Values) -> Member:
    return Member(items=tuple(values), span=_from_to(values[0].span, values[-1].span))


def sum_(values: Values) -> Sum:
    return Sum(
        terms=tuple(values[::2]),
        operators=tuple([sign.text for sign in values[1::2]]),
        span=_from_to(values[0].span, values[-1].span),
    )


def product(values: Values) -> Product:
    for index in range(1, len(values), 2):
        sign: Span = values[index]
        if sign.text == "/":
            for number, touches in (
                (values[index - 1], values[index - 1].span.end == sign.start),
                (values[index + 1], values[index + 1].span.start == sign.end),
            ):
                if touches and type(number) is Number and "/" in number.span.text:
                    raise slips.two_bars(_from_to(values[index - 1].span, values[index + 1].span))
    return Product(
        factors=tuple(values[::2]),
        operators=tuple([sign.text for sign in values[1::2]]),
        span=_from_to(values[0].span, values[-1].span),
    )


def call(values: Values) -> Call:
    name: Name = values[0]
    opening: Span = values[1]
    closing: Span = values[-1]
    arguments = tuple([value for value in values[2:-1] if type(value) is Phrase])
    if opening.start != name.span.end and len(arguments) == 1 and _is_arithmetic(arguments[0]):
        raise slips.arithmetic_brackets(_from_to(opening, closing))
    return Call(name=name, arguments=arguments, span=_from_to(name.span, closing))


ACTIONS: dict[str, Callable[[Values], Any]] = {
    "sentence": sentence,
    "row": row,
    "phrase": phrase,
    "members": members,
    "member": member,
    "sum": sum_,
    "product": product,
    "call": call,
}


def _from_to(first: Span, last: Span) -> Span:
    return Span(first.source, first.start, last.end)


def _is_arithmetic(argument: Phrase) -> bool:
    if len(argument.parts) > 1 or len(argument.parts[0].members) > 1:
        return False
    items = argument.parts[0].members[0].items
    return len(items) == 1 and isinstance(items[0], Sum | Product)
