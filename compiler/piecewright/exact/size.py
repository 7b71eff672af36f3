"""Sizes as they are written at the cutting mat: `6 1/2`, `6½`, `7/8`, `6.5`, with `"`, `cm` or `mm`.

Read and printed by hand rather than by patterns: this is on the path of every run.
"""

from __future__ import annotations

from piecewright.exact.number import Exact

INCH_PER = {"inch": Exact(1), "cm": Exact(50, 127), "mm": Exact(5, 127)}
"""The length of each unit in inches; one inch is 2.54 cm exactly (the international yard and pound agreement, 1959)."""

INCH_MARKS = '"”“″'

_VULGAR = {
    "½": (1, 2), "⅓": (1, 3), "⅔": (2, 3), "¼": (1, 4), "¾": (3, 4), "⅕": (1, 5), "⅖": (2, 5), "⅗": (3, 5),
    "⅘": (4, 5), "⅙": (1, 6), "⅚": (5, 6), "⅐": (1, 7), "⅛": (1, 8), "⅜": (3, 8), "⅝": (5, 8), "⅞": (7, 8),
    "⅑": (1, 9), "⅒": (1, 10),
}  # fmt: skip
VULGAR_FRACTIONS = "".join(_VULGAR)

_VULGAR_OF = {ratio: char for char, ratio in _VULGAR.items()}
_RAISED = "⁰¹²³⁴⁵⁶⁷⁸⁹"
_LOWERED = "₀₁₂₃₄₅₆₇₈₉"
_TO_RAISED = str.maketrans("0123456789", _RAISED)
_TO_LOWERED = str.maketrans("0123456789", _LOWERED)
_TO_SPACE = str.maketrans("\u00a0\u202f\u2009", "   ")
_TO_PLAIN = str.maketrans(_RAISED + _LOWERED + "⁄", "0123456789" * 2 + "/")
_NARROW_SPACE = "\u202f"
_LONGEST = 15  # digits of one number in a size


class BadSize(ValueError):
    """Text that is no size. `value` is what was most likely meant, `other` a second reading; None where there is none.

    Kinds: `empty`; `zero-denominator` (`6 1/0`); `improper` (`6 5/4`: value 7 1/4); `hyphen` (`3-1/2`: value
    3 1/2, other 2 1/2); `two-bars` (`7/8/2`); `bare-bar` (`7/`); `bare-point` (`6.`, `.5`); `comma` (`6,5`);
    `two-numbers` (`6 7`); `too-long` (a number of more than 15 digits); `not-a-size` (anything else).
    """

    def __init__(self, kind: str, text: str, value: Exact | None = None, other: Exact | None = None) -> None:
        super().__init__(f"{kind}: {text!r}")
        self.kind = kind
        self.text = text
        self.value = value
        self.other = other


def parse_size(text: str) -> tuple[Exact, str | None]:
    """The number as written and its unit: `inch`, `cm`, `mm`, or None when none is written. Raises `BadSize`.

    The number is in that unit (times `INCH_PER[unit]` it is in inches) and is never negative.
    """
    body = text.strip(" ")
    unit: str | None = None
    if body[-1:] in INCH_MARKS and body:
        unit, body = "inch", body[:-1]
    elif body.endswith(("cm", "mm")):
        unit, body = body[-2:], body[:-2]
    parts = [part for part in _plain(body).split(" ") if part]
    if not parts:
        raise BadSize("empty", text)
    try:
        if len(parts) == 1:
            return _one_number(parts[0]), unit
        if len(parts) == 2:
            return _whole_and_fraction(parts[0], parts[1]), unit
    except BadSize as bad:
        raise BadSize(bad.kind, text, bad.value, bad.other) from None
    raise BadSize("two-numbers" if all(_is_number(part) for part in parts) else "not-a-size", text)


def fraction_text(x: Exact, typographic: bool = False) -> str:
    """A rational as a trade fraction: `6 1/2`, or typographically `6½` and `6 ⁵⁄₁₆` (with a narrow space that
    does not break). `ValueError` when it is irrational."""
    n, d = x.ratio
    sign = ("−" if typographic else "-") if n < 0 else ""
    whole, rest = divmod(abs(n), d)
    if not rest:
        return f"{sign}{whole}"
    if not typographic:
        return f"{sign}{whole} {rest}/{d}" if whole else f"{sign}{rest}/{d}"
    vulgar = _VULGAR_OF.get((rest, d))
    if vulgar:
        return f"{sign}{whole}{vulgar}" if whole else f"{sign}{vulgar}"
    drawn = f"{str(rest).translate(_TO_RAISED)}⁄{str(d).translate(_TO_LOWERED)}"
    return f"{sign}{whole}{_NARROW_SPACE}{drawn}" if whole else f"{sign}{drawn}"


def decimal_text(x: Exact) -> str:
    """A rational as a decimal, all its digits: `16.25`. `ValueError` when it has no end."""
    n, d = x.ratio
    places = 0
    scale = 1
    while scale % d:
        if places == 30:
            raise ValueError(f"{x} is no decimal")
        places += 1
        scale *= 10
    whole, rest = divmod(abs(n) * (scale // d), scale)
    sign = "-" if n < 0 else ""
    return f"{sign}{whole}.{rest:0{places}}" if places else f"{sign}{whole}"


def _plain(body: str) -> str:
    """In plain digits and bars: `6⁵⁄₁₆` as `6 5/16`, `6½` as `6 1/2`."""
    if body.isascii():
        return body
    chars = []
    before = ""
    for char in body:
        if char in _VULGAR:
            n, d = _VULGAR[char]
            # a space on both sides, so that nothing runs together with the digits of the neighbours
            chars.append(f" {n}/{d} " if before.isdigit() or before in _VULGAR else f"{n}/{d} ")
        else:
            if char in _RAISED and before.isascii():
                chars.append(" ")
            chars.append(char)
        before = char
    plain = "".join(chars).translate(_TO_SPACE)
    return plain.translate(_TO_PLAIN) if "⁄" in plain else plain


def _is_digits(text: str) -> bool:
    if not (text.isascii() and text.isdigit()):
        return False
    if len(text) > _LONGEST:
        raise BadSize("too-long", text)
    return True


def _is_number(part: str) -> bool:
    return _is_digits(part.replace("/", "").replace(".", ""))


def _one_number(part: str) -> Exact:
    """`7`, `7/8` or `6.5`."""
    if _is_digits(part):
        return Exact(int(part))
    if "-" in part:
        _refuse_hyphen(part)
    if "/" in part:
        return _fraction(part)
    for mark, kind in ((".", None), (",", "comma")):
        whole, found, places = part.partition(mark)
        if found and (_is_digits(whole) or not whole) and (_is_digits(places) or not places) and (whole or places):
            value = Exact(int(whole + places), 10 ** len(places))
            if not whole or not places:
                raise BadSize("bare-point", part, value)
            if kind:
                raise BadSize(kind, part, value)
            return value
    raise BadSize("not-a-size", part)


def _fraction(part: str) -> Exact:
    top, _, bottom = part.partition("/")
    if "/" in bottom:
        if _is_digits(part.replace("/", "")):
            raise BadSize("two-bars", part)
    elif _is_digits(top) and _is_digits(bottom):
        if int(bottom) == 0:
            raise BadSize("zero-denominator", part)
        return Exact(int(top), int(bottom))
    elif (not top or _is_digits(top)) and (not bottom or _is_digits(bottom)):
        raise BadSize("bare-bar", part)
    raise BadSize("not-a-size", part)


def _whole_and_fraction(whole: str, part: str) -> Exact:
    if not _is_digits(whole) or "/" not in part:
        both = _is_number(whole) and _is_number(part)
        raise BadSize("two-numbers" if both else "not-a-size", f"{whole} {part}")
    fraction = _fraction(part)
    value = fraction + int(whole)
    if fraction >= 1:
        raise BadSize("improper", f"{whole} {part}", value)
    return value


def _refuse_hyphen(part: str) -> None:
    """`3-1/2` reads as three and a half to some and as two and a half to others."""
    whole, _, rest = part.partition("-")
    if _is_digits(whole):
        try:
            fraction = _fraction(rest) if "/" in rest else None
        except BadSize:
            fraction = None
        if fraction is not None:
            raise BadSize("hyphen", part, fraction + int(whole), int(whole) - fraction)
