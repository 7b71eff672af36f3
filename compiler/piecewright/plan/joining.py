"""Pieces longer than the cloth is wide: how they are joined end to end from strips.

Only strips are joined, those of borders, sashes, bindings, strip sets and the panels of a backing; any other piece is
one piece. Strips of one width are sewn into one long strip, from which all long pieces of that width are cut, or each
piece is joined by itself.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import permutations

from piecewright.dataclass import dataclass
from piecewright.exact import Exact
from piecewright.plan.cutlist import CutRow
from piecewright.plan.rounding import up_to_mark

_FEW = 3  # rows whose orders are tried, and
_PLACES = 12  # strips among which a shorter one may stand;
_MANY = 300  # with more pieces times strips, the plainest order serves


@dataclass(frozen=True, slots=True, kw_only=True)
class Joint:
    """Strips sewn end to end. `pieces`: row, length and count of what is cut from it, in that order; all lengths in
    inches. `full` strips have the length `limit`, and beside them there are `ends`. Where the long strip is for all
    pieces `together`, there is one end at most, which stands after so many full strips as `before` says; else each
    piece takes so many full strips and these ends, one or two. `downward`: the strips run along the cloth."""

    pieces: tuple[tuple[int, Exact, int], ...]
    width: Exact
    limit: Exact
    seam: Exact
    full: int
    ends: tuple[Exact, ...]
    together: bool
    before: int = 0
    downward: bool = False

    @property
    def count(self) -> int:
        return sum(count for _, _, count in self.pieces)

    @property
    def strips(self) -> tuple[Exact, ...]:
        """Of a long strip, the lengths that are sewn, in order."""
        return (*(self.limit,) * self.before, *self.ends, *(self.limit,) * (self.full - self.before))

    @property
    def seams(self) -> int:
        """How many are sewn in all."""
        each = self.full + len(self.ends) - 1
        return each if self.together else each * self.count


def may_join(row: CutRow) -> bool:
    """Whether pieces are strips that may be joined: of borders and sashes, of strip sets and bindings, and the panels
    of a backing."""
    return row.shape in ("strip", "panel") or (row.joins and row.shape == "rectangle")


def joined_strips(length: Exact, usable: Exact, seam: Exact) -> tuple[int, Exact]:
    """How many full strips and how long a rest make a piece; (0, length) where one strip is long enough.

    Each straight seam takes two allowances, so n strips and a rest r give n * usable + r - n * 2 * seam, and a
    rest of the full width is one strip more, with no rest.
    """
    if length <= usable:
        return 0, length
    gain = usable - 2 * seam
    full = ((length - usable) / gain).ceil()
    rest = length - gain * full
    return (full + 1, Exact(0)) if rest == usable else (full, rest)


def without_scraps(full: int, rest: Exact, usable: Exact, mark: Exact) -> tuple[int, tuple[Exact, ...]]:
    """How many full strips, and the lengths beside them: where the rest would be a scrap, less than an eighth of
    the width, one full strip is cut shorter and the rest by so much longer."""
    shortest = up_to_mark(usable / 8, mark)
    if not full or not rest or rest >= shortest:
        return full, (rest,) if rest else ()
    return full - 1, (usable - (shortest - rest), shortest)


def apart(
    row: int, length: Exact, count: int, width: Exact, limit: Exact, seam: Exact, mark: Exact, *, downward: bool = False
) -> Joint:
    """Each of so many pieces joined by itself, of strips as long as `limit`."""
    full, ends = without_scraps(*joined_strips(length, limit, seam), limit, mark)
    return Joint(
        pieces=((row, length, count),),
        width=width,
        limit=limit,
        seam=seam,
        full=full,
        ends=ends,
        together=False,
        downward=downward,
    )


def together(
    pieces: Sequence[tuple[int, Exact, int]],
    width: Exact,
    limit: Exact,
    seam: Exact,
    mark: Exact,
    *,
    downward: bool = False,
) -> Joint:
    """One long strip for all pieces, of as few strips as its length T needs, each seam taking two allowances: n strips
    give n * limit - (n - 1) * 2 * seam. The last is only as long as it must be, but no scrap, which is less than an
    eighth of the limit; and it stands where no seam comes as near to an end of a piece, if there is such a place."""
    total = sum((length * count for _, length, count in pieces), Exact(0))
    full, rest = joined_strips(total, limit, seam)
    ends = (max(rest, up_to_mark(limit / 8, mark)),) if rest else ()
    best, room = None, Exact(-1)
    longest_first = sorted(pieces, key=lambda one: (-one[1], one[0]))
    many = sum(count for _, _, count in pieces) * full > _MANY
    for ordered, before in [(longest_first, full)] if many else _orders(longest_first, full if ends else 0):
        joint = Joint(
            pieces=tuple(ordered),
            width=width,
            limit=limit,
            seam=seam,
            full=full,
            ends=ends,
            together=True,
            before=before,
            downward=downward,
        )
        now = min(nearest(joint), limit / 8)
        if now > room:
            best, room = joint, now
        if room == limit / 8:
            break
    assert best is not None
    return best


def _orders(
    pieces: list[tuple[int, Exact, int]], full: int
) -> Iterator[tuple[Sequence[tuple[int, Exact, int]], int]]:
    """Ways to sew the long strip and to cut it: the order of the rows, and how many full strips stand before the end;
    the plainest first."""
    orders = list(permutations(pieces)) if len(pieces) <= _FEW else [tuple(pieces)]
    places = list(range(full, -1, -1)) if full <= _PLACES else [full, 0]
    for before in places:
        for ordered in orders:
            yield ordered, before


def seam_lines(joint: Joint) -> tuple[Exact, ...]:
    """Where the seams of a long strip lie, from its raw beginning, when it is sewn."""
    found, at = [], Exact(0)
    for length in joint.strips[:-1]:
        at += length - joint.seam * 2
        found.append(at + joint.seam)
    return tuple(found)


def cut_lines(joint: Joint) -> tuple[tuple[int, Exact, Exact], ...]:
    """Row, beginning and end of each piece on a long strip."""
    found, at = [], Exact(0)
    for row, length, count in joint.pieces:
        for _ in range(count):
            found.append((row, at, at + length))
            at += length
    return tuple(found)


def nearest(joint: Joint) -> Exact:
    """How near to an end of its piece a seam of a long strip comes at most."""
    room = joint.limit
    lines = list(seam_lines(joint))
    for _, start, end in cut_lines(joint):
        for line in lines:
            if start <= line <= end:
                room = min(room, line - start, end - line)
    return room


def beginnings(joint: Joint) -> tuple[tuple[int, ...], ...]:
    """Of each strip of a long strip, the rows of the pieces that begin in it."""
    bounds = [*seam_lines(joint), None]
    found: list[list[int]] = [[] for _ in bounds]
    place = 0
    for row, start, _ in cut_lines(joint):
        while True:
            line = bounds[place]
            if line is None or start < line:
                break
            place += 1
        found[place].append(row)
    return tuple(map(tuple, found))


def without(joint: Joint, full: int, ends: int) -> tuple[tuple[int, int], ...]:
    """Row and number of the pieces that are lacking where so many full strips and ends are: of a long strip the last
    ones that the rest is too short for."""
    each, left = joint.full + len(joint.ends), joint.count
    if not joint.together:
        short = [-(-full // joint.full)] if joint.full else []
        short += [ends] if joint.ends else []
        return ((joint.pieces[0][0], min(max(short), left)),)
    missing = min(full + ends, each)
    strips = [joint.limit] * (joint.full - full) + sorted(joint.ends, reverse=True)[: len(joint.ends) - ends]
    there = sum(strips, Exact(0)) - joint.seam * 2 * (each - missing - 1) if missing < each else Exact(0)
    found: list[tuple[int, int]] = []
    for row, length, count in joint.pieces:
        given = min((there / length).floor(), count) if there > 0 else 0
        there = there - length * given if given == count else Exact(0)
        if given < count:
            found.append((row, count - given))
    return tuple(found)
