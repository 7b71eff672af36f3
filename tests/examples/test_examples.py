"""Every example compiles as it stands, gives the same bytes everywhere, and is what it says it is."""

from __future__ import annotations

import os
import re
import shutil
import subprocess
import sys
from functools import cache
from pathlib import Path
from typing import NamedTuple

import pytest
from examples.readme_pictures import EXAMPLES, PICTURES, drawing
from piecewright.evaluate.run import evaluate
from piecewright.kernel.build import Build
from piecewright.kernel.measure import in_balance
from piecewright.pipeline import FORMATS, Compiled, compile_source, emitted
from piecewright.reading import Reader, read_disk

PATTERNS = sorted(path.name for path in EXAMPLES.glob("*.piece"))


class Fact(NamedTuple):
    """The name of a unit, a finished size of it in the pattern's units, how many patches are seen in it, and how many
    pieces of cloth the cut list of the whole pattern counts."""

    unit: str
    across: str
    down: str
    patches: int
    cut: int


FACTS = {
    "01-first-nine-patch.piece": Fact("tea-mat", "6", "6", 9, 9),
    "02-nine-patch-from-strips.piece": Fact("nine-patch", "6", "6", 9, 6),
    "03-rail-fence.piece": Fact("cushion", "12", "12", 48, 6),
    "04-framed-square-rejoined.piece": Fact("ferry-window", "6", "6", 8, 20),
    "05-two-colourways.piece": Fact("shutters", "12", "12", 32, 20),
    "06-log-cabin.piece": Fact("smokehouse", "23/2", "23/2", 21, 73),
    "07-courthouse-steps.piece": Fact("hall-steps", "9", "9", 13, 52),
    "08-pinwheel.piece": Fact("pinwheel", "9", "9", 8, 20),
    "09-star-from-a-table.piece": Fact("ferry-star", "12", "12", 21, 10),
    "10-square-in-a-square.piece": Fact("hatch", "6", "6", 9, 20),
    "11-reeds-reversed.piece": Fact("bank", "10", "4", 10, 12),
    "12-braid.piece": Fact("plait", "13/2", "23/2", 11, 22),
    "13-slice-and-insert.piece": Fact("footpaths", "15/2", "15/2", 7, 12),
    "14-in-centimetres.piece": Fact("bench-mat", "37", "37", 21, 20),
    "15-table-runner.piece": Fact("runner", "34", "16", 89, 30),
    "16-wall-hanging.piece": Fact("hanging", "38", "38", 216, 216),
    "17-river-hanging.piece": Fact("river-hanging", "45", "45", 432, 211),
    "18-vane-sewn-then-cut.piece": Fact("boathouse", "12", "12", 28, 34),
    "19-star-over-the-landing.piece": Fact("framed-star", "23/2", "23/2", 20, 68),
    "21-boat-on-paper.piece": Fact("crossing", "12", "6", 14, 14),
    "20-what-is-in-the-basket.piece": Fact("bench-cover", "28", "22", 136, 112),
    "22-path-by-the-water.piece": Fact("bay", "12", "12", 12, 12),
    "23-cushions-from-fat-quarters.piece": Fact("cushion", "16", "16", 13, 78),
    "24-lamps-on-the-jetty.piece": Fact("jetty-quilt", "43", "61", 249, 259),
    "25-sampler-of-the-landing.piece": Fact("landing-sampler", "48", "48", 372, 171),
    "26-nets-hung-to-dry.piece": Fact("nets", "8 + 21*sqrt(2)", "8 + 28*sqrt(2)", 259, 258),
}


@cache
def compiled(name: str) -> tuple[Compiled, dict[str, str]]:
    made, files = emitted(str(EXAMPLES / name), to=FORMATS)
    return made, dict(files)


@cache
def made(name: str) -> Build:
    reader = Reader(read_disk)
    file, _ = reader.main(str(EXAMPLES / name))
    assert file is not None
    build, _ = evaluate(file, reader.load, {})
    assert build is not None
    return build


def test_there_are_enough() -> None:
    assert len(PATTERNS) >= 10
    numbers = [int(name[:2]) for name in PATTERNS]
    assert numbers == sorted(set(numbers)) and numbers[0] == 1
    assert set(FACTS) == set(PATTERNS)


@pytest.mark.parametrize("name", PATTERNS)
def test_compiles_without_a_finding(name: str) -> None:
    compilation, _ = compiled(name)
    assert [f"{one.code} {one.message}" for one in compilation.diagnostics] == []
    assert compilation.plan is not None
    assert compilation.plan.warnings == ()


@pytest.mark.parametrize("name", PATTERNS)
def test_is_what_it_says(name: str) -> None:
    plan = compiled(name)[0].plan
    assert plan is not None
    fact = FACTS[name]
    sizes = {(unit.finished.width.exact, unit.finished.height.exact) for unit in plan.units if unit.name == fact.unit}
    assert (fact.across, fact.down) in sizes
    assert fact.patches in {len(one.unit.patches) for one in made(name).made if one.name == fact.unit}
    assert sum(cut.count for cut in plan.cuts) == fact.cut


@pytest.mark.parametrize("name", PATTERNS)
def test_no_cloth_comes_or_goes(name: str) -> None:
    units = [one.unit for one in made(name).made]
    assert units
    for unit in units:
        assert in_balance(unit)


@pytest.mark.parametrize("name", PATTERNS)
def test_is_a_lesson(name: str) -> None:
    """It begins with its number; each definition has a remark above it; something is proved; no line is long."""
    lines = (EXAMPLES / name).read_text(encoding="utf-8").splitlines()
    assert lines[0].startswith(f"# {int(name[:2])}  ")
    for number, line in enumerate(lines):
        assert len(line) <= 130, line
        if re.match(r"(unit|block|quilt) ", line):
            assert lines[number - 1].startswith("# "), line
    assert any(line.strip().startswith("expect ") for line in lines)


def build_all(folder: Path, seed: str) -> dict[str, bytes]:
    """All examples, copied into a folder and built there by a new process."""
    shutil.copytree(EXAMPLES, folder / "patterns")
    subprocess.run(
        [sys.executable, "-m", "piecewright", "build", *(f"patterns/{name}" for name in PATTERNS), "-o", "out"],
        cwd=folder,
        env={**os.environ, "PYTHONHASHSEED": seed},
        check=True,
        capture_output=True,
    )
    out = folder / "out"
    return {path.relative_to(out).as_posix(): path.read_bytes() for path in sorted(out.rglob("*")) if path.is_file()}


def test_the_same_bytes_everywhere(tmp_path: Path) -> None:
    one, other = tmp_path / "here", tmp_path / "a longer way" / "there"
    one.mkdir()
    other.mkdir(parents=True)
    first, second = build_all(one, "1"), build_all(other, "4711")
    assert sorted(first) == sorted(second)
    assert [path for path in first if first[path] != second[path]] == []
    for name in PATTERNS:
        folder = name.removesuffix(".piece")
        for file in ("pattern.html", "pattern.md", "cut-list.csv", "plan.json"):
            assert f"{folder}/{file}" in first
        assert any(path.startswith(f"{folder}/figures/") for path in first)
        for path, text in compiled(name)[1].items():
            assert first[f"{folder}/{path}"] == text.encode()


@pytest.mark.parametrize("name", sorted(PICTURES))
def test_the_readme_shows_what_is_made(name: str) -> None:
    picture = EXAMPLES / "pictures" / name
    assert picture.read_text(encoding="utf-8") == drawing(name)
    assert f"examples/pictures/{name}" in (EXAMPLES.parent / "README.md").read_text(encoding="utf-8")


def test_the_readme_quotes_what_is_there() -> None:
    """The lines of its first pattern stand in the example in this order."""
    readme = (EXAMPLES.parent / "README.md").read_text(encoding="utf-8")
    found = re.search(r"^```piece\n(.*?)^```", readme, re.MULTILINE | re.DOTALL)
    assert found is not None
    lines = iter((EXAMPLES / "04-framed-square-rejoined.piece").read_text(encoding="utf-8").splitlines())
    assert [line for line in found[1].splitlines() if line and line not in lines] == []


def test_the_readme_teaches_what_compiles() -> None:
    readme = (EXAMPLES.parent / "README.md").read_text(encoding="utf-8")
    blocks = re.findall(r"^```piece\n(.*?)^```", readme, re.MULTILINE | re.DOTALL)
    whole = [text for text in blocks if text.startswith("pattern ")]
    assert whole
    for text in whole:
        assert compile_source(text).diagnostics == ()
