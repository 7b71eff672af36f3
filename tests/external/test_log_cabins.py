"""Log cabins: the logs' cut lengths follow from the work as it lies when they are sewn."""

from __future__ import annotations

import pytest
from external.harness import cuts, number, planned, sewn, size, unit
from external.rows import row, rows
from piecewright.exact import Exact, Vector
from piecewright.kernel.measure import bounds
from piecewright.kernel.unit import Seam
from piecewright.plan.model import Plan

CABIN = """
block cabin (heart, log, rounds)
    square heart of dusk
    repeat rounds
        border log of sand on right and top and left and bottom
make 1 of cabin({heart}, {log}, {rounds})
"""


def lengths(plan: Plan, width: str) -> list[str]:
    """The cut lengths of all logs of one width, short to long, as often as they are cut."""
    found = []
    for (across, down), count in cuts(plan, "sand").items():
        assert width in (across, down)
        found += [down if across == width else across] * count
    return sorted(found, key=number)


@rows(
    ("heart", "log", "rounds", "seam", "logs", "unfinished"),
    (
        "LC-01", "S03 log cabin option 2, 2019", "3 1/2", "1 1/2", 3, "1/4",
        "3 1/2, 4 1/2, 4 1/2, 5 1/2, 5 1/2, 6 1/2, 6 1/2, 7 1/2, 7 1/2, 8 1/2, 8 1/2, 9 1/2", "9 1/2",
    ),
    (
        "LC-03", "S62 guild page", "3", "1 3/4", 3, "1/4",
        "3, 4 1/4, 4 1/4, 5 1/2, 5 1/2, 6 3/4, 6 3/4, 8, 8, 9 1/4, 9 1/4, 10 1/2", "10 1/2",
    ),
    ("LC-04", "S64 hobby page", "5", "3", 2, "1/2", "5, 7, 7, 9, 9, 11, 11, 13", "13"),
)  # fmt: skip
def test_logs(heart: str, log: str, rounds: int, seam: str, logs: str, unfinished: str) -> None:
    plan = planned(CABIN.format(heart=heart, log=log, rounds=rounds), seam=seam)
    assert lengths(plan, str(number(log))) == [str(number(each)) for each in logs.split(", ")]
    assert size(plan, "cabin") == (str(number(unfinished)),) * 2


@row("LC-06", "S91 2018")
def test_a_quarter_log_cabin() -> None:
    plan = planned("""
block corner-cabin
    square 3 1/2 of dusk
    repeat 3
        border 2 of sand on right and top
    expect 7 1/2 by 7 1/2, finished
""")
    assert lengths(plan, "2") == ["7/2", "5", "5", "13/2", "13/2", "8"]


@row("LC-00", "derived here (sympy/fractions)")
@pytest.mark.parametrize("rounds", [1, 2, 3, 5])
@pytest.mark.parametrize(("centre", "log"), [("2", "1"), ("3", "1 1/2")])
def test_size_and_pieces_of_a_cabin(centre: str, log: str, rounds: int) -> None:
    plan = planned(CABIN.format(heart=f"{centre} + 1/2", log=f"{log} + 1/2", rounds=rounds))
    finished = number(centre) + 2 * rounds * number(log)
    assert size(plan, "cabin", finished=True) == (str(finished), str(finished))
    assert sum(cuts(plan).values()) == 4 * rounds + 1
    assert unit(plan, "cabin").makes == 1


def leans(seam: Seam) -> Vector:
    """The way its allowances are pressed, across the seam."""
    return {"left": seam.direction.left(), "right": seam.direction.right(), "open": Vector(0, 0)}[seam.pressed]


@row("PR-06", "S03 log cabin 2013")
def test_a_cabin_is_pressed_away_from_its_centre() -> None:
    sides = ("right", "top", "left", "bottom")
    logs = "".join(f"        border 1 1/2 of sand on {side}, press toward {side}\n" for side in sides)
    body = f"block cabin\n    square 2 of dusk\n    repeat 3\n{logs}"
    cabin = sewn(body, "cabin")
    left, bottom, right, top = bounds(cabin)
    centre = Vector((left + right) / 2, (bottom + top) / 2)
    assert len(cabin.seams) == 12
    for seam in cabin.seams:
        assert leans(seam).dot((seam.start + seam.end) / 2 - centre) > 0


@row("PR-02", "S03 rail fence throw")
def test_rows_are_pressed_by_turns_so_that_the_joins_nest() -> None:
    field = sewn("block field\n    lay 3 by 4\n        | square 3 of sand\n", "field")
    ways: dict[str, set[Vector]] = {}
    for seam in field.seams:
        if not seam.direction.x:
            ways.setdefault(str((seam.start.y + seam.end.y) / 2), set()).add(leans(seam))
    rows_found = [ways[height] for height in sorted(ways, key=lambda height: float(Exact.parse(height)))]
    assert [len(each) for each in rows_found] == [1, 1, 1, 1]
    assert rows_found[0] == rows_found[2] != rows_found[1] == rows_found[3]
