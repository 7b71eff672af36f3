"""Chosen prints: batches, their counts, and how they are printed and drawn."""

from __future__ import annotations

import json

from evaluate.pattern import built
from piecewright.emit import emit
from piecewright.kernel.build import Build
from piecewright.kernel.demand import Wanted, cuttings, wanted
from piecewright.pipeline import compile_source
from piecewright.plan.make import plan
from piecewright.plan.model import Figure, Plan, UnitPlan

FABRICS = """
fabric lights "pale prints", value light, assorted
fabric darks "deep prints", value dark, assorted
fabric sand
"""
HALF = """
unit half (size, cloth)
    square size of cloth
    cut once on diagonal

unit corner (light, dark)
    take half(3, light)
    join half(3, dark) on long-edge, press toward dark
    trim to 2 1/2 by 2 1/2, seam on diagonal
"""
SCRAPPY = (
    FABRICS
    + HALF
    + """
block scrappy
    choose light from lights
    choose dark from darks
    lay
        corner(light, dark)  | square 2 1/2 of dark | corner(light, dark)
        square 2 1/2 of dark | square 2 1/2 of sand | corner(light, dark)

make 20 of scrappy
"""
)
NESTED = (
    FABRICS
    + """
unit half (cloth)
    square 4 of cloth
    cut once on diagonal

unit leaf (light)
    choose dark from darks
    take half(light)
    join half(dark) on long-edge

block tree
    choose light from lights
    lay
        leaf(light) | leaf(light) | leaf(light)

make 5 of tree
"""
)


def by_name(work: tuple[Wanted, ...]) -> dict[str, Wanted]:
    return {item.key: item for item in work}


def cut(build: Build) -> dict[tuple[str, str], tuple[int, int | None]]:
    """Pieces and batches by the fabric and the unit."""
    return {(one.piece.fabric, one.key): (one.count, one.batches) for one in cuttings(build, wanted(build))}


def planned(text: str) -> Plan:
    compiled = compile_source(text)
    assert compiled.plan is not None, compiled.diagnostics
    return compiled.plan


def unit(made: Plan, name: str) -> UnitPlan:
    return next(one for one in made.units if one.name == name)


def test_counts_round_up_within_the_copy() -> None:
    build = built(SCRAPPY)
    work = by_name(wanted(build))
    half = work["half(3, lights/light)"]
    (batch,) = half.batches
    # three halves a copy are two squares of its print, and the fourth half is left over in each of 20 copies
    assert (batch.runs, batch.needed, batch.times) == (2, (3,), 20)
    assert (half.runs, half.needed, half.spare) == (40, (60,), (20,))
    assert cut(build) == {
        ("lights/light", "half(3, lights/light)"): (40, 20),
        ("darks/dark", "half(3, darks/dark)"): (40, 20),
        ("darks/dark", "scrappy"): (40, 20),
        ("sand", "scrappy"): (20, None),
    }


def test_the_same_block_in_one_fabric_rounds_up_once() -> None:
    plain = SCRAPPY.replace("choose light from lights", "light is sand")
    plain = plain.replace("choose dark from darks", "dark is clay")
    plain += "fabric clay, value dark\n"
    half = by_name(wanted(built(plain)))["half(3, sand)"]
    assert (half.runs, half.spare) == (30, (0,))


def test_a_choice_within_a_choice() -> None:
    build = built(NESTED)
    work = by_name(wanted(build))
    (light,), (dark,) = work["half(lights/light)"].batches, work["half(darks/dark)"].batches
    assert (light.choosers, light.times, light.runs) == (("tree",), 5, 2)
    assert (dark.choosers, dark.times, dark.runs) == (("tree", "leaf(lights/light)"), 15, 1)
    assert cut(build) == {
        ("lights/light", "half(lights/light)"): (10, 5),
        ("darks/dark", "half(darks/dark)"): (15, 15),
    }


def test_two_blocks_have_batches_of_their_own() -> None:
    more = SCRAPPY + "\nblock other\n    choose light from lights\n    take corner(light, sand)\nmake 7 of other\n"
    half = by_name(wanted(built(more)))["half(3, lights/light)"]
    assert [(batch.choosers, batch.times, batch.runs) for batch in half.batches] == [
        (("scrappy",), 20, 2),
        (("other",), 7, 1),
    ]
    assert half.runs == 47


def test_a_copy_in_the_mirror_chooses_its_own_prints() -> None:
    text = FABRICS + (
        "\nunit half (cloth)\n    square 4 of cloth\n    cut once on diagonal\n"
        "\nunit leaf\n    choose light from lights\n    take half(light)\n    join half(sand) on long-edge\n"
        "\nblock pair\n    lay\n        leaf | leaf reversed\n\nmake 3 of pair\n"
    )
    work = by_name(wanted(built(text)))
    assert [batch.choosers for batch in work["half(lights/light)"].batches] == [("leaf",)]
    assert [batch.choosers for batch in work["half(lights/light) reversed"].batches] == [("leaf reversed",)]
    assert work["half(lights/light)"].runs == 3


def test_a_set_of_strips_for_each_batch() -> None:
    text = FABRICS + (
        "\nunit band (a, b)\n    strip 2 of a\n    join strip 2 of b on bottom\n    subcut 2\n"
        "\nblock four\n    choose light from lights\n    lay\n"
        "        band(light, sand) | band(light, sand) turned around\n\nmake 3 of four\n"
    )
    build = built(text)
    item = by_name(wanted(build))["band(lights/light, sand)"]
    assert item.sets == (2, 2, 2)
    assert [(one.piece.fabric, str(one.width), one.count) for one in cuttings(build, wanted(build))] == [
        ("lights/light", "9/2", 3),  # two segments of 2, and 1/2 to square the end
        ("sand", "9/2", 3),
    ]
    assert unit(plan(build), "band").work == (
        "Make 3 batches, one for each four, each of its own light:"
        " in each sew one strip set 4½ long, and cut 2 segments."
    )


def test_what_is_printed() -> None:
    made = planned(SCRAPPY)
    rows = {(row.fabric, row.label): (row.count, row.each, row.batches, row.prints) for row in made.cuts}
    assert rows["lights", "half in light"] == (40, 2, 20, "from one of lights: 2; 20 times")
    assert rows["sand", "scrappy"] == (20, None, None, "")
    assert unit(made, "scrappy").work == "Each time choose one of lights as light and one of darks as dark."
    assert unit(made, "half").work == (
        "Make 20 batches, one for each scrappy, each of its own light: in each do the steps twice, which gives 4."
    )
    assert unit(made, "half").steps[0].text == "Start with a light square 3."
    lights = next(fabric for fabric in made.fabrics if fabric.name == "lights")
    assert lights.prints == ("1 to 20 different prints", "20 prints, each 2 squares 3 (a piece 3 × 6)")
    assert [strip.text for strip in made.strips if strip.fabric == "lights"] == [
        "From each of 20 prints of lights cut a piece 3 × 6; from it cut 2 squares 3."
    ]
    assert dict(made.cloth)["lights"].shown == "12"  # six such pieces are as much as a strip, and there are 20


def test_used_directly_each_piece_may_be_another_print() -> None:
    made = planned(FABRICS + "\nblock one\n    lay 4 by 1\n        square 3 of lights | square 3 of darks\n")
    (row,) = (row for row in made.cuts if row.fabric == "lights")
    assert (row.count, row.each, row.batches, row.prints) == (2, None, None, "from lights, assorted")
    lights = next(fabric for fabric in made.fabrics if fabric.name == "lights")
    assert lights.prints == ("1 to 2 different prints", "2 squares 3 of any prints")
    assert dict(figure(made, "one").legend) == {"lights": "lights, assorted", "darks": "darks, assorted"}


def figure(made: Plan, name: str) -> Figure:
    found = unit(made, name).coloured
    assert found is not None
    return found


def test_prints_are_drawn_as_their_fabric_and_named_beside_the_sample() -> None:
    whole = "\nblock whole\n    take scrappy\n    join square 4 1/2 of lights on left\n\nmake 1 of whole\n"
    made = planned(SCRAPPY + whole)
    for one in made.units:
        for shown in (*(step.figure for step in one.steps), *([one.coloured] if one.coloured else [])):
            seen = {cloth.fabric for panel in shown.panels for cloth in panel.cloth if cloth.fabric}
            assert seen <= {"lights", "darks", "sand"}
    assert dict(figure(made, "scrappy").legend) == {"lights": "one of lights", "darks": "one of darks"}
    assert dict(figure(made, "whole").legend) == {"lights": "lights, assorted", "darks": "darks, assorted"}


def test_no_file_shows_the_name_within() -> None:
    files = dict(emit(planned(SCRAPPY), ("html", "md", "csv", "json", "svg")))
    assert files
    assert not [path for path, text in files.items() if "lights/" in text or "darks/" in text]
    cuts = json.loads(files["plan.json"])["cuts"]
    assert (cuts[0]["each"], cuts[0]["batches"]) == (2, 20)
    header, first = files["cut-list.csv"].splitlines()[:2]
    assert header.endswith(",label") and first.endswith(",half in light (2 of one print; 20 times)")
