"""How much of everything is wanted: from what is asked for, down through every piece used.

A unit is made in runs; one run of its steps gives `copies`. Wanted copies are divided by copies a
run and rounded up, so each unit may leave spares, and what the runs take is wanted in its turn.
A strip set is evaluated as one segment, so one run of it is one segment, and the segments are
gathered into sets: full ones, and a last one only as long as it must be.
"""

from __future__ import annotations

from piecewright.dataclass import dataclass
from piecewright.exact import Exact
from piecewright.kernel.build import Build, Made, Piece


@dataclass(frozen=True, slots=True, kw_only=True)
class Wanted:
    """One definition with what it was handed, and how often it is made.

    `parts` is the unit itself, or all the unlike parts its last cut gives, which share its runs;
    `needed[i]` and `spare[i]` are copies of `parts[i]`, together `runs * parts[i].copies`. `sets` are the
    segments of each strip set, full ones first; empty for anything but a strip set.
    """

    key: str
    parts: tuple[Made, ...]
    runs: int
    needed: tuple[int, ...]
    spare: tuple[int, ...]
    sets: tuple[int, ...]

    @property
    def made(self) -> Made:
        """The one that holds the steps."""
        return self.parts[0]


@dataclass(frozen=True, slots=True, kw_only=True)
class Cutting:
    """Like pieces for one unit. `width` is across, inches, as cut; for a strip it is how long it must be."""

    piece: Piece
    width: Exact
    count: int
    key: str


def wanted(build: Build) -> tuple[Wanted, ...]:
    """Every definition that has to be made, in the order of work."""
    groups = _groups(build)
    group_of = {made.key: whole for whole, parts in groups.items() for made in parts}
    needed: dict[str, int] = dict.fromkeys(group_of, 0)
    for demand in build.demands:
        needed[demand.key] += demand.count
    runs: dict[str, int] = {}
    for whole in _users_first(groups, group_of):
        parts = groups[whole]
        runs[whole] = max(_ceil(needed[part.key], part.copies) for part in parts)
        for supply in parts[0].supplies:
            if isinstance(supply.source, str):
                needed[supply.source] += runs[whole] * supply.count
    return tuple(
        Wanted(
            key=whole,
            parts=parts,
            runs=runs[whole],
            needed=tuple(needed[part.key] for part in parts),
            spare=tuple(runs[whole] * part.copies - needed[part.key] for part in parts),
            sets=strip_sets(parts[0].segments, runs[whole]),
        )
        for whole, parts in groups.items()
        if runs[whole]
    )


def cuttings(build: Build, work: tuple[Wanted, ...]) -> tuple[Cutting, ...]:
    """Every piece cut from cloth for the work, in its order; strips with the length each must have, or the
    whole width where nothing says how much of one is used."""
    usable = {fabric.name: fabric.usable for fabric in build.fabrics}
    found: list[Cutting] = []
    for item in work:
        for supply in item.made.supplies:
            piece = supply.source
            if isinstance(piece, str):
                continue
            if piece.width is not None:
                width = piece.width
                found.append(Cutting(piece=piece, width=width, count=item.runs * supply.count, key=item.key))
                continue
            for segments, times in _runs_of_equal(item.sets or (1,) * item.runs):
                width = (supply.length or item.made.segment or usable[piece.fabric]) * segments
                if item.made.slant is not None:
                    width = min(width + item.made.slant, usable[piece.fabric])
                found.append(Cutting(piece=piece, width=width, count=times * supply.count, key=item.key))
    return tuple(found)


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
