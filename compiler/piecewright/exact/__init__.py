"""Exact numbers, vectors and sizes."""

from piecewright.exact.number import Exact, OutsideNumbers
from piecewright.exact.vector import Vector, orientation

__all__ = ["Exact", "OutsideNumbers", "Vector", "orientation"]
