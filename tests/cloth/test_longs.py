"""The bound for long strips against cloth that is divided without a rest: what is there is never called too short."""

from __future__ import annotations

from collections import Counter
from random import Random

from piecewright.plan.cloth.layout import Kind
from piecewright.plan.cloth.longs import Long, area, rows_at_least, segments_of, too_short

CLOTHS = 400


def divided(random: Random, whole: int, least: int) -> list[int]:
    """Parts of a length, none shorter than `least`."""
    parts = []
    while whole >= 2 * least and random.random() < 0.8:
        parts.append(random.randint(least, whole - least))
        whole -= parts[-1]
    return [*parts, whole]


def cloth(random: Random) -> tuple[list[Kind], list[Long], int, int, int]:
    """Width, length and loss of a cloth and all that it gives: bands of strips across it, sewn into one long strip that
    is cut up; bands as high as strips are long, which lie side by side along it; and bands of plain pieces."""
    width, loss = random.randint(40, 90), random.randint(1, 6)
    pieces: Counter[tuple[int, int, bool]] = Counter()
    longs: Counter[tuple[int, int, bool]] = Counter()
    length = 0
    for _ in range(random.randint(1, 3)):
        band = random.choice(["across", "across", "along", "plain"])
        if band == "across":
            high, rows, turns = random.randint(3, 20), random.randint(2, 7), random.random() < 0.5
            for part in divided(random, rows * width - (rows - 1) * loss, width + 1):
                longs[part, high, turns] += 1
            length += rows * high
        elif band == "along":
            high = random.randint(width + 1, 2 * width)
            for part in divided(random, width, 5):
                longs[high, part, True] += 1
            length += high
        else:
            high = random.randint(3, 20)
            for part in divided(random, width, 5):
                turns = random.random() < 0.5
                pieces[(min(part, high), max(part, high), True) if turns else (part, high, False)] += 1
            length += high
    kinds = [Kind(wide, high, turns, count, ()) for (wide, high, turns), count in pieces.items()]
    strips = [Long(long, wide, count, turns) for (long, wide, turns), count in longs.items()]
    return kinds, strips, width, length, loss


def test_cloth_that_is_there_is_never_too_short() -> None:
    random = Random("cloths")
    tried = tight = 0
    for _ in range(CLOTHS):
        kinds, longs, width, length, loss = cloth(random)
        if not longs:
            continue
        assert not too_short(kinds, longs, width, length, loss, across=True), (kinds, longs, width, length, loss)
        assert not too_short(kinds, longs, width, length, loss, across=False), (kinds, longs, width, length, loss)
        tried += 1
        tight += too_short(kinds, longs, width, length - 1, loss, across=True)
    assert tried > CLOTHS / 2
    assert tight > tried / 2  # nothing is left over, so that mostly a mark less is known not to do


def test_segments_have_their_seams() -> None:
    """By hand: 129 from 40 with 1 lost at each seam is 40 + 39 + 39 = 118, and 11 and its seam more."""
    long = Long(129, 9, 2, False)
    assert segments_of(long, 40, 1) == 132
    assert segments_of(long, 129, 1) == 129 and segments_of(long, 128, 1) == 130
    assert area([Kind(2, 3, True, 5, ())], [long], 40, 1) == 30 + 2 * 132 * 9


def test_rows_are_those_of_the_best_groups() -> None:
    # each alone two rows that are not full, both of one long strip in three: 3 * 40 - 2 is 118
    assert rows_at_least([Long(59, 5, 2, False)], 40, 1) == 3
    # one of each fills two rows, 79; all in one long strip would be a row more, since three seams lose 3 of 160
    assert rows_at_least([Long(42, 5, 2, False), Long(37, 5, 2, False)], 40, 1) == 4
    assert rows_at_least([Long(50 + n, 5, 9, False) for n in range(4)], 40, 1) == 0  # not tried


def test_each_way_to_see_that_cloth_is_too_short() -> None:
    def short(longs: list[Long], kinds: list[Kind], length: int, *, across: bool = True) -> bool:
        return too_short(kinds, longs, 40, length, 1, across=across)

    # seven rows of 9 give 274, and of 8 and 9 as high as one likes no other number does
    assert short([Long(69, 9, 4, False)], [], 71) and not short([Long(68, 9, 4, False)], [], 63)
    # a strip that may lie along the cloth is whole there, and only that
    assert short([Long(69, 9, 4, True)], [], 68) is short([Long(69, 9, 4, False)], [], 68)
    assert not short([Long(69, 9, 4, True)], [], 69)
    # strips of 12 and 13: of 24 in length none but 12 and 12 lie in a line down the cloth
    assert short([Long(79, 13, 1, False), Long(79, 12, 1, False)], [], 49)
    assert not short([Long(79, 13, 1, False), Long(79, 12, 1, False)], [], 50)
    # a line down 35 meets three of 10, or two and two of 6, and so on; of 10 there must be 102 / 40 = 2.55, which is
    # three in 0.55 of the lines at least, and two of 6 in the other 0.45 are 0.9 where there must be 49 / 40
    two = [Long(49, 6, 1, False), Long(102, 10, 1, False)]
    assert too_short([], two, 40, 35, 0, across=True) and not too_short([], two, 40, 36, 0, across=True)
    # a piece that fits in no way at all, and a strip
    assert short([Long(41, 2, 1, True)], [Kind(41, 3, False, 1, ())], 60)
    assert short([Long(60, 50, 1, False)], [], 49)
    # what may lie in any way counts by area
    assert not short([Long(69, 9, 4, True)], [], 65, across=False)
    assert short([Long(69, 9, 4, True)], [], 62, across=False)
