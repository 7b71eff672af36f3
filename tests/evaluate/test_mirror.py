"""A unit made in the mirror is what making it left for right gives."""

from __future__ import annotations

from evaluate.constructions import sayable
from evaluate.pattern import built, made
from piecewright.exact import Vector
from piecewright.kernel.action import Finish, Lay, Sew, Subcut, Take, Trim, Turn
from piecewright.kernel.build import Build, Made
from piecewright.kernel.congruence import alike
from piecewright.kernel.measure import bounds, in_balance
from piecewright.kernel.moves import mirrored

FLAG = """\
unit flag (sand, dusk)
    rectangle 4 by 5 of sand
    border 2 of dusk on left, press toward left
    border 2 of dusk on top
    turn left
    join square 5 1/2 of dusk on right, even at top
    turn 45 right
    turn 45 left
    trim to 8 by 5, seam 1 1/2 from left

unit galf (sand, dusk)
    rectangle 4 by 5 of sand
    border 2 of dusk on right, press toward right
    border 2 of dusk on top
    turn right
    join square 5 1/2 of dusk on left, even at top
    turn 45 left
    turn 45 right
    trim to 8 by 5, seam 1 1/2 from right
"""
MAKES = """
fabric sand
fabric dusk
make 1 of flag(sand, dusk) reversed
make 1 of flag(sand, dusk)
make 1 of galf(sand, dusk)
"""


def everything() -> tuple[Build, list[tuple[Made, Made]]]:
    """All constructions made both ways, in pairs: as they are, and reversed."""
    definitions, makes, heading = sayable()
    asked = [text.strip() for text in makes]
    build = built(
        "".join([*heading, *definitions.values()]) + "\n".join([*asked, *(f"{one} reversed" for one in asked), ""])
    )
    known = made(build)
    return build, [(one, known[f"{key} reversed"]) for key, one in known.items() if f"{key} reversed" in known]


def test_it_is_the_same_as_doing_the_steps_the_other_way_round() -> None:
    known = made(built(FLAG + MAKES))
    twin, other = known["flag(sand, dusk) reversed"], known["galf(sand, dusk)"]
    assert alike(twin.unit, other.unit) == Vector(1, 0)
    assert alike(twin.unit, known["flag(sand, dusk)"].unit) is None
    for mine, theirs in zip(twin.steps, other.steps, strict=True):
        assert mine.places == theirs.places
        assert [type(action) for action in mine.actions] == [type(action) for action in theirs.actions]
        for one, two in zip(mine.actions, theirs.actions, strict=True):
            if isinstance(one, Turn) and isinstance(two, Turn):
                assert one.degrees == two.degrees
            if isinstance(one, Trim) and isinstance(two, Trim):
                assert one.off == two.off
                assert [a[0::2] for a in one.ruler.alignments] == [a[0::2] for a in two.ruler.alignments]


def test_each_twin_is_the_mirror_image_and_in_balance() -> None:
    _, pairs = everything()
    assert len(pairs) > 20
    for one, twin in pairs:
        assert twin.reversed and not one.reversed
        assert twin.unit == mirrored(one.unit)
        assert in_balance(twin.unit)
        assert (twin.copies, twin.segments, twin.arguments) == (one.copies, one.segments, one.arguments)


def test_edges_that_are_sewn_meet_in_the_mirror_too() -> None:
    _, pairs = everything()
    sews = [action for _, twin in pairs for step in twin.steps for action in step.actions if isinstance(action, Sew)]
    assert len(sews) > 40
    for sew in sews:
        # two edges round an inner corner, else one; of the second they come the other way
        for i, j in zip(sew.first_edges, reversed(sew.second_edges), strict=True):
            assert sew.first.directions[i] == -sew.second.directions[j]
            along = sew.first.directions[i]
            assert not along.cross(sew.first.corners[i].finished - sew.second.corners[j].finished)


def test_where_a_seam_stops_is_mirrored() -> None:
    _, pairs = everything()
    steps = [step for _, twin in pairs for step in twin.steps]
    short = [action for step in steps for action in step.actions if isinstance(action, Sew) and action.stops]
    assert len(short) >= 10
    for sew in short:
        corners = {corner.finished for corner in sew.first.corners}
        assert set(sew.stops) <= corners
    finished = [action for step in steps for action in step.actions if isinstance(action, Finish)]
    assert finished
    for finish in finished:
        into, out = finish.edges
        assert finish.before.directions[into] == -finish.before.directions[out]
        assert finish.before.corners[out].finished == finish.stop


def test_steps_of_strips_are_mirrored() -> None:
    known = made(
        built("""
unit rows (sand, dusk)
    strip 2 of sand
    join strip 2 of dusk on bottom, stepped 1 1/2 from left
    subcut 2 at 45

fabric sand
fabric dusk
make 1 of rows(sand, dusk) reversed
""")
    )
    sew = known["rows(sand, dusk) reversed"].steps[1].actions[0]
    assert isinstance(sew, Sew) and sew.step is not None and sew.step > 0
    cut = known["rows(sand, dusk) reversed"].steps[2].actions[0]
    assert isinstance(cut, Subcut)
    (start, end) = cut.lines[0]
    assert (end - start).cross(cut.lines[1][0] - start) > 0 and end.x < start.x


def test_a_twin_uses_twins() -> None:
    build, pairs = everything()
    known = made(build)
    for one, twin in pairs:
        for mine, theirs in zip(one.supplies, twin.supplies, strict=True):
            if isinstance(mine.source, str):
                assert theirs.source == (
                    mine.source.removesuffix(" reversed") if known[mine.source].reversed else f"{mine.source} reversed"
                )
                assert theirs.source in known


def test_tables_and_names_are_mirrored() -> None:
    known = made(
        built(
            FLAG
            + """
block row (sand, dusk)
    lay
        flag(sand, dusk) turned around | flag(sand, dusk) | square 5 of sand

fabric sand
fabric dusk
make 1 of row(sand, dusk) reversed
"""
        )
    )
    (step,) = known["row(sand, dusk) reversed"].steps
    (lay,) = step.actions
    assert isinstance(lay, Lay)
    assert lay.names == (("sand square", "flag(sand, dusk) reversed", "flag(sand, dusk) reversed turned around"),)
    assert lay.keys == (("", "flag(sand, dusk) reversed", "flag(sand, dusk) reversed"),)
    lefts = [bounds(unit)[0] for unit in lay.rows[0]]
    assert lefts == sorted(lefts)


def test_what_is_taken_and_cut_is_mirrored() -> None:
    known = made(
        built("""
unit half (sand)
    rectangle 4 by 6 of sand
    cut once on diagonal

block one (sand)
    take half(sand) turned right
    turn left

fabric sand
make 1 of one(sand) reversed
""")
    )
    take = known["one(sand) reversed"].steps[0].actions[0]
    assert isinstance(take, Take) and take.name == "half(sand) reversed turned left"
    cut = known["half(sand) reversed"].steps[1].actions[0]
    assert isinstance(cut, Subcut)
    assert known["half(sand) reversed"].steps[1].places == ("rising-diagonal",)
    ((start, end),) = cut.lines
    assert start.x > end.x
