"""Lengths as they are read in diagnostics and in the names of units."""

from __future__ import annotations

import re

from piecewright.exact import INCH_PER, Exact, decimal_text, fraction_text
from piecewright.kernel.build import Piece, Units

FINEST = 64  # trade fractions go no finer
_RULER = 32  # nothing finer than a thirty-second of an inch is read off a ruler
_TERM = r"(?:\d+ \d+/\d+|(?:\d+(?:/\d+)?·)?√\d+|\d+(?:/\d+)?)"
_NO_MARK = re.compile(rf"about (\d+\.\d{{4}})(?:, exactly -?{_TERM}(?: [-+] {_TERM})*)?")


def plain(length: Exact, units: Units) -> str:
    """A length without loss, in the pattern's units: `2 1/2`, `16.5`, or `9/2 + 1/4*sqrt(2)`."""
    value = length if units == "inch" else length / INCH_PER[units]
    if not value.is_rational:
        return str(value)
    if units != "inch":
        try:
            return decimal_text(value)
        except ValueError:
            pass
    return fraction_text(value)


def shown(length: Exact, units: Units) -> str:
    """A length for people: a trade fraction or a decimal, `about` where it is neither."""
    value = length if units == "inch" else length / INCH_PER[units]
    if value.is_rational:
        if units == "inch":
            if value.ratio[1] <= FINEST and FINEST % value.ratio[1] == 0:
                return fraction_text(value)
        elif 1000 % value.ratio[1] == 0:
            return decimal_text(value)
    return f"about {float(value):.4f}"


def exactly(length: Exact, units: Units) -> str:
    """A length for people with nothing lost: `about 0.3536, exactly 1/4·√2`."""
    text = shown(length, units)
    if not text.startswith("about"):
        return text
    value = length if units == "inch" else length / INCH_PER[units]
    full = (
        fraction_text(value)
        if value.is_rational
        else str(value).replace("*", "·").replace("sqrt(", "√").replace(")", "")
    )
    return f"{text}, exactly {full}"


def measured(text: str, units: Units) -> str:
    """A message as it is printed for the sewing room: of a length that is on no mark what a ruler shows, to 1/32 in or
    0.1 mm, and nothing of its exact value: `about 5/32` for `about 0.1590, exactly 7/4 - 9/8·√2`."""
    return _NO_MARK.sub(lambda found: _on_a_ruler(found[1], units), text)


def _on_a_ruler(digits: str, units: Units) -> str:
    whole, _, part = digits.partition(".")
    length = Exact(int(whole + part), 10 ** len(part))
    if units == "inch":
        least = Exact(1, _RULER)
        marks = (length / least + Exact(1, 2)).floor()
        return f"about {fraction_text(least * marks)}" if marks else f"less than {fraction_text(least)}"
    least = Exact(1, 100 if units == "cm" else 10)
    marks = (length / least + Exact(1, 2)).floor()
    return f"about {decimal_text(least * marks)}" if marks else f"less than {decimal_text(least)}"


def cloth(piece: Piece, units: Units) -> str:
    """A piece of cloth as it is written: `square 2 1/2 of dusk`, `reversed parallelogram 4 by 2 1/2 at 45 of dusk`."""
    size = shown(piece.height, units)
    if piece.width is not None and piece.shape not in ("square", "diamond", "triangle"):
        size = f"{shown(piece.width, units)} by {size}"
    at = "" if piece.angle is None else f" at {piece.angle}"
    return f"{'reversed ' if piece.reversed else ''}{piece.shape} {size}{at} of {piece.fabric}"


def counted(number: int, one: str) -> str:
    return f"{number} {one}" if number == 1 else f"{number} {one}s"
