"""Sewing onto paper: the account holds, the cells fill the paper, rough pieces cover what they must."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from piecewright.exact import Exact, Vector
from piecewright.kernel.errors import SewingError
from piecewright.kernel.foundation import (
    Foundation,
    added,
    beside,
    in_glass,
    opened,
    pieced,
    rough,
    sewn,
    started,
    within,
)
from piecewright.kernel.measure import in_balance, outline_area, seen_area
from piecewright.kernel.moves import mirrored, settled
from piecewright.kernel.polygon import ZERO, area, is_convex

S = Exact(1, 4)


def paper(width: int = 6, height: int = 6) -> Foundation:
    return started(
        Exact(width) + S * 2, Exact(height) + S * 2, fabric="body", allowance=S, margin=S, mark=Exact(1, 8)
    )


def at(x: int | Exact, y: int | Exact) -> Vector:
    return Vector(x, y)


def test_first_piece_alone() -> None:
    """A 6 1/2 paper: 6 finished, an allowance and a margin on every side make 7."""
    one = paper()
    assert (rough(one, 0).along, rough(one, 0).across) == (7, 7)
    unit = pieced(one)
    assert unit.cloth == 49
    assert in_balance(unit)


def test_a_corner_along_the_diagonal() -> None:
    """Corner to corner of a 6 1/2 paper: the triangle shows 13/2·√2 to the raw edge and 6√2 + 2s finished, so the raw
    tips decide; with two margins of 1/4 it is 9.6924 along and 13/4·√2 + 3/4 = 5.3462 across the seam."""
    two = added(paper(), "sky", at(0, 0), at(Exact(13, 2), Exact(13, 2)))
    cut = rough(two, 1)
    assert cut.along == Exact(78, 8)
    assert cut.across == Exact(43, 8)
    assert seen_area(pieced(two).patches[1:]) == Exact(169, 8)
    seam = pieced(two).seams[0]
    assert (seam.start, seam.end, seam.pressed) == (at(0, 0), at(Exact(13, 2), Exact(13, 2)), "left")


def test_a_straight_strip_of_it() -> None:
    """A line 2 1/2 from the left leaves 2 1/4 by 6 finished: with allowance and margin 3 1/4 by 7."""
    two = added(paper(), "sky", at(Exact(5, 2), Exact(13, 2)), at(Exact(5, 2), 0))
    cut = rough(two, 1)
    assert two.pieces[1].along == Vector(0, -1)  # the piece is left of the line, which runs down
    assert two.pieces[1].finished[0].x >= Exact(5, 2)
    assert (cut.along, cut.across) == (7, Exact(19, 4))
    assert (rough(two, 0).along, rough(two, 0).across) == (Exact(13, 4), 7)


def test_allowances_lie_under_the_next_piece() -> None:
    """A line straight across a 6 1/2 paper: each of the two pieces has 6 1/2 by 1/4 under the other's edge."""
    two = added(paper(), "sky", at(0, 3), at(Exact(13, 2), 3))
    under = [o for o in pieced(two).ledger if o.kind == "allowance"]
    assert [(o.fabric, o.area) for o in under] == [("body", Exact(13, 8)), ("sky", Exact(13, 8))]


def test_what_it_meets() -> None:
    w = Exact(13, 2)
    three = added(added(paper(), "sky", at(3, 0), at(3, w)), "lake", at(w, 2), at(0, 2))
    assert beside(three, 1) == (0,)
    assert beside(three, 2) == (0, 1)
    assert sewn(three, 1) == (at(3, 2), at(3, w))


@pytest.mark.parametrize(
    ("line", "kind"),
    [
        ((at(0, 0), at(0, 1)), "line-off-paper"),
        ((at(0, Exact(1, 8)), at(1, Exact(1, 8))), "line-off-paper"),
        ((at(0, Exact(1, 4)), at(1, Exact(1, 4))), "line-off-paper"),
        ((at(7, 0), at(7, 1)), "line-off-paper"),
    ],
)
def test_lines_that_do_not_divide_it(line: tuple[Vector, Vector], kind: str) -> None:
    for start, end in (line, line[::-1]):
        with pytest.raises(SewingError) as raised:
            added(paper(), "sky", start, end)
        assert raised.value.kind == kind


def test_an_earlier_piece_that_would_not_be_seen() -> None:
    two = added(paper(), "sky", at(0, 2), at(2, 0))
    two = added(paper(), "sky", at(2, 0), at(0, 2))
    with pytest.raises(SewingError) as raised:
        added(two, "lake", at(3, 0), at(0, 3))
    assert (raised.value.kind, raised.value.facts["number"]) == ("piece-covered", 2)


eighths = st.integers(min_value=0, max_value=52)
spots = st.builds(lambda x, y: at(Exact(x, 8), Exact(y, 8)), eighths, eighths)


@st.composite
def foundations(draw: st.DrawFn) -> Foundation:
    """A paper with up to six lines that leave something of every piece."""
    made = started(
        Exact(13, 2),
        Exact(draw(st.integers(min_value=24, max_value=52)), 8),
        fabric="body",
        allowance=draw(st.sampled_from([Exact(1, 4), Exact(75, 254)])),
        margin=draw(st.sampled_from([ZERO, Exact(1, 4)])),
        mark=Exact(1, 8),
    )
    for number in range(draw(st.integers(min_value=0, max_value=6))):
        start, end = draw(spots), draw(spots)
        if start != end:
            try:
                made = added(made, f"cloth{number}", start, end)
            except SewingError:
                continue
    return made


@given(foundations())
@settings(max_examples=40, deadline=None)
def test_the_account_holds(made: Foundation) -> None:
    unit = pieced(made)
    assert in_balance(unit)
    assert seen_area(unit.patches) == made.width * made.height == outline_area(unit)
    assert sum((area(piece.finished) for piece in made.pieces), ZERO) == (made.width - made.allowance * 2) * (
        made.height - made.allowance * 2
    )
    assert all(offcut.area >= 0 for offcut in unit.ledger)
    for patch in unit.patches:
        assert all(is_convex(cell) for cell in patch.cells)


@given(foundations())
@settings(max_examples=40, deadline=None)
def test_a_rough_piece_covers_what_it_must(made: Foundation) -> None:
    """In floats, from the outline alone: within the rough piece lie all its cell, and its finished corners with an
    allowance and a margin to spare; and no smaller rectangle along the seam would do."""
    for number, piece in enumerate(made.pieces):
        cut = rough(made, number)
        assert area(within(piece.seen, cut.outline)) == area(piece.seen)
        corners = (*cut.outline, cut.outline[0])
        for p, q in pairwise(corners):
            away = [(q - p).unit().cross(point - p) for point in piece.finished]
            assert min(away) >= made.allowance + made.margin
        for size in (cut.along / made.mark, cut.across / made.mark):
            assert size == size.floor()
        spare = made.allowance + made.margin + made.mark
        tips = min((corners[1] - corners[0]).unit().cross(point - corners[0]) for point in piece.seen)
        bottom = min((corners[1] - corners[0]).unit().cross(point - corners[0]) for point in piece.finished)
        assert min(tips - made.margin, bottom - made.allowance - made.margin) == 0
        assert bottom >= spare - made.mark


@given(foundations())
@settings(max_examples=20, deadline=None)
def test_in_the_mirror(made: Foundation) -> None:
    """The mirrored foundation gives the mirrored unit."""
    one, other = pieced(in_glass(made)), settled(mirrored(pieced(made)))
    for patch, twin in zip(one.patches, other.patches, strict=True):
        assert {frozenset(cell) for cell in patch.cells} == {frozenset(cell) for cell in twin.cells}
        assert patch.grain.cross(twin.grain) == 0
    assert [(o.kind, o.area) for o in one.ledger] == [(o.kind, o.area) for o in other.ledger]
    for seam, twin_seam in zip(one.seams, other.seams, strict=True):
        assert {seam.start, seam.end} == {twin_seam.start, twin_seam.end}
        same = seam.direction == twin_seam.direction
        assert (seam.pressed == twin_seam.pressed) == same
    assert in_glass(in_glass(made)) == made


@given(foundations())
@settings(max_examples=20, deadline=None)
def test_opened_cloth_covers_the_paper_in_the_end(made: Foundation) -> None:
    for piece, cloth in zip(made.pieces, opened(made, len(made.pieces) - 1), strict=True):
        assert area(within(piece.seen, cloth)) == area(piece.seen)
