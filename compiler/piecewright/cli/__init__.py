"""The command `piecewright`.

Diagnostics go to stderr and data to stdout. It ends with 0 if all is well, 1 if something was found, 2 if the
command was not understood, 3 if a file or the computer stood in the way, 4 if the fault is ours.
"""

from __future__ import annotations

import gc
import os
import sys
from collections.abc import Callable, Sequence
from typing import NoReturn

from piecewright import __version__
from piecewright.cli import compiling, said
from piecewright.cli.said import OUR_FAULT, STOPPED


def main(arguments: Sequence[str] | None = None) -> NoReturn:
    """Run the command; always ends the process."""
    words = list(sys.argv[1:] if arguments is None else arguments)
    collecting = gc.isenabled()
    gc.disable()  # a command is short and leaves few circles; looking for them took a tenth of its time
    code = 0
    try:
        try:
            plain = _plain(words)
            if plain is not None:
                plain()
            else:
                code = _run(words)
        except said.Misused:
            code = _run(words)  # which says so, and how the command is used
    except KeyboardInterrupt:
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
    sys.exit(code)


def _run(words: Sequence[str]) -> int:
    from piecewright.cli.commands import run  # here, because click takes longer to load than a check needs

    return run(words)


def _plain(words: Sequence[str]) -> Callable[[], None] | None:
    """What `check FILE...` and `build FILE... [-o DIR]` mean, which need no click; None for all other words."""
    if len(words) < 2 or os.name == "nt" or "_PIECEWRIGHT_COMPLETE" in os.environ:
        return None  # click knows the wildcards of Windows, and how a shell is answered
    command, *rest = words
    output: str | None = None
    if command == "build" and "-o" in rest[:-1]:
        at = rest.index("-o")
        output = rest[at + 1]
        del rest[at : at + 2]
    dashed = any(word.startswith("-") for word in (*rest, output or ""))
    if dashed or not rest or command not in ("check", "build"):
        return None
    if command == "check":
        return lambda: compiling.check(rest)
    return lambda: compiling.build(rest, output)
