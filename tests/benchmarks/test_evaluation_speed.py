"""How much faster the compiler evaluates its largest example than sympy does the same steps, as a ratio in one run.

In sympy the steps are done with what it has for the job: points, lines and polygons of `sympy.geometry`. The
differential tests use its bare numbers and no more of them than needed; that ratio is smaller and is printed beside.
"""

from __future__ import annotations

import time
from collections.abc import Callable
from pathlib import Path

import pytest
from differential import sympy_reference
from differential.patterns import EXAMPLES
from differential.replay import Replay, WithSympy
from piecewright.evaluate.run import evaluate
from piecewright.kernel.build import Build
from piecewright.reading import Reader, read_disk
from sympy import Expr
from sympy.core.cache import clear_cache
from sympy.geometry import Line, Point, Polygon

pytestmark = pytest.mark.alone

AT_LEAST = 100
Cell = tuple[tuple[Expr, Expr], ...]


def evaluation(file: Path, rounds: int = 5) -> tuple[float, Build]:
    """Seconds of the processor for one evaluation, the fastest of several, each from the parsed text on."""
    best, build = float("inf"), None
    for _ in range(rounds):
        reader = Reader(read_disk)
        tree, _found = reader.main(str(file))
        assert tree is not None
        start = time.process_time()
        build, more = evaluate(tree, reader.load, {})
        best = min(best, time.process_time() - start)
        assert build is not None, more
    assert build is not None
    return best, build


def in_sympy(build: Build, enough: float = float("inf")) -> float:
    """Seconds of the processor for the same steps, comparisons with ours left out; stops when it has taken `enough`."""
    back = WithSympy()
    back.check = lambda mine, unit: None  # type: ignore[method-assign]
    clear_cache()
    start = time.process_time()
    for made in build.made:
        replay = Replay(made, back, {one.key: one.unit for one in build.made})
        for step in made.steps:
            for action in (*step.actions, *step.last):
                replay.action(action, step)
                if time.process_time() - start > enough:
                    return time.process_time() - start
    return time.process_time() - start


def _polygon(cell: Cell) -> Polygon:
    return Polygon(*(Point(x, y) for x, y in cell))


def _clipped(cell: Cell, normal: tuple[Expr, Expr], offset: Expr) -> Cell:
    """What of a convex cell has normal·p <= offset."""
    if not cell:
        return ()
    x, y = normal
    on = Point(x * offset, y * offset)
    line = Line(on, on + Point(-y, x))
    sides = [((Point(px, py) - on).dot(Point(x, y))).expand() for px, py in cell]
    if not any(side > 0 for side in sides):
        return cell
    if not any(side < 0 for side in sides):
        return ()
    parts = _polygon(cell).cut_section(line)
    inside = next(part for part in parts if part is not None and ((part.centroid - on).dot(Point(x, y))).expand() < 0)
    return tuple((p.x, p.y) for p in inside.vertices)


def _meet(first: sympy_reference.Line, second: sympy_reference.Line) -> tuple[Expr, Expr]:
    one, other = (
        Line(Point(x * offset, y * offset), Point(x * offset - y, y * offset + x)) for (x, y), offset in (first, second)
    )
    crossing = one.intersection(other)[0]
    return crossing.x.expand(), crossing.y.expand()


def test_the_largest_example_against_sympy(monkeypatch: pytest.MonkeyPatch) -> None:
    largest = max(EXAMPLES, key=lambda file: file.stat().st_size)
    ours, build = evaluation(largest)
    bare = in_sympy(build)
    replaced: dict[str, Callable[..., object]] = {
        "clipped": _clipped,
        "_meet": _meet,
        "polygon_area": lambda cell: _polygon(cell).area,
    }
    for name, function in replaced.items():
        monkeypatch.setattr(sympy_reference, name, function)
    theirs = in_sympy(build, enough=AT_LEAST * ours)
    print(
        f"{largest.name}: {ours * 1000:.1f} ms, sympy {theirs / ours:.0f} times or more, bare {bare / ours:.0f} times"
    )
    assert theirs >= AT_LEAST * ours
