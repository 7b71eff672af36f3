"""From text to a plan, and from a plan to files.

    text ─ syntax ─▶ File ─ evaluate ─▶ Build ─ plan ─▶ Plan ─ emit ─▶ SVG, HTML, Markdown, CSV, JSON

Every stage gives its result and its diagnostics. This is what the command line and other programs call.
"""

from __future__ import annotations

import os
import re
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

from piecewright.dataclass import dataclass
from piecewright.diagnostics.model import Diagnostic, Label
from piecewright.evaluate.run import evaluate, evaluate_lines
from piecewright.evaluate.shown import measured
from piecewright.reading import Reader, read_disk, read_nothing
from piecewright.reading import why as why
from piecewright.source import Source, Span
from piecewright.syntax.ast import File, Line

if TYPE_CHECKING:
    from piecewright.kernel.build import Build
    from piecewright.plan.arrange.sheet import ArrangementSheet
    from piecewright.plan.model import Plan

FORMATS = ("html", "md", "svg", "csv", "json")
NO_SETTINGS: Mapping[str, str] = {}


@dataclass(frozen=True, slots=True, kw_only=True)
class Cutting:
    """How an edition of a pattern is cut. `cuts`: the most between the cloth and a piece, trims not counted: 2 keeps to
    strips and sub-cuts, 3 also cuts stacks apart. `kits`: for so many copies the cutting is planned at once, besides
    that for one. `cutter`: a text with a line `cutter …`, which takes the place of the pattern's, or empty."""

    cuts: int = 3
    kits: int = 1
    cutter: str = ""


AS_WRITTEN = Cutting()


@dataclass(frozen=True, slots=True, kw_only=True)
class Compiled:
    """What a text gave. `plan` is None when a diagnostic is an error; `written` are the files a build
    wrote, as paths from the folder it was called in."""

    plan: Plan | None
    diagnostics: tuple[Diagnostic, ...]
    written: tuple[str, ...] = ()

    @property
    def failed(self) -> bool:
        return has_errors(self.diagnostics)


def has_errors(diagnostics: Iterable[Diagnostic]) -> bool:
    return any(one.severity == "error" for one in diagnostics)


def compile_source(
    text: str,
    *,
    name: str = "<text>",
    settings: Mapping[str, str] = NO_SETTINGS,
    load: Callable[[str], str | bytes] | None = None,
    cutting: Cutting = AS_WRITTEN,
) -> Compiled:
    """Compile a text. Nothing is read from this computer's files.

    `settings` are values that take the place of a top-level `NAME is VALUE` or of a setting of the
    pattern, each written as in a pattern. `load` gives the contents of a file the text uses, by its name
    relative to `name`, or raises OSError; without it a text that uses another file is an error. `cutting`: how
    this edition is cut.
    """
    reader = Reader(load or read_nothing)
    return _planned(*_evaluated(reader, reader.main(name, text), settings, cutting), name, cutting)


def compile_file(
    path: str | os.PathLike[str], *, settings: Mapping[str, str] = NO_SETTINGS, cutting: Cutting = AS_WRITTEN
) -> Compiled:
    """Compile a pattern file and the files it uses. A file that cannot be read is a diagnostic."""
    name = os.fspath(path)
    reader = Reader(read_disk)
    return _planned(*_evaluated(reader, reader.main(name), settings, cutting), name, cutting)


def check_file(
    path: str,
    *,
    contents: bytes | None = None,
    settings: Mapping[str, str] = NO_SETTINGS,
    cutting: Cutting = AS_WRITTEN,
) -> tuple[Diagnostic, ...]:
    """The diagnostics of a pattern file alone, without a plan; `contents` where they are known already."""
    reader = Reader(read_disk)
    return _evaluated(reader, reader.main(path, contents), settings, cutting)[1]


def build(
    path: str | os.PathLike[str],
    output: str | os.PathLike[str] | None = None,
    *,
    to: Sequence[str] = FORMATS,
    settings: Mapping[str, str] = NO_SETTINGS,
    contents: bytes | None = None,
    cutting: Cutting = AS_WRITTEN,
) -> Compiled:
    """Compile a pattern file and write the formats `to` into the folder `output`, or `build/<stem>`.

    All files are written or none: an error in the pattern writes nothing, and one of the disk is a
    diagnostic (E902) that leaves an earlier build as it was. `settings` as for `compile_source`;
    `contents` stand for those of the file, where they are known already. ValueError for a format there is not.
    """
    name = os.fspath(path)
    folder = Path(output) if output is not None else default_output(name)
    compiled, files = emitted(name, to=to, settings=settings, contents=contents, cutting=cutting)
    if compiled.plan is None:
        return compiled
    try:
        write(folder, files)
    except OSError as error:
        return replace(compiled, plan=None, diagnostics=(*compiled.diagnostics, unwritten(folder, error)))
    return replace(compiled, written=tuple(str(folder / file) for file, _ in files))


def emitted(
    name: str,
    *,
    to: Sequence[str] = FORMATS,
    settings: Mapping[str, str] = NO_SETTINGS,
    contents: bytes | None = None,
    cutting: Cutting = AS_WRITTEN,
) -> tuple[Compiled, tuple[tuple[str, str], ...]]:
    """The files of a build, as relative path and text, without writing them; none if there are errors."""
    unknown = [one for one in to if one not in FORMATS]
    if unknown:
        raise ValueError(f"there is no format {unknown[0]!r}; there are {', '.join(FORMATS)}")
    reader = Reader(read_disk)
    compiled = _planned(*_evaluated(reader, reader.main(name, contents), settings, cutting), name, cutting)
    if compiled.plan is None:
        return compiled, ()
    from piecewright.emit import emit  # here, because jinja2 and svgwrite are slow to start and a check needs neither

    return compiled, emit(compiled.plan, tuple(one for one in FORMATS if one in to))


def library_page(words: tuple[str, ...] = ()) -> str:
    """The library, or what of it has all these words in its names or description, as one HTML page with pictures."""
    from piecewright.emit.catalogue import Sample, catalogue  # here, as in `emitted`
    from piecewright.evaluate.catalogue import found, sample  # here, because no pattern needs it

    samples: list[Sample] = []
    for entry in found(words):
        for name in entry.parts or (entry.name,):
            reader = Reader(read_nothing)
            made, diagnostics = _evaluated(reader, reader.main("<library>", sample(entry, name)), NO_SETTINGS)
            compiled = _planned(made, diagnostics, "<library>")
            if made is None or compiled.plan is None:
                raise RuntimeError(f"the library's {name} cannot be made: {diagnostics[0].message}")
            asked = next(unit for unit in compiled.plan.units if unit.asked)
            (unit,) = (one.unit for one in made.made if one.key == made.demands[0].key)
            samples.append(
                Sample(
                    group=entry.group,
                    name=name,
                    call=entry.call(name),
                    about=entry.about,
                    also=entry.also,
                    pieces=len(unit.patches),
                    unit=asked,
                    fabrics=compiled.plan.fabrics,
                )
            )
    return catalogue(samples)


def arrangements(
    name: str,
    calls: Sequence[str],
    *,
    rows: int,
    columns: int,
    numbers: Sequence[int | None] = (),
    mirrors_apart: bool = False,
    repeating: bool = False,
    reversed_too: bool = False,
    symmetry: str = "",
    meet: bool = False,
    settings: Mapping[str, str] = NO_SETTINGS,
    contents: bytes | None = None,
    cutting: Cutting = AS_WRITTEN,
) -> tuple[ArrangementSheet | None, tuple[Diagnostic, ...]]:
    """The arrangements of blocks of a pattern file, each called as in a pattern (`pinwheel(sand, dusk)`), on a table;
    see `piecewright.plan.arrange.sheet`. CannotArrange, of that module, where the blocks do not fit one table."""
    reader = Reader(read_disk)
    file, diagnostics = reader.main(name, contents)
    if file is None:
        return None, diagnostics
    lines: list[Line] = []
    for call in calls:
        asked, found = reader.main("<block>", f"make 1 of {call}")
        diagnostics = (*diagnostics, *found)
        lines += [one for one in asked.lines if isinstance(one, Line)] if asked is not None else []
    if not has_errors(diagnostics):
        made, more = evaluate_lines(file, reader.load, lines, settings)
        diagnostics = (*diagnostics, *reader.found, *more)
        if made is not None and not has_errors(diagnostics):
            from piecewright.plan.arrange.sheet import arrangement_sheet  # here, because no pattern needs it

            sheet = arrangement_sheet(
                made,
                [re.sub(r"\s*,\s*", ", ", " ".join(call.split())) for call in calls],
                rows=rows,
                columns=columns,
                numbers=numbers,
                mirrors_apart=mirrors_apart,
                repeating=repeating,
                reversed_too=reversed_too,
                symmetry=symmetry,
                meet=meet,
            )
            return sheet, diagnostics
    return None, diagnostics


def arrangement_files(sheet: ArrangementSheet, to: Sequence[str]) -> tuple[tuple[str, str], ...]:
    """A sheet of arrangements as files, of html and svg those asked for."""
    from piecewright.emit.arrangements import sheet_html, sheet_svg  # here, as in `emitted`

    files = (("arrangements.html", sheet_html), ("arrangements.svg", sheet_svg))
    return tuple((path, write_it(sheet)) for path, write_it in files if path.rpartition(".")[2] in to)


def default_output(name: str) -> Path:
    """Where a pattern file is built unless another folder is named."""
    return Path("build") / stem(name)


def stem(name: str) -> str:
    """A pattern file's name without folder and ending; a stream is called `pattern`."""
    return "pattern" if name.startswith("<") else Path(name).stem


def write(folder: Path, files: Sequence[tuple[str, str]]) -> None:
    """Write a build's files, and take away figures and sheets of an earlier build that this one no longer has.

    OSError, or whatever else stopped it, leaves the folder as it was.
    """
    from piecewright.output import write_all  # here, because a check writes nothing

    new = {path for path, _ in files}
    stale: list[str] = []
    if any(path.startswith("figures/") for path in new):
        for kind, mark in (("figures", ""), ("templates", ""), ("foundations", "-foundation")):
            there = folder / kind
            found = sorted(there.glob("*.svg")) if there.is_dir() else []
            stale += [f"{kind}/{one.name}" for one in found if _ours(one, mark)]
    write_all(folder, files, (path for path in stale if path not in new))


def _ours(figure: Path, mark: str) -> bool:
    """Whether a figure is one that we wrote: someone's own drawings in the folder stay. Ours are named by
    the title inside them."""
    try:
        with open(figure, "rb") as file:
            return f'aria-labelledby="fig-{figure.stem}{mark}-title"'.encode() in file.read(2048)
    except OSError:
        return False


def unwritten(folder: Path, error: OSError) -> Diagnostic:
    """E902, for a disk error that stopped the writing."""
    span = Span(Source(str(folder), ""), 0, 0)
    return Diagnostic(
        code="E902",
        severity="error",
        message=f"the result cannot be written: {why(error).replace('reading', 'writing')}",
        labels=(Label(span=span),),
        hint="an earlier build is left as it was; choose another folder with -o, or make room",
    )


def _evaluated(
    reader: Reader,
    main: tuple[File | None, tuple[Diagnostic, ...]],
    settings: Mapping[str, str],
    cutting: Cutting = AS_WRITTEN,
) -> tuple[Build | None, tuple[Diagnostic, ...]]:
    file, diagnostics = main
    if file is None:
        return None, diagnostics
    cutter, slips = reader.main("<cutter>", cutting.cutter) if cutting.cutter else (None, ())
    diagnostics = (*diagnostics, *slips)
    made, more = evaluate(file, reader.load, settings, cutter)  # the lines that could be read, so that all are checked
    diagnostics = (*diagnostics, *reader.found, *more)
    if made is None or has_errors(diagnostics):
        return None, diagnostics
    if _may_be_short(made):
        diagnostics = (*diagnostics, *_short(made, reader, file, cutting))
    return made, diagnostics


_SLANT = 8  # times its height: no piece at an angle takes more of a strip beyond its width


def _may_be_short(made: Build) -> bool:
    """Whether cloth may not suffice, which only a plan of it can tell; asked of every check, and so without one."""
    fabrics = {fabric.name: fabric for fabric in made.fabrics}
    if made.settings.cutter is not None and made.settings.cutter.dies:
        return True
    if any(fabric.sold is not None and fabric.sold.step is None for fabric in made.fabrics):
        return True
    cutter, seam = made.settings.cutter, made.settings.seam
    beyond = seam * 2 if cutter is None else seam * 2 + cutter.leeway * 2  # what a piece may be cut larger at most
    pieces = (supply.source for one in made.made for supply in one.supplies if not isinstance(supply.source, str))
    for piece in pieces:
        usable = fabrics[piece.fabric].usable
        if piece.width is None or piece.lengthwise:
            continue
        along = piece.width if piece.angle is None else piece.width + piece.height * _SLANT
        if max(along, piece.height, piece.radius or seam) + beyond > usable and not piece.joins:
            return True
    return False


def _short(made: Build, reader: Reader, file: File, cutting: Cutting) -> tuple[Diagnostic, ...]:
    """Where there is not cloth enough, or none large enough for a die; and dies that are of no use."""
    from piecewright.plan.shortage import shortages  # here, because few patterns need it
    from piecewright.plan.useless_dies import useless_dies

    found = []
    for one in (*shortages(made, cuts=cutting.cuts), *useless_dies(made)):
        source = reader.source(one.file) or file.source
        start, end = (one.start, one.end) if source.name == one.file else (0, 0)
        if one.line and source.name == one.file:
            start, end = source.line_span(one.line)
        label = Label(span=Span(source, start, end))
        found.append(
            Diagnostic(
                code=one.code,
                severity=one.severity,
                message=one.message,
                labels=(label,),
                hint=one.hint,
            )
        )
    return tuple(found)


def _planned(
    made: Build | None, diagnostics: tuple[Diagnostic, ...], name: str, cutting: Cutting = AS_WRITTEN
) -> Compiled:
    if made is None:
        return Compiled(plan=None, diagnostics=diagnostics)
    from piecewright.plan.make import plan  # here, because a check needs no plan
    from piecewright.plan.words import sentence, typographic

    units = made.settings.units
    warnings = [measured(one.message, units).replace("`", "") for one in diagnostics if one.severity == "warning"]
    return Compiled(
        plan=replace(
            _named_from(plan(made, most_cuts=cutting.cuts, kits=cutting.kits), os.path.dirname(name)),
            warnings=tuple(sentence(typographic(text)) for text in warnings),
        ),
        diagnostics=diagnostics,
    )


def _named_from(plan: Plan, folder: str) -> Plan:
    """The plan with its files named from the pattern's own folder, so that the same text gives the same
    bytes wherever it lies. The library's files (`<…>`) have no folder. What is no character in a name is
    spelled out, since everything is written as UTF-8."""

    def shown(file: str) -> str:
        if not file.startswith("<"):
            file = Path(os.path.relpath(file, folder or ".")).as_posix()
        return file.encode(errors="backslashreplace").decode()

    return replace(plan, units=tuple(replace(unit, file=shown(unit.file)) for unit in plan.units))
