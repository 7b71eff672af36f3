"""Where the allowances of a seam go, in words: by a fabric, a side or what was just sewn on, never by a unit's name."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from evaluate.pattern import built
from piecewright.kernel.action import Action, Flip, Open, Press, Sew
from piecewright.kernel.build import Build
from piecewright.kernel.unit import Patch, Seam, Unit
from piecewright.plan.make import plan

FABRICS = "fabric sand, value light\nfabric dusk, value dark\nfabric mist\n"
UNITS = """
unit tip (cloth)
    square 3 of cloth
    cut once on diagonal

unit pair (high, low)
    rectangle 4 by 2 1/4 of high
    join rectangle 4 by 2 1/4 of low on bottom

unit tile (cloth)
    square 4 of cloth

unit pane (cloth)
    square 4 of cloth

block tried
"""
WHOLE = "    square 4 of sand\n"
SAID = {
    "    join pair(mist, dusk) on right, press toward pair\n": "Press toward the piece just sewn on.",
    "    join pair(mist, dusk) on left and right, press toward pair\n": (
        "Press both seams toward the pieces just sewn on."
    ),
    "    join long-edge of tip(dusk) on left, centred, press toward tip\n": "Press toward the piece just sewn on.",
    "    join square 4 of mist on right, press toward mist\n": "Press toward mist.",
    "    join pair(sand, sand) on right, press toward darker\n": "Press toward the piece just sewn on.",
    "    flip square 2 of sand at top-left, press toward darker\n": (
        "Cut ¼ outside the seam, open it and press toward the corner."
    ),
    "    flip square 2 of sand at top-left and top-right, press toward darker\n": (
        "Cut ¼ outside the seams, open the corners and press toward the corners."
    ),
}
AWAY = "    take pair(mist, dusk)\n    join rectangle 2 by 4 of sand on right, press toward pair\n"
FLIPPED = "    take pair(mist, dusk)\n    flip square 2 of sand at top-left, press toward pair\n"
LAYERS = (
    "    take {}\n    place {} at top-left\n    stitch beside diagonal\n    cut once on diagonal, press toward {}\n"
)


def work(steps: str) -> Build:
    return built(f'pattern "Toward"\n{FABRICS}{UNITS}{steps}')


def told(build: Build) -> str:
    return plan(build).units[-1].steps[-1].text


@pytest.mark.parametrize("step", SAID)
def test_toward_what_is_sewn_on(step: str) -> None:
    assert told(work(WHOLE + step)).endswith(SAID[step])


def test_toward_a_unit_of_the_work() -> None:
    assert told(work(AWAY)).endswith(" Press away from the piece just sewn on.")
    assert told(work(FLIPPED)).endswith(" open it and press away from the corner.")


@pytest.mark.parametrize(
    ("low", "high", "side", "where"),
    [
        ("tile(dusk)", "pane(sand)", "pane", "toward what lay on top"),
        ("tile(dusk)", "pane(sand)", "tile", "away from what lay on top"),
        ("tile(dusk)", "pane(sand)", "darker", "toward dusk"),
        ("tile(dusk)", "pane(dusk)", "darker", "toward what lay on top"),
    ],
)
def test_layers_that_are_opened(low: str, high: str, side: str, where: str) -> None:
    build = work(LAYERS.format(low, high, side))
    assert f"press {where}: 2 units." in told(build)
    (opening,) = [one for one in build.made[-1].steps[-1].actions if isinstance(one, Open)]
    on_top = "dusk" if high == "pane(dusk)" else "sand"
    x, y = beside(opening.result.seams[-1])
    there = {patch.fabric for patch in opening.result.patches if holds(corners(patch), x, y)}
    assert there == {on_top if where.startswith("toward what") else "dusk"}


def holds(ring: list[tuple[float, float]], x: float, y: float) -> bool:
    """Whether a point lies in a convex outline, whose corners go round counter-clockwise."""
    return all(
        (c - a) * (y - b) - (d - b) * (x - a) > -1e-6 for (a, b), (c, d) in zip(ring, ring[1:] + ring[:1], strict=True)
    )


def within(unit: Unit, x: float, y: float) -> bool:
    return holds([corner.finished.floats for corner in unit.corners], x, y)


def corners(patch: Patch) -> list[tuple[float, float]]:
    (cell,) = patch.cells
    return [p.floats for p in cell]


def beside(seam: Seam) -> tuple[float, float]:
    """A point by the middle of a seam, on the side that its allowances lie to."""
    (x, y), (u, v), (a, b) = seam.start.floats, seam.end.floats, seam.direction.floats
    out = -0.01 if seam.pressed == "left" else 0.01
    return (x + u) / 2 + b * out, (y + v) / 2 - a * out


def sewn(build: Build) -> Iterator[tuple[Sew | Flip, str, Seam]]:
    for made in build.made:
        last: Action | None = None
        for step in made.steps:
            for action in step.actions:
                if isinstance(action, Sew):
                    last = action
                elif isinstance(action, Press) and isinstance(last, Sew):
                    yield last, action.toward, action.result.seams[action.seam]
                elif isinstance(action, Flip):
                    yield action, action.toward, action.result.seams[action.seam]


@pytest.mark.parametrize("steps", [*(WHOLE + step for step in SAID), AWAY, FLIPPED])
@pytest.mark.parametrize("reversed_", ["", " reversed"])
def test_the_allowances_lie_where_it_says(steps: str, reversed_: str) -> None:
    build = work(steps + f"\nblock mirrored\n    take tried{reversed_}\n")
    seen = 0
    for action, toward, seam in sewn(build):
        x, y = beside(seam)
        if isinstance(action, Sew) and "sewn on" in toward:
            assert within(action.second, x, y) is toward.startswith("toward")
            seen += 1
        elif isinstance(action, Flip) and "corner" in toward:
            # farther from the middle of the work than the seam is, on the corner's side
            (a, b), (u, v) = action.line[0].floats, action.line[1].floats
            ring = [corner.finished.floats for corner in action.before.corners]
            far = sum(p for p, _ in ring) / len(ring), sum(q for _, q in ring) / len(ring)
            mine = (u - a) * (y - b) - (v - b) * (x - a)
            middle = (u - a) * (far[1] - b) - (v - b) * (far[0] - a)
            assert (mine * middle < 0) is toward.startswith("toward")
            seen += 1
    assert seen or "toward mist" in steps
