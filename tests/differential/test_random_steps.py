"""500 random step sequences: the compiler against sympy, exactly, and against shapely, to a billionth of an inch."""

from __future__ import annotations

import pytest
from differential.patterns import SEEDS, random_build, random_sequence, whole
from differential.references import Exactly, Nearly
from differential.replay import WithShapely, WithSympy
from differential.sew_steps import sewn
from piecewright.kernel.moves import settled

BATCH = 25
BATCHES = [range(start, start + BATCH) for start in SEEDS[::BATCH]]


@pytest.mark.parametrize("seeds", BATCHES, ids=lambda seeds: f"{seeds.start}-{seeds.stop - 1}")
def test_against_sympy(seeds: range) -> None:
    reference, compare = Exactly(), WithSympy()
    for seed in seeds:
        mine = reference.settled(sewn(random_sequence(seed), reference))
        compare.check(mine, settled(whole(random_build(seed))))


@pytest.mark.parametrize("seeds", BATCHES, ids=lambda seeds: f"{seeds.start}-{seeds.stop - 1}")
def test_against_shapely(seeds: range) -> None:
    reference, compare = Nearly(), WithShapely()
    for seed in seeds:
        mine = reference.settled(sewn(random_sequence(seed), reference))
        compare.check(mine, settled(whole(random_build(seed))))


def test_the_sequences_cover_every_kind_of_step() -> None:
    kinds = {step[0] for seed in SEEDS for step in random_sequence(seed).steps}
    assert kinds == {
        "start", "strips", "join", "border", "tips", "turn", "slice", "trim", "halve", "half", "lay", "roof",
    }  # fmt: skip
    assert len({random_sequence(seed) for seed in SEEDS}) == len(SEEDS)


def test_a_wrong_result_is_found_out() -> None:
    """The comparison itself: a sixty-fourth of an inch more is no agreement."""
    from dataclasses import replace

    from piecewright.exact import Exact, Vector
    from piecewright.kernel.moves import moved

    unit = settled(whole(random_build(0)))
    for reference, compare in ((Exactly(), WithSympy()), (Nearly(), WithShapely())):
        mine = reference.settled(sewn(random_sequence(0), reference))
        compare.check(mine, unit)
        corner = unit.corners[0]
        off = replace(corner, finished=corner.finished + Vector(Exact(1, 64), Exact(0)))
        with pytest.raises(AssertionError):
            compare.check(mine, replace(unit, corners=(off, *unit.corners[1:])))
        with pytest.raises(AssertionError):
            compare.check(mine, replace(unit, patches=unit.patches[1:]))
        with pytest.raises(AssertionError):
            compare.check(mine, moved(unit, Vector(Exact(1, 64), Exact(0))))
