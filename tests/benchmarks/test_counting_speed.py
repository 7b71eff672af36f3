"""What proving a number of pieces costs a check, as a ratio within one run."""

from __future__ import annotations

import gc
import time
from pathlib import Path

import pytest
from piecewright.pipeline import check_file

pytestmark = pytest.mark.alone

AT_MOST = 1.5
UNITS = """
fabric dusk, value dark
fabric glow, value light

unit pane (a, b)
    square 3 1/2 of a
    border 1 of b

block lantern (a, b)
    lay 3 by 3
        pane(a, b) | pane(b, a)

quilt cover
    lay 5 by 5
        lantern(dusk, glow) | lantern(glow, dusk)
"""
COUNTS = """    expect 15 of lantern(dusk, glow)
    expect 10 of lantern(glow, dusk)
    expect 120 of pane(dusk, glow)
    expect 105 of pane(glow, dusk)
"""


def took(path: Path) -> float:
    """Seconds of processor time of a check; the collector of garbage stands still."""
    gc.collect()
    gc.disable()
    try:
        start = time.process_time()
        found = check_file(path)
        seconds = time.process_time() - start
    finally:
        gc.enable()
    assert not [one for one in found if one.severity == "error"]
    return seconds


def test_four_counts_cost_little(tmp_path: Path) -> None:
    plain, counted = tmp_path / "plain.piece", tmp_path / "counted.piece"
    plain.write_text(UNITS, encoding="utf-8")
    counted.write_text(UNITS + COUNTS, encoding="utf-8")
    without = with_counts = float("inf")
    for number in range(9):  # the shortest of each; other work only lengthens them
        without, with_counts = min(without, took(plain)), min(with_counts, took(counted))
        if number and with_counts < AT_MOST * without:
            break
    ratio = with_counts / without
    print(f"a check with four counts takes {ratio:.2f} times as long")
    assert ratio < AT_MOST
