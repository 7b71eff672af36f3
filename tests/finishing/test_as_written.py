"""What a designer wrote is printed as she wrote it, in inches and in centimetres."""

from __future__ import annotations

import pytest
from finishing.read import Printed, printed

QUILT = """
pattern "Landing"
    seam {seam}
    units {units}
    tolerance {tolerance}

fabric sand, usable 900
fabric rear, usable 900
fabric edge, usable 900, margin {beyond}

unit pane (cloth)
    square {large} of cloth
    trim to {trim} by {trim}, centred
    expect height {trim}
    cut {cut} from left into narrow and wide

quilt landing
    rectangle {large} by {large} of sand
    border {border} of sand
    back of rear, beyond {beyond}
    bind {width} of edge, straight

make 1 of narrow(sand)
"""


def words(made: Printed) -> str:
    lines = [text for step in made.data["steps"] for text in (step["text"], *step["details"], *step["measures"])]
    return "\n".join([*lines, *(text for one in made.data["fabrics"] for text in one["cutting"]["text"])])


def written(units: str, seam: str, width: str, beyond: str, trim: str, cut: str) -> Printed:
    border, large = ("6.5", "60") if units == "cm" else ("3", "30")
    return printed(
        QUILT.format(
            seam=seam, units=units, tolerance="2 mm" if units == "cm" else "1/16", large=large, border=border,
            width=width, beyond=beyond, trim=trim, cut=cut,
        )
    )  # fmt: skip


@pytest.mark.parametrize(
    ("units", "seam", "shown", "joins"),
    [
        ("cm", "0.75", "0.75 cm", "1.5"),
        ("cm", "7 mm", "0.7 cm", "1.4"),
        ("cm", "0.625", "0.625 cm", "1.25"),
        ('cm', '1/4"', "0.635 cm", "1.27"),
        ('cm', '5/16"', "⁵⁄₁₆ in", "⅝ in"),
        ("inch", "1/4", "¼ in", "½"),
        ("inch", "5/16", "⁵⁄₁₆ in", "⅝"),
        ("inch", "7 mm", "7 mm", "14 mm"),
    ],
)  # fmt: skip
def test_a_seam(units: str, seam: str, shown: str, joins: str) -> None:
    text = (
        f'pattern "Landing"\n    seam {seam}\n    units {units}\n\nfabric sand, usable 900\nfabric edge\n'
        "\nquilt landing\n    square 60 of sand\n    bind 6.25 of edge, straight\n"
    )
    told = words(printed(text))
    assert f"with a seam of {shown};" in told.replace("\u00a0", " ")
    assert f"each of which takes up {joins}." in told.replace("\u00a0", " ")


@pytest.mark.parametrize(
    ("units", "numbers", "shown"),
    [
        ("cm", ("0.75", "6.25", "7.25", "12.25", "3.25"), ("6.25", "7.25", "12.25", "3.25")),
        ("cm", ("0.75", "6.5", "7.5", "12.5", "3.125"), ("6.5", "7.5", "12.5", "3.125")),
        ("inch", ("1/4", "2 3/16", "3 5/16", "9 7/16", "2 1/32"), ("2 ³⁄₁₆", "3 ⁵⁄₁₆", "9 ⁷⁄₁₆", "2 ¹⁄₃₂")),
        ("inch", ("1/4", "2.5", "3.0625", "9.25", "2.2"), ("2½", "3 ¹⁄₁₆", "9¼", "2⅕")),
    ],
)
def test_sizes_between_the_marks(units: str, numbers: tuple[str, ...], shown: tuple[str, ...]) -> None:
    told = words(written(units, *numbers)).replace("\u202f", " ").replace("\u00a0", " ")
    width, beyond, trim, cut = shown
    off = {"6.25": "6.3", "2 ³⁄₁₆": "2¼"}.get(width)  # so the strips are listed, and the step says so
    assert ("the next mark of the ruler" in told) == bool(off)
    assert not off or f"The strips are cut {off}, the next mark of the ruler." in told
    assert f"edge strip {width}." in told or f"edge strips {width} end to end" in told
    assert f"each, {beyond} beyond the top on every side" in told
    assert f"Trim to {trim} by {trim}, centred" in told
    assert f"{cut} from the left edge" in told
    assert f"It should measure {trim} from top to bottom" in told or f"height edge should measure {trim}" in told
    assert f"{beyond} {'cm' if units == 'cm' else 'in'} is margin" in told
