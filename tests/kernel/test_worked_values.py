"""Values of patchwork worked out once on paper, one test a construction, as exact numbers.

`s` is the seam allowance, 1/4 in unless a test says otherwise. Curved seams are not here.
"""

from __future__ import annotations

import pytest
from kernel.sewing import (
    ALL_ROUND,
    ROOT_2,
    ROOT_3,
    ROOT_5,
    TOLERANCE,
    S,
    bordered,
    ears,
    finished,
    half,
    halves,
    inches,
    join,
    joined,
    oblong,
    quarter,
    raw_length,
    sizes,
    square,
    trapezoid,
)
from kernel.stars import finished_part, ray, star_of_eight
from piecewright.exact import Exact, Vector
from piecewright.kernel.chain import chain
from piecewright.kernel.cut import cut
from piecewright.kernel.errors import SewingError
from piecewright.kernel.flip import flip
from piecewright.kernel.measure import (
    bounds,
    edge_length,
    in_balance,
    outline_area,
    width,
)
from piecewright.kernel.moves import moved, settled, turned
from piecewright.kernel.pieces import polygon_piece
from piecewright.kernel.places import edge
from piecewright.kernel.points import points
from piecewright.kernel.trim import Centred, SeamFrom, SeamOnDiagonal, trim
from piecewright.kernel.unit import Unit


def test_two_right_triangles_joined_on_the_long_edge() -> None:
    unit = join(half("3 7/8"), "long-edge", half("3 7/8", "b"), "long-edge")
    assert sizes(unit) == ("31/8 - 1/4*sqrt(2)", "31/8 - 1/4*sqrt(2)")
    assert finished(unit) == ("27/8 - 1/4*sqrt(2)", "27/8 - 1/4*sqrt(2)")
    assert round(float(width(unit)), 4) == 3.5214
    trimmed = trim(unit, inches("3 1/2"), inches("3 1/2"), (SeamOnDiagonal(rising=False),))
    assert sizes(trimmed.unit) == ("7/2", "7/2")
    assert in_balance(unit) and in_balance(trimmed.unit)


@pytest.mark.parametrize("f", ["1", "3", "4 1/2"])
@pytest.mark.parametrize("s", [Exact(1, 4), Exact(1, 2), Exact(3, 10)])
def test_half_square_triangle(f: str, s: Exact) -> None:
    side = inches(f) + (2 + ROOT_2) * s
    unit = join(half(side, "a", s), "long-edge", half(side, "b", s), "long-edge")
    assert finished(unit) == (str(inches(f)), str(inches(f)))
    if s == S:
        assert str(side) == str(inches(f) + Exact(1, 2) + ROOT_2 / 4)


@pytest.mark.parametrize("f", ["3", "8"])
@pytest.mark.parametrize("s", [Exact(1, 4), Exact(1, 2)])
def test_quarter_square_triangle(f: str, s: Exact) -> None:
    unit = quarter(inches(f) + (2 + 2 * ROOT_2) * s, "a", s)
    assert edge_length(unit, edge(unit, "bottom"), finished=True) == inches(f)
    if s == S:
        assert str(edge_length(unit, edge(unit, "bottom"), finished=False)) == f"{2 * int(f) + 1}/2 + 1/2*sqrt(2)"


def framed() -> Unit:
    return bordered(square("5 1/2"), "2 1/4", "b", ALL_ROUND)


def test_framed_square() -> None:
    assert sizes(framed()) == ("9", "9")  # a + 2w - 4s
    assert sizes(bordered(square("6 1/2"), "2", "b", ALL_ROUND)) == ("19/2", "19/2")
    assert in_balance(framed())


def rejoined(frame: Unit, side: str) -> Unit:
    """The lower half of a framed square joined to half of a plain square."""
    return join(halves(frame)[0], "long-edge", half(side, "b"), "long-edge")


def test_framed_square_cut_once_and_each_half_joined_to_half_a_square() -> None:
    unit = rejoined(framed(), "9")
    assert sizes(unit) == ("9 - 1/4*sqrt(2)", "9 - 1/4*sqrt(2)")
    assert round(float(width(unit)), 4) == 8.6464
    # common practice, no source: the same from 6 1/2 and 2 in strips, "about 9", trimmed to 8 1/2
    other = rejoined(bordered(square("6 1/2"), "2", "b", ALL_ROUND), "9 1/2")
    assert sizes(other) == ("19/2 - 1/4*sqrt(2)", "19/2 - 1/4*sqrt(2)")
    trimmed = trim(other, inches("8 1/2"), inches("8 1/2"), (SeamOnDiagonal(rising=False),))
    assert sizes(trimmed.unit) == ("17/2", "17/2")
    assert in_balance(unit) and in_balance(trimmed.unit)


def test_what_comes_off_each_side_of_a_trim_on_the_diagonal() -> None:
    unit = rejoined(framed(), "9")
    eight = Exact(8)
    trimmed = trim(unit, eight, eight, (SeamOnDiagonal(rising=False),))
    assert [str(off) for off in trimmed.off] == ["1/2 - 1/8*sqrt(2)"] * 4
    assert round(float(trimmed.off[0]), 4) == 0.3232
    kept = 2 - trimmed.off[0]  # of the frame's visible 2 in
    assert (str(kept), round(float(kept), 4)) == ("3/2 + 1/8*sqrt(2)", 1.6768)
    with pytest.raises(SewingError) as caught:
        trim(
            unit,
            eight,
            eight,
            (SeamOnDiagonal(rising=False), Centred(), SeamFrom(distance=inches("1 3/4"), side="left")),
        )
    assert caught.value.kind == "alignments-disagree"
    assert str(caught.value.facts["difference"]) == "1/4 - 1/8*sqrt(2)"
    slide = Exact(1, 8) * ROOT_2 / 2  # an eighth along the seam
    slid = trim(unit, eight, eight, (SeamOnDiagonal(rising=False), SeamFrom(distance=kept + slide, side="left")))
    assert sorted(str(off) for off in slid.off) == ["1/2 - 1/16*sqrt(2)"] * 2 + ["1/2 - 3/16*sqrt(2)"] * 2
    assert sorted({round(float(off), 4) for off in slid.off}) == [0.2348, 0.4116]


def in_a_square(centre: Unit, leg: Exact, fabric: str) -> Unit:
    for side in ALL_ROUND:
        centre = join(centre, side, half(leg, fabric), "long-edge")
    return settled(turned(centre, 45))


def test_square_in_a_square_three_deep() -> None:
    f = Exact(4)
    unit = square("4 1/2")
    for leg, done in (
        ("1/2 + 9/4*sqrt(2)", "4*sqrt(2)"),
        ("9/2 + 1/4*sqrt(2)", "8"),
        ("1/2 + 17/4*sqrt(2)", "8*sqrt(2)"),
    ):
        before = len(ears(unit))
        exact = f / ROOT_2 + (2 + ROOT_2) * S
        assert str(exact) == leg
        unit = in_a_square(unit, exact, leg[0])
        assert finished(unit) == (done, done)
        assert [tip.beyond for tip in points(unit)] == [0] * len(points(unit))
        assert len(points(unit)) >= 4
        round_ears = ears(unit)[before:]
        assert len(round_ears) == 4
        assert set(round_ears) == {(ROOT_2 - 1) * (ROOT_2 - 1) * S * S / 2}
        assert round(float(round_ears[0]), 5) == 0.00536
        assert in_balance(unit)
        f = f * ROOT_2


def test_square_in_a_square_by_the_rule_of_seven_eighths() -> None:
    """The rule's legs, f/√2 + 7/8, are 3/8 - √2/4 too long: the finished edge is √2 times that."""
    leg = Exact(4) / ROOT_2 + Exact(7, 8)
    tip = half(leg)
    excess = edge_length(tip, edge(tip, "long-edge"), finished=True) - 4
    assert str(excess) == "-1/2 + 3/8*sqrt(2)"
    assert round(float(excess), 4) == 0.0303
    unit = square("4 1/2")
    for side in ALL_ROUND:
        unit = join(unit, side, half(leg, "b"), "long-edge", TOLERANCE)
    unit = settled(turned(unit, 45))
    floats = {str(tip.beyond) for tip in points(unit) if tip.fabric == "a"}
    assert floats == {"3/16 - 1/8*sqrt(2)"}
    assert round(float(Exact.parse(floats.pop())), 4) == 0.0107


def pieced_goose() -> Unit:
    wing = half(2 + (2 + ROOT_2) * S, "sky")
    unit = quarter(4 + (2 + 2 * ROOT_2) * S, "bird")
    unit = join(unit, "left", wing, "long-edge")
    return settled(join(unit, "right", wing, "long-edge"))


def flipped_goose() -> Unit:
    unit = oblong("4 1/2", "2 1/2", "bird")
    corner = square("2 1/2", "sky")
    unit = flip(unit, corner, Vector(0, 0), Vector(-1, -1).unit())
    return flip(unit, moved(corner, Vector(2, 0)), inches_at("4 1/2", "0"), Vector(-1, 1).unit())


def inches_at(x: str, y: str) -> Vector:
    return Vector(inches(x), inches(y))


def colours(unit: Unit) -> set[tuple[str, frozenset[Vector]]]:
    """Every cell with its fabric, wherever its outline begins."""
    return {(patch.fabric, frozenset(cell)) for patch in unit.patches for cell in patch.cells}


def test_flying_geese_two_ways() -> None:
    pieced, flipped = pieced_goose(), flipped_goose()
    assert sizes(pieced) == sizes(flipped) == ("9/2", "5/2")
    assert finished(pieced) == finished(flipped) == ("4", "2")
    assert colours(pieced) == colours(flipped)
    assert str(pieced.cloth) == "185/16 + 19/8*sqrt(2)"
    assert str(flipped.cloth) == "95/4"
    assert in_balance(pieced) and in_balance(flipped)


def spike(h: Exact, fabric: str = "a") -> Unit:
    """An equal-sided triangle from a strip h + 3s wide, base at the bottom."""
    high = h + 3 * S
    side = high * 2 / ROOT_3
    return polygon_piece(
        (Vector(Exact(0), Exact(0)), Vector(side, Exact(0)), Vector(side / 2, high)), fabric=fabric, allowance=S
    )


def test_equilateral_triangles_in_rows() -> None:
    h = Exact(3)
    one = spike(h)
    assert finished(one) == ("2*sqrt(3)", "3")
    row = join(one, "right", turned(spike(h, "b"), 180), "left")
    row = join(row, "right", spike(h, "c"), "left")
    assert sizes(row)[1] == "7/2"  # h + 2s
    assert ears(row) == []
    assert in_balance(row)
    assert {tip.y for corner in row.corners for tip in corner.raw} == {Exact(0), inches("3 1/2")}  # flush, no step


def test_half_rectangle_triangle() -> None:
    a = Exact(2)
    grow = (3 + ROOT_5) * S
    low, high = halves(oblong(a + grow / 2, 2 * a + grow))
    unit = join(low, "long-edge", high, "long-edge")
    assert finished(unit) == ("2", "4")
    assert str(grow / 2) == "3/8 + 1/8*sqrt(5)" and round(float(grow / 2), 4) == 0.6545
    # the tips stagger along the long edge: finished corners meet, raw tips do not
    placed = joined(low, "long-edge", high, "long-edge")
    i = edge(low, "long-edge")
    along = low.directions[i]
    mine = low.corners[(i + 1) % 3].raw[0]
    theirs = placed.second.corners[edge(placed.second, "long-edge")].raw[0]
    assert abs((mine - theirs).dot(along)) == grow / 2
    assert ears(unit) == [Exact(1, 64)] * 2
    assert in_balance(unit)


def test_star_of_eight_diamonds() -> None:
    f = Exact(3)
    one = ray(f, "diamond")
    assert {edge_length(one, n, finished=True) for n in range(4)} == {f}
    star = star_of_eight(f)
    assert finished(star) == ("6 + 3*sqrt(2)", "6 + 3*sqrt(2)")  # f·(2 + √2)
    assert str(outline_area(star)) == "241/4 + 39*sqrt(2)"
    assert in_balance(star)
    assert [str(finished_part(star, name)) for name in ("diamond", "square", "triangle")] == ["36*sqrt(2)", "36", "18"]


def test_four_rectangles_round_a_centre_by_a_partial_seam() -> None:
    """Finished 5 by 2 round a finished 3. The first seam is sewn for the length of the centre's side only."""
    centre, strip = square("3 1/2"), oblong("5 1/2", "2 1/2", "b")
    # even at the start of the centre's right edge: the strip runs on past its end
    unit = chain(centre, edge(centre, "right"), strip, edge(strip, "bottom"), fit="start").unit
    assert in_balance(unit)
    unit = chain(unit, edge(unit, "bottom"), strip, edge(strip, "bottom")).unit
    unit = chain(unit, edge(unit, "left"), strip, edge(strip, "bottom")).unit
    # the last two edges at once: the centre's top with the strip's side, and the first strip's open end
    unit = close_partial(unit, strip)
    assert finished(unit) == ("7", "7")
    assert str(outline_area(unit)) == "225/4"
    assert in_balance(unit)


def close_partial(unit: Unit, strip: Unit) -> Unit:
    for n in range(len(unit.directions)):
        for k in (3, 2):
            for j in range(4):
                try:
                    done = chain(unit, n, strip, j, k=k).unit
                except SewingError:
                    continue
                if len(done.corners) == 4:
                    return done
    raise AssertionError("the last strip does not close the frame")


def test_an_eased_mismatch() -> None:
    near = oblong("4 1/2", inches("4 1/2") + Exact(1, 64), "b")
    placed = joined(square("4 1/2"), "right", near, "left", TOLERANCE)
    assert placed.eased == Exact(1, 64)
    unit = placed.unit
    assert finished(unit) == ("8", "4")
    assert [str(line.area) for line in unit.ledger if line.kind == "sliver"] == ["9/256", "9/256"]
    assert in_balance(unit)
    unit = join(unit, "top", oblong("8 1/2", "1 1/2", "c"), "bottom")
    assert finished(unit) == ("8", "5")
    assert in_balance(unit)
    far = oblong("4 1/2", inches("4 1/2") + Exact(5, 64), "b")
    with pytest.raises(SewingError) as caught:
        join(square("4 1/2"), "right", far, "left", TOLERANCE)
    assert caught.value.kind == "edges-differ"
    assert str(caught.value.facts["difference"]) == "5/64"


def mitre(across: Exact, border: Exact, fabric: str = "b") -> Unit:
    """A border with both ends cut at 45 degrees, long raw edge at the top."""
    inner, high = across, border + 2 * S
    reach = border + (1 + ROOT_2) * S  # of the outer raw corner beyond the finished inner corner
    low = reach - high
    return trapezoid(
        (
            (reach - low, Exact(0)),
            (reach + inner + low, Exact(0)),
            (2 * reach + inner, high),
            (Exact(0), high),
        ),
        fabric,
    )


def test_mitred_frame() -> None:
    across, border = Exact(6), Exact(2)
    strip = mitre(across, border)
    assert edge_length(strip, edge(strip, "bottom"), finished=True) == across
    assert str(raw_length(strip, "top")) == "21/2 + 1/2*sqrt(2)"  # W + 2b + 2(1 + √2)s
    assert raw_length(strip, "top") == across + 2 * border + 2 * (1 + ROOT_2) * S
    unit = square(across + 2 * S)
    unit = join(unit, "bottom", strip, "bottom")
    unit = _mitred(unit, strip, 2)
    unit = _mitred(unit, strip, 2)
    unit = _mitred(unit, strip, 3)
    assert finished(unit) == ("10", "10")
    assert sizes(unit) == ("21/2", "21/2")
    assert in_balance(unit)


def _mitred(unit: Unit, strip: Unit, k: int) -> Unit:
    for n in range(len(unit.directions)):
        for j in range(4):
            try:
                done = chain(unit, n, strip, j, k=k).unit
            except SewingError:
                continue
            if (k == 2 and len(done.corners) <= len(unit.corners) + 2) or len(done.corners) == 4:
                return done
    raise AssertionError("no corner takes this border")


@pytest.mark.parametrize("f", ["4", "12"])
def test_on_point_triangles(f: str) -> None:
    block = inches(f)
    side = quarter(block * ROOT_2 + (2 + 2 * ROOT_2) * S)
    corner = half(block / ROOT_2 + (2 + ROOT_2) * S)
    assert edge_length(side, edge(side, "left"), finished=True) == block
    assert edge_length(side, edge(side, "right"), finished=True) == block
    assert edge_length(corner, edge(corner, "long-edge"), finished=True) == block
    assert str(width(side)) == f"1/2 + {2 * int(f) + 1}/2*sqrt(2)"
    left, bottom, right, top = bounds(corner)
    assert right - left == top - bottom == block / ROOT_2 + (2 + ROOT_2) * S


def test_a_cut_line_beside_the_work_is_refused() -> None:
    with pytest.raises(SewingError) as caught:
        cut(square("3"), Vector(4, 0), Vector(0, 1))
    assert caught.value.kind == "cut-misses"
