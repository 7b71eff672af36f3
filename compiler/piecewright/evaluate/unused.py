"""What a pattern says and does not use: fabrics that nothing is cut from, and definitions that nothing is made of."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

from piecewright.evaluate.definition import Definition
from piecewright.evaluate.scope import Margin
from piecewright.kernel.build import Fabric, Made, Piece

if TYPE_CHECKING:
    from piecewright.evaluate.asked import Asked
    from piecewright.evaluate.session import Session


def fabrics_used(session: Session, made: Iterable[Made]) -> set[str]:
    """The fabrics that anything is cut from, and those that prints are chosen from."""
    used = {s.source.fabric for one in made for s in one.supplies if isinstance(s.source, Piece)}
    return used | {session.fabrics[name].of for name in used}


def tell_unused(session: Session, wanted: tuple[Asked, ...], made: tuple[Made, ...], used: set[str]) -> None:
    """Reports what this file defines and leaves lying. A file that makes nothing is there for others to use."""
    if not wanted:
        return
    _tell_definitions(session, made)
    unused = [f for f in session.main.names.values() if isinstance(f, Fabric) and f.name not in used]
    if not unused:
        return
    for one in wanted:
        if _stand_ins(one, session.origin(one.product.key)[0]):
            _tell_stand_ins(session, one, unused)
            return
    if not _exchanged(session, used):
        for fabric in unused:
            session.report.add(
                "W540",
                "warning",
                f"nothing is cut from `{fabric.name}`",
                session.main.spans[fabric.name],
                "hand it to what is made, or take this line out",
            )


def _exchanged(session: Session, used: set[str]) -> bool:
    """Whether a name at the margin stands for a fabric that is used: then others may be there to be put in its place
    from outside."""
    margins = [one for one in session.main.names.values() if isinstance(one, Margin)]
    values = [session.margin(one) for one in margins]  # no mistake was found, so each has one
    return any(isinstance(value, Fabric) and value.name in used for value in values)


def _tell_definitions(session: Session, made: tuple[Made, ...]) -> None:
    done = {id(session.origin(one.key)[0]) for one in made}
    for definition in session.main.definitions:
        if definition.kind == "unit" or id(definition) in done:
            continue
        waiting = [p.name for p in definition.parameters if p.default is None and p.kind not in ("fabric", None)]
        why = f"since it is not told its `{waiting[0]}`" if waiting else "and nothing that is made has it in it"
        session.report.add(
            "W542",
            "warning",
            f"the {definition.kind} `{definition.name}` is never made, {why}",
            definition.span,
            f"ask for it: `make 1 of {definition.name}{'(…)' if definition.parameters else ''}`",
        )


def _tell_stand_ins(session: Session, one: Asked, unused: list[Fabric]) -> None:
    """One finding for all of them: with the mend they are used, or are told by themselves."""
    definition, _ = session.origin(one.product.key)
    shades = dict.fromkeys(fabric.value or "medium" for _, fabric in _stand_ins(one, definition))
    invented = _listed([f"any {shade}" for shade in shades], "and")
    names = _listed([f"`{fabric.name}`" for fabric in unused], "or")
    call = _call(one, definition, unused, session)
    if one.line is not None and one.head is not None:
        place, span = one.head, one.line.sentence.span
        before, after = span.text[: place.start - span.start], span.text[place.end - span.start :]
        line = before + call + after
    else:
        place, line = definition.span, f"make {one.number} of {call}"
    session.report.add(
        "W541",
        "warning",
        f"`{one.product.made.name}` is handed no fabric: it is cut from {invented} fabric, and nothing from {names}",
        place,
        f"hand the fabrics over: `{line}`",
    )


def _stand_ins(one: Asked, definition: Definition) -> list[tuple[str, Fabric]]:
    """The parameters of what is asked for that stand for fabrics of no line, and how each is shown."""
    values, _ = one.product.origin.handed
    handed = [(parameter, values[parameter.name]) for parameter in definition.parameters]
    return [(p.name, v) for p, v in handed if p.kind == "fabric" and isinstance(v, Fabric) and v.stand_in]


def _call(one: Asked, definition: Definition, unused: list[Fabric], session: Session) -> str:
    """What is asked for, handed fabrics of the pattern: as light or dark as what stands for them, where it has such,
    else in the order of the pattern."""
    left = [*unused, *(f for f in session.main.names.values() if isinstance(f, Fabric) and f not in unused)]
    chosen: dict[str, str] = {}
    for name, shown in _stand_ins(one, definition):
        fabric = next((f for f in left if f.value == shown.value), left[0] if left else None)
        if fabric is not None:
            left.remove(fabric)
        chosen[name] = fabric.name if fabric is not None else "…"
    _, spans = one.product.origin.handed
    told: list[str] = []
    by_name = False
    for parameter in definition.parameters:
        if parameter.name in chosen:
            value = chosen[parameter.name]
        elif parameter.name in spans:
            value = spans[parameter.name].text
        else:
            by_name = True  # a default, so that those after it are handed over by name
            continue
        told.append(f"{parameter.name} {value}" if by_name else value)
    return f"{one.product.made.name}({', '.join(told)})"


def _listed(words: list[str], last: str) -> str:
    return words[0] if len(words) == 1 else ", ".join(words[:-1]) + f" {last} {words[-1]}"
