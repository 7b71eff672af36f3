"""Prints chosen from assorted fabrics: fabrics of their own, told from the assorted one by their names."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace

from piecewright.evaluate.products import Product
from piecewright.evaluate.recipes import Recipe
from piecewright.kernel.build import Fabric


def print_of(assorted: Fabric, word: str, values: Iterable[object]) -> Fabric:
    """The print of an assorted fabric that a definition calls by a word. A print of the same name that it was
    handed, chosen by another definition, is another one: then a number stands behind the word."""
    taken = {name for value in values for name in _fabrics_in(value)}
    name, number = f"{assorted.name}/{word}", 1
    while name in taken:
        number += 1
        name = f"{assorted.name}/{word} {number}"
    return replace(assorted, name=name, text="", assorted=False, of=assorted.name)


def in_words(text: str, fabrics: Mapping[str, Fabric]) -> str:
    """A message with prints called as the pattern calls them."""
    if "/" in text:
        for name, fabric in fabrics.items():
            if fabric.of:
                text = text.replace(name, name.partition("/")[2])
    return text


def _fabrics_in(value: object) -> Iterable[str]:
    if isinstance(value, Fabric):
        return (value.name,)
    if isinstance(value, Recipe):
        unit = value.base.made.unit if isinstance(value.base, Product) else value.base.unit
        return [patch.fabric for patch in unit.patches]
    return ()
