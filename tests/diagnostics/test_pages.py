"""Every code has a page and every page a code; the failing and the mended example of each are run."""

from __future__ import annotations

import shlex
from pathlib import Path

import pytest
from diagnostics.pages import HEADINGS, Block, blocks, names, sections, text
from piecewright import cli, pipeline
from piecewright.diagnostics.codes import CODES
from piecewright.diagnostics.explain import explain
from piecewright.diagnostics.model import Diagnostic


def test_every_code_has_a_page_and_every_page_a_code() -> None:
    assert names() == sorted(CODES)


@pytest.mark.parametrize("code", sorted(CODES))
def test_a_code_says_how_severe_it_is(code: str) -> None:
    assert CODES[code].severity == ("warning" if code[0] == "W" else "error")
    assert CODES[code].title and not CODES[code].title.endswith(".")


@pytest.mark.parametrize("code", names())
def test_a_page_has_its_title_and_headings(code: str) -> None:
    assert text(code).startswith(f"# {code}: {CODES[code].title}\n")
    assert tuple(sections(code)) == HEADINGS
    assert explain(code.lower()) == text(code)


def run(group: list[Block], folder: Path, monkeypatch: pytest.MonkeyPatch) -> tuple[Diagnostic, ...]:
    """What the blocks of one section give when they are run in an empty folder: a pattern is planned, so
    that everything that can be said about it is said."""
    monkeypatch.chdir(folder)
    if group[0].language == "piece":
        for block in group:
            Path(block.name).write_bytes(block.text.encode(block.encoding))
        return pipeline.compile_file(group[0].name).diagnostics
    shown: list[Diagnostic] = []
    monkeypatch.setattr(cli, "_show", shown.extend)
    for line in group[0].text.splitlines():
        command, *arguments = shlex.split(line)
        assert command == "piecewright"
        with pytest.raises(SystemExit):
            cli.main(arguments)
    return tuple(shown)


@pytest.mark.parametrize("code", names())
def test_the_example_fails_with_this_code_and_no_other(
    code: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    found = run(blocks(sections(code)["Example"]), tmp_path, monkeypatch)
    assert {one.code for one in found} == {code}, [one.message for one in found]
    for one in found:
        assert one.severity == CODES[code].severity
        assert not one.message.endswith(".") and (one.hint is None or not one.hint.endswith("."))


@pytest.mark.parametrize("code", names())
def test_the_mended_example_is_clean(code: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    found = run(blocks(sections(code)["Use instead"]), tmp_path, monkeypatch)
    assert [f"{one.code} {one.message}" for one in found] == []


def test_there_is_no_page_for_what_is_no_code() -> None:
    assert explain("E000") is None and explain("../codes") is None
