"""No cloth appears or vanishes: the patches of every unit fill its outline exactly, and every cut is accounted for."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from differential.patterns import EXAMPLES, SEEDS, example, random_build
from piecewright.exact import Exact, Vector
from piecewright.kernel.action import (
    Add,
    Back,
    Bind,
    Curve,
    CutPiece,
    Finish,
    Flip,
    Lay,
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
from piecewright.kernel.build import Build, Made
from piecewright.kernel.unit import Unit


def units(build: Build) -> Iterator[tuple[str, Unit]]:
    """Every unit at every step, each once."""
    done: set[int] = set()
    for made in build.made:
        for where, unit in ((made.key, made.unit), *_in_steps(made)):
            if id(unit) not in done:
                done.add(id(unit))
                yield where, unit


def _in_steps(made: Made) -> Iterator[tuple[str, Unit]]:
    for step in made.steps:
        for action in (*step.actions, *step.last):
            for unit in _of(action):
                yield f"{made.key}, line {step.line}", unit


def _of(action: object) -> tuple[Unit, ...]:
    if isinstance(action, CutPiece | Take):
        return (action.unit,)
    if isinstance(action, Turn | Trim | Finish | Curve):
        return action.before, action.result
    if isinstance(action, Flip):
        return action.before, action.piece, action.result
    if isinstance(action, Place):
        return (action.before.base, *action.before.uppers, *action.pieces, *action.facing)
    if isinstance(action, Stitch):
        return (action.result.base, *action.result.uppers)
    if isinstance(action, Open):
        return (action.layers.base, *action.layers.uppers, action.result)
    if isinstance(action, Subcut):
        return action.before, *action.parts, *action.kept
    if isinstance(action, Sew):
        return action.first, action.second, action.result
    if isinstance(action, Lay):
        return (*(cell for row in action.rows for cell in row), *action.row_units, action.result)
    if isinstance(action, Back | Bind):
        return (action.top,)
    assert isinstance(action, Press | Add)
    return (action.result,)


def shoelace(points: list[Vector]) -> Exact:
    total = Exact(0)
    for p, q in zip(points, points[1:] + points[:1], strict=True):
        total = total + p.x * q.y - p.y * q.x
    return total / 2


def conserved(where: str, unit: Unit) -> None:
    outline = shoelace([p for corner in unit.corners for p in corner.raw])
    cells = [shoelace(list(cell)) for patch in unit.patches for cell in patch.cells]
    assert all(cell > 0 for cell in cells), where
    # a curve parts two cloths within cells that they share: together they are seen there once
    whole = [patch for patch in unit.patches if not any(disc.inside for disc in patch.discs)]
    seen = sum((shoelace(list(cell)) for patch in whole for cell in patch.cells), Exact(0))
    assert seen == outline, where
    assert unit.cloth == seen + sum((line.area for line in unit.ledger), Exact(0)), where


@pytest.mark.parametrize("file", EXAMPLES, ids=lambda file: file.stem)
def test_in_every_unit_of_an_example(file: Path) -> None:
    for where, unit in units(example(file)):
        conserved(where, unit)


@pytest.mark.parametrize("start", SEEDS[::50])
def test_in_every_unit_of_random_sequences(start: int) -> None:
    for seed in range(start, start + 50):
        for where, unit in units(random_build(seed)):
            conserved(f"seed {seed}: {where}", unit)


def test_a_lost_patch_is_found_out() -> None:
    from dataclasses import replace

    _, unit = max(units(random_build(1)), key=lambda each: len(each[1].patches))
    with pytest.raises(AssertionError):
        conserved("", replace(unit, patches=unit.patches[1:]))
