"""Small pieces of English that several sentences share."""

from __future__ import annotations

import re
from collections.abc import Sequence

from piecewright.exact import Exact
from piecewright.exact.size import fraction_text
from piecewright.plan.model import Extent, Size

_FRACTION = re.compile(r"(?:(?<![\w./])(\d+) )?(?<![\w./])(\d+)/(\d+)(?![\w/])")
_TURNING = re.compile(r"(?: turned (?:\d+ )?(?:left|right|around)| reversed)+$")
_VOWEL_SOUND = re.compile(r"(?!uni|use|eu|one)[aeiou]", re.IGNORECASE)


def article(noun: str) -> str:
    """`a sand square`, `an ivory square`: the noun with its article."""
    return ("an " if _VOWEL_SOUND.match(noun) else "a ") + noun


def listed(parts: Sequence[str]) -> str:
    """`a`, `a and b`, `a, b and c`."""
    if len(parts) < 2:
        return "".join(parts)
    return ", ".join(parts[:-1]) + " and " + parts[-1]


def plural(count: int, one: str, many: str = "") -> str:
    """`1 strip`, `3 strips`; the second form where an s does not make it."""
    return f"{count} {one if count == 1 else many or one + 's'}"


def times(count: int) -> str:
    """`once`, `twice`, `3 times`."""
    return {1: "once", 2: "twice"}.get(count, f"{count} times")


def sentence(text: str) -> str:
    """Text with a capital first and a full stop last."""
    text = text.strip()
    if not text:
        return ""
    return text[0].upper() + text[1:] + ("" if text[-1] in ".!?:" else ".")


def typographic(text: str) -> str:
    """Plain fractions inside other words as they are printed: `half-square(2 1/2)` gives `half-square(2½)`."""
    return _FRACTION.sub(_printed, text)


def _printed(match: re.Match[str]) -> str:
    whole, top, bottom = int(match[1] or 0), int(match[2]), int(match[3])
    return fraction_text(Exact(whole * bottom + top, bottom), typographic=True) if bottom else match[0]


def plain(text: str) -> str:
    """Text by a person on one line: spaces for line ends and other control characters, which no page may hold."""
    return " ".join("".join(char if char.isprintable() else " " for char in text).split())


def turning(name: str) -> str:
    """How a piece is turned, from what it is called: ` turned right` of `blade turned right`, else nothing."""
    match = _TURNING.search(name)
    return match.group(0) if match else ""


def shape_size(shape: str, width: str, height: str, angle: int | None) -> str:
    """A cut size as it is written: `2½` of a square, `2½ × 4½`, `6 × 2½ at 45°`, `3¾ high at 60°` of a triangle,
    `2½ wide at 45°` of a diamond, which is as high as it is wide."""
    if shape == "square":
        return width
    if angle is None:
        return f"{width} × {height}"
    size = {"triangle": f"{height} high", "diamond": f"{width} wide"}.get(shape, f"{width} × {height}")
    return f"{size} at {angle}°"


def extent_text(extent: Extent) -> str:
    """`8 by 8`, and `about 8⅛ by 8⅛` where one of them is off the mark."""
    sides = [typographic(side.ruler) for side in (extent.width, extent.height)]
    inexact = any(is_inexact(side) for side in (extent.width, extent.height))
    return f"{'about ' if inexact else ''}{sides[0]} by {sides[1]}"


def spoken_size(size: Size) -> str:
    """`8½`, and `about 8½` where it is off the mark."""
    return f"about {typographic(size.ruler)}" if is_inexact(size) else size.shown


def is_inexact(size: Size) -> bool:
    """Whether a measure is off the mark it is printed with."""
    return size.shown.startswith(("scant ", "generous "))
