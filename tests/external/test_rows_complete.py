"""No row of the table is lost: each is checked by a test that names its source, or listed with its reason."""

from __future__ import annotations

import importlib
from pathlib import Path

import pytest
from external import rows

FOLDER = Path(__file__).parent


def checked() -> dict[str, str]:
    """The rows that the test files of this folder check; importing a file enters its rows."""
    for file in sorted(FOLDER.glob("test_*.py")):
        if file.stem != Path(__file__).stem:
            importlib.import_module(f"external.{file.stem}")
    return rows.CHECKED


def test_every_row_is_checked_or_listed() -> None:
    listed = [entry.id for entry in rows.later()]
    assert len(listed) == len(set(listed))
    done = checked()
    assert sorted(set(rows.ROWS) - set(done) - set(listed)) == []
    assert sorted(set(done) & set(listed)) == []
    assert sorted(set(listed) - set(rows.ROWS)) == []


def test_at_least_120_rows_are_checked() -> None:
    assert len(checked()) >= 120


def test_wrong_values_that_were_printed_are_among_them() -> None:
    wrong = {row.id for row in rows.ROWS.values() if "REJECT" in row.expected or "ERRATUM" in row.notes}
    assert len(wrong) >= 7
    assert sorted(wrong - set(checked())) == []


def test_a_row_cannot_be_checked_under_another_source() -> None:
    with pytest.raises(ValueError, match="comes from"):
        rows.row("SA-01", "S99 somebody else")
    with pytest.raises(KeyError):
        rows.row("SA-99", "S01")


@pytest.mark.parametrize("entry", rows.later(), ids=lambda entry: entry.id)
def test_a_row_for_later_says_what_it_needs(entry: rows.Later) -> None:
    assert entry.needs
    assert len(entry.reason.split()) >= 4
