"""All verbs, in the order in which the reference lists them."""

from __future__ import annotations

from piecewright.verbs import (
    border,
    cut,
    expect,
    join,
    lay,
    note,
    rectangle,
    repeat,
    square,
    strip,
    subcut,
    take,
    trim,
    turn,
)
from piecewright.verbs.registry import Verb

TABLE: tuple[Verb, ...] = (
    square.VERB,
    rectangle.VERB,
    strip.VERB,
    take.VERB,
    join.VERB,
    border.VERB,
    lay.VERB,
    cut.VERB,
    subcut.VERB,
    turn.VERB,
    trim.VERB,
    repeat.VERB,
    expect.VERB,
    note.VERB,
)

VERBS: dict[str, Verb] = {verb.name: verb for verb in TABLE}
NOUNS: tuple[str, ...] = tuple(verb.name for verb in TABLE if verb.role == "noun")
