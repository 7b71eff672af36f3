"""Batches: what is made of one chosen print is made for one run of the unit that chooses it, apart from all other.

A unit that is handed a chosen print is made in batches, one for each run of the unit that chose it, so its copies
are counted, and rounded up, within the batch. A choice within a choice makes batches within batches. Where a
batch stands is written as the keys of the units that choose, from the outermost in, so far as the unit is handed
anything they choose.
"""

from __future__ import annotations

from collections.abc import Mapping

from piecewright.dataclass import dataclass
from piecewright.kernel.build import Build, Made, Piece

Chain = tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Batch:
    """All batches of a unit that stand under one chain of choosing units. `rounds`: how often each of those is
    made within the one before it, so that there are as many batches as their product (one where nothing is
    chosen). `runs`, `needed` (for each part) and `sets` are those of one batch."""

    choosers: Chain
    rounds: tuple[int, ...]
    runs: int
    needed: tuple[int, ...]
    sets: tuple[int, ...]

    @property
    def times(self) -> int:
        return product(self.rounds)

    def prints(self, name: str, key: str, chosen: Mapping[str, tuple[str, ...]]) -> tuple[Chain, int]:
        """Of which batches a chosen print is that the unit with a key uses, and of how many. `chosen` are the prints
        that each unit chooses."""
        if name in chosen[key]:
            return (*self.choosers, key), self.times * self.runs
        chain = within(self.choosers, frozenset((name,)), chosen)
        return chain, product(self.rounds[: len(chain)])


def choices(groups: Mapping[str, tuple[Made, ...]]) -> dict[str, tuple[str, ...]]:
    """The prints that each unit chooses, by the key its steps stand under."""
    return {whole: parts[0].chosen for whole, parts in groups.items()}


def handed(build: Build) -> dict[str, frozenset[str]]:
    """The chosen prints of which the cloth of each unit comes, but those it chooses itself, by its key."""
    prints = {fabric.name for fabric in build.fabrics if fabric.of}
    found: dict[str, frozenset[str]] = {}
    for made in build.made:  # what a unit uses stands before it
        used: set[str] = set()
        for supply in made.supplies:
            if isinstance(supply.source, Piece):
                used |= prints & {supply.source.fabric}
            else:
                used |= found[supply.source]
        found[made.key] = frozenset(used.difference(made.chosen))
    return found


def within(chain: Chain, prints: frozenset[str], choices: Mapping[str, tuple[str, ...]]) -> Chain:
    """As much of a chain as matters to a unit that is handed some prints."""
    while chain and prints.isdisjoint(choices[chain[-1]]):
        chain = chain[:-1]
    return chain


def product(numbers: tuple[int, ...]) -> int:
    result = 1
    for number in numbers:
        result *= number
    return result
