"""What holds after every step, exactly, whatever is sewn."""

from __future__ import annotations

from hypothesis import given, settings
from hypothesis import strategies as st
from kernel.sequences import SEAM, SIDES, carried_out, eighths, orders, start
from piecewright.exact import Exact, Vector
from piecewright.kernel.chain import chain
from piecewright.kernel.congruence import alike, same_colours, turned_onto
from piecewright.kernel.cut import cut
from piecewright.kernel.flip import flip
from piecewright.kernel.measure import (
    edge_length,
    finished_area,
    finished_size,
    height,
    in_balance,
    outline_area,
    seen_area,
    width,
)
from piecewright.kernel.moves import mirrored, moved, rotated, turned
from piecewright.kernel.pieces import rectangle
from piecewright.kernel.places import edge
from piecewright.kernel.polygon import area, is_convex, merged
from piecewright.kernel.unit import Unit

sequences = st.tuples(orders, st.lists(orders, min_size=1, max_size=6))


def whole_run(first, following):
    """Every unit that a sequence passes through."""
    work = start(first)
    seen = [work]
    for order in following:
        stages = carried_out(work, order)
        seen.extend(stages)
        if stages:
            work = stages[-1]
    return seen


@given(sequences)
@settings(max_examples=150, deadline=None)
def test_cloth_in_is_cloth_seen_and_ledger(sequence):
    for unit in whole_run(*sequence):
        assert in_balance(unit)


@given(sequences)
@settings(max_examples=100, deadline=None)
def test_cells_are_convex_and_do_not_overlap(sequence):
    unit = whole_run(*sequence)[-1]
    cells = [cell for patch in unit.patches for cell in patch.cells]
    for cell in cells:
        assert is_convex(cell)
        assert area(cell) > 0
    # no overlap: the cells fill the outline, and their sum is its area
    assert seen_area(unit.patches) == outline_area(unit)


@given(sequences)
@settings(max_examples=100, deadline=None)
def test_directions_are_carried_true(sequence):
    """Each carried direction is a unit vector along its finished edge."""
    for unit in whole_run(*sequence):
        for i, along in enumerate(unit.directions):
            step = unit.corners[(i + 1) % len(unit.corners)].finished - unit.corners[i].finished
            assert along.squared() == 1
            assert along.cross(step) == 0
            assert along.dot(step) > 0


@given(sequences)
@settings(max_examples=80, deadline=None)
def test_raw_edges_lie_one_allowance_outside(sequence):
    """Every raw edge is parallel to its seam line, one allowance outside."""
    for unit in whole_run(*sequence):
        for i, along in enumerate(unit.directions):
            corner = unit.corners[i]
            assert along.right().dot(corner.raw[-1] - corner.finished) in (unit.allowance, Exact(0))
            if along.cross(unit.directions[i - 1]) < 0:  # a convex corner: the raw lines cross there
                assert along.right().dot(corner.raw[-1] - corner.finished) == unit.allowance


@given(sequences, st.sampled_from((0, 45, 90, 135, 180, 270, 30)))
@settings(max_examples=60, deadline=None)
def test_turning_changes_nothing(sequence, degrees):
    unit = whole_run(*sequence)[-1]
    other = moved(turned(unit, degrees), Vector(3, 5))
    assert in_balance(other)
    assert finished_area(other) == finished_area(unit)
    assert turned(turned(unit, degrees), -degrees) == unit
    assert alike(unit, other) is not None


@given(sequences)
@settings(max_examples=60, deadline=None)
def test_a_mirror_twice_is_no_mirror(sequence):
    unit = whole_run(*sequence)[-1]
    assert mirrored(mirrored(unit)) == unit
    assert in_balance(mirrored(unit))
    assert finished_size(mirrored(unit)) == finished_size(unit)


@given(sequences, sequences, st.sampled_from(SIDES))
@settings(max_examples=60, deadline=None)
def test_joining_is_the_same_from_either_side(first, second, side):
    one, other = whole_run(*first)[-1], whole_run(*second)[-1]
    i = max(range(len(one.directions)), key=lambda n: edge_length(one, n, finished=True))
    j = max(range(len(other.directions)), key=lambda n: edge_length(other, n, finished=True))
    try:
        here = chain(one, i, other, j, fit="centred").unit
    except Exception as refused:  # the same refusal must come from the other side
        assert type(refused).__name__ == "SewingError"
        return
    there = chain(other, j, one, i, fit="centred").unit
    assert in_balance(here)
    assert outline_area(here) == outline_area(there)
    assert finished_area(here) == finished_area(there)
    if same_colours(here, here):  # where raw edges of two fabrics lap, colours cannot be compared
        assert alike(here, there) is not None


@given(eighths, eighths, eighths, eighths)
def test_borders_left_and_right_commute(across, down, left_strip, right_strip):
    heart = rectangle(across, down, fabric="dusk", allowance=SEAM)

    def sewn(unit: Unit, side: str, strip: Exact) -> Unit:
        piece = rectangle(strip, down, fabric="glow", allowance=SEAM)
        other = "right" if side == "left" else "left"
        return chain(unit, edge(unit, side), piece, edge(piece, other)).unit

    one = sewn(sewn(heart, "left", left_strip), "right", right_strip)
    two = sewn(sewn(heart, "right", right_strip), "left", left_strip)
    assert finished_size(one) == finished_size(two)
    assert width(one) == across + left_strip + right_strip - SEAM * 4
    assert turned_onto(one, two, Vector(1, 0)) is not None


@given(eighths, eighths, st.integers(1, 7))
def test_a_cut_loses_no_cloth(across, down, eighth):
    unit = rectangle(across + 4, down, fabric="dusk", allowance=SEAM)
    left, right = cut(unit, Vector(width(unit) * Exact(eighth, 8) * Exact(1, 2) + Exact(3, 5), 0), Vector(0, 1))
    assert outline_area(left) + outline_area(right) == outline_area(unit)
    assert width(left) + width(right) == width(unit)
    assert height(left) == height(unit)


@given(eighths, eighths)
def test_stitch_and_flip_keeps_the_outline(size, extra):
    ground = rectangle(size + extra, size + extra, fabric="dusk", allowance=SEAM)
    piece = rectangle(size, size, fabric="glow", allowance=SEAM)
    unit = flip(ground, piece, Vector(Exact(0), size), Vector.at(-45))
    assert in_balance(unit)
    assert outline_area(unit) == outline_area(ground)
    assert unit.cloth == outline_area(ground) + outline_area(piece)


@given(eighths, eighths, st.integers(1, 7))
def test_cells_of_one_cloth_merge_back(across, down, eighth):
    unit = rectangle(across, down, fabric="dusk", allowance=SEAM)
    x = across * Exact(eighth, 8)
    whole = unit.patches[0].cells[0]
    parts = (
        (whole[0], Vector(x, Exact(0)), Vector(x, down), whole[3]),
        (Vector(x, Exact(0)), whole[1], whole[2], Vector(x, down)),
    )
    (cell,) = merged(parts)
    assert set(cell) == set(whole)


def test_a_direction_outside_the_numbers_is_refused():
    unit = rectangle(Exact(4), Exact(3), fabric="dusk", allowance=SEAM)
    try:
        rotated(unit, Vector.at(22))
    except ArithmeticError as refused:
        assert "22 degrees" in str(refused)
    else:
        raise AssertionError("22 degrees was taken")
