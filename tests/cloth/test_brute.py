"""The exhaustive search against values that can be seen by hand."""

from __future__ import annotations

from cloth.brute import Brute
from piecewright.plan.cloth.model import Need


def test_stages_matter() -> None:
    """A 6 by 4 cloth: a 4 by 4 with two 2 by 2 beside it needs a third cut to stack them."""
    needs = [Need(width=4, height=4, count=1), Need(width=2, height=2, count=2)]
    assert Brute(needs).least_length(6) == 4
    assert Brute(needs).least_length(6, 3) == 4
    assert Brute(needs).least_length(6, 2) == 6
    assert Brute(needs).least_length(6, 1) == 8
    assert Brute(needs).least_length(3) == float("inf")


def test_turning_matters() -> None:
    assert Brute([Need(width=2, height=5, count=3)]).least_length(6) == 5
    assert Brute([Need(width=5, height=2, count=3)]).least_length(6) == 5
    assert Brute([Need(width=5, height=2, count=3, turns=False)]).least_length(6) == 6


def test_a_windmill_needs_more_than_its_area() -> None:
    """Five pieces that fill 3 by 3, but not by through cuts."""
    needs = [Need(width=2, height=1, count=4), Need(width=1, height=1, count=1)]
    assert Brute(needs).least_length(3) == 3
    fixed = [Need(width=4, height=3, count=2, turns=False), Need(width=3, height=4, count=2, turns=False)]
    assert Brute([*fixed, Need(width=1, height=1, count=1)]).least_length(7) == 8


def test_sheets_are_counted() -> None:
    needs = [Need(width=3, height=3, count=4), Need(width=6, height=3, count=1)]
    assert Brute(needs).fewest_sheets(6, 6) == 2
    assert Brute(needs).fewest_sheets(6, 9) == 1
    assert Brute(needs).fewest_sheets(6, 9, 2) == 1
    assert Brute(needs).fewest_sheets(5, 5) == float("inf")
