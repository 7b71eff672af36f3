"""The shape of what is read."""

from __future__ import annotations

from pathlib import Path

import pytest
from piecewright.exact import Exact
from piecewright.source import Source
from piecewright.syntax import ast
from piecewright.syntax.parse import parse
from syntax.shapes import all_nodes, parsed, shape

CONSTRUCTIONS = (Path(__file__).parent.parent / "data" / "constructions.piece").read_text(encoding="utf-8")


def test_the_constructions_parse_whole() -> None:
    file = parsed(CONSTRUCTIONS)
    heads: dict[str, int] = {}
    for line in file.lines:
        first = line.sentence.step.parts[0].members[0].items[0]
        assert isinstance(first, ast.Name)
        heads[first.text] = heads.get(first.text, 0) + 1
    at_the_margin = [line.split()[0] for line in CONSTRUCTIONS.splitlines() if line[:1] not in ("", " ", "#")]
    assert heads == {head: at_the_margin.count(head) for head in dict.fromkeys(at_the_margin)}
    rows = sum(isinstance(node, ast.Row) for node in all_nodes(file))
    assert rows == sum("|" in line.split("#")[0] for line in CONSTRUCTIONS.splitlines())
    written = sum(bool(line.split("# ")[0].strip()) and not line.startswith("#") for line in CONSTRUCTIONS.splitlines())
    assert written == rows + sum(isinstance(node, ast.Line) for node in all_nodes(file))


@pytest.mark.parametrize(
    ("line", "expected"),
    [
        ("join rectangle 2 by 4 of sky on top", "[join rectangle 2] by: [4] of: [sky] on: [top]"),
        ("square size + 7/8 of light", "[square {size + 7/8}] of: [light]"),
        ("square 3 1/2 of sky", "[square 7/2] of: [sky]"),
        ("turn 45 right", "[turn 45 right]"),
        ("take goose(2, sky, bird) turned left", "[take goose([2], [sky], [bird]) turned left]"),
        ("unit half-square (size, light)", "[unit half-square([size], [light])]"),
        ("block pinwheel (light, size 6)", "[block pinwheel([light], [size 6])]"),
        ("coped(nine-patch(sand, dusk), clay)", "[coped([nine-patch([sand], [dusk])], [clay])]"),
        ("corner is square quarter + 1/2 of sky", "[corner] is: [square {quarter + 1/2}] of: [sky]"),
        ("rectangle 2 * size + 1/2 by size / 2 of a", "[rectangle {{2 * size} + 1/2}] by: [{size / 2}] of: [a]"),
        ("a is b - c + d / e * f", "[a] is: [{b - c + {d / e * f}}]"),
        ("border 2 of a on left and right, mitred", "[border 2] of: [a] on: [left] and [right], [mitred]"),
        ("cut 3 from left into narrow and wide", "[cut 3] from: [left] into: [narrow] and [wide]"),
        ("trim to 8 by 8, seam on diagonal", "[trim] to: [8] by: [8], [seam] on: [diagonal]"),
        ("trim 1/4 outside points", "[trim 1/4] outside: [points]"),
        ('fabric dusk "midnight", colour "#27355f" # why', "[fabric dusk 'midnight'], [colour '#27355f']"),
        ("gap is width(piece) - diagonal(2 * size)", "[gap] is: [{width([piece]) - diagonal([{2 * size}])}]"),
        ("unit plain ()", "[unit plain()]"),
        ("join on-point of island on ofcut", "[join on-point] of: [island] on: [ofcut]"),
        ("JOIN Goose ON Left", "[join goose] on: [left]"),
        ("join b on bottom, stepped 1 1/2 from left", "[join b] on: [bottom], [stepped 3/2] from: [left]"),
        ("square size-1 of a", "[square size-1] of: [a]"),
        ("a is size+1/2", "[a] is: [{size + 1/2}]"),
        ("a is 4 / 2", "[a] is: [{4 / 2}]"),
        ("on-1 is 2", "[on-1] is: [2]"),
        ("join grün-1 of ÉTÉ on top", "[join grün-1] of: [été] on: [top]"),
    ],
)  # fmt: skip
def test_sentence(line: str, expected: str) -> None:
    assert shape(parsed(line)) == expected


@pytest.mark.parametrize(
    ("written", "value", "unit"),
    [
        ("6", Exact(6), None),
        ("6 1/2", Exact(13, 2), None),
        ("6  1/2", Exact(13, 2), None),
        ('6 1/2"', Exact(13, 2), "inch"),
        ("6 1/2″", Exact(13, 2), "inch"),
        ("6½", Exact(13, 2), None),
        ("6 ½", Exact(13, 2), None),
        ("½”", Exact(1, 2), "inch"),
        ("6 5⁄16", Exact(101, 16), None),
        ("6\u202f⁵⁄₁₆", Exact(101, 16), None),
        ("⁵⁄₁₆", Exact(5, 16), None),
        ("7/8", Exact(7, 8), None),
        ("6.5", Exact(13, 2), None),
        ("16.5 cm", Exact(33, 2), "cm"),
        ("8 mm", Exact(8), "mm"),
        ("8mm", Exact(8), "mm"),
        ("8 CM", Exact(8), "cm"),
        ("0", Exact(0), None),
    ],
)
def test_number(written: str, value: Exact, unit: str | None) -> None:
    (line,) = parsed(f"square {written} of sky").lines
    number = line.sentence.step.parts[0].members[0].items[1]
    assert isinstance(number, ast.Number)
    assert (number.value, number.unit, number.span.text) == (value, unit, written)


def test_a_measure_is_not_the_start_of_a_name() -> None:
    assert shape(parsed("join 8 mm-strip on top")) == "[join 8 mm-strip] on: [top]"


@pytest.mark.parametrize(
    "written", ['"plain"', "“curly”", '“with 6" inside”', '"with “curly” inside"', '""', '"a # b | (c"']
)
def test_text(written: str) -> None:
    (line,) = parsed(f"note {written}  # remark").lines
    text = line.sentence.step.parts[0].members[0].items[1]
    assert isinstance(text, ast.Text)
    assert (text.text, text.span.text) == (written[1:-1], written)


def test_rows() -> None:
    file = parsed("lay 2 by 1\n    | a\n    b | c turned left | d(1, 2)\n")
    assert shape(file) == "[lay 2] by: [1] { | [a]; | [b] | [c turned left] | [d([1], [2])] }"


def test_indentation_may_be_of_any_width() -> None:
    text = "a\n  b\n     c\n     d\n  e\nf\n        g\n"
    assert shape(parsed(text)) == "[a] { [b] { [c]; [d] }; [e] }\n[f] { [g] }"


def test_blank_lines_and_remarks_do_not_matter() -> None:
    text = "\n# head\na   \n\n      # deep\n    b\n# margin\n \t \n    c\n\t# tab before a remark\n"
    assert shape(parsed(text)) == "[a] { [b]; [c] }"


def test_a_mark_of_the_byte_order_is_no_word() -> None:
    assert shape(parsed("\ufeffa\n    b")) == "[a] { [b] }"


def test_lines_that_cannot_be_read_leave_the_others() -> None:
    text = "unit one (a\n    square 2 of a\n"
    text += "unit two (b)\n    square 3 of b\n    cut 3-1/2 from left\n    turn right\nmake 1 of two\n"
    file, found = parse(Source("test.piece", text))
    assert file is not None
    assert [(d.span.line, d.code) for d in found] == [(1, "E104"), (5, "E107")]
    assert shape(file) == "[unit two([b])] { [square 3] of: [b]; [turn right] }\n[make 1] of: [two]"
    assert [line.incomplete for line in file.lines] == [True, False]
    assert file.refused == ("a", "cut", "from", "left", "of", "one", "square", "unit")


def test_a_line_lost_deep_down_leaves_all_above_it_incomplete() -> None:
    file, _ = parse(
        Source("test.piece", "unit a (b)\n    repeat 3\n        turn 2-1\n    turn left\nunit c (b)\n    turn left\n")
    )
    assert file is not None
    first, second = file.lines
    inner = first.children[0]
    assert isinstance(inner, ast.Line)
    assert (first.incomplete, inner.incomplete, second.incomplete) == (True, True, False)


def test_what_stands_under_a_lost_line_is_still_checked() -> None:
    _, found = parse(Source("test.piece", "lay (\n    a | | b\n    c | d |\n"))
    assert [(d.span.line, d.code) for d in found] == [(1, "E104"), (2, "E112"), (3, "E112")]


def test_two_runs_give_the_same() -> None:
    bad = CONSTRUCTIONS.replace("turn right", "turn (right").replace("of light", "of of light")
    runs = [parse(Source("a", bad)) for _ in range(2)]
    said = [[(d.code, d.message, d.hint, d.span.start, d.span.end) for d in found] for _, found in runs]
    assert said[0] == said[1]
    assert len(said[0]) == 12
    assert runs[0][0] is not None and runs[1][0] is not None
    assert shape(runs[0][0]) == shape(runs[1][0])
