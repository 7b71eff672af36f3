"""Prints that are chosen from one assorted fabric are told apart, in colour and in grey, and named beside a sample."""

from __future__ import annotations

import re
from itertools import combinations

from piecewright import compile_source
from piecewright.emit.svg import figure_svg
from piecewright.emit.textures import print_look
from piecewright.plan.model import Figure, Plan

TEXT = """
fabric lights, assorted, colour "#e8dcc0"
fabric dusk, colour "#3d3355"

block scrappy (dark)
    choose one from lights
    choose other from lights
    choose third from lights
    lay
        square 3 1/2 of one | square 3 1/2 of dark | square 3 1/2 of other
        square 3 1/2 of dark | square 3 1/2 of third | square 3 1/2 of dark

make 4 of scrappy(dusk)
"""


def finished(text: str) -> tuple[Plan, Figure]:
    plan = compile_source(text).plan
    assert plan is not None
    (unit,) = (one for one in plan.units if one.asked)
    assert unit.coloured is not None
    return plan, unit.coloured


def test_each_print_has_a_look_of_its_own() -> None:
    plan, figure = finished(TEXT)
    cloth = [cloth.fabric for cloth in figure.panels[0].cloth]
    assert sorted(cloth) == ["dusk", "dusk", "dusk", "lights", "lights 2", "lights 3"]
    by_name = {fabric.name: fabric for fabric in plan.fabrics}
    looks = [by_name["lights"], by_name["dusk"]]
    looks += [print_look(by_name[of], number, plan.fabrics) for _, of, number in figure.looks]
    for first, second in combinations(looks, 2):
        assert first.texture != second.texture
        assert first.colour != second.colour


def test_each_is_named_beside_its_sample() -> None:
    plan, figure = finished(TEXT)
    assert dict(figure.legend) == {
        "lights": "one, one of lights",
        "lights 2": "other, one of lights",
        "lights 3": "third, one of lights",
    }
    svg = figure_svg(figure, plan.fabrics)
    assert set(re.findall(r'data-fabric="([^"]*)"', svg)) == {"dusk", "lights", "lights 2", "lights 3"}
    for words in dict(figure.legend).values():
        assert f">{words}</text>" in svg


def test_one_print_looks_like_its_fabric() -> None:
    text = TEXT.replace("    choose other from lights\n    choose third from lights\n", "")
    _, figure = finished(re.sub("of (other|third)", "of one", text))
    assert figure.looks == ()
    assert dict(figure.legend) == {"lights": "one of lights"}
    assert {cloth.fabric for cloth in figure.panels[0].cloth} == {"dusk", "lights"}
