"""The literate specs, run."""

from __future__ import annotations

from pathlib import Path

import pytest
from piecewright.verbs.table import VERBS
from suite.specs import Spec, holds, marked, marks, run, specs

PAGES = sorted(Path(__file__).parent.glob("*.md"))
SPECS = [spec for page in PAGES for spec in specs(page)]


def test_every_verb_has_a_page() -> None:
    assert set(VERBS) <= {page.stem for page in PAGES}


@pytest.mark.parametrize("spec", SPECS, ids=[f"{n}-{spec.name}" for n, spec in enumerate(SPECS)])
def test_spec(spec: Spec) -> None:
    build, found = run(spec)
    assert marks(found) == marked(spec), [one.message for one in found]
    for line in spec.expected:
        assert holds(line, build, found), (
            line,
            [f"{one.code} at `{one.span.text}`: {one.message} / {one.hint}" for one in found],
            [one.key for one in build.made] if build else (),
        )


def test_a_false_expectation_is_found_out() -> None:
    spec = Spec("", "block tile (sand)\n    square 5 of sand\n", {}, ())
    build, found = run(spec)
    assert holds("tile(sand) is 5 by 5", build, found)
    assert not holds("tile(sand) is 5 by 6", build, found)
    assert not holds("tile(sand) takes 2 square 5 by 5 of sand", build, found)
    assert not holds("E301 at `5`: …", build, found)
