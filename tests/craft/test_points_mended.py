"""What a warning about a point says to do is done, in inches and in centimetres, and the warning is gone."""

from __future__ import annotations

import re
from fractions import Fraction

import pytest
from craft.looked import FABRICS, TRIANGLES, found, warned

INCHES, CENTIMETRES = "", 'pattern "Points"\n    units cm\n    seam 0.75\n'
GOOSE = (
    FABRICS
    + TRIANGLES
    + """\
unit goose
    take quarter({square}, dark)
    join long-edge of half({half}, light) on left
    join long-edge of half({half}, light) on right
    trim to {size}, point {above} from top

"""
)
FLIGHT = "block flight\n    take goose\n    join rectangle {size} of light on top\n"
ROW = "block flight\n    lay, press open\n        | rectangle {size} of light\n        | goose\n"


def mend(text: str) -> str:
    """The hint of the one warning about a point."""
    (one,) = [one for one in found(text) if one.code == "W503"]
    assert one.hint is not None
    return one.hint


def points(text: str) -> list[str]:
    assert not [one for one in found(text) if one.severity == "error"]
    return [code for code, _ in warned(text) if code == "W503"]


def geese(units: str, above: str) -> str:
    inch = units == INCHES
    return units + GOOSE.format(
        square="6" if inch else "15.5", half="3 1/4" if inch else "8.5", size="4 1/2 by 2 1/4" if inch else "11.5 by 6",
        above=above,
    )  # fmt: skip


@pytest.mark.parametrize(
    ("units", "above", "size", "hint"),
    [
        (INCHES, "1/8", "4 1/2 by 2 1/4", "`trim to 4 1/2 by 2 1/4, point 1/4 from top`"),
        (CENTIMETRES, "0.4", "11.5 by 6", "`trim to 11.5 by 6, point 0.75 from top`"),
    ],
)
@pytest.mark.parametrize("user", [FLIGHT, ROW])
def test_the_ruler_is_laid_otherwise(units: str, above: str, size: str, hint: str, user: str) -> None:
    text = geese(units, above) + user.format(size=size)
    assert mend(text) == f"lay the ruler by the point in `goose`: {hint}"
    (old,) = re.findall(r"    (trim .*)\n", text)
    assert points(text.replace(old, hint.strip("`"))) == []


@pytest.mark.parametrize("turn", ["left", "right", "around"])
def test_the_side_is_told_as_it_lies_where_it_is_trimmed(turn: str) -> None:
    where = {"left": "left", "right": "right", "around": "bottom"}[turn]
    size = "2 3/4" if turn != "around" else "5"
    joined = f"    join rectangle {size} by {size} of light on {where}, centred\n"
    user = f"block flight\n    take goose turned {turn}\n{joined}"
    assert mend(geese(INCHES, "1/8") + user).endswith("in `goose`: `trim to 4 1/2 by 2 1/4, point 1/4 from top`")


FRAMED = (
    FABRICS
    + TRIANGLES
    + """\
block framed
    square {square} of light
    turn 45 left
    join long-edge of half({leg}, dark) on upper-left, centred
    join long-edge of half({leg}, dark) on lower-right, centred
    join long-edge of half({leg}, dark) on upper-right, centred
    join long-edge of half({leg}, dark) on lower-left, centred
    border {border} of dark on right
"""
)


@pytest.mark.parametrize(
    ("units", "sizes", "seam"),
    [
        (INCHES, {"square": "4 1/2", "leg": "4", "border": "2"}, "1/4"),
        (CENTIMETRES, {"square": "11.5", "leg": "10.5", "border": "5"}, "0.75"),
    ],
)
def test_a_trim_by_all_points_before_the_seam(units: str, sizes: dict[str, str], seam: str) -> None:
    text = units + FRAMED.format(**sizes)
    assert mend(text) == f"trim by the points, before this step: `trim {seam} outside points`"
    assert points(text.replace("    border", f"    trim {seam} outside points\n    border")) == []


FLIPPED = (
    FABRICS
    + """\
unit goose
    rectangle {wide} by {high} of dark
    flip square {half} of light at top-left
    flip square {half} of light at top-right
block two
    take goose
    join rectangle {wide} by 5 of light on top
"""
)


def test_one_trim_more_where_the_point_stops_short_of_one_side() -> None:
    """The flips cut as deep as their squares at the sides, and meet half the width higher up: 1/4 below the top
    with squares of 2 1/2, and 3/8 with 2 5/8."""
    assert points(FLIPPED.format(wide="4 1/2", high="3", half="2 1/2")) == []
    far = FLIPPED.format(wide="4 1/2", high="3", half="2 5/8")
    assert mend(far) == "trim by the point, before this step: `trim to 4 1/2 by 2 7/8, point 1/4 from top`"
    assert points(far.replace("    join rect", "    trim to 4 1/2 by 2 7/8, point 1/4 from top\n    join rect")) == []


@pytest.mark.parametrize(
    ("units", "wide", "high", "half", "size", "seam"),
    [
        (INCHES, "4 1/2", "3 1/4", "2 5/8", "4 1/2 by 2 3/4", "1/4"),
        (CENTIMETRES, "11.5", "8", "7", "11.5 by 7", "0.75"),
    ],
)
def test_a_ruler_laid_too_high(units: str, wide: str, high: str, half: str, size: str, seam: str) -> None:
    text = units + FLIPPED.format(wide=wide, high=high, half=half)
    trimmed = text.replace("\nblock", f"\n    trim to {size}\nblock")
    high_up = trimmed.replace(f"trim to {size}", f"trim to {size}, point {half} - {wide} / 2 from top")
    assert mend(high_up) == f"lay the ruler by the point in `goose`: `trim to {size}, point {seam} from top`"
    assert points(trimmed.replace(f"trim to {size}", f"trim to {size}, point {seam} from top")) == []


@pytest.mark.parametrize(
    ("units", "wide", "high", "half", "more"),
    [
        (INCHES, "4 1/2", "2 1/2", "2 1/4", "1/4"),
        (INCHES, "4 1/2", "2 1/2", "2 3/8", "1/8"),
        (CENTIMETRES, "11.5", "6.5", "6", "0.5"),
    ],
)
def test_more_cloth_where_the_seam_would_cut_the_point_off(
    units: str, wide: str, high: str, half: str, more: str
) -> None:
    text = units + FLIPPED.format(wide=wide, high=high, half=half)
    hint = mend(text)
    assert hint.split(": ")[1].startswith(f"cut the pieces of `goose` {more} larger, so that there is so much more")
    larger = units + FLIPPED.format(wide=wide, high=f"{high} + {more}", half=f"{half} + {more}")
    assert points(larger) == []


# ── points on paper ─────────────────────────────────────────────────────────────────────────────

PEAK = (
    FABRICS
    + """\
block peak
    foundation {size} by {size} of dark
    add light at top-left, bottom {foot} from left, top {top} from left
    add light at top-right, bottom {foot} from right, top {top} from right
"""
)
ON_TOP = "block two\n    take peak\n    join rectangle {size} by {size} of light on top\n"


def above(size: Fraction, foot: Fraction, top: Fraction, seam: Fraction) -> Fraction:
    """How far beyond the seam line the two lines cross: on the middle, by the slope of the left one."""
    return size * (size / 2 - foot) / (top - foot) - (size - seam)


def mixed(number: Fraction) -> str:
    return f"{number.numerator}/{number.denominator}"


@pytest.mark.parametrize(("size", "foot"), [(Fraction(9, 2), Fraction(1, 8)), (Fraction(5), Fraction(1, 2))])
@pytest.mark.parametrize("sixteenths", range(-3, 8))
def test_a_peak_that_lies_in_the_seam_of_a_foundation(size: Fraction, foot: Fraction, sixteenths: int) -> None:
    """Told of the finished paper, and of the next seam as well as of the paper alone."""
    seam = Fraction(1, 4)
    top = size / 2 + Fraction(sixteenths, 16)
    beyond = above(size, foot, top, seam)
    # lost from half of the tolerance on, as far as one seam beyond it; floating from all of it on
    told = Fraction(1, 32) < beyond <= seam or -seam < beyond < -Fraction(1, 16)
    text = PEAK.format(size=mixed(size), foot=mixed(foot), top=mixed(top))
    assert points(text) == ["W503"] * told
    assert points(text + ON_TOP.format(size=mixed(size))) == ["W503"] * told
    if told:
        assert mend(text) == "draw the two lines of the foundation so that they cross 1/4 inside the edge of the paper"
        right = foot + size * (size / 2 - foot) / (size - seam)
        assert above(size, foot, right, seam) == 0
        assert points(PEAK.format(size=mixed(size), foot=mixed(foot), top=mixed(right))) == []


def test_a_peak_on_paper_in_centimetres() -> None:
    text = CENTIMETRES + PEAK.format(size="11.5", foot="0.5", top="5.75")
    assert warned(text) == [("W503", "add light at top-right, bottom 0.5 from right, top 5.75 from right")]
    (one,) = found(text)
    assert one.message == "a point of dark in peak lies in the seam of the paper, 0.75 beyond the seam line at the top"
    assert one.hint == "draw the two lines of the foundation so that they cross 0.75 inside the edge of the paper"
