"""Elements of a drawing that svgwrite has not, or has with more checks than thousands of them can bear."""

from __future__ import annotations

from typing import Any
from xml.etree import ElementTree

import svgwrite  # heavy; this module is imported only when figures are written

from piecewright.emit import paths
from piecewright.plan.model import Point


class Root(svgwrite.Drawing):  # type: ignore[misc]  # svgwrite ships no types
    """A drawing with attributes of accessibility, which SVG 1.1, that svgwrite checks against, does not know."""

    opened: dict[str, str]

    def get_xml(self) -> Any:
        tree = super().get_xml()
        for name, value in self.opened.items():
            tree.set(name, value)
        return tree


class Patch:
    """The path of one piece of cloth, with its fabric and source line. There are thousands of these in a quilt,
    so it is not one of svgwrite's elements, whose checks its few attributes do not need."""

    __slots__ = ("d", "fabric", "line")

    elementname = "path"

    def __init__(self, d: str, fabric: str, line: int) -> None:
        self.d = d
        self.fabric = fabric
        self.line = line

    def get_xml(self) -> ElementTree.Element:
        return ElementTree.Element("path", {"d": self.d, "data-fabric": self.fabric, "data-line": str(self.line)})


class Use:
    """A shape where it lies, at a point of the sheet; not one of svgwrite's elements, as a patch is not."""

    __slots__ = ("at", "name", "turn")

    elementname = "use"

    def __init__(self, name: str, turn: Point, at: Point) -> None:
        self.name = name
        self.turn = turn
        self.at = at

    def get_xml(self) -> ElementTree.Element:
        x, y = paths.number(self.at[0]), paths.number(self.at[1])
        if self.turn == (1.0, 0.0):
            return ElementTree.Element("use", {"xlink:href": f"#{self.name}", "x": x, "y": y})
        u, v = (f"{part:.6f}".rstrip("0").rstrip(".") for part in (self.turn[0] + 0.0, self.turn[1] + 0.0))
        minus = v[1:] if v.startswith("-") else f"-{v}"
        matrix = f"matrix({u} {minus} {v} {u} {x} {y})".replace("-0 ", "0 ")
        return ElementTree.Element("use", {"xlink:href": f"#{self.name}", "transform": matrix})
