"""Pieces cut at an angle, inner corners, seams in part and stepped strips."""

from __future__ import annotations

import pytest
from kernel.sewing import ROOT_2, ROOT_3, S, finished, inches, oblong, sizes, square
from kernel.stars import finished_part, ray
from piecewright.exact import Exact, Vector
from piecewright.kernel.chain import chain
from piecewright.kernel.close import close
from piecewright.kernel.congruence import alike
from piecewright.kernel.errors import SewingError
from piecewright.kernel.gaps import corner_that_fits, inner_corner, inner_corners, middle
from piecewright.kernel.measure import edge_length, in_balance, outline_area, seen_area
from piecewright.kernel.moves import mirrored, turned
from piecewright.kernel.partial import open_seam, sewn_in_part
from piecewright.kernel.places import edge
from piecewright.kernel.slanted import diamond, parallelogram, slant, slope, trapezoid, triangle
from piecewright.kernel.stepped import cuts_between, segment, stepped
from piecewright.kernel.unit import Unit

ANGLES = (15, 30, 45, 60, 75)


def test_an_equal_sided_triangle_takes_three_allowances() -> None:
    one = triangle(inches("3 3/4"), 60, fabric="a", allowance=S)
    assert finished(one) == ("2*sqrt(3)", "3")
    assert {edge_length(one, n, finished=True) for n in range(3)} == {2 * ROOT_3}
    assert in_balance(one)


def test_a_diamond_is_the_ray_of_a_star() -> None:
    f = Exact(3)
    one = diamond(f / ROOT_2 + 2 * S, 45, fabric="a", allowance=S)
    assert one.corners == ray(f, "a").corners
    assert one.directions == ray(f, "a").directions
    assert {edge_length(one, n, finished=True) for n in range(4)} == {f}


@pytest.mark.parametrize("angle", ANGLES)
def test_a_diamond_has_equal_sides_and_both_heights_of_its_strip(angle: int) -> None:
    one = diamond(Exact(3), angle, fabric="a", allowance=S)
    assert len({edge_length(one, n, finished=False) for n in range(4)}) == 1
    for n in (0, 1):
        across = one.corners[(n + 2) % 4].raw[0] - one.corners[n].raw[0]
        assert one.directions[n].cross(across) == 3
        inner = one.corners[(n + 2) % 4].finished - one.corners[n].finished
        assert one.directions[n].cross(inner) == 3 - 2 * S


@pytest.mark.parametrize("angle", ANGLES)
def test_areas(angle: int) -> None:
    base, height = Exact(40), Exact(2)
    run = slant(height, angle)
    assert outline_area(parallelogram(base, height, angle, fabric="a", allowance=S)) == base * height
    assert outline_area(trapezoid(base, height, angle, fabric="a", allowance=S)) == (base - run) * height
    assert outline_area(triangle(height, angle, fabric="a", allowance=S)) == run * height


def test_a_trapezoid_at_both_ends_grows_as_the_table_says() -> None:
    """Long side f + 2s cot(t/2), short one f + 2s tan(t/2); at 60 degrees cot 30 = √3, tan 30 = 1/√3."""
    one = trapezoid(6 + 2 * S * ROOT_3, inches("3 1/2"), 60, fabric="a", allowance=S)
    assert edge_length(one, 0, finished=True) == 6
    assert edge_length(one, 2, finished=False) - edge_length(one, 2, finished=True) == 2 * S / ROOT_3


@pytest.mark.parametrize(("angle", "kind"), [(0, "angle-not-sharp"), (90, "angle-not-sharp"), (50, "angle-outside")])
def test_angles_that_are_refused(angle: int, kind: str) -> None:
    with pytest.raises(SewingError) as caught:
        slope(angle)
    assert caught.value.kind == kind


@pytest.mark.parametrize("base", ["4", "3"])
def test_a_trapezoid_needs_a_short_side(base: str) -> None:
    with pytest.raises(SewingError) as caught:
        trapezoid(inches(base), Exact(2), 45, fabric="a", allowance=S)
    assert caught.value.kind == "no-short-side"
    assert caught.value.facts["run"] == 4


def test_the_mirror_image_of_all_but_a_parallelogram_is_the_same_piece() -> None:
    pieces = {
        "triangle": triangle(Exact(3), 60, fabric="a", allowance=S),
        "diamond": diamond(Exact(3), 45, fabric="a", allowance=S),
        "trapezoid": trapezoid(Exact(8), Exact(2), 45, fabric="a", allowance=S),
        "parallelogram": parallelogram(Exact(8), Exact(2), 45, fabric="a", allowance=S),
    }
    same = {name for name, piece in pieces.items() if alike(piece, mirrored(piece)) is not None}
    assert same == {"triangle", "diamond", "trapezoid"}


# ── inner corners ────────────────────────────────────────────────────────────────────────────────


def elbow() -> Unit:
    """Two squares side by side, the right one on top of a third: open toward the top left."""
    low = oblong("4 1/2", "2 1/2")
    high = square("2 1/2", "b")
    return chain(low, edge(low, "top"), high, edge(high, "bottom"), fit="start").unit


@pytest.mark.parametrize("eighths", range(8))
def test_an_inner_corner_is_found_by_the_way_it_opens(eighths: int) -> None:
    ways = ("top-left", "left", "bottom-left", "bottom", "bottom-right", "right", "top-right", "top")
    unit = turned(elbow(), 45 * eighths)
    found = inner_corner(unit, ways[eighths], middle(unit))
    assert inner_corners(unit) == (found,)
    with pytest.raises(SewingError) as caught:
        inner_corner(unit, ways[eighths - 1], middle(unit))
    assert caught.value.kind == "no-inner-corner"
    assert caught.value.facts["names"] == (ways[eighths],)


def test_a_square_fills_the_elbow() -> None:
    unit = elbow()
    corner = inner_corner(unit, "top-left", middle(unit))
    piece = square("2 1/2", "c")
    j = corner_that_fits(unit, corner, piece, Exact(0))
    joined = chain(unit, corner - 1, piece, j, k=2)
    assert joined.second.directions[0] == Vector(1, 0)  # of four corners, the one for which it is not turned
    assert sizes(joined.unit) == ("9/2", "9/2")
    assert len(joined.unit.corners) == 4 and in_balance(joined.unit)
    assert finished_part(joined.unit, "c") == 4


def test_a_corner_of_another_angle_or_size_does_not_fit() -> None:
    unit = elbow()
    corner = inner_corner(unit, "top-left", middle(unit))
    with pytest.raises(SewingError) as caught:
        corner_that_fits(unit, corner, triangle(Exact(3), 60, fabric="a", allowance=S), Exact(0))
    assert caught.value.kind == "no-corner-fits"
    with pytest.raises(SewingError) as caught:
        corner_that_fits(unit, corner, square("3"), Exact(0))
    assert caught.value.kind == "edges-differ"
    assert caught.value.facts["difference"] == Exact(1, 2)


def test_two_corners_that_open_one_way_are_told_apart_by_where_they_lie() -> None:
    """A comb of three teeth has two notches open to the top; neither lies straight above the middle."""
    base = oblong("9", "2")
    tooth = oblong("1 1/2", "3", "b")
    unit = chain(base, edge(base, "top"), tooth, edge(tooth, "bottom"), fit="centred").unit
    gaps = inner_corners(unit)
    assert len(gaps) == 2
    assert {inner_corner(unit, way, middle(unit)) for way in ("top-left", "top-right")} == set(gaps)


# ── part of a seam ───────────────────────────────────────────────────────────────────────────────


@pytest.mark.parametrize(("fit", "end"), [("start", "bottom"), ("end", "top")])
def test_half_of_a_seam_is_sewn_and_the_rest_lies_open(fit: str, end: str) -> None:
    heart, strip = square("4 1/2"), oblong("2 1/2", "6 1/2", "b")
    first, i, joined, mark = sewn_in_part(
        heart, edge(heart, "right"), strip, edge(strip, "left"), fit="start" if fit == "start" else "end"
    )
    assert edge_length(first, i, finished=True) == 2
    assert mark == Vector(inches("4 1/4"), inches("2 1/4"))
    unit = joined.unit
    assert in_balance(unit) and sizes(unit) == ("13/2", "13/2")
    with pytest.raises(SewingError) as caught:
        open_seam(unit, Exact(0))  # one side is still 2 longer than the other
    assert caught.value.kind == "edges-differ"
    assert caught.value.facts["difference"] == 2


def test_a_seam_that_was_sewn_in_part_is_finished() -> None:
    heart, tall, wide = square("4 1/2"), oblong("2 1/2", "6 1/2", "b"), oblong("6 1/2", "2 1/2", "c")
    unit = sewn_in_part(heart, edge(heart, "right"), tall, edge(tall, "left"), fit="start")[2].unit
    for name, piece, facing in (("bottom", wide, "top"), ("left", tall, "right"), ("top", wide, "bottom")):
        unit = chain(unit, edge(unit, name), piece, edge(piece, facing)).unit
        assert in_balance(unit)
    corner = open_seam(unit, Exact(0))
    done = close(unit, corner)
    assert sizes(done) == ("17/2", "17/2") and len(done.corners) == 4
    assert in_balance(done)
    assert [finished_part(done, name) for name in "abc"] == [16, 24, 24]
    with pytest.raises(SewingError) as caught:
        open_seam(done, Exact(0))
    assert caught.value.kind == "not-open"


# ── stepped strips ───────────────────────────────────────────────────────────────────────────────


def strips(step: Exact, count: int, length: str = "20") -> Unit:
    unit = oblong(length, "2", "a")
    for n in range(1, count):
        strip = oblong(length, "2", "abc"[n])
        first, i, joined = stepped(unit, edge(unit, "bottom"), strip, edge(strip, "top"), step)
        assert edge_length(first, i, finished=True) == inches(length) - abs(step) - 2 * S
        unit = joined.unit
        assert in_balance(unit)
    return unit


@pytest.mark.parametrize(
    ("step", "waste"),
    [("-3/2", "2"), ("0", "5"), ("-3/4", "7/2"), ("3/2", "8")],
)
def test_what_cuts_at_45_degrees_waste(step: str, waste: str) -> None:
    """Three strips, each 2 and finished 1 1/2: 5 in all. Stepped by 1 1/2 the way the cuts lean, only the slant of one
    strip and the allowances over it is lost; against it, the steps come to the slant of the whole."""
    low, high = cuts_between(strips(Exact.parse(step), 3), Exact(1))
    assert 20 - (high - low) == Exact.parse(waste)


@pytest.mark.parametrize("step", ["-3/2", "0", "3/2"])
@pytest.mark.parametrize("angle", [45, 60])
def test_a_segment_is_filled_with_cloth_and_does_not_hang_on_the_steps(step: str, angle: int) -> None:
    side = slope(angle)
    unit = strips(Exact.parse(step), 3)
    along = 2 / side.y
    low, _ = cuts_between(unit, side.x / side.y)
    one = segment(unit, low, along, angle)
    assert in_balance(one) and len(one.corners) == 4
    assert edge_length(one, 0, finished=False) == along
    assert side.cross(one.corners[0].raw[0] - one.corners[1].raw[0]) == 2  # square to the cut
    each = {patch.fabric: seen_area((patch,)) for patch in one.patches}
    assert each == {"a": along * inches("1 3/4"), "b": along * inches("1 1/2"), "c": along * inches("1 3/4")}


def test_beyond_the_ends_of_a_strip_there_is_no_cloth_for_a_segment() -> None:
    unit = strips(Exact.parse("-3/2"), 3)
    low, high = cuts_between(unit, Exact(1))
    assert in_balance(segment(unit, high - 2, Exact(2), 45))
    for start in (low - Exact(1, 8), high - 2 + Exact(1, 8)):
        with pytest.raises(SewingError) as caught:
            segment(unit, start, Exact(2), 45)
        assert caught.value.kind == "segment-gap"


def test_a_step_longer_than_the_strips_is_refused() -> None:
    unit, strip = oblong("4", "2"), oblong("4", "2", "b")
    with pytest.raises(SewingError) as caught:
        stepped(unit, edge(unit, "bottom"), strip, edge(strip, "top"), Exact(5))
    assert caught.value.kind == "no-room"


def test_the_seam_between_two_rays_ends_where_the_square_is_set_in() -> None:
    one, other = ray(Exact(3), "a"), ray(Exact(3), "b")
    pair = chain(one, edge(one, "left"), other, edge(other, "bottom")).unit
    corner = inner_corner(pair, "top-right", middle(pair))
    inner = pair.corners[corner].finished
    assert inner not in (pair.seams[0].start, pair.seams[0].end)  # it shows to the raw edge
    piece = square(3 + 2 * S, "c")
    done = chain(pair, corner - 1, piece, corner_that_fits(pair, corner, piece, Exact(0)), k=2).unit
    assert [inner in (seam.start, seam.end) for seam in done.seams] == [True, True, True]
    assert in_balance(done)
