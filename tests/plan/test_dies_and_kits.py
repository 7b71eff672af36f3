"""Die presses, layers and kits: rough pieces, passes, and what is saved by cutting several at once."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from jsonschema import Draft202012Validator
from piecewright import compile_source
from piecewright.emit import emit
from piecewright.pipeline import Cutting
from piecewright.plan.model import ClothPlan, Plan

FABRICS = """fabric sand, colour "#efe0c0", margin 0
fabric dusk, colour "#3d3355", margin 0
"""
TILE = """
block tile (light, dark)
    rectangle 2 1/2 by 4 1/2 of light
    join rectangle 2 1/2 by 4 1/2 of dark on right
    border 1 1/2 of dark on top

make 20 of tile(sand, dusk)
"""
PRESS = """cutter press, layers 6, leeway 1/4
    die rectangle 2 1/2 by 4 1/2
"""
SCHEMA = json.loads(
    (Path(__file__).parents[2] / "compiler/piecewright/emit/templates/plan.schema.json").read_text(encoding="utf-8")
)


def planned(text: str, **cutting: object) -> Plan:
    made = compile_source(text, cutting=Cutting(**cutting))  # type: ignore[arg-type]
    assert made.plan is not None, made.diagnostics
    return made.plan


def cloth(plan: Plan, fabric: str) -> ClothPlan:
    (found,) = (one for one in plan.fabric_cloth if one.fabric == fabric)
    return found


def test_cloth_for_a_die_is_cut_larger_by_the_leeway_on_every_side() -> None:
    plan = planned(PRESS + FABRICS + TILE)
    sand = cloth(plan, "sand")
    (one,) = sand.passes
    assert (one.die, one.layers, one.passes) == ("rectangle 2½ × 4½", 6, 4)  # 20 pieces, 6 at a time
    (rough,) = one.rough
    # 8 rough pieces 5 long go into 40, or 13 that are 3 long: 3 strips of 3, or 2 of 5
    assert (rough.width.ruler, rough.length.ruler, rough.count) == ("3", "5", 20)
    assert any("Fold lengths 3 wide to and fro, with the folds 5 apart" in text for text in sand.how)
    assert sand.length is not None and sand.length.ruler == "9"
    assert plan.cuts[0].width.ruler == "2 1/2"  # the cut list keeps what is sewn


def test_what_no_die_fits_is_left_to_the_ruler() -> None:
    dusk = cloth(planned(PRESS + FABRICS + TILE), "dusk")
    assert [one.die for one in dusk.passes] == ["rectangle 2½ × 4½"]
    assert "No die here cuts 20 rectangles 1½ × 4½ from this cloth: cut them with a ruler." in dusk.how


def test_layers_fewer_than_the_press_takes() -> None:
    few = TILE.replace("make 20", "make 4")
    (one,) = cloth(planned(PRESS + FABRICS + few), "sand").passes
    assert (one.layers, one.passes) == (4, 1)


def test_one_text_gives_a_rotary_and_a_die_edition() -> None:
    text = PRESS + FABRICS + TILE
    rotary = planned(text, cutter="cutter rotary, layers 4")
    plain = planned(FABRICS + TILE)
    assert cloth(rotary, "sand").passes == ()
    assert [one.bought for one in rotary.fabric_cloth] == [one.bought for one in plain.fabric_cloth]
    assert any("up to 4 strips laid on each other" in text for text in cloth(rotary, "sand").how)
    assert not any("laid on each other" in text for text in cloth(plain, "sand").how)
    # the kind alone keeps what the pattern says of it
    assert cloth(planned(text, cutter="cutter press"), "sand").passes == cloth(planned(text), "sand").passes
    # a profile may stand in a pattern with other units
    profile = 'pattern "Dies"\n    units cm\ncutter press, leeway 0.635\n    die rectangle 6.35 by 11.43\n'
    (one,) = cloth(planned(FABRICS + TILE, cutter=profile), "sand").passes
    assert [(rough.width.ruler, rough.length.ruler) for rough in one.rough] == [("3", "5")]


def test_a_profile_without_a_cutter_is_a_mistake() -> None:
    made = compile_source(FABRICS + TILE, cutting=Cutting(cutter="fabric red\n"))
    assert [one.code for one in made.diagnostics] == ["E212"]
    assert made.diagnostics[0].span.source.name == "<cutter>"


def test_angled_dies_cut_angled_pieces() -> None:
    text = """cutter press
    die diamond 2 1/2 at 45
fabric sand

unit one (light)
    diamond 2 1/2 at 45 of light

make 9 of one(sand)
"""
    (one,) = cloth(planned(text), "sand").passes
    assert (one.die, one.passes) == ("diamond 2½ wide at 45°", 2)


@pytest.mark.parametrize("kits", [2, 5, 30])
def test_kits_cut_at_once_take_no_more_and_have_every_piece(kits: int) -> None:
    plan = planned(FABRICS + TILE, kits=kits)
    assert plan.kits is not None and plan.kits.count == kits
    assert planned(FABRICS + TILE).kits is None
    assert [one.fabric for one in plan.kits.fabrics] == ["sand", "dusk"]
    for kit in plan.kits.fabrics:
        single = cloth(plan, kit.fabric)
        assert single.bought is not None and kit.cloth.bought is not None
        assert kit.cloth.bought.value <= single.bought.value * kits
        assert kit.saves == (kit.cloth.bought.value < single.bought.value * kits)
        counts: dict[int, int] = {}
        for strip in kit.strips:
            for place, count in strip.pieces:
                counts[place] = counts.get(place, 0) + count
        wanted = {place: cut.count * kits for place, cut in enumerate(plan.cuts) if cut.fabric == kit.fabric}
        assert counts == wanted
    # 1/8 yd steps are lost once instead of in every kit
    assert any(kit.saves for kit in plan.kits.fabrics)


def test_kits_and_dies_stand_in_every_format() -> None:
    plan = planned(PRESS + FABRICS + TILE, kits=3)
    files = dict(emit(plan, ("html", "md", "svg", "csv", "json")))
    document = json.loads(files["plan.json"])
    Draft202012Validator(SCHEMA).validate(document)
    assert document["kits"]["count"] == 3
    assert document["fabrics"][0]["cutting"]["passes"][0]["passes"] == 4
    for page in (files["pattern.html"], files["pattern.md"]):
        assert "Cutting 3 kits at once" in page
        assert "3 kits cut at once take" in page
        assert "to at most 6 layers in all: 4 passes cut 20." in page
    assert files["kits.csv"].startswith("fabric,number,from,strips,")
    assert "figures/kits-sand.svg" in files
    assert "kits.csv" not in dict(emit(planned(FABRICS + TILE), ("csv",)))
