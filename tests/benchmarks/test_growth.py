"""How the time of a check grows with the number of patches, as a ratio within one run."""

from __future__ import annotations

import gc
import time
from collections.abc import Callable
from pathlib import Path

import pytest
from piecewright.pipeline import check_file

pytestmark = pytest.mark.alone

AT_MOST = 36.0  # for 25 times the patches; work that is turned at each step takes 32 times
ROUNDS = 9
FABRICS = "fabric a, colour red\nfabric b, colour blue\n"


def table(patches: int) -> str:
    """A block of squares in a table of four rows that is repeated, as a designer writes it."""
    across, down = (40, 25) if patches == 1000 else (8, 5)
    rows = "\n".join(
        "        " + " | ".join(f"square 2 of {'ab'[(r * c + c // 2 + r) % 2]}" for c in range(8)) for r in range(4)
    )
    return f"block large\n    lay {across} by {down}\n{rows}\n"


def steps(start: str, patches: int, *lines: str) -> str:
    """Lines that sew one strip each, in turn, without a `repeat`."""
    body = "".join(f"    {lines[n % len(lines)]}\n" for n in range(patches - 1))
    return f"block large\n    {start}\n{body}"


def log_cabin(patches: int) -> str:
    sides = (("a", "top"), ("a", "right"), ("b", "bottom"), ("b", "left"))
    return steps("square 1 1/2 of a", patches, *(f"border 1 of {fabric} on {side}" for fabric, side in sides))


def courthouse(patches: int) -> str:
    sides = (("a", "left"), ("a", "right"), ("b", "top"), ("b", "bottom"))
    return steps("square 1 1/2 of a", patches, *(f"border 1 of {fabric} on {side}" for fabric, side in sides))


def turned_cabin(patches: int) -> str:
    """The logs always on top, the work turned between them."""
    logs = (f"border 1 of {fabric} on top\n    turn left" for fabric in "abab")
    return steps("square 1 1/2 of a", patches, *logs)


def row(patches: int) -> str:
    return steps("square 2 of a", patches, "join square 2 of b on right", "join square 2 of a on right")


def strip_set(patches: int) -> str:
    lines = ("join strip 1 of b on bottom", "join strip 1 of a on bottom")
    return steps("strip 1 of a", patches, *lines) + "    subcut 2\n"


def took(path: Path) -> float:
    """Seconds of processor time of a check."""
    start = time.process_time()
    assert not check_file(path)
    return time.process_time() - start


@pytest.mark.parametrize("pattern", [table, log_cabin, courthouse, turned_cabin, row, strip_set])
def test_a_thousand_patches_cost_little_more_than_their_number(tmp_path: Path, pattern: Callable[[int], str]) -> None:
    """The shortest of several checks of each; goes on a while if it must, since other work only lengthens them."""
    small, large = tmp_path / "small.piece", tmp_path / "large.piece"
    small.write_text(FABRICS + pattern(40), encoding="utf-8")
    large.write_text(FABRICS + pattern(1000), encoding="utf-8")
    few = many = float("inf")
    gc.disable()
    try:
        for number in range(ROUNDS):
            few = min(few, took(small), took(small))
            many = min(many, took(large))
            gc.collect()
            if number >= 1 and many <= AT_MOST * few:
                break
    finally:
        gc.enable()
    print(f"{pattern.__name__}: 1,000 patches take {many / few:.1f} times as long as 40")  # shown with -rP
    assert many <= AT_MOST * few
