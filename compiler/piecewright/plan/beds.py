"""Mattress sizes, and how far a quilt hangs down.

There is no legal standard for beds of grown-ups, and sizes vary by an inch: measure the bed. The sizes in inches are
those that a reference site and two teachers print (where they differ, the site's); those in centimetres are made in
Europe and in the United Kingdom; the crib is the least that 16 CFR part 1219 allows, read in secondary pages.
"""

from __future__ import annotations

from typing import NamedTuple

from piecewright.exact import INCH_PER, Exact


class Bed(NamedTuple):
    """A mattress: `width` and `length` in inches; `units` are those it is made in."""

    name: str
    width: Exact
    length: Exact
    units: str


def _bed(name: str, width: str, length: str, units: str = "inch") -> Bed:
    inches = INCH_PER[units]
    return Bed(name, Exact.parse(width) * inches, Exact.parse(length) * inches, units)


BEDS: tuple[Bed, ...] = (
    _bed("crib", "109/4", "413/8"),
    _bed("older crib", "27", "52"),
    _bed("twin", "39", "75"),
    _bed("full", "54", "75"),
    _bed("queen", "60", "80"),
    _bed("king", "76", "80"),
    _bed("California king", "72", "84"),
    _bed("single, UK", "183/2", "190", "cm"),
    _bed("double, UK", "137", "190", "cm"),
    *(_bed(f"Europe {wide}", str(wide), "200", "cm") for wide in (80, 90, 100, 140, 160, 170, 180, 200)),
)


def covering(bed: Bed, drop: Exact) -> tuple[Exact, Exact]:
    """Width and length of a quilt that hangs down as far on both sides and at the foot."""
    return bed.width + drop * 2, bed.length + drop


def drops(bed: Bed, width: Exact, length: Exact) -> tuple[Exact, Exact]:
    """How far a quilt of a size hangs down on each side and at the foot; negative where it is too small."""
    return (width - bed.width) / 2, length - bed.length
