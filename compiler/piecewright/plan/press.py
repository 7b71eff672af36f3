"""At the press: how the rough pieces of a plan come to lie on each other under a die, and in how many passes.

Cloth folded to and fro lies right side up and wrong side up by turns, so that of a shape without a mirror image in
itself every other piece comes out mirrored. Such pieces are laid on each other cut apart, all on one side; or folded
where the pattern takes as many of the one hand as of the other.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace

from piecewright.dataclass import dataclass
from piecewright.exact import Exact
from piecewright.kernel.alike import shape_has_hands
from piecewright.kernel.build import Cutter, Die, Fabric, Settings
from piecewright.plan.cloth.model import Part
from piecewright.plan.cutlist import CutRow
from piecewright.plan.dies import by_strips, cloths, die_for
from piecewright.plan.model import ClothPlan, Lay, PassPlan, RoughPlan, StripPlan
from piecewright.plan.press_text import left_text, pass_text, room_text, stacked_text
from piecewright.plan.rounding import cut_size, given_size
from piecewright.plan.strip_text import single
from piecewright.plan.strips import Strips
from piecewright.plan.words import shape_size
from piecewright.plan.yardage import ClothCut, cut_cloth

Rows = Mapping[int, CutRow]
Dies = Mapping[int, Die]
"""The die of each row that one cuts, by place."""
_TURNED_BY_FOLDS = ("triangle", "trapezoid")


@dataclass(frozen=True, slots=True, kw_only=True)
class Run:
    """`count` rough pieces side by side, uncut, of the row at `row`: `width` of their strip and `length` of each along
    it, inches. `down`: the strip runs along the selvage. Of a strip die each run is one rough strip."""

    row: int
    width: Exact
    length: Exact
    count: int
    down: bool = False


def with_passes(
    cloth: ClothPlan,
    runs: Iterable[Run],
    strips: Sequence[StripPlan],
    rows: Sequence[tuple[int, CutRow]],
    dies: Dies,
    fabric: Fabric,
    settings: Settings,
) -> ClothPlan:
    """The plan of a fabric with what is cut by which die, in how many passes; and how many stacks a ruler takes.
    `rows` are those of the cut list, with their places, and `runs` how their rough pieces lie."""
    cutter = settings.cutter
    if cutter is None:
        return cloth
    if cutter.kind == "rotary":
        return replace(cloth, how=(*cloth.how, *stacked_text(strips, cutter)))
    groups: dict[Die, list[tuple[int, CutRow]]] = {}
    left: list[CutRow] = []
    for place, row in rows:
        die = dies.get(place)
        if die is None:
            if row.radius is None and row.shape != "panel":  # cut by template, and along the selvages
                left.append(row)
        else:
            groups.setdefault(die, []).append((place, row))
    lying = tuple(runs)
    widest = max(wide for wide, _ in cloths(fabric, settings))
    joined_rows = frozenset(place for place, row in rows if max(row.width, row.height) > widest)
    told: list[str] = []
    passes: list[PassPlan] = []
    for die, own in groups.items():
        places = frozenset(place for place, _ in own)
        mine = [run for run in lying if run.row in places]
        of_die = list(_passes(die, own, mine, fabric, cutter, settings))
        passes += of_die
        told += [pass_text(one, dict(own), joined_rows, fabric, settings, some=len(of_die) > 1) for one in of_die]
    if passes:
        told.insert(0, room_text(cutter, settings))
    if left:
        told.append(left_text(left, settings))
    return replace(cloth, how=(*told, *cloth.how), passes=tuple(passes))


def _passes(
    die: Die,
    own: Sequence[tuple[int, CutRow]],
    runs: Sequence[Run],
    fabric: Fabric,
    cutter: Cutter,
    settings: Settings,
) -> Iterator[PassPlan]:
    first = own[0][1]
    if first.shape == "strip" or by_strips(first, die):
        yield _of_strips(die, own, runs, cutter, settings)
        return
    name = f"{first.shape} {_size(first, settings)}"
    whole, broken = [run for run in runs if _may_fold(run, first, fabric)], []
    for run in runs:
        if not _may_fold(run, first, fabric):
            broken += [replace(run, count=1)] * run.count
    lying = [*whole, *broken]
    folds = any(run.count > 1 for run in whole)

    def one(pieces: tuple[tuple[int, int], ...], lay: Lay, layers: int) -> PassPlan:
        count = sum(number for _, number in pieces)
        return PassPlan(
            die=name,
            pieces=pieces,
            rough=_rough(_taken(lying, count), settings),
            lay=lay,
            layers=min(layers, count),
            passes=-(-count // layers),
        )

    if not shape_has_hands(first.shape, fabric.directional):
        pieces = tuple((place, row.count) for place, row in own)
        yield one(pieces, "folded" if folds and cutter.layers > 1 else "apart", cutter.layers)
        return
    hands = [[(place, row.count) for place, row in own if row.reversed is turned] for turned in (False, True)]
    even = cutter.layers - cutter.layers % 2
    both = min(sum(count for _, count in hand) for hand in hands) if even else 0
    if both:
        pairs = tuple(part for hand in hands for part in _first(hand, both))
        yield one(pairs, "folded in pairs" if folds else "in pairs", even)
    for hand, lay in zip(hands, ("right side up", "wrong side up"), strict=True):
        rest = tuple(_after(hand, both))
        if rest:
            yield one(rest, "right side up" if lay == "right side up" else "wrong side up", cutter.layers)


def _of_strips(
    die: Die, own: Sequence[tuple[int, CutRow]], runs: Sequence[Run], cutter: Cutter, settings: Settings
) -> PassPlan:
    count = sum(run.count for run in runs)
    return PassPlan(
        die=f"strip {cut_size(die.width, settings).shown}",
        pieces=tuple((place, row.count) for place, row in own),
        rough=_rough(runs, settings),
        lay="strips",
        layers=min(cutter.layers, count),
        passes=-(-count // cutter.layers),
    )


def _may_fold(run: Run, row: CutRow, fabric: Fabric) -> bool:
    """Whether folding keeps the print of a directional fabric the right way up: folds across the selvage turn it
    over, and a triangle is not its own mirror image upside down."""
    return not (run.down and fabric.directional and row.shape in _TURNED_BY_FOLDS)


def _first(hand: Sequence[tuple[int, int]], count: int) -> Iterator[tuple[int, int]]:
    """The first so many of pieces, by place."""
    for place, number in hand:
        if count:
            yield place, min(number, count)
        count -= min(number, count)


def _after(hand: Sequence[tuple[int, int]], count: int) -> Iterator[tuple[int, int]]:
    """The pieces after the first so many."""
    for place, number in hand:
        if number > count:
            yield place, number - count
        count -= min(number, count)


def _taken(runs: list[Run], count: int) -> list[Run]:
    """So many rough pieces, and `runs` without them. Those that may be folded come first."""
    taken: list[Run] = []
    while count and runs:
        run = runs.pop(0)
        taken.append(replace(run, count=min(run.count, count)))
        if run.count > count:
            runs.insert(0, replace(run, count=run.count - count))
        count -= taken[-1].count
    return taken


def _rough(runs: Iterable[Run], settings: Settings) -> tuple[RoughPlan, ...]:
    """Like rough pieces together. A single one lies on others whichever way its strip ran."""
    counts: dict[tuple[Exact, Exact], int] = {}
    ordered = sorted(runs, key=lambda run: run.count, reverse=True)
    for run in ordered:
        way = run.width, run.length
        if run.count == 1 and way not in counts and (run.length, run.width) in counts:
            way = run.length, run.width
        counts[way] = counts.get(way, 0) + run.count
    return tuple(
        RoughPlan(width=given_size(width, settings), length=given_size(length, settings), count=count)
        for (width, length), count in counts.items()
    )


def _size(row: CutRow, settings: Settings) -> str:
    width, height = cut_size(row.width, settings).shown, cut_size(row.height, settings).shown
    return shape_size(row.shape, width, height, row.angle)


# ── the plan for a press ────────────────────────────────────────────────────────────────────────


def dies_of(rows: Iterable[tuple[int, CutRow]], fabric: Fabric, settings: Settings) -> Dies:
    """The dies for rows of the cut list, all of one fabric."""
    found = ((place, die_for(row, fabric, settings)) for place, row in rows)
    return {place: die for place, die in found if die is not None}


def press_cut(
    own: Sequence[tuple[int, CutRow]], dies: Dies, fabric: Fabric, settings: Settings, cuts: int
) -> ClothCut:
    """The plan of a fabric whose rows, as cloth is cut for them, are `own`.

    Where that takes no more cloth, all rough pieces for a die lie one way, so that its folds are all as far apart; and
    what comes from the strips of a die lies along them. What no plan does without is that of pieces free to turn.
    """
    of_strips = {place for place, die in dies.items() if die.shape == "strip"}
    free = cut_cloth(own, fabric, settings, cuts=cuts)
    ways: dict[int, set[bool]] = {}
    for run in runs_of(free, dict(own), dies):
        ways.setdefault(run.row, set()).add(run.down if run.row in of_strips else run.width < run.length)
    astray = any(True in seen for place, seen in ways.items() if place in of_strips)
    mixed = any(len(seen) > 1 for place, seen in ways.items() if place not in of_strips)
    held = [(place, _held(row, ways.get(place), place in of_strips)) for place, row in own]
    along = [one if one[0] in of_strips else before for before, one in zip(own, held, strict=True)]
    best = free
    for rows_held, wanted in ((held, mixed), (along, astray)):
        if wanted and best is free:
            cut = cut_cloth(rows_held, fabric, settings, cuts=cuts)
            if _lacks(cut) <= _lacks(free) and cut.bought <= free.bought:
                best = cut
    return replace(best, bound=free.bound, any_bound=free.any_bound)


def _lacks(cut: ClothCut) -> int:
    return sum(count for _, count in cut.plan.missing)


def _held(row: CutRow, ways: set[bool] | None, of_strip: bool) -> CutRow:
    """The row with its rough pieces held to the one way they lie in, or where they lie both ways, along their strips
    on the long side; those from the strips of a die along these. `ways`: whether that is on the long side."""
    if row.lies is None or not row.lies[2] or (ways is None and not of_strip):
        return row
    across, down, _ = row.lies
    if not of_strip and ways is not None:
        short, long = sorted((across, down))
        across, down = (long, short) if True in ways else (short, long)
    return replace(row, lies=(across, down, False))


def as_joined(cut: ClothCut, dies: Dies) -> ClothCut:
    """The plan with long strips as wide as they are sewn, after a die has cut them."""
    joints = [
        replace(joint, width=dies[joint.pieces[0][0]].width) if joint.pieces[0][0] in dies else joint
        for joint in cut.asking.joints
    ]
    return replace(cut, asking=replace(cut.asking, joints=tuple(joints)))


# ── how the rough pieces lie ────────────────────────────────────────────────────────────────────


def runs_of(cut: ClothCut, rows: Rows, dies: Dies) -> tuple[Run, ...]:
    """How the rough pieces lie in a plan: those for one die side by side in a strip are a run, and for a strip die they
    are one rough strip. `rows` as cloth is cut for them, by place."""
    found: list[Run] = []
    if cut.plan.roll is not None:
        found += _runs(cut, rows, dies, cut.plan.roll, 1, apart=True)
    for used in cut.plan.used:
        found += _runs(cut, rows, dies, used.part, used.part.times, apart=True)
    return tuple(found)


def _runs(cut: ClothCut, rows: Rows, dies: Dies, part: Part, times: int, *, apart: bool) -> Iterator[Run]:
    """`apart`: the parts are the strips of a sheet or of the cloth, which are cut apart before anything else."""
    side_by_side: dict[tuple[object, ...], Run] = {}
    for one in part.parts if part.need is None else (part,):
        leaf = single(one)
        if leaf is None:
            yield from _runs(cut, rows, dies, one, times * one.times, apart=False)
            continue
        assert leaf.need is not None
        place = cut.asking.asked[leaf.need].row
        if rows[place].lies is None:
            continue
        strip = dies[place].shape == "strip"
        wide, high = cut.mark * leaf.width, cut.mark * leaf.height
        down = leaf.turned if strip else part.split == "rows"
        if down:
            wide, high = high, wide
        run = Run(row=place, width=high, length=wide, count=one.times, down=down)
        if apart or leaf is not one or part.split != ("rows" if down else "columns"):
            yield from [replace(run, count=1, down=down and strip)] * (one.times * times)
            continue
        alike = (dies[place], run.width) if strip else (dies[place], run.width, run.length)
        before = side_by_side.get(alike)
        if strip:
            long = run.length * one.times + (Exact(0) if before is None else before.length)
            side_by_side[alike] = replace(run, length=long, count=1)
        else:
            side_by_side[alike] = replace(run, count=run.count + (0 if before is None else before.count))
    for run in side_by_side.values():
        yield from [run] * times


def runs_of_prints(planned: Sequence[Strips], rows: Rows) -> tuple[Run, ...]:
    """The same of an assorted fabric, every piece of which may be of another print: each by itself."""
    found: list[Run] = []
    for item in planned:
        for place, count in item.pieces:
            lies = rows[place].lies
            if lies is not None:
                found += [Run(row=place, width=lies[1], length=lies[0], count=1)] * (count * item.batches)
    return tuple(found)
