"""Which pieces share a row of the cut list, and in what order rows stand."""

from __future__ import annotations

from dataclasses import replace

from piecewright.exact import Exact
from piecewright.kernel.alike import has_hands
from piecewright.kernel.build import Piece
from piecewright.kernel.demand import Cutting, cuttings, wanted
from piecewright.plan.cutlist import CutRow, cut_rows
from plan import builds

BUILD = builds.build(())


def cutting(
    shape: str, width: str, height: str, fabric: str = "dusk", count: int = 1, key: str = "u", **more: object
) -> Cutting:
    piece = Piece(shape=shape, width=Exact.parse(width), height=Exact.parse(height), fabric=fabric, **more)  # type: ignore[arg-type]
    return Cutting(piece=piece, width=Exact.parse(width), count=count, key=key)


def told(rows: tuple[CutRow, ...]) -> list[tuple[str, str, str, str, int]]:
    return [(row.fabric, row.shape, str(row.width), str(row.height), row.count) for row in rows]


def test_rows_stand_by_fabric_in_the_order_of_the_pattern_then_from_large_to_small() -> None:
    rows = cut_rows(
        BUILD,
        (
            cutting("square", "2", "2", "glow"),
            cutting("square", "2", "2"),
            cutting("square", "6", "6"),
            cutting("rectangle", "2", "9"),
        ),
    )
    assert told(rows) == [
        ("dusk", "square", "6", "6", 1),
        ("dusk", "rectangle", "2", "9", 1),
        ("dusk", "square", "2", "2", 1),
        ("glow", "square", "2", "2", 1),
    ]


def test_a_rectangle_and_the_same_on_its_side_share_a_row_narrow_side_first() -> None:
    rows = cut_rows(BUILD, (cutting("rectangle", "9", "2", count=3), cutting("rectangle", "2", "9", count=4)))
    assert told(rows) == [("dusk", "rectangle", "2", "9", 7)]


def test_on_a_directional_fabric_they_stand_apart_across_first() -> None:
    build = builds.build((), fabrics=(replace(builds.DUSK, directional=True),))
    rows = cut_rows(build, (cutting("rectangle", "9", "2"), cutting("rectangle", "2", "9")))
    assert sorted(told(rows)) == [("dusk", "rectangle", "2", "9", 1), ("dusk", "rectangle", "9", "2", 1)]


def test_a_square_by_another_name_is_a_square() -> None:
    rows = cut_rows(BUILD, (cutting("square", "3", "3"), cutting("rectangle", "3", "3"), cutting("strip", "3", "3")))
    assert told(rows) == [("dusk", "square", "3", "3", 3)]


def test_sizes_that_only_look_alike_stand_apart() -> None:
    rows = cut_rows(BUILD, (cutting("square", "5/2", "5/2"), cutting("square", "2 + 1/4*sqrt(3)", "2 + 1/4*sqrt(3)")))
    assert len(rows) == 2


def test_reversed_pieces_stand_apart_only_where_a_mirrored_piece_differs() -> None:
    for shape, apart in (("square", 1), ("rectangle", 1), ("trapezoid", 1), ("diamond", 1), ("parallelogram", 2)):
        pair = (cutting(shape, "3", "2", angle=45), cutting(shape, "3", "2", angle=45, reversed=True))
        rows = cut_rows(BUILD, pair)
        assert len(rows) == apart, shape
        assert any(row.reversed for row in rows) == (apart == 2), shape


def test_a_mirrored_diamond_differs_on_a_print_that_has_a_direction() -> None:
    diamond = Piece(shape="diamond", width=Exact(3), height=Exact(2), fabric="dusk", angle=45)
    assert has_hands(diamond, directional=True) and not has_hands(diamond, directional=False)


def test_a_strip_is_written_by_its_width_and_its_length() -> None:
    piece = Piece(shape="strip", width=None, height=Exact(5, 2), fabric="dusk")
    (row,) = cut_rows(BUILD, (Cutting(piece=piece, width=Exact(2), count=1, key="u"),))
    assert (row.shape, str(row.width), str(row.height)) == ("strip", "5/2", "2")


def test_the_label_tells_what_the_pieces_are_for() -> None:
    build = builds.build(
        (*builds.lantern(), *builds.lantern("glow", "dusk")), ("lantern(dusk, glow)", 2), ("lantern(glow, dusk)", 2)
    )
    from piecewright.plan.make import plan

    made = plan(build)
    labels = {(cut.fabric, cut.width.ruler, cut.height.ruler): cut.label for cut in made.cuts}
    assert labels["dusk", "5 1/2", "5 1/2"] == "framed in dusk and glow"
    assert labels["dusk", "2 1/4", "9"] == "framed in glow and dusk"


def test_a_row_for_several_units_counts_each() -> None:
    build = builds.build((*builds.lantern(), *builds.crossed()), ("lantern(dusk, glow)", 2), ("crossed(dusk)", 3))
    rows = cut_rows(build, cuttings(build, wanted(build)))
    row = next(row for row in rows if row.fabric == "dusk" and row.width == 9)
    assert row.units == (("slashed(dusk)", 3),) and row.count == 3
