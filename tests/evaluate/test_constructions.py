"""Every construction of the trade that can be said is made, with all it expects."""

from __future__ import annotations

from evaluate.constructions import parsed, sayable
from piecewright.evaluate.run import evaluate
from piecewright.kernel.build import Build, Made, Piece
from piecewright.kernel.measure import height, in_balance, width

NAMES = (
    "framed",
    "half-framed",
    "half-plain",
    "lantern",
    "half-square",
    "half-square-by-four",
    "half-square-by-eight",
    "goose",
    "goose-body",
    "goose-wing",
    "goose-pieced",
    "goose-by-four",
    "hourglass-half",
    "hourglass",
    "snowball",
    "pinwheel",
    "sawtooth-star",
    "friendship-star",
    "hourglass-star",
    "churn-dash",
    "claws",
    "paw",
    "bears-paw",
    "tip",
    "nested",
    "band",
    "nine-patch",
    "rails",
    "rail-fence",
    "checks",
    "checkerboard",
    "curved-cabin",
    "faded-cabin",
    "courthouse",
    "dash",
    "half-rectangle",
    "leaf",
    "sprig",
    "star-side",
    "plume",
    "herringbone",
    "spike",
    "spike-row",
    "half-hexagon",
    "hexagon-row",
    "ray",
    "ray-pair",
    "half-star",
    "eight-star",
    "ray-row",
    "big-ray",
    "pathway",
    "braid",
    "slashed",
    "crossed",
    "striped",
    "zigzag",
    "quartered",
    "scattered",
    "scrappy-nine",
    "all-scraps",
    "double-stripe",
    "rail-strip",
    "coped",
    *(QUILTS := ("duet", "windows", "lattice", "sampler", "mitre", "garden")),
)


def built() -> Build:
    definitions, makes, heading = sayable()
    text = "".join([*heading, *definitions.values(), *makes, "\nmake 24 of lantern(dusk, glow)\n"])
    build, diagnostics = evaluate(parsed(text), lambda name, span: ())
    # some of them are trimmed to the last thread, which is told
    assert [f"{one.span.line}: {one.message}" for one in diagnostics if one.severity == "error"] == []
    assert build is not None
    return build


def test_these_can_be_said() -> None:
    said = sayable()[0]
    assert [name for name in NAMES if name not in said] == []


def test_all_that_can_be_said_is_made() -> None:
    build = built()
    made = {one.name for one in build.made}
    assert len(build.demands) == len(sayable()[1]) + 1 + len(QUILTS)
    assert {"narrow", "wide", "low-stripe", "high-stripe"} <= made
    assert made.isdisjoint({"slashed", "striped"})  # the four above are their parts
    assert {name for name in NAMES if name not in made} == {"slashed", "striped"}


def test_the_cloth_of_everything_made_is_in_balance() -> None:
    for one in built().made:
        assert in_balance(one.unit), one.key


def test_sizes() -> None:
    sizes = {one.key: (str(width(one.unit)), str(height(one.unit)), one.copies) for one in built().made}
    assert sizes["lantern(dusk, glow)"] == ("8", "8", 1)
    assert sizes["duet"] == ("115/2", "81/2", 1)
    assert sizes["windows"] == ("21/2 + 36*sqrt(2)", "21/2 + 48*sqrt(2)", 1)
    assert sizes["sampler"] == ("95/2", "95/2", 1)
    assert sizes["mitre"] == ("59/2", "59/2", 1)
    assert sizes["garden"] == ("21", "21", 1)
    assert sizes["bears-paw(sand, clay)"] == ("29/2", "29/2", 1)
    assert sizes["nine-patch(sand, dusk)"] == ("13/2", "13/2", 1)
    assert sizes["curved-cabin(glow, sand, dusk, 5)"] == ("12", "12", 1)
    assert sizes["spike-row(sand, dusk)"] == ("13", "7/2", 1)
    assert sizes["eight-star(dusk, glow, sand)"] == ("81/8", "81/8", 1)
    assert sizes["pathway(glow, sand, dusk)"] == ("17/2", "17/2", 1)
    assert sizes["big-ray(dusk, glow, sand)"] == ("5 + 5*sqrt(2)", "5", 1)
    assert sizes["quartered(sand, dusk)"][2] == 4
    assert sizes["half-square-by-eight(3, sand, dusk)"] == ("7/2", "7/2", 8)
    assert sizes["goose-by-four(2, sand, dusk)"] == ("9/2", "5/2", 4)
    assert sizes["hourglass(4, sand, dusk)"] == ("9/2", "9/2", 2)
    assert sizes["snowball(6, 2, sand, dusk)"] == ("13/2", "13/2", 1)
    assert sizes["sawtooth-star(sand, dusk, 12)"] == ("25/2", "25/2", 1)
    assert sizes["coped(nine-patch(sand, dusk), clay, 12)"] == ("25/2", "25/2", 1)


def test_scraps_are_of_chosen_prints_and_of_any() -> None:
    build = built()
    made = {one.key: one for one in build.made}
    assert [demand.count for demand in build.demands if demand.key == "scrappy-nine"] == [20]
    assert made["scrappy-nine"].chosen == ("lights/light", "darks/dark")
    assert _fabrics(made["scrappy-nine"]) == {"lights/light": 4, "darks/dark": 5}
    assert _fabrics(made["all-scraps"]) == {"lights": 8, "darks": 8}
    assert {"lights", "darks"} <= _fabrics(made["faded-cabin(glow, sand, lights, dusk, darks)"]).keys()


def _fabrics(made: Made) -> dict[str, int]:
    """How many pieces of each fabric one run takes."""
    found: dict[str, int] = {}
    for supply in made.supplies:
        assert isinstance(supply.source, Piece)
        found[supply.source.fabric] = found.get(supply.source.fabric, 0) + supply.count
    return found


def test_saying_which_part_is_kept_changes_no_construction() -> None:
    """The part that lies lowest, and of equally low ones leftmost, is told by its place."""
    told = {
        "cut once on diagonal": "keep bottom-left",
        "cut once on rising-diagonal": "keep bottom-right",
        "cut twice on diagonal": "keep bottom",
        "cut 3 from left": "keep left",
        "cut from top-middle to bottom-middle": "keep left",
        "cut from left-middle to right-middle": "keep bottom",
    }
    definitions, makes, heading = sayable()
    text = "".join([*heading, *definitions.values(), *makes])
    lines = []
    for line in text.splitlines():
        keep = next((place for cut, place in told.items() if line.strip().startswith(cut)), None)
        lines.append(line if keep is None else f"{line}, {keep}")
    said = "\n".join(lines) + "\n"
    assert said.count(", keep ") >= 10
    before, _ = evaluate(parsed(text), lambda name, span: ())
    after, found = evaluate(parsed(said), lambda name, span: ())
    assert before is not None and after is not None, [one.message for one in found]
    assert [(one.key, one.unit) for one in before.made] == [(one.key, one.unit) for one in after.made]
