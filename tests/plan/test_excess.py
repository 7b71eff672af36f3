"""Sizes between the ruler's marks: told where no later trim takes the excess off, and only there."""

from __future__ import annotations

from piecewright.plan.make import plan
from plan import builds
from plan.builds import Maker


def warnings(*makers: Maker) -> tuple[str, ...]:
    made = tuple(maker.made() for maker in makers)
    return plan(builds.build(made, (made[-1].key, 1))).warnings


def odd() -> Maker:
    """A square whose size lies between two marks."""
    return Maker("odd").start("square", 5.0625, 5.0625, "dusk")


def test_an_excess_that_stays_is_told() -> None:
    assert warnings(odd()) == (
        "In odd, the dusk square is cut 5⅛, the next ruler mark above its exact 5.0625,"
        " and no later trim takes the excess off.",
    )


def test_a_later_trim_takes_it_off() -> None:
    assert warnings(odd().trim(4, 4, on_seam=False)) == ()


def test_a_trim_in_whatever_uses_the_unit_takes_it_off() -> None:
    unit = odd().made()
    user = Maker("user", kind="block").take(unit)
    assert len(plan(builds.build((unit, user.made()), ("user", 1))).warnings) == 1
    trimmed = Maker("user", kind="block").take(unit).trim(4, 4, on_seam=False)
    assert plan(builds.build((unit, trimmed.made()), ("user", 1))).warnings == ()


def test_a_strip_between_marks_is_told_too() -> None:
    strip = Maker("band").start("strip", 7.5, 2.5625, "dusk").segments_of(2.5)
    assert warnings(strip) == (
        "In band, the dusk strip is cut 2⅝, the next ruler mark above its exact 2.5625,"
        " and no later trim takes the excess off.",
    )


def test_what_is_asked_for_outright_is_used_as_it_is() -> None:
    unit = odd().made()
    user = Maker("user", kind="block").take(unit).trim(4, 4, on_seam=False).made()
    assert len(plan(builds.build((unit, user), ("user", 1), ("odd", 1))).warnings) == 1


def test_sizes_on_the_mark_are_no_matter() -> None:
    assert plan(builds.build(builds.cabin(), ("cabin(glow, dusk)", 1))).warnings == ()
