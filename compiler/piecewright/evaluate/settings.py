"""The heading of a pattern and its fabrics."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Literal, cast

from piecewright.evaluate import buying
from piecewright.evaluate.bind import near
from piecewright.evaluate.colours import COLOURS
from piecewright.evaluate.cutters import cutter_of
from piecewright.evaluate.proportion import check_heading
from piecewright.evaluate.report import Problem, Report
from piecewright.exact import INCH_PER, BadSize, Exact, parse_size
from piecewright.kernel.build import Fabric, Scrap, Settings, Sold, Units
from piecewright.kernel.shade import value_of
from piecewright.source import Span
from piecewright.syntax.ast import File, Item, Line, Name, Number, Phrase, Row, Text

EDITION = "1"
UNITS: dict[str, Units] = {"inch": "inch", "cm": "cm", "mm": "mm"}
LENGTHS = ("seam", "ruler", "tolerance", "usable", "margin")
NAMES = ("edition", "seam", "units", "ruler", "tolerance", "usable", "margin", "sold", "press")
VALUES = ("light", "medium", "dark")
FABRIC_CLAUSES = ("colour", "value", "usable", "directional", "assorted", *buying.CLAUSES)

# The same in every unit but for the ruler and the seam: nobody's ruler in centimetres has marks at eighths of an inch.
DEFAULT = Settings(
    title="",
    edition=EDITION,
    seam=Exact(1, 4),
    units="inch",
    ruler=Exact(1, 8),
    tolerance=Exact(1, 16),
    usable=Exact(40),
    press="toward darker",
    margin=Exact(1),
)
METRIC_RULER = INCH_PER["mm"]
METRIC_SEAM = INCH_PER["cm"] * Exact(3, 4)
"""The published allowance of patterns in centimetres."""
METRIC_MARGIN = 3 * INCH_PER["cm"]
MAY_BE_NOTHING = ("tolerance", "margin")


def units_of(file: File) -> Units:
    """The units of a file's bare numbers; inches where its heading says nothing, or nothing sensible."""
    for line in file.lines:
        if _word(line) == "pattern":
            for child in line.children:
                if isinstance(child, Line) and _word(child) == "units":
                    items = child.sentence.step.parts[0].members[0].items
                    if len(items) == 2 and isinstance(items[1], Name):
                        return UNITS.get(items[1].text, "inch")
    return "inch"


def settings_of(
    file: File, overrides: Mapping[str, str], report: Report, cutter: File | None = None
) -> Settings:
    """The settings of a pattern, with its defaults; what is wrong is reported.

    `overrides` are settings written as in a pattern that take the place of the file's; `cutter` is a file whose line
    `cutter`, in the units of that file's heading, takes the place of this one's.
    """
    units = units_of(file)
    start = Span(file.source, 0, 0)
    other = overrides.get("units")
    if other is not None:
        if other not in UNITS:
            report.problem(_wrong("units", start, other))
        units = UNITS.get(other, units)
    found: dict[str, object] = {"units": units}
    if units != "inch":
        found |= {"ruler": METRIC_RULER, "seam": METRIC_SEAM, "margin": METRIC_MARGIN}
    for line in file.lines:
        if _word(line) == "pattern":
            try:
                _heading(line, units, found, report)
            except Problem as problem:
                report.problem(problem)
            break
    for name, text in overrides.items():
        if name in NAMES and name != "units":
            try:
                found[name] = _overridden(name, text, units, start)
            except Problem as problem:
                report.problem(problem)
    seam = cast(Exact, found.get("seam", DEFAULT.seam))
    own, ruler = cutter_of(file, units, seam, report)
    if cutter is not None:
        given, mark = cutter_of(cutter, units_of(cutter), seam, report, wanted=True)
        if own is None or given is None or given.dies or given.kind != own.kind:
            own, ruler = given, mark  # else only the kind was named, and the pattern says more of it
    if ruler is not None:
        found["ruler"] = ruler
    usable = cast(Exact, found.get("usable", DEFAULT.usable))
    if usable <= 2 * seam:
        lines = [one for line in file.lines if _word(line) == "pattern" for one in line.children]
        own_line = [one for one in lines if isinstance(one, Line) and _word(one) == "usable"]
        report.problem(buying.narrow(own_line[0].span if own_line and "usable" not in overrides else start))
        usable = DEFAULT.usable  # so that only this is told, once
    settings = Settings(
        title=cast(str, found.get("title", DEFAULT.title)),
        edition=cast(str, found.get("edition", DEFAULT.edition)),
        seam=seam,
        units=units,
        ruler=cast(Exact, found.get("ruler", DEFAULT.ruler)),
        tolerance=cast(Exact, found.get("tolerance", min(DEFAULT.tolerance, seam))),
        usable=usable,
        press=cast(str, found.get("press", DEFAULT.press)),
        sold=cast(Sold, found.get("sold", buying.default_sold(units))),
        cutter=own,
        margin=cast(Exact, found.get("margin", DEFAULT.margin)),
    )
    if not report.failed:
        check_heading(file, settings, overrides, report)
    return settings


def _word(line: Line) -> str:
    first = line.sentence.step.parts[0].members[0].items[0]
    return first.text if isinstance(first, Name) else ""


def _heading(line: Line, units: Units, found: dict[str, object], report: Report) -> None:
    items = line.sentence.step.parts[0].members[0].items
    seen: set[str] = set()
    for child in line.children:
        try:
            if isinstance(child, Row):
                raise Problem("E214", "a row is no setting", child.span)
            name = _word(child)
            value = _setting(child, name, units)
            if name in seen:
                raise Problem("E207", f"`{name}` is set twice", child.span)
            seen.add(name)
            found[name] = value
        except Problem as problem:
            report.problem(problem)
    title = items[1] if len(items) == 2 else None
    if not isinstance(title, Text) or line.sentence.clauses or len(line.sentence.step.parts) > 1:
        raise Problem("E212", "the heading is a text", line.sentence.step.span, 'write `pattern "My pattern"`')
    found["title"] = title.text


def _setting(line: Line, name: str, units: Units) -> object:
    step = line.sentence.step
    first = step.parts[0].members[0].items[0]
    if name not in NAMES:
        known = ", ".join(f"`{one}`" for one in NAMES)
        raise Problem(
            "E214", f"there is no setting `{first.span.text}`", first.span, near(name, NAMES) or f"there are {known}"
        )
    if line.children or line.sentence.clauses:
        over = line.children[0].span if line.children else line.sentence.clauses[0].span
        raise Problem("E214", f"the setting `{name}` takes one value", over)
    if name == "press":
        return _press(step)
    if name == "sold":
        return buying.length_of(step, units)
    items = step.parts[0].members[0].items
    if len(items) != 2 or len(step.parts) > 1 or len(step.parts[0].members) > 1:
        raise Problem("E214", f"the setting `{name}` takes one value", step.span, _example(name))
    return _value(name, items[1], units)


def _press(step: Phrase) -> str:
    words = " ".join(step.span.text.lower().split())
    if words == "press open":
        return "open"
    if words == "press toward darker":
        return "toward darker"
    raise Problem("E214", "a pattern is pressed open, or toward darker", step.span, _example("press"))


def _value(name: str, item: Item, units: Units) -> object:
    if name == "units":
        if isinstance(item, Name) and item.text in UNITS:
            return UNITS[item.text]
        raise _wrong(name, item.span, item.span.text)
    if name == "edition":
        if isinstance(item, Number) and item.value == 1 and item.unit is None:
            return EDITION
        raise Problem("E214", f"this compiler reads edition {EDITION} of the language", item.span, "write `edition 1`")
    if not isinstance(item, Number):
        raise _wrong(name, item.span, item.span.text)
    return _length(name, item.value * INCH_PER.get(item.unit or units, Exact(1)), item.span)


def _length(name: str, length: Exact, span: Span) -> Exact:
    if length < 0 or (not length and name not in MAY_BE_NOTHING):
        what = {"usable": "usable width", "ruler": "finest mark of the ruler"}.get(name, name)
        raise Problem("E304", f"the {what} is nothing", span, _example(name))
    return length


def _overridden(name: str, text: str, units: Units, span: Span) -> object:
    if name == "press":
        if text in ("open", "toward darker"):
            return text
        raise Problem("E214", f"a pattern is pressed open, or toward darker, not “{text}”", span)
    if name == "sold":
        return buying.sold_setting(text, units, span)
    if name == "edition":
        if text == EDITION:
            return EDITION
        raise Problem("E214", f"this compiler reads edition {EDITION} of the language, not “{text}”", span)
    try:
        value, unit = parse_size(text)
    except BadSize:
        raise _wrong(name, span, text) from None
    return _length(name, value * INCH_PER[unit or units], span)


def _wrong(name: str, span: Span, text: str) -> Problem:
    return Problem("E214", f"`{text}` is no value of the setting `{name}`", span, _example(name))


def _example(name: str) -> str:
    examples = {
        "edition": "edition 1", "seam": "seam 1/4", "units": "units inch`, `units cm` or `units mm",
        "ruler": "ruler 1/8", "tolerance": "tolerance 1/16", "usable": "usable 40",
        "margin": "margin 1", "press": "press open` or `press toward darker",
    }  # fmt: skip
    return f"write `{examples[name]}`"


def fabric_of(line: Line, units: Units, settings: Settings) -> tuple[Name, Fabric]:
    """A line `fabric NAME [TEXT]` with its clauses. Raises `Problem`."""
    step = line.sentence.step
    items = step.parts[0].members[0].items
    name = items[1] if len(items) > 1 else None
    text = items[2] if len(items) == 3 else None
    if (
        not isinstance(name, Name)
        or len(items) > 3
        or (text is not None and not isinstance(text, Text))
        or len(step.parts) > 1
        or len(step.parts[0].members) > 1
    ):
        raise Problem("E212", "this is no fabric", step.span, 'write `fabric sand "oat linen"`')
    if line.children:
        raise Problem("E219", "nothing can stand under `fabric`", line.children[0].span)
    found: dict[str, object] = {}
    for clause in line.sentence.clauses:
        word, value = _clause(clause, units)
        if word in buying.REPEATED:
            cast("list[object]", found.setdefault(word, [])).append(value)
            continue
        if word in found:
            raise Problem("E213", f"`{word}` is said twice", clause.span)
        found[word] = value
    colour = cast("str | None", found.get("colour"))
    value = cast("Literal['light', 'medium', 'dark'] | None", found.get("value"))
    width = cast(Exact, found.get("usable", settings.usable))
    bought = buying.bought(found, settings, width, line.span)
    return name, Fabric(
        name=name.text,
        text=text.text if isinstance(text, Text) else "",
        colour=colour,
        value=value or (value_of(colour) if colour else None),
        usable=cast(Exact, bought["usable"]),
        directional="directional" in found,
        assorted="assorted" in found,
        sold=cast(Sold, bought["sold"]),
        scraps=cast("tuple[Scrap, ...]", bought["scraps"]),
        shrinks=cast(Exact, bought["shrinks"]),
        margin=cast(Exact, bought["margin"]),
        margin_part=cast(Exact, bought["margin_part"]),
        lengthwise=cast(bool, bought["lengthwise"]),
        at=(line.span.source.name, step.span.start, step.span.end),
    )


def _clause(clause: Phrase, units: Units) -> tuple[str, object]:
    items = clause.parts[0].members[0].items
    first = items[0]
    word = first.text if isinstance(first, Name) else ""
    if word not in FABRIC_CLAUSES:
        known = ", ".join(f"`{one}`" for one in FABRIC_CLAUSES)
        hint = near(word, FABRIC_CLAUSES) or f"after a comma a fabric takes {known}"
        raise Problem("E213", f"a fabric has no clause `{first.span.text}`", first.span, hint)
    if word in buying.CLAUSES:
        return word, buying.clause_of(word, clause, units)
    wanted = 1 if word in ("directional", "assorted") else 2
    if len(items) != wanted or len(clause.parts) > 1:
        raise Problem("E212", f"`{word}` takes {'nothing' if wanted == 1 else 'one value'}", clause.span)
    if wanted == 1:
        return word, True
    value = items[1]
    if word == "colour":
        return word, _colour(value)
    if word == "value":
        if isinstance(value, Name) and value.text in VALUES:
            return word, value.text
        raise Problem("E214", f"`{value.span.text}` is no value of a fabric", value.span, "it is light, medium or dark")
    if not isinstance(value, Number):
        raise Problem("E214", f"`{value.span.text}` is no width", value.span, "write `usable 42`")
    return word, _length("usable", value.value * INCH_PER.get(value.unit or units, Exact(1)), value.span)


def _colour(item: Item) -> str:
    text = item.text.strip().lower() if isinstance(item, Name | Text) else ""
    named = COLOURS.get(text)
    if named:
        return named
    digits = text[1:]
    if text.startswith("#") and len(digits) in (3, 6) and all(c in "0123456789abcdef" for c in digits):
        return "#" + ("".join(c * 2 for c in digits) if len(digits) == 3 else digits)
    hint = near(text, tuple(COLOURS)) or 'write a colour by its name, as `gold`, or as `"#27355f"`'
    raise Problem("E214", f"`{item.span.text}` is no colour", item.span, hint)
