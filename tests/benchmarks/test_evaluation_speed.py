"""How much faster the compiler evaluates its largest example than sympy does the same steps, as a ratio in one run."""

from __future__ import annotations

import time
from pathlib import Path

from differential.patterns import EXAMPLES
from differential.replay import WithSympy, actions, replayed
from piecewright.evaluate.run import evaluate
from piecewright.kernel.build import Build
from piecewright.reading import Reader, read_disk

AT_LEAST = 100


def evaluation(file: Path, rounds: int = 5) -> tuple[float, Build]:
    """Seconds for one evaluation, the fastest of several, each from the parsed text on."""
    best, build = float("inf"), None
    for _ in range(rounds):
        reader = Reader(read_disk)
        tree, _found = reader.main(str(file))
        assert tree is not None
        start = time.perf_counter()
        build, more = evaluate(tree, reader.load, {})
        best = min(best, time.perf_counter() - start)
        assert build is not None, more
    assert build is not None
    return best, build


def in_sympy(build: Build) -> float:
    """Seconds for the same steps with sympy's numbers, comparisons left out."""
    back = WithSympy()
    back.check = lambda mine, unit: None  # type: ignore[method-assign]
    start = time.perf_counter()
    for _where, action in actions(build):
        replayed(action, back)
    return time.perf_counter() - start


def test_the_largest_example_against_sympy() -> None:
    largest = max(EXAMPLES, key=lambda file: file.stat().st_size)
    ours, build = evaluation(largest)
    theirs = in_sympy(build)
    print(f"{largest.name}: {ours * 1000:.1f} ms, sympy {theirs:.1f} s, {theirs / ours:.0f} times")
    assert theirs >= AT_LEAST * ours
