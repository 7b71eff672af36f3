"""The only rounding: exact lengths as sizes that are read and as floats that are drawn.

Lengths come in inches, exact, and are printed in the pattern's units: inches as trade fractions, centimetres
and millimetres as decimals. A size that is cut is rounded **up** to the ruler's mark, so that nothing is ever
cut too small. A size that is measured goes to the nearest mark that the eye can read, 1/16 in or 1 mm, and is
called scant when the cloth is a little smaller than that and generous when it is larger; what lies on the
ruler's own mark is printed as it is. A size that was given, as the seam allowance, is not rounded at all; nor is
one that the designer wrote and that is laid off on the work, as the width of a binding.
"""

from __future__ import annotations

from dataclasses import replace

from piecewright.exact import INCH_PER, Exact, Vector, decimal_text, fraction_text
from piecewright.kernel.build import Settings, Units
from piecewright.plan.model import Extent, Point, Size

MEASURED = {"inch": Exact(1, 16), "cm": INCH_PER["mm"], "mm": INCH_PER["mm"]}
"""The finest mark a measure is read to, in inches, by the pattern's units."""

_UNIT_SIGNS = {"inch": "in", "cm": "cm", "mm": "mm"}
_NO_BREAK = "\u00a0"


def up_to_mark(x: Exact, mark: Exact) -> Exact:
    """The smallest multiple of `mark` (greater than zero) that is not below x."""
    return mark * (x / mark).ceil()


def nearest_mark(x: Exact, mark: Exact) -> Exact:
    """The nearest multiple of `mark` (greater than zero); halfway between two, the one that is an even multiple,
    and so stands on the longer line of the ruler."""
    marks = x / mark
    below = marks.floor()
    past = marks - below - Exact(1, 2)
    return mark * (below + 1 if past > 0 or (not past and below % 2) else below)


def cut_size(x: Exact, settings: Settings) -> Size:
    """A size to cut: up to the ruler's mark."""
    return _size(x, up_to_mark(x, settings.ruler), settings.units)


def cloth_size(x: Exact, settings: Settings) -> Size:
    """A length of cloth to have: up to the ruler's mark, as what is cut from it."""
    return cut_size(x, settings)


def least_size(x: Exact, settings: Settings) -> Size:
    """What there is at least of something that is cut: down to the ruler's mark, so that no more is promised."""
    return _size(x, settings.ruler * (x / settings.ruler).floor(), settings.units)


def given_size(x: Exact, settings: Settings) -> Size:
    """A size that the designer set and nobody cuts, as the seam allowance: as she wrote it, also in another unit than
    the pattern's; what nobody can have written so, as a root, as a measure."""
    return _as_written(x, settings) or measured_size(x, settings)


def written_size(x: Exact, settings: Settings, *, measured: bool = False) -> Size:
    """A size that is written and laid off on the work, as the width of a binding or the distance of a cut: as it is
    written, not rounded; what nobody writes, a root or a third, up to the mark as any size to cut, or as a measure."""
    own = _as_written(x, settings, ending=True)
    return own or (measured_size if measured else cut_size)(x, settings)


def _as_written(x: Exact, settings: Settings, *, ending: bool = False) -> Size | None:
    """Exactly, in the pattern's unit, or in another one, named, if only that has a short fraction or decimal for it;
    None where none has."""
    if not x.is_rational:
        return None
    if _is_short(x, settings.units, ending):
        return _size(x, x, settings.units)
    other: Units = "inch"
    if settings.units == "inch":
        other = "mm" if abs(x) < INCH_PER["cm"] * 2 else "cm"
    if not _is_short(x, other, ending=True):
        return None
    shown = with_unit(_text(x / INCH_PER[other], other, typographic=True), other)
    return replace(measured_size(x, settings), shown=shown)


def _is_short(x: Exact, units: Units, ending: bool) -> bool:
    """Whether a size is a fraction down to 64ths of an inch, if `ending` one whose decimal ends; or a decimal of at
    most three places."""
    bottom = (x / INCH_PER[units]).ratio[1]
    if units == "inch":
        return bottom <= 64 and (not ending or 10**6 % bottom == 0)
    return 1000 % bottom == 0


def measured_size(x: Exact, settings: Settings) -> Size:
    """A size to check with a ruler: to the nearest readable mark, scant or generous when it is not on one."""
    size = abs(x)
    on_ruler = up_to_mark(size, settings.ruler)
    mark = on_ruler if on_ruler == size else nearest_mark(size, MEASURED[settings.units])
    manner = "scant " if size < mark else "generous " if size > mark else ""
    return _size(x, -mark if x < 0 else mark, settings.units, manner)


def measured_extent(width: Exact, height: Exact, settings: Settings) -> Extent:
    """Width and height to check with a ruler."""
    return Extent(width=measured_size(width, settings), height=measured_size(height, settings))


def with_unit(shown: str, units: Units) -> str:
    """A printed size or sizes followed by the unit, which does not break off: `6½ in`, `6½ by 9 in`, `16.5 cm`.

    Sizes carry no unit of their own; a sentence that needs one says it once, after the last size. One that was written
    in another unit does, and keeps it.
    """
    if shown.endswith(tuple(_NO_BREAK + sign for sign in _UNIT_SIGNS.values())):
        return shown
    return f"{shown}{_NO_BREAK}{_UNIT_SIGNS[units]}"


def quarter_arc(radius: Exact, settings: Settings) -> str:
    """The length of a quarter of a circle, radius * π / 2, to the nearest readable mark and with its unit. With
    355/113 for π, 3 parts in ten million too much, it says about; no other length does."""
    length = radius * Exact(355, 226)
    mark = nearest_mark(length, MEASURED[settings.units])
    return with_unit(_text(mark / INCH_PER[settings.units], settings.units, typographic=True), settings.units)


def drawn(x: Exact | float) -> float:
    """A coordinate to draw, in inches, to 1/10000; never a negative zero."""
    return round(float(x), 4) + 0.0


def drawn_points(outline: tuple[Vector, ...], by: Point = (0.0, 0.0)) -> tuple[Point, ...]:
    """Points to draw, in inches, moved by `by`. Their last digits are left to the drawing."""
    dx, dy = by
    floats = [v.floats for v in outline]
    return tuple([(x + dx, y + dy) for x, y in floats]) if dx or dy else tuple(floats)


def drawn_point(v: Vector) -> Point:
    """A point to draw, in inches, each coordinate to 1/10000."""
    x, y = v.floats
    return round(x, 4) + 0.0, round(y, 4) + 0.0


def _size(x: Exact, rounded: Exact, units: Units, manner: str = "") -> Size:
    per = INCH_PER[units]
    own = x / per
    ruler = rounded / per
    return Size(
        exact=str(own),
        ruler=_text(ruler, units, typographic=False),
        shown=manner + _text(ruler, units, typographic=True),
        value=round(float(own), 6) + 0.0,
    )


def _text(x: Exact, units: Units, *, typographic: bool) -> str:
    if units == "inch":
        return fraction_text(x, typographic)
    try:
        text = decimal_text(x)
    except ValueError:  # a mark such as a third of a centimetre
        return fraction_text(x, typographic)
    return text.replace("-", "−") if typographic else text
