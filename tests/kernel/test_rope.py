"""Ropes against plain tuples: the same things in the same order, whatever was done to them."""

from __future__ import annotations

import random

import pytest
from piecewright.exact import Exact, Vector
from piecewright.kernel.pieces import rectangle
from piecewright.kernel.rope import Rope, box, farther_than
from piecewright.kernel.unit import Patch, Seam

TURNS = (Vector(0, 1), Vector(-1, 0), Vector.at(45), Vector.at(30), None)


def patch(rng: random.Random, number: int) -> Patch:
    unit = rectangle(Exact(rng.randint(1, 4)), Exact(rng.randint(1, 4)), fabric=f"f{number}", allowance=Exact(1, 4))
    return unit.patches[0].carried(None, Vector(rng.randint(-40, 40), rng.randint(-40, 40)))


def overlaps(one: Patch, bounds: tuple[float, float, float, float]) -> bool:
    left, bottom, right, top = one.reach
    return left <= bounds[2] and right >= bounds[0] and bottom <= bounds[3] and top >= bounds[1]


@pytest.mark.parametrize("seed", range(12))
def test_a_rope_holds_what_a_tuple_holds(seed: int) -> None:
    rng = random.Random(seed)
    rope: Rope[Patch] = Rope()
    plain: tuple[Patch, ...] = ()
    for step in range(120):
        before, was = rope, plain
        what = rng.randrange(7)
        if what < 3:
            new = tuple(patch(rng, 100 * step + i) for i in range(rng.choice((1, 1, 2, 30))))
            front = rng.random() < 0.3
            rope, plain = (Rope(new) + rope, new + plain) if front else (rope + Rope(new), plain + new)
        elif what == 3:
            turn = rng.choice(TURNS[:2] if step % 10 else TURNS)
            shift = rng.choice((None, Vector(Exact(rng.randint(-9, 9), 4), 1)))
            rope, plain = rope.carried(turn, shift), tuple(one.carried(turn, shift) for one in plain)
        elif plain:
            spot = rng.choice(rng.choice(plain).cells[0])
            bounds = box((spot, spot + Vector(rng.randint(0, 9), rng.randint(0, 9))))
            if what == 4:
                near = [one for one in plain if overlaps(one, bounds)]
                found = list(rope.near(bounds))
                assert [one for one in found if overlaps(one, bounds)] == near
                inward = rng.choice([turn for turn in TURNS if turn is not None])
                within = [
                    one for one in plain if any((p - spot).dot(inward) <= 3 for cell in one.cells for p in cell)
                ]
                assert set(within) <= set(rope.unless(farther_than(spot.floats, inward.floats, 3.0)))
            else:
                gone = what == 5

                def change(one: Patch, gone: bool = gone) -> Patch | None:
                    return None if gone and one.fabric.endswith("0") else one.carried(None, Vector(0, Exact(1, 8)))

                plain = tuple(
                    new for one in plain if (new := change(one) if overlaps(one, bounds) else one) is not None
                )
                rope = rope.changed(bounds, change)
        assert rope.count == len(plain)
        if step % 8 == 7:
            assert tuple(rope) == plain
            assert tuple(reversed(rope)) == plain[::-1]
            assert tuple(before) == was  # and the one before is what it was


def test_nothing_near_leaves_the_rope_as_it_is() -> None:
    seams = tuple(
        Seam(start=Vector(x, 0), end=Vector(x, 1), direction=Vector(0, 1), pressed="open") for x in range(100)
    )
    rope = Rope(seams)
    assert rope.changed((200.0, 0.0, 300.0, 1.0), lambda seam: None) is rope
    looked: list[Seam] = []

    def look(seam: Seam) -> Seam:
        looked.append(seam)
        return seam

    assert rope.changed((50.0, 0.0, 51.0, 1.0), look) is rope
    assert looked == [seams[50], seams[51]]
    assert (Rope(seams[:0]) + rope) is rope
