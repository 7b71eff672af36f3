"""What evaluating a definition with its arguments gave."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
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

    @property
    def origin(self) -> Product:
        """What the steps of its definition gave: for a part its whole, for a mirror image what it is an image of."""
        whole = self.whole or self
        return whole.twin if whole.made.reversed and whole.twin is not None else whole


def in_order(products: Mapping[str, Product], keys: Iterable[str]) -> tuple[Made, ...]:
    """What is made for these keys, whatever a unit uses before the unit itself."""
    found: dict[str, Made] = {}
    seen: set[str] = set()

    def visit(key: str) -> None:
        if key in seen:
            return
        product = products[key]
        group = list(product.whole.parts.values()) if product.whole is not None else [product]
        seen.update(one.key for one in group)
        for supply in group[0].made.supplies:
            if isinstance(supply.source, str):
                visit(supply.source)
        for one in group:
            found[one.key] = one.made

    for key in keys:
        visit(key)
    return tuple(found.values())
