"""Where pressing arrows stand in the figure of a table with sashes: none lies on another's shaft."""

from __future__ import annotations

import pytest
from evaluate.pattern import built
from piecewright.plan.make import plan
from piecewright.plan.model import Arrow, Panel

TEXT = """
fabric sand
fabric dusk
fabric glow

quilt cloth
    lay {across} by {down}
        | square {block} of sand
    sash {strip} of dusk, posts of glow{outside}
"""


def panels(across: int, down: int, block: str, strip: str, outside: str = "") -> tuple[Panel, ...]:
    text = TEXT.format(across=across, down=down, block=block, strip=strip, outside=outside)
    return plan(built(text)).units[-1].steps[1].figure.panels


def middle(arrow: Arrow) -> tuple[float, float]:
    return (arrow.start[0] + arrow.end[0]) / 2, (arrow.start[1] + arrow.end[1]) / 2


def head_on(arrows: tuple[Arrow, ...], axis: int) -> list[tuple[Arrow, Arrow]]:
    """Pairs on one line along an axis, nearer than a strip and more, whose heads point at each other."""
    found = []
    for one in arrows:
        for other in arrows:
            a, b = middle(one), middle(other)
            near = 0 < b[axis] - a[axis] < 1.5 and abs(a[1 - axis] - b[1 - axis]) < 1e-6
            if near and one.end[axis] > one.start[axis] and other.end[axis] < other.start[axis]:
                found.append((one, other))
    return found


@pytest.mark.parametrize("outside", ["", ", all-round"])
@pytest.mark.parametrize(("across", "down"), [(2, 2), (3, 3), (4, 5)])
def test_arrows_at_both_sides_of_a_sash_stand_by_turns(across: int, down: int, outside: str) -> None:
    _, rows, whole = panels(across, down, "8 1/2", "1 1/2", outside)
    assert head_on(rows.arrows, 0) == [] and head_on(whole.arrows, 1) == []
    # one a seam; those between rows stand on blocks, three tenths of 8 from an end of them
    assert len(whole.arrows) == 2 * down - (0 if outside else 2)
    left = min(x for stroke in whole.strokes if stroke.role == "raw" for x, _ in stroke.points) + 0.25
    reaches = {round((middle(a)[0] - left - (1 if outside else 0)) % 9, 3) for a in whole.arrows}
    assert reaches == {2.4, 5.6}


def test_the_check_finds_arrows_that_meet() -> None:
    one = Arrow(start=(0.0, 0.0), end=(0.5, 0.0), role="press")
    other = Arrow(start=(1.5, 0.0), end=(1.0, 0.0), role="press")
    assert head_on((one, other), 0) == [(one, other)]


def test_cells_of_one_size_keep_their_arrows_in_the_middle() -> None:
    text = "fabric sand\nquilt cloth\n    lay 3 by 3\n        | square 4 1/2 of sand\n"
    _, rows, whole = plan(built(text)).units[-1].steps[0].figure.panels
    assert len({round(middle(a)[1], 3) for a in rows.arrows}) == 3
    assert len({round(middle(a)[0], 3) for a in whole.arrows}) == 1
