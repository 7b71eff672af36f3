"""What a name may stand for, and arithmetic with it.

A bare number is in the units of the file it is written in: it counts, multiplies, or becomes a length
where one is wanted. A length is in inches.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from piecewright.diagnostics.model import Label
from piecewright.evaluate.report import Problem
from piecewright.exact import INCH_PER, Exact
from piecewright.kernel.build import Fabric, Units
from piecewright.kernel.measure import height, width
from piecewright.source import Span
from piecewright.syntax.ast import Call, Item, Name, Number, Phrase, Product, Sum, Text
from piecewright.verbs.words import PLACES

if TYPE_CHECKING:
    from piecewright.evaluate.env import Env

ROOT_2 = Exact.root(2)


class Quantity:
    """`amount` in `units` where it is a bare number, in inches where `units` is None and it is a length."""

    __slots__ = ("amount", "units")

    def __init__(self, amount: Exact, units: Units | None) -> None:
        self.amount = amount
        self.units = units

    @property
    def inches(self) -> Exact:
        if self.units is None or self.units == "inch":
            return self.amount
        return self.amount * INCH_PER[self.units]


class Place:
    """A place word handed over as a value."""

    __slots__ = ("word",)

    def __init__(self, word: str) -> None:
        self.word = word


class Unknown:
    """A value that nobody has given: where a definition is only looked through."""

    __slots__ = ()


UNKNOWN = Unknown()


class Broken:
    """The value of a name whose definition was reported as wrong."""

    __slots__ = ()


BROKEN = Broken()


def kind_of(value: object) -> str:
    """What a value is, for people."""
    if isinstance(value, Quantity):
        return "a size" if value.units is None else "a number"
    if isinstance(value, Fabric):
        return "a fabric"
    if isinstance(value, Place):
        return "a place"
    return "a piece"


def arithmetic(node: Item, env: Env) -> Quantity | Unknown:
    """The value of a sum, a product, a number, a name or a measuring call. Raises `Problem` and `Silent`."""
    if isinstance(node, Number):
        unit = node.unit
        if unit is None:
            return Quantity(node.value, env.scope.units)
        return Quantity(node.value * INCH_PER[unit] if unit in INCH_PER else node.value, None)
    if isinstance(node, Name):
        return _named(node, env)
    if isinstance(node, Sum):
        total = arithmetic(node.terms[0], env)
        for operator, term in zip(node.operators, node.terms[1:], strict=True):
            total = _plus(total, arithmetic(term, env), operator == "-")
        return total
    if isinstance(node, Product):
        product = arithmetic(node.factors[0], env)
        for operator, factor in zip(node.operators, node.factors[1:], strict=True):
            other = arithmetic(factor, env)
            product = (
                _times(product, other, env, node.span) if operator == "*" else _over(product, other, env, factor.span)
            )
        return product
    if isinstance(node, Text):
        raise Problem("E204", "a text stands where a size is wanted", node.span)
    return _called(node, env)


def _named(node: Name, env: Env) -> Quantity | Unknown:
    word = node.text
    if word == "seam":
        return Quantity(env.session.settings.seam, None)
    if word in ("width", "height"):
        return _of_work(node, env)
    value = env.value(node)
    if isinstance(value, Quantity | Unknown):
        return value
    raise Problem("E204", f"`{word}` is {kind_of(value)}, and a size is wanted here", node.span, None, *env.cause(node))


def _of_work(node: Name, env: Env) -> Quantity | Unknown:
    if env.lost:
        return UNKNOWN
    work = env.work
    if work is None:
        raise Problem("E309", f"there is no {node.text} yet: nothing lies on the table", node.span)
    if node.text == "height":
        return Quantity(height(work.unit), None)
    if work.usable is not None:
        raise Problem("E314", "a strip has no width until it is subcut", node.span)
    return Quantity(width(work.unit), None)


def _plus(first: Quantity | Unknown, second: Quantity | Unknown, minus: bool) -> Quantity | Unknown:
    if isinstance(first, Unknown) or isinstance(second, Unknown):
        return UNKNOWN
    if first.units == second.units:
        one, other, units = first.amount, second.amount, first.units
    else:
        one, other, units = first.inches, second.inches, None
    return Quantity(one - other if minus else one + other, units)


def _times(first: Quantity | Unknown, second: Quantity | Unknown, env: Env, span: Span) -> Quantity | Unknown:
    if isinstance(first, Unknown) or isinstance(second, Unknown):
        return UNKNOWN
    if first.units is None and second.units is None:
        raise Problem("E222", "a size times a size is no size", span)
    if first.units is not None and second.units is not None:
        if first.units == second.units:
            return Quantity(first.amount * second.amount, first.units)
        # numbers of two files: the one handed over from the other file is the length
        if first.units == env.scope.units:
            first, second = second, first
        return Quantity(first.inches * second.amount, None)
    length, factor = (first, second) if first.units is None else (second, first)
    return Quantity(length.amount * factor.amount, None)


def _over(first: Quantity | Unknown, second: Quantity | Unknown, env: Env, span: Span) -> Quantity | Unknown:
    if isinstance(second, Quantity) and not second.amount:
        raise Problem("E222", "this divides by nothing", span)
    if isinstance(first, Unknown) or isinstance(second, Unknown):
        return UNKNOWN
    if second.units is None:
        return Quantity(first.inches / second.amount, env.scope.units)
    return Quantity(first.amount / second.amount, first.units)


def _called(node: Call, env: Env) -> Quantity | Unknown:
    word = node.name.text
    if word not in ("width", "height", "diagonal"):
        if word in ("seam",):
            raise Problem("E206", f"`{word}` is handed nothing", node.span)
        raise Problem("E204", f"`{word}` is not a size", node.name.span, f"`width({word}(…))` is how wide it is")
    if len(node.arguments) != 1:
        raise Problem("E206", f"`{word}` is handed one thing", node.span)
    argument = node.arguments[0]
    value = env.argument(argument)
    if isinstance(value, Unknown):
        return UNKNOWN
    if word == "diagonal":
        if not isinstance(value, Quantity):
            raise Problem("E204", f"`diagonal` is of a size, and this is {kind_of(value)}", argument.span)
        return Quantity(value.inches * ROOT_2, None)
    brought = env.brought(value, argument.span, f"`{word}` is of a piece, and this is {kind_of(value)}")
    if isinstance(brought, Unknown):
        return UNKNOWN
    return Quantity(width(brought.unit) if word == "width" else height(brought.unit), None)


def length(node: Item, env: Env) -> Exact | Unknown:
    """A size in inches, more than nothing. Raises `Problem` and `Silent`."""
    if isinstance(node, Name) and node.text in PLACES:
        raise Problem("E204", f"`{node.text}` is a place, and a size is wanted here", node.span)
    found = arithmetic(node, env)
    if isinstance(found, Unknown):
        return UNKNOWN
    inches = found.inches
    if inches <= 0:
        how = "nothing" if not inches else f"less than nothing: {env.session.shown(inches)}"
        raise Problem("E304", f"this size is {how}", node.span, None, *env.handed(node))
    return inches


def count(node: Item, env: Env) -> int | Unknown:
    """A whole number from 1. Raises `Problem` and `Silent`."""
    found = arithmetic(node, env)
    if isinstance(found, Unknown):
        return UNKNOWN
    amount = found.amount
    if found.units is not None and amount.is_rational and amount.ratio[1] == 1 and amount > 0:
        return amount.ratio[0]
    if found.units is None:
        message = "this is a size, and a number is wanted"
    else:
        message = f"this comes to {env.session.shown_number(amount)}, and a whole number from 1 is wanted"
    if isinstance(node, Name) and node.text in env.given:
        raise Problem("E215", message, env.given[node.text], None, Label(span=node.span, text="it is counted here"))
    raise Problem("E215", message, node.span, None, *env.handed(node))


def angle(node: Item, env: Env) -> int | Unknown:
    """Whole degrees from 1. Raises `Problem` and `Silent`."""
    found = arithmetic(node, env)
    if not isinstance(found, Unknown) and found.units is not None and found.amount > 0:
        amount = found.amount
        if not amount.is_rational or amount.ratio[1] != 1:
            message = f"an angle of {env.session.shown_number(amount)} degrees cannot be worked out exactly"
            raise Problem("E311", message, node.span, "cut at 15, 30, 45, 60 or 75 degrees", *env.handed(node))
    return count(node, env)


def names_in(node: Item | Phrase) -> tuple[Name, ...]:
    """The names used in arithmetic."""
    if isinstance(node, Name):
        return (node,)
    if isinstance(node, Sum):
        return tuple(name for term in node.terms for name in names_in(term))
    if isinstance(node, Product):
        return tuple(name for factor in node.factors for name in names_in(factor))
    if isinstance(node, Call) and node.name.text == "diagonal" and len(node.arguments) == 1:
        items = node.arguments[0].parts[0].members[0].items
        return names_in(items[0]) if len(items) == 1 else ()
    return ()
