"""Everything that is looked over in a pattern that was made without a mistake."""

from __future__ import annotations

from collections.abc import Iterator

from piecewright.craft.bias import bias_edges
from piecewright.craft.direction import Directions
from piecewright.craft.finding import Finding
from piecewright.craft.joins import joins
from piecewright.craft.meeting import misses, off_points, points_on_paper
from piecewright.craft.nesting import bulky
from piecewright.craft.sizes import Sizes
from piecewright.kernel.action import Action, Finish, Lay, Sew, Trim
from piecewright.kernel.build import Build, Made


def look_over(build: Build) -> Iterator[tuple[Made, Finding]]:
    """What is found, in the order of work; of a definition with several parts at the first."""
    sizes, directions = Sizes(build), Directions(build)
    seen: set[str] = set()
    for made in build.made:
        for edges in bias_edges(made) if made.kind != "unit" else ():
            yield made, edges
        for turned in directions.turned(made):
            yield made, turned
        whole = made.whole or made.key
        if whole in seen:
            continue
        seen.add(whole)
        for number in range(len(made.steps)):
            for finding in _step(made, number, sizes, build):
                yield made, finding
            for finding in sizes.off_the_mark(made, number):
                yield made, finding
        for finding in points_on_paper(build, made) if sizes.is_last(made) else ():
            yield made, finding
        for finding in sizes.folded(made):
            yield made, finding


def _step(made: Made, number: int, sizes: Sizes, build: Build) -> Iterator[Finding]:
    """What is found in a step; of a repeated one each kind once, as it is in the first round that has it."""
    step = made.steps[number]
    rounds = step.rounds
    if len(rounds) == 1:
        yield from _done(made, number, step.actions, sizes, build)
        return
    found: dict[str, tuple[Finding, list[int]]] = {}
    for at, actions in enumerate(rounds, 1):
        for finding in _done(made, number, actions, sizes, build):
            numbers = found.setdefault(finding.kind, (finding, []))[1]
            if at not in numbers:
                numbers.append(at)
    # of points one is told for a line, and a floating one can still be trimmed right
    for finding, numbers in sorted(found.values(), key=lambda one: one[0].kind == "point-floats"):
        finding.rounds = (numbers[0], len(numbers), len(rounds))
        yield finding


def _done(made: Made, number: int, actions: tuple[Action, ...], sizes: Sizes, build: Build) -> Iterator[Finding]:
    step = made.steps[number]
    for action in actions:
        if isinstance(action, Trim):
            yield from sizes.scant(made, number, action)
        elif isinstance(action, Sew | Finish | Lay):
            for join in joins(action):
                yield from off_points(build, made, number, join)
                yield from misses(step, join, build.settings.tolerance)
                yield from bulky(step, join, action.result)
