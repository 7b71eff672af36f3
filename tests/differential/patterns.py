"""Patterns as the compiler makes them: the examples, and random step sequences written as texts."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from differential.random_steps import Sequence, sequence, text
from differential.references import Nearly
from differential.sew_steps import sewn
from piecewright.evaluate.catalogue import Entry, entries, sample
from piecewright.evaluate.run import evaluate
from piecewright.kernel.build import Build
from piecewright.kernel.unit import Unit
from piecewright.reading import Reader, read_disk, read_nothing

EXAMPLES = tuple(sorted((Path(__file__).parents[2] / "examples").glob("*.piece")))
LIBRARY = entries()
SEEDS = range(500)


@cache
def example(file: Path) -> Build:
    return _build(Reader(read_disk), str(file), None)


@cache
def entry_build(entry: Entry, mirrored: bool) -> Build:
    """An entry of the library at its default size, or its mirror twin."""
    text = sample(entry, (*entry.parts, entry.name)[0]).rstrip("\n")
    return _build(Reader(read_nothing), "<text>", f"{text} reversed\n" if mirrored else f"{text}\n")


@cache
def random_sequence(seed: int) -> Sequence:
    nearly = Nearly()
    return sequence(seed, lambda steps: nearly.same_after_half_a_turn(sewn(steps, nearly)))


@cache
def random_build(seed: int) -> Build:
    return _build(Reader(read_nothing), f"<seed {seed}>", text(random_sequence(seed)))


def whole(build: Build) -> Unit:
    """What a random sequence ends in."""
    return next(made.unit for made in build.made if made.name == "whole")


def _build(reader: Reader, name: str, contents: str | None) -> Build:
    file, found = reader.main(name, contents)
    assert file is not None, found
    build, more = evaluate(file, reader.load, {})
    assert build is not None, [(one.code, one.message) for one in more]
    return build
