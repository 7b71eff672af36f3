"""What a parameter was handed: as text, by which units are told apart, and as the value itself."""

from __future__ import annotations

from typing import TYPE_CHECKING

from piecewright.evaluate.recipes import Recipe
from piecewright.evaluate.shown import plain
from piecewright.evaluate.values import Quantity
from piecewright.exact import fraction_text
from piecewright.kernel.build import Fabric, Handed

if TYPE_CHECKING:
    from piecewright.evaluate.definition import Parameter
    from piecewright.evaluate.env import Value
    from piecewright.evaluate.session import Session


def received_text(parameter: Parameter, value: Value, session: Session) -> str:
    """A value with nothing lost, as it stands in the key of a unit."""
    if isinstance(value, Quantity):
        is_count = _is_count(parameter, value)
        return fraction_text(value.amount) if is_count else plain(value.inches, session.settings.units)
    if isinstance(value, Fabric):
        return value.name
    if isinstance(value, Recipe):
        return value.text(session)
    return str(getattr(value, "word", ""))


def received(parameter: Parameter, value: Value, session: Session) -> Handed | None:
    """The value of a size or a piece; None of anything else."""
    if isinstance(value, Recipe):
        source, turned = value.source(session)
        return Handed(parameter=parameter.name, value=source, turned=turned)
    if isinstance(value, Quantity) and not _is_count(parameter, value):
        return Handed(parameter=parameter.name, value=value.inches)
    return None


def _is_count(parameter: Parameter, value: Quantity) -> bool:
    return parameter.kind == "count" and value.amount.is_rational
