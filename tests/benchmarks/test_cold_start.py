"""How long a command takes as a new process, against an interpreter that does nothing.

Ratios within one run, so that they mean the same on any computer: of both, the shortest of several runs
made in turn, which other work on the computer can lengthen but not shorten.
"""

from __future__ import annotations

import os
import subprocess
import sys
import time
from collections.abc import Sequence
from pathlib import Path

import pytest

pytestmark = pytest.mark.alone

EXAMPLES = Path(__file__).parents[2] / "examples"
NOTHING = ("-c", "pass")
ROUNDS = 7
CHECK_AT_MOST = 8.0
BUILD_AT_MOST = 42.0  # with a solver to import, and cutting plans sought with few ways of cutting


def largest() -> Path:
    """The example with the most text."""
    return max(sorted(EXAMPLES.rglob("*.piece")), key=lambda path: path.stat().st_size)


def took(arguments: Sequence[str], folder: Path) -> float:
    """Seconds a new process of this interpreter takes with these arguments; it must end well.

    Byte code is kept in the folder, whatever the surroundings say of it, since installing keeps it too.
    """
    environment = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
    environment["PYTHONPYCACHEPREFIX"] = str(folder / "cache")
    start = time.perf_counter()
    subprocess.run([sys.executable, *arguments], cwd=folder, capture_output=True, check=True, env=environment)
    return time.perf_counter() - start


def ratio(arguments: Sequence[str], folder: Path, at_most: float) -> float:
    """The shortest run against the shortest of nothing; goes on for three times the rounds if it must."""
    took(arguments, folder)  # writes the byte code
    nothing = work = float("inf")
    for number in range(3 * ROUNDS):
        nothing = min(nothing, took(NOTHING, folder))
        work = min(work, took(arguments, folder))
        if number + 1 >= ROUNDS and work <= at_most * nothing:
            break
    return work / nothing


def test_a_check_is_quick(tmp_path: Path) -> None:
    found = ratio(("-m", "piecewright", "check", str(largest())), tmp_path, CHECK_AT_MOST)
    print(f"a check takes {found:.1f} times as long as nothing")  # shown with -rP
    assert found <= CHECK_AT_MOST


def test_a_full_build_is_quick(tmp_path: Path) -> None:
    found = ratio(("-m", "piecewright", "build", str(largest()), "-o", "out"), tmp_path, BUILD_AT_MOST)
    print(f"a build takes {found:.1f} times as long as nothing")  # shown with -rP
    assert found <= BUILD_AT_MOST
