"""The shortest plan of strips that can be found for one set of segments, and what is proved of it.

Quick things come first, and the search ends as soon as a plan buys no more than the bound: strip after strip, the
relaxation, dives, then the solver on the strips that these met, then, of two stages, on all strips that a shorter plan
could contain, which also proves where there is none.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Any

from piecewright.plan.cloth.dive import WAYS, Dive
from piecewright.plan.cloth.enumerate import TooMany, strips_within
from piecewright.plan.cloth.ladder import MARKS, Ladder
from piecewright.plan.cloth.layout import Kind, Segment, Strip, Strips, exactly, length_of
from piecewright.plan.cloth.neat import Length, Neat
from piecewright.plan.cloth.refill import refilled
from piecewright.plan.cloth.relax import Field, Relaxed, priced, relax
from piecewright.plan.cloth.segments import mixed, rising
from piecewright.plan.cloth.sequence import fine, first_prices, limits, roll_rounds
from piecewright.plan.cloth.tidy import order, tidied
from piecewright.plan.cloth.whole import choose, solver

_NEVER = 1 << 60
_DIVE_NODES = 80
_FEWEST_NODES = 2
_DIVE_WORK = 200_000  # relaxations of a dive times kinds times segments, which is about what each of them costs
_STACKED_WORK = 30_000  # the same with stacks
_LARGE = 15_000  # kinds times segments from which on there is one dive, and no more stacks are tried
_REFILLS = 60
_REFILL_WORK = 3_000  # refills times segments
_ROUNDS = 2
_STACKINGS = 2
_STACKS = 40
_MORE_ROUNDS = 6
_WORK = 2_000  # nodes of the solver's search times strips
_NODES = 10
_POOL = 110
_CHEAPEST = 500
_ALL_WORK = 100_000
_ALL_NODES = 1000
_ALL_STRIPS = 2500
FEW_STRIPS = 700
_ALL_STEPS = 150_000


class Search:
    """One search; `strips` is the shortest plan so far and `bound` a length, as much as can be cut of
    what is bought, that no such plan goes below."""

    def __init__(
        self,
        width: int,
        ladder: Ladder,
        kinds: Sequence[Kind],
        segments: list[Segment],
        cuts: list[tuple[int, int]],
        bound: int,
        wanted: bool | None,
    ) -> None:
        """`cuts`: strip-count cuts, where they hold. `bound`: what is known already. `wanted`: `solver` of
        plan_cloth."""
        demand = [kind.number for kind in kinds]
        self._field = Field(width, segments, limits(segments, demand), demand, cuts)
        self._kinds, self._ladder, self._wanted = kinds, ladder, wanted
        self._pool: dict[Strip, None] = {}
        self._solved: Relaxed | None = None
        self._neat: Strips = []  # of those that buy as little the one with fewest heights
        self.strips: Strips = []
        self.bound = bound

    @property
    def room(self) -> int:
        """How much can be cut of what the shortest plan so far buys."""
        return self._ladder.up(length_of(self.strips))

    def open(self, enough: int = 0) -> bool:
        """Whether less might be bought: the best so far is above the bound, and above what is enough."""
        return not self.strips or self.room > max(self.bound, enough)

    def quick(self) -> None:
        """Strip after strip, in few rounds."""
        self._offer(self._rounds(_ROUNDS))

    def relaxed(self) -> None:
        """The relaxation and its bound, and dives from it."""
        if self.open():
            self._solve()
            self._dive(len(WAYS) if self._field.cuts else 2)

    def stack_more(self) -> None:
        """For three stages: also stacks of several kinds, as many as the prices of the relaxation speak for."""
        for _ in range(_STACKINGS if self._size < _LARGE else 0):
            if not self.open():
                return
            field, solved = self._field, self._solve()
            height = max(segment.height for segment in field.segments)
            more = mixed(self._kinds, field.width, height, solved.prices, field.segments, _STACKS)
            if not more:
                return
            segments = rising([*field.segments, *more])
            self._field = field._replace(segments=segments, limits=limits(segments, field.demand))
            self._solved = relax(self._field, solved.columns, MARKS, _NEVER)
            self._pool.update(dict.fromkeys(self._solved.columns))
            self._dive(1)

    def thorough(self) -> None:
        """What takes longer: strips taken out and filled in again, and the solver, where there is one; else more rounds
        of strip after strip."""
        if not self.open():
            return
        highspy = solver(self._wanted)
        if highspy is None:
            self._offer(self._rounds(_MORE_ROUNDS))
            self.refill()
            return
        strips = self._cheapest(_CHEAPEST) if self._field.cuts else []
        self._choose(highspy, strips or self._met(_POOL))
        self.refill()
        if strips:
            self._choose(highspy, self._met(_POOL))

    def exact(self, most: int = _ALL_STRIPS) -> None:
        """For two stages: the solver on all strips that matter, where they are no more than `most`. Raises the bound
        where it proves that there is no plan."""
        if not self.open():
            return  # the solver takes longer to import than most plans to make
        highspy = solver(self._wanted)
        if highspy is None:
            return
        field, ladder = self._field, self._ladder
        while self.open():
            solved = self._solve()
            length = ladder.below(self.room)
            strips = self._all(solved, length, most)
            if strips is None and length > self.bound:
                length = self.bound
                strips = self._all(solved, length, most)
            if strips is None:
                return
            nodes = min(_ALL_NODES, _ALL_WORK // max(len(strips), 1))
            cuts = priced(field, solved)
            answer = choose(highspy, strips, field.demand, cuts if len(cuts) > 1 else [], length, self.bound, nodes)
            if answer.strips is not None:
                self._keep(answer.strips)
            if answer.least:
                self.bound = self.room if answer.strips is not None else ladder.up(length + 1)
            elif answer.strips is None:
                return

    def tidy(self, *, deep: bool) -> None:
        """The plan for people, where no more is bought for it."""
        fewer = tidied(self._field, self._neat, self._ladder, self._prices())
        cloth = Length(self._field.width, self.room)
        best = Neat(cloth, self._kinds, deep=deep).best([self.strips, self._neat, fewer])
        assert best is not None
        self.strips = best

    def _all(self, solved: Relaxed, length: int, most: int) -> list[Strip] | None:
        """All strips that a plan so long can contain, if they are not too many."""
        try:
            return strips_within(self._field, solved, length, most, _ALL_STEPS)
        except TooMany:
            return None

    def _solve(self) -> Relaxed:
        """The relaxation solved to the end, once."""
        if self._solved is None:
            self._solved = relax(self._field, [], MARKS, _NEVER)
            self._pool.update(dict.fromkeys(self._solved.columns))
            self.bound = max(self.bound, self._ladder.up(self._solved.bound))
        return self._solved

    def _dive(self, ways: int) -> None:
        work = _DIVE_WORK if self._field.cuts else _STACKED_WORK
        nodes = max(_FEWEST_NODES, min(_DIVE_NODES, work // self._size))
        for way in WAYS[: ways if self._size < _LARGE else 1]:
            if self.open():
                dive = Dive(self._field, self._pool, lambda: self._ladder.below(self.room), way, nodes)
                self._offer(dive.plans(self._solve()))

    @property
    def _size(self) -> int:
        """About what a relaxation costs."""
        return sum(count > 0 for count in self._field.demand) * len(self._field.segments)

    def refill(self) -> None:
        if self.open():
            self._offer(self._refills())

    def _refills(self) -> Iterable[Strips]:
        times = min(_REFILLS, _REFILL_WORK // len(self._field.segments))
        for strips in refilled(self._field, self._kinds, self.strips, self._prices(), times):
            self._pool.update(dict.fromkeys(strip for strip, _ in strips))
            yield strips

    def _prices(self) -> list[list[int]]:
        """Of the kinds, from the relaxation where it is solved and from their areas."""
        prices = [first_prices(self._kinds)]
        if self._solved is not None:
            prices.append(fine(self._solved.prices, self._field.width, self._solved.unit))
        return prices

    def _met(self, most: int) -> list[Strip]:
        """The best of the strips met."""
        solved = self._solve()
        first = {strip for strip, _ in solved.amounts} | {strip for strip, _ in self.strips}
        return sorted(self._pool, key=lambda strip: (strip not in first, self._excess(solved, strip)))[:most]

    def _cheapest(self, most: int) -> list[Strip]:
        """For two stages: all strips that cost no more than so much above what they give; as many as there may be."""
        found: list[Strip] = []
        for over in range(self._ladder.below(self.room) - self._solve().bound):
            more = self._all(self._solve(), self._solve().bound + over, most)
            if more is None:
                break
            found = more
        return found

    def _choose(self, highspy: Any, strips: list[Strip]) -> None:
        """The solver on these strips."""
        if not strips or not self.open():
            return
        solved, field = self._solve(), self._field
        length = self._ladder.below(self.room)
        nodes = max(_NODES, _WORK // len(strips))
        answer = choose(highspy, strips, field.demand, priced(field, solved), length, self.bound, nodes)
        if answer.strips is not None:
            self._keep(answer.strips)

    def _excess(self, solved: Relaxed, strip: Strip) -> int:
        """What a strip costs more than what it gives, in eighths of a mark: most strips of a pool cost nothing more,
        and rounding must not choose among them."""
        worth = sum(solved.prices[kind] * each for kind, each in strip.counts().items())
        credits = zip(solved.cut_prices, self._field.cuts, strict=True)
        worth += sum(price for price, (high, _) in credits if strip.height >= high)
        return (strip.height * solved.unit - worth) * 8 // solved.unit

    def _rounds(self, rounds: int) -> Iterable[Strips]:
        field = self._field
        for strips in roll_rounds(field.width, self._kinds, field.segments, field.demand, rounds):
            self._pool.update(dict.fromkeys(strip for strip, _ in strips))
            yield strips

    def _offer(self, plans: Iterable[Strips]) -> None:
        """Keep the shortest, and stop at the first that buys no more than the bound."""
        for strips in plans:
            self._keep(strips)
            if not self.open():
                return

    def _keep(self, strips: Strips) -> None:
        if self.strips and self._ladder.up(length_of(strips)) > self.room:
            return
        made, left = exactly(strips, self._field.demand)
        assert not any(left)
        if not self.strips or length_of(made) < length_of(self.strips):
            self.strips = made
        if not self._neat or order(made, self._ladder) < order(self._neat, self._ladder):
            self._neat = made
