"""Pieces cut at an angle, set-in seams, seams in part and stepped strips: every such action of the constructions."""

from __future__ import annotations

from collections import Counter

from differential.replay import WithShapely, WithSympy, actions, is_beyond, replayed
from evaluate.constructions import parsed, sayable
from piecewright.evaluate.run import evaluate
from piecewright.kernel.action import CutPiece, Finish, Sew


def test_against_sympy_and_shapely() -> None:
    definitions, makes, heading = sayable()
    build, _ = evaluate(parsed("".join([*heading, *definitions.values(), *makes])), lambda name, span: ())
    assert build is not None
    done: Counter[str] = Counter()
    for where, action in actions(build):
        slanted = isinstance(action, CutPiece) and action.angle is not None and "reversed" not in where
        beyond = isinstance(action, Finish) or (isinstance(action, Sew) and is_beyond(action))
        if slanted or beyond:
            for back in (WithSympy(), WithShapely()):
                replayed(action, back)
            done[type(action).__name__] += 1
    assert done["CutPiece"] >= 6 and done["Finish"] == 1 and done["Sew"] >= 20
