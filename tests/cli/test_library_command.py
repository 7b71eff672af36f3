"""`piecewright library`: a list, a search, and a page."""

from __future__ import annotations

import collections
import re
from pathlib import Path

import html5lib
import pytest
from cli.test_cli import Run
from piecewright.evaluate.catalogue import entries
from piecewright.pipeline import library_page


@pytest.fixture
def run(capfd: pytest.CaptureFixture[str], tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Run:
    monkeypatch.chdir(tmp_path)
    return Run(capfd)


def test_all_are_listed(run: Run) -> None:
    ended = run("library")
    assert (ended.code, ended.err) == (0, "")
    for entry in entries():
        for name in entry.parts or (entry.name,):
            assert f"  {entry.heading(name)}\n      {entry.title}\n" in ended.out or entry.parts, name
            assert f"  {entry.heading(name)}\n" in ended.out
    assert run("library").out == ended.out


def test_words_choose(run: Run) -> None:
    ended = run("library", "churn", "PLAIN")
    assert (ended.code, ended.err) == (0, "")
    assert ended.out == (
        "Blocks: nine patch\n"
        "  churn-dash(ground, dasher, size 9 or 24 cm)\n"
        "      Half-square triangle units at the corners, squares of two bars between them, a plain square in the "
        "middle.\n"
        "      Also called hole in the barn door, monkey wrench, love knot.\n"
    )


def test_nothing_found_offers_the_nearest_name(run: Run) -> None:
    ended = run("library", "pinwhel")
    assert (ended.code, ended.out) == (1, "")
    assert ended.err == "the library has nothing with “pinwhel”; did you mean pinwheel?\n"
    ended = run("library", "ducthman's", "puzzel")
    assert (ended.code, ended.out) == (1, "")
    assert run("library", "dutchmans-puzle").err.endswith("; did you mean dutchmans-puzzle?\n")


def test_a_page_is_written_where_it_is_wanted(run: Run) -> None:
    ended = run("library", "pinwheel", "--to", "html")
    assert (ended.code, ended.out, ended.err) == (0, "", f"wrote {Path('build/library.html')}\n")
    page = Path("build/library.html").read_text(encoding="utf-8")
    assert run("library", "pinwheel", "--to", "html", "-o", "page.html").code == 0
    assert Path("page.html").read_text(encoding="utf-8") == page
    assert run("library", "pinwheel", "--to", "html", "-o", "-").out == page


def test_a_file_without_a_format_is_refused(run: Run) -> None:
    assert run("library", "-o", "page.html").code == 2


def test_the_page_is_sound() -> None:
    page = library_page()
    tree = html5lib.HTMLParser(strict=True).parse(page)
    ids = [one.get("id") for one in tree.iter() if one.get("id")]
    assert [name for name, count in collections.Counter(ids).items() if count > 1] == []
    assert not re.search(r"<script|https?://(?!www\.w3\.org/)", page)
    for entry in entries():
        for name in entry.parts or (entry.name,):
            assert f'<li id="{name}">' in page
            assert f"<code>{entry.call(name)}</code>" in page
    assert "<p>Also called hole in the barn door, monkey wrench, love knot.</p>" in page
    assert re.search(r'<li id="churn-dash">.*?Finished 9 × 9 in, 17 pieces', page, re.S)
    assert re.search(r'<li id="half-square-eight-at-a-time">.*?2 pieces, made 8 at a time', page, re.S)
