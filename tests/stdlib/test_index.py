"""The index of the library's files, and what a pattern reads of them."""

from __future__ import annotations

import os
import subprocess
import sys

import pytest
from piecewright import compile_source
from piecewright.evaluate import library
from piecewright.evaluate.catalogue import entries, entries_of, found, index_text
from piecewright.evaluate.library import INDEX, index, library_file, library_folder, library_text
from piecewright.source import Source
from piecewright.syntax.ast import File
from piecewright.syntax.parse import parse
from piecewright.verbs.table import VERBS
from piecewright.verbs.words import RESERVED

FABRICS = "fabric sand, value light\nfabric dusk, value dark\n"


def parsed(text: str) -> File:
    file, found = parse(Source("<library>/c.piece", text))
    assert file is not None and not found
    return file


def test_the_index_is_up_to_date_and_no_name_is_defined_twice() -> None:
    assert library_text(INDEX) == index_text(library_folder())


def test_two_definitions_of_a_name_are_found(tmp_path: object) -> None:
    folder = str(tmp_path)
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(library, "library_folder", lambda: folder)
        for file in ("a.piece", "b.piece"):
            with open(os.path.join(folder, file), "w", encoding="utf-8") as out:
                out.write("unit tip (cloth)\n    square 4 of cloth\n")
        with pytest.raises(ValueError, match="`tip` is defined twice"):
            entries_of(parsed("unit tip (cloth)\n    square 4 of cloth\n" * 2), "c.piece")
        with pytest.raises(ValueError, match=r"b\.piece and a\.piece both define tip"):
            index_text(folder)


def test_no_name_is_a_word_of_the_language() -> None:
    names = [*index(), *(one.split()[0] for entry in entries() for one in entry.parameters)]
    assert [name for name in names if name in VERBS or name in RESERVED] == []


def test_every_name_is_in_the_file_that_the_index_says() -> None:
    for entry in entries():
        for name in (entry.name, *entry.parts):
            assert index()[name] == (entry.file, entry.name)
            file = library_file(name)
            assert file is not None and file.source.name == f"<library>/{entry.file}"
            (line,) = file.lines
            assert library_text(entry.file).splitlines()[line.span.line - 1] == file.source.line_text(line.span.line)
            (alone,) = entries_of(file, entry.file)
            assert alone == entry


def test_words_find_what_has_them_all() -> None:
    assert [entry.name for entry in found(("hourglass", "TRIANGLES"))] != []
    for entry in found(("hourglass", "TRIANGLES")):
        assert "hourglass" in (entry.name + entry.about).lower()
    assert found(("no-such-thing",)) == ()
    assert found(()) == entries()


READS = """
import sys
from piecewright import compile_source
from piecewright.evaluate import library
compiled = compile_source(sys.argv[1])
assert not compiled.diagnostics, compiled.diagnostics
print(library._definition.cache_info().currsize, library.index.cache_info().currsize)
"""


@pytest.mark.parametrize(
    ("block", "reads"),
    [
        ("square 4 of sand\n    border 2 of dusk", "0 0"),
        ("take pair-from-strips(sand, dusk)", "1 1"),
        ("take churn-dash(sand, dusk)", "3 1"),
    ],
)
def test_a_pattern_reads_only_the_definitions_it_needs(block: str, reads: str) -> None:
    text = f"{FABRICS}block one\n    {block}\n"
    ran = subprocess.run([sys.executable, "-c", READS, text], capture_output=True, text=True, check=True)
    assert ran.stdout.strip() == reads


def test_a_mistake_within_is_told_at_the_pattern_s_line() -> None:
    text = f"{FABRICS}block one\n    take churn-dash(sand, dusk, size 0)\n"
    one = compile_source(text, name="mine.piece").diagnostics[0]
    assert (one.span.source.name, one.span.text) == ("mine.piece", "churn-dash(sand, dusk, size 0)")
    assert one.trace and all(label.span.source.name.startswith("<library>/") for label in one.trace)


def test_a_misspelt_name_finds_the_nearest() -> None:
    text = f"{FABRICS}block one\n    take chrun-dash(sand, dusk)\n"
    (one,) = compile_source(text).diagnostics
    assert (one.code, one.hint) == ("E202", "did you mean `churn-dash`?")


def test_the_pattern_s_own_name_wins_and_the_library_keeps_its_own() -> None:
    text = f"""{FABRICS}
unit half-square-two-at-a-time (light, dark, size 3)
    square 9 of light

block mine
    take half-square-two-at-a-time(sand, dusk, 4)
    expect 9 by 9

block theirs
    take pinwheel(sand, dusk)
    expect 6 1/2 by 6 1/2
"""
    assert not compile_source(text).diagnostics


def test_the_remark_above_is_the_description() -> None:
    plan = compile_source(f"{FABRICS}# ── A square ──\n# of cloth.\nblock one\n    square 4 of sand\n").plan
    assert plan is not None and plan.units[0].description == "A square of cloth."
    apart = compile_source(f"# A heading.\n\n{FABRICS}block one\n    square 4 of sand\n").plan
    assert apart is not None and apart.units[0].description == ""
