"""A line cut into words: the terminals of the grammar, each with its value and place."""

from __future__ import annotations

import re

from piecewright.exact import BadSize, Exact, parse_size
from piecewright.source import Source, Span
from piecewright.syntax import slips
from piecewright.syntax._tables import IGNORED, TERMINALS
from piecewright.syntax.ast import Name, Number, Text
from piecewright.syntax.slips import Slip, Token

REFUSED = "!"
"""The kind of a last token whose value is the `Slip` found there; it stands in place of `$END`."""

_match = re.compile(
    f"(?:{'|'.join(pattern for name, pattern in TERMINALS if name == 'BLANK')})?"
    f"(?:{'|'.join(f'(?P<{name}>{pattern})' for name, pattern in TERMINALS if name != 'BLANK')})"
).match

_INCH_WORDS = frozenset(("in", "inch", "inches", "centimetre", "centimetres", "centimeter", "centimeters"))
_PRINTED_THOUGH_HIDDEN = "\u00a0\u2002\u2003\u2009\u202f\u200c\u200d\u00ad"  # spaces of all widths and joiners

Sizes = dict[str, tuple[Exact, str | None]]
"""Numbers read before, by their text: most patterns write few different ones."""


def words(source: Source, start: int, end: int, sizes: Sizes) -> list[Token]:
    """The words from `start` to `end`, which are in one line and no blanks at either end.

    The last is `$END`, or `REFUSED` at the first place that cannot be read.
    """
    text = source.text
    tokens: list[Token] = []
    place = start
    previous = ""
    try:
        while place < end:
            found = _match(text, place, end)
            if found is None:
                while text[place] == " ":
                    place += 1
                raise slips.unknown_character(source, place, end)
            kind = found.lastgroup or ""
            begin, place = found.span(kind)
            if kind == "NAME":
                word = text[begin:place].lower()
                value: object = Name(text=word, span=Span(source, begin, place))
                if previous == "NUMBER":
                    _after_number(source, tokens[-1], begin, place)
                elif previous == "TEXT" and tokens[-1][3] == begin:
                    raise slips.text_inside_text(Span(source, *tokens[-1][2:]), Span(source, begin, place))
            elif kind == "NUMBER":
                value = _number(source, begin, place, sizes)
                if previous == "NUMBER":
                    raise slips.side_by_side(Span(source, *tokens[-1][2:]), Span(source, begin, place))
                if previous == "NAME" and tokens[-1][3] == begin:
                    raise slips.run_together(Span(source, *tokens[-1][2:]), Span(source, begin, place))
            elif kind == "JOINING" or kind == "AND":
                word = text[begin:place].lower()
                if not word.isascii():  # capitals read as small, and ſ is a small s to a pattern
                    raise slips.unknown_character(source, begin + text[begin:place].index("ſ"), end)
                value = Name(text=word, span=Span(source, begin, place))
                if previous == "NUMBER" and tokens[-1][3] == begin and text[begin - 1].isalnum():
                    raise slips.run_together(Span(source, *tokens[-1][2:]), Span(source, begin, place))
            elif kind == "TEXT":
                inside = text[begin + 1 : place - 1]
                if not inside.isprintable():
                    slip = slips.hidden_character(source, begin, place, _PRINTED_THOUGH_HIDDEN)
                    if slip:
                        raise slip
                value = Text(text=inside, span=Span(source, begin, place))
            elif kind in IGNORED:
                if previous == "TEXT":
                    _remark(source, tokens[-1], begin, end)
                place = end
                break
            else:
                value = Span(source, begin, place)
                if kind == "MINUS":
                    _minus(source, tokens, begin, place, end)
                elif kind == "COMMA" and previous == "NUMBER" and text[place : place + 1].isdigit():
                    _comma(source, tokens, begin, place)
            tokens.append((kind, value, begin, place))
            previous = kind
    except Slip as slip:
        span = slip.diagnostic.span
        tokens.append((REFUSED, slip, span.start, span.end))
        return tokens
    tokens.append(("$END", None, place, place))
    return tokens


def _number(source: Source, start: int, end: int, sizes: Sizes) -> Number:
    written = source.text[start:end]
    size = sizes.get(written)
    if size is None:
        try:
            size = sizes[written] = parse_size(written.lower())
        except BadSize as bad:
            raise slips.bad_number(Span(source, start, end), bad) from None
    return Number(value=size[0], unit=size[1], span=Span(source, start, end))


def _after_number(source: Source, number: Token, start: int, end: int) -> None:
    """Refuse a name that runs on from a number (`4x`) or is a measure not written so (`6 in`)."""
    before, word = Span(source, number[2], number[3]), Span(source, start, end)
    if word.text.lower() in _INCH_WORDS:
        raise slips.inch_word(before, word)
    if number[3] == start and source.text[start - 1].isalnum():
        raise slips.run_together(before, word)


def _remark(source: Source, text: Token, start: int, end: int) -> None:
    """Refuse a remark that is the rest of a text: in `"oat, colour "#ffffff"` the second mark was meant to open one.
    So it is read where such a mark stands in the remark, and the text runs into it or ends with a blank."""
    words, mark = source.text, source.text[text[3] - 1]
    if mark in words[start:end] and (text[3] == start or words[text[3] - 2].isspace()):
        raise slips.rest_of_text(Span(source, text[2], text[3]), Span(source, start, end))


def _minus(source: Source, tokens: list[Token], start: int, end: int, line_end: int) -> None:
    """Refuse a minus that touches a neighbour: `3-1/2` has two readings, `size -1` none."""
    text = source.text
    touches_before = bool(tokens) and tokens[-1][3] == start
    if not touches_before and (end == line_end or text[end] == " "):
        return
    number = tokens[-1][1] if tokens else None
    after = _match(text, end, line_end) if end < line_end and text[end] != " " else None
    if touches_before and isinstance(number, Number) and after is not None and after.lastgroup == "NUMBER":
        fraction = _number(source, *after.span("NUMBER"), {}).value
        if (
            number.value.is_rational
            and number.value.fraction.denominator == 1
            and 0 < fraction < 1
            and number.value > 0
        ):
            raise slips.two_readings(Span(source, tokens[-1][2], after.end()), number.value, fraction)
    raise slips.close_minus(source, start, end)


def _comma(source: Source, tokens: list[Token], start: int, end: int) -> None:
    """Refuse `6,5` where a comma would begin a clause; in brackets it divides what is handed over."""
    number = tokens[-1]
    kinds = [token[0] for token in tokens]
    if number[3] != start or kinds.count("LPAR") > kinds.count("RPAR"):
        return
    while source.text[end : end + 1].isdigit():
        end += 1
    raise slips.decimal_comma(Span(source, number[2], end))
