"""The command `piecewright`.

Diagnostics go to stderr and data to stdout. It ends with 0 if all is well, 1 if something was found, 2 if the
command was not understood, 3 if a file or the computer stood in the way, 4 if the fault is ours.
"""

from __future__ import annotations

import gc
import os
import sys
from collections.abc import Iterable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, NoReturn

import click

from piecewright import __version__, pipeline
from piecewright.cli import said
from piecewright.cli.arrange import arrange
from piecewright.cli.beds import beds
from piecewright.cli.said import FOUND, OUR_FAULT, STOPPED, SURROUNDINGS
from piecewright.diagnostics.model import Diagnostic

if TYPE_CHECKING:
    from piecewright.evaluate.catalogue import Entry


CUTS = click.option(
    "--cuts",
    type=click.Choice(["2", "3"]),
    default="3",
    show_default=True,
    help="How cloth is cut: 2 keeps to strips and sub-cuts, 3 also stacks pieces in a strip where that saves cloth.",
)


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
def build(files: tuple[str, ...], output: str | None, to: str | None, assignments: tuple[str, ...], cuts: str) -> None:
    """Compile patterns and write what is needed to sew them.

    FILE may be - for a pattern typed or piped in. With -o - the one format named with --to goes to
    the terminal or into a pipe.
    """
    formats = _formats(to)
    settings = _settings(assignments)
    names = said.names(files)
    if output == "-":
        _build_to_stream(names, formats, settings, int(cuts))
        return
    folders = _folders(names, output)
    worst = 0
    for name, folder in zip(names, folders, strict=True):
        contents = said.typed_in(name)
        made = pipeline.build(name, folder, to=formats, settings=settings, contents=contents, cuts=int(cuts))
        said.show(made.diagnostics)
        worst = max(worst, said.code(made.diagnostics))
        if made.written:
            said.say(f"wrote {said.summary(folder, made.written)}\n")
    sys.exit(worst)


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
def check(files: tuple[str, ...], form: str, strict: bool, cuts: str) -> None:
    """Say what is wrong with patterns, writing nothing.

    FILE may be - for a pattern typed or piped in.
    """
    found: list[Diagnostic] = []
    for name in said.names(files):
        found.extend(pipeline.check_file(name, contents=said.typed_in(name), cuts=int(cuts)))
    if form == "json":
        from piecewright.diagnostics.report import report  # here, because json is slow to load

        said.give(report(found))
    elif form == "sarif":
        from piecewright.diagnostics.sarif import sarif  # here, because json is slow to load

        said.give(sarif(found, version=__version__))
    elif form == "short":
        from piecewright.diagnostics.render import short  # here, because a clean pattern needs no rendering

        said.say(short(found))
    elif found:
        said.show(found)
    else:
        said.say(f"{', '.join(files)}: nothing to mend\n")
    sys.exit(said.code(found, strict=strict))


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

    With WORDs, only those that have all of them in their name or description.
    """
    from piecewright.evaluate.catalogue import found  # here, because only this command needs it

    if output is not None and to is None:
        raise click.UsageError("-o goes with --to html")
    entries = found(words)
    if not entries:
        from piecewright.evaluate.library import index  # here, because only this command needs it

        near = said.near(words[-1].lower(), tuple(index()))
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
    return "\n".join(lines) + "\n"


# ── what was asked for ──────────────────────────────────────────────────────────────────────────


def _formats(to: str | None) -> tuple[str, ...]:
    if to is None:
        return pipeline.FORMATS
    asked = [one.strip() for one in to.split(",")]
    for one in asked:
        if one not in pipeline.FORMATS:
            near = said.near(one, pipeline.FORMATS)
            hint = f"did you mean {near}?" if near else f"there are {', '.join(pipeline.FORMATS)}"
            raise click.UsageError(f"there is no format “{one}”; {hint}")
    return tuple(one for one in pipeline.FORMATS if one in asked)


def _settings(assignments: Iterable[str]) -> dict[str, str]:
    settings: dict[str, str] = {}
    for one in assignments:
        name, mark, value = (part.strip() for part in one.partition("="))
        if not (name and mark and value):
            raise click.UsageError(f"--set {one}: write a name, = and a value, such as --set seam=3/8")
        if name in settings:
            raise click.UsageError(f"--set gives {name} twice")
        settings[name] = value
    return settings


def _folders(names: Sequence[str], output: str | None) -> list[Path]:
    if output is None:
        folders = [pipeline.default_output(name) for name in names]
    elif len(names) == 1:
        folders = [Path(output)]
    else:
        folders = [Path(output) / pipeline.stem(name) for name in names]
    taken: dict[str, str] = {}
    for name, folder in zip(names, folders, strict=True):
        other = taken.setdefault(os.path.normpath(folder), name)
        if other is not name:
            raise click.UsageError(
                f"{other} and {name} would both be built into {folder}; build them one by one with -o"
            )
    return folders


def _build_to_stream(names: Sequence[str], formats: Sequence[str], settings: dict[str, str], cuts: int) -> None:
    if len(names) != 1 or len(formats) != 1:
        raise click.UsageError("-o - takes one FILE and one format, such as --to html")
    if formats[0] == "svg":
        raise click.UsageError("svg is a file for each figure; name a folder with -o")
    contents = said.typed_in(names[0])
    made, files = pipeline.emitted(names[0], to=formats, settings=settings, contents=contents, cuts=cuts)
    said.show(made.diagnostics)
    for _, text in files[:1]:  # the others go with it: drawings beside the page, the cutting beside the cut list
        said.give(text)
    sys.exit(said.code(made.diagnostics))


def main(arguments: Sequence[str] | None = None) -> NoReturn:
    """Run the command; always ends the process."""
    collecting = gc.isenabled()
    gc.disable()  # a command is short and leaves few circles; looking for them took a tenth of its time
    try:
        code = cli.main(arguments, prog_name="piecewright", standalone_mode=False)
    except click.ClickException as error:
        error.show()
        sys.exit(error.exit_code)
    except (click.Abort, KeyboardInterrupt):
        said.stop("stopped; an earlier result is left as it was", STOPPED)
    except Exception as error:
        if os.environ.get("PIECEWRIGHT_DEBUG"):
            from traceback import print_exc  # here, because only a fault of ours needs it

            print_exc()
        said.stop(
            f"sorry, this is a fault of Piecewright {__version__}, not of your pattern: please report it with the "
            f"pattern file and these words: {type(error).__name__}: {error} (PIECEWRIGHT_DEBUG=1 shows where it was)",
            OUR_FAULT,
        )
    finally:
        if collecting:
            gc.enable()
    sys.exit(code if isinstance(code, int) else 0)
