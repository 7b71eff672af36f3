"""What a pattern defines and leaves lying is told where it stands; what may well lie there is not."""

from __future__ import annotations

import pytest
from evaluate.pattern import found, nothing, parsed
from piecewright.diagnostics.model import Diagnostic
from piecewright.evaluate.run import evaluate
from piecewright.source import Span
from piecewright.syntax.ast import File

FABRICS = "fabric dusk, value dark\nfabric lamp, value light\n\n"
TILE = "block tile (light, dark)\n    square 5 of light\n    border 2 of dark\n\n"
SIZED = "block sized (size, light, dark, edge 2)\n    square size of light\n    border edge of dark\n\n"


def told(text: str, settings: dict[str, str] | None = None) -> list[tuple[str, str]]:
    return [(one.code, one.span.text) for one in found(text, settings)[1]]


def one(text: str) -> Diagnostic:
    (diagnostic,) = found(text)[1]
    return diagnostic


@pytest.mark.parametrize(
    ("text", "place", "mend"),
    [
        (TILE + "make 6 of tile\n", "tile", "make 6 of tile(lamp, dusk)"),
        (TILE + "make 6 of tile reversed\n", "tile", "make 6 of tile(lamp, dusk) reversed"),
        (TILE, "tile", "make 1 of tile(lamp, dusk)"),
        (SIZED + "make 2 of sized(4 1/2)\n", "sized(4 1/2)", "make 2 of sized(4 1/2, lamp, dusk)"),
        (SIZED + "make 2 of sized(size 4, edge 3)\n", "sized(size 4, edge 3)", "make 2 of sized(4, lamp, dusk, 3)"),
        (
            "unit roof (cloth, edge 2, rim 3)\n    square 5 of cloth\n    border edge of cloth\n"
            "    border rim of cloth\n\nmake 1 of roof(rim 4)\n",
            "roof(rim 4)",
            "make 1 of roof(dusk, rim 4)",
        ),
        ("quilt q (ground)\n    square 20 of ground\n", "q", "make 1 of q(dusk)"),
    ],
)
def test_a_stand_in_where_fabrics_lie_unused(text: str, place: str, mend: str) -> None:
    diagnostic = one(FABRICS + text)
    assert (diagnostic.code, diagnostic.span.text) == ("W541", place)
    assert diagnostic.hint == f"hand the fabrics over: `{mend}`"
    # what the hint says, done: one fabric may still lie there, which is told by itself
    last = text.splitlines()[-1]
    mended = text.replace(last, mend) if last.startswith("make") else text + "\n" + mend
    assert [code for code, _ in told(FABRICS + mended)] in ([], ["W540"])


def test_what_a_stand_in_is_said_to_be() -> None:
    assert one(FABRICS + TILE + "make 6 of tile\n").message == (
        "`tile` is handed no fabric: it is cut from any light and any dark fabric, and nothing from `dusk` or `lamp`"
    )


def test_stand_ins_are_no_matter_where_all_fabrics_are_used() -> None:
    assert told(TILE + "make 6 of tile\n") == []
    assert told(FABRICS + TILE + "make 2 of tile(lamp, dusk)\nmake 1 of tile\n") == []
    # a parameter named like a fabric stands for it
    assert told("fabric light\nfabric dark\n" + TILE + "make 6 of tile\n") == []


def test_a_fabric_that_nothing_is_cut_from() -> None:
    text = FABRICS + TILE + "make 6 of tile(lamp, lamp)\n"
    assert told(text) == [("W540", "dusk")]
    assert one(text).message == "nothing is cut from `dusk`"
    assert told(text + "make 1 of tile(dusk, lamp)\n") == []


@pytest.mark.parametrize(
    "use",
    [
        "quilt q\n    square 20 of lamp\n    back of dusk\n",
        "quilt q\n    square 20 of lamp\n    back of lamp\n    bind 2 1/4 of dusk\n",
        "block b\n    foundation 5 by 5 of lamp\n    add dusk at left from bottom-left to top-right\n",
        "block b\n    square 4 of lamp\n    flip square 2 of dusk at corners\n",
        "block b\n    square 4 of lamp\n    join band on right\n\nunit band\n    strip 4 of dusk\n    subcut 2\n",
    ],
)
def test_every_way_to_cut_a_fabric_uses_it(use: str) -> None:
    codes = [code for code, _ in told(FABRICS + use)]
    assert not [code for code in codes if code.startswith("E")], codes
    assert "W540" not in codes and "W541" not in codes


def test_a_print_that_is_chosen_uses_its_fabric() -> None:
    text = "fabric lights, assorted\n\nblock b\n    choose pale from lights\n    square 5 of pale\n"
    assert told(text) == []


def test_fabrics_of_a_used_file_may_lie_there() -> None:
    palette = parsed("fabric lamp\nfabric dusk\n\nunit tile (cloth)\n    square 5 of cloth\n", "palette.piece")

    def load(name: str, span: Span) -> File:
        assert name == "palette.piece"
        return palette

    _, diagnostics = evaluate(parsed('use "palette.piece"\n\nmake 3 of tile(lamp)\n'), load)
    assert diagnostics == ()
    # and a file of fabrics alone makes nothing by which they could be missed
    assert evaluate(parsed("fabric lamp\nfabric dusk\n"), nothing)[1] == ()


def test_fabrics_to_be_put_in_the_place_of_another_may_lie_there() -> None:
    tile = "ground is lamp\n\nblock tile\n    square 5 of ground\n"
    assert told(FABRICS + tile) == []
    assert told(FABRICS + tile, {"ground": "dusk"}) == []
    # a name that is not used puts nothing in the place of anything
    idle = "ground is lamp\n\nblock tile\n    square 5 of dusk\n"
    assert told(FABRICS + idle) == [("W540", "lamp")]


def test_a_block_that_is_never_made() -> None:
    other = "block other (cloth)\n    square 5 of cloth\n\n"
    lone = "fabric sand\n\n" + other + "block tile (cloth)\n    square 5 of cloth\n\nmake 2 of tile(sand)\n"
    assert told(lone) == [("W542", "other")]
    assert one(lone).hint == "ask for it: `make 1 of other(…)`"
    assert told(lone + "make 1 of other(sand)\n") == []
    assert told(lone.replace("square 5 of cloth\n\nmake", "take other(cloth)\n\nmake")) == []
    assert told(lone.replace("block other", "unit other")) == []
    handed = "block framed (inner)\n    take inner\n    border 2 of sand\n\nmake 1 of framed(other(sand))\n"
    assert told(lone + handed) == []


def test_a_block_or_quilt_that_waits_for_a_size() -> None:
    text = "fabric sand\n\nblock tile\n    square 5 of sand\n\nblock sized (size)\n    square size of sand\n"
    assert told(text) == [("W542", "sized")]
    assert one(text).message == "the block `sized` is never made, since it is not told its `size`"
    quilts = text.replace("block", "quilt")
    assert told(quilts) == [("W542", "sized")]
    assert told(quilts + "\nmake 1 of sized(5)\n") == []


def test_nothing_is_told_beside_a_mistake() -> None:
    assert told(FABRICS + "block tile\n    square 5 of lmap\n") == [("E202", "lmap")]
