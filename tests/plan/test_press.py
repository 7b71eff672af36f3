"""Rough pieces, folds and hands at a press, case by case; the shapes are drawn again with shapely."""

from __future__ import annotations

import math

import pytest
from piecewright import compile_source
from piecewright.exact import Exact
from piecewright.kernel.slanted import triangle_base
from piecewright.pipeline import Cutting
from piecewright.plan.cutlist import CutRow
from piecewright.plan.dies import box
from piecewright.plan.model import ClothPlan, Plan
from shapely.geometry import Polygon


def planned(text: str, codes: tuple[str, ...] = (), **cutting: object) -> Plan:
    made = compile_source(text, cutting=Cutting(**cutting))  # type: ignore[arg-type]
    assert made.plan is not None, made.diagnostics
    assert tuple(one.code for one in made.diagnostics) == codes, made.diagnostics
    return made.plan


def cloth(text: str, codes: tuple[str, ...] = (), **cutting: object) -> ClothPlan:
    (found,) = planned(text, codes, **cutting).fabric_cloth
    return found


def pattern(dies: str, pieces: str, *makes: str, cutter: str = "layers 6, leeway 1/4", fabric: str = "") -> str:
    units = "".join(f"unit u{n} (c)\n    {piece} of c\n" for n, piece in enumerate(pieces.split("; ")))
    lines = "".join(f"    die {die}\n" for die in dies.split("; "))
    asked = "".join(f"make {make}\n" for make in makes)
    return f"cutter press, {cutter}\n{lines}fabric sand{fabric}\n{units}{asked}"


def die_texts(found: ClothPlan) -> list[str]:
    return [text for text in found.how if text.startswith("Die ")]


# ── the box round a shape ───────────────────────────────────────────────────────────────────────


@pytest.mark.parametrize("angle", [15, 30, 45, 60, 75])
@pytest.mark.parametrize("shape", ["triangle", "diamond", "parallelogram", "trapezoid"])
def test_the_box_round_a_shape_is_that_of_its_outline(shape: str, angle: int) -> None:
    """The outline from the sides and the angle, by floats; the box exactly."""
    high, run = 2.5, 2.5 / math.tan(math.radians(angle))
    wide = {"triangle": 2 * run, "diamond": high / math.sin(math.radians(angle))}.get(shape, 2 * run + 3)
    width = Exact(0)
    if shape in ("triangle", "trapezoid", "parallelogram"):
        width = triangle_base(Exact(5, 2), angle) + (0 if shape == "triangle" else 3)
    if shape == "diamond":
        width = Exact(5, 2)
    top = {"triangle": (run, run), "trapezoid": (run, wide - run)}.get(shape, (run, wide + run))
    drawn = Polygon([(0, 0), (wide, 0), (top[1], high), (top[0], high)])
    row = CutRow(fabric="", shape=shape, width=width, height=Exact(5, 2), reversed=False, units=(), angle=angle)
    across, down = (float(side) for side in box(row))
    assert (across, down) == pytest.approx(drawn.bounds[2:], abs=1e-12)


def test_a_diamond_takes_more_than_a_square_of_its_side() -> None:
    # 2 1/2 at 45: its side is 5/2 √2 and it leans 5/2, so that the box is 6.0355 by 2 1/2; with leeway 6 5/8 by 3
    found = cloth(pattern("diamond 2 1/2 at 45", "diamond 2 1/2 at 45", "9 of u0(sand)"))
    (one,) = found.passes
    assert [(part.width.ruler, part.length.ruler, part.count) for part in one.rough] == [("6 5/8", "3", 9)]
    assert "Fold lengths 6⅝ wide to and fro, with the folds 3 apart" in die_texts(found)[0]
    assert found.length is not None and found.length.ruler == "6 5/8"  # standing, one strip


# ── folds ───────────────────────────────────────────────────────────────────────────────────────


def test_folds_lie_as_far_apart_as_the_rough_pieces_are_long_along_their_strips() -> None:
    text = pattern("rectangle 2 1/2 by 4 1/2", "rectangle 2 1/2 by 4 1/2", "26 of u0(sand)", fabric=", sold by 1")
    # 26 stand in two strips of 5, which is 10; lying, 8 in a strip of 3, they take four of these
    found = cloth(text)
    assert die_texts(found) == [
        "Die rectangle 2½ × 4½: do not cut its rough pieces apart. Fold lengths 5 wide to and fro, with the folds 3"
        " apart, and lay them on each other to at most 6 layers in all: 5 passes cut 26."
    ]
    assert found.length is not None and found.length.ruler == "10"


def test_both_ways_are_told_where_one_way_takes_more_cloth() -> None:
    die = "rectangle 2 1/2 by 4 1/2"
    found = cloth(pattern(die, die, "6 of u0(sand)", fabric=", sold in sheets 13 by 8"))
    (text,) = die_texts(found)
    (one,) = found.passes
    # 4 stand in a strip of 5, and 2 lie in one of 3; a sheet holds only four of either way
    ways = {(part.width.ruler, part.length.ruler): part.count for part in one.rough}
    assert ways == {("5", "3"): 4, ("3", "5"): 2}
    assert "Fold lengths 5 wide to and fro, with the folds 3 apart and lengths 3 wide to and fro" in text
    assert "with the folds 5 apart" in text
    assert [(sheet.name, sheet.count) for sheet in found.sheets] == [("sheet", 1)]


def test_one_layer_is_not_folded() -> None:
    found = cloth(pattern("square 4 1/2", "square 4 1/2", "3 of u0(sand)", cutter="layers 1"))
    assert die_texts(found) == [
        "Die square 4½: lay its rough pieces, 5 × 5, under it one at a time: 3 passes cut 3."
    ]
    assert found.passes[0].lay == "apart"


# ── hands ───────────────────────────────────────────────────────────────────────────────────────


SLANT = "parallelogram 4 by 2 1/2 at 45"


def test_pieces_in_one_hand_are_not_folded() -> None:
    found = cloth(pattern(SLANT, SLANT, "10 of u0(sand)"))
    assert die_texts(found) == [
        "Die parallelogram 4 × 2½ at 45°: cut its rough pieces, 7 × 3, apart and lay at most 6 on each other, all right"
        " side up, since cloth folded to and fro would give half of them mirrored: 2 passes cut 10."
    ]
    mirrored = cloth(pattern(SLANT, SLANT, "10 of u0(sand) reversed"))
    (text,) = die_texts(mirrored)
    assert "all wrong side up" in text and text.endswith("2 passes cut 10 reversed.")


def test_pieces_in_both_hands_are_folded_as_far_as_they_pair() -> None:
    found = cloth(pattern(SLANT, SLANT, "7 of u0(sand)", "10 of u0(sand) reversed", cutter="layers 5"), ("W508",))
    paired, rest = found.passes
    assert (paired.lay, paired.layers, paired.passes) == ("folded in pairs", 4, 4)  # 14 pieces, 4 at a time
    assert [count for _, count in paired.pieces] == [7, 7]
    assert (rest.lay, rest.layers, rest.passes, rest.pieces[0][1]) == ("wrong side up", 3, 1, 3)
    assert "at most 4 layers in all, as many right side up as wrong side up: 4 passes cut 7 and 7 reversed." in (
        die_texts(found)[0]
    )


def test_a_diamond_has_hands_only_on_a_print_that_has_a_direction() -> None:
    text = pattern("diamond 2 1/2 at 45", "diamond 2 1/2 at 45", "4 of u0(sand)")
    assert cloth(text).passes[0].lay == "folded"
    assert cloth(text.replace("fabric sand", "fabric sand, directional")).passes[0].lay == "right side up"


def test_triangles_of_a_print_with_a_direction_are_not_folded_upside_down() -> None:
    # in sheets 18 high and 5 across a triangle's base of 3.4641 lies across, and its strip runs down the cloth
    die = "triangle 3 at 60"
    found = cloth(pattern(die, die, "5 of u0(sand)", fabric=", directional, sold in sheets 5 by 18"))
    assert found.passes[0].lay == "apart"
    assert "with the print the same way up" in die_texts(found)[0]


# ── strip dies ──────────────────────────────────────────────────────────────────────────────────


def test_rectangles_come_from_the_strips_that_a_die_cuts() -> None:
    found = cloth(pattern("strip 2", "rectangle 2 by 7 1/2; square 2", "12 of u0(sand)", "5 of u1(sand)"))
    (one,) = found.passes
    assert one.lay == "strips" and {part.width.ruler for part in one.rough} == {"2 1/2"}
    # 12 of 7 1/2 and 5 of 2 are 100 long: three strips of 40, whose pieces leave at most 2 1/2 in each
    assert sum(part.count for part in one.rough) == 3
    assert die_texts(found) == [
        "Die strip 2: lay its rough strips, 2½ wide, on each other, at most 3 at a time; 1 pass cuts 3 strips 2 wide."
        " From them cut 12 rectangles 2 × 7½ and 5 squares 2 with a ruler."
    ]
    assert found.length is not None and found.length.ruler == "7 1/2"


def test_the_die_of_a_piece_comes_before_that_of_its_strip() -> None:
    found = cloth(pattern("strip 2; square 2", "square 2; rectangle 2 by 7", "5 of u0(sand)", "4 of u1(sand)"))
    assert sorted((one.die, one.passes) for one in found.passes) == [("square 2", 1), ("strip 2", 1)]


def test_strips_of_a_strip_set_and_pieces_share_the_strips_of_a_die() -> None:
    text = """cutter press
    die strip 2
fabric sand

unit band (c)
    strip 2 of c
    join strip 2 of c on bottom
    subcut 2

unit bar (c)
    rectangle 2 by 9 of c

make 4 of band(sand)
make 4 of bar(sand)
"""
    (one,) = cloth(text).passes
    # two lengths of 8 and four of 9 are 52 long: two strips
    assert [(part.width.ruler, part.count) for part in one.rough] in ([("2 1/2", 2)], [("2 1/2", 1), ("2 1/2", 1)])


def test_a_border_longer_than_the_cloth_is_joined_from_the_strips_of_a_die() -> None:
    text = """cutter press
    die strip 3 1/2
fabric sand
fabric dusk

quilt mat
    square 36 1/2 of sand
    border 3 1/2 of dusk

make 1 of mat
"""
    made = compile_source(text)
    assert made.plan is not None and made.diagnostics == ()
    (dusk,) = (one for one in made.plan.fabric_cloth if one.fabric == "dusk")
    (one,) = dusk.passes
    assert one.die == "strip 3½" and {part.width.ruler for part in one.rough} == {"4"}
    (told,) = die_texts(dusk)
    assert "Join" in told and "3½ × 42½" in told
    assert any(text.startswith("Sew ") and "3½ wide" in text for text in dusk.how)  # as the die has cut them


# ── cloth that is too small, and dies of no use ─────────────────────────────────────────────────


def test_a_rough_piece_is_never_joined() -> None:
    """With its leeway the square is wider than the cloth: a ruler cuts it whole, and the finding says so."""
    text = pattern("square 39 3/4", "square 39 3/4", "2 of u0(sand)") + "fabric dusk, usable 54\nmake 1 of u0(dusk)\n"
    sand, dusk = planned(text, ("W536",)).fabric_cloth
    assert sand.passes == () and [one.passes for one in dusk.passes] == [1]
    assert "No die here cuts 2 squares 39¾ from this cloth: cut them with a ruler." in sand.how
    assert not any("join" in text for text in (*sand.how, *dusk.how))


def test_sheets_are_counted_with_their_rough_pieces() -> None:
    # 9 squares of 4 come from a sheet 12 by 12, and 4 rough pieces of 4 1/2
    text = pattern("square 4", "square 4", "9 of u0(sand)", fabric=", sold in sheets 12 by 12, only 2")
    made = compile_source(text)
    assert [(one.code, one.hint) for one in made.diagnostics] == [("W510", "3 sheets 12 × 12 would do: `only 3`")]
    assert compile_source(text, cutting=Cutting(cutter="cutter rotary")).diagnostics == ()


def test_one_long_piece_is_cut_with_a_ruler_and_not_joined_from_the_strips_of_a_die() -> None:
    codes = "W525", "W537"
    found = cloth(pattern("strip 2; square 3", "rectangle 2 by 50; square 3", "1 of u0(sand)", "1 of u1(sand)"), codes)
    assert [one.die for one in found.passes] == ["square 3"]
    assert found.length is not None and found.length.value >= 50


def test_a_shelf_of_dies_may_hold_more_than_a_pattern_needs() -> None:
    text = pattern("square 4 1/2", "square 4 1/2", "2 of u0(sand)")
    shelf = "cutter press\n    die square 4 1/2\n    die square 3\n"
    assert cloth(text, cutter=shelf).passes[0].die == "square 4½"
    cloth(text, ("W537",), cutter="cutter press\n    die square 3\n")  # none of them is of use
    cloth(text.replace("die square 4 1/2", "die square 4 1/2\n    die square 3"), ("W537",))


def test_a_die_that_cuts_nothing_is_no_warning() -> None:
    made = compile_source(pattern("square 3", "square 4 1/2", "2 of u0(sand)"))
    assert [(one.code, one.severity) for one in made.diagnostics] == [("W537", "note")]
    assert made.plan is not None and made.plan.warnings == ()


# ── kits ────────────────────────────────────────────────────────────────────────────────────────


def test_kits_have_the_prints_of_assorted_fabrics() -> None:
    text = """fabric lights, assorted
fabric dusk

block tile (c)
    square 2 1/2 of lights
    join square 2 1/2 of c on right

make 20 of tile(dusk)
"""
    plan = planned(text, kits=4)
    assert plan.kits is not None
    assert [one.fabric for one in plan.kits.fabrics] == ["lights", "dusk"]
    lights = plan.kits.fabrics[0]
    counts: dict[int, int] = {}
    for strip in lights.strips:
        for place, count in strip.pieces:
            counts[place] = counts.get(place, 0) + count
    assert counts == {place: cut.count * 4 for place, cut in enumerate(plan.cuts) if cut.fabric == "lights"}
    # 20 squares are two strips of 2 1/2, which is 1/4 yd sold by the eighth; 80 are five strips, 12 1/2, 3/8 yd
    assert (lights.apart, lights.cloth.bought_text, lights.saves) == ("1\u00a0yd", "⅜\u00a0yd", True)


def test_kits_have_the_same_chosen_prints() -> None:
    text = """fabric lights, assorted

unit four
    choose bright from lights
    lay 2 by 2
        | square 2 1/2 of bright

make 6 of four
"""
    plan = planned(text, kits=5)
    assert plan.kits is not None
    (lights,) = plan.kits.fabrics
    assert lights.cloth.text[-1] == "The kits have the same prints: each print gives its pieces for all of them."
    # each of the six prints gives four squares to each of five kits
    assert [strip.pieces for strip in lights.strips] == [((0, 120),)]
    assert "each of 6 prints of lights" in lights.strips[0].text
