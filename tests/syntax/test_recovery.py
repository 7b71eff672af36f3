"""A line that cannot be read is one finding: whatever hangs on it is not blamed as well."""

from __future__ import annotations

from pathlib import Path

import pytest
from piecewright.pipeline import compile_source

EXAMPLES = Path(__file__).parents[2] / "examples"
EVERY = 5  # lines from one that is broken to the next, so that the test stays quick


def broken() -> list[tuple[str, int]]:
    """Lines of the examples that stand alone, by file and number."""
    found = []
    for file in sorted(EXAMPLES.glob("*.piece")):
        text = file.read_text(encoding="utf-8")
        if "\nuse " in f"\n{text}":
            continue
        written = [n for n, line in enumerate(text.split("\n")) if line.strip() and line.lstrip()[0] != "#"]
        found += [(file.name, n) for n in written]
    return found[::EVERY]


@pytest.mark.parametrize(("name", "number"), broken())
def test_one_line_broken(name: str, number: int) -> None:
    lines = (EXAMPLES / name).read_text(encoding="utf-8").split("\n")
    lines[number] = lines[number].split(" # ")[0] + " ) of"
    errors = [d for d in compile_source("\n".join(lines)).diagnostics if d.severity == "error"]
    assert [(d.span.line, d.code) for d in errors] == [(number + 1, "E104")]


def test_settings_that_cannot_be_read_leave_the_sizes_unjudged() -> None:
    text = 'pattern "P"\n    seam 0.75 cm cm)\nblock a (b)\n    square 3 of b\n    border 1 of b\n    expect 5 by 5\n'
    assert [d.code for d in compile_source(text).diagnostics] == ["E104"]
    assert [d.code for d in compile_source(text.replace("    seam 0.75 cm cm)\n", "")).diagnostics] == ["E401"]


def test_what_a_line_under_a_lost_one_would_name_is_not_unknown() -> None:
    text = "unit slashed (ground\n    square 9 of ground\n    cut 3 from left into narrow and wide\n"
    text += "block crossed (ground)\n    take narrow(ground)\n    join wide(ground) on right\n"
    assert [d.code for d in compile_source(text).diagnostics] == ["E104"]
