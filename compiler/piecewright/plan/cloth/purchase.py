"""What is asked of the parts of the planner, and what they answer."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from piecewright.plan.cloth.layout import Kind, Strips, ways
from piecewright.plan.cloth.model import Sheet, Stock


class Task(NamedTuple):
    """What holds for the whole of one plan; `cuts`, `solver` and `sketch` as in `plan_cloth`."""

    kinds: list[Kind]
    stock: Stock
    cuts: int
    solver: bool | None
    sketch: bool = False

    def of_roll(self) -> list[bool]:
        """Which kinds can be cut from cloth bought by length."""
        width = self.stock.width
        return [any(0 < wide <= width and high > 0 for wide, high in ways(kind)) for kind in self.kinds]

    def of(self, sheet: Sheet) -> list[bool]:
        """Which kinds can be cut from such a sheet."""
        return [
            any(0 < wide <= sheet.width and 0 < high <= sheet.height for wide, high in ways(kind))
            for kind in self.kinds
        ]

    def of_any(self, sheets: Sequence[Sheet]) -> list[bool]:
        """Which kinds can be cut from one of them."""
        each = [self.of(sheet) for sheet in sheets]
        return [any(one[i] for one in each) for i in range(len(self.kinds))]


class Filled(NamedTuple):
    """`times` sheets or scraps, at `place` of the stock's, cut into these strips."""

    place: int
    times: int
    strips: Strips


class Purchase(NamedTuple):
    """What is bought: strips of a roll `length` long, or sheets. `bought`, `bound`, `any_bound` and `stages` as in
    `CuttingPlan`. `lacking`: how many of each kind are not given."""

    bought: int
    length: int
    bound: int
    any_bound: int
    stages: int
    strips: Strips
    sheets: list[Filled]
    lacking: list[int]
