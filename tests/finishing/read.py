"""What a compiled pattern prints, read back: plan.json, the sentences in it, and the lines of a figure."""

from __future__ import annotations

import json as plain_json
import re
import unicodedata
from fractions import Fraction
from typing import Any, NamedTuple

from finishing.hand import ROOT_2
from piecewright import compile_source
from piecewright.emit import json

SIZE = r"([\d½¼¾⅛⅜⅝⅞⅓⅔\u202f⁰¹²³⁴-⁹₀-₉⁄.]+)"
Cuts = dict[tuple[Fraction, Fraction], int]


class Printed(NamedTuple):
    data: dict[str, Any]
    figures: dict[str, Any]

    def cuts(self, fabric: str) -> list[dict[str, Any]]:
        return [one for one in self.data["cuts"] if one["fabric"] == fabric]

    def step(self, begins: str) -> dict[str, Any]:
        """The one step whose text begins so."""
        (found,) = (one for one in self.data["steps"] if re.match(begins, one["text"]))
        return found

    def cutting(self, fabric: str) -> dict[str, Any]:
        (found,) = (one["cutting"] for one in self.data["fabrics"] if one["name"] == fabric)
        return found

    def bought(self, fabric: str) -> Fraction:
        return exact(self.cutting(fabric)["bought"])


def printed(text: str) -> Printed:
    made = compile_source(text)
    assert made.plan is not None, (text, [one.message for one in made.diagnostics])
    figures = {f"{unit.id}-{step.number}": step.figure for unit in made.plan.units for step in unit.steps}
    return Printed(plain_json.loads(json(made.plan)), figures)


def exact(size: dict[str, str]) -> Fraction:
    """`13/2`, `3/2 + 30*sqrt(2)`: the exact string of a size."""
    total = Fraction(0)
    for sign, number, root in re.findall(r"([+-]?)\s*([\d/]+)?\*?(sqrt\(2\))?", size["exact"].replace(" ", "")):
        if number or root:
            total += (-1 if sign == "-" else 1) * Fraction(number or 1) * (ROOT_2 if root else 1)
    return total


def ruler(size: dict[str, str]) -> Fraction:
    """`6 1/2`, `16.5`."""
    return sum((Fraction(part) for part in size["ruler"].split()), Fraction(0))


def shown(text: str) -> Fraction:
    """`29⅝`, `6 ⁵⁄₁₆`, `16.5`."""
    apart = re.sub(r"(?<=\d)(?=[½¼¾⅛⅜⅝⅞⅓⅔])", " ", text.replace("\u202f", " "))
    plain = unicodedata.normalize("NFKC", apart).replace("\u2044", "/")
    return sum((Fraction(part) for part in plain.split()), Fraction(0))


class Backing(NamedTuple):
    """What a sentence says of a backing: panels by width and length along the selvages; the widths of those that lie
    beside each other, how long they are, of how many pieces the last one is joined and how long these are; and whether
    the selvages run up and down."""

    panels: Cuts
    widths: list[Fraction]
    along: Fraction
    pieces: int
    piece: Fraction
    upright: bool


def backing(text: str) -> Backing:
    """Reads the first sentences of the step that backs a quilt."""
    upright = "the selvages up and down the quilt" in text
    assert upright != ("the selvages across the quilt" in text)
    one = re.match(rf"The backing is one piece of \w+, {SIZE} wide and {SIZE} along the selvages: ", text)
    if one:
        wide, along = map(shown, one.groups())
        return Backing({(wide, along): 1}, [wide], along, 1, along, upright)
    how = "side by side|one below the other|end to end"
    told = re.findall(rf"(\d+) panels of \w+, ([^:]+?) along the selvages, together ({how}), ", text)
    assert told, text
    sewn = [(*_sewn(int(count), size), how) for count, size, how in told]
    widths, along, how = sewn[-1]
    assert how in ("end to end", "side by side" if upright else "one below the other")
    if how == "end to end":
        assert len(sewn) == 1
        return Backing(_counted(widths, along), widths[:1], along, len(widths), along, upright)
    panels = _counted(widths, along)
    if len(sewn) == 1:
        return Backing(panels, widths, along, 1, along, upright)
    narrow, piece, how = sewn[0]
    assert how == "end to end" and widths[-1] == narrow[0] and "for the narrow panel" in text
    panels = _counted(widths[:-1], along) | _counted(narrow, piece)
    return Backing(panels, widths, along, len(narrow), piece, upright)


def _sewn(count: int, size: str) -> tuple[list[Fraction], Fraction]:
    """The widths of panels that are sewn together, and how long each is."""
    one = re.fullmatch(rf"each {SIZE} wide and {SIZE}", size)
    two = re.fullmatch(rf"{SIZE} and {SIZE} wide and each {SIZE}", size)
    more = re.fullmatch(rf"(\d+) of them {SIZE} and one {SIZE} wide, and each {SIZE}", size)
    if one:
        return [shown(one[1])] * count, shown(one[2])
    if two:
        assert count == 2
        return [shown(two[1]), shown(two[2])], shown(two[3])
    assert more and int(more[1]) + 1 == count, size
    return [shown(more[2])] * int(more[1]) + [shown(more[3])], shown(more[4])


def _counted(widths: list[Fraction], along: Fraction) -> Cuts:
    found: Cuts = {}
    for wide in widths:
        found[wide, along] = found.get((wide, along), 0) + 1
    return found
