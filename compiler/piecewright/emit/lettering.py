"""The one typeface of the figures: its size, its box and how lines of it are broken.

No text is measured on the machine that builds, so that the bytes are the same everywhere. Widths are
therefore taken from the widest of the common sans-serif faces; what a reader's machine shows is narrower
or as wide.
"""

from __future__ import annotations

FAMILY = "Helvetica, Arial, 'Liberation Sans', 'DejaVu Sans', sans-serif"
SIZE = 10.0  # points
LINE = 12.5  # points from one baseline to the next
HEIGHT = 11.0  # points, of the box round one line
DROP = 3.5  # points from the middle of the box down to the baseline

_CLASSES = (
    (0.30, "iljI'|!:;"),
    (0.36, "fJ .,-()[]/"),
    (0.42, "rt°⁄¹²³⁰⁴⁵⁶⁷⁸⁹₀₁₂₃₄₅₆₇₈₉*"),
    (0.56, "csz"),
    (0.64, "abdeghknopquvxyLFPTY0123456789?–"),
    (0.71, "ABCERSVXZK“”\""),
    (0.84, "wDGHNOQU×+=−~"),
    (1.00, "mMW½¼¾⅓⅔⅛⅜⅝⅞⅕⅖⅗⅘⅙⅚…—@%&"),
)
_EM = {character: width for width, characters in _CLASSES for character in characters}
_WIDE = 0x2E80  # from here on the scripts of East Asia, a full square each


def text_width(text: str) -> float:
    """The most that a line of text takes, in points."""
    return SIZE * sum(_EM.get(c, 1.0 if ord(c) >= _WIDE else 0.84) for c in text)


def text_lines(text: str, width: float) -> tuple[str, ...]:
    """The text broken between words so that no line is wider than `width` points, unless one word is."""
    lines: list[str] = []
    for word in filter(None, text.split(" ")):  # never at a space that does not break
        longer = f"{lines[-1]} {word}" if lines else word
        if lines and text_width(longer) <= width:
            lines[-1] = longer
        else:
            lines.append(word)
    return tuple(lines)
