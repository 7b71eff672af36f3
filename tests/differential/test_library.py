"""Every recorded action of every entry of the library: the compiler against sympy, exactly, and against shapely."""

from __future__ import annotations

from dataclasses import replace

import pytest
from differential.replay import Back, WithShapely, WithSympy, actions, replayed
from piecewright.evaluate.catalogue import Entry, entries, sample
from piecewright.evaluate.run import evaluate
from piecewright.kernel.action import Subcut
from piecewright.kernel.build import Build
from piecewright.kernel.unit import Unit
from piecewright.reading import Reader, read_nothing

LEANING = ("triangle-row",)  # its cells face each other on a slant, where the references sew only upright rows
SEWN = [entry for entry in entries() if entry.name not in LEANING]
by_entry = pytest.mark.parametrize("entry", SEWN, ids=lambda entry: entry.name)


def built(entry: Entry) -> Build:
    reader = Reader(read_nothing)
    file, found = reader.main("<text>", sample(entry, (*entry.parts, entry.name)[0]))
    assert file is not None, found
    build, more = evaluate(file, reader.load)
    assert build is not None, more
    return build


def replay(entry: Entry, back: Back) -> None:
    done = 0
    build = built(entry)
    # a unit made as in a mirror is not sewn again, but mirrored
    sewn = replace(build, made=tuple(made for made in build.made if not made.reversed))
    for where, action in actions(sewn):
        try:
            if isinstance(action, Subcut) and action.angle is not None:
                slanted(action, back)
            else:
                replayed(action, back)
        except AssertionError as error:
            raise AssertionError(f"{entry.name}: {where}: {type(action).__name__}") from error
        done += 1
    assert done > 0


def slanted(action: Subcut, back: Back) -> None:
    """Each segment is what the reference cuts there; the wedges at the ends of the set are no segments."""
    parts = [back.read(action.before)]
    for start, end in action.lines:
        parts = back.cut(parts, start, end)
    assert len(action.parts) < len(parts)
    for part in action.parts:
        assert any(_same(back, own, part) for own in parts)


def _same(back: Back, own: object, part: Unit) -> bool:
    try:
        back.check(own, part)
    except AssertionError:
        return False
    return True


@by_entry
def test_against_sympy(entry: Entry) -> None:
    replay(entry, WithSympy())


@by_entry
def test_against_shapely(entry: Entry) -> None:
    replay(entry, WithShapely())
