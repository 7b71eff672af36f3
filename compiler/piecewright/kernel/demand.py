"""How much of everything is wanted: from what is asked for, down through every piece used.

A unit is made in runs; one run of its steps gives `copies`. Wanted copies are divided by copies a
run and rounded up, so each unit may leave spares, and what the runs take is wanted in its turn.
A strip set is evaluated as one segment, so one run of it is one segment, and the segments are
gathered into sets: full ones, and a last one only as long as it must be.
"""

from __future__ import annotations

from piecewright.dataclass import dataclass
from piecewright.exact import Exact
from piecewright.kernel.batches import Batch, Chain, choices, handed, product, within
from piecewright.kernel.build import Build, Made, Piece, Supply


@dataclass(frozen=True, slots=True, kw_only=True)
class Wanted:
    """One definition with what it was handed, and how often it is made.

    `parts` is the unit itself, or all the unlike parts its last cut gives, which share its runs;
    `needed[i]` and `spare[i]` are copies of `parts[i]`, together `runs * parts[i].copies`. `sets` are the
    segments of each strip set, full ones first; empty for anything but a strip set. `batches` are the same
    numbers for each batch; they add up to these.
    """

    key: str
    parts: tuple[Made, ...]
    runs: int
    needed: tuple[int, ...]
    spare: tuple[int, ...]
    sets: tuple[int, ...]
    batches: tuple[Batch, ...] = ()

    @property
    def made(self) -> Made:
        """The one that holds the steps."""
        return self.parts[0]


@dataclass(frozen=True, slots=True, kw_only=True)
class Cutting:
    """Like pieces for one unit. `width` is across, inches, as cut; for a strip it is how long it must be. `batches`:
    of a chosen print, how many prints the pieces are of, equally many of each; None for any other fabric.
    `choosers` are the units that choose them, from the outermost in."""

    piece: Piece
    width: Exact
    count: int
    key: str
    batches: int | None = None
    choosers: tuple[str, ...] = ()


def wanted(build: Build) -> tuple[Wanted, ...]:
    """Every definition that has to be made, in the order of work."""
    groups = _groups(build)
    group_of = {made.key: whole for whole, parts in groups.items() for made in parts}
    chosen, prints = choices(groups), handed(build)
    needed: dict[str, dict[Chain, int]] = {key: {} for key in group_of}
    for demand in build.demands:
        _add(needed[demand.key], (), demand.count)
    runs: dict[str, dict[Chain, int]] = {}
    for whole in _users_first(groups, group_of):
        parts = groups[whole]
        chains = dict.fromkeys(chain for part in parts for chain in needed[part.key])
        runs[whole] = {
            chain: max(_ceil(needed[part.key].get(chain, 0), part.copies) for part in parts) for chain in chains
        }
        for supply in parts[0].supplies:
            if isinstance(supply.source, str):
                for chain in chains:
                    inner = (*chain, whole) if chosen[whole] else chain
                    outer = within(inner, prints[supply.source], chosen)
                    count = supply.count if chosen[whole] else supply.count * runs[whole][chain]
                    count *= product(_rounds(inner, runs)[len(outer) :])
                    _add(needed[supply.source], outer, count)
    order = {whole: number for number, whole in enumerate(groups)}
    return tuple(
        _wanted(whole, parts, _in_order(runs[whole], order), needed, runs)
        for whole, parts in groups.items()
        if any(runs[whole].values())
    )


def _in_order(own: dict[Chain, int], order: dict[str, int]) -> dict[Chain, int]:
    """What is counted for each chain, in the order of work."""
    return dict(sorted(own.items(), key=lambda item: [order[key] for key in item[0]]))


def _wanted(
    whole: str,
    parts: tuple[Made, ...],
    own: dict[Chain, int],
    needed: dict[str, dict[Chain, int]],
    runs: dict[str, dict[Chain, int]],
) -> Wanted:
    batches = tuple(
        Batch(
            choosers=chain,
            rounds=_rounds(chain, runs),
            runs=count,
            needed=tuple(needed[part.key].get(chain, 0) for part in parts),
            sets=strip_sets(parts[0].segments, count),
        )
        for chain, count in own.items()
        if count
    )
    total = sum(batch.runs * batch.times for batch in batches)
    wanted = tuple(sum(batch.needed[i] * batch.times for batch in batches) for i in range(len(parts)))
    return Wanted(
        key=whole,
        parts=parts,
        runs=total,
        needed=wanted,
        spare=tuple(total * part.copies - number for part, number in zip(parts, wanted, strict=True)),
        sets=tuple(sorted((size for batch in batches for size in batch.sets * batch.times), reverse=True)),
        batches=batches,
    )


def _rounds(chain: Chain, runs: dict[str, dict[Chain, int]]) -> tuple[int, ...]:
    """How often each unit of a chain is made within the one before it."""
    return tuple(runs[key][chain[:at]] for at, key in enumerate(chain))


def _add(counts: dict[Chain, int], chain: Chain, count: int) -> None:
    counts[chain] = counts.get(chain, 0) + count


def cuttings(build: Build, work: tuple[Wanted, ...]) -> tuple[Cutting, ...]:
    """Every piece cut from cloth for the work, in its order; strips with the length each must have, or the
    whole width where nothing says how much of one is used."""
    usable = {fabric.name: fabric.usable for fabric in build.fabrics}
    squaring = build.settings.squaring
    prints = frozenset(fabric.name for fabric in build.fabrics if fabric.of)
    chosen = {item.key: item.made.chosen for item in work}
    found: list[Cutting] = []
    for item in work:
        for supply in item.made.supplies:
            piece = supply.source
            if isinstance(piece, str):
                continue
            for batch in item.batches:
                choosers, batches = (
                    batch.prints(piece.fabric, item.key, chosen) if piece.fabric in prints else ((), None)
                )
                for width, count in _sizes(piece, supply, item.made, batch, usable[piece.fabric], squaring):
                    found.append(
                        Cutting(
                            piece=piece,
                            width=width,
                            count=count * batch.times,
                            key=item.key,
                            batches=batches,
                            choosers=choosers,
                        )
                    )
    return tuple(found)


def _sizes(
    piece: Piece, supply: Supply, made: Made, batch: Batch, usable: Exact, squaring: Exact
) -> list[tuple[Exact, int]]:
    """The width of the pieces that a supply brings to one batch, and how many of each."""
    if piece.width is not None:
        return [(piece.width, batch.runs * supply.count)]
    sizes = []
    for segments, times in _runs_of_equal(batch.sets or (1,) * batch.runs):
        each = supply.length or made.segment
        width = usable if each is None else set_length(made, each, segments, squaring)
        sizes.append((min(width, usable) if made.slant is not None else width, times * supply.count))
    return sizes


def set_length(made: Made, each: Exact, segments: int, squaring: Exact) -> Exact:
    """How long the strips of a set are that gives so many segments, each taking `each` of its length: with what goes
    off at a slant, and to square its end where segments are cut from it."""
    return each * segments + (made.slant or 0) + (squaring if made.segments is not None else 0)


def strip_sets(segments: int | None, wanted_segments: int) -> tuple[int, ...]:
    """How many segments each set gives: as many full sets as fill, and the last as long as it must be.

    `segments` is what a full set gives, None where there is no strip set. A segment longer than the usable
    width (0 a set) makes a set by itself, of joined strips.
    """
    if segments is None:
        return ()
    full, rest = divmod(wanted_segments, max(segments, 1))
    return (max(segments, 1),) * full + ((rest,) if rest else ())


def _groups(build: Build) -> dict[str, tuple[Made, ...]]:
    """Units by the key their steps stand under, in the order of work; the holder of the steps first."""
    groups: dict[str, list[Made]] = {}
    for made in build.made:
        groups.setdefault(made.whole or made.key, []).append(made)
    for whole, parts in groups.items():
        if len(parts) > 1 and any(part.whole for part in parts):
            # A whole that stands beside its parts brings the steps but is never used itself.
            own = [part for part in parts if part.key == whole]
            groups[whole] = [part for part in parts if part.key != whole] if own else parts
    return {whole: tuple(parts) for whole, parts in groups.items()}


def _users_first(groups: dict[str, tuple[Made, ...]], group_of: dict[str, str]) -> list[str]:
    """The groups so ordered that each stands after everything that uses it."""
    uses: dict[str, list[str]] = {}
    users = dict.fromkeys(groups, 0)
    for whole, parts in groups.items():
        uses[whole] = sorted({group_of[s.source] for s in parts[0].supplies if isinstance(s.source, str)})
        for used in uses[whole]:
            users[used] += 1
    ready = [whole for whole in groups if not users[whole]]
    order: list[str] = []
    while ready:
        whole = ready.pop()
        order.append(whole)
        for used in uses[whole]:
            users[used] -= 1
            if not users[used]:
                ready.append(used)
    return order


def _runs_of_equal(sets: tuple[int, ...]) -> list[tuple[int, int]]:
    """`(4, 4, 4, 1)` as `[(4, 3), (1, 1)]`."""
    found: list[tuple[int, int]] = []
    for size in sets:
        if found and found[-1][0] == size:
            found[-1] = (size, found[-1][1] + 1)
        else:
            found.append((size, 1))
    return found


def _ceil(count: int, by: int) -> int:
    return -(-count // by)
