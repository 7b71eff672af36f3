"""Our own textures: small repeated drawings that tell fabrics apart where colour does not.

Each is drawn over the flat colour of its fabric in one ink, darker than a light cloth and lighter than a
dark one. Sizes are in points and do not change with the scale of the figure.
"""

from __future__ import annotations

from dataclasses import replace

from piecewright.dataclass import dataclass
from piecewright.plan.model import FabricPlan

Colour = tuple[int, int, int]
WHITE: Colour = (255, 255, 255)
BLACK: Colour = (0, 0, 0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Texture:
    """A tile `width` by `height`; `stroke` is a path drawn with a line of `weight`, `fill` one filled.
    Either may be empty."""

    width: float
    height: float
    stroke: str = ""
    weight: float = 0.0
    fill: str = ""


def _dot(x: float, y: float, r: float) -> str:
    return f"M{x - r:g} {y:g}a{r:g} {r:g} 0 1 0 {2 * r:g} 0a{r:g} {r:g} 0 1 0 {-2 * r:g} 0Z"


TEXTURES: dict[str, Texture | None] = {
    "plain": None,
    "dots": Texture(width=6, height=6, fill=_dot(1.5, 1.5, 0.85) + _dot(4.5, 4.5, 0.85)),
    "rules": Texture(width=8, height=4, stroke="M0 2H8", weight=0.8),
    "crosses": Texture(width=8, height=8, stroke="M2 0.3V3.7M0.3 2H3.7M6 4.3V7.7M4.3 6H7.7", weight=0.8),
    "waves": Texture(width=10, height=5, stroke="M-5 2.5Q-2.5 5.2 0 2.5T5 2.5T10 2.5T15 2.5", weight=0.8),
    "checks": Texture(width=7, height=7, fill="M0.5 0.5H3V3H0.5ZM4 4H6.5V6.5H4Z"),
    "slants": Texture(width=5, height=5, stroke="M-1 6L6 -1M-1 1L1 -1M4 6L6 4", weight=0.8),
    "rings": Texture(width=9, height=9, stroke=_dot(2.25, 2.25, 1.6) + _dot(6.75, 6.75, 1.6), weight=0.75),
}


def rgb(colour: str) -> Colour:
    """`#rrggbb` as three numbers up to 255."""
    return int(colour[1:3], 16), int(colour[3:5], 16), int(colour[5:7], 16)


def hexed(colour: Colour) -> str:
    return "#{:02x}{:02x}{:02x}".format(*colour)


def mixed(first: Colour, second: Colour, share: float) -> Colour:
    """`share` of the second in the first."""
    r, g, b = (round(p + (q - p) * share) for p, q in zip(first, second, strict=True))
    return r, g, b


def lightness(colour: Colour) -> float:
    """How light a colour looks in grey, 0 to 1: the luma of ITU-R BT.601, which printers and greyscale
    screens use."""
    r, g, b = colour
    return (0.299 * r + 0.587 * g + 0.114 * b) / 255


def ink(colour: Colour) -> Colour:
    """The ink of a texture on cloth of this colour."""
    return mixed(colour, BLACK, 0.39) if lightness(colour) > 0.42 else mixed(colour, WHITE, 0.48)


def wrong_side(colour: Colour) -> Colour:
    """The wrong side of a cloth: half-way to white."""
    return mixed(colour, WHITE, 0.5)


def print_look(fabric: FabricPlan, number: int, fabrics: tuple[FabricPlan, ...]) -> FabricPlan:
    """A print of an assorted fabric, the second or a later one: in another shade and, as long as they last, in a
    texture that no fabric of the pattern has, so that it is told from the first also in grey."""
    colour = rgb(fabric.colour)
    other = BLACK if lightness(colour) > 0.5 else WHITE
    taken = {one.texture for one in fabrics}
    names = [name for name in TEXTURES if name not in taken] or [name for name in TEXTURES if name != fabric.texture]
    shade = mixed(colour, other, 0.09 * min(number - 1, 4))
    return replace(fabric, colour=hexed(shade), texture=names[(number - 2) % len(names)])
