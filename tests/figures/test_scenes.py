"""What a scene tells: edges that meet, cuts with their distance, the ruler, pressing, sizes."""

from __future__ import annotations

import pytest
from figures.handmade import figures, patch_table
from piecewright.kernel.measure import finished_outline
from piecewright.plan.model import Cloth, Figure, Panel

ALL = {f.id: f for f in figures()}


def sizes(panel: Panel) -> list[tuple[str, str]]:
    return [(d.side, d.text) for d in panel.dimensions]


def roles(panel: Panel) -> set[str]:
    return {s.role for s in panel.strokes}


def test_pieces_to_be_joined_are_apart_and_their_edges_marked_alike() -> None:
    before, after = ALL["framed-step-2"].panels
    fabrics = [c for c in before.cloth if c.fabric]
    assert [c.fabric for c in fabrics] == ["ember", "night", "night"]
    (x0, x1), (left0, left1), (right0, right1) = (_across(c) for c in fabrics)
    assert left1 < x0 < x1 < right0
    assert left0 < left1 < right1
    ticks = sorted(m.count for m in before.marks)
    assert ticks == [1, 1, 1, 1, 2, 2, 2, 2]
    for mark in before.marks:
        partners = [m for m in before.marks if m.count == mark.count and m.at[1] == pytest.approx(mark.at[1])]
        assert len(partners) >= 2
    assert [b.text for b in before.badges] == ["1", "2"]
    assert not after.marks


def test_marks_of_a_slanted_seam_lie_at_the_same_reach() -> None:
    before = ALL["lantern-step-3"].panels[0]
    by_count = {n: [m for m in before.marks if m.count == n] for n in (1, 2)}
    for pair in by_count.values():
        (one, other) = pair
        between = other.at[0] - one.at[0], other.at[1] - one.at[1]
        assert between[0] * one.along[0] + between[1] * one.along[1] == pytest.approx(0)


def test_the_result_of_one_step_is_the_start_of_the_next() -> None:
    for group, last in (("framed", 3), ("lantern", 5)):
        for number in range(2, last + 1):
            start = ALL[f"{group}-step-{number}"].panels[0]
            end = ALL[f"{group}-step-{number - 1}"].panels[-1]
            inner = [c.outline for c in end.cloth if c.fabric]
            assert [c.outline for c in start.cloth if c.fabric][: len(inner)] == inner


def test_a_pressing_arrow_crosses_its_seam_toward_the_side_it_is_pressed_to() -> None:
    after = ALL["framed-step-2"].panels[1]
    heads = sorted(a.end[0] - a.start[0] for a in after.arrows)
    assert [a.role for a in after.arrows] == ["press", "press"]
    assert heads[0] < 0 < heads[1]
    assert ALL["lantern-step-3"].panels[1].arrows[0].role == "press-open"


def test_a_cut_has_its_line_its_distance_and_its_parts() -> None:
    before, slim, broad = ALL["round-step-3"].panels
    assert "cut" in roles(before)
    assert sizes(before) == [("top", "1½")]
    assert (slim.words, broad.words) == ("slim", "broad")
    assert broad.lead == "and"
    assert sizes(slim) == [("bottom", "1½"), ("left", "4½")]


def test_parts_alike_are_drawn_once_with_their_count() -> None:
    panels = ALL["lantern-step-2"].panels
    assert len(panels) == 2
    assert panels[1].words == "2 alike, turned to lie like this"


def test_a_trim_shows_the_ruler_its_lines_with_their_numbers_and_what_falls_off() -> None:
    before, after = ALL["round-step-2"].panels
    assert {"ruler", "ruler-seam"} <= roles(before)
    (fallen,) = [c for c in before.cloth if c.fallen]
    assert len(fallen.holes) == 1
    assert set(sizes(before)) == {("top", "1"), ("right", "¾"), ("bottom", "4½"), ("left", "4½")}
    assert sizes(after) == [("bottom", "4½"), ("left", "4½")]


def test_a_ruler_on_a_diagonal_seam_shows_that_line() -> None:
    before = ALL["lantern-step-4"].panels[0]
    (laid,) = [s for s in before.strokes if s.role == "ruler-seam"]
    (square,) = [s for s in before.strokes if s.role == "ruler"]
    assert square.closed
    assert all(any(_near(end, corner) for corner in square.points) for end in laid.points)


def test_strips_have_no_ends_until_they_are_cut_across() -> None:
    strip = ALL["strips-step-1"].panels[0]
    assert [s for s in strip.strokes if s.role == "raw" and not s.closed]
    assert not [s for s in strip.strokes if s.role == "raw" and s.closed]
    assert sizes(strip) == [("left", "2½")]
    before, segment = ALL["strips-step-4"].panels
    assert len([s for s in before.strokes if s.role == "cut"]) == 2
    assert sizes(before) == [("top", "2½")]
    assert segment.words == "one segment"


def test_a_turn_is_drawn() -> None:
    before, after = ALL["lantern-step-5"].panels
    assert (after.lead, after.lead_words) == ("turn-right", "45°")
    assert before.lead == "then"


def test_a_table_shows_cells_rows_and_the_whole() -> None:
    cells, rows, whole = ALL["table-step-1"].panels
    assert len([c for c in cells.cloth if c.fabric]) == 9
    assert [b.text for b in rows.badges] == ["1", "2", "3"]
    assert len(rows.arrows) == 6
    assert len(whole.arrows) == 2
    across = [a.end[0] > a.start[0] for a in rows.arrows]
    assert across[:2] == [True, True]
    assert across[2:4] == [False, False]


def test_a_repeat_shows_the_first_round_and_the_last() -> None:
    *_, first, last = ALL["rounds-step-1"].panels
    assert (first.words, last.words) == ("After the first round", "After round 4")
    assert last.lead == "rounds"


def test_the_finished_picture_shows_finished_cloth_and_says_so() -> None:
    (panel,) = ALL["table-finished"].panels
    assert panel.words == "Finished size, no seam allowance"
    assert not [c for c in panel.cloth if c.tint]
    assert sizes(panel) == [("bottom", "6"), ("left", "6")]
    corners = {v.floats for v in finished_outline(patch_table().result)}
    assert set(panel.clip) == corners


@pytest.mark.parametrize("figure", ALL.values(), ids=lambda f: f.id)
def test_allowances_are_tinted_wherever_cloth_has_raw_edges(figure: Figure) -> None:
    for panel in figure.panels:
        tints = [c for c in panel.cloth if c.tint]
        assert bool(tints) == (figure.kind == "step")
        assert ("allowance" in roles(panel)) == (figure.kind == "step")


def _across(cloth: Cloth) -> tuple[float, float]:
    xs = [p[0] for p in cloth.outline]
    return min(xs), max(xs)


def _near(one: tuple[float, float], other: tuple[float, float]) -> bool:
    return abs(one[0] - other[0]) + abs(one[1] - other[1]) < 1e-3
