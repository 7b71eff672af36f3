"""Exact numbers, vectors and sizes."""

from piecewright.exact.number import Exact
from piecewright.exact.radicals import OutsideNumbers
from piecewright.exact.size import (
    INCH_MARKS,
    INCH_PER,
    VULGAR_FRACTIONS,
    BadSize,
    decimal_text,
    fraction_text,
    parse_size,
)
from piecewright.exact.vector import Vector, orientation

__all__ = [
    "INCH_MARKS",
    "INCH_PER",
    "VULGAR_FRACTIONS",
    "BadSize",
    "Exact",
    "OutsideNumbers",
    "Vector",
    "decimal_text",
    "fraction_text",
    "orientation",
    "parse_size",
]
