"""Where cloth does not suffice: pieces larger than it, and sheets that are too few; and where much is taken for a piece
that is too long to lie across. Each is a warning, since the plan is made for the rest."""

from __future__ import annotations

from dataclasses import replace
from typing import Literal

from piecewright.dataclass import dataclass
from piecewright.exact import Exact
from piecewright.kernel.build import Build, Fabric, Piece
from piecewright.kernel.demand import cuttings, wanted
from piecewright.plan.cutlist import CutRow, cut_rows
from piecewright.plan.dies import rough_rows
from piecewright.plan.needs import TooLarge, across_instead, asking
from piecewright.plan.rounding import cut_size, given_size
from piecewright.plan.strip_text import pieces_text, sheet_name, sheets_text
from piecewright.plan.words import listed
from piecewright.plan.yardage import CUTS, ClothCut, cut_cloth, fabric_rows, lacking


@dataclass(frozen=True, slots=True, kw_only=True)
class Shortage:
    """A finding: its code and words, and its place, either a `line` of the text called `file`, from 1, or the
    characters `start` to `end` of it."""

    code: str
    message: str
    hint: str
    file: str
    line: int = 0
    start: int = 0
    end: int = 0
    severity: Literal["warning", "note"] = "warning"


def shortages(build: Build, *, cuts: int = CUTS) -> tuple[Shortage, ...]:
    """Everything that there is not cloth enough for, in the order of the fabrics."""
    rows = cut_rows(build, cuttings(build, wanted(build)))
    found: list[Shortage] = []
    for fabric, own in fabric_rows(build, rough_rows(build, rows)):
        for index, large in asking(own, fabric, build.settings).too_large:
            found.append(_too_large(build, fabric, dict(own)[index], rows[index], large))
        for index, row in own:
            joined = across_instead(row, fabric, build.settings)
            if joined is not None:
                found.append(_only_along(build, fabric, row, rows[index], joined))
        if not fabric.assorted and fabric.sold is not None and fabric.sold.step is None:
            cut = cut_cloth(own, fabric, build.settings, cuts=cuts)
            if cut.plan.missing:
                found.append(_too_few(cut, own, cuts))
    return tuple(found)


def _only_along(build: Build, fabric: Fabric, row: CutRow, cut: CutRow, joined: Exact) -> Shortage:
    """A narrow piece that is no strip of a border and takes its whole length of cloth."""
    settings = build.settings
    width, height = cut_size(row.width, settings).shown, cut_size(row.height, settings).shown
    wide, takes = given_size(fabric.usable, settings).shown, cut_size(max(row.width, row.height), settings).shown
    file, line = cut_at(build, cut)
    return Shortage(
        code="W525",
        message=f"the {row.shape} {width} by {height} of `{fabric.name}` is longer than the cloth is wide, {wide}; it"
        f" is one piece, and takes {takes} of cloth along the selvage, where joined strips would take"
        f" {cut_size(joined, settings).shown}",
        hint="a `border`, a `sash` and a `strip` that is `subcut` are joined from strips across the cloth; if one piece"
        " is meant, let a unit begin with it and end that line in `, lengthwise`",
        file=file,
        line=line,
    )


def _too_large(build: Build, fabric: Fabric, row: CutRow, cut: CutRow, large: TooLarge) -> Shortage:
    """`row`: as cloth is cut for it; `cut`: as it stands in the cut list."""
    settings = build.settings
    width, height = cut_size(row.width, settings).shown, cut_size(row.height, settings).shown
    piece = f"the {row.shape} {width if row.shape == 'square' else f'{width} by {height}'} of `{fabric.name}`"
    wide = given_size(fabric.usable, settings).shown
    file, line = cut_at(build, cut)
    if large == "as it lies":
        return Shortage(
            code="W509",
            message=f"{piece} is wider than the cloth, {wide}, and its direction does not let it turn; it is one piece,"
            " and there is no cloth for it",
            hint="make it of parts, or of a fabric without a direction, where it may lie along the selvage",
            file=file,
            line=line,
        )
    sold = fabric.sold or settings.sold
    cloth = f"the cloth, {wide} wide, both ways"
    hint = "make it of parts, or say how wide the cloth is: `usable 108`"
    if sold.step is None and sold.down is not None:
        cloth = f"a {sold.name}, {wide} by {given_size(sold.down, settings).shown}, both ways"
        hint = "make it of parts, or buy by the length"
    if row.angle is not None:
        cloth = f"the cloth, {wide} wide, as it is cut from a strip across it"
    return Shortage(
        code="W509",
        message=f"{piece} is larger than {cloth}, so that no one piece of cloth gives it",
        hint=hint,
        file=file,
        line=line,
    )


def _too_few(cut: ClothCut, own: list[tuple[int, CutRow]], cuts: int) -> Shortage:
    rows, fabric, sold = dict(own), cut.fabric, cut.sold
    name = sheet_name(cut, "sheet", 0)
    what = listed([pieces_text(rows[index], count, cut.settings) for index, count in lacking(cut)])
    more = cut_cloth(own, replace(fabric, sold=replace(sold, only=None)), cut.settings, cuts=cuts)
    if more.plan.missing or sold.only is None:
        message = f"no {name} of `{fabric.name}` is large enough for {what}"
        hint = "cut smaller pieces, or buy by the length"
    else:
        there = sheets_text(sold.only, name)
        message = f"of only {there} of `{fabric.name}`, {what} cannot be cut; the plan is for the rest"
        hint = f"{sheets_text(more.bought.floor(), name)} would do: `only {more.bought.floor()}`"
    file, start, end = fabric.at
    return Shortage(code="W510", message=message, hint=hint, file=file, start=start, end=end)


def cut_at(build: Build, row: CutRow) -> tuple[str, int]:
    """File and line of the step that cuts such a piece."""
    sides = _sides(row.width, row.height)
    keys = {key for key, _ in row.units}
    for made in build.made:
        for step in made.steps if keys & {made.key, made.whole} else ():
            for supply in step.supplies:
                piece = supply.source
                if (
                    isinstance(piece, Piece)
                    and piece.fabric == row.fabric
                    and piece.width is not None
                    and _sides(piece.width, piece.height) == sides
                ):
                    return step.file, step.line
    made = next(one for one in build.made if keys & {one.key, one.whole})
    return made.file, made.line


def _sides(one: Exact, other: Exact) -> tuple[Exact, Exact]:
    return (one, other) if one < other else (other, one)
