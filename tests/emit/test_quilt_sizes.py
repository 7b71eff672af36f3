"""Both sizes of a quilt, where its pattern begins and where it is sewn."""

from __future__ import annotations

import json

import pytest
from piecewright import compile_source
from piecewright.emit import emit

HEAD = "fabric sand\nfabric dusk\n\n"
INCHES = 'pattern "Mat"\n' + HEAD
METRIC = 'pattern "Mat"\n    units cm\n    seam 0.75\n' + HEAD
BOUND = "quilt mat\n    rectangle 12 1/2 by 18 1/2 of sand\n    border 2 1/2 of dusk\n    bind 2 1/4 of dusk\n"
PLAIN = BOUND[: BOUND.index("    bind")]
CENTIMETRES = "quilt mat\n    rectangle 40 by 60 of sand\n    border 6 of dusk\n    bind 6 of dusk\n"
OFF = "quilt mat\n    rectangle 12 1/2 by 18 1/2 + 1/24 of sand\n    bind 2 1/4 of dusk\n"


def files(text: str) -> dict[str, str]:
    compiled = compile_source(text)
    assert compiled.plan is not None, compiled.diagnostics
    return {path: written for path, written in emit(compiled.plan, ("html", "md", "json")) if "/" not in path}


@pytest.mark.parametrize(
    ("text", "told"),
    [
        # check value E2E-01 of tests/external: a magazine's finished size is the raw top, since the binding covers the
        # last quarter of an inch
        (INCHES + BOUND, "top 16½ by 22½ with seam allowance, bound 16½ by 22½"),
        (INCHES + PLAIN, "top 16½ by 22½ with seam allowance, 16 by 22 finished"),
        (METRIC + CENTIMETRES, "top 49 by 69 with seam allowance, bound 49 by 69"),
        (INCHES + OFF, "top about 12½ by 18 ⁹⁄₁₆ with seam allowance, bound about 12½ by 18 ⁹⁄₁₆"),
    ],
)
def test_both_sizes_stand_at_the_head_and_at_the_steps(text: str, told: str) -> None:
    written = files(text)
    for path in ("pattern.html", "pattern.md"):
        page = written[path].replace("\u202f", " ")
        assert page.count(told) == page.count(f"T{told[1:]}.") == 1, path
    head, steps = written["pattern.md"].split("## Materials")
    assert f"**Mat, {told}**" in head and f"\nT{told[1:]}.\n" in steps


def test_the_data_has_the_size_when_it_is_bound() -> None:
    (mat,) = json.loads(files(INCHES + BOUND)["plan.json"])["units"]
    assert mat["bound"] == mat["unfinished"] == {
        "width": {"exact": "33/2", "ruler": "16 1/2"},
        "height": {"exact": "45/2", "ruler": "22 1/2"},
    }
    assert mat["finished"]["width"]["exact"] == "16"
    (mat,) = json.loads(files(INCHES + PLAIN)["plan.json"])["units"]
    assert mat["bound"] is None


def test_the_picture_shows_the_binding_and_the_bound_size() -> None:
    compiled = compile_source(INCHES.replace("fabric dusk", "fabric dusk\nfabric clay") + BOUND[:-5] + "clay\n")
    assert compiled.plan is not None, compiled.diagnostics
    (mat,) = compiled.plan.units
    assert mat.fabrics == ("sand", "dusk", "clay")
    for figure in (mat.coloured, mat.uncoloured):
        assert figure is not None and figure.description.startswith("The finished mat, 16½ by 22½")
        (panel,) = figure.panels
        (binding,) = (cloth for cloth in panel.cloth if cloth.fabric == "clay")
        assert box(binding.outline) == box(panel.clip) == (16.5, 22.5)
        assert box(binding.holes[0]) == (16, 22)
        assert sorted(one.text for one in panel.dimensions) == ["16½", "22½"]
    assert mat.coloured is not None and mat.coloured.description.endswith("in sand, dusk and clay.")
    assert mat.coloured.panels[0].words == "Finished size, bound"


def test_no_seam_of_the_top_is_drawn_over_the_binding() -> None:
    halves = "quilt mat\n    rectangle 8 1/2 by 12 1/2 of sand\n    join rectangle 8 1/2 by 12 1/2 of dusk on right\n"
    compiled = compile_source(INCHES + halves + "    bind 2 1/4 of dusk\n")
    assert compiled.plan is not None and compiled.plan.units[0].coloured is not None
    (panel,) = compiled.plan.units[0].coloured.panels
    inside = next(cloth.holes[0] for cloth in panel.cloth if cloth.holes)
    seams = [stroke.points for stroke in panel.strokes if stroke.role == "seam" and len(stroke.points) == 2]
    upright = [line for line in seams if line[0][0] == line[1][0]]
    assert len(upright) == 1 and len(seams) == 5  # one seam and four mitres
    assert {y for _, y in upright[0]} == {min(y for _, y in inside), max(y for _, y in inside)}


def box(outline: tuple[tuple[float, float], ...]) -> tuple[float, float]:
    xs, ys = zip(*outline, strict=True)
    return max(xs) - min(xs), max(ys) - min(ys)
