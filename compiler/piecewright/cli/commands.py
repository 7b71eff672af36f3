"""The commands and their options, as click reads them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING

import click

from piecewright import __version__, pipeline
from piecewright.cli import compiling, said
from piecewright.cli.arrange import arrange
from piecewright.cli.beds import beds
from piecewright.cli.said import FOUND, STOPPED, SURROUNDINGS

if TYPE_CHECKING:
    from piecewright.evaluate.catalogue import Entry


CUTS = click.option(
    "--cuts",
    type=click.Choice(["2", "3"]),
    default="3",
    show_default=True,
    help="How cloth is cut: 2 keeps to strips and sub-cuts, 3 also stacks pieces in a strip where that saves cloth.",
)

CUTTER = click.option(
    "--cutter", metavar="CUTTER", help="Cut with this: rotary, press, or a FILE with a line such as cutter press."
)


@contextmanager
def _misuse() -> Iterator[None]:
    try:
        yield
    except said.Misused as error:
        raise click.UsageError(str(error)) from None


@click.group(context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(__version__, message="piecewright %(version)s")
def cli() -> None:
    """Turn a quilt pattern written as plain text into figures, a cut list and instructions."""


@cli.command()
@click.argument("file", metavar="FILE")
def new(file: str) -> None:
    """Write a first pattern, with remarks, to start from.

    FILE gets the ending .piece if it has none. A file that is there already stays as it is.
    """
    from importlib.resources import files  # here, because only this command needs it

    path = Path(file if Path(file).suffix else f"{file}.piece")
    text = files("piecewright").joinpath("starter.piece").read_text(encoding="utf-8")
    try:
        with open(path, "x", encoding="utf-8", newline="\n") as out:
            out.write(text)
    except FileExistsError:
        said.stop(f"{path} is there already and was left as it is; choose another name", SURROUNDINGS)
    except OSError as error:
        said.stop(f"{path} cannot be written: {pipeline.why(error).replace('reading', 'writing')}", SURROUNDINGS)
    said.say(f"wrote {path}\nnext: piecewright build {said.quoted(str(path))}\n")


@cli.command()
@click.argument("files", metavar="FILE...", nargs=-1, required=True)
@click.option(
    "-o", "output", metavar="DIR", help="Put the result here, not in build/NAME; with several FILEs, in DIR/NAME."
)
@click.option("--to", "to", metavar="LIST", help="Only these of html, md, svg, csv, json, with commas between them.")
@click.option(
    "--set",
    "assignments",
    metavar="NAME=VALUE",
    multiple=True,
    help="Use VALUE for a name or a setting of the pattern.",
)
@CUTS
@CUTTER
@click.option("--kits", type=click.IntRange(1, 1000), default=1, metavar="N", help="Plan cutting N kits at once, too.")
def build(
    files: tuple[str, ...],
    output: str | None,
    to: str | None,
    assignments: tuple[str, ...],
    cuts: str,
    cutter: str | None,
    kits: int,
) -> None:
    """Compile patterns and write what is needed to sew them.

    FILE may be - for a pattern typed or piped in. With -o - the one format named with --to goes to
    the terminal or into a pipe.
    """
    with _misuse():
        compiling.build(files, output, to, assignments, compiling.cutting_of(cuts, kits, cutter))


@cli.command()
@click.argument("files", metavar="FILE...", nargs=-1, required=True)
@click.option(
    "--format",
    "form",
    type=click.Choice(["human", "short", "json", "sarif"]),
    default="human",
    show_default=True,
    help="How findings are shown: to people, one line each, or to programs.",
)
@click.option("--strict", is_flag=True, help="Let warnings count as findings.")
@CUTS
@CUTTER
def check(files: tuple[str, ...], form: str, strict: bool, cuts: str, cutter: str | None) -> None:
    """Say what is wrong with patterns, writing nothing.

    FILE may be - for a pattern typed or piped in.
    """
    with _misuse():
        compiling.check(files, form, strict=strict, cutting=compiling.cutting_of(cuts, 1, cutter))


@cli.command()
@click.argument("code", metavar="CODE")
def explain(code: str) -> None:
    """Say what a code such as E301 means.

    With an example of it, and how to mend that.
    """
    from piecewright.diagnostics.codes import CODES
    from piecewright.diagnostics.explain import explain as page_of

    page = page_of(code)
    if page is None:
        near = said.near(code, [known.lower() for known in CODES])
        raise click.UsageError(f"there is no code {code}" + (f"; did you mean {near.upper()}?" if near else ""))
    said.give(page)


@cli.command()
@click.argument("words", metavar="[WORD]...", nargs=-1)
@click.option("--to", "to", type=click.Choice(["html"]), help="Draw it as a page.")
@click.option("-o", "output", metavar="FILE", help="Put the page here, not in build/library.html; - for the terminal.")
def library(words: tuple[str, ...], to: str | None, output: str | None) -> None:
    """List the units and blocks that every pattern may use.

    With WORDs, only those that have all of them in their name, another name that the trade has for them, or their
    description.
    """
    from piecewright.evaluate.catalogue import found  # here, because only this command needs it

    if output is not None and to is None:
        raise click.UsageError("-o goes with --to html")
    entries = found(words)
    if not entries:
        from piecewright.evaluate.library import index  # here, because only this command needs it
        from piecewright.evaluate.other_names import meant

        near, _ = meant(words[-1], index()) or ("", ())
        said.stop(
            f"the library has nothing with {' and '.join(f'“{w}”' for w in words)}"
            + (f"; did you mean {near}?" if near else ""),
            FOUND,
        )
    if to is None:
        said.give(_listed(entries))
        return
    page = pipeline.library_page(words)
    if output == "-":
        said.give(page)
        return
    path = Path(output) if output is not None else Path("build") / "library.html"
    try:
        pipeline.write(path.parent, [(path.name, page)])
    except OSError as error:
        said.stop(f"{path} cannot be written: {pipeline.why(error).replace('reading', 'writing')}", SURROUNDINGS)
    said.say(f"wrote {path}\n")


cli.add_command(arrange)
cli.add_command(beds)


def _listed(entries: Sequence[Entry]) -> str:
    """The entries as text: each on a line with what it is handed, and its description under it."""
    lines: list[str] = []
    group = ""
    for entry in entries:
        if entry.group != group:
            group = entry.group
            lines += ["", group] if lines else [group]
        lines += [f"  {entry.heading(name)}" for name in entry.parts or (entry.name,)]
        lines.append(f"      {entry.title}")
        if entry.also:
            lines.append(f"      {entry.also}")
    return "\n".join(lines) + "\n"


def run(arguments: Sequence[str]) -> int:
    """Do what the arguments say, with the exit code; most commands end the process themselves."""
    try:
        code = cli.main(arguments, prog_name="piecewright", standalone_mode=False)
    except click.ClickException as error:
        error.show()
        return error.exit_code
    except click.Abort:
        said.stop("stopped; an earlier result is left as it was", STOPPED)
    return code if isinstance(code, int) else 0
