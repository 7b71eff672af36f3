"""`piecewright beds`: mattress sizes, and the quilts that cover them."""

from __future__ import annotations

import pytest
from cli.test_cli import Run


@pytest.fixture
def run(capfd: pytest.CaptureFixture[str]) -> Run:
    return Run(capfd)


def line(text: str, name: str) -> str:
    (found,) = (one for one in text.splitlines() if one.startswith(name))
    return " ".join(found.split())


def test_sizes_are_listed(run: Run) -> None:
    ended = run("beds")
    assert (ended.code, ended.err) == (0, "")
    assert line(ended.out, "twin") == "twin 39 by 75"
    assert line(run("beds", "--units", "cm").out, "double, UK") == "double, UK 137 by 190"


def test_a_drop_gives_the_quilt_and_a_quilt_its_drop(run: Run) -> None:
    assert line(run("beds", "--drop", "12").out, "twin") == "twin 39 by 75 quilt 63 by 87"
    assert line(run("beds", "--drop", "30.5 cm", "--units", "cm").out, "Europe 140").endswith("quilt 201 by 230.5")
    told = run("beds", "--quilt", "77 by 85 1/2").out
    assert line(told, "full") == "full 54 by 75 11 1/2 at each side, 10 1/2 at the foot"
    small = run("beds", "--quilt", "50 by 60").out
    assert line(small, "king") == "king 76 by 80 13 too short at each side, 20 too short at the foot"


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (("--drop", "twelve"), "is no size; write one such as 12 or 10 1/2"),
        (("--quilt", "77"), "write across and down"),
        (("--quilt", "77 by 85", "--drop", "12"), "not for both"),
    ],
)
def test_mistakes_are_told(run: Run, arguments: tuple[str, ...], said: str) -> None:
    ended = run("beds", *arguments)
    assert (ended.code, ended.out) == (2, "")
    assert said in ended.err
