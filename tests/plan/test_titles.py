"""Titles that tell units apart, and ids that fit a file name and stay."""

from __future__ import annotations

import re
from dataclasses import replace

from hypothesis import given
from hypothesis import strategies as st
from piecewright.plan.titles import figure_id, ids, titles, turning
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
