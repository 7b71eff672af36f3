"""The rows of `check_values.csv`, and the book-keeping of which tests check which.

A test names the rows it checks and, beside each, the source it leans on, in the words of the row; so
nobody can check a number and forget where it comes from. `test_rows_complete.py` reads the ledger.
"""

from __future__ import annotations

import csv
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import Any, TypeVar

import pytest

FOLDER = Path(__file__).parent
DERIVED = "derived here"
NO_SOURCE = "common practice, no source"
FROM_MEMORY = "from memory"

Test = TypeVar("Test", bound=Callable[..., Any])


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One line of the table. `expected` and `inputs` are as printed by the source."""

    id: str
    topic: str
    inputs: str
    expected: str
    tolerance: str
    source_kind: str
    source: str
    notes: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Later:
    """A row that cannot be checked yet, and why."""

    id: str
    needs: str
    reason: str


def table() -> dict[str, Row]:
    with (FOLDER / "check_values.csv").open(encoding="utf-8", newline="") as stream:
        return {line["id"]: Row(**line) for line in csv.DictReader(stream)}


def later() -> tuple[Later, ...]:
    with (FOLDER / "later.csv").open(encoding="utf-8", newline="") as stream:
        return tuple(Later(**line) for line in csv.DictReader(stream))


ROWS = table()
CHECKED: dict[str, str] = {}  # row id -> the source named beside the check


def _enter(row: str, source: str) -> None:
    if row not in ROWS:
        raise KeyError(f"{row} is no row of check_values.csv")
    if source not in ROWS[row].source:
        raise ValueError(f"{row} comes from {ROWS[row].source!r}, not from {source!r}")
    CHECKED[row] = source


def row(row_id: str, source: str) -> Callable[[Test], Test]:
    """Mark a test as the check of one row; `source` stands in the row's own source column."""
    _enter(row_id, source)

    def mark(test: Test) -> Test:
        return test

    return mark


def rows(names: str | tuple[str, ...], *entries: tuple[Any, ...]) -> pytest.MarkDecorator:
    """Like `pytest.mark.parametrize`, each entry led by its row's id and source."""
    for row_id, source, *_ in entries:
        _enter(row_id, source)
    return pytest.mark.parametrize(names, [pytest.param(*values, id=row_id) for row_id, _, *values in entries])
