"""`piecewright arrange`."""

from __future__ import annotations

import re
import sys
from pathlib import Path

import click

from piecewright import pipeline
from piecewright.cli.said import FOUND, SURROUNDINGS, code, give, names, say, show, stop, typed_in

LARGEST_TABLE = 12


@click.command()
@click.argument("file", metavar="FILE")
@click.argument("blocks", metavar="BLOCK...", nargs=-1, required=True)
@click.option("--table", metavar="ACROSSxDOWN", default="2x2", show_default=True, help="How many blocks a repeat has.")
@click.option("--reversed", "reversed_too", is_flag=True, help="Let blocks also be made reversed.")
@click.option("--mirrors-apart", "mirrors_apart", is_flag=True, help="Count a table and its mirror image as two.")
@click.option(
    "--repeating", is_flag=True, help="Count as one what repeats to the same pattern, wherever the repeat begins."
)
@click.option(
    "--symmetry",
    type=click.Choice(["quarter-turn", "half-turn", "mirror", "diagonal-mirror", "none"]),
    help="Only arrangements that are alike after this, or after nothing.",
)
@click.option("--seams-meet", "meet", is_flag=True, help="Only arrangements in which all seams meet.")
@click.option("--to", "to", metavar="LIST", default="html,svg", show_default=True, help="What to draw: html, svg.")
@click.option("-o", "output", metavar="DIR", help="Put the result here, not in build/NAME.")
def arrange(
    file: str,
    blocks: tuple[str, ...],
    table: str,
    reversed_too: bool,
    mirrors_apart: bool,
    repeating: bool,
    symmetry: str | None,
    meet: bool,
    to: str,
    output: str | None,
) -> None:
    """Draw every way to arrange a block on a table, to choose by looking.

    BLOCK is a block of FILE or of the library, written as in a pattern; with several, all of one size, each cell may
    be any of them: piecewright arrange mat.piece "pinwheel(sand, dusk)" "pinwheel(dusk, sand)" --table 2x2
    A number before a block asks for so many of it on the table: "3 of pinwheel(sand, dusk)" "pinwheel(dusk, sand)".
    """
    from piecewright.plan.arrange.sheet import CannotArrange  # here, because only this command needs it

    columns, rows = _table(table)
    formats = [one.strip() for one in to.split(",")]
    for one in formats:
        if one not in ("html", "svg"):
            raise click.UsageError(f"there is no drawing as “{one}”; there are html and svg")
    asked = [_asked(block) for block in blocks]
    (name,) = names((file,))
    try:
        sheet, found = pipeline.arrangements(
            name,
            [block for _, block in asked],
            rows=rows,
            columns=columns,
            numbers=[number for number, _ in asked],
            mirrors_apart=mirrors_apart,
            repeating=repeating,
            reversed_too=reversed_too,
            symmetry=symmetry or "",
            meet=meet,
            contents=typed_in(name),
        )
    except CannotArrange as reason:
        stop(str(reason), FOUND)
    show(found)
    if sheet is None:
        sys.exit(code(found))
    from piecewright.emit.arrangements import counted  # here, as above

    give(counted(sheet) + "\n")
    folder = Path(output) if output is not None else pipeline.default_output(name)
    try:
        pipeline.write(folder, pipeline.arrangement_files(sheet, formats))
    except OSError as error:
        stop(f"{folder} cannot be written: {pipeline.why(error).replace('reading', 'writing')}", SURROUNDINGS)
    say(f"wrote {folder}: {', '.join(f'arrangements.{one}' for one in ('html', 'svg') if one in formats)}\n")


def _asked(text: str) -> tuple[int | None, str]:
    """A block as it is written, with the number before it: `3 of pinwheel(sand, dusk)`."""
    numbered = re.fullmatch(r"\s*(\d+)\s+of\s+(.+)", text, re.DOTALL)
    if numbered is None:
        return None, text
    if not int(numbered[1]):
        raise click.UsageError(f"{text}: none of a block needs no word; leave it out")
    return int(numbered[1]), numbered[2]


def _table(text: str) -> tuple[int, int]:
    """Across and down, as 2x2 or 3×4."""
    across, mark, down = text.lower().replace("×", "x").partition("x")
    if not (mark and across.strip().isdecimal() and down.strip().isdecimal()):
        raise click.UsageError(f"--table {text}: write how many blocks across and down, such as 2x2")
    columns, rows = int(across), int(down)
    if not 1 <= columns <= LARGEST_TABLE or not 1 <= rows <= LARGEST_TABLE:
        raise click.UsageError(f"--table {text}: a repeat has from 1 to {LARGEST_TABLE} blocks each way")
    return columns, rows
