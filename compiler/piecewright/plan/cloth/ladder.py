"""The lengths in which cloth is sold, as a planner sees them: how much of each can be cut.

What is sold comes in steps, and of what is bought a part may be lost: an edge is straightened, washing takes its share.
So of k steps (k * step - margin) // per can be cut, in marks. Between two such lengths all plans buy the same.
"""

from __future__ import annotations

from typing import NamedTuple


class Ladder(NamedTuple):
    """`step` and `margin` in parts of a mark, `per` of them to the mark."""

    step: int
    margin: int = 0
    per: int = 1

    def steps(self, length: int) -> int:
        """The fewest steps of which so much can be cut; none for nothing."""
        return -(-(length * self.per + self.margin) // self.step) if length > 0 else 0

    def room(self, steps: int) -> int:
        """How much of so many steps can be cut."""
        return max((steps * self.step - self.margin) // self.per, 0) if steps > 0 else 0

    def up(self, length: int) -> int:
        """The most that can be cut of what is bought for so much."""
        return self.room(self.steps(length))

    def below(self, length: int) -> int:
        """The most that can be cut of less than what is bought for so much."""
        return self.room(self.steps(length) - 1)

    def sold(self, length: int) -> int:
        """What is bought for so much, in parts of a mark."""
        return self.steps(length) * self.step


MARKS = Ladder(1)
"""Any length that is wanted."""
