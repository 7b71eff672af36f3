"""In how many ways blocks can lie in a cell so that they look different.

A block with a symmetry looks the same after some of the motions; only different looks are counted.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence

from piecewright.dataclass import dataclass
from piecewright.plan.arrange.motion import MOTIONS, STAY, Motion, after


@dataclass(frozen=True, slots=True, kw_only=True)
class Look:
    """One look of a cell: the block by its place in the list, and the first motion that gives this look."""

    block: int
    motion: Motion


@dataclass(frozen=True, slots=True, kw_only=True)
class Looks:
    """All looks that a cell may have. `images[motion][look]`: the look that a look becomes when the whole table is
    moved; None where that is no allowed look (a mirror makes of a block without mirror symmetry its reversed twin)."""

    looks: tuple[Look, ...]
    images: tuple[tuple[int | None, ...], ...]

    def __len__(self) -> int:
        return len(self.looks)


def looks(blocks: int, same: Callable[[Look, Look], bool], allowed: Sequence[Motion]) -> Looks:
    """The looks of so many blocks that may be moved as `allowed`. `same` tells whether two look alike."""
    found: list[Look] = []
    for block in range(blocks):
        for motion in allowed:
            one = Look(block=block, motion=motion)
            if not any(same(other, one) for other in found):
                found.append(one)

    def place(one: Look) -> int | None:
        return next((i for i, other in enumerate(found) if other == one or same(other, one)), None)

    everywhere = [[place(Look(block=block, motion=motion)) for motion in MOTIONS] for block in range(blocks)]
    return Looks(
        looks=tuple(found),
        images=tuple(
            tuple(everywhere[one.block][after(motion, one.motion)] for one in found) for motion in MOTIONS
        ),
    )


def looks_with(symmetries: Sequence[Sequence[Motion]], allowed: Sequence[Motion]) -> Looks:
    """The looks of blocks of which only the symmetries are known: the motions that leave each looking the same (a
    group, so with `STAY`). No two blocks look alike."""
    groups = [frozenset(one) | {STAY} for one in symmetries]

    def same(first: Look, second: Look) -> bool:
        return first.block == second.block and any(
            after(first.motion, symmetry) == second.motion for symmetry in groups[first.block]
        )

    return looks(len(groups), same, allowed)
