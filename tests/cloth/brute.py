"""The least length or the fewest sheets for a handful of pieces, by trying every way of cutting.

For every set of pieces and every way to part it, the smallest boxes it can be cut from are kept, as pairs of width and
height of which none holds another. Trims are free: a box may be larger than what it holds. Sets are bit masks.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from functools import cache
from math import inf

from piecewright.plan.cloth.model import Need

Box = tuple[int, int]


class Brute:
    """All ways of cutting `needs`, at most some ten pieces together."""

    def __init__(self, needs: Sequence[Need]) -> None:
        self.pieces = [need for need in needs for _ in range(need.count)]
        self.all = (1 << len(self.pieces)) - 1
        self.boxes = cache(self._boxes)
        self.any_boxes = cache(self._any_boxes)

    def least_length(self, width: int, stages: int | None = None) -> int | float:
        """The least length of cloth `width` wide: cut across first, at most `stages` cuts deep, or any through cuts if
        None. Infinite where a piece is too wide."""
        if not self.all:
            return 0
        boxes = self.any_boxes(self.all) if stages is None else self.boxes(self.all, "rows", stages)
        return min((high for wide, high in boxes if wide <= width), default=inf)

    def fewest_sheets(self, width: int, height: int, stages: int | None = None) -> int | float:
        """The fewest sheets of a size, each cut as `least_length` says or, its first cut, along."""

        def fits(mask: int) -> bool:
            ways = [self.any_boxes(mask)] if stages is None else [self.boxes(mask, cut, stages) for cut in CUTS]
            return any(wide <= width and high <= height for boxes in ways for wide, high in boxes)

        @cache
        def fewest(mask: int) -> int | float:
            if not mask:
                return 0
            return min((1 + fewest(mask ^ part) for part in _with_lowest(mask) if fits(part)), default=inf)

        return fewest(self.all)

    def _boxes(self, mask: int, cut: str, stages: int) -> list[Box]:
        """Boxes whose outermost cuts are all `cut` ("rows" or "columns")."""
        if mask & (mask - 1) == 0:
            need = self.pieces[mask.bit_length() - 1]
            return _smallest([(need.width, need.height)] + ([(need.height, need.width)] if need.turns else []))
        if stages == 0:
            return []
        inner = "columns" if cut == "rows" else "rows"
        found = list(self.boxes(mask, inner, stages - 1))
        for part in _with_lowest(mask):
            if part != mask:
                found += _joined(self.boxes(part, inner, stages - 1), self.boxes(mask ^ part, cut, stages), cut)
        return _smallest(found)

    def _any_boxes(self, mask: int) -> list[Box]:
        if mask & (mask - 1) == 0:
            return self.boxes(mask, "rows", 0)
        found: list[Box] = []
        for part in _with_lowest(mask):
            if part != mask:
                for cut in CUTS:
                    found += _joined(self.any_boxes(part), self.any_boxes(mask ^ part), cut)
        return _smallest(found)


CUTS = ("rows", "columns")


def _with_lowest(mask: int) -> Iterable[int]:
    """Every part of a set that holds its lowest member."""
    low = mask & -mask
    rest = part = mask ^ low
    while True:
        yield part | low
        if not part:
            return
        part = (part - 1) & rest


def _joined(some: list[Box], others: list[Box], cut: str) -> list[Box]:
    if cut == "rows":
        return [(max(a, b), m + n) for a, m in some for b, n in others]
    return [(a + b, max(m, n)) for a, m in some for b, n in others]


def _smallest(boxes: list[Box]) -> list[Box]:
    kept: list[Box] = []
    for box in sorted(set(boxes)):
        if not kept or box[1] < kept[-1][1]:
            kept.append(box)
    return kept
