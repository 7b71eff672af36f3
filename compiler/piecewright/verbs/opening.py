"""Work in layers cut apart: parts that one seam holds are opened and pressed, others stay as they lie."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from piecewright.exact import OutsideNumbers
from piecewright.kernel.action import Line, Open, Subcut
from piecewright.kernel.congruence import alike
from piecewright.kernel.errors import SewingError
from piecewright.kernel.layers import Layers, alike_layers, cut_layers, opened
from piecewright.kernel.unit import Unit
from piecewright.verbs.parts import first_kept, kept_place, low_and_left, unlike
from piecewright.verbs.press import SeamSides, decided, lengths_beside, pressed_to
from piecewright.verbs.registry import Said
from piecewright.verbs.work import Bench, Done, Refused, Work

Part = tuple[Layers, Unit | None]  # as it was cut, and opened; None while more than one seam holds it


def cut_apart(bench: Bench, said: Said, work: Work, layers: Layers, lines: tuple[Line, ...], slot: str) -> Done:
    """As for a cut through one layer; parts are compared when they are opened. `slot` says the lines."""
    if layers.placed or not layers.stitches:
        raise Refused("not-stitched")
    halves = _cut(layers, lines, slot)
    if "EDGE" not in said:
        halves = sorted(halves, key=lambda half: low_and_left(half.base))
    halves = [halves[n] for n in first_kept([half.base for half in halves], said)]
    found = _kinds([(half, _opened(half, slot)) for half in halves])
    names = said.words("NAMES")
    if len(found) > 1 and not names:
        raise _not_alike(found[0][0], found[1][0])
    if names and len(names) != len(found):
        raise Refused("names-and-kinds", "NAMES", names=len(names), kinds=len(found))
    opens = tuple(_open(bench, said, work, half, unit) for (half, unit), _ in found if unit is not None and half.uppers)
    clause = said.clause("press")
    if not opens and clause is not None:
        raise Refused("nothing-to-press", clause.at())
    cut = Subcut(
        before=layers.base,
        lines=lines,
        parts=tuple(half.base for half in halves),
        kept=tuple(half.base for (half, _), _ in found),
        distance=said.length("DISTANCE") if "DISTANCE" in said else None,
        names=names,
        keep=kept_place(said),
        layers=layers,
        halves=tuple(half for (half, _), _ in found),
    )
    return Done(work=_after(work, found, opens, names), actions=(cut, *opens))


def _cut(layers: Layers, lines: tuple[Line, ...], slot: str) -> list[Layers]:
    halves = [layers]
    for start, end in lines:
        try:
            along = (end - start).unit()
            halves = [half for whole in halves for half in reversed(cut_layers(whole, start, along))]
        except OutsideNumbers:
            raise Refused("cut-angle-outside", slot) from None
        except SewingError as error:
            raise Refused(error.kind, slot, **error.facts) from error
    return halves


def _opened(half: Layers, slot: str) -> Unit | None:
    """A part as it looks when it is opened, its seams not pressed yet; None for one that stays in layers."""
    if not half.uppers:
        return half.base
    if len(half.stitches) > 1:
        return None
    try:
        return opened(half)
    except SewingError as error:
        raise Refused(error.kind, slot, **error.facts) from error


def _kinds(parts: list[Part]) -> list[tuple[Part, int]]:
    """The first part of each kind, in order, and how many there are of it."""
    found: list[tuple[Part, int]] = []
    for part in parts:
        for i, (first, count) in enumerate(found):
            if _alike(first, part):
                found[i] = (first, count + 1)
                break
        else:
            found.append((part, 1))
    return found


def _alike(first: Part, second: Part) -> bool:
    if first[1] is not None and second[1] is not None:
        return alike(first[1], second[1]) is not None
    return first[1] is None and second[1] is None and alike_layers(first[0], second[0])


def _not_alike(first: Part, second: Part) -> Refused:
    if first[1] is not None and second[1] is not None:
        return Refused("not-alike", "", **unlike(first[1], second[1]))
    if first[1] is None and second[1] is None:
        return Refused("not-alike", "", how="layers")
    return Refused("not-alike", "", how="held")


def _open(bench: Bench, said: Said, work: Work, half: Layers, unit: Unit) -> Open:
    """The part pressed. All its new seams run along the one stitching, with the base on their left."""
    start, along = half.stitches[0]
    new = tuple(
        n
        for n, seam in enumerate(unit.seams)
        if not seam.direction.cross(along) and not along.cross(seam.start - start)
    )
    seams = tuple(unit.seams[n] for n in new)
    sides = SeamSides(
        along=seams[0].direction,
        words=work.words,
        other_words=tuple(dict.fromkeys(word for brought in work.over for word in brought.words)),
        told=("away from what lay on top", "toward what lay on top"),
        lengths=lambda: lengths_beside(unit, seams),
    )
    toward, side = decided(bench, said.clause("press"), sides)
    return Open(layers=half, result=pressed_to(unit, new, side), seams=new, toward=toward)


def _after(work: Work, found: list[tuple[Part, int]], opens: Sequence[Open], names: tuple[str, ...]) -> Work:
    pressed = {id(one.layers): one.result for one in opens}
    words = tuple(dict.fromkeys((*work.words, *(word for brought in work.over for word in brought.words))))
    units: list[tuple[Unit, int]] = []
    for (half, unit), count in found:
        if unit is None:
            if names:
                raise Refused("named-layers", "NAMES")
            return replace(work, unit=half.base, layers=half, copies=work.copies * count)
        units.append((pressed.get(id(half), unit), work.copies * count))
    single = replace(work, layers=None, over=(), words=words)
    if names:
        parts = tuple((name, unit, copies) for name, (unit, copies) in zip(names, units, strict=True))
        return replace(single, unit=units[0][0], parts=parts)
    ((unit, copies),) = units
    return replace(single, unit=unit, copies=copies)
