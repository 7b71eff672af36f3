"""What is said of lines that cannot be read: the code, the very characters, and one mend."""

from __future__ import annotations

from pathlib import Path

import piecewright.diagnostics.pages
import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st
from piecewright.diagnostics.codes import CODES
from piecewright.diagnostics.model import Diagnostic
from piecewright.source import Source
from piecewright.syntax.parse import parse
from piecewright.syntax.slips import DEEPEST
from syntax.test_parse import CONSTRUCTIONS


def refused(text: str) -> tuple[Diagnostic, ...]:
    return parse(Source("test.piece", text))[1]


SLIPS = [
    # line (under another one), code, what is underlined, a word of the hint
    ("square\t5 of a", "E101", "\t", "spaces"),
    ('note "tab\there"', "E101", "\t", "spaces"),
    ("square 5 of half_square", "E102", "_", "hyphen"),
    ("rectangle 6 × 4 of a", "E102", "×", "`by`"),
    ("gap is size – 1", "E102", "–", "hyphen"),
    ("turn 45° right", "E102", "°", "bare"),
    ("a = 3", "E102", "=", "`is`"),
    ("lay:", "E102", ":", "leave it out"),
    ("trim to 8 by 8.", "E102", ".", "full stop"),
    ("square\u00a05 of a", "E102", "\u00a0", "space bar"),
    ("squ\u200bare 5 of a", "E102", "\u200b", "delete"),
    ('note "a\u202eb"', "E102", "\u202e", "delete"),
    ("note 'single'", "E102", "'", "double"),
    ("iſ a", "E102", "ſ", "Latin"),
    ("square 5 of σκύρος", "E102", "σ", "Latin"),
    ("take cafe\u0301(a)", "E102", "\u0301", ""),
    ('note "open', "E103", '"open', "close it"),
    ("note “open", "E103", "“open", "close it"),
    ('note “mixed"', "E103", '“mixed"', "one kind"),
    ("note closed”", "E103", "”", "begin"),
    ('square 6 "', "E103", '"', "close to its number"),
    ('note "say "hi" to her"', "E103", '"say "', "curly"),
    ('note "oat, colour "#fff"', "E119", '"oat, colour "', "close the text"),
    ('note "oat, colour " # fff"', "E119", '"oat, colour "', "close the text"),
    ("note “say ”#5” twice”", "E119", "“say ”", "close the text"),
    ("unit goose (size, sky", "E104", "(", "close it"),
    ("band(dark, light | band(light)", "E104", "(", "close it"),
    ("take goose(size, coped(a, b)", "E104", "(", "close it"),
    ("cut once) on diagonal", "E104", ")", "leave it out"),
    ("square (size + 1/2) of a", "E105", "(size + 1/2)", "name"),
    ("square 2 * (size + 1) of a", "E105", "(size + 1)", "name"),
    ("(size + 1) of a", "E105", "(size + 1)", "name"),
    ("square 6 1/0 of a", "E106", "6 1/0", "6 1/2"),
    ("square 1/0 of a", "E106", "1/0", "6 1/2"),
    ("square 6 5/4 of a", "E106", "6 5/4", "7 1/4"),
    ("square 6,5 of a", "E106", "6,5", "6.5"),
    ("square .5 of a", "E106", ".", "0.5"),
    ("square 6 in of a", "E106", "6 in", '6"'),
    ("square 1234567890123456 of a", "E106", "1234567890123456", "15"),
    (f"square {'9' * 6000} of a", "E106", "9" * 6000, "15"),
    ("square 3-1/2 of a", "E107", "3-1/2", "`3 1/2`, or `3 - 1/2` for 2 1/2"),
    ("square 3-½ of a", "E107", "3-½", "`3 1/2`, or `3 - 1/2` for 2 1/2"),
    ("square size/4/2 of a", "E107", "size/4/2", "space"),
    ("square 3/4/2 of a", "E107", "3/4/2", "space"),
    ("square size -1 of a", "E108", "-", "size - 1"),
    ("square size- 1 of a", "E108", "-", "size - 1"),
    ("square 2-1 of a", "E108", "-", "size - 1"),
    ("take 9-patch(a)", "E108", "-", "begins with a letter"),
    ("rectangle 6 4 of a", "E109", "6 4", "6 by 4"),
    ("square 6 1 1/2 of a", "E109", "6 1 1/2", "by"),
    ("rectangle 4x6 of a", "E117", "4x6", "letter"),
    ("take fold½(a)", "E117", "fold½", "space"),
    ("square 5of a", "E117", "5of", "space"),
    ("a | b |", "E112", "|", "last bar"),
    ("|", "E112", "|", "last bar"),
    ("a || b", "E112", "||", "bar"),
    ("a | on b", "E112", "on", "piece"),
    ("join a on left on right", "E113", "on", "name"),
    ("join rectangle 2 of a of b", "E113", "of", "name"),
    ("take f(a of b of c)", "E113", "of", "name"),
    ("border 2 of a on", "E114", "on", "runs on"),
    ("join a,", "E114", ",", "runs on"),
    ("border 2 of of a", "E114", "of", ""),
    ("join a, on left", "E114", "on", "comma"),
    ("border 2 of a on left, and right", "E114", ", and", "alone"),
    ("a is 2 +", "E114", "+", "runs on"),
    ("a is 2 + * 3", "E114", "+", ""),
    ('a is 2 + "b"', "E114", "+", "sizes"),
    ('a is "b" + 2', "E114", "+", "sizes"),
    ("take f(,)", "E114", "(", ""),
    ("- cut once on diagonal", "E114", "-", "bullets"),
    ("of a", "E114", "of", "verb"),
    ("a, press open | b", "E116", ",", "bars"),
    ("a | b, press open", "E116", ",", "bars"),
]


@pytest.mark.parametrize(("line", "code", "underlined", "hint"), SLIPS)
def test_slip(line: str, code: str, underlined: str, hint: str) -> None:
    found = refused(f"lay\n    square 2 of a\n    {line}\n    turn right\n")
    assert [(d.code, d.span.text) for d in found] == [(code, underlined)]
    assert found[0].span.line == 3
    assert hint in (found[0].hint or "")


def test_a_joining_word_twice_shows_the_first_one() -> None:
    (slip,) = refused("join a on left on right")
    assert [(label.span.column, label.span.text) for label in slip.labels] == [(16, "on"), (8, "on")]


@pytest.mark.parametrize(
    "line",
    [
        'note "oat"# flax',
        'note "oat" # called "tow"',
        'note “oat”# 2" wide',
        'note "colour #5" # 2" wide',
        'note “a "b"”# “c',
    ],
)
def test_a_remark_behind_a_text_is_a_remark(line: str) -> None:
    assert not refused(line)


def test_the_name_size_1_is_a_name() -> None:
    """`size-1` is for the names to answer, not for the shape."""
    assert not refused("square size-1 of a")


@pytest.mark.parametrize(
    ("text", "line", "code", "underlined"),
    [
        ("\tsquare 5 of a\n", 1, "E101", "\t"),
        ("unit a (b)\n    turn left\n\tturn right\n", 3, "E101", "\t"),
        ("unit a (b)\n  \tturn left\n", 2, "E101", "  \t"),
        ("unit a (b)\n\u3000turn left\n", 2, "E102", "\u3000"),
        ("   unit a (b)\n", 1, "E110", "   "),
        ("unit a (b)\n    turn left\n  turn right\n", 3, "E110", "  "),
        ("a\n  b\n      c\n    d\n", 4, "E110", "    "),
        ("a | b\n", 1, "E111", "a | b"),
        ("lay\n    a | b\n        c\n", 3, "E111", "c"),
        ("lay\n    a | b\n        | c\n", 3, "E111", "| c"),
    ],
)
def test_slip_of_layout(text: str, line: int, code: str, underlined: str) -> None:
    found = refused(text)
    assert [(d.span.line, d.code, d.span.text) for d in found] == [(line, code, underlined)]


def test_tabs_and_spaces_mixed_are_said_to_be() -> None:
    (slip,) = refused("unit a (b)\n  \tturn left\n")
    assert slip.message == "this line is indented with a tab mixed with spaces"


def test_a_line_with_a_slip_keeps_its_place() -> None:
    """One slip, one diagnostic: the lines under a tab or an odd indentation are not blamed."""
    text = "unit a (b)\n\trepeat 2\n\t\tturn left\n\tturn right\nunit c (d)\n    turn left\n"
    assert [(d.span.line, d.code) for d in refused(text)] == [(2, "E101"), (3, "E101"), (4, "E101")]
    text = "unit a (b)\n    turn left\n  repeat 2\n        turn right\n    turn left\n"
    assert [(d.span.line, d.code) for d in refused(text)] == [(3, "E110")]


@pytest.mark.parametrize("text", ["", "\n\n", "  \n", "# only a remark\n    # and another", "\ufeff"])
def test_nothing_in_the_file(text: str) -> None:
    file, found = parse(Source("test.piece", text))
    assert file is None
    assert [d.code for d in found] == ["E115"]


def test_depth() -> None:
    fits = "f(" * DEEPEST + "a" + ")" * DEEPEST
    assert not refused(f"take {fits}")
    assert [d.code for d in refused(f"take f({fits})")] == ["E118"]
    assert [d.code for d in refused("take " + "f(" * 50_000)] == ["E118"]
    stairs = [" " * depth + "a" for depth in range(DEEPEST + 3)]
    assert not refused("\n".join(stairs[: DEEPEST + 1]))
    assert [d.code for d in refused("\n".join(stairs))] == ["E118", "E118"]


def test_a_very_long_line_is_read() -> None:
    file, found = parse(Source("test.piece", "a is " + " + ".join(["1"] * 5000) + " b" * 5000))
    assert file is not None and not found


def test_each_bad_line_gives_one_diagnostic() -> None:
    lines = CONSTRUCTIONS.splitlines()
    steps = [i for i, line in enumerate(lines) if line.startswith("    ") and "|" not in line]
    for i in steps[::2]:
        lines[i] += " of ("
    found = refused("\n".join(lines))
    assert [d.span.line for d in found] == [i + 1 for i in steps[::2]]


WORDS = [
    "a",
    "on",
    " ",
    "  ",
    "\n",
    "\n    ",
    "\n  ",
    "(",
    ")",
    "|",
    ",",
    '"',
    "6",
    "1/2",
    "-",
    "+",
    "#",
    "and",
    "\t",
    " is ",
    "cm",
]
CHARACTERS = st.one_of(
    st.text(max_size=80),
    st.text(alphabet='ab6/ "“”()|,-+*#\t\n½.xon', max_size=80),
    st.lists(
        st.sampled_from(WORDS),
        max_size=40,
    ).map("".join),
)


@given(CHARACTERS)
@example("\x00")
@example("\ud800")
@example("6 1/2/0 - \n")
@settings(max_examples=600, deadline=None)
def test_any_text_is_answered(text: str) -> None:
    """Whatever is read, there is a tree or a diagnostic, and no more than one diagnostic a line."""
    file, found = parse(Source("test.piece", text))
    assert file is not None or found
    assert len({d.span.line for d in found}) == len(found)
    assert [d.span.start for d in found] == sorted(d.span.start for d in found)
    for diagnostic in found:
        assert diagnostic.code in CODES
        assert diagnostic.severity == "error"
        assert not diagnostic.message.endswith(".") and "\n" not in diagnostic.message
        assert diagnostic.span.end > diagnostic.span.start or diagnostic.code == "E115" or diagnostic.span.text == ""


@given(st.sampled_from([line for line in CONSTRUCTIONS.splitlines() if line.strip()]), st.data())
@settings(max_examples=300, deadline=None)
def test_a_line_with_one_character_changed_is_answered(line: str, data: st.DataObject) -> None:
    place = data.draw(st.integers(0, len(line) - 1))
    char = data.draw(st.sampled_from('()|,"-+*/ \t½x0'))
    _, found = parse(Source("test.piece", "lay\n" + line[:place] + char + line[place + 1 :]))
    assert len(found) <= 1


OWN = [code for code in CODES if code < "E19"]


@pytest.mark.parametrize("code", OWN)
def test_page(code: str) -> None:
    """The example of a page is answered with its code alone, and what to use instead is read whole."""
    page = Path(next(iter(piecewright.diagnostics.pages.__path__)), f"{code}.md").read_text(encoding="utf-8")
    assert page.startswith(f"# {code}: {CODES[code].title}\n")
    blocks = [part.split("```")[0] for part in page.split("```piece\n")[1:]]
    assert len(blocks) == 2
    assert [d.code for d in refused(blocks[0])] == [code]
    assert not refused(blocks[1])


def test_every_code_is_tried() -> None:
    tried = {code for _, code, _, _ in SLIPS} | {"E110", "E111", "E115", "E118"}
    assert tried == set(OWN)
