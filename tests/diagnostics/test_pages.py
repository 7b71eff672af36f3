"""Every code has a page and every page a code; the failing and the mended example of each are run."""

from __future__ import annotations

import re
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


def test_every_code_the_compiler_uses_is_registered() -> None:
    package = Path(pipeline.__file__).parent
    used = {code for path in package.rglob("*.py") for code in re.findall(r'"([EW]\d{3})"', path.read_text("utf-8"))}
    assert used == set(CODES)


@pytest.mark.parametrize("code", sorted(CODES))
def test_a_code_says_how_severe_it_is(code: str) -> None:
    assert CODES[code].severity in (("warning", "note") if code[0] == "W" else ("error",))
    assert CODES[code].title and not CODES[code].title.endswith(".")


@pytest.mark.parametrize("code", names())
def test_a_page_has_its_title_and_headings(code: str) -> None:
    assert text(code).startswith(f"# {code}: {CODES[code].title}\n")
    assert tuple(sections(code)) == HEADINGS
    assert explain(code.lower()) == text(code)


def runs(section: str, folder: Path, monkeypatch: pytest.MonkeyPatch) -> list[tuple[Diagnostic, ...]]:
    """What each example of a section gives in a folder of its own, the named files beside it. A pattern is
    planned, so that everything that can be said about it is said."""
    group = blocks(section)
    if group[0].language == "sh":
        monkeypatch.chdir(folder)
        return [commands(group[0], monkeypatch)]
    found: list[tuple[Diagnostic, ...]] = []
    for number, main in enumerate(block for block in group if not block.named):
        place = folder / str(number)
        place.mkdir()
        for block in (main, *(block for block in group if block.named)):
            (place / block.name).write_bytes(block.text.encode(block.encoding))
        monkeypatch.chdir(place)
        found.append(pipeline.compile_file(main.name).diagnostics)
    return found


def commands(block: Block, monkeypatch: pytest.MonkeyPatch) -> tuple[Diagnostic, ...]:
    shown: list[Diagnostic] = []
    monkeypatch.setattr(cli.said, "show", shown.extend)
    for line in block.text.splitlines():
        command, *arguments = shlex.split(line)
        assert command == "piecewright"
        with pytest.raises(SystemExit):
            cli.main(arguments)
    return tuple(shown)


@pytest.mark.parametrize("code", names())
def test_each_example_fails_with_this_code_once(code: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    found = runs(sections(code)["Example"], tmp_path, monkeypatch)
    assert found
    for one in found:
        assert [diagnostic.code for diagnostic in one] == [code], [diagnostic.message for diagnostic in one]
        assert one[0].severity == CODES[code].severity
        assert not one[0].message.endswith(".") and not (one[0].hint or "").endswith(".")


@pytest.mark.parametrize("code", names())
def test_each_mended_example_is_clean(code: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    found = runs(sections(code)["Use instead"], tmp_path, monkeypatch)
    assert found
    # a page of a mistake may show work that is only unwise
    matters = [diagnostic for one in found for diagnostic in one if diagnostic.severity == "error" or code[0] == "W"]
    assert [f"{diagnostic.code} {diagnostic.message}" for diagnostic in matters] == []


def test_there_is_no_page_for_what_is_no_code() -> None:
    assert explain("E000") is None and explain("../codes") is None
