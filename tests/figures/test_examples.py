"""Every figure of every example: valid, nothing in the way of anything, and only its own when a step changes."""

from __future__ import annotations

from functools import cache
from pathlib import Path

import pytest
from evaluate.constructions import sayable
from figures.clear import meetings
from piecewright import compile_source
from piecewright.emit.drawings import drawings, figures
from piecewright.emit.layout import lay_out
from piecewright.emit.svg import figure_svg, group_scales
from piecewright.pipeline import Cutting, compile_file
from piecewright.plan.model import Plan

ROOT = Path(__file__).parents[2]
EXAMPLES = sorted((ROOT / "examples").glob("*.piece"))


@cache
def planned(path: Path) -> Plan:
    plan = compile_file(path).plan
    assert plan is not None
    return plan


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_nothing_meets_anything_in_the_examples(path: Path) -> None:
    shown = figures(planned(path))
    scales = group_scales(shown)
    assert shown
    for figure in shown:
        assert meetings(lay_out(figure, scales[figure.scale_group])) == [], figure.id


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_every_element_and_attribute_of_the_examples_is_of_svg(path: Path) -> None:
    plan = planned(path)
    shown = figures(plan)
    scales = group_scales(shown)
    for figure in shown:
        figure_svg(figure, plan.fabrics, scale=scales[figure.scale_group], strict=True)


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_every_step_has_a_figure_that_tells_something(path: Path) -> None:
    for unit in planned(path).units:
        for step in unit.steps:
            panels = step.figure.panels
            assert panels, step.figure.id
            assert all(panel.cloth or panel.placed for panel in panels)
            assert step.figure.description


PATTERN = """\
pattern "Two ways of one thing"

fabric frost, colour "#eef2f4"
fabric night, colour "#20263f"

block window
    square 4 1/2 of frost
    border {first} of night on left and right
    border 2 of night on top and bottom, press {press}
    note "{note}"

block other
    square 3 of night
    border 1 of frost
"""


def drawn(**changes: str) -> dict[str, str]:
    words = {"first": "2", "press": "open", "note": "As it lies."} | changes
    plan = compile_source(PATTERN.format(**words)).plan
    assert plan is not None
    return drawings(plan)


def changed(before: dict[str, str], after: dict[str, str]) -> set[str]:
    assert list(before) == list(after)
    return {name for name in before if before[name] != after[name]}


def test_changing_the_last_step_changes_its_figure_alone() -> None:
    assert changed(drawn(), drawn(press="toward night")) == {"window-step-3"}


def test_changing_a_size_changes_the_figures_it_is_seen_in() -> None:
    found = changed(drawn(), drawn(first="2 1/8"))
    assert found == {"window-step-2", "window-step-3", "window-finished", "window-outlines", "cutting-night"}


def test_a_note_changes_no_figure() -> None:
    assert changed(drawn(), drawn(note="Otherwise.")) == set()


def test_nothing_meets_anything_in_the_constructions() -> None:
    definitions, makes, heading = sayable()
    text = "".join([*heading, *definitions.values(), *makes])
    plan = compile_source(text, cutting=Cutting(cuts=2)).plan  # in strips, which is quicker planned
    assert plan is not None
    shown = figures(plan)
    scales = group_scales(shown)
    assert len(shown) > 100
    for figure in shown:
        assert meetings(lay_out(figure, scales[figure.scale_group])) == [], figure.id
        figure_svg(figure, plan.fabrics, scale=scales[figure.scale_group], strict=True)
