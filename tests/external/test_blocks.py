"""Blocks: how many patches, what each finished patch measures, and that printed sizes close."""

from __future__ import annotations

from external.harness import TRIANGLES, cuts, patch_areas, planned, refused, sewn, size, words
from external.rows import row, rows
from piecewright.exact import Exact

# Every block below is made at its exact sizes from a finished grid unit `g`.
UNITS = (
    TRIANGLES
    + """
unit hs (g)
    take half-square(g + 2 * seam + diagonal(seam), sand, dusk)

unit glass-half (g)
    take quarter(g + 2 * seam + 2 * diagonal(seam), sand)
    join left of quarter(g + 2 * seam + 2 * diagonal(seam), dusk) on right

unit glass (g)
    take glass-half(g)
    join long-edge of glass-half(g) on long-edge, press open

unit goose (g)
    take quarter(2 * g + 2 * seam + 2 * diagonal(seam), sand)
    join long-edge of half(g + 2 * seam + diagonal(seam), dusk) on left
    join long-edge of half(g + 2 * seam + diagonal(seam), dusk) on right

unit bar (g)
    rectangle g + 1/2 by g / 2 + 1/2 of sand
    join rectangle g + 1/2 by g / 2 + 1/2 of dusk on bottom

unit claws (g, across, down)
    lay across by down
        | hs(g)

unit paw (g)
    lay
        square g + 1/2 of sand | claws(g, 2, 1)
        claws(g, 1, 2) | square 2 * g + 1/2 of dusk

block four-patch (g)
    lay
        square g + 1/2 of sand | square g + 1/2 of dusk
        square g + 1/2 of dusk | square g + 1/2 of sand

block nine-patch (g)
    light is square g + 1/2 of sand
    dark is square g + 1/2 of dusk
    lay
        dark | light | dark
        light | dark | light
        dark | light | dark

block friendship-star (g)
    corner is square g + 1/2 of sand
    blade is hs(g)
    lay
        corner | blade turned right | corner
        blade | square g + 1/2 of dusk | blade turned around
        corner | blade turned left | corner

block churn-dash (g)
    elbow is hs(g)
    lay
        elbow turned right | bar(g) | elbow turned around
        bar(g) turned left | square g + 1/2 of sand | bar(g) turned right
        elbow | bar(g) turned around | elbow turned left

block hourglass-star (g)
    corner is square g + 1/2 of sand
    lay
        corner | glass(g) | corner
        glass(g) turned right | square g + 1/2 of dusk | glass(g) turned right
        corner | glass(g) | corner

block sawtooth-star (g)
    corner is square g + 1/2 of sand
    geese is goose(g)
    lay
        corner | geese turned around | corner
        geese turned right | square 2 * g + 1/2 of dusk | geese turned left
        corner | geese | corner

block bears-paw (g)
    upright is rectangle g + 1/2 by 3 * g + 1/2 of sand
    level is rectangle 3 * g + 1/2 by g + 1/2 of sand
    lay
        paw(g) | upright | paw(g) turned right
        level | square g + 1/2 of dusk | level
        paw(g) turned left | upright | paw(g) turned around

block pinwheel (g)
    blade is hs(g)
    lay
        blade | blade turned right
        blade turned left | blade turned around

block rail-fence (g)
    rectangle 3 * g + 1/2 by g + 1/2 of sand
    join rectangle 3 * g + 1/2 by g + 1/2 of clay on bottom
    join rectangle 3 * g + 1/2 by g + 1/2 of dusk on bottom

block log-cabin (g, rounds 3)
    square g + 1/2 of clay
    repeat rounds
        border g + 1/2 of sand on top and right
        border g + 1/2 of dusk on bottom and left

block square-in-square (g)
    square diagonal(g) + 2 * seam of dusk
    join long-edge of half(g + 2 * seam + diagonal(seam), sand) on left and right
    join long-edge of half(g + 2 * seam + diagonal(seam), sand) on top and bottom
    turn 45 right

block hourglass (g)
    take glass(g)

block geese (g)
    take goose(g)
"""
)


def made(name: str, g: str) -> str:
    return UNITS + f"\nmake 1 of {name}({g})\n"


@rows(
    ("name", "grid", "patches"),
    ("BL-01", "S73 McKim 1931", "four-patch", 2, 4),
    ("BL-02", "S03 2019; S71 Webster 1915 names it", "nine-patch", 3, 9),
    ("BL-04", "S03 2013; S54", "friendship-star", 3, 13),
    ("BL-05", "S03 2013", "churn-dash", 3, 17),
    ("BL-06", "S53; S03 2017; S72", "hourglass-star", 3, 21),
    ("BL-07", "S57; S58; S59; S72", "sawtooth-star", 4, 17),
    ("BL-08", "S03; S71 names Bear's Paws", "bears-paw", 7, 45),
    ("BL-10", "S80 (6 in pinwheel = four 3 in HST)", "pinwheel", 2, 8),
    ("BL-11", "S03", "rail-fence", 3, 3),
    ("BL-12", "S03; S71 shows an American log cabin", "log-cabin", 7, 13),
    ("BL-13", "S03 (hourglass block inside Ohio star)", "hourglass", 1, 4),
    ("BL-14", "S12; S58", "geese", 2, 3),
    ("BL-18", "S30", "square-in-square", 2, 5),
)
def test_patches_of_a_block(name: str, grid: int, patches: int) -> None:
    body = made(name, "1")
    plan = planned(body)
    unit = sewn(body, name)
    assert len(unit.patches) == patches
    across = str(grid)
    down = "1" if name == "geese" else across
    assert size(plan, name, finished=True) == (across, down)
    areas = patch_areas(unit)
    assert sum((sum(each, Exact(0)) for each in areas.values()), Exact(0)) == grid * int(down)


def test_a_third_of_a_friendship_star_is_star() -> None:
    areas = patch_areas(sewn(made("friendship-star", "2"), "friendship-star"))
    assert sum(areas["dusk"], Exact(0)) == 12


def test_a_cabin_of_five_rounds_has_21_patches() -> None:
    body = made("log-cabin", "1").replace("log-cabin(1)", "log-cabin(1, rounds 5)")
    assert len(sewn(body, "log-cabin").patches) == 21


@rows(
    ("name", "g", "total", "pieces"),
    ("AR-01", "S03 2013", "churn-dash", "2", "36", {"2": 16, "4": 1}),
    ("AR-03", "S03 2017", "hourglass-star", "3 1/2", "441/4", {"49/4": 5, "49/16": 16}),
    ("AR-06", "S03 2013", "friendship-star", "2", "36", {"2": 8, "4": 5}),
    ("AR-10", "S57 2009; S59 2009", "sawtooth-star", "1 1/2", "36", {"9": 1, "9/4": 8, "9/8": 8}),
)
def test_finished_areas(name: str, g: str, total: str, pieces: dict[str, int]) -> None:
    areas = [area for each in patch_areas(sewn(made(name, g), name)).values() for area in each]
    assert {str(area): areas.count(area) for area in areas} == pieces
    assert str(sum(areas, Exact(0))) == total


BEAR_TRACKS = """
unit track
    lay
        square 2 + 1/2 of sand | claws(2, 2, 1)
        claws(2, 1, 2) | square 4 + 1/2 of dusk

block bear-tracks
    lay
        track | track turned right
        track turned left | track turned around
    expect 12 by 12, finished
make 1 of bear-tracks
"""


@row("AR-05", "S03")
def test_finished_areas_of_bear_tracks() -> None:
    areas = [area for each in patch_areas(sewn(UNITS + BEAR_TRACKS, "bear-tracks")).values() for area in each]
    assert {str(area): areas.count(area) for area in areas} == {"2": 32, "4": 4, "16": 4}
    assert sum(areas, Exact(0)) == 144


PINWHEEL_STAR = """
unit wheel-half
    take quarter(3 + 2 * seam + 2 * diagonal(seam), sand)
    join left of quarter(3 + 2 * seam + 2 * diagonal(seam), clay) on right

unit wheel
    take wheel-half
    join long-edge of half(3 + 2 * seam + diagonal(seam), dusk) on long-edge

unit point
    take quarter(6 + 2 * seam + 2 * diagonal(seam), sand)
    join long-edge of half(3 + 2 * seam + diagonal(seam), dusk) on left
    join long-edge of half(3 + 2 * seam + diagonal(seam), dusk) on right
    expect 6 1/2 by 3 1/2

unit middle
    lay
        wheel | wheel turned right
        wheel turned left | wheel turned around

block pinwheel-star
    corner is square 3 1/2 of sand
    lay
        corner | point turned around | corner
        point turned right | middle | point turned left
        corner | point | corner
    expect 12 by 12, finished
make 1 of pinwheel-star
"""


@row("AR-07", "S03 2019")
def test_finished_areas_of_the_pinwheel_star() -> None:
    body = TRIANGLES + PINWHEEL_STAR
    areas = [area for each in patch_areas(sewn(body, "pinwheel-star")).values() for area in each]
    assert {str(area): areas.count(area) for area in areas} == {"9": 8, "9/4": 8, "9/2": 12}
    assert sum(areas, Exact(0)) == 144


@row("BL-UNEVEN2", "S52 guild")
def test_the_bears_paw_on_an_uneven_grid_closes_at_12() -> None:
    plan = planned(
        TRIANGLES
        + """
unit claw
    take half-square(2 5/8, sand, dusk)
    trim to 2 1/4 by 2 1/4, seam on diagonal

unit claws (across, down)
    lay across by down
        | claw

unit paw
    lay
        square 2 1/4 of sand | claws(2, 1)
        claws(1, 2) | square 4 of dusk
    expect 5 1/4 by 5 1/4, finished

block bears-paw
    upright is rectangle 2 by 5 3/4 of sand
    level is rectangle 5 3/4 by 2 of sand
    lay
        paw | upright | paw turned right
        level | square 2 of dusk | level
        paw turned left | upright | paw turned around
    expect 12 by 12, finished
make 1 of bears-paw
"""
    )
    assert cuts(plan, "dusk")[("21/8", "21/8")] == 8  # sixteen claws, two from each pair of squares
    even = planned(made("bears-paw", "12 / 7"))
    assert size(even, "bears-paw", finished=True) == ("12", "12")  # another draft of the same block and size


@row("BL-BAD", "S55")
def test_the_star_claimed_to_finish_7_finishes_8() -> None:
    body = (
        TRIANGLES
        + """
unit points
    blade is half-square(2 + 2 * seam + diagonal(seam), sand, dusk)
    lay
        blade | blade turned {turn}

block star
    corner is square 2 1/2 of sand
    lay
        corner | points | corner
        points turned left | square 4 1/2 of dusk | points turned right
        corner | points turned around | corner
    expect {claim} by {claim}, finished
make 1 of star
""".replace("{turn}", "right")
    )
    planned(body.format(claim="8"))
    found = refused(body.format(claim="7"))
    assert found.code.startswith("E4")
    assert "8 by 8, not 7 by 7: 1 more" in words(found)


@row("BL-churn12", "S65 2022")
def test_the_churn_dash_of_12_from_oversize_triangles() -> None:
    """With `margin 0`, so that a set is as long as its segments; with the usual 1/2 in for squaring its end it takes
    all of the printed 18 1/2."""
    plan = planned(
        TRIANGLES
        + """
unit elbow
    take half-square(5, sand, dusk)
    trim to 4 1/2 by 4 1/2, seam on diagonal

unit bars
    strip 2 1/2 of sand
    join strip 2 1/2 of dusk on bottom
    subcut 4 1/2
    expect 4 1/2 by 4 1/2

block churn-dash
    lay
        elbow turned right | bars | elbow turned around
        bars turned left | square 4 1/2 of sand | bars turned right
        elbow | bars turned around | elbow turned left
    expect 12 by 12, finished
make 1 of churn-dash
"""
    )
    assert cuts(plan)[("5", "5")] == 4
    # four segments of 4 1/2 take 18 of the printed 18 1/2
    assert cuts(plan, "dusk")[("5/2", "18")] == 1
