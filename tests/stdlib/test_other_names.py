"""Other names of what the library has: where they lead, and what they are known from."""

from __future__ import annotations

import csv
import re
import subprocess
import sys
from pathlib import Path

import pytest
from piecewright import compile_source
from piecewright.evaluate.catalogue import entries, found
from piecewright.evaluate.library import index, library_text
from piecewright.evaluate.other_names import OTHER_NAMES, as_name, called_otherwise, meant, other_names
from piecewright.verbs.table import VERBS
from piecewright.verbs.words import RESERVED

FABRICS = "fabric sand, value light\nfabric dusk, value dark\n"
ROWS = Path(__file__).parents[1] / "external" / "check_values.csv"
PRINTED = {"S71": "BL-names", "S73": "BL-names2"}  # where a source's block names stand


def lines() -> list[str]:
    return [line for line in library_text(OTHER_NAMES).splitlines() if not line.startswith("#")]


def hint(used: str) -> str | None:
    (one,) = compile_source(f"{FABRICS}block one\n    take {used}(sand, dusk)\n").diagnostics
    assert one.code == "E202"
    return one.hint


def test_each_is_of_an_entry_and_no_name_of_its_own() -> None:
    names = [line.split(":")[0] for line in lines()]
    assert names == sorted(set(names)) and set(names) <= {entry.name for entry in entries()}
    assert list(other_names()) == names
    for name, others in other_names().items():
        assert len(set(others)) == len(others) > 0
        for other in others:
            assert re.fullmatch(r"[A-Za-z]+('s)?( [A-Za-z]+('s)?|-[a-z]+)*", other), other
            assert as_name(other) not in index() and as_name(other) not in {*VERBS, *RESERVED}, other
            assert name in called_otherwise()[as_name(other)]


def test_a_source_that_is_named_prints_the_name() -> None:
    with ROWS.open(encoding="utf-8", newline="") as file:
        rows = {row["id"]: row for row in csv.DictReader(file)}
    marked = re.findall(r"[:,] ([^:,]+) \[(\w+)\]", "\n".join(lines()))
    assert marked
    for other, source in marked:
        row = rows[PRINTED[source]]
        assert row["source"].startswith(source)
        assert other.lower() in row["expected"].lower().split("; "), other


@pytest.mark.parametrize(
    "words", [("dutchman",), ("Dutchman's", "Puzzle"), ("dutchman’s puzzle",), ("dutchmans-puzzle",)], ids=" ".join
)
def test_an_entry_is_found_by_another_name(words: tuple[str, ...]) -> None:
    (entry,) = found(words)
    assert (entry.name, entry.also) == ("goose-whirl", "Also called Dutchman's puzzle.")


def test_every_other_name_finds_its_entries() -> None:
    for name, stands_for in called_otherwise().items():
        assert set(stands_for) <= {entry.name for entry in found((name,))}


def test_a_pattern_that_uses_another_name_is_told_the_library_s() -> None:
    assert hint("dutchmans-puzzle") == "the library calls it `goose-whirl`"
    stars = "`ohio-star`, `sawtooth-star` or `sawtooth-star-stitch-and-flip`"
    assert hint("variable-star") == f"the library calls it {stars}"
    assert hint("dutchmans-puzle") == "did you mean `dutchmans-puzzle`? The library calls it `goose-whirl`"
    assert hint("goose-whril") == "did you mean `goose-whirl`?"
    assert meant("quite-another-thing", index()) is None


def test_a_fabric_is_no_block_of_the_library() -> None:
    (one,) = compile_source(f"{FABRICS}block one\n    square 4 of windmill\n").diagnostics
    assert (one.code, one.hint) == ("E202", None)


def test_a_pattern_s_own_name_is_not_another_name() -> None:
    makes = "make 2 of windmill(sand)\nmake 1 of windmill(dusk)\n"
    text = f"{FABRICS}block windmill (cloth)\n    square 4 of cloth\n\n{makes}"
    assert not compile_source(text).diagnostics


READS = """
import sys
from piecewright import compile_source
from piecewright.evaluate import other_names
compiled = compile_source(sys.argv[1])
print(len(compiled.diagnostics), other_names.other_names.cache_info().currsize)
"""


@pytest.mark.parametrize(("used", "reads"), [("churn-dash", "0 0"), ("monkey-wrench", "1 1")])
def test_they_are_read_on_the_way_to_an_error_only(used: str, reads: str) -> None:
    text = f"{FABRICS}block one\n    take {used}(sand, dusk)\n"
    ran = subprocess.run([sys.executable, "-c", READS, text], capture_output=True, text=True, check=True)
    assert ran.stdout.strip() == reads
