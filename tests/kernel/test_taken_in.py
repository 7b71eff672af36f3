"""An edge taken in by a little, and a mark on an edge, against outlines and areas worked out beside them."""

from __future__ import annotations

from fractions import Fraction

import pytest
from kernel.sewing import S, half, inches, join, oblong, square, trapezoid
from piecewright.exact import Exact, Vector
from piecewright.kernel.errors import SewingError
from piecewright.kernel.measure import in_balance, outline_area
from piecewright.kernel.places import edge
from piecewright.kernel.takein import marked, taken_in
from piecewright.kernel.unit import Unit

BY = Exact(1, 16)
Box = tuple[Fraction, Fraction, Fraction, Fraction]


def box(unit: Unit, raw: bool) -> Box:
    """Left, bottom, right, top."""
    points = [p for c in unit.corners for p in (c.raw if raw else (c.finished,))]
    xs, ys = [Fraction(*p.x.ratio) for p in points], [Fraction(*p.y.ratio) for p in points]
    return min(xs), min(ys), max(xs), max(ys)


@pytest.mark.parametrize("side", ["left", "bottom", "right", "top"])
def test_a_side_of_a_rectangle(side: str) -> None:
    unit = taken_in(oblong(5, 3), edge(oblong(5, 3), side), BY)
    number, by, s = ("left", "bottom", "right", "top").index(side), Fraction(1, 16), Fraction(1, 4)
    raw = [Fraction(0), Fraction(0), Fraction(5), Fraction(3)]
    raw[number] += by if number < 2 else -by
    assert box(unit, True) == tuple(raw)
    assert box(unit, False) == (raw[0] + s, raw[1] + s, raw[2] - s, raw[3] - s)
    long = 3 if side in ("left", "right") else 5
    assert [(one.kind, one.fabric, one.area) for one in unit.ledger] == [("sliver", "a", BY * long)]
    assert in_balance(unit) and outline_area(unit) == Exact(15) - BY * long
    assert len(unit.corners) == 4 and all(len(corner.raw) == 1 for corner in unit.corners)


def test_the_long_side_of_half_a_square() -> None:
    """Legs of 4: taken in by 1/16, the long side moves along each leg by √2 as much, and the sliver is a trapezoid
    between long sides of 4√2 and (4 - √2/16)√2."""
    unit = half(4)
    slim = taken_in(unit, edge(unit, "long-edge"), BY)
    leg = Exact(4) - Exact.root(2) * BY
    raw = {p for corner in slim.corners for p in corner.raw}
    assert raw == {Vector(0, 0), Vector(leg, 0), Vector(0, leg)}
    assert slim.ledger[-1].area == (Exact(16) - leg * leg) / 2
    # the finished legs are (2 + √2) seams shorter than the raw ones, whatever these are
    assert {corner.finished for corner in slim.corners} == {
        Vector(S, S), Vector(leg - S - Exact.root(2) * S, S), Vector(S, leg - S - Exact.root(2) * S)
    }  # fmt: skip
    assert in_balance(slim)


def test_the_seams_end_where_the_cloth_does() -> None:
    pair = join(square(3, "a"), "right", square(3, "b"), "left")
    slim = taken_in(pair, edge(pair, "top"), BY)
    (seam,) = slim.seams
    assert abs(seam.start.y - seam.end.y) == Exact(3) - BY
    assert sorted((one.fabric, one.area) for one in slim.ledger if one.kind == "sliver") == [
        ("a", BY * Exact(11, 4)), ("b", BY * Exact(11, 4))
    ]  # fmt: skip
    assert in_balance(slim)
    lower = taken_in(pair, edge(pair, "left"), BY)
    assert abs(lower.seams[0].start.y - lower.seams[0].end.y) == Exact(3), "a seam that runs along it stays"


@pytest.mark.parametrize(("by", "there"), [("1", True), ("2", True), ("3 3/8", True), ("3 7/16", False), ("4", False)])
def test_no_farther_than_the_neighbours_go(by: str, there: bool) -> None:
    """A triangle of 8 by 4, whose sides meet at a right angle, taken in at its base."""
    size = inches(by)
    tip = trapezoid(((Exact(0), Exact(0)), (Exact(8), Exact(0)), (Exact(4), Exact(4))))
    # the finished base is 8 - 2 (1 + √2) / 4 long, and loses twice what it is taken in
    assert (Exact(8) - (Exact(1) + Exact.root(2)) / 2 - size * 2 > 0) is there
    if there:
        slim = taken_in(tip, edge(tip, "bottom"), size)
        assert outline_area(slim) == (Exact(4) - size) * (Exact(4) - size)
        assert in_balance(slim)
    else:
        with pytest.raises(SewingError) as caught:
            taken_in(tip, edge(tip, "bottom"), size)
        assert caught.value.kind == "edge-too-short"


@pytest.mark.parametrize(
    ("at", "there"), [("1/4", False), ("1/2", True), ("3 1/2", True), ("4 3/4", False), ("0", False), ("5", False)]
)
def test_a_mark_lies_between_the_ends_of_the_seam_line(at: str, there: bool) -> None:
    place = inches(at)
    unit, number = oblong(5, 3), edge(oblong(5, 3), "bottom")
    if not there:
        with pytest.raises(SewingError) as caught:
            marked(unit, number, Vector(place, S))
        assert caught.value.kind == "mark-off-edge"
        return
    two, same = marked(unit, number, Vector(place, S))
    assert same == number and len(two.corners) == 5
    assert two.corners[number + 1].finished == Vector(place, S)
    assert two.corners[number + 1].raw == (Vector(place, Exact(0)),)
    assert two.directions[number] == two.directions[number + 1] == Vector(1, 0)
