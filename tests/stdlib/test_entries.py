"""Every entry of the library, at several sizes and allowances and in centimetres: no mistake, no warning, and it closes
exactly. What has only to be made and looked over is not planned, since cutting cloth to strange sizes takes longest,
and each pattern is made in one test, since workers do not share what they made."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

import pytest
from piecewright import compile_source
from piecewright.evaluate.catalogue import Entry, entries, sample
from piecewright.evaluate.library import library_text
from piecewright.evaluate.run import evaluate
from piecewright.exact import Exact
from piecewright.kernel.build import Build, Made
from piecewright.kernel.measure import finished_area, finished_outline, finished_size, in_balance
from piecewright.kernel.polygon import ZERO, area, clip, is_convex
from piecewright.kernel.unit import Polygon
from piecewright.reading import Reader, read_nothing

ENTRIES = entries()
FILES = tuple(dict.fromkeys(entry.file for entry in ENTRIES))
INCHES = tuple(Fraction(*one) for one in ((1, 2), (3, 4), (1, 1), (3, 2), (2, 1)))  # of the default size
CENTIMETRES = (Fraction(2), Fraction(3))  # for an inch of the default size
IN_CENTIMETRES = "    units cm\n    seam 0.75 cm\n"
INCH_ALLOWANCES = tuple(f"    seam {seam}\n" for seam in ("1/8", "3/8", "1/2"))  # beside 1/4
METRIC_ALLOWANCES = tuple(
    f"    units {units}\n    seam {seam}\n"
    for units, seam in (("cm", "6 mm"), ("mm", "7"), ("cm", "7.5 mm"), ("cm", "1"))
)

by_file = pytest.mark.parametrize("file", FILES)
at_inches = pytest.mark.parametrize("share", INCHES, ids=str)
at_centimetres = pytest.mark.parametrize("share", CENTIMETRES, ids=str)


def default_size(entry: Entry) -> int:
    (size,) = (int(one.split()[1]) for one in entry.parameters if one.split()[0] == "size")
    return size


def metric_size(entry: Entry) -> Fraction:
    """The size that an entry has by itself in a pattern in centimetres: its own, or 2 1/2 for an inch."""
    (words,) = (one.split() for one in entry.parameters if one.split()[0] == "size")
    if len(words) == 2:
        return Fraction(words[1]) * Fraction(5, 2)
    assert words[2] == "or" and words[4] == "cm"
    return Fraction(words[3])


def written(number: Fraction) -> str:
    whole, rest = divmod(number, 1)
    return f"{whole} {rest}" if whole and rest else str(rest or whole)


def pattern(file: str, share: Fraction, settings: str = "") -> str:
    """All entries of a file, each made once at a share of its default size; the whole of it they have by themselves."""
    fabrics: dict[str, str] = {}
    for entry in ENTRIES:
        if entry.file == file:
            for line in sample(entry, entry.name).splitlines():
                if line.startswith("fabric "):
                    fabrics.setdefault(line.split(",")[0], line)
    lines = [f'pattern "{file}"', settings.rstrip("\n"), *fabrics.values()]
    for entry in ENTRIES:
        if entry.file == file:
            size = (f"size {written(default_size(entry) * share)}",) if share != 1 else ()
            for name in entry.parts or (entry.name,):
                lines.append(f"make 1 of {name}({', '.join((*entry.fabrics, *size))})")
    return "\n".join(lines) + "\n"


def looked_over(file: str, share: Fraction, settings: str = "") -> tuple[Build, list[tuple[str, str]]]:
    """What a pattern makes, and its warnings."""
    reader = Reader(read_nothing)
    read, found = reader.main("<text>", pattern(file, share, settings))
    assert read is not None and not found
    build, more = evaluate(read, reader.load, {})
    told = [(one.code, f"{one.message} {one.trace}") for one in more]
    assert build is not None, told
    return build, told


def asked(build: Build) -> list[Made]:
    keys = {demand.key for demand in build.demands}
    return [made for made in build.made if made.key in keys]


@by_file
@at_inches
def test_an_entry_closes_without_a_warning_at_several_sizes(file: str, share: Fraction) -> None:
    build, told = looked_over(file, share)
    assert told == []
    fill_their_outlines(build)
    finish_at(build, {entry.name: default_size(entry) * share for entry in ENTRIES})


@by_file
@at_centimetres
def test_no_mistake_and_no_warning_in_centimetres(file: str, share: Fraction) -> None:
    """What an entry cuts between the marks of a ruler in millimetres (three or five seams of 7.5) its notes say."""
    assert looked_over(file, share, IN_CENTIMETRES)[1] == []


@by_file
@pytest.mark.parametrize("settings", INCH_ALLOWANCES, ids=lambda one: one.strip())
def test_no_mistake_and_no_warning_at_other_allowances(file: str, settings: str) -> None:
    build, told = looked_over(file, Fraction(1), settings)
    assert told == []
    finish_at(build, {entry.name: Fraction(default_size(entry)) for entry in ENTRIES})


@by_file
@pytest.mark.parametrize("settings", METRIC_ALLOWANCES, ids=lambda one: "-".join(one.split()))
def test_by_itself_an_entry_is_of_round_centimetres(file: str, settings: str) -> None:
    """No inches converted: nothing then lies between the ruler's marks."""
    build, told = looked_over(file, Fraction(1), settings)
    assert told == []
    finish_at(build, {entry.name: metric_size(entry) / Fraction(127, 50) for entry in ENTRIES})


@pytest.mark.parametrize("entry", ENTRIES, ids=lambda entry: entry.name)
def test_its_centimetres_are_near_its_inches(entry: Entry) -> None:
    assert Fraction(3, 4) < metric_size(entry) / Fraction(127, 50) / default_size(entry) < Fraction(5, 4)


@by_file
def test_it_is_planned_without_a_warning(file: str) -> None:
    compiled = compile_source(pattern(file, Fraction(1)))
    assert compiled.plan is not None and compiled.plan.warnings == () and compiled.diagnostics == ()


def fill_their_outlines(build: Build) -> None:
    """Cloth in is cloth seen and what went under; and within the seam lines the patches add up to the block."""
    for made in asked(build):
        assert in_balance(made.unit), made.key
        outline = finished_outline(made.unit)
        if is_convex(outline):
            # what a curve divides lies in the same cells on both sides of it; it is counted with what lies outside
            discs = [disc for patch in made.unit.patches for disc in patch.discs]
            rounds = [disc.radius * disc.radius * (1 if disc.inside else -1) for disc in discs]
            assert sum(rounds, ZERO) == ZERO, made.key
            outside = [patch for patch in made.unit.patches if not any(disc.inside for disc in patch.discs)]
            cells = [cell for patch in outside for cell in patch.cells]
            assert sum((area(cell) for cell in clipped(cells, outline)), ZERO) == finished_area(made.unit), made.key


def clipped(cells: list[Polygon], outline: Polygon) -> list[Polygon]:
    """What of the cells lies within a convex outline."""
    for start, end in zip(outline, outline[1:] + outline[:1], strict=True):
        cells = [part for part in (clip(cell, start, end - start)[0] for cell in cells) if part]
    return cells


# What finishes at another size than the parameter says; each description says so.
OTHERWISE = {
    "eight-pointed-star": "a diamond's height",
    "babys-blocks": "a diamond's height",
    "lone-star": "a diamond's height",
    "six-pointed-star": "a diamond's height",
    "braid": "its width",
    "herringbone": "its base",
    "quartered-nine-patch": "the nine patch before it is cut",
}


def finish_at(build: Build, sizes: Mapping[str, Fraction]) -> None:
    """Every block is as large as its size says, in inches."""
    for made in asked(build):
        if made.kind == "block" and made.name not in OTHERWISE:
            size = Exact(sizes[made.name].numerator, sizes[made.name].denominator)
            assert finished_size(made.unit) == (size, size), made.key


@pytest.mark.parametrize("entry", ENTRIES, ids=lambda entry: entry.name)
def test_each_is_described_and_called_alike(entry: Entry) -> None:
    assert entry.about.endswith(".") and "  " not in entry.about
    assert entry.title[0].isupper() and len(entry.title) < 130
    names = [one.split()[0] for one in entry.parameters]
    assert names[: len(entry.fabrics)] == list(entry.fabrics), "fabrics come first"
    assert names.count("size") == 1


@by_file
def test_a_file_is_one_concept(file: str) -> None:
    assert len(library_text(file).splitlines()) < 400


def test_there_are_many() -> None:
    kinds = [entry.kind for entry in ENTRIES]
    assert kinds.count("unit") >= 90
    assert kinds.count("block") >= 100
