"""A unit made as in a mirror, left for right: its steps, its pieces and the units it uses."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace

from piecewright.evaluate.recipes import SAME_IN_MIRROR
from piecewright.exact import Vector
from piecewright.kernel.action import (
    Action,
    Add,
    Back,
    Bind,
    Curve,
    CutPiece,
    Finish,
    Flip,
    Lay,
    Line,
    Open,
    Place,
    Press,
    Sew,
    Stitch,
    Subcut,
    Take,
    Trim,
    Turn,
)
from piecewright.kernel.build import Expect, Made, Piece, Step, Supply
from piecewright.kernel.curve import MELON
from piecewright.kernel.foundation import in_glass
from piecewright.kernel.layers import Layers, Placed
from piecewright.kernel.moves import mirrored
from piecewright.kernel.unit import Unit
from piecewright.verbs.words import in_mirror

Twin = Callable[[str], str]
"""The key of the mirror twin of the unit with a key."""

REVERSED = " reversed"
_WAY = re.compile(r"\b(left|right)\b")


def reversed_key(key: str) -> str:
    return key.removesuffix(REVERSED) if key.endswith(REVERSED) else key + REVERSED


def mirrored_made(made: Made, twin: Twin) -> Made:
    """What was made, in the mirror."""
    glass = Glass(twin)
    return replace(
        made,
        key=reversed_key(made.key),
        whole=reversed_key(made.whole) if made.whole is not None else None,
        unit=glass.unit(made.unit),
        steps=tuple(glass.step(step) for step in made.steps),
        supplies=tuple(glass.supply(supply) for supply in made.supplies),
        reversed=not made.reversed,
    )


class Glass:
    """Mirrors in the vertical axis; every unit once, so that units the steps share stay shared."""

    def __init__(self, twin: Twin) -> None:
        self._twin = twin
        self._units: dict[int, tuple[Unit, Unit]] = {}

    def unit(self, unit: Unit) -> Unit:
        found = self._units.get(id(unit))
        if found is None:
            found = self._units[id(unit)] = (unit, mirrored(unit))
        return found[1]

    def supply(self, supply: Supply) -> Supply:
        return replace(supply, source=self._source(supply.source))

    def _source(self, source: Piece | str) -> Piece | str:
        if isinstance(source, str):
            return self._twin(source)
        return source if source.shape in SAME_IN_MIRROR else replace(source, reversed=not source.reversed)

    def _expect(self, expect: Expect) -> Expect:
        """Of what shows, the first word is the fabric and the second the place."""
        return replace(
            expect,
            measure=in_mirror(expect.measure),
            words=(*expect.words[:1], *(in_mirror(w) for w in expect.words[1:])),
            source=None if expect.source is None else self._source(expect.source),
        )

    def step(self, step: Step) -> Step:
        return replace(
            step,
            actions=tuple(self._action(action, step) for action in step.actions),
            last=tuple(self._action(action, step) for action in step.last),
            between=tuple(tuple(self._action(action, step) for action in done) for done in step.between),
            expects=tuple(self._expect(expect) for expect in step.expects),
            places=tuple(in_mirror(place) for place in step.places),
            supplies=tuple(self.supply(supply) for supply in step.supplies),
        )

    def _name(self, name: str, step: Step) -> str:
        """What a piece is called: a unit by its twin's key, and turned the other way."""
        for supply in step.supplies:
            source = supply.source
            if isinstance(source, Piece):
                if name.startswith(source.fabric + " "):
                    return name
            elif name == source or name.startswith(source + " turned"):
                return self._twin(source) + _WAY.sub(lambda m: in_mirror(m.group()), name.removeprefix(source))
        return name

    def _action(self, action: Action, step: Step) -> Action:
        if isinstance(action, CutPiece):
            return replace(action, unit=self.unit(action.unit))
        if isinstance(action, Back | Bind):
            return replace(action, top=self.unit(action.top))
        if isinstance(action, Take):
            return replace(action, unit=self.unit(action.unit), name=self._name(action.name, step))
        if isinstance(action, Turn):
            return Turn(
                degrees=-action.degrees,
                before=self.unit(action.before),
                result=self.unit(action.result),
                layers=(self.layers(action.layers[0]), self.layers(action.layers[1])) if action.layers else None,
            )
        if isinstance(action, Subcut):
            return replace(
                action,
                before=self.unit(action.before),
                lines=tuple(_line(line) for line in action.lines),
                parts=tuple(self.unit(part) for part in action.parts),
                kept=tuple(self.unit(part) for part in action.kept),
                keep=in_mirror(action.keep) if action.keep else "",
                layers=self.layers(action.layers) if action.layers is not None else None,
                halves=tuple(self.layers(half) for half in action.halves),
            )
        if isinstance(action, Add):
            return replace(action, foundation=in_glass(action.foundation), result=self.unit(action.result))
        if isinstance(action, Place | Stitch | Open | Flip):
            return self._layered(action, step)
        if isinstance(action, Curve):
            return replace(
                action,
                before=self.unit(action.before),
                at=(
                    _edges(action.before, (action.at,))[0]
                    if action.shape == MELON
                    else len(action.before.corners) - 1 - action.at
                ),
                place=in_mirror(action.place),
                result=self.unit(action.result),
                toward=_toward(action.toward),
            )
        if isinstance(action, Sew):
            return replace(
                action,
                first=self.unit(action.first),
                second=self.unit(action.second),
                first_edges=_edges(action.first, action.first_edges),
                second_edges=_edges(action.second, action.second_edges),
                result=self.unit(action.result),
                name=self._name(action.name, step),
                stops=tuple(_point(p) for p in action.stops),
                step=-action.step if action.step is not None else None,
            )
        if isinstance(action, Finish):
            one, other = _edges(action.before, action.edges)
            return replace(
                action,
                before=self.unit(action.before),
                edges=(one, other),
                stop=_point(action.stop),
                result=self.unit(action.result),
            )
        if isinstance(action, Press):
            return replace(
                action,
                result=self.unit(action.result),
                toward=_toward(action.toward),
            )
        if isinstance(action, Lay):
            rows = tuple(tuple(self.unit(unit) for unit in reversed(row)) for row in action.rows)
            return replace(
                action,
                rows=rows,
                names=tuple(tuple(self._name(name, step) for name in reversed(row)) for row in action.names),
                row_units=tuple(self.unit(unit) for unit in action.row_units),
                keys=tuple(tuple(self._twin(key) if key else "" for key in reversed(row)) for row in action.keys),
                result=self.unit(action.result) if action.sewn else rows[0][0],
                along=Vector(action.along.x, -action.along.y),
            )
        return self._trim(action)

    def layers(self, layers: Layers) -> Layers:
        return Layers(
            base=self.unit(layers.base),
            placed=tuple(
                Placed(piece=self.unit(one.piece), corner=in_mirror(one.corner) if one.corner else None)
                for one in layers.placed
            ),
            uppers=tuple(self.unit(upper) for upper in layers.uppers),
            stitches=tuple(_line(stitch) for stitch in layers.stitches),
        )

    def _layered(self, action: Place | Stitch | Open | Flip, step: Step) -> Action:
        if isinstance(action, Place):
            return replace(
                action,
                before=self.layers(action.before),
                pieces=tuple(self.unit(piece) for piece in action.pieces),
                name=self._name(action.name, step),
                corners=tuple(in_mirror(corner) for corner in action.corners),
                facing=tuple(self.unit(piece) for piece in action.facing),
                drawn=tuple(_line(line) for line in action.drawn),
            )
        if isinstance(action, Stitch):
            return replace(
                action,
                result=self.layers(action.result),
                lines=tuple(_line(line) for line in action.lines),
                drawn=tuple(_line(line) for line in action.drawn),
            )
        if isinstance(action, Open):
            return replace(
                action,
                layers=self.layers(action.layers),
                result=self.unit(action.result),
                toward=_toward(action.toward),
            )
        return replace(
            action,
            before=self.unit(action.before),
            piece=self.unit(action.piece),
            line=_line(action.line),
            cut=_line(action.cut),
            result=self.unit(action.result),
            toward=_toward(action.toward),
            name=self._name(action.name, step),
            corner=in_mirror(action.corner),
        )

    def _trim(self, action: Trim) -> Trim:
        low_left, low_right, high_right, high_left = (_point(p) for p in action.ruler.corners)
        left, right, top, bottom = action.off
        ruler = replace(
            action.ruler,
            corners=(low_right, low_left, high_left, high_right),
            alignments=tuple((word, _line(line), distance) for word, line, distance in action.ruler.alignments),
        )
        return replace(
            action,
            before=self.unit(action.before),
            ruler=ruler,
            off=(right, left, top, bottom),
            result=self.unit(action.result),
        )


def _toward(toward: str) -> str:
    """What is said of a pressing; only a side changes in the mirror, not a name that holds such a word."""
    if toward in ("toward the left", "toward the right"):
        return _WAY.sub(lambda m: in_mirror(m.group()), toward)
    return toward


def _point(p: Vector) -> Vector:
    return Vector(-p.x, p.y)


def _line(line: Line) -> Line:
    return _point(line[0]), _point(line[1])


def _edges(unit: Unit, edges: tuple[int, ...]) -> tuple[int, ...]:
    """Edge i of a unit with n is edge n - 2 - i of its mirror image; their order runs the other way."""
    count = len(unit.corners)
    return tuple((count - 2 - edge) % count for edge in reversed(edges))
