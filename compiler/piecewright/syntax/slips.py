"""What is said when a line cannot be read: one diagnostic for each slip that the shape shows."""

from __future__ import annotations

from piecewright.diagnostics.model import Diagnostic, Label
from piecewright.exact import BadSize, Exact, fraction_text
from piecewright.source import Source, Span

Token = tuple[str, object, int, int]
"""Kind (a terminal of the grammar), value, start and end in the text."""

DEEPEST = 24
"""How many brackets or indentations may stand in one another."""

_MEANT = {
    "×": "write `by` between two measures, or `*` to multiply",
    "÷": "write `/` to divide",
    "–": "write a hyphen `-`, with a space on each side where it means less",
    "—": "write a hyphen `-`, with a space on each side where it means less",
    "−": "write a hyphen `-` with a space on each side",
    "‐": "write a plain hyphen `-`",
    "‑": "write a plain hyphen `-`",
    "_": "a name is joined with a hyphen: `half-square`",
    "'": 'a text stands between double quotation marks: `"midnight blender"`',
    "’": 'a text stands between double quotation marks: `"midnight blender"`',
    "‘": 'a text stands between double quotation marks: `"midnight blender"`',
    "„": 'a text begins with `"` or `“`',
    "«": 'a text stands between double quotation marks: `"midnight blender"`',
    ":": "leave it out: what is indented under a line belongs to it",
    ";": "write each step on a line of its own, and a comma before a clause",
    "=": "write `is`: `corner is square 3 of sky`",
    "&": "write `and`",
    "°": "write an angle as a bare number: `45`",
    "[": "use round brackets, for what a unit is handed",
    "]": "use round brackets, for what a unit is handed",
    "{": "use round brackets, for what a unit is handed",
    "}": "use round brackets, for what a unit is handed",
    ".": "leave it out: a line ends without a full stop",
    "!": "write a remark after `#`",
    "″": "an inch mark stands close to its number: `6 1/2″`",
}

_OPERATOR = {"PLUS": "+", "MINUS": "-", "STAR": "*", "SLASH": "/"}


class Slip(Exception):
    """A line that cannot be read, with the one diagnostic for it. Never leaves this package."""

    def __init__(self, code: str, message: str, span: Span, *causes: Label, hint: str | None = None) -> None:
        super().__init__(code)
        self.diagnostic = Diagnostic(
            code=code, severity="error", message=message, labels=(Label(span=span), *causes), hint=hint
        )


def unknown_character(source: Source, place: int, end: int) -> Slip:
    """For the character at `place`, at which no word of the language begins; the line ends at `end`."""
    text = source.text
    char = text[place]
    span = Span(source, place, place + 1)
    if char == "\t":
        return Slip("E101", "there is a tab between the words", span, hint="write spaces in place of the tab")
    if char in '"“':
        opened = Span(source, place, end)
        if text[place - 1 : place] == " " and text[:place].rstrip(" ")[-1:].isdigit() and end - place == 1:
            return Slip(
                "E103",
                "this mark opens a text that never ends",
                opened,
                hint='an inch mark stands close to its number: `6"`',
            )
        other = "”" if char == '"' else '"'
        if other in text[place + 1 : end]:
            hint = f"it begins with `{char}` and ends with `{other}`: use two marks of one kind"
        else:
            hint = f"close it with `{'”' if char == '“' else char}` on the same line"
        return Slip("E103", "the text that begins here is not closed", opened, hint=hint)
    if char == "”":
        return Slip(
            "E103", "a quotation mark closes a text that was never opened", span, hint="begin the text with `“`"
        )
    if char.isspace():
        return Slip("E102", "this is not an ordinary space", span, hint="replace it by a space of the space bar")
    if not char.isprintable():
        return Slip(
            "E102",
            f"there is a hidden character here (U+{ord(char):04X})",
            span,
            hint="delete it and type the line anew",
        )
    if char == "." and text[place + 1 : place + 2].isdigit():
        return Slip("E106", "a number begins with a digit", span, hint="write a nought before the point: `0.5`")
    letters = "a name has Latin letters, digits and hyphens; other letters stand within quotation marks"
    mend = _MEANT.get(char, letters if char.isalpha() else None)
    return Slip("E102", f"`{char}` has no meaning here", span, hint=mend)


def hidden_character(source: Source, start: int, end: int, allowed: str) -> Slip | None:
    """For a text that holds what cannot be printed; None when each such character is in `allowed`."""
    for place in range(start, end):
        char = source.text[place]
        if not char.isprintable() and char not in allowed:
            span = Span(source, place, place + 1)
            if char == "\t":
                return Slip("E101", "there is a tab in this text", span, hint="write spaces in place of the tab")
            return Slip("E102", f"there is a hidden character in this text (U+{ord(char):04X})", span, hint="delete it")
    return None


def bad_number(span: Span, bad: BadSize) -> Slip:
    """For a number that `parse_size` refuses."""
    written = span.text
    if bad.kind == "zero-denominator":
        return Slip(
            "E106", f"`{written}` has nothing under its bar", span, hint="write the fraction as on a ruler: `6 1/2`"
        )
    if bad.kind == "improper" and bad.value is not None:
        return Slip(
            "E106",
            f"the fraction in `{written}` is as much as a whole or more",
            span,
            hint=f"write `{fraction_text(bad.value)}` if that is what is meant",
        )
    if bad.kind == "too-long":
        return Slip("E106", "this number has more digits than any ruler shows", span, hint="write at most 15 digits")
    return Slip(
        "E106", f"`{written}` cannot be read as a number", span, hint="write it as `6 1/2`, `6½`, `6.5` or `16.5 cm`"
    )


def two_readings(span: Span, whole: Exact, fraction: Exact) -> Slip:
    """For `3-1/2`."""
    more, less = fraction_text(whole + fraction), fraction_text(whole - fraction)
    return Slip(
        "E107",
        f"`{span.text}` can be read as {more} or as {less}",
        span,
        hint=f"write `{more}`, or `{fraction_text(whole)} - {fraction_text(fraction)}` for {less}",
    )


def two_bars(span: Span) -> Slip:
    """For `size/4/2`, where `4/2` would be read as one fraction."""
    return Slip(
        "E107",
        f"`{span.text}` can be read as a division by a fraction, or as one division after another",
        span,
        hint="put a space on each side of the bar that divides: `size / 4`",
    )


def close_minus(source: Source, start: int, end: int) -> Slip:
    """For a minus that touches what is before or after it."""
    return Slip(
        "E108",
        "a minus needs a space on each side",
        Span(source, start, end),
        hint="write `size - 1`; without the spaces a hyphen joins a name, and a name begins with a letter",
    )


def decimal_comma(span: Span) -> Slip:
    """For `6,5`."""
    return Slip("E106", f"`{span.text}` has a comma in it", span, hint=f"write `{span.text.replace(',', '.')}`")


def side_by_side(first: Span, second: Span) -> Slip:
    """For two numbers with nothing between them."""
    both = first.to(second)
    return Slip(
        "E109",
        f"the numbers `{first.text}` and `{second.text}` stand side by side",
        both,
        hint=f"write `{first.text} by {second.text}` for across and down; a fraction is written `6 1/2`",
    )


def run_together(first: Span, second: Span) -> Slip:
    """For `4x` and `9patch`."""
    both = first.to(second)
    return Slip(
        "E117",
        f"`{first.text}` and `{second.text}` run together",
        both,
        hint="put a space between them; a name begins with a letter",
    )


def text_inside_text(text: Span, after: Span) -> Slip:
    """For `"say "so" to her"`, where the second mark ends the text."""
    return Slip(
        "E103",
        f"the text ends here, before `{after.text}`",
        text,
        hint='within straight quotation marks use curly ones: `"the “light” side"`',
    )


def rest_of_text(text: Span, remark: Span) -> Slip:
    """For `"oat linen, colour "#ffffff"`, where what stands behind the second mark would be left out as a remark."""
    mark = text.text[-1]
    return Slip(
        "E119",
        f"the text ends before `#`, and the rest of the line, `{remark.text}`, would be a remark",
        text,
        Label(span=remark, text="this would be left out"),
        hint=f"close the text where it ends with `{mark}`; a remark behind a text begins after a space",
    )


def inch_word(number: Span, word: Span) -> Slip:
    """For `6 in`, where the measure is not written so."""
    return Slip(
        "E106",
        f"`{word.text}` is not written after a size",
        number.to(word),
        hint=f"write `{number.text}\"`, or `{number.text}` alone where the pattern's units are inches",
    )


def word_twice(word: Span, first: Span) -> Slip:
    """For a joining word that stands twice in a phrase."""
    text = word.text.lower()
    return Slip(
        "E113",
        f"`{text}` stands twice in one phrase",
        word,
        Label(span=first, text="the first one"),
        hint="give the inner thing a name on a line above, as in `post is square 2 of sky`",
    )


def arithmetic_brackets(span: Span) -> Slip:
    """For brackets that do not follow a name, or hold nothing but arithmetic."""
    return Slip(
        "E105",
        "brackets hold what a unit is handed, not arithmetic",
        span,
        hint="give the middle result a name on a line above, as in `half is size / 2`",
    )


def too_deep(span: Span, what: str) -> Slip:
    return Slip(
        "E118", f"more than {DEEPEST} {what} stand in one another", span, hint="give the inner parts names of their own"
    )


def misfit(source: Source, tokens: list[Token], index: int) -> Slip:
    """For the token at `index`, the first one that fits no sentence; those before it do.

    After a word nearly everything fits, so what is left is told by the token, the one before it and
    the brackets open there.
    """
    kind, _, start, end = tokens[index]
    before = tokens[index - 1][0] if index else ""
    here = Span(source, start, end)
    opened: list[Token] = []
    for token in tokens[:index]:
        if token[0] == "LPAR":
            opened.append(token)
        elif token[0] == "RPAR":
            opened.pop()
    last = Span(source, tokens[index - 1][2], tokens[index - 1][3]) if index else here

    if kind == "RPAR" and not opened:
        return Slip("E104", "this bracket closes nothing", here, hint="open it after a name, or leave it out")
    if opened and kind in ("$END", "VBAR"):
        bracket = Span(source, opened[-1][2], opened[-1][3])
        cause = (Label(span=here, text="the cell ends here"),) if kind == "VBAR" else ()
        return Slip(
            "E104", "the bracket opened here is not closed", bracket, *cause, hint="close it with `)` on this line"
        )
    if kind == "LPAR":
        closing = next((t for t in tokens[index:] if t[0] == "RPAR"), tokens[index])
        return arithmetic_brackets(Span(source, start, closing[3]))
    if kind == "VBAR" and before == "VBAR":
        return Slip(
            "E112", "there is no cell between these two bars", last.to(here), hint="take one bar away, or name a piece"
        )
    if before == "VBAR":
        if kind == "$END":
            return Slip(
                "E112", "a row does not end with a bar", last, hint="leave the last bar out: bars stand between cells"
            )
        return Slip("E112", f"a cell cannot begin with {_named(kind, here)}", here, hint="begin it with the piece")
    if kind in ("VBAR", "COMMA") and before in ("NAME", "NUMBER", "TEXT", "RPAR"):
        return Slip(
            "E116",
            "a row has no clauses, so no commas outside brackets",
            here if kind == "COMMA" else _first_comma(source, tokens[:index]),
            hint="divide the cells with bars, and put clauses on the line of `lay`",
        )
    if not index:
        hint = "begin with the verb; a line never runs on from the one above"
        if kind in ("MINUS", "STAR"):
            hint = "lines need no bullets: begin with the verb"
        return Slip("E114", f"a line cannot begin with {_named(kind, here)}", here, hint=hint)
    if kind in _OPERATOR and before == "TEXT":
        return Slip(
            "E114", f"there is no size before `{_OPERATOR[kind]}`", here, hint="only sizes are added or multiplied"
        )
    if before == "COMMA" and kind == "AND":
        return Slip(
            "E114", "a comma and `and` do not stand together", last.to(here), hint="in a list write `and` alone"
        )
    if before == "COMMA" and kind == "JOINING":
        return Slip(
            "E114", f"a clause cannot begin with {_named(kind, here)}", here, hint="leave out the comma before it"
        )
    missing = f"something is missing after {_named(before, last)}"
    if kind == "$END":
        return Slip("E114", missing, last, hint="a line never runs on")
    if before in _OPERATOR and kind == "TEXT":
        return Slip("E114", missing, last, hint="only sizes are added or multiplied")
    return Slip("E114", missing, last)


def _named(kind: str, span: Span) -> str:
    return "a comma" if kind == "COMMA" else f"`{span.text}`"


def _first_comma(source: Source, tokens: list[Token]) -> Span:
    depth = 0
    for kind, _, start, end in tokens:
        depth += (kind == "LPAR") - (kind == "RPAR")
        if kind == "COMMA" and not depth:
            return Span(source, start, end)
    return Span(source, tokens[-1][2], tokens[-1][3])
