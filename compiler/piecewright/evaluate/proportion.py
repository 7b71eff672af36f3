"""Sizes of the heading and of fabrics out of all proportion: to one another, to the pieces, or to any cloth."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import TYPE_CHECKING

from piecewright.evaluate.report import Problem, Report
from piecewright.evaluate.shown import cloth, shown
from piecewright.exact import INCH_PER, Exact
from piecewright.kernel.build import Fabric, Made, Piece, Settings, Units
from piecewright.source import Span
from piecewright.syntax.ast import File, Line, Name

if TYPE_CHECKING:
    from piecewright.evaluate.scope import Scope

# What is hardly ever gone beyond, in inches: common practice, no source.
WIDEST_SEAM = Exact(1)
WIDEST_CLOTH = Exact(150)
LONGEST_BOUGHT = Exact(360)  # ten yards: a margin, a step that cloth is sold in, a sheet


def check_heading(file: File, settings: Settings, overrides: Mapping[str, str], report: Report) -> None:
    """Reports what is out of proportion in the heading."""
    seam, tolerance, units = settings.seam, settings.tolerance, settings.units
    if tolerance > seam:
        report.problem(
            Problem(
                "E224",
                f"the tolerance, {shown(tolerance, units)}, is larger than the seam allowance of {shown(seam, units)},"
                " so that edges would be joined that miss by more than a seam",
                _setting(file, "tolerance", overrides),
                f"a tolerance is what can be eased in, a thread or two: write `tolerance {_eased(units)}`",
            )
        )
    if seam > WIDEST_SEAM:
        _unusual(report, f"a seam allowance of {shown(seam, units)}", _setting(file, "seam", overrides), _seam(units))
    if settings.usable > WIDEST_CLOTH:
        span = _setting(file, "usable", overrides)
        _unusual(report, f"cloth {shown(settings.usable, units)} wide", span, _width(units))
    if settings.sold.step is not None and settings.sold.step > LONGEST_BOUGHT:
        span = _setting(file, "sold", overrides)
        _unusual(report, f"cloth sold in steps of {shown(settings.sold.step, units)}", span, _step(units))


def check_fabrics(scope: Scope, settings: Settings, report: Report) -> None:
    """Reports the fabrics of a file whose width, sheets or margin no cloth has."""
    units = settings.units
    for name, fabric in scope.names.items():
        if not isinstance(fabric, Fabric):
            continue
        span, sold = scope.spans[name], fabric.sold
        if fabric.usable > WIDEST_CLOTH and fabric.usable != settings.usable:
            _unusual(report, f"cloth {shown(fabric.usable, units)} wide", span, _width(units))
        if fabric.margin > LONGEST_BOUGHT:
            said = f"a margin of {shown(fabric.margin, units)} bought beyond what is cut"
            _unusual(report, said, span, "a margin is a few inches, or a part: write `margin 5 percent`")
        if sold is None or sold == settings.sold:
            continue
        if sold.step is not None and sold.step > LONGEST_BOUGHT:
            _unusual(report, f"cloth sold in steps of {shown(sold.step, units)}", span, _step(units))
        if sold.down is not None and sold.down > LONGEST_BOUGHT:
            _unusual(report, f"a sheet {shown(sold.down, units)} long", span, _step(units))


def check_ruler(
    file: File,
    cutter: File | None,
    made: Iterable[Made],
    settings: Settings,
    overrides: Mapping[str, str],
    report: Report,
) -> None:
    """Reports a ruler with marks farther apart than a piece that is cut by it is wide; `cutter` is the file that says
    what is cut with in place of the pattern."""
    small = [
        (min(piece.height, piece.width or piece.height), piece)
        for one in made
        for piece in (supply.source for supply in one.supplies)
        if isinstance(piece, Piece) and piece.radius is None
    ]
    if not small:
        return
    least, piece = min(small, key=lambda one: one[0])
    if settings.ruler > least:
        report.problem(
            Problem(
                "E226",
                f"the ruler's marks lie {shown(settings.ruler, settings.units)} apart, farther than the"
                f" {cloth(piece, settings.units)} is wide, which could not be cut by it",
                _setting(cutter, "ruler", {}, file) if cutter is not None else _setting(file, "ruler", overrides),
                f"the setting `ruler` is the finest mark: write `ruler {_mark(settings.units)}`",
            )
        )


def _unusual(report: Report, what: str, span: Span, hint: str) -> None:
    report.add("W512", "warning", f"{what} is far beyond what is usual", span, hint)


def _setting(file: File, name: str, overrides: Mapping[str, str], other: File | None = None) -> Span:
    """Where a setting is written; the first line of the file, or of the other, where it comes from elsewhere."""
    if name not in overrides:
        heading = [child for line in file.lines if _word(line) == "pattern" for child in line.children]
        for child in heading:
            if isinstance(child, Line) and _word(child) == name:
                return child.span
        for line in file.lines:
            for clause in line.sentence.clauses if _word(line) == "cutter" else ():
                if clause.span.text.split()[:1] == [name]:
                    return clause.span
    return _setting(other, name, overrides) if other is not None else start_of(file)


def start_of(file: File) -> Span:
    """The first line of a file, for what stands nowhere in it."""
    return Span(file.source, 0, len(file.source.text.split("\n", 1)[0]))


def _word(line: Line) -> str:
    first = line.sentence.step.parts[0].members[0].items[0]
    return first.text if isinstance(first, Name) else ""


def _eased(units: Units) -> str:
    return "1/16" if units == "inch" else shown(INCH_PER["mm"], units)


def _mark(units: Units) -> str:
    return "1/8" if units == "inch" else shown(INCH_PER["mm"], units)


def _seam(units: Units) -> str:
    return "write `seam 1/4`" if units == "inch" else f"write `seam {shown(Exact(3, 4) * INCH_PER['cm'], units)}`"


def _width(units: Units) -> str:
    usual = "usable 42" if units == "inch" else f"usable {shown(110 * INCH_PER['cm'], units)}"
    return f"give the width of the cloth in the pattern's units, `{usual}`, or with its own, as in `usable 110 cm`"


def _step(units: Units) -> str:
    return "write `sold by 1/4 yard` or `sold by fat-quarter`" if units == "inch" else "write `sold by 10 cm`"
