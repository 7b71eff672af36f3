"""Blocks of which only the symmetry is known."""

from __future__ import annotations

from piecewright.plan.arrange.looks import Looks, looks_with
from piecewright.plan.arrange.motion import MOTIONS, TURNS

SLANT = 5  # the mirror in the rising diagonal: left for right, then a quarter turn to the left


def plain(colours: int) -> Looks:
    """Squares of plain cloth: every motion leaves each as it is."""
    return looks_with([MOTIONS] * colours, TURNS)


HALF_SQUARE = looks_with([(0, SLANT)], TURNS)
DIAGONAL = looks_with([(0, 2, 5, 7)], TURNS)  # one line, and the same cloth on both sides
HANDED = looks_with([(0,)], TURNS)  # no symmetry at all, and never made reversed
PINWHEEL = looks_with([TURNS], TURNS)
BOTH_HANDS = looks_with([(0,)], MOTIONS)
