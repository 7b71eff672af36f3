"""What cloth is cut with: the line `cutter rotary` or `cutter press`, and the dies under it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import cast

from piecewright.diagnostics.model import Label
from piecewright.evaluate.report import Problem, Report
from piecewright.evaluate.shown import shown
from piecewright.exact import INCH_PER, Exact
from piecewright.kernel.build import Cutter, CutterKind, Die, Units
from piecewright.kernel.errors import SewingError
from piecewright.kernel.slanted import diamond, parallelogram, trapezoid, triangle
from piecewright.source import Span
from piecewright.syntax.ast import File, Item, Line, Name, Number, Phrase, Row

SAY = "write `cutter rotary, layers 4` or `cutter press, layers 6, leeway 1/4`, with its dies under it"
SAY_DIE = "write `die square 2 1/2`, `die rectangle 2 1/2 by 4 1/2` or `die diamond 2 1/2 at 45`"
LAYERS = {"rotary": 4, "press": 6}  # at a time, at most: common practice, no source
MOST_LAYERS = 12
LEEWAY = {"inch": Exact(1, 4), "cm": Exact(6, 10) * INCH_PER["cm"], "mm": Exact(6) * INCH_PER["mm"]}
"""How much larger on every side cloth is cut for a die: common practice, no source."""
MOST_LEEWAY = {"inch": Exact(1), "cm": Exact(25) * INCH_PER["mm"], "mm": Exact(25) * INCH_PER["mm"]}
"""More than that on every side is a slip: no die needs so much to lie within its cloth."""
SIZES = {
    "square": 1, "rectangle": 2, "strip": 1, "triangle": 1, "diamond": 1, "parallelogram": 2, "trapezoid": 2
}  # fmt: skip
SLANTED: dict[str, Callable[..., object]] = {
    "triangle": triangle, "diamond": diamond, "parallelogram": parallelogram, "trapezoid": trapezoid
}  # fmt: skip


def cutter_of(
    file: File, units: Units, seam: Exact, report: Report, *, wanted: bool = False
) -> tuple[Cutter | None, Exact | None]:
    """The cutter that a file says, and the ruler's mark that goes with it; None where it says none, which is a mistake
    where one is `wanted`. What is wrong is reported."""
    found: tuple[Cutter, Exact | None] | None = None
    for line in file.lines:
        items = line.sentence.step.parts[0].members[0].items
        if not (isinstance(items[0], Name) and items[0].text == "cutter"):
            continue
        try:
            if found is not None:
                raise Problem("E207", "a file has one cutter", line.span)
            found = _cutter(line, units, seam, report)
        except Problem as problem:
            report.problem(problem)
    if found is None and wanted and not report.failed:
        start = Span(file.source, 0, len(file.source.text.split("\n", 1)[0]))
        report.problem(Problem("E212", "this does not say what the cloth is cut with", start, SAY))
    if found is not None and wanted:
        found = replace(found[0], on_hand=True), found[1]
    return found or (None, None)


def _cutter(line: Line, units: Units, seam: Exact, report: Report) -> tuple[Cutter, Exact | None]:
    step = line.sentence.step
    items = step.parts[0].members[0].items
    word = items[1].text if len(items) == 2 and isinstance(items[1], Name) else ""
    if word not in LAYERS or len(step.parts) > 1 or len(step.parts[0].members) > 1:
        raise Problem("E212", "this does not say what the cloth is cut with", step.span, SAY)
    kind = cast(CutterKind, word)
    layers, leeway, mark = LAYERS[kind], LEEWAY[units] if kind == "press" else Exact(0), None
    seen: set[str] = set()
    for clause in line.sentence.clauses:
        name, value = _clause(clause)
        if name in seen:
            raise Problem("E207", f"`{name}` is said twice", clause.span)
        seen.add(name)
        if name == "layers":
            if value.unit is not None or value.value != value.value.floor() or not 1 <= value.value <= MOST_LAYERS:
                raise Problem(
                    "E214", f"cloth is cut in 1 to {MOST_LAYERS} layers", value.span, f"write `layers {LAYERS[kind]}`"
                )
            layers = value.value.floor()
        elif name == "leeway" and kind == "press":
            leeway = _leeway(value, units)
        elif name == "ruler":
            mark = _length(value, units)
            if not mark:
                raise Problem("E304", "a ruler has marks that are apart", value.span)
        else:
            raise Problem("E213", f"a {kind} cutter has no `{name}`", clause.span, SAY)
    dies: dict[tuple[object, ...], tuple[Die, Span]] = {}
    for child in line.children:
        try:
            if kind != "press":
                raise Problem("E219", "only a press has dies", child.span, "write `cutter press`")
            die = _die(child, units, seam)
            alike = die.shape, die.width, die.height, die.angle
            if alike in dies:
                first = Label(span=dies[alike][1], text="the same die")
                raise Problem("E351", "this die stands here twice", child.span, "name each die once", first)
            dies[alike] = die, child.span
        except Problem as problem:
            report.problem(problem)
    return Cutter(
        kind=kind, layers=layers, leeway=leeway, dies=tuple(die for die, _ in dies.values()), at=_at(step.span)
    ), mark


def _at(span: Span) -> tuple[str, int, int]:
    return span.source.name, span.start, span.end


def _leeway(value: Number, units: Units) -> Exact:
    """The leeway that is said. It is more than nothing, since a fold at the edge of a die is not cut open."""
    length, most = _length(value, units), MOST_LEEWAY[units]
    usual = f"common practice is `leeway {shown(LEEWAY[units], units)}`"
    if not length:
        raise Problem("E350", "without leeway the folds lie at the die's edge and are not cut open", value.span, usual)
    if length > most:
        said = f"a leeway of {value.span.text} on every side is more than {shown(most, units)}, and most of it waste"
        raise Problem("E350", said, value.span, usual)
    return length


def _clause(clause: Phrase) -> tuple[str, Number]:
    items = clause.parts[0].members[0].items
    if len(clause.parts) == 1 and len(clause.parts[0].members) == 1 and len(items) == 2:
        name, value = items
        if isinstance(name, Name) and isinstance(value, Number):
            return name.text, value
    raise Problem("E213", f"`{clause.span.text}` is no clause of a cutter", clause.span, SAY)


def _length(value: Number, units: Units) -> Exact:
    return value.value * INCH_PER[value.unit or units]


def _die(line: Line | Row, units: Units, seam: Exact) -> Die:
    """`die square 2 1/2`: the size is that of the piece that the die cuts, seams and all."""
    if isinstance(line, Row) or line.children or line.sentence.clauses:
        raise Problem("E212", "this is no die", line.span, SAY_DIE)
    step = line.sentence.step
    lead = step.parts[0].members[0].items
    shape = lead[1].text if len(lead) == 3 and isinstance(lead[1], Name) else ""
    if not (isinstance(lead[0], Name) and lead[0].text == "die") or shape not in SIZES:
        raise Problem("E212", "this is no die", step.span, SAY_DIE)
    rest = {part.word.text: part.members[0].items for part in step.parts[1:] if part.word is not None}
    wanted = {"by"} if SIZES[shape] == 2 else set()
    wanted |= {"at"} if shape in SLANTED else set()
    if set(rest) != wanted or any(len(items) != 1 for items in rest.values()):
        raise Problem("E212", f"this does not say the size of a {shape} die", step.span, SAY_DIE)
    sizes = [_number(lead[2], step.span), *(_number(rest[word][0], step.span) for word in ("by",) if word in rest)]
    lengths = [_length(size, units) for size in sizes]
    for size, length in zip(sizes, lengths, strict=True):
        if length <= seam * 2:
            raise Problem(
                "E342",
                f"a die of {size.span.text} is no larger than two seams, so that nothing of its piece would be seen",
                size.span,
                "a die is named by the size that it cuts, seams and all",
            )
    across, down = lengths[0], lengths[-1]
    angle = _angle(_number(rest["at"][0], step.span), shape, lengths, seam) if "at" in rest else None
    if shape == "rectangle":
        across, down = (down, across) if down < across else (across, down)
        shape = "square" if across == down else shape
    return Die(shape=shape, width=across, height=down, angle=angle, at=_at(line.span))


def _angle(said: Number, shape: str, lengths: list[Exact], seam: Exact) -> int:
    """The angle of a die, where a piece can be cut so."""
    try:
        if said.unit is not None or said.value != said.value.floor():
            raise SewingError("angle-outside")
        SLANTED[shape](*lengths, said.value.floor(), fabric="", allowance=seam)
    except SewingError as error:
        if error.kind.startswith("angle-"):
            message, hint = f"no piece is cut at {said.span.text} degrees", "an angle is 15, 30, 45, 60 or 75"
        elif error.kind == "no-short-side":
            message = "its slanted sides meet below its top, so that this is no trapezoid"
            hint = "make it longer or lower, or write `die triangle`"
        else:
            message = f"the seams take all of this {shape}, so that nothing of its piece would be seen"
            hint = "a die is named by the size that it cuts, seams and all"
        raise Problem("E352", message, said.span, hint) from error
    return said.value.floor()


def _number(item: Item, span: Span) -> Number:
    if not isinstance(item, Number):
        raise Problem("E212", "a die has a size in numbers", span, SAY_DIE)
    return item
