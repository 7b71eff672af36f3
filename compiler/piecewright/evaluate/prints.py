"""Prints chosen from assorted fabrics: fabrics of their own, told from the assorted one by their names."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace

from piecewright.evaluate.products import Product
from piecewright.evaluate.recipes import Recipe, cloth_text
from piecewright.kernel.build import Fabric, Handed, Made, Piece, Units


def print_of(assorted: Fabric, word: str, values: Iterable[object]) -> Fabric:
    """The print of an assorted fabric that a definition calls by a word. A print of the same name that it was
    handed, chosen by another definition, is another one: then a number stands behind the word."""
    taken = {name for value in values for name in _fabrics_in(value)}
    name, number = f"{assorted.name}/{word}", 1
    while name in taken:
        number += 1
        name = f"{assorted.name}/{word} {number}"
    return replace(assorted, name=name, text="", assorted=False, of=assorted.name)


class PrintWords:
    """The facts behind a message with each print called as the pattern calls it. Values are exchanged, and no text is
    searched for names: `sky/lamp` also stands within `dusk-sky/lamp2`."""

    def __init__(self, fabrics: Mapping[str, Fabric], products: Mapping[str, Product], units: Units) -> None:
        self._words = {name: name.partition("/")[2] for name, fabric in fabrics.items() if fabric.of}
        self._products = products
        self._units = units

    def facts(self, facts: Mapping[str, object]) -> dict[str, object]:
        """The facts as they are to be said."""
        return {name: self._said(value) for name, value in facts.items()} if self._words else dict(facts)

    def _said(self, value: object) -> object:
        if isinstance(value, str):
            return self._named(value)
        if isinstance(value, Piece):
            return replace(value, fabric=self._words.get(value.fabric, value.fabric))
        if type(value) is tuple:
            return tuple(self._said(one) for one in value)
        return value

    def _named(self, name: str) -> str:
        """What a name stands for: a fabric, a piece as `lamp square`, or a unit by its key, with its turning."""
        fabric = max((one for one in self._words if name == one or name.startswith(f"{one} ")), key=len, default=None)
        if fabric is not None:
            return self._words[fabric] + name.removeprefix(fabric)
        key, turned, way = name.partition(" turned ")
        for one, how in ((name, ""), (key, turned + way)):
            product = self._products.get(one)
            if product is not None:
                return self._unit(product.made) + how
        return name

    def _unit(self, made: Made) -> str:
        handed = {one.parameter: one for one in made.handed}
        told = [self._argument(text, handed.get(parameter)) for parameter, text in made.arguments]
        name = f"{made.name}({', '.join(told)})" if told else made.name
        return f"{name} reversed" if made.reversed else name

    def _argument(self, text: str, handed: Handed | None) -> str:
        if handed is None:
            return self._words.get(text, text)
        if isinstance(handed.value, Piece):
            piece = replace(handed.value, fabric=self._words.get(handed.value.fabric, handed.value.fabric))
            return cloth_text(piece, self._units) + handed.turned
        if isinstance(handed.value, str):
            return self._named(handed.value) + handed.turned
        return text


def _fabrics_in(value: object) -> Iterable[str]:
    if isinstance(value, Fabric):
        return (value.name,)
    if isinstance(value, Recipe):
        unit = value.base.made.unit if isinstance(value.base, Product) else value.base.unit
        return [patch.fabric for patch in unit.patches]
    return ()
