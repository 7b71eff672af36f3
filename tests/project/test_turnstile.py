"""Tests that compare timings run alone, however many workers there are."""

from __future__ import annotations

import ast
import json
import subprocess
import sys
import threading
from pathlib import Path

import pytest
from turnstile import Turnstile

TESTS = Path(__file__).parents[1]
CLOCKS = {"perf_counter", "process_time", "monotonic"}
MANY = '''
import json, time
from pathlib import Path
import pytest

@pytest.mark.parametrize("number", range(24))
def test_one(number):
    _stay(number, False)

@pytest.mark.alone
@pytest.mark.parametrize("number", range(6))
def test_alone(number):
    _stay(number, True)

def _stay(number, alone):
    start = time.monotonic()
    time.sleep(0.03)
    path = Path(__file__).parent / f"{alone}-{number}.json"
    path.write_text(json.dumps([start, time.monotonic(), alone]))
'''


def test_who_is_alone_keeps_others_out(tmp_path: Path) -> None:
    first, second = Turnstile(tmp_path), Turnstile(tmp_path)
    entered = threading.Event()

    def enter(alone: bool) -> None:
        with second.passed(alone=alone):
            entered.set()

    for alone, other in ((True, False), (True, True), (False, True)):
        entered.clear()
        thread = threading.Thread(target=enter, args=(other,))
        with first.passed(alone=alone):
            thread.start()
            assert not entered.wait(0.2)
        thread.join(10)
        assert entered.is_set()
    with first.passed(alone=False), second.passed(alone=False):
        pass  # both at once
    first.close()
    second.close()


def test_no_test_runs_beside_one_that_is_alone(tmp_path: Path) -> None:
    for name in ("conftest.py", "turnstile.py"):
        (tmp_path / name).write_text((TESTS / name).read_text(encoding="utf-8"), encoding="utf-8")
    (tmp_path / "test_many.py").write_text(MANY, encoding="utf-8")
    (tmp_path / "pytest.ini").write_text("[pytest]\nmarkers =\n    alone\npythonpath = .\n", encoding="utf-8")
    command = [sys.executable, "-m", "pytest", "-q", "-n", "4", "--dist", "worksteal", "-p", "no:cacheprovider"]
    done = subprocess.run(command, cwd=tmp_path, capture_output=True, text=True)
    assert done.returncode == 0, done.stdout + done.stderr
    times = [json.loads(path.read_text(encoding="utf-8")) for path in tmp_path.glob("*.json")]
    assert len(times) == 30
    together = [
        (one, other)
        for one in times
        for other in times
        if one is not other and one[0] < other[1] and other[0] < one[1]
    ]
    assert together  # workers do run at once
    assert [pair for pair in together if pair[0][2] or pair[1][2]] == []


@pytest.mark.parametrize("path", sorted(TESTS.rglob("test_*.py")), ids=lambda path: path.stem)
def test_what_reads_a_clock_is_marked(path: Path) -> None:
    tree = ast.parse(path.read_text(encoding="utf-8"))
    names = {node.attr for node in ast.walk(tree) if isinstance(node, ast.Attribute)}
    names |= {node.name for node in ast.walk(tree) if isinstance(node, ast.alias)}
    marked = "pytestmark = pytest.mark.alone" in path.read_text(encoding="utf-8").splitlines()
    assert marked or not names & CLOCKS


def test_there_are_clocks_to_find() -> None:
    marked = [path for path in TESTS.rglob("test_*.py") if "\npytestmark = pytest.mark.alone\n" in path.read_text()]
    assert len(marked) >= 7
