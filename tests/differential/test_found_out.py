"""The references can fail: an action of any kind that says something else, or leaves something else, is found out."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
import sympy
from differential import links, sympy_arcs
from differential.patterns import example
from differential.replay import Back, Replay, WithShapely, WithSympy
from differential.test_constructions import constructions, curves, quilts
from piecewright.exact import Exact, Vector
from piecewright.kernel import action as done_to
from piecewright.kernel.action import (
    Action,
    Add,
    Curve,
    CutPiece,
    Finish,
    Flip,
    Lay,
    Open,
    Press,
    Sew,
    Stitch,
    Subcut,
    Trim,
    Turn,
)
from piecewright.kernel.build import Build
from piecewright.kernel.curve import finished_areas
from piecewright.kernel.errors import SewingError
from piecewright.kernel.moves import moved
from piecewright.kernel.unit import Unit

BIT = Exact(1, 64)
ASIDE = Vector(BIT, Exact(1, 97))  # along no line of any pattern
PAPER = Path(__file__).parents[2] / "examples" / "21-boat-on-paper.piece"
both = pytest.mark.parametrize("back", (WithSympy(), WithShapely()), ids=("sympy", "shapely"))
ON_POINT = "Lay on point"
NOT_TRIED = {"Take", "Place"}  # nothing is done to the cloth


def dyed(unit: Unit) -> Unit:
    """One piece of cloth of another fabric."""
    return replace(unit, patches=(*unit.patches[:-1], replace(unit.patches[-1], fabric="other")))


def lines(found: tuple[tuple[Vector, Vector], ...]) -> tuple[tuple[Vector, Vector], ...]:
    return tuple((p + ASIDE, q + ASIDE) for p, q in found)


def wrong(action: Action) -> Iterator[Action]:
    """The same action otherwise than it was done: elsewhere, smaller or larger, or with other cloth."""
    if isinstance(action, CutPiece):
        yield replace(action, height=action.height + BIT)
        yield replace(action, fabric="other")
    elif isinstance(action, Turn):
        yield replace(action, degrees=action.degrees + 90)
    elif isinstance(action, Subcut):
        if action.lines:  # a set may give one length alone
            yield replace(action, lines=lines(action.lines))
        yield replace(action, kept=tuple(map(dyed, action.kept)))
    elif isinstance(action, Stitch):
        yield replace(action, lines=lines(action.lines))
        yield replace(action, lines=tuple((p + (q - p) / 8, q) for p, q in action.lines))
    elif isinstance(action, Open):
        stitches = tuple((p + ASIDE, along) for p, along in action.layers.stitches)
        yield replace(action, layers=replace(action.layers, stitches=stitches))
        yield replace(action, layers=replace(action.layers, uppers=tuple(map(dyed, action.layers.uppers))))
    elif isinstance(action, Flip):
        yield replace(action, line=lines((action.line,))[0])
        yield replace(action, piece=dyed(action.piece))
        yield replace(action, cut=action.line)
    elif isinstance(action, Add):
        paper = action.foundation
        shifted = [replace(one, line=lines((one.line,))[0]) if one.line else one for one in paper.pieces]
        if action.number:
            yield replace(action, foundation=replace(paper, pieces=tuple(shifted)))
        yield replace(action, foundation=replace(paper, width=paper.width + BIT))
        yield replace(action, result=dyed(action.result))
    elif isinstance(action, Curve):
        yield replace(action, radius=action.radius + BIT)
        yield replace(action, at=(action.at + 1) % len(action.before.corners))
        yield replace(action, fabric="other")
        yield replace(action, shape="half melon" if action.shape == "quarter circle" else "quarter circle")
    elif isinstance(action, Sew):
        yield replace(action, second=dyed(action.second))
        yield replace(action, result=dyed(action.result))
        if action.step is not None:
            yield replace(action, step=action.step + BIT)
    elif isinstance(action, Finish):
        yield replace(action, result=moved(action.result, ASIDE))
    elif isinstance(action, Press):
        yield replace(action, result=dyed(action.result))
    elif isinstance(action, Lay):
        yield replace(action, result=dyed(action.result))
        yield replace(action, rows=(tuple(map(dyed, action.rows[0])), *action.rows[1:]))
        if action.row_units:
            yield replace(action, row_units=(dyed(action.row_units[0]), *action.row_units[1:]))
        if action.trimmed is not None:
            yield replace(action, trimmed=action.trimmed + BIT)
            yield replace(action, result=moved(action.result, ASIDE))
            yield from (replace(action, rows=rows) for rows in _misplaced(action.rows))
    elif isinstance(action, done_to.Back):
        sizes = action.backing
        yield replace(action, backing=replace(sizes, last=sizes.last - BIT))
        yield replace(action, backing=replace(sizes, width=sizes.width + BIT))
        yield replace(action, backing=replace(sizes, panels=sizes.panels + 1))
    elif isinstance(action, done_to.Bind):
        yield replace(action, binding=replace(action.binding, round=action.binding.round - BIT))
        yield replace(action, binding=replace(action.binding, length=action.binding.length * 2))
    elif isinstance(action, Trim):
        corners = tuple(p + ASIDE for p in action.ruler.corners)
        yield replace(action, ruler=replace(action.ruler, corners=corners))  # type: ignore[arg-type]
        yield replace(action, width=action.width + BIT)


def _misplaced(rows: tuple[tuple[Unit, ...], ...]) -> Iterator[tuple[tuple[Unit, ...], ...]]:
    """One piece aside: a block, an end of a row, a corner."""
    middle = len(rows) // 2
    for r, c in ((middle, 1), (middle, 0), (0, 0)):
        row = tuple(moved(unit, ASIDE) if n == c else unit for n, unit in enumerate(rows[r]))
        yield (*rows[:r], row, *rows[r + 1 :])


def kind_of(action: Action) -> str:
    on_point = isinstance(action, Lay) and action.trimmed is not None
    return ON_POINT if on_point else type(action).__name__


@both
def test_every_kind_of_action(back: Back) -> None:
    tried: Counter[str] = Counter()
    for build in (quilts(), constructions(), curves(), example(PAPER)):
        tried += _tried(build, back)
    kinds = {each.__name__ for each in Action.__args__} - NOT_TRIED  # type: ignore[attr-defined]
    assert set(tried) == kinds | {ON_POINT}


def _tried(build: Build, back: Back) -> Counter[str]:
    tried: Counter[str] = Counter()
    for made in build.made:
        run = Replay(made, back, {one.key: one.unit for one in build.made})
        for step in made.steps:
            for action in (*step.actions, *step.last):
                kind = kind_of(action)
                before, waiting = run.before, run.waiting
                if tried[kind] < (16 if kind == ON_POINT else 6):
                    for other in wrong(action):
                        with pytest.raises(AssertionError):
                            run.action(other, step)
                            pytest.fail(f"{made.key}, line {step.line}: {other}"[:300], pytrace=False)
                        tried[kind] += 1
                        run.before, run.waiting = before, waiting
                run.action(action, step)
    return tried


@both
def test_a_leaning_piece_in_the_other_hand(back: Back) -> None:
    leaning = 0
    for made in constructions().made:
        for step in made.steps:
            for action in step.actions:
                if isinstance(action, CutPiece) and action.shape == "parallelogram":
                    run = Replay(made, back, {})
                    run.action(action, step)
                    pieces: list[Any] = [one.source for one in step.supplies]
                    others = [replace(piece, reversed=not piece.reversed) for piece in pieces]
                    supplies = [replace(one, source=o) for one, o in zip(step.supplies, others, strict=True)]
                    with pytest.raises(AssertionError):
                        run.action(action, replace(step, supplies=tuple(supplies)))
                    leaning += 1
    assert leaning


def test_a_quarter_circle_has_pi_in_it() -> None:
    """Finished areas that the compiler gives as a + b·π are what sympy adds up along the sides, π still a symbol."""
    unit = next(made.unit for made in curves().made if made.name == "nested")
    theirs = finished_areas(unit, ("ground", "path"))
    mine = WithSympy().finished(unit)
    assert mine == {"ground": 16 - 27 * sympy.pi / 16, "path": 27 * sympy.pi / 16}  # (3² - (3/2)²)·π/4
    for fabric, area in mine.items():
        straight, round_part = (sympy.sympify(str(part), rational=True) for part in theirs[fabric])
        assert sympy.expand(area - straight - round_part * sympy.pi) == 0


def test_a_curve_over_seams_cuts_no_quarters() -> None:
    """Its parts hold arc tangents besides; together they are the quarter circle, and the compiler gives no a + b·π."""
    unit = next(made.unit for made in curves().made if made.name == "ring")
    mine = WithSympy().finished(unit)
    assert mine["rim"].has(sympy.atan)
    assert sympy_arcs.vanishes(sum(mine.values()) - 16)
    with pytest.raises(SewingError):
        finished_areas(unit, tuple(mine))


def test_a_unit_that_nobody_made_is_found_out() -> None:
    build = constructions()
    made = next(one for one in build.made if one.whole is None and any(isinstance(s.source, str) for s in one.supplies))
    links.known(build)
    with pytest.raises(AssertionError):
        links.known(replace(build, made=tuple(replace(one, supplies=()) if one is made else one for one in build.made)))
