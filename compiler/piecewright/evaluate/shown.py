"""Lengths as they are read in diagnostics and in the names of units."""

from __future__ import annotations

from piecewright.exact import INCH_PER, Exact, decimal_text, fraction_text
from piecewright.kernel.build import Piece, Units

FINEST = 64  # trade fractions go no finer


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


def cloth(piece: Piece, units: Units) -> str:
    """A piece of cloth as it is written: `square 2 1/2 of dusk`, `reversed parallelogram 4 by 2 1/2 at 45 of dusk`."""
    size = shown(piece.height, units)
    if piece.width is not None and piece.shape not in ("square", "diamond", "triangle"):
        size = f"{shown(piece.width, units)} by {size}"
    at = "" if piece.angle is None else f" at {piece.angle}"
    return f"{'reversed ' if piece.reversed else ''}{piece.shape} {size}{at} of {piece.fabric}"


def counted(number: int, one: str) -> str:
    return f"{number} {one}" if number == 1 else f"{number} {one}s"
