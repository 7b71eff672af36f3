"""Every recorded action of every example: the compiler against sympy, exactly, and against shapely."""

from __future__ import annotations

import itertools
from collections.abc import Iterator
from pathlib import Path

import pytest
from differential.patterns import EXAMPLES, example
from differential.replay import Back, WithShapely, WithSympy, actions, ends, replayed
from piecewright.exact import Exact
from piecewright.kernel.action import Action, CutPiece, Lay, Place, Sew, Stitch, Subcut, Take
from piecewright.kernel.build import Build, Made, Piece
from piecewright.kernel.layers import Layers
from piecewright.kernel.measure import finished_outline
from piecewright.kernel.unit import Unit

by_name = pytest.mark.parametrize("file", EXAMPLES, ids=lambda file: file.stem)


def replay(file: Path, back: Back) -> None:
    done = 0
    for where, action in actions(example(file)):
        try:
            replayed(action, back)
        except AssertionError as error:
            raise AssertionError(f"{file.name}: {where}: {type(action).__name__}") from error
        done += 1
    assert done > 2


@by_name
def test_against_sympy(file: Path) -> None:
    replay(file, WithSympy())


@by_name
def test_against_shapely(file: Path) -> None:
    replay(file, WithShapely())


def shape(unit: Unit) -> tuple[object, ...]:
    """What does not change when a unit is moved, turned or mirrored: finished sides and cloth."""
    outline = finished_outline(unit)
    sides = sorted((q - p).squared() for p, q in zip(outline, outline[1:] + outline[:1], strict=True))
    return (*sides, *sorted((patch.fabric, len(patch.cells)) for patch in unit.patches))


def brought(made: Made) -> list[tuple[str, Unit]]:
    """The units that the steps of a definition bring to the table."""
    found: list[tuple[str, Unit]] = []
    for step in made.steps:
        for action in (*step.actions, *step.last):
            if isinstance(action, Take):
                found.append((made.key, action.unit))
            elif isinstance(action, Sew):
                found.append((made.key, action.second))
            elif isinstance(action, Lay):
                found += [(made.key, cell) for row in action.rows for cell in row]
    return found


def rectangular(unit: Unit) -> bool:
    """One rectangle of cloth, as it is cut."""
    if len(unit.patches) > 1 or len(unit.patches[0].cells) > 1:
        return False
    (cell,) = unit.patches[0].cells
    sides = [q - p for p, q in zip(cell, cell[1:] + cell[:1], strict=True)]
    return len(sides) == 4 and not any(one.dot(other) for one, other in itertools.pairwise(sides))


def sources(made: Made, build: Build) -> list[tuple[object, ...]]:
    units = {each.key: each.unit for each in build.made}
    found: list[tuple[object, ...]] = []
    for supply in made.supplies:
        if not isinstance(supply.source, Piece):
            found.append(shape(units[supply.source]))
    return found


@by_name
def test_what_is_brought_was_made_or_is_cut_from_cloth(file: Path) -> None:
    """The link between the actions: nothing comes to the table that was not checked before."""
    build = example(file)
    for made in build.made:
        if made.whole is not None:
            continue
        known = sources(made, build)
        for key, unit in brought(made):
            assert rectangular(unit) or shape(unit) in known, f"{file.name}: {key}"


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


@by_name
def test_each_step_begins_with_what_the_one_before_left(file: Path) -> None:
    for made in example(file).made:
        for run in in_turn(made):
            before: Unit | None = None
            for action in run:
                fields = ("before", "first", "layers")
                start = next((found for field in fields if (found := getattr(action, field, None)) is not None), None)
                if isinstance(start, Layers):
                    start = start.base  # what lies on it is known when it is opened
                if start is not None and before is not None:
                    assert shape(start) == shape(before), f"{file.name}: {made.key}: {type(action).__name__}"
                if isinstance(action, CutPiece | Take):
                    before = action.unit
                elif isinstance(action, Subcut):
                    before = action.kept[0]
                elif isinstance(action, Place | Stitch):
                    continue
                else:
                    before = action.result


@by_name
def test_the_edges_said_to_be_sewn_lie_on_each_other(file: Path) -> None:
    for where, action in actions(example(file)):
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
            assert start < end, f"{file.name}: {where}"
