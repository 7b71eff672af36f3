"""Bias bindings of eight quilts, whose squares are laid out, sewn and marked by hand."""

from __future__ import annotations

import re
from fractions import Fraction
from math import ceil, sqrt

import pytest
from finishing import hand
from finishing.quilts import size
from finishing.read import SIZE, exact, printed, shown

QUILT = """
pattern "Landing"
    seam {seam}
    usable {usable}
{units}
fabric sand, usable 900
fabric edge

quilt landing
    rectangle {across} by {down} of sand
    bind {width} of edge, bias
"""


@pytest.mark.parametrize(
    ("across", "down", "width", "seam", "metric"),
    [
        ("60 1/2", "76 1/2", "2 1/2", "1/4", False),
        ("43 1/2", "49 1/2", "2 1/4", "1/4", False),
        ("12 1/2", "12 1/2", "2", "1/4", False),
        ("88 1/2", "104 1/2", "2 1/2", "1/4", False),
        ("36 3/4", "36 3/4", "2 1/2", "3/8", False),
        ("150", "190", "6.25", "0.75", True),
        ("61.5", "61.5", "5.5", "0.75", True),
        ("32", "220", "6", "7 mm", True),
    ],
)
def test_the_strip_goes_round(across: str, down: str, width: str, seam: str, metric: bool) -> None:
    made = printed(
        QUILT.format(
            across=across, down=down, width=width, seam=seam,
            usable=150 if metric else 40, units="    units cm\n" if metric else "",
        )
    )  # fmt: skip
    wanted = (size(across) + size(down)) * 2 + (25 if metric else 10)
    (square,) = made.cuts("edge")
    side = exact(square["width"])
    step = made.step("Cut the edge square")
    told = re.search(rf"gives (\d+) whole bands, each at least {SIZE} .* at least {SIZE}\.", " ".join(step["details"]))
    assert told is not None
    laid = hand.tube(side, size(width), size(seam), size(seam))
    assert int(told[1]) == laid.bands and wanted <= shown(told[3]) <= laid.strip
    assert f"{width.replace(' 1/2', '½').replace(' 1/4', '¼')} apart, for {laid.bands} whole bands" in step["text"]
    by_area = Fraction(ceil(sqrt(wanted * size(width))))
    assert hand.tube(by_area, size(width), size(seam), size(seam)).strip < wanted  # as is common practice: too short
    assert side - 5 <= by_area < side or metric


def test_a_square_of_27_gives_257_and_not_284() -> None:
    made = hand.tube(Fraction(27), Fraction(5, 2), Fraction(1, 4), Fraction(1, 2))
    assert made.bands == 7 and 257 <= made.strip < 258
    assert 27 * 27 / 2.5 > 284
