"""Random quilts as patterns are written, with the numbers that were written in them.

Every fabric has a use of its own, so that what is bought of it is for one thing.
"""

from __future__ import annotations

from fractions import Fraction
from random import Random
from typing import NamedTuple

INCH = {
    "seam": ("1/4", "1/4", "3/8", "5/16"),
    "usable": ("40", "40", "42", "36", "54", "108", "43 1/8"),
    "beyond": ("", "", "2", "3 1/2", "6"),
    "binding": ("2", "2 1/4", "2 1/2", "3", "1 7/8"),
    "segment": ("1 1/2", "2", "2 1/2", "3 1/4", "4 1/2"),
}
CM = {
    "seam": ("0.75", "0.75", "0.6", "7 mm", "1"),
    "usable": ("101.6", "107", "110", "92", "150", "280"),
    "beyond": ("", "", "5", "7.25", "15"),
    "binding": ("5", "5.5", "6", "6.25", "7"),
    "segment": ("4", "5.5", "6.25", "8", "11.5"),
}


class Quilt(NamedTuple):
    """`across` and `down` of the raw top; on point these are columns and rows of `block`, as it is cut, with `beyond`
    between points and edge. `sets`: how many segments are wanted, how wide, and how wide the strips are."""

    text: str
    metric: bool
    seam: Fraction
    usable: Fraction
    across: Fraction
    down: Fraction
    around: Fraction = Fraction(0)
    width: Fraction = Fraction(0)
    join: str = ""
    beyond: Fraction = Fraction(0)
    directional: bool = False
    block: Fraction = Fraction(0)
    sets: tuple[int, Fraction] = (0, Fraction(1))

    @property
    def mark(self) -> Fraction:
        return Fraction(1, 10) if self.metric else Fraction(1, 8)

    @property
    def step(self) -> Fraction:
        return Fraction(10) if self.metric else Fraction(9, 2)

    @property
    def extra(self) -> int:
        return 25 if self.metric else 10


def size(written: str) -> Fraction:
    """`3 1/2`, `0.75`, `7 mm` (which stands in patterns in centimetres only)."""
    if written.endswith("mm"):
        return Fraction(written.removesuffix("mm").strip()) / 10
    return sum((Fraction(part) for part in written.split()), Fraction(0))


def trade(value: Fraction, metric: bool) -> str:
    """As it is written in a pattern."""
    if metric:
        return f"{float(value):g}"
    whole, rest = divmod(value, 1)
    return f"{whole} {rest}" if whole and rest else str(whole or rest)


def heading(rng: Random, kinds: dict[str, tuple[str, ...]], metric: bool) -> tuple[str, str, str]:
    seam, usable = rng.choice(kinds["seam"]), rng.choice(kinds["usable"])
    text = f'pattern "Landing"\n    seam {seam}\n    usable {usable}\n'
    return text + ("    units cm\n" if metric else ""), seam, usable


def plain(rng: Random) -> Quilt:
    """A top of one piece, backed and bound."""
    metric = rng.random() < 0.5
    kinds = CM if metric else INCH
    text, seam, usable = heading(rng, kinds, metric)
    unit = Fraction(5, 2) if metric else Fraction(1)
    low, high = (8, 28) if rng.random() < 0.25 else (12, 112)  # some are runners
    across, down = (rng.randrange(low, 112) * unit + size(seam) * 2, rng.randrange(low, high) * unit + size(seam) * 2)
    if rng.random() < 0.5:
        across, down = down, across
    beyond, directional = rng.choice(kinds["beyond"]), rng.random() < 0.2
    width = rng.choice([one for one in kinds["binding"] if size(one) > size(seam) * 4])
    around = (across + down) * 2
    join = rng.choice(("", "straight", "bias"))
    if join == "bias" and (around + 30) * size(width) * 3 / 2 > size(usable) ** 2:
        join = ""  # no square of the cloth is large enough
    text += (
        "\nfabric sand, usable 900\n"
        f"fabric backing, margin 0{', directional' if directional else ''}\nfabric edge, margin 0\n"
        f"\nquilt landing\n    rectangle {trade(across, metric)} by {trade(down, metric)} of sand\n"
        f"    back of backing{', beyond ' + beyond if beyond else ''}\n"
        f"    bind {width} of edge{', ' + join if join else ''}\n"
    )
    return Quilt(
        text, metric, size(seam), size(usable), across, down, around, size(width), join,
        size(beyond) if beyond else Fraction(10 if metric else 4), directional,
    )  # fmt: skip


def on_point(rng: Random) -> Quilt:
    """Blocks of one piece on point."""
    metric = rng.random() < 0.5
    kinds = CM if metric else INCH
    text, seam, usable = heading(rng, kinds, metric)
    columns, rows = rng.randrange(2, 5), rng.randrange(2, 5)
    unit = Fraction(5, 4) if metric else Fraction(1, 2)
    block = rng.randrange(6, 26) * unit + size(seam) * 2
    beyond = rng.choice((0, 0, 1, 2)) * unit
    text += (
        "\nfabric sand, margin 0\nfabric side, margin 0\nfabric corner, margin 0\n"
        f"\nquilt landing\n    lay {columns} by {rows} on point\n        | square {trade(block, metric)} of sand\n"
    )
    for where in ("sides of side", "corners of corner"):
        text += f"    fill {where}{', float ' + trade(beyond, metric) if beyond else ''}\n"
    return Quilt(
        text, metric, size(seam), size(usable), Fraction(columns), Fraction(rows), beyond=beyond, block=block
    )


def strip_set(rng: Random) -> Quilt:
    """Segments of two strips."""
    metric = rng.random() < 0.5
    kinds = CM if metric else INCH
    text, seam, usable = heading(rng, kinds, metric)
    segment, wide, count = rng.choice(kinds["segment"]), rng.choice(kinds["segment"]), rng.randrange(1, 120)
    text += (
        "\nfabric sand, margin 0\nfabric dusk, margin 0\n"
        f"\nunit rail\n    strip {wide} of sand\n    join strip {wide} of dusk on bottom\n    subcut {segment}\n"
        f"\nmake {count} of rail\n"
    )
    return Quilt(
        text, metric, size(seam), size(usable), Fraction(0), Fraction(0), width=size(wide),
        sets=(count, size(segment)),
    )  # fmt: skip
