"""How light or dark a colour is: what a fabric's value is read off."""

from __future__ import annotations

from typing import Literal

Value = Literal["light", "medium", "dark"]


def lightness(colour: str) -> float:
    """How light `#rrggbb` looks, 0 to 100: L* of CIE 1976 from the relative luminance of sRGB."""
    red, green, blue = (_linear(int(colour[i : i + 2], 16) / 255) for i in (1, 3, 5))
    y = 0.2126 * red + 0.7152 * green + 0.0722 * blue
    return 116 * y ** (1 / 3) - 16 if y > 0.008856 else 903.3 * y


def value_of(colour: str) -> Value:
    """Light, medium or dark: the third of the lightness scale it falls in."""
    light = lightness(colour)
    return "light" if light > 200 / 3 else "dark" if light < 100 / 3 else "medium"


def _linear(part: float) -> float:
    """A channel of sRGB (IEC 61966-2-1), 0 to 1, without its gamma."""
    return part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4
