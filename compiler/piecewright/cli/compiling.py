"""`check` and `build`, once it is known what was asked for."""

from __future__ import annotations

import os
import sys
from collections.abc import Iterable, Sequence
from pathlib import Path

from piecewright import __version__, pipeline
from piecewright.cli import said
from piecewright.cli.said import SURROUNDINGS, Misused
from piecewright.diagnostics.model import Diagnostic
from piecewright.pipeline import AS_WRITTEN, Cutting

KINDS = ("rotary", "press")


def build(
    files: Sequence[str],
    output: str | None = None,
    to: str | None = None,
    assignments: Sequence[str] = (),
    cutting: Cutting = AS_WRITTEN,
) -> None:
    """Compile each file and write its folder, or one format to the terminal. May end the process; Misused when the
    words do not go together, before anything is done."""
    formats = _formats(to)
    settings = _settings(assignments)
    names = said.names(files)
    if output == "-":
        _build_to_stream(names, formats, settings, cutting)
        return
    folders = _folders(names, output)
    worst = 0
    for name, folder in zip(names, folders, strict=True):
        contents = said.typed_in(name)
        made = pipeline.build(name, folder, to=formats, settings=settings, contents=contents, cutting=cutting)
        said.show(made.diagnostics)
        worst = max(worst, said.code(made.diagnostics))
        if made.written:
            said.say(f"wrote {said.summary(folder, made.written)}\n")
    sys.exit(worst)


def check(files: Sequence[str], form: str = "human", *, strict: bool = False, cutting: Cutting = AS_WRITTEN) -> None:
    """Say what is wrong with each file. Ends the process; Misused as for `build`."""
    found: list[Diagnostic] = []
    for name in said.names(files):
        found.extend(pipeline.check_file(name, contents=said.typed_in(name), cutting=cutting))
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


def cutting_of(cuts: str, kits: int, cutter: str | None) -> Cutting:
    """What `--cuts`, `--kits` and `--cutter` ask for. `cutter` is a kind, or a file with a line `cutter …`; a file that
    cannot be read ends the process."""
    text = ""
    if cutter in KINDS:
        text = f"cutter {cutter}"
    elif cutter is not None:
        try:
            with open(cutter, encoding="utf-8-sig") as file:
                text = file.read()
        except (OSError, ValueError) as error:
            reason = pipeline.why(error) if isinstance(error, OSError) else "it is no text in UTF-8"
            kinds = " or ".join(KINDS)
            said.stop(f"the cutter {cutter} cannot be read: {reason}; or name a kind, {kinds}", SURROUNDINGS)
        text = (text.strip() and text) or "#"
    return Cutting(cuts=int(cuts), kits=kits, cutter=text)


def _formats(to: str | None) -> tuple[str, ...]:
    if to is None:
        return pipeline.FORMATS
    asked = [one.strip() for one in to.split(",")]
    for one in asked:
        if one not in pipeline.FORMATS:
            near = said.near(one, pipeline.FORMATS)
            hint = f"did you mean {near}?" if near else f"there are {', '.join(pipeline.FORMATS)}"
            raise Misused(f"there is no format “{one}”; {hint}")
    return tuple(one for one in pipeline.FORMATS if one in asked)


def _settings(assignments: Iterable[str]) -> dict[str, str]:
    settings: dict[str, str] = {}
    for one in assignments:
        name, mark, value = (part.strip() for part in one.partition("="))
        if not (name and mark and value):
            raise Misused(f"--set {one}: write a name, = and a value, such as --set seam=3/8")
        if name in settings:
            raise Misused(f"--set gives {name} twice")
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
            raise Misused(
                f"{other} and {name} would both be built into {folder}; build them one by one with -o"
            )
    return folders


def _build_to_stream(names: Sequence[str], formats: Sequence[str], settings: dict[str, str], cutting: Cutting) -> None:
    if len(names) != 1 or len(formats) != 1:
        raise Misused("-o - takes one FILE and one format, such as --to html")
    if formats[0] == "svg":
        raise Misused("svg is a file for each figure; name a folder with -o")
    contents = said.typed_in(names[0])
    made, files = pipeline.emitted(names[0], to=formats, settings=settings, contents=contents, cutting=cutting)
    said.show(made.diagnostics)
    for _, text in files[:1]:  # the others go with it: drawings beside the page, the cutting beside the cut list
        said.give(text)
    sys.exit(said.code(made.diagnostics))
