"""The same plan gives the same bytes, in every run and whatever the order of hashes."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest
from emit import plans
from piecewright.emit import emit

TESTS = Path(__file__).parent.parent
ALL = ("html", "md", "svg", "csv", "json")
PROGRAM = """
import hashlib, sys
sys.path.insert(0, sys.argv[1])
from piecewright.emit import emit
from emit import plans
for name, plan in plans.several().items():
    for path, text in emit(plan, ("html", "md", "svg", "csv", "json")):
        print(name, path, hashlib.sha256(text.encode()).hexdigest())
"""


def test_bytes_do_not_depend_on_the_order_of_hashes() -> None:
    outputs = set()
    for seed in ("0", "1", "4242"):
        done = subprocess.run(
            [sys.executable, "-c", PROGRAM, str(TESTS)],
            env={**os.environ, "PYTHONHASHSEED": seed},
            capture_output=True,
            text=True,
            check=True,
        )
        outputs.add(done.stdout)
    assert len(outputs) == 1 and len(outputs.pop().splitlines()) > 50


@pytest.mark.parametrize("formats", [("html",), ("md",), ("svg",), ("csv",), ("json",), (), ALL])
def test_each_format_is_its_own(formats: tuple[str, ...]) -> None:
    every = dict(emit(plans.lantern(), ALL))
    some = dict(emit(plans.lantern(), formats))
    assert all(every[path] == text for path, text in some.items())
    tops = {"html": ["pattern.html"], "md": ["pattern.md"], "json": ["plan.json"]}
    tops["csv"] = ["cut-list.csv", "cutting.csv"]
    assert {path for path in some if "/" not in path} == {path for one in formats for path in tops.get(one, [])}
    assert any(path.startswith("figures/") for path in some) == ("svg" in formats or "md" in formats)
