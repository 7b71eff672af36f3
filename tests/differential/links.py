"""How the actions of a pattern hang together: nothing comes to the table that was not checked before, and each step
begins with what the one before left."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterator

from differential.back import ends, slanted_sides, unmarked
from differential.on_point import is_filler
from differential.replay import actions
from piecewright.exact import Exact
from piecewright.kernel.action import Action, Back, Bind, CutPiece, Lay, Place, Sew, Stitch, Subcut, Take
from piecewright.kernel.build import Build, Made, Piece, Step
from piecewright.kernel.layers import Layers
from piecewright.kernel.measure import finished_outline, raw_outline
from piecewright.kernel.unit import Unit

Corners = list[tuple[float, float]]


def shape(unit: Unit) -> tuple[object, ...]:
    """What does not change when a unit is moved, turned or mirrored: finished sides, marks left out, and cloth."""
    outline = finished_outline(unmarked(unit))
    sides = sorted((q - p).squared() for p, q in zip(outline, outline[1:] + outline[:1], strict=True))
    return (*sides, *sorted((patch.fabric, len(patch.cells)) for patch in unit.patches))


def brought(made: Made) -> Iterator[tuple[Unit, Step]]:
    """The units that the steps of a definition bring to the table."""
    for step in made.steps:
        for action in (*step.actions, *step.last):
            if isinstance(action, Take):
                yield action.unit, step
            elif isinstance(action, Sew):
                if step.verb != "border":
                    yield action.second, step
            elif isinstance(action, Place):
                yield from ((piece, step) for piece in action.pieces)
            elif isinstance(action, Lay):
                yield from ((cell, step) for row in action.rows for cell in row)


def known(build: Build) -> None:
    """What is brought was made before, or is a piece as it is cut from cloth. What a border has sewn or cut of such
    things is made again by the replay."""
    units = {each.key: each.unit for each in build.made}
    for made in build.made:
        if made.whole is not None:
            continue
        sources = [shape(units[one.source]) for one in made.supplies if isinstance(one.source, str)]
        for unit, step in brought(made):
            cut = rectangular(unit) or slanted(unit, step) or is_filler(unit, made)
            assert cut or shape(unit) in sources, f"{made.key}, line {step.line}"


def rectangular(unit: Unit) -> bool:
    """One rectangle of cloth, as it is cut."""
    if len(unit.patches) > 1 or len(unit.patches[0].cells) > 1:
        return False
    (cell,) = unit.patches[0].cells
    sides = [q - p for p, q in zip(cell, cell[1:] + cell[:1], strict=True)]
    return len(sides) == 4 and not any(one.dot(other) for one, other in itertools.pairwise(sides))


def slanted(unit: Unit, step: Step) -> bool:
    """One of the pieces that the step has cut at an angle, in the hand that it names, however it is turned."""
    if len(unit.patches) > 1 or len(unit.patches[0].cells) > 1:
        return False
    own = _sides([p.floats for p in raw_outline(unit)])
    for one in (supply.source for supply in step.supplies):
        if isinstance(one, Piece) and one.angle is not None:
            width = one.width if one.width is not None else one.height
            sides = slanted_sides(one.shape, width, one.height, one.angle, mirrored=one.reversed)
            cut = _sides([(float(x), float(y)) for (x, y), _ in sides])
            if any(_close(own, cut[n:] + cut[:n]) for n in range(len(cut))):
                return True
    return False


def _sides(corners: Corners) -> list[tuple[float, float]]:
    """The length of each side, and how far the outline turns at its end."""
    found = []
    for n, p in enumerate(corners):
        q, r = corners[(n + 1) % len(corners)], corners[(n + 2) % len(corners)]
        along, onward = (q[0] - p[0], q[1] - p[1]), (r[0] - q[0], r[1] - q[1])
        across = along[0] * onward[1] - along[1] * onward[0]
        found.append((math.dist(p, q), math.atan2(across, along[0] * onward[0] + along[1] * onward[1])))
    return found


def _close(one: Corners, other: Corners) -> bool:
    return len(one) == len(other) and all(math.dist(a, b) < 1e-9 for a, b in zip(one, other, strict=True))


def in_turn(made: Made) -> Iterator[list[Action]]:
    """Actions that follow on each other: all steps, those of a repeat once, and the last round of a repeat alone."""
    run: list[Action] = []
    for _, together in itertools.groupby(made.steps, key=lambda step: step.round):
        steps = list(together)
        run += [action for step in steps for action in step.actions]
        last = [action for step in steps for action in step.last]
        if last:
            yield run
            run = last
    yield run


def connected(build: Build) -> None:
    """Each action begins with what the one before it left, and the last one leaves what was made."""
    for made in build.made:
        for run in in_turn(made):
            before: Unit | None = None
            for action in run:
                fields = ("before", "first", "layers", "top")
                start = next((found for field in fields if (found := getattr(action, field, None)) is not None), None)
                if isinstance(start, Layers):
                    start = start.base  # what lies on it is known when it is opened
                if start is not None and before is not None:
                    assert shape(start) == shape(before), f"{made.key}: {type(action).__name__}"
                if isinstance(action, CutPiece | Take):
                    before = action.unit
                elif isinstance(action, Subcut):
                    before = action.kept[0]
                elif isinstance(action, Place | Stitch):
                    continue
                elif isinstance(action, Back | Bind):
                    before = action.top
                else:
                    before = action.result


def on_each_other(build: Build) -> None:
    """The edges said to be sewn lie on each other."""
    for where, action, _ in actions(build):
        if not isinstance(action, Sew):
            continue
        # round an inner corner the second's edges come the other way
        for mine, theirs in zip(action.first_edges, reversed(action.second_edges), strict=True):
            first, second = ends(action.first, mine), ends(action.second, theirs)
            along = action.first.directions[mine]
            assert not along.cross(second[0] - first[0]), where
            # the seam runs from the later start to the earlier end, and has a length
            start = max((second[1] - first[0]).dot(along), Exact(0))
            end = min((second[0] - first[0]).dot(along), (first[1] - first[0]).dot(along))
            assert start < end, where
