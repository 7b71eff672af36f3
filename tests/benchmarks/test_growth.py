"""How the time of a check grows with the number of patches, as a ratio within one run."""

from __future__ import annotations

import gc
import time
from pathlib import Path

from piecewright.pipeline import check_file

AT_MOST = 30.0


def table(across: int, down: int) -> str:
    """A block of squares in a table of four rows that is repeated, as a designer writes it."""
    rows = "\n".join(
        "        " + " | ".join(f"square 2 of {'ab'[(r * c + c // 2 + r) % 2]}" for c in range(8)) for r in range(4)
    )
    return f"fabric a, colour red\nfabric b, colour blue\nblock large\n    lay {across} by {down}\n{rows}\n"


def took(path: Path) -> float:
    """Seconds of processor time of a check, the shortest of three."""
    times: list[float] = []
    for _ in range(3):
        start = time.process_time()
        assert not check_file(path)
        times.append(time.process_time() - start)
    return min(times)


def test_a_thousand_patches_cost_little_more_than_their_number(tmp_path: Path) -> None:
    small, large = tmp_path / "small.piece", tmp_path / "large.piece"
    small.write_text(table(8, 5), encoding="utf-8")
    large.write_text(table(40, 25), encoding="utf-8")
    gc.disable()
    try:
        found = took(large) / took(small)
    finally:
        gc.enable()
    print(f"1,000 patches take {found:.1f} times as long as 40")  # shown with -rP
    assert found <= AT_MOST
