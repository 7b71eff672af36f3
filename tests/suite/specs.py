"""Literate specs: patterns in Markdown with what is to come of them.

A `piece` block is a pattern by itself. A remark `# error: E301` (or `# warning: W501`) at the end of a line
says that this is found on that line; everything found must be said, so a block without remarks is clean.
A block with a file name, ```` ```piece shapes.piece ````, is a file that the next pattern may use. An `expect`
block after a pattern holds lines about what it makes or finds:

    lantern(dusk, glow) is 8 by 8
    half-framed(dusk, glow) gives 2
    band(dusk, sand) gives 16 segments
    framed(dusk, glow) takes 2 rectangle 2 1/4 by 5 1/2 of glow
    lantern(dusk, glow) is wanted 4 times
    lantern(light, dark) is wanted 0 times
    E301 at `on right`: the edges do not match …

Sizes are in the pattern's units; a message may end in `…`, which stands for any rest; hints stand as `mend: …`.
"""

from __future__ import annotations

import re
from pathlib import Path
from typing import NamedTuple

from piecewright.diagnostics.model import Diagnostic
from piecewright.evaluate.run import evaluate
from piecewright.evaluate.shown import plain
from piecewright.kernel.build import Build, Made, Piece, Settings
from piecewright.kernel.measure import height, width
from piecewright.source import Source, Span
from piecewright.syntax.ast import File
from piecewright.syntax.parse import parse

FENCE = re.compile(r"^```(piece|expect)(?: (\S+))?\n(.*?)^```$", re.MULTILINE | re.DOTALL)
REMARK = re.compile(r"# (?:error|warning): ([EW]\d{3})$")


class Spec(NamedTuple):
    """One pattern of a page: the heading it stands under, its text, the files it may use, what is expected."""

    name: str
    text: str
    files: dict[str, str]
    expected: tuple[str, ...]


def specs(path: Path) -> list[Spec]:
    """The patterns of a page."""
    page = path.read_text(encoding="utf-8")
    found: list[Spec] = []
    files: dict[str, str] = {}
    for match in FENCE.finditer(page):
        kind, name, text = match.groups()
        headings = re.findall(r"^#+ (.+)$", page[: match.start()], re.MULTILINE)
        if kind == "expect":
            found[-1] = found[-1]._replace(expected=tuple(text.splitlines()))
        elif name:
            files[name] = text
        else:
            found.append(Spec(f"{path.stem}: {headings[-1]}", text, files, ()))
            files = {}
    return found


def run(spec: Spec) -> tuple[Build | None, tuple[Diagnostic, ...]]:
    """The pattern evaluated."""
    file, slips = parse(Source("pattern.piece", spec.text))
    if file is None:
        return None, slips
    parsed: dict[str, File] = {}

    def load(name: str, span: Span) -> File | tuple[Diagnostic, ...]:
        if name not in parsed:
            used, wrong = parse(Source(name, spec.files[name]))
            if used is None or wrong:
                return wrong
            parsed[name] = used
        return parsed[name]

    build, found = evaluate(file, load)
    return build, (*slips, *found)


Mark = tuple[str, int, str]


def marked(spec: Spec) -> list[Mark]:
    """File, line and code of each finding that the remarks of a pattern announce."""
    return sorted(
        (name, number, match.group(1))
        for name, text in {**spec.files, "pattern.piece": spec.text}.items()
        for number, line in enumerate(text.splitlines(), 1)
        for match in [REMARK.search(line)]
        if match
    )


def marks(found: tuple[Diagnostic, ...]) -> list[Mark]:
    """File, line and code of each finding. What is only unwise at the cutting mat (W502 and on) is no matter here."""
    return sorted(
        (one.span.source.name, one.span.line, one.code)
        for one in found
        if one.severity == "error" or one.code == "W501"
    )


def holds(line: str, build: Build | None, found: tuple[Diagnostic, ...]) -> bool:
    """Whether one line of an `expect` block is true."""
    if line.startswith("mend: "):
        return any(_same(line.removeprefix("mend: "), one.hint or "") for one in found)
    if re.match(r"[EW]\d{3} ", line):
        return any(_same(line, f"{one.code} at `{one.span.text}`: {one.message}") for one in found)
    assert build is not None, line
    key, verb, rest = _parts(line)
    if verb == "is wanted":
        assert len({one.key for one in build.demands}) == len(build.demands)
        return f"{sum(one.count for one in build.demands if one.key == key)} times" == rest
    made = {one.key: one for one in build.made}.get(key)
    if made is None:
        return False
    if verb == "is":
        return (
            rest
            == f"{plain(width(made.unit), build.settings.units)} by {plain(height(made.unit), build.settings.units)}"
        )
    if verb == "gives":
        return rest == (f"{made.segments} segments" if made.segments is not None else str(made.copies))
    return rest in _taken(made, build.settings)


def _parts(line: str) -> tuple[str, str, str]:
    for verb in ("is wanted", "is", "gives", "takes"):
        key, found, rest = line.partition(f" {verb} ")
        if found:
            return key, verb, rest
    raise AssertionError(f"this is no expectation: {line}")


def _taken(made: Made, settings: Settings) -> list[str]:
    found: list[str] = []
    for supply in made.supplies:
        source = supply.source
        if isinstance(source, Piece):
            across = "" if source.width is None else f"{plain(source.width, settings.units)} by "
            size = across + plain(source.height, settings.units)
            size += f" at {source.angle}" if source.angle is not None else ""
            source = f"{'reversed ' if source.reversed else ''}{source.shape} {size} of {source.fabric}"
        found.append(f"{supply.count} {source}")
    return found


def _same(pattern: str, text: str) -> bool:
    return text.startswith(pattern.removesuffix("…")) if pattern.endswith("…") else text == pattern
