"""`piecewright beds`."""

from __future__ import annotations

import click

from piecewright.cli.said import give
from piecewright.exact import INCH_PER, BadSize, Exact, parse_size

UNITS = ("inch", "cm")


@click.command()
@click.option("--drop", metavar="SIZE", help="How far it is to hang down, such as 12: tells the size of the quilt.")
@click.option("--quilt", metavar="SIZE", help='The size of a quilt, such as "77 by 85 1/2": tells its drop.')
@click.option("--units", type=click.Choice(UNITS), default="inch", show_default=True, help="What sizes are in.")
def beds(drop: str | None, quilt: str | None, units: str) -> None:
    """List mattress sizes, and how large a quilt covers them.

    Beds of one name vary by an inch or so: measure yours.
    """
    from piecewright.plan.beds import BEDS, covering, drops  # here, because only this command needs it

    if drop is not None and quilt is not None:
        raise click.UsageError("ask for --drop or for --quilt, not for both")
    lines = []
    for bed in BEDS:
        line = f"{bed.name:16} {_sizes(bed.width, bed.length, units)}"
        if drop is not None:
            line += f"   quilt {_sizes(*covering(bed, _size(drop, units)), units)}"
        if quilt is not None:
            sides = [_size(side, units) for side in quilt.split(" by ")]
            if len(sides) != 2:
                raise click.UsageError(f'--quilt {quilt}: write across and down, such as "77 by 85 1/2"')
            side, foot = drops(bed, *sides)
            line += f"   {_drop(side, units)} at each side, {_drop(foot, units)} at the foot"
        lines.append(line)
    give("\n".join(lines) + "\n")


def _size(text: str, units: str) -> Exact:
    """A size as it is written, in inches."""
    try:
        number, unit = parse_size(text.strip())
    except BadSize as reason:
        raise click.UsageError(f"“{text}” is no size; write one such as 12 or 10 1/2") from reason
    return number * INCH_PER[unit or units]


def _sizes(width: Exact, length: Exact, units: str) -> str:
    return f"{_shown(width, units):>8} by {_shown(length, units)}"


def _drop(size: Exact, units: str) -> str:
    return _shown(size, units) if size >= 0 else f"{_shown(-size, units)} too short"


def _shown(size: Exact, units: str) -> str:
    from piecewright.exact import decimal_text, fraction_text  # here, as above

    there = size / INCH_PER[units]
    if units == "cm":
        return decimal_text(Exact((there * 10 + Exact(1, 2)).floor(), 10))
    return fraction_text(Exact((there * 8 + Exact(1, 2)).floor(), 8))
