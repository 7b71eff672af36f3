"""The plan as a whole."""

from __future__ import annotations

from dataclasses import replace

from piecewright.kernel.build import Build
from piecewright.plan.make import plan
from piecewright.plan.model import Figure, Plan
from plan import builds


def lantern_build() -> Build:
    return builds.build(
        (*builds.lantern(), *builds.lantern("glow", "dusk")), ("lantern(dusk, glow)", 12), ("lantern(glow, dusk)", 12)
    )


def figures(planned: Plan) -> dict[str, Figure]:
    found = [step.figure for unit in planned.units for step in unit.steps]
    found += [picture for unit in planned.units for picture in (unit.coloured, unit.uncoloured) if picture]
    assert len({figure.id for figure in found}) == len(found)
    return {figure.id: figure for figure in found}


def test_the_lantern_in_both_colourways() -> None:
    planned = plan(lantern_build())
    assert [(unit.title, unit.makes, unit.runs, unit.spare) for unit in planned.units] == [
        ("framed in dusk and glow", 6, 6, 0),
        ("half-framed in dusk and glow", 12, 6, 0),
        ("half-plain in glow", 12, 6, 0),
        ("lantern in dusk and glow", 12, 12, 0),
        ("framed in glow and dusk", 6, 6, 0),
        ("half-framed in glow and dusk", 12, 6, 0),
        ("half-plain in dusk", 12, 6, 0),
        ("lantern in glow and dusk", 12, 12, 0),
    ]
    block = planned.units[3]
    assert (block.unfinished.width.exact, block.finished.width.exact) == ("8", "15/2")
    assert [(cut.fabric, cut.shape, cut.width.exact, cut.height.exact, cut.count) for cut in planned.cuts] == [
        (fabric, shape, width, height, count)
        for fabric in ("dusk", "glow")
        for shape, width, height, count in (
            ("square", "9", "9", 6),
            ("square", "11/2", "11/2", 6),
            ("rectangle", "9/4", "9", 12),
            ("rectangle", "9/4", "11/2", 12),
        )
    ]
    # 2 strips of 9, 1 of 5 1/2 and 5 of 2 1/4 would take 34 3/4; the pieces alone take 27 in of it
    area = (6 * 81 + 6 * 5.5**2 + 12 * 2.25 * (9 + 5.5)) / 40
    for cloth, (fabric, length) in zip(planned.fabric_cloth, planned.cloth, strict=True):
        assert cloth.fabric == fabric and cloth.length == length
        assert area <= length.value <= 34.75 and length.value <= cloth.bought.value
        assert cloth.bound.value <= cloth.bought.value


def test_area_cut_is_area_of_the_work() -> None:
    """All cloth in the cut list is what goes into the units: their raw cloth, times their runs."""
    planned = plan(lantern_build())
    cut = sum(row.width.value * row.height.value * row.count for row in planned.cuts)
    assert cut == 2 * (6 * 81 + 6 * 5.5**2 + 12 * 2.25 * (9 + 5.5))


def test_blocks_and_what_is_asked_for_have_pictures_and_steps_on_the_way_have_none() -> None:
    planned = plan(builds.build(builds.lantern(), ("lantern(dusk, glow)", 1), ("framed(dusk, glow)", 1)))
    assert [unit.coloured is not None for unit in planned.units] == [True, False, False, True]
    assert all((unit.coloured is None) == (unit.uncoloured is None) for unit in planned.units)


def test_changing_one_step_changes_only_its_unit_and_what_uses_it() -> None:
    before = figures(plan(lantern_build()))
    made = list(lantern_build().made)
    wider = (
        builds.Maker("half-plain(glow)", arguments=(("plain", "glow"),)).start("square", 9, 9, "glow").halve().made()
    )
    made[2] = replace(wider, steps=(wider.steps[0], replace(wider.steps[1], line=77)))
    after = figures(plan(replace(lantern_build(), made=tuple(made))))
    assert list(before) == list(after)
    assert {name for name in before if before[name] != after[name]} == {"half-plain-glow-step-2"}


def test_one_more_unit_renames_no_figure() -> None:
    one = builds.build(builds.lantern(), ("lantern(dusk, glow)", 1))
    assert set(figures(plan(one))) <= set(figures(plan(lantern_build())))


def test_only_short_words_that_are_used_are_explained() -> None:
    shorts = [short for short, _ in plan(builds.build(builds.cabin(), ("cabin(glow, dusk)", 1))).abbreviations]
    assert shorts == ["in", "×"]
    metric = replace(
        builds.build(builds.cabin(), ("cabin(glow, dusk)", 1)), settings=replace(builds.SETTINGS, units="cm")
    )
    assert plan(metric).abbreviations[0] == ("cm", "centimetres")


def test_unlike_parts_stand_together_and_the_first_has_the_steps() -> None:
    planned = plan(builds.build(builds.crossed(), ("crossed(dusk)", 5)))
    narrow, wide, crossed = planned.units
    assert (narrow.whole, wide.whole, crossed.whole) == ("slashed", "slashed", "")
    assert narrow.parts == wide.parts == (narrow.id, wide.id) and crossed.parts == ()
    assert narrow.steps and not wide.steps
    assert (wide.makes, wide.spare) == (0, 5)
