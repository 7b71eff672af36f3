"""How long planning the cloth takes against the rest of a build, as a ratio within one run."""

from __future__ import annotations

import gc
import time

import pytest
from benchmarks.test_cold_start import largest
from piecewright.pipeline import emitted
from piecewright.plan import press
from piecewright.plan.yardage import ClothCut

pytestmark = pytest.mark.alone

AT_MOST = 1.0
ROUNDS = 5


def shares(path: str, monkeypatch: pytest.MonkeyPatch) -> tuple[float, float]:
    """Seconds of processor time that planning the cloth of a pattern takes, and that all the rest of its build takes;
    the shortest of several runs."""
    planning, rest = float("inf"), float("inf")
    spent = [0.0]
    plain = press.cut_cloth

    def timed(*arguments: object, **options: object) -> ClothCut:
        start = time.process_time()
        try:
            return plain(*arguments, **options)  # type: ignore[arg-type]
        finally:
            spent[0] += time.process_time() - start

    monkeypatch.setattr(press, "cut_cloth", timed)
    emitted(path)  # imports what is imported late
    gc.disable()
    try:
        for _ in range(ROUNDS):
            spent[0] = 0.0
            start = time.process_time()
            assert emitted(path)[0].plan is not None
            whole = time.process_time() - start
            planning, rest = min(planning, spent[0]), min(rest, whole - spent[0])
    finally:
        gc.enable()
    return planning, rest


def test_planning_the_cloth_never_dominates(monkeypatch: pytest.MonkeyPatch) -> None:
    planning, rest = shares(str(largest()), monkeypatch)
    print(f"planning the cloth takes {planning / rest:.2f} times as long as the rest of the build")  # shown with -rP
    assert 0 < planning <= AT_MOST * rest
