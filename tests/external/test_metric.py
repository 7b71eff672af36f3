"""Patterns in centimetres and millimetres, and the published add-ons for other seams."""

from __future__ import annotations

import pytest
from external.harness import TRIANGLES, cuts, planned, refused, size, words
from external.rows import row
from piecewright.exact import Exact

ROOT_2 = Exact.root(2)
HALF = (
    TRIANGLES
    + """
block halves (size 10)
    take half-square(size + {add}, sand, dusk)
    expect size by size{within}, finished
make 2 of halves
"""
)
QUARTER = (
    TRIANGLES
    + """
block side (size 10)
    take quarter(size + {add}, sand)
    expect bottom size{within}, finished
make 4 of side
"""
)
PLAIN = "block plain (size 10)\n    square size + {add} of sand\n    expect size by size, finished\n"


@row("MET-01", "S17 2012")
def test_the_published_adds_for_a_three_quarter_centimetre_seam_are_rounded_down() -> None:
    metric = {"units": "cm", "seam": "0.75"}
    planned(PLAIN.format(add="1.5"), **metric)
    for body, add, short, published in ((HALF, "2.5", "0.0607", "0.0607"), (QUARTER, "3.5", "0.1214", "0.1213")):
        found = refused(body.format(add=add, within=""), **metric)
        assert found.code.startswith("E4")
        assert f"about {published}" in words(found)
        planned(body.format(add=add, within=f" within {short}"), **metric)
        refused(body.format(add=add, within=f" within {float(short) - 0.0001:.4f}"), **metric)
    # exact: two seams and √2 of one, two seams and twice √2 of one
    for body, add, exact in (
        (HALF, "2 * seam + diagonal(seam)", 2.560660),
        (QUARTER, "2 * seam + 2 * diagonal(seam)", 3.621320),
    ):
        plan = planned(body.format(add=add, within=""), **metric)
        assert float(Exact.parse(plan.cuts[0].width.exact)) - 10 == pytest.approx(exact, abs=1e-6)


@row("MET-02", "S18 2012 (Finland)")
@pytest.mark.parametrize("seam", ["6 mm", "7 mm", "0.75 cm", "1 cm", '1/4"'])
def test_multiples_of_the_seam_are_safe_for_any_seam(seam: str) -> None:
    for body, times, name in ((HALF, "7 / 2", "halves"), (QUARTER, "5", "side")):
        plan = planned(body.format(add=f"{times} * seam", within=" within 0.2"), units="cm", seam=seam)
        finished = Exact.parse(size(plan, name, finished=True)[0])
        assert 10 < finished < Exact(102, 10)


def test_the_multiples_for_three_quarters_of_a_centimetre() -> None:
    metric = {"units": "cm", "seam": "0.75"}
    assert cuts(planned(HALF.format(add="3 1/2 * seam", within=" within 0.1"), **metric), "sand") == {("101/8",) * 2: 1}
    assert cuts(planned(QUARTER.format(add="5 * seam", within=" within 0.2"), **metric)) == {("55/4", "55/4"): 1}


@row("MET-03", "derived here (sympy/fractions)")
@row("MET-04", "derived here (sympy/fractions)")
@pytest.mark.parametrize(("seam", "adds"), [("6", (12, 20.485281, 28.970563)), ("7.5", (15, 25.606602, 36.213203))])
def test_exact_adds_in_millimetres(seam: str, adds: tuple[float, float, float]) -> None:
    found = []
    for body, add in (
        (PLAIN, "2 * seam"),
        (HALF, "2 * seam + diagonal(seam)"),
        (QUARTER, "2 * seam + 2 * diagonal(seam)"),
    ):
        plan = planned(body.replace("size 10", "size 100").format(add=add, within=""), units="mm", seam=seam)
        found.append(float(Exact.parse(plan.cuts[0].width.exact)) - 100)
    assert found == pytest.approx(adds, abs=1e-4)


@row("MET-05", "S50; 1959 international yard and pound agreement")
def test_a_yard_is_0_9144_m_exactly() -> None:
    plan = planned('block yard\n    rectangle 36" by 10 of sand\n', units="cm", usable="110")
    assert cuts(plan) == {("10", "2286/25"): 1}
    assert size(plan, "yard")[0] == "2286/25"
