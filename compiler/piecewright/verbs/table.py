"""All verbs, in the order in which the reference lists them."""

from __future__ import annotations

from piecewright.verbs import (
    add,
    border,
    choose,
    curve,
    cut,
    diamond,
    expect,
    finish,
    flip,
    foundation,
    join,
    lay,
    note,
    parallelogram,
    place,
    rectangle,
    repeat,
    sash,
    set,
    square,
    stitch,
    strip,
    subcut,
    take,
    trapezoid,
    triangle,
    trim,
    turn,
)
from piecewright.verbs.registry import Verb

TABLE: tuple[Verb, ...] = (
    square.VERB,
    rectangle.VERB,
    strip.VERB,
    triangle.VERB,
    diamond.VERB,
    parallelogram.VERB,
    trapezoid.VERB,
    take.VERB,
    join.VERB,
    border.VERB,
    lay.VERB,
    sash.VERB,
    foundation.VERB,
    add.VERB,
    place.VERB,
    stitch.VERB,
    flip.VERB,
    curve.VERB,
    cut.VERB,
    subcut.VERB,
    set.VERB,
    finish.VERB,
    turn.VERB,
    trim.VERB,
    choose.VERB,
    repeat.VERB,
    expect.VERB,
    note.VERB,
)

VERBS: dict[str, Verb] = {verb.name: verb for verb in TABLE}
NOUNS: tuple[str, ...] = tuple(verb.name for verb in TABLE if verb.role == "noun")
