"""What is wanted, how often it is made and what is left over."""

from __future__ import annotations

from dataclasses import replace

from hypothesis import given
from hypothesis import strategies as st
from piecewright.exact import Exact
from piecewright.kernel.build import Made, Supply
from piecewright.kernel.demand import Wanted, cuttings, strip_sets, wanted
from plan import builds


def by_name(work: tuple[Wanted, ...]) -> dict[str, Wanted]:
    return {item.made.name: item for item in work}


def test_wanted_copies_run_down_through_everything_and_are_rounded_up_at_each_unit() -> None:
    work = by_name(wanted(builds.build(builds.lantern(), ("lantern(dusk, glow)", 13))))
    assert {name: (item.runs, item.needed, item.spare) for name, item in work.items()} == {
        "framed": (7, (7,), (0,)),
        "half-framed": (7, (13,), (1,)),
        "half-plain": (7, (13,), (1,)),
        "lantern": (13, (13,), (0,)),
    }


def test_several_demands_for_one_unit_are_pooled_before_rounding() -> None:
    made = builds.lantern()
    work = by_name(wanted(builds.build(made, ("lantern(dusk, glow)", 1), ("half-framed(dusk, glow)", 1))))
    assert (work["half-framed"].runs, work["half-framed"].spare) == (1, (0,))


def test_what_nobody_asks_for_is_not_made() -> None:
    work = wanted(builds.build((*builds.lantern(), *builds.cabin()), ("cabin(glow, dusk)", 1)))
    assert [item.key for item in work] == ["cabin(glow, dusk)"]


def test_the_order_of_work_makes_everything_before_it_is_used() -> None:
    made = (*builds.lantern(), *builds.nine_patch())
    work = wanted(builds.build(made, ("nine-patch(glow, dusk)", 2), ("lantern(dusk, glow)", 2)))
    done: set[str] = set()
    for item in work:
        used = {supply.source for supply in item.made.supplies if isinstance(supply.source, str)}
        assert used <= done
        done |= {part.key for part in item.parts}


def test_unlike_parts_share_the_runs_of_their_whole_and_an_unused_kind_is_spare() -> None:
    work = wanted(builds.build(builds.crossed(), ("crossed(dusk)", 5)))
    slashed = work[0]
    assert slashed.key == "slashed(dusk)" and [part.name for part in slashed.parts] == ["narrow", "wide"]
    assert (slashed.runs, slashed.needed, slashed.spare) == (5, (5, 0), (0, 5))


def test_the_part_wanted_most_says_how_often_the_whole_is_made() -> None:
    narrow, wide, block = builds.crossed()
    work = wanted(builds.build((narrow, wide, block), ("crossed(dusk)", 2), (wide.key, 7)))
    assert (work[0].runs, work[0].needed, work[0].spare) == (7, (2, 7), (5, 0))


def test_a_unit_used_twice_by_two_users_is_counted_from_both() -> None:
    one, other, block = builds.nine_patch()
    work = by_name(wanted(builds.build((one, other, block), ("nine-patch(glow, dusk)", 3), (other.key, 4))))
    runs = {
        item.key: item.runs
        for item in wanted(builds.build((one, other, block), ("nine-patch(glow, dusk)", 3), (other.key, 4)))
    }
    assert runs == {one.key: 6, other.key: 7, block.key: 3} and work["nine-patch"].spare == (0,)


def test_strip_sets_are_full_but_the_last_which_is_only_as_long_as_it_must_be() -> None:
    assert strip_sets(16, 40) == (16, 16, 8)
    assert strip_sets(16, 32) == (16, 16)
    assert strip_sets(16, 3) == (3,)
    assert strip_sets(None, 9) == ()
    assert strip_sets(0, 2) == (1, 1)  # a segment longer than the cloth is wide


def test_strips_of_a_set_are_cut_to_the_length_of_its_segments() -> None:
    build = builds.build(builds.nine_patch(), ("nine-patch(glow, dusk)", 10))
    strips = [(c.piece.fabric, str(c.width), c.count) for c in cuttings(build, wanted(build)) if "dusk, glow" in c.key]
    # 20 segments of 2 1/2: one full set of 16 (40 long) and one of 4 (10 long); a strip above and one below
    assert strips == [
        ("dusk", "40", 1),
        ("dusk", "10", 1),
        ("glow", "40", 1),
        ("glow", "10", 1),
        ("dusk", "40", 1),
        ("dusk", "10", 1),
    ]


def test_pieces_are_counted_by_runs() -> None:
    build = builds.build(builds.lantern(), ("lantern(dusk, glow)", 13))
    pieces = [(c.piece.shape, str(c.width), str(c.piece.height), c.count) for c in cuttings(build, wanted(build))]
    assert ("square", "11/2", "11/2", 7) in pieces
    assert pieces.count(("rectangle", "9/4", "11/2", 7)) == 2  # one to the left and one to the right


@given(st.lists(st.tuples(st.integers(1, 5), st.integers(1, 4), st.integers(0, 9)), min_size=1, max_size=8))
def test_made_is_needed_and_spare_and_spare_is_less_than_one_run(chain: list[tuple[int, int, int]]) -> None:
    """A tower of units, each taking some of the one below, with demands of their own."""
    base = builds.lantern()[0]
    made: list[Made] = []
    for level, (copies, count, _) in enumerate(chain):
        supplies = (Supply(source=f"u{level - 1}", count=count),) if level else ()
        made.append(replace(base, key=f"u{level}", name=f"u{level}", copies=copies, supplies=supplies))
    asked = [(f"u{level}", own) for level, (_, _, own) in enumerate(chain)]
    work = {item.key: item for item in wanted(builds.build(tuple(made), *asked))}
    above = 0
    for level in reversed(range(len(chain))):
        copies, count, own = chain[level]
        needed = own + above
        runs = -(-needed // copies)
        above = runs * count
        if not runs:
            assert f"u{level}" not in work
            continue
        item = work[f"u{level}"]
        assert (item.needed, item.runs) == ((needed,), runs)
        assert item.runs * copies == item.needed[0] + item.spare[0] and 0 <= item.spare[0] < copies


@given(st.integers(1, 40), st.integers(1, 400))
def test_segments_of_all_sets_are_exactly_those_wanted(segments: int, count: int) -> None:
    sets = strip_sets(segments, count)
    assert sum(sets) == count and max(sets) <= segments
    assert all(size == segments for size in sets[:-1]) and Exact(len(sets)) == Exact(count, segments).ceil()
