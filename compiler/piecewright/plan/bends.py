"""What is cut by template for a curved seam: what it is for, in words, and the rectangle of cloth it lies in."""

from __future__ import annotations

from piecewright.exact import Exact
from piecewright.kernel.build import Settings
from piecewright.kernel.curve import MELON, melon_box, melon_side
from piecewright.plan.model import Size
from piecewright.plan.rounding import given_size


def bend_size(shape: str, radius: Exact, settings: Settings) -> Size:
    """The size that tells a template from others: of a half melon the finished side, else the radius of the seam."""
    return given_size(melon_side(radius) if shape == MELON else radius, settings)


def bend_words(shape: str, radius: Exact, settings: Settings) -> str:
    """`for a seam of radius 3`; of a half melon `for a side of 4 finished`."""
    size = bend_size(shape, radius, settings).shown
    return f"for a side of {size} finished" if shape == MELON else f"for a seam of radius {size}"


def bend_box(shape: str, radius: Exact, seam: Exact) -> tuple[Exact, Exact]:
    """Across and down, in inches, the rectangle round a raw piece. Above a straight edge of a quarter circle the arc
    bulges past its end, to r + 2s."""
    return melon_box(radius, seam) if shape == MELON else (radius + seam * 2, radius + seam * 2)
