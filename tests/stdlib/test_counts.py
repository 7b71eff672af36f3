"""How many pieces a block has, against what is printed of it; rows of `tests/external/check_values.csv`."""

from __future__ import annotations

from collections import Counter

import pytest
from library_units import made
from piecewright.kernel.measure import finished_outline
from piecewright.kernel.polygon import ZERO, area, clip

PRACTICE = "common practice, no source"
COUNTS = [
    ("four-patch", 4, "BL-01: S73 McKim 1931"),
    ("nine-patch", 9, "BL-02: S03 2019; S71 Webster 1915 names it"),
    ("friendship-star", 13, "BL-04: S03 2013; S54"),
    ("churn-dash", 17, "BL-05: S03 2013"),
    ("ohio-star", 21, "BL-06: S53; S03 2017; S72"),
    ("sawtooth-star", 17, "BL-07: S57; S58; S59; S72"),
    ("sawtooth-star-stitch-and-flip", 17, "BL-07: S57; S58; S59; S72"),
    ("bears-paw", 45, "BL-08: S03; S71 names Bear's Paws"),
    ("pinwheel", 8, "BL-10: S80"),
    ("three-rails-from-strips", 3, "BL-11: S03"),
    ("rail-fence", 12, "BL-11: S03, four units"),
    ("log-cabin", 13, "BL-12: S03, 4n + 1 with n = 3"),
    ("hourglass-two-at-a-time", 4, "BL-13: S03"),
    ("hourglass-from-triangles", 4, "BL-13: S03"),
    ("goose-stitch-and-flip", 3, "BL-14: S12; S58"),
    ("goose-from-triangles", 3, "BL-14: S12; S58"),
    ("goose-four-at-a-time", 3, "BL-14: S12; S58"),
    ("square-in-a-square-stitch-and-flip", 5, "BL-18: S30"),
    ("square-in-a-square-from-triangles", 5, "BL-18: S30"),
    ("eight-pointed-star", 16, f"BL-19: {PRACTICE}"),
    ("bear-tracks", 40, "AR-05: S03, 32 + 4 + 4"),
    ("pinwheel-star", 28, "AR-07: S03 2019, 4 + 8 + 12 + 4"),
    ("shoo-fly", 13, PRACTICE),
    ("maple-leaf", 15, PRACTICE),
    ("jacobs-ladder", 28, PRACTICE),
    ("lady-of-the-lake", 34, PRACTICE),
    ("goose-in-the-pond", 77, PRACTICE),
    ("double-irish-chain", 25, PRACTICE),
    ("courthouse-steps", 13, PRACTICE),
    ("checkerboard", 64, PRACTICE),
    ("bow-tie", 6, PRACTICE),
    ("flock-of-geese", 20, PRACTICE),
    ("puss-in-the-corner", 9, PRACTICE),
    ("split-nine-patch", 12, PRACTICE),
    ("spool", 13, PRACTICE),
    ("sisters-choice", 33, PRACTICE),
    ("triple-irish-chain", 49, PRACTICE),
    ("sunshine-and-shadow", 49, PRACTICE),
    ("curved-snowball", 8, PRACTICE),
    ("melon-square", 5, PRACTICE),
    ("robbing-peter-to-pay-paul-with-melons", 20, f"{PRACTICE}: 4 x 5"),
    ("pineapple", 33, f"{PRACTICE}: 8n + 1 with n = 4"),
    ("roman-stripe", 5, PRACTICE),
    ("fifty-four-forty-or-fight", 32, f"{PRACTICE}: 5 four patches and 4 x 3"),
    ("sixteen-patch", 16, PRACTICE),
    ("twenty-five-patch", 25, PRACTICE),
    ("double-pinwheel", 12, PRACTICE),
    ("double-monkey-wrench", 17, PRACTICE),
    ("rolling-stone", 29, f"{PRACTICE}: 4 x 5 + 4 x 2 + 1"),
    ("snails-trail", 20, f"{PRACTICE}: a four patch and four rounds of 4"),
    ("spools", 52, f"{PRACTICE}: 4 x 13"),
    ("attic-windows", 20, f"{PRACTICE}: 4 x 5, each mitre being a half-square triangle unit"),
    ("six-pointed-star", 12, PRACTICE),
    ("storm-at-sea", 49, f"{PRACTICE}: 9 + 4 x 5 + 4 x 5"),
]


@pytest.mark.parametrize(("name", "count", "source"), COUNTS, ids=[name for name, _, _ in COUNTS])
def test_pieces(name: str, count: int, source: str) -> None:
    assert len(made(name).patches) == count, source


def test_fabrics_of_a_star() -> None:
    """BL-07, S57: eight star points and the middle, four corners and four geese of the sky."""
    assert Counter(patch.fabric for patch in made("sawtooth-star").patches) == {"star": 9, "sky": 8}


def test_friendship_star_is_a_third_star() -> None:
    """BL-04, S03 2013: the star is a third of the block."""
    unit = made("friendship-star")
    outline = finished_outline(unit)
    total = ZERO
    for patch in unit.patches:
        if patch.fabric == "star":
            cells = list(patch.cells)
            for start, end in zip(outline, outline[1:] + outline[:1], strict=True):
                cells = [part for part in (clip(cell, start, end - start)[0] for cell in cells) if part]
            total = sum((area(cell) for cell in cells), total)
    assert total * 3 == area(outline)
