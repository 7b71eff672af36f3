"""What is told of a unit that is made as in a mirror: the designer's remark speaks of the unit as it is written."""

from __future__ import annotations

import re
from collections.abc import Mapping

from piecewright.kernel.build import Made
from piecewright.plan.words import plain

_SIDED = re.compile(r"\b(?:left|right)|clockwise", re.IGNORECASE)


def description_of(made: Made, others: Mapping[str, Made], titles: Mapping[str, str]) -> str:
    """The description of a unit. Where the remark speaks of left and right, one made as in a mirror is told as the
    mirror image of the other or, where that is not made, of what the remark says. Words are not changed for each other,
    since `left over` and `right angle` mean no side."""
    said = plain(made.description)
    if not made.reversed or not _SIDED.search(said):
        return said
    of = next((o for o in others.values() if not o.reversed and _same(o, made)), None)
    if of is not None:
        return f"The mirror image of {titles[of.key]}, left for right."
    return f"As in a mirror, left for right: {said}"


def _same(one: Made, other: Made) -> bool:
    return (one.name, one.arguments, one.file, one.line) == (other.name, other.arguments, other.file, other.line)
