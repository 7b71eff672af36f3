"""How a fabric is bought, what of it is on hand and how it is laid: clauses of `fabric`, and the setting `sold`."""

from __future__ import annotations

from collections.abc import Mapping
from typing import cast

from piecewright.evaluate.report import Problem
from piecewright.exact import INCH_PER, BadSize, Exact, parse_size
from piecewright.kernel.build import Scrap, Settings, Sold, Units
from piecewright.source import Span
from piecewright.syntax.ast import Item, Name, Number, Phrase

CLAUSES = ("sold", "have", "only", "shrinks", "margin", "lengthwise")
REPEATED = ("have",)
SHEETS = {"fat-quarter": Exact(1, 2), "fat-eighth": Exact(1, 4)}
"""Cuts that shops sell: half the width of the cloth, and so much of a yard (or of a metre) long."""

YARD = Exact(36)
METRE = 100 * INCH_PER["cm"]
MOST_SHRINKING = 25
SAY_SOLD = "write `sold by 1/4 yard`, `sold by 10 cm`, `sold by fat-quarter` or `sold in sheets 18 by 20`"
SAY_LENGTH = "write `sold by 1/4 yard` or `sold by 10 cm`"
SAY_HAVE = "write `have 2 of fat-quarter` or `have 3 of 9 by 21`"
SAY = {
    "only": "write `only 6`",
    "shrinks": "write `shrinks 3 percent`",
    "margin": "write `margin 4` or `margin 5 percent`",
}


def default_sold(units: Units) -> Sold:
    """By the eighth of a yard, or by 10 cm where the pattern is not in inches."""
    return Sold(step=YARD / 8, by="yard") if units == "inch" else Sold(step=METRE / 10, by="cm")


def clause_of(word: str, clause: Phrase, units: Units) -> object:
    """The value of a clause of this file. Raises `Problem`."""
    if word == "sold":
        return sold_of(clause, units)
    if word == "have":
        return _have(clause, units)
    items = _words(clause, word)
    if word == "lengthwise":
        if len(items) != 1:
            raise Problem("E212", "`lengthwise` takes nothing", clause.span)
        return True
    percent = len(items) == 3 and isinstance(items[2], Name) and items[2].text == "percent"
    if len(items) != 2 and not percent:
        raise Problem("E212", f"`{word}` takes one value", clause.span, SAY[word])
    value = items[1]
    if not isinstance(value, Number) or (percent and value.unit is not None):
        raise Problem("E214", f"`{value.span.text}` is no value of `{word}`", value.span, SAY[word])
    if word == "only":
        return _whole(value, SAY[word], allowed=not percent)
    if word == "shrinks":
        if not percent:
            raise Problem("E214", "what cloth shrinks is said in percent", clause.span, SAY[word])
        if value.value >= MOST_SHRINKING:
            raise Problem(
                "E214",
                f"cloth does not shrink by {value.span.text} percent; up to {MOST_SHRINKING} can be allowed for",
                value.span,
                SAY[word],
            )
        return value.value / 100
    if percent:
        if value.value > 100:
            said = f"a margin of {value.span.text} percent is more than the cloth"
            raise Problem("E214", said, value.span, SAY[word])
        return Exact(0), value.value / 100
    return value.value * INCH_PER[_unit(value, units)], Exact(0)


def sold_of(phrase: Phrase, units: Units) -> Sold:
    """What stands after `sold`. Raises `Problem`. Of a cut that is half the cloth's width, `across` is None."""
    parts = phrase.parts
    lead = parts[0].members[0].items
    first = [item.text for item in lead if isinstance(item, Name)]
    rest = parts[1].members[0].items if len(parts) == 2 and parts[1].word and parts[1].word.text == "by" else ()
    if any(len(part.members) > 1 for part in parts):
        rest = ()
    if len(lead) == 4 and first == ["sold", "in", "sheets"] and len(rest) == 1:
        across, down = lead[3], rest[0]
        if isinstance(across, Number) and isinstance(down, Number):
            sizes = [side.value * INCH_PER[_unit(side, units)] for side in (across, down)]
            return Sold(across=sizes[0], down=sizes[1], name="sheet")
    elif len(lead) == 1 and len(rest) == 1 and isinstance(rest[0], Name) and rest[0].text in SHEETS:
        return Sold(down=_long(rest[0].text, units), name=rest[0].text.replace("-", " "))
    elif len(lead) == 1 and rest and isinstance(rest[0], Number) and rest[0].value > 0:
        named = rest[1].text if len(rest) == 2 and isinstance(rest[1], Name) and rest[0].unit is None else ""
        if named == "yard":
            return Sold(step=rest[0].value * YARD, by="yard")
        if len(rest) == 1:
            unit = _unit(rest[0], units)
            return Sold(step=rest[0].value * INCH_PER[unit], by="" if unit == "inch" else "cm")
    raise Problem("E212", "this does not say how the fabric is sold", phrase.span, SAY_SOLD)


def length_of(phrase: Phrase, units: Units) -> Sold:
    """The setting `sold` of a whole pattern: a length. Raises `Problem`."""
    sold = sold_of(phrase, units)
    if sold.step is None:
        raise Problem("E214", "sheets are said of a fabric, not of the whole pattern", phrase.span, SAY_LENGTH)
    return sold


def sold_setting(text: str, units: Units, span: Span) -> Sold:
    """The setting `sold` given on the command line: what stands after that word, as `by 1/4 yard`. Raises `Problem`."""
    words = text.split()
    if words[:1] == ["by"] and len(words) > 1:
        yards = words[-1] == "yard"
        try:
            value, unit = parse_size(" ".join(words[1:-1] if yards else words[1:]))
        except BadSize:
            value, unit = Exact(0), None
        if value > 0 and not (yards and unit):
            if yards:
                return Sold(step=value * YARD, by="yard")
            return Sold(step=value * INCH_PER[unit or units], by="" if (unit or units) == "inch" else "cm")
    raise Problem("E214", f"`{text}` does not say how fabric is sold", span, SAY_LENGTH)


def bought(found: Mapping[str, object], settings: Settings, width: Exact, span: Span) -> dict[str, object]:
    """The fields of a fabric whose clauses were read; `width` is the usable width of the cloth. Raises `Problem`."""
    sold = cast(Sold, found.get("sold", settings.sold))
    only = cast("int | None", found.get("only"))
    shrinks = cast(Exact, found.get("shrinks", Exact(0)))
    margin, part = cast("tuple[Exact, Exact]", found.get("margin", (settings.margin, Exact(0))))
    if width <= 2 * settings.seam:
        raise narrow(span)
    if sold.step is not None and only is not None:
        raise Problem("E213", "`only` says how many sheets there are, and this fabric is sold by the length", span)
    if sold.step is None and ("margin" in found):
        raise Problem("E213", "a margin is bought with cloth sold by the length, not with sheets", span)
    across = None
    if sold.step is None:
        margin = Exact(0)
        across = width / 2 if sold.across is None else sold.across
        assert sold.down is not None
        if min(across, sold.down) <= 2 * settings.seam:
            raise Problem("E304", "a sheet no larger than two seams gives no piece", span, SAY_SOLD)
    return {
        "usable": width if across is None else _left(across, shrinks, settings.ruler),
        "sold": Sold(step=sold.step, by=sold.by, across=across, down=sold.down, name=sold.name, only=only),
        "scraps": tuple(
            Scrap(across=width / 2 if one.name else one.across, down=one.down, count=one.count, name=one.name)
            for one in cast("list[Scrap]", found.get("have", []))
        ),
        "shrinks": shrinks,
        "margin": margin,
        "margin_part": part,
        "lengthwise": "lengthwise" in found,
    }


def _left(length: Exact, shrinks: Exact, mark: Exact) -> Exact:
    return mark * (length * (1 - shrinks) / mark).floor()


def narrow(span: Span) -> Problem:
    """Of cloth that no piece can be cut from."""
    return Problem(
        "E304", "the usable width is no wider than two seams, so that nothing can be cut", span, "write `usable 42`"
    )


def _have(clause: Phrase, units: Units) -> Scrap:
    parts = clause.parts
    items = [part.members[0].items for part in parts]
    words = [part.word.text for part in parts[1:] if part.word]
    if all(len(part.members) == 1 for part in parts) and len(items[0]) == 2 and isinstance(items[0][1], Number):
        count = _whole(items[0][1], SAY_HAVE)
        if words == ["of"] and len(items[1]) == 1:
            named = items[1][0]
            if isinstance(named, Name) and named.text in SHEETS:
                name = named.text
                return Scrap(across=Exact(0), down=_long(name, units), count=count, name=name.replace("-", " "))
        if words == ["of", "by"] and len(items[1]) == len(items[2]) == 1:
            across, down = items[1][0], items[2][0]
            if isinstance(across, Number) and isinstance(down, Number):
                sizes = [side.value * INCH_PER[_unit(side, units)] for side in (across, down)]
                if min(sizes) <= 0:
                    raise Problem("E304", "a scrap of nothing gives no piece", clause.span, SAY_HAVE)
                return Scrap(across=sizes[0], down=sizes[1], count=count)
    raise Problem("E212", "this does not say what is on hand", clause.span, SAY_HAVE)


def _words(clause: Phrase, word: str) -> tuple[Item, ...]:
    if len(clause.parts) > 1 or len(clause.parts[0].members) > 1:
        raise Problem("E212", f"this is no clause `{word}`", clause.span, SAY.get(word))
    return clause.parts[0].members[0].items


def _whole(number: Number, say: str, *, allowed: bool = True) -> int:
    value = number.value
    if number.unit is not None or not allowed or value != value.floor() or value < 1:
        raise Problem("E215", f"`{number.span.text}` is no whole number of pieces", number.span, say)
    return value.floor()


def _unit(number: Number, units: Units) -> str:
    return number.unit or units


def _long(name: str, units: Units) -> Exact:
    return SHEETS[name] * (YARD if units == "inch" else METRE)
