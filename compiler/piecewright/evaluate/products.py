"""What evaluating a definition with its arguments gave."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

from piecewright.exact import Exact
from piecewright.kernel.build import Made
from piecewright.source import Span

if TYPE_CHECKING:
    from piecewright.evaluate.env import Value


class Product:
    """`made` as it is handed on; `usable` is the length in inches of a strip set that was not cut, else None;
    `whole` is what a named part was cut from, and `parts` are the named parts of a whole."""

    __slots__ = ("handed", "made", "parts", "twin", "usable", "whole")

    def __init__(self, made: Made, usable: Exact | None = None, whole: Product | None = None) -> None:
        self.made = made
        self.usable = usable
        self.whole = whole
        self.parts: dict[str, Product] = {}
        self.twin: Product | None = None  # the same made as in a mirror
        self.handed: tuple[Mapping[str, Value], Mapping[str, Span]] = ({}, {})  # what a strip set was made with

    @property
    def key(self) -> str:
        return self.made.key
