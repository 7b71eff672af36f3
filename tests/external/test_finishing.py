"""Binding, backing, batting and beds, from patterns where a pattern can say it."""

from __future__ import annotations

from math import ceil

import pytest
from external.harness import number, planned
from external.rows import row, rows
from piecewright.exact import INCH_PER, Exact
from piecewright.kernel.backing import Backing, backing
from piecewright.kernel.binding import EXTRA, bias_bands, bias_square, binding
from piecewright.plan.beds import BEDS, Bed, covering, drops
from piecewright.plan.model import Plan
from piecewright.plan.quilted import batting

SEAM = Exact(1, 4)
QUILT = """
quilt throw
    rectangle {width} by {height} of sand
    back of dusk
    bind {strip} of clay{join}
"""


def finished(width: str, height: str, strip: str = "2 1/2", *, usable: str = "42", join: str = "") -> Plan:
    return planned(QUILT.format(width=width, height=height, strip=strip, join=join), usable=usable)


def strips(plan: Plan) -> int:
    return sum(cut.count for cut in plan.cuts if cut.fabric == "clay")


@rows(
    ("width", "height", "count"),
    ("BN-E2E-A", "S03 star throw 2015", "43 1/2", "49 1/2", 5),
    ("BN-E2E-C", "S03 rail fence throw", "66 1/2", "72 1/2", 8),
    ("BN-E2E-D", "S03 wall quilt 2021", "49 1/2", "49 1/2", 6),
)
def test_binding_strips(width: str, height: str, count: int) -> None:
    assert strips(finished(width, height)) == count


@rows(
    ("width", "height", "usable", "count"),
    ("BN-04", "S39 2010", "80", "68", "40", 8),
    ("BN-06", "S40 2017", "38 1/2", "38 1/2", "42", 4),
)
def test_binding_strips_joined_straight(width: str, height: str, usable: str, count: int) -> None:
    """The sources count no joins, and `straight` is ours, so that their counts come out. With straight ones, and
    10 in for corners and ends, their strips are enough; joined on the diagonal, they are too short by 3 1/2 in."""
    assert strips(finished(width, height, usable=usable, join=", straight")) == count
    assert strips(finished(width, height, usable=usable)) == count + 1


@row("BN-01", "S37 2011")
def test_the_length_of_a_binding() -> None:
    width, length = number("43 1/2"), number("49 1/2")
    made = binding(
        (width + length) * 2, number("2 1/2"), Exact(42), SEAM, "diagonal", extra=EXTRA, mark=Exact(1, 8), unit=Exact(1)
    )
    assert made.length == (width + length) * 2 + 10


@rows(
    ("length", "width", "published", "side"),
    ("BB-250", "S34", 250, "2", 23, 24),
    ("BB-100", "S35", 100, "3 1/2", 19, 21),
    ("BB-55", "S36", 55, "2 1/2", 12, 14),
)
def test_bias_squares(length: int, width: str, published: int, side: int) -> None:
    """The published sides are by area alone, which is common practice. Cut round a tube, a square has whole bands only
    and seams: each published one falls short, and ours is an inch or two larger."""
    by_area = bias_bands(Exact(published), number(width), SEAM)
    assert Exact(published) * published >= length * number(width)
    assert by_area.length < length
    made = bias_square(Exact(length), number(width), SEAM, Exact(1))
    assert made.side == side and made.length >= length


@row("BB-01", "S34; S35 2021; S36 2018")
@pytest.mark.parametrize("length", [40, 100, 196, 250, 400])
@pytest.mark.parametrize("width", ["2", "2 1/4", "2 1/2", "3 1/2"])
def test_a_bias_square_is_a_few_inches_larger_than_its_area_asks(length: int, width: str) -> None:
    """The rule is a minimum. One more whole band takes at most √2 widths of the side, and its seams five allowances."""
    least = ceil((length * float(number(width))) ** 0.5)
    most = least + 2**0.5 * float(number(width)) + 5 / 4 + 1
    assert least < float(bias_square(Exact(length), number(width), SEAM, Exact(1)).side) <= most


@row("BB-yield", "S34")
def test_the_yield_of_a_square_is_below_its_area() -> None:
    made = bias_bands(Exact(20), Exact(2), SEAM)
    assert made.bands == 6 and made.length < 162  # by area alone 200 would come from it
    assert Exact(20) * 20 / 2 == 200


@row("BB-eq", "S36")
def test_the_cloth_of_a_square() -> None:
    assert ceil(18 * 18 / 42) == 8


def backed(width: str | Exact, height: str | Exact, usable: int = 42, *, whole: bool = False) -> Backing:
    size = (number(side) if isinstance(side, str) else side for side in (width, height))
    return backing(
        *size, Exact(usable), SEAM, Exact(4), mark=Exact(1, 8), buys=lambda one: Exact(eighths_of(one)), whole=whole
    )


def eighths_of(length: Exact) -> int:
    """So many eighths of a yard."""
    return (length / Exact(9, 2)).ceil()


@rows(
    ("width", "height", "panels", "length", "eighths", "ours"),
    ("BK-E2E-B", "S03 bed quilt 2014", "77", "85 1/2", 3, "85", 57, 45),
    ("BK-E2E-C", "S03 rail fence throw", "66 1/2", "72 1/2", 2, "74 1/2", 34, 34),
    ("BK-E2E-E", "S03 sampler", "58 1/2", "58 1/2", 2, "66 1/2", 30, 30),
)
def test_backing_panels(width: str, height: str, panels: int, length: str, eighths: int, ours: int) -> None:
    """Printed are panels that run through. A narrow last one from two or three pieces that are cut side by side
    takes less; `ours` is what that buys (derived: 2 · 85 and 28 3/4; 2 · 74 1/2; 2 · 66 1/2)."""
    made = backed(width, height, whole=True)
    assert (made.panels, made.length) == (panels, number(length))
    assert eighths_of(made.cloth) == eighths
    made = backed(width, height)
    assert eighths_of(made.cloth) == ours <= eighths
    cut = [one for one in finished(width, height).cuts if one.fabric == "dusk"]
    assert sum(one.count for one in cut) == made.panels - 1 + made.pieces
    assert max(float(Exact.parse(one.height.exact)) for one in cut) == float(made.length)


@rows(
    ("lengths", "eighths"),
    ("BK-04", "S41", ("74",), (33,)),
    ("BK-05", "S95 forum 2015", ("65", "78"), (29, 35)),
)
def test_two_panels_of_cloth(lengths: tuple[str, ...], eighths: tuple[int, ...]) -> None:
    for length, expected in zip(lengths, eighths, strict=True):
        made = backed(number(length) - 8, number(length) - 8, whole=True)
        assert (made.panels, made.length) == (2, number(length))
        assert eighths_of(made.cloth) == expected


@rows(
    ("said", "beyond"),
    ("BK-01", "S41", "", 4),
    ("BK-03", "S02 Talbert, How to Make a Quilt (Storey Basics), Storey, 2014", ", beyond 2", 2),
)
def test_backing_beyond_the_top(said: str, beyond: int) -> None:
    plan = planned(f"quilt mat\n    square 30 1/2 of sand\n    back of dusk{said}\n", usable="42")
    (panel,) = (one for one in plan.cuts if one.fabric == "dusk")
    assert panel.width.exact == panel.height.exact == str(number("30 1/2") + beyond * 2)


@row("BT-01", "S03")
def test_batting_beyond_the_top() -> None:
    # the sizes of five published quilts and of their battings
    quilts = (("43 1/2", "49 1/2"), ("77", "85 1/2"), ("66 1/2", "72 1/2"), ("49 1/2", "49 1/2"), ("58 1/2", "58 1/2"))
    battings = ((52, 59), (85, 94), (75, 81), (58, 58), (67, 67))
    for (width, height), printed in zip(quilts, battings, strict=True):
        made = backed(width, height)
        assert made.width == number(width) + 8 and made.height == number(height) + 8
        assert made.width <= printed[0] and made.height <= printed[1]


@row("BT-02", "S43 2011")
def test_battings_as_they_are_sold() -> None:
    assert batting(number("62 1/2"), number("74 1/2")) == ("twin", 72, 90)
    assert batting(Exact(95), Exact(80)) == ("full", 81, 96)
    assert batting(Exact(90), Exact(108)) == ("queen", 90, 108)
    assert batting(Exact(91), Exact(91)) == ("king", 120, 120)
    assert batting(Exact(121), Exact(40)) is None


def bed(name: str) -> Bed:
    (found,) = (one for one in BEDS if one.name == name)
    return found


@row("BED-01", "S43; S46; S96")
def test_beds_in_inches() -> None:
    names = ("twin", "full", "queen", "king", "California king")
    sizes = [(float(bed(name).width), float(bed(name).length)) for name in names]
    assert sizes == [(39, 75), (54, 75), (60, 80), (76, 80), (72, 84)]


@row("BED-02", "S47 (secondary pages citing 16 CFR 1219)")
def test_the_crib_mattress_goes_into_a_crib() -> None:
    assert bed("crib").width <= 28 and bed("crib").length <= number("52 3/8")


@rows(
    ("name", "width", "length"),
    ("BED-03", "S47", "crib", "27 1/4", "51 5/8"),
    ("BED-04", "S44", "older crib", "27", "52"),
)
def test_cribs(name: str, width: str, length: str) -> None:
    assert (bed(name).width, bed(name).length) == (number(width), number(length))


@row("BED-05", "S46")
@row("BED-06", "S46")
def test_beds_in_centimetres() -> None:
    cm = INCH_PER["cm"]
    europe = [one for one in BEDS if one.name.startswith("Europe")]
    assert [one.width / cm for one in europe] == [80, 90, 100, 140, 160, 170, 180, 200]
    assert {str(one.length / cm) for one in europe} == {"200"}
    assert bed("single, UK").width / cm == Exact(183, 2) and bed("double, UK").width / cm == 137
    assert bed("single, UK").length == bed("double, UK").length == cm * 190


@rows(
    ("name", "size"),
    ("BED-drop-twin", "S45", "twin", (63, 87)),
    ("BED-drop-king", "S29 / S41", "king", (100, 92)),
    ("BED-drop-calking", "S41", "California king", (96, 96)),
)
def test_a_drop_of_twelve(name: str, size: tuple[int, int]) -> None:
    assert covering(bed(name), Exact(12)) == size


@row("BED-07", "S45")
def test_a_drop_on_both_sides_and_at_the_foot() -> None:
    for one in BEDS:
        width, length = covering(one, number("10 1/2"))
        assert (width, length) == (one.width + 21, one.length + number("10 1/2"))
        assert drops(one, width, length) == (number("10 1/2"),) * 2


@row("BED-E2E", "S03 2014")
def test_the_drop_of_a_published_quilt() -> None:
    side, foot = drops(bed("full"), Exact(77), number("85 1/2"))
    assert foot == number("10 1/2")
    assert abs(side - number("10 1/2")) <= 1
