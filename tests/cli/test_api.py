"""The compiler as a library, and how it reads files."""

from __future__ import annotations

import os
from importlib.resources import files
from pathlib import Path

import piecewright
import pytest
from piecewright import pipeline, reading
from piecewright.reading import Reader, decoded, read_disk
from piecewright.source import Source, Span
from piecewright.syntax.ast import File

STARTER = files("piecewright").joinpath("starter.piece").read_text(encoding="utf-8")
PATCH = "unit patch (size)\n    square size of sand\n\nmake 2 of patch(3)\n"
CLOTH = 'fabric sand "oat linen", colour "#d8c7a0"\n'


def codes(compiled: piecewright.Compiled) -> list[str]:
    return [one.code for one in compiled.diagnostics]


def test_a_text_gives_a_plan() -> None:
    compiled = piecewright.compile_source(STARTER)
    assert compiled.diagnostics == () and not compiled.failed
    assert compiled.plan is not None and compiled.plan.title == "First block"


def test_a_wrong_text_gives_diagnostics_and_no_plan() -> None:
    compiled = piecewright.compile_source("unit a (light)\n    squre 3 of light\n", name="a.piece")
    assert compiled.plan is None and compiled.failed
    assert compiled.diagnostics[0].span.source.name == "a.piece"


def test_all_lines_are_checked_and_each_mistake_is_said_once() -> None:
    steps = ("squre 3 of light", "square 6 5/4 of light", "sqare 2 of light")
    text = "\n".join(f"unit {name} (light)\n    {step}\n" for name, step in zip("abc", steps, strict=True))
    assert len(codes(piecewright.compile_source(text))) == 3


def test_a_text_alone_reads_no_files(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "cloth.piece").write_text(CLOTH, encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    compiled = piecewright.compile_source('use "cloth.piece"\n' + PATCH)
    assert "E280" in codes(compiled)


def test_a_text_with_files_of_its_own() -> None:
    asked: list[str] = []

    def load(name: str) -> str:
        asked.append(name)
        return CLOTH

    compiled = piecewright.compile_source('use "../cloth.piece"\n' + PATCH, name="blocks/a.piece", load=load)
    assert compiled.diagnostics == () and compiled.plan is not None
    assert asked == ["cloth.piece"]


def test_build_writes_and_names_what_it_wrote(tmp_path: Path) -> None:
    (tmp_path / "star.piece").write_text(STARTER, encoding="utf-8")
    built = piecewright.build(tmp_path / "star.piece", tmp_path / "out", to=("json", "csv"))
    assert built.written == tuple(
        str(tmp_path / "out" / name) for name in ("cut-list.csv", "cutting.csv", "plan.json")
    )
    assert all(Path(path).is_file() for path in built.written)


def test_build_refuses_a_format_it_does_not_know(tmp_path: Path) -> None:
    with pytest.raises(ValueError, match="'docx'"):
        piecewright.build(tmp_path / "star.piece", to=("docx",))


def test_settings_are_handed_on() -> None:
    unit = "unit patch (wide)\n    square wide of sand\n    expect 4 by 4\n"
    text = f"size is 3\n{CLOTH}{unit}make 2 of patch(size)\n"
    assert codes(piecewright.compile_source(text)) != []
    assert codes(piecewright.compile_source(text, settings={"size": "4"})) == []


@pytest.mark.parametrize("settings", [{"gone": "3"}, {"size": "squre"}, {"size": "6 5/4"}, {"seam": "-"}])
def test_a_setting_that_is_wrong_is_a_diagnostic(settings: dict[str, str]) -> None:
    compiled = piecewright.compile_source("size is 3\n" + CLOTH + "make 2 of square size of sand\n", settings=settings)
    assert compiled.failed


def test_the_package_says_what_it_has_not() -> None:
    with pytest.raises(AttributeError, match="sew"):
        piecewright.sew  # type: ignore[attr-defined]  # noqa: B018


# ── reading ─────────────────────────────────────────────────────────────────────────────────────


@pytest.mark.parametrize(
    "contents", [b"a\nb\n", b"a\r\nb\r\n", b"a\rb\r", b"\xef\xbb\xbfa\nb\n", "a\r\nb\n", "\ufeffa\nb\n"]
)
def test_line_ends_and_byte_order_mark(contents: bytes | str) -> None:
    source = decoded("a.piece", contents)
    assert isinstance(source, Source) and source.text == "a\nb\n"


@pytest.mark.parametrize(
    ("contents", "line", "column"),
    [(b"\xff", 1, 1), (b"one\r\ntwo \xe9 three", 2, 5), (b"\xef\xbb\xbfab\xc3", 1, 3), ("½ ".encode() + b"\xbd", 1, 3)],
)
def test_the_place_of_a_wrong_byte(contents: bytes, line: int, column: int) -> None:
    found = decoded("a.piece", contents)
    assert not isinstance(found, Source) and found.code == "E190"
    assert (found.span.line, found.span.column, found.span.text) == (line, column, "\ufffd")


def using(reader: Reader, name: str, text: str, written: str) -> File | tuple[piecewright.pipeline.Diagnostic, ...]:
    source = Source(name, text)
    return reader.load(written, Span(source, 0, len(text)))


def reader_of(**texts: str) -> Reader:
    """A reader of files that lie in memory; `__` in a name stands for `/`."""

    def read(name: str) -> str:
        try:
            return texts[name.replace(os.sep, "__").removesuffix(".piece")]
        except KeyError:
            raise FileNotFoundError(2, "no such file", name) from None

    return Reader(read)


def test_a_used_file_is_looked_for_beside_the_one_that_uses_it() -> None:
    reader = reader_of(parts__posts=CLOTH)
    file = using(reader, os.path.join("parts", "a.piece"), 'use "posts.piece"', "posts.piece")
    assert isinstance(file, File) and file.source.name == os.path.join("parts", "posts.piece")
    assert using(reader, "a.piece", 'use "parts/posts.piece"', "parts/posts.piece") is file


def test_a_missing_file_is_said_once() -> None:
    reader = reader_of()
    first = using(reader, "a.piece", 'use "b.piece"', "b.piece")
    assert isinstance(first, tuple) and [one.code for one in first] == ["E280"]
    assert using(reader, "a.piece", 'use "b.piece"', "b.piece") == ()


def test_a_near_name_is_suggested(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    (tmp_path / "cloth.piece").write_text(CLOTH, encoding="utf-8")
    for written in ("clolh.piece", "cloth"):
        found = using(Reader(read_disk), "a.piece", f'use "{written}"', written)
        assert isinstance(found, tuple) and found[0].hint == "there is “cloth.piece” in that folder"


@pytest.mark.parametrize("written", ["nul\0.piece", "x" * 5000 + ".piece", ".", "a.piece/b.piece"])
def test_names_no_file_can_have(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, written: str) -> None:
    monkeypatch.chdir(tmp_path)
    (tmp_path / "a.piece").write_text(CLOTH, encoding="utf-8")
    found = using(Reader(read_disk), "main.piece", "use", written)
    assert isinstance(found, tuple) and [one.code for one in found] == ["E280"]


@pytest.mark.parametrize("length", [1, 2, 5])
def test_a_circle_of_files(length: int) -> None:
    names = [f"f{number}" for number in range(length)]
    texts = {name: f'use "{after}.piece"\n' for name, after in zip(names, [*names[1:], names[0]], strict=True)}
    reader = reader_of(**texts)
    for number in range(length):
        written = f"f{(number + 1) % length}.piece"
        found = using(reader, f"f{number}.piece", texts[f"f{number}"], written)
        assert isinstance(found, File) == (number < length - 1)
    assert isinstance(found, tuple) and [one.code for one in found] == ["E281"]
    assert len(found[0].labels) == length


def test_two_ways_to_one_file_are_no_circle() -> None:
    reader = reader_of(left=CLOTH, right=CLOTH, base=CLOTH)
    for name, written in [("a", "left"), ("a", "right"), ("left", "base"), ("right", "base")]:
        assert isinstance(using(reader, f"{name}.piece", "use", f"{written}.piece"), File)


def test_a_file_that_may_not_be_read(monkeypatch: pytest.MonkeyPatch) -> None:
    def refuses(*_: object) -> None:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(reading, "open", refuses, raising=False)
    (found,) = pipeline.check_file("a.piece")
    assert found.code == "E901" and "not allowed" in found.message


def test_a_disk_that_fails_is_told_in_words(monkeypatch: pytest.MonkeyPatch) -> None:
    assert reading.why(OSError(13, "Permission denied")) == "reading it is not allowed"
    assert reading.why(OSError(5, "Input/output error")) == "input/output error"
    assert reading.why(OSError("odd")) == "the disk gave no reason"
