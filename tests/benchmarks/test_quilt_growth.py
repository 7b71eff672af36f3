"""A quilt of 400 blocks of 40 patches against one of 4: what it costs, and what its page weighs."""

from __future__ import annotations

import gc
import re
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from piecewright.pipeline import emitted
from piecewright.plan import make

pytestmark = pytest.mark.alone

TIMES = 3.0
ROUNDS = 5
PAGE = 3_000_000  # bytes


def quilt(across: int, down: int) -> str:
    return f"""pattern "Large"
fabric sand, colour "#e9dcc0"
fabric dusk, colour "#33415c"
block forty (light, dark)
    lay 8 by 5
        square 1 1/2 of light | square 1 1/2 of dark
        square 1 1/2 of dark | square 1 1/2 of light
quilt large
    lay {across} by {down}
        forty(sand, dusk) | forty(dusk, sand) turned around
        forty(dusk, sand) | forty(sand, dusk) turned around
"""


class Clock:
    """Seconds of processor time of a build, and of its drawing: the figures, and writing them out."""

    def __init__(self, monkeypatch: pytest.MonkeyPatch) -> None:
        self.drawing = 0.0
        for name in ("step_figure", "finished_figure"):
            monkeypatch.setattr(make, name, self._timed(getattr(make, name)))
        monkeypatch.setattr("piecewright.emit.emit", self._timed(__import__("piecewright.emit").emit.emit))

    def _timed(self, draw: Callable[..., Any]) -> Callable[..., Any]:
        def timed(*given: Any, **named: Any) -> Any:
            start = time.process_time()
            result = draw(*given, **named)
            self.drawing += time.process_time() - start
            return result

        return timed

    def build(self, path: Path) -> tuple[float, float]:
        self.drawing = 0.0
        start = time.process_time()
        compiled, _ = emitted(str(path))
        assert compiled.plan is not None
        return time.process_time() - start, self.drawing


def test_a_large_quilt_costs_three_small_ones_and_its_drawing(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The shortest of several builds of each: other work only lengthens them."""
    small, large = tmp_path / "small.piece", tmp_path / "large.piece"
    small.write_text(quilt(2, 2), encoding="utf-8")
    large.write_text(quilt(20, 20), encoding="utf-8")
    clock = Clock(monkeypatch)
    few = many = (float("inf"), 0.0)
    gc.disable()
    try:
        for number in range(ROUNDS):
            few = min(few, clock.build(small), clock.build(small))
            many = min(many, clock.build(large))
            gc.collect()
            if number and many[0] - many[1] <= TIMES * few[0]:
                break
    finally:
        gc.enable()
    print(f"4 blocks {few[0]:.3f} s; 400 blocks {many[0]:.3f} s, of that drawing {many[1]:.3f} s")
    assert many[0] <= TIMES * few[0] + many[1]


def test_each_block_is_drawn_once_in_a_figure_and_placed(tmp_path: Path) -> None:
    path = tmp_path / "large.piece"
    path.write_text(quilt(20, 20), encoding="utf-8")
    _, files = emitted(str(path))
    texts = dict(files)
    assert len(texts["pattern.html"].encode()) < PAGE
    finished = next(text for name, text in texts.items() if name.endswith("large-finished.svg"))
    assert len(re.findall(r'<g id="[^"]*-shape\d+-cloth"', finished)) == 2  # of two colourways, turned or not
    assert finished.count("<use ") == 2 * 400  # cloth, and the lines over it
    assert len(re.findall(r"data-line", finished)) == 2 * 40
