"""What the command is told and says: files named on the line, findings to people, data to programs."""

from __future__ import annotations

import os
import sys
from collections.abc import Callable, Iterable, Sequence
from pathlib import Path
from typing import IO, NoReturn

from piecewright.diagnostics.model import Diagnostic

FOUND, USAGE, SURROUNDINGS, OUR_FAULT, STOPPED = 1, 2, 3, 4, 130
STREAM = "<stdin>"


class Misused(Exception):
    """Words of the command that do not go together."""


def names(files: Sequence[str]) -> list[str]:
    if files.count("-") > 1:
        raise Misused("- can stand for only one FILE")
    return [STREAM if file == "-" else file for file in files]


def typed_in(name: str) -> bytes | None:
    return sys.stdin.buffer.read() if name == STREAM else None


def near(word: str, known: Sequence[str]) -> str | None:
    from piecewright.diagnostics.nearest import nearest  # only on the way to an error

    return nearest(word, known)


def code(found: Iterable[Diagnostic], *, strict: bool = False) -> int:
    """The exit code: what stands in the way of a file outranks what is wrong in one."""
    worst = 0
    for one in found:
        if one.severity == "error" and one.code.startswith("E9"):
            return SURROUNDINGS
        if one.severity == "error" or (strict and one.severity == "warning"):
            worst = FOUND
    return worst


def show(found: Sequence[Diagnostic]) -> None:
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
    say(human(found, colour=stream.isatty() and not dull, typed=typed))


def summary(folder: Path, written: Sequence[str]) -> str:
    figures = sum(path.endswith(".svg") for path in written)
    parts = [Path(path).name for path in written if not path.endswith(".svg")]
    if figures:
        parts.append(f"{figures} figure{'' if figures == 1 else 's'}")
    return f"{folder}: {', '.join(parts)}"


def quoted(text: str) -> str:
    return f'"{text}"' if " " in text else text


def say(text: str) -> None:
    """Something for people, to stderr."""

    def write() -> None:
        if "\x1b" in text:
            from click import echo  # here, because only it knows how every terminal is coloured, and it is slow to load

            echo(text, err=True, nl=False)
        else:
            sys.stderr.write(text)
            sys.stderr.flush()

    put(write, sys.stderr)


def give(text: str) -> None:
    """Data, to stdout: always UTF-8 and `\\n`, whatever the terminal is set to. A file's name may hold what is
    no character, which is spelled out; in a string of JSON that is an escape."""

    def write() -> None:
        sys.stdout.flush()
        sys.stdout.buffer.write(text.encode(errors="backslashreplace"))
        sys.stdout.buffer.flush()

    put(write, sys.stdout)


def put(write: Callable[[], None], stream: IO[str]) -> None:
    """A reader that went away (`| head`) is no error of ours: the rest is thrown away."""
    try:
        write()
    except BrokenPipeError:
        os.dup2(os.open(os.devnull, os.O_WRONLY), stream.fileno())


def stop(message: str, code: int) -> NoReturn:
    say(f"{message}\n")
    sys.exit(code)
