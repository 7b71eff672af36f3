"""The command `piecewright`.

Diagnostics go to stderr and data to stdout. It ends with 0 if all is well, 1 if something was found, 2 if the
command was not understood, 3 if a file or the computer stood in the way, 4 if the fault is ours.
"""

from __future__ import annotations

import gc
import os
import sys
from collections.abc import Callable, Iterable, Sequence
from pathlib import Path
from typing import IO, TYPE_CHECKING, NoReturn

import click

from piecewright import __version__, pipeline
from piecewright.diagnostics.model import Diagnostic

if TYPE_CHECKING:
    from piecewright.evaluate.catalogue import Entry

FOUND, USAGE, SURROUNDINGS, OUR_FAULT, STOPPED = 1, 2, 3, 4, 130
STREAM = "<stdin>"


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
        _stop(f"{path} is there already and was left as it is; choose another name", SURROUNDINGS)
    except OSError as error:
        _stop(f"{path} cannot be written: {pipeline.why(error).replace('reading', 'writing')}", SURROUNDINGS)
    _say(f"wrote {path}\nnext: piecewright build {_quoted(str(path))}\n")


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
def build(files: tuple[str, ...], output: str | None, to: str | None, assignments: tuple[str, ...]) -> None:
    """Compile patterns and write what is needed to sew them.

    FILE may be - for a pattern typed or piped in. With -o - the one format named with --to goes to
    the terminal or into a pipe.
    """
    formats = _formats(to)
    settings = _settings(assignments)
    names = _names(files)
    if output == "-":
        _build_to_stream(names, formats, settings)
        return
    folders = _folders(names, output)
    worst = 0
    for name, folder in zip(names, folders, strict=True):
        contents = _typed_in(name)
        made = pipeline.build(name, folder, to=formats, settings=settings, contents=contents)
        _show(made.diagnostics)
        worst = max(worst, _code(made.diagnostics))
        if made.written:
            _say(f"wrote {_summary(folder, made.written)}\n")
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
def check(files: tuple[str, ...], form: str, strict: bool) -> None:
    """Say what is wrong with patterns, writing nothing.

    FILE may be - for a pattern typed or piped in.
    """
    found: list[Diagnostic] = []
    for name in _names(files):
        found.extend(pipeline.check_file(name, contents=_typed_in(name)))
    if form == "json":
        from piecewright.diagnostics.report import report  # here, because json is slow to load

        _give(report(found))
    elif form == "sarif":
        from piecewright.diagnostics.sarif import sarif  # here, because json is slow to load

        _give(sarif(found, version=__version__))
    elif form == "short":
        from piecewright.diagnostics.render import short  # here, because a clean pattern needs no rendering

        _say(short(found))
    elif found:
        _show(found)
    else:
        _say(f"{', '.join(files)}: nothing to mend\n")
    sys.exit(_code(found, strict=strict))


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
        near = _near(code, [known.lower() for known in CODES])
        raise click.UsageError(f"there is no code {code}" + (f"; did you mean {near.upper()}?" if near else ""))
    _give(page)


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

        near = _near(words[-1].lower(), tuple(index()))
        _stop(
            f"the library has nothing with {' and '.join(f'“{w}”' for w in words)}"
            + (f"; did you mean {near}?" if near else ""),
            FOUND,
        )
    if to is None:
        _give(_listed(entries))
        return
    page = pipeline.library_page(words)
    if output == "-":
        _give(page)
        return
    path = Path(output) if output is not None else Path("build") / "library.html"
    try:
        pipeline.write(path.parent, [(path.name, page)])
    except OSError as error:
        _stop(f"{path} cannot be written: {pipeline.why(error).replace('reading', 'writing')}", SURROUNDINGS)
    _say(f"wrote {path}\n")


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


def _names(files: Sequence[str]) -> list[str]:
    if files.count("-") > 1:
        raise click.UsageError("- can stand for only one FILE")
    return [STREAM if file == "-" else file for file in files]


def _typed_in(name: str) -> bytes | None:
    return sys.stdin.buffer.read() if name == STREAM else None


def _formats(to: str | None) -> tuple[str, ...]:
    if to is None:
        return pipeline.FORMATS
    asked = [one.strip() for one in to.split(",")]
    for one in asked:
        if one not in pipeline.FORMATS:
            near = _near(one, pipeline.FORMATS)
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


def _build_to_stream(names: Sequence[str], formats: Sequence[str], settings: dict[str, str]) -> None:
    if len(names) != 1 or len(formats) != 1:
        raise click.UsageError("-o - takes one FILE and one format, such as --to html")
    if formats[0] == "svg":
        raise click.UsageError("svg is a file for each figure; name a folder with -o")
    made, files = pipeline.emitted(names[0], to=formats, settings=settings, contents=_typed_in(names[0]))
    _show(made.diagnostics)
    for path, text in files:
        if not path.startswith("figures/"):
            _give(text)
    sys.exit(_code(made.diagnostics))


def _near(word: str, known: Sequence[str]) -> str | None:
    from piecewright.diagnostics.nearest import nearest  # only on the way to an error

    return nearest(word, known)


# ── what is said ────────────────────────────────────────────────────────────────────────────────


def _code(found: Iterable[Diagnostic], *, strict: bool = False) -> int:
    """The exit code: what stands in the way of a file outranks what is wrong in one."""
    worst = 0
    for one in found:
        if one.severity == "error" and one.code.startswith("E9"):
            return SURROUNDINGS
        if one.severity == "error" or (strict and one.severity == "warning"):
            worst = FOUND
    return worst


def _show(found: Sequence[Diagnostic]) -> None:
    if not found:
        return
    from piecewright.diagnostics.render import human  # here, because a clean pattern needs no rendering

    stream = sys.stderr
    dull = os.environ.get("NO_COLOR") or os.environ.get("TERM") == "dumb"  # no-color.org: unless empty
    try:
        "━╌⋮".encode(stream.encoding or "ascii")
    except UnicodeEncodeError:
        typed = True
    else:
        typed = False
    _say(human(found, colour=stream.isatty() and not dull, typed=typed))


def _summary(folder: Path, written: Sequence[str]) -> str:
    figures = sum(path.endswith(".svg") for path in written)
    parts = [Path(path).name for path in written if not path.endswith(".svg")]
    if figures:
        parts.append(f"{figures} figure{'' if figures == 1 else 's'}")
    return f"{folder}: {', '.join(parts)}"


def _quoted(text: str) -> str:
    return f'"{text}"' if " " in text else text


def _say(text: str) -> None:
    """Something for people, to stderr."""
    _put(lambda: click.echo(text, err=True, nl=False), sys.stderr)


def _give(text: str) -> None:
    """Data, to stdout: always UTF-8 and `\\n`, whatever the terminal is set to. A file's name may hold what is
    no character, which is spelled out; in a string of JSON that is an escape."""
    _put(lambda: click.echo(text.encode(errors="backslashreplace"), nl=False), sys.stdout)


def _put(write: Callable[[], None], stream: IO[str]) -> None:
    """A reader that went away (`| head`) is no error of ours: the rest is thrown away."""
    try:
        write()
    except BrokenPipeError:
        os.dup2(os.open(os.devnull, os.O_WRONLY), stream.fileno())


def _stop(message: str, code: int) -> NoReturn:
    _say(f"{message}\n")
    sys.exit(code)


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
        _stop("stopped; an earlier result is left as it was", STOPPED)
    except Exception as error:
        if os.environ.get("PIECEWRIGHT_DEBUG"):
            from traceback import print_exc  # here, because only a fault of ours needs it

            print_exc()
        _stop(
            f"sorry, this is a fault of Piecewright {__version__}, not of your pattern: please report it with the "
            f"pattern file and these words: {type(error).__name__}: {error} (PIECEWRIGHT_DEBUG=1 shows where it was)",
            OUR_FAULT,
        )
    finally:
        if collecting:
            gc.enable()
    sys.exit(code if isinstance(code, int) else 0)
