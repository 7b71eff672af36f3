"""Settings and names at the margin that are set from outside."""

from __future__ import annotations

from evaluate.pattern import built, found, made
from piecewright.exact import Exact
from piecewright.kernel.measure import finished_size, width

TEXT = """\
pattern "Small"
    seam 1/4

fabric sand
fabric dusk

side is 5
ground is sand

block one
    square side of ground

make 1 of one
"""


def test_a_setting() -> None:
    build = built(TEXT, {"seam": "3/8"})
    assert build.settings.seam == Exact(3, 8)
    assert finished_size(made(build)["one"].unit)[0] == Exact(17, 4)


def test_every_setting() -> None:
    build = built(
        TEXT, {"units": "cm", "seam": "0.75", "ruler": "1 mm", "tolerance": "0", "usable": "100", "press": "open"}
    )
    settings = build.settings
    assert settings.units == "cm"
    assert settings.seam == Exact(75, 254)
    assert settings.ruler == Exact(5, 127)
    assert settings.tolerance == 0
    assert settings.usable == Exact(100 * 50, 127)
    assert settings.press == "open"


def test_a_size_and_a_fabric_at_the_margin() -> None:
    build = built(TEXT, {"side": "6 1/2", "ground": "dusk"})
    one = made(build)["one"]
    assert width(one.unit) == Exact(13, 2)
    assert one.unit.patches[0].fabric == "dusk"
    assert width(made(built(TEXT, {"side": "10 cm"}))["one"].unit) == Exact(500, 127)


def test_what_cannot_be_set() -> None:
    for settings in (
        {"sied": "5"},
        {"one": "5"},
        {"side": "wide"},
        {"seam": "thin"},
        {"units": "ell"},
        {"press": "up"},
    ):
        build, diagnostics = found(TEXT, settings)
        assert build is None
        assert [one.code for one in diagnostics] == ["E214"], settings


def test_a_seam_of_nothing() -> None:
    assert [one.code for one in found(TEXT, {"seam": "0"})[1]] == ["E304"]
