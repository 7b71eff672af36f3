"""How findings are shown to people."""

from __future__ import annotations

import re

import pytest
from diagnostics.samples import ABSENT, ALL, EDGES, WARNING, at, deep
from piecewright.diagnostics.excerpt import clean, excerpt
from piecewright.diagnostics.model import Diagnostic, Label
from piecewright.diagnostics.render import WIDTH, human, short
from piecewright.source import Source, Span

ANSI = re.compile(r"\x1b\[[0-9;]*m")


def test_the_whole_of_one_finding() -> None:
    assert human([EDGES]) == (
        "error E281  these edges differ by 1/2: 8 1/2 on the piece, 9 on the work\n"
        "  in lantern.piece:10:10\n"
        "\n"
        "    6      border 2 of frame on left and right\n"
        "           ╌╌╌╌╌╌╌╌╌╌╌╌╌╌╌╌╌ made it 4 wider\n"
        "    ⋮\n"
        "   10      join rectangle 9 by 3 of ground on bottom\n"
        "                ━━━━━━━━━━━━━━━━ finishes 8 1/2\n"
        "\n"
        "  and parts/posts.piece:2:5\n"
        "\n"
        "    2      square 3 of cloth\n"
        "           ╌╌╌╌╌╌╌╌ cut here\n"
        "\n"
        "  mend  cut it 9 1/2 across\n"
        "  by way of lantern.piece:9:10  framed, from lantern\n"
        "\n"
        "1 error; `piecewright explain E281` says more\n"
    )


def test_findings_stand_in_reading_order_and_are_counted() -> None:
    text = human([*ALL, WARNING])
    assert text.index("wasteful") < text.index("differ") < text.index("gone.piece")
    assert text.endswith("2 errors, 2 warnings; `piecewright explain E280` says more\n")


def test_no_findings_give_no_text() -> None:
    assert human([]) == "" and short([]) == ""


def test_a_file_that_could_not_be_read_has_a_name_and_no_lines() -> None:
    assert human([ABSENT]).splitlines()[:3] == [
        "error E901  gone.piece cannot be read: there is no such file",
        "  in gone.piece",
        "",
    ]


def test_colour_changes_nothing_but_colour() -> None:
    painted = human(ALL, colour=True)
    assert painted != human(ALL)
    assert ANSI.sub("", painted) == human(ALL)


def test_ascii_only_where_asked_for() -> None:
    assert human(ALL, typed=True).isascii()
    assert "================ finishes 8 1/2" in human(ALL, typed=True)


def test_a_long_row_of_calls_is_cut_in_the_middle() -> None:
    text = human([deep(20)])
    assert "14 more calls" in text
    assert "call 0" in text and "call 19" in text and "call 10" not in text
    assert "more calls" not in human([deep(7)])


def test_short_is_one_line_each() -> None:
    assert short(ALL) == (
        "lantern.piece:2:5: E280 this is wasteful\n"
        "lantern.piece:10:10: E281 these edges differ by 1/2: 8 1/2 on the piece, 9 on the work\n"
        "gone.piece:1:1: E901 gone.piece cannot be read: there is no such file\n"
    )


# ── the marks under a line ──────────────────────────────────────────────────────────────────────


def marked(text: str, words: str, width: int = WIDTH) -> tuple[str, str]:
    source = Source("t", text)
    shown = excerpt(1, (at(words, source),), width)
    return shown.text, " " * shown.marks[0].before + "^" * shown.marks[0].length


@pytest.mark.parametrize(
    ("text", "words", "shown", "marks"),
    [
        ("square 3 of sand", "3", "square 3 of sand", "       ^"),
        ('note "縫い目" here', "here", 'note "縫い目" here', "              ^^^^"),
        ('note "縫い目" here', "い", 'note "縫い目" here', "        ^^"),
        ("cre\u0300me 3", "3", "cre\u0300me 3", "      ^"),
        ("cre\u0300me 3", "cre\u0300me", "cre\u0300me 3", "^^^^^"),
        ("\tsquare 3", "square", "→   square 3", "    ^^^^^^"),
        ("\tsquare 3", "\t", "→   square 3", "^^^^"),
        ("a\x1b[2Jb", "b", "a\ufffd[2Jb", "     ^"),
        ("a\u202eb", "b", "a\ufffdb", "  ^"),
    ],
)
def test_marks_lie_under_the_characters_as_shown(text: str, words: str, shown: str, marks: str) -> None:
    assert marked(text, words) == (shown, marks)


def test_an_empty_place_is_one_column() -> None:
    source = Source("t", "lay\nnote\n")
    assert excerpt(1, (Span(source, 3, 3),), WIDTH).marks == ((3, 1),)
    assert excerpt(3, (Span(source, 9, 9),), WIDTH) == ("", ((0, 1),))


def test_a_place_of_several_lines_is_marked_to_the_end_of_each() -> None:
    source = Source("t", "one two\n  three four\n")
    span = Span(source, 4, 16)
    assert excerpt(1, (span,), WIDTH).marks == ((4, 3),)
    assert excerpt(2, (span,), WIDTH).marks == ((2, 6),)


@pytest.mark.parametrize("place", [0, 1, 150, 250, 399])
def test_a_very_long_line_is_cut_round_its_place(place: int) -> None:
    line = "".join(chr(ord("a") + i % 26) for i in range(400))
    source = Source("t", line)
    shown = excerpt(1, (Span(source, place, place + 1),), 60)
    assert len(shown.text) <= 62
    assert shown.text[shown.marks[0].before] == line[place]
    assert shown.text.startswith("…") == (place > 60) or place in (0, 1)


def test_a_place_longer_than_the_screen_is_shown_from_its_start() -> None:
    text, marks = marked("note " + "x" * 300 + " end", "x" * 300, 40)
    assert text == "…" + "x" * 40 + "…"
    assert marks == " " + "^" * 40


def test_what_a_pattern_says_cannot_move_the_cursor() -> None:
    source = Source("bad\x1b]0;name.piece", 'note "\x1b[31mred"\r')
    one = Diagnostic(
        code="E281",
        severity="error",
        message="the text \x1b[31m is odd",
        labels=(Label(span=Span(source, 0, 4), text="a\x07b"),),
        hint="take\x1b out",
    )
    for text in (human([one]), short([one])):
        assert "\x1b" not in text and "\x07" not in text and "\r" not in text
    assert clean("plain ½ text") == "plain ½ text"
