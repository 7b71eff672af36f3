"""Dies that are of no use to a pattern: larger than its cloth, or of a size that nothing in it has. And pieces that a
die would cut if the cloth were large enough for their rough pieces, which are cut with a ruler instead."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from piecewright.exact import Exact
from piecewright.kernel.build import Build, Cutter, Die, Fabric, Settings
from piecewright.kernel.demand import cuttings, wanted
from piecewright.kernel.slanted import triangle_base
from piecewright.plan.cutlist import CutRow, cut_rows
from piecewright.plan.dies import box, cloths, die_for, dies_of_shape, rough_lies
from piecewright.plan.rounding import cut_size, given_size
from piecewright.plan.shortage import Shortage, cut_at
from piecewright.plan.words import listed, shape_size
from piecewright.plan.yardage import fabric_rows


def useless_dies(build: Build) -> tuple[Shortage, ...]:
    """What is found of the dies on hand: those larger than all cloth, pieces whose cloth is too small, and dies that
    cut nothing; of a shelf of dies that is told only where none of them cuts anything."""
    settings = build.settings
    cutter = settings.cutter
    rows = cut_rows(build, cuttings(build, wanted(build)))
    if cutter is None or not cutter.dies or not rows:
        return ()
    found: list[Shortage] = []
    own = list(fabric_rows(build, rows))
    large = [
        die
        for die in cutter.dies
        if not any(rough_lies(_row(die), die, fabric, settings) for fabric, _ in own)
    ]  # fmt: skip
    found += [_too_large(die, cutter, [fabric for fabric, _ in own], settings) for die in large]
    used: set[Die] = set()
    for fabric, parts in own:
        for _, row in parts:
            die = die_for(row, fabric, settings)
            if die is not None:
                used.add(die)
            else:
                found += _by_ruler(build, row, fabric, cutter, large)
    idle = [die for die in cutter.dies if die not in used and die not in large]
    if idle and (not cutter.on_hand or not used):
        found.append(_idle(idle, cutter, settings))
    return tuple(found)


def _row(die: Die) -> CutRow:
    """A row that the die would cut, of no fabric."""
    width, height = die.width, die.height
    if die.shape == "strip":
        height = Exact(0)
    elif die.shape == "triangle" and die.angle is not None:
        width = triangle_base(height, die.angle)
    return CutRow(
        fabric="", shape=die.shape, width=width, height=height, reversed=False, units=(), angle=die.angle
    )


def _too_large(die: Die, cutter: Cutter, fabrics: list[Fabric], settings: Settings) -> Shortage:
    """`fabrics` are those of the pattern; the widest is told."""
    fabric = max(fabrics, key=lambda one: one.usable)
    rough = sorted(side + cutter.leeway * 2 for side in box(_row(die)))
    told = [cut_size(side, settings).shown for side in rough]
    size, wide = (f"{told[0]} by {told[1]}", rough[0]) if die.shape != "strip" else (f"{told[1]} wide", rough[1])
    name, start, end = die.at
    return Shortage(
        code="W535",
        message=f"with its leeway this die takes cloth {size}, and no cloth of this pattern is so large:"
        f" `{fabric.name}` is {_cloth(fabric, settings)}",
        hint=f"take the die out, or say how wide the cloth is: `usable {cut_size(wide, settings).ruler}`",
        file=name,
        start=start,
        end=end,
    )


def _by_ruler(
    build: Build, row: CutRow, fabric: Fabric, cutter: Cutter, large: list[Die]
) -> Iterator[Shortage]:
    """A piece whose cloth is large enough for it, but not with the leeway of the die that would cut it. Of dies too
    `large` for any cloth that is told already."""
    settings = build.settings
    bare = replace(settings, cutter=replace(cutter, leeway=Exact(0)))
    dies = [die for die in dies_of_shape(row, settings) if die not in large]
    if not any(rough_lies(row, die, fabric, bare) is not None for die in dies):
        return
    width, height = (cut_size(side + cutter.leeway * 2, settings).shown for side in box(row))
    file, line = cut_at(build, row)
    yield Shortage(
        code="W536",
        message=f"the {_named(row, settings)} of `{fabric.name}` would take a rough piece {width} by {height} for its"
        f" die, and the cloth is {_cloth(fabric, settings)}: it is cut with a ruler",
        hint="a smaller `leeway`, or a larger cloth, would give it to the die",
        file=file,
        line=line,
    )


def _idle(dies: list[Die], cutter: Cutter, settings: Settings) -> Shortage:
    name, start, end = cutter.at
    if len(dies) == len(cutter.dies):
        message = "none of these dies cuts a piece of this pattern"
    else:
        told = listed([f"`{_written(die, settings)}`" for die in dies])
        message = f"{told} {'cuts' if len(dies) == 1 else 'cut'} no piece of this pattern"
    hint = "a die cuts the pieces that are just as large as it, seams and all"
    if not cutter.on_hand:
        hint += "; take out what is not used, or keep your dies in a file for `--cutter`"
    return Shortage(code="W537", message=message, hint=hint, file=name, start=start, end=end, severity="note")


def _named(row: CutRow, settings: Settings) -> str:
    width, height = cut_size(row.width, settings).shown, cut_size(row.height, settings).shown
    return f"{row.shape} {width if row.shape == 'strip' else shape_size(row.shape, width, height, row.angle)}"


def _written(die: Die, settings: Settings) -> str:
    """The die as a pattern says it: `parallelogram 4 by 2 1/2 at 45`."""
    sizes = (die.width, die.height) if die.shape in ("rectangle", "parallelogram", "trapezoid") else (die.width,)
    size = " by ".join(given_size(side, settings).ruler for side in sizes)
    return f"{die.shape} {size}" + ("" if die.angle is None else f" at {die.angle}")


def _cloth(fabric: Fabric, settings: Settings) -> str:
    """How large the cloth is that is bought: `40 wide`, `20 by 18`."""
    across, down = cloths(fabric, settings)[0]
    wide = given_size(across, settings).shown
    return f"{wide} wide" if down is None else f"{wide} by {given_size(down, settings).shown}"
