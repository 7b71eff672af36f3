"""Titles that tell units apart, and ids that fit a file name and stay."""

from __future__ import annotations

import re
from dataclasses import replace

from evaluate.pattern import built
from hypothesis import given
from hypothesis import strategies as st
from piecewright import compile_source
from piecewright.plan.titles import figure_id, ids, titles
from piecewright.plan.words import turning
from plan import builds

BASE = builds.lantern()[0]


def named(key: str, *arguments: tuple[str, str], **more: object) -> object:
    return replace(BASE, key=key, name=key.split("(")[0], arguments=arguments, **more)  # type: ignore[arg-type]


def titled(*made: object) -> list[str]:
    return list(titles(builds.build(made)).values())  # type: ignore[arg-type]


def test_a_name_nobody_shares_is_the_title() -> None:
    assert titled(named("goose(2, sand)", ("size", "2"), ("sky", "sand"))) == ["goose"]


def test_like_named_units_are_told_apart_by_what_differs_alone() -> None:
    sizes = [
        named(f"half-square({size}, glow, dusk)", ("size", size), ("light", "glow"), ("dark", "dusk"))
        for size in ("2 1/2", "3")
    ]
    assert titled(*sizes) == ["half-square 2½", "half-square 3"]
    both = [
        named("half-square(2 1/2, glow, dusk)", ("size", "2 1/2"), ("light", "glow"), ("dark", "dusk")),
        named("half-square(3, dusk, glow)", ("size", "3"), ("light", "dusk"), ("dark", "glow")),
    ]
    assert titled(*both) == ["half-square 2½, glow and dusk", "half-square 3, dusk and glow"]


def test_where_one_fabric_differs_all_are_told_unless_they_are_many() -> None:
    few = [named(f"leaf({a}, dusk)", ("sky", a), ("green", "dusk")) for a in ("dusk", "glow")]
    assert titled(*few) == ["leaf in dusk and dusk", "leaf in glow and dusk"]
    many = [named(f"b({a})", ("v", a), ("w", "dusk"), ("x", "dusk"), ("y", "glow")) for a in ("dusk", "glow")]
    assert titled(*many) == ["b in dusk", "b in glow"]


def test_a_reversed_unit_is_called_so_where_both_are_made() -> None:
    assert titled(named("leaf(glow)"), named("leaf(glow) reversed", reversed=True)) == ["leaf", "leaf reversed"]


def test_titles_still_alike_are_numbered() -> None:
    one, two = named("leaf(glow)"), replace(named("leaf(glow) "), name="leaf")  # type: ignore[type-var]
    assert titled(one, two) == ["leaf (no. 1)", "leaf (no. 2)"]


def test_ids_are_made_of_the_name_and_all_that_was_handed() -> None:
    assert ids(["half-square(2 1/2, sand, dusk)", "nine-patch"]) == {
        "half-square(2 1/2, sand, dusk)": "half-square-2-1-2-sand-dusk",
        "nine-patch": "nine-patch",
    }


def test_ids_that_would_be_alike_get_a_checksum_and_nobody_else_does() -> None:
    found = ids(["a(2 1/2)", "a(21/2)", "a(2, 1/2)", "b"])
    assert len(set(found.values())) == 4 and found["b"] == "b"
    assert all(re.fullmatch(r"a-2-?1-2-[0-9a-f]{8}|a-21-2", found[key]) for key in list(found)[:3])


def test_an_id_never_looks_like_one_of_a_figure() -> None:
    found = ids(["lantern", "lantern-step-1", "lantern-finished", "lantern-outlines"])
    figures = {figure_id(found["lantern"], what) for what in (1, "finished", "outlines")}
    assert not figures & set(found.values())


@given(st.lists(st.text(min_size=1, max_size=90), unique=True, max_size=8))
def test_every_id_fits_a_file_name_and_is_its_own(keys: list[str]) -> None:
    found = ids(keys)
    assert len(set(found.values())) == len(keys)
    figures = [figure_id(name, what) for name in found.values() for what in (1, "finished")]
    assert len({*figures, *found.values()}) == 3 * len(keys)
    for name in found.values():
        assert re.fullmatch(r"[a-z0-9]+(-[a-z0-9]+)*", name) and len(name) <= 60


def test_turnings() -> None:
    assert turning("blade turned right") == " turned right" and turning("blade") == ""
    assert turning("leaf reversed turned 45 left") == " reversed turned 45 left"


ROOTS = """\
fabric lamp, value light
fabric dusk, value dark

unit tile (side, cloth)
    square side of cloth

unit pieces (side, cloth)
    square side of cloth
    cut 2 from left into narrow and wide

unit framed (inner, frame 2)
    take inner
    border frame of dusk

unit band (wide, one, other)
    strip wide of one
    join strip wide of other on top

block pair (side, cloth)
    take narrow(diagonal(side), cloth)
    join wide(diagonal(side), cloth) on right

quilt large
    lay 2 by 1
        pair(9, lamp) | pair(9, dusk)
    border band(diagonal(2), lamp, dusk) on left and right
    border band(diagonal(3), lamp, dusk) on top and bottom

make 1 of framed(tile(diagonal(5), lamp) turned left)
make 1 of pair(7, lamp)
make 1 of large
"""


def test_sizes_that_are_roots_are_told_as_they_are_measured() -> None:
    """To the sixteenth: 9 √2 is 12.7279, 7 √2 is 9.8995, and 2 √2, the band's width, 2.8284; at the sides it is as long
    as the work is high."""
    plan = compile_source(ROOTS).plan
    assert plan is not None
    told = [unit.title for unit in plan.units]
    assert {"narrow about 12¾, lamp", "narrow about 9⅞, lamp", "narrow about 12¾, dusk"} <= set(told)
    assert {unit.whole for unit in plan.units if unit.whole} == {
        "pieces about 12¾, lamp",
        "pieces about 9⅞, lamp",
        "pieces about 12¾, dusk",
    }
    assert next(one for one in told if one.startswith("band")) == "band about 2 ¹³⁄₁₆, about 12¾"


def test_a_piece_that_is_handed_over_is_called_as_it_is_called() -> None:
    others = ("tile(diagonal(5), dusk)", "square diagonal(5) of lamp", "square 3 of dusk, 1")
    text = ROOTS + "".join(f"make 1 of framed({one})\n" for one in others)
    build = built(text)
    told = titles(build)
    assert [told[key] for key in told if key.startswith("framed(")] == [
        "framed (tile in lamp) turned left, 2",
        "framed (tile in dusk), 2",
        "framed lamp square 7⅛, 2",
        "framed dusk square 3, 1",
    ]


def test_no_root_is_printed_in_a_title_the_cut_list_or_a_step() -> None:
    plan = compile_source(ROOTS).plan
    assert plan is not None and plan.units and plan.cuts
    words = [text for unit in plan.units for text in (unit.title, unit.whole, unit.work)]
    words += [text for unit in plan.units for step in unit.steps for text in (step.text, *step.details, *step.measures)]
    words += [figure.title for unit in plan.units for step in unit.steps for figure in [step.figure]]
    words += [cut.label for cut in plan.cuts]
    assert any("about" in one for one in words)
    assert [one for one in words if "√" in one or "sqrt" in one] == []
