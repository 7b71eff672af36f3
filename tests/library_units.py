"""Entries of the library as they are made at their default size."""

from __future__ import annotations

from piecewright.evaluate.catalogue import entries, sample
from piecewright.evaluate.run import evaluate
from piecewright.kernel.unit import Unit
from piecewright.reading import Reader, read_nothing


def made(name: str) -> Unit:
    (entry,) = (one for one in entries() if one.name == name)
    reader = Reader(read_nothing)
    file, _ = reader.main("<text>", sample(entry, name))
    assert file is not None
    build, found = evaluate(file, reader.load)
    assert build is not None, found
    (unit,) = (one.unit for one in build.made if one.key == build.demands[0].key)
    return unit
