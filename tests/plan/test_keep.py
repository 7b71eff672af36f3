"""Which part of a cut stays as it lies, as it is told."""

from __future__ import annotations

import pytest
from evaluate.pattern import built
from piecewright.plan.make import plan


def told(steps: str) -> str:
    """The sentence of the last step of a unit of sand and dusk."""
    text = "fabric sand\nfabric dusk\n\nunit one\n" + "".join(f"    {step}\n" for step in steps.split("; "))
    return plan(built(text)).units[0].steps[-1].text


@pytest.mark.parametrize(
    ("steps", "sentence"),
    [
        ("square 4 of sand; cut once on diagonal", "Turn the second to lie like the first."),
        (
            "square 4 of sand; cut once on diagonal, keep top-right",
            "Leave the one at the top right as it lies, and turn the other to lie like it.",
        ),
        (
            "square 4 of sand; cut twice on diagonal, keep left",
            "Leave the one at the left as it lies, and turn the others to lie like it.",
        ),
        (
            "square 4 of sand; place square 4 of dusk; stitch beside diagonal; cut once on diagonal, keep top-right",
            "Leave the one at the top right as it lies, and turn the other to lie like it.",
        ),
    ],
)
def test_which_part_is_left_as_it_lies(steps: str, sentence: str) -> None:
    assert told(steps).endswith(sentence)


def test_a_cut_from_point_to_point_is_told_by_its_two_points() -> None:
    steps = "square 4 of sand; cut from top-middle to bottom-middle, keep right"
    assert told(steps).startswith("Cut from the middle of the top edge to the middle of the bottom edge: 2 pieces.")


def test_in_a_mirror_the_other_one_is_kept() -> None:
    text = (
        "fabric sand\n\nunit half\n    square 4 of sand\n    cut once on diagonal, keep bottom-left\n\n"
        "block one\n    take half reversed\n    expect sand at bottom-right\n"
    )
    half = next(unit for unit in plan(built(text)).units if unit.name == "half")
    assert "Leave the one at the bottom right as it lies" in half.steps[-1].text
