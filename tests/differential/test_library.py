"""Every recorded action of every entry of the library, as it is and as in a mirror: the compiler against sympy,
exactly, and against shapely. Nothing is left out; of which seams only a part is worked out stands below."""

from __future__ import annotations

from collections import Counter

import pytest
from differential import links
from differential.patterns import LIBRARY, entry_build
from differential.replay import IN_PART, WithShapely, WithSympy, partly, replay
from piecewright.evaluate.catalogue import Entry
from piecewright.kernel.action import Finish, Sew

by_entry = pytest.mark.parametrize("entry", LIBRARY, ids=lambda entry: entry.name)
by_hand = pytest.mark.parametrize("reversed", (False, True), ids=("", "reversed"))


@by_entry
@by_hand
def test_against_sympy(entry: Entry, reversed: bool) -> None:
    assert replay(entry_build(entry, reversed), WithSympy()).total() > 0


@by_entry
@by_hand
def test_against_shapely(entry: Entry, reversed: bool) -> None:
    assert replay(entry_build(entry, reversed), WithShapely()).total() > 0


@by_entry
@by_hand
def test_the_actions_hang_together(entry: Entry, reversed: bool) -> None:
    build = entry_build(entry, reversed)
    assert any(made.reversed for made in build.made) or not reversed
    links.known(build)
    links.connected(build)
    links.on_each_other(build)


def test_few_seams_are_worked_out_by_their_finished_picture_alone() -> None:
    done: Counter[str] = Counter()
    for entry in LIBRARY:
        for made in entry_build(entry, False).made:
            actions = [action for step in made.steps for action in (*step.actions, *step.last)]
            done.update(partly(action) for action in actions if isinstance(action, Sew))
            done.update("finished" for action in actions if isinstance(action, Finish))
    whole = done.pop("")
    assert set(done) == set(IN_PART) == {
        "round an inner corner",
        "beside a slanted inner corner",
        "sewn in part",
        "finished",
        "beside an open seam",
    }  # fmt: skip
    assert done.total() < whole / 4
