"""Five hundred random quilts, finished by hand: never too little cloth, and never more than a step above the least."""

from __future__ import annotations

import re
from fractions import Fraction
from itertools import islice
from math import ceil
from random import Random

import pytest
from finishing import hand, quilts, read
from finishing.hand import HAIR
from finishing.quilts import Quilt
from finishing.read import SIZE, Printed, exact, printed, ruler, shown

PLAIN = [quilts.plain(rng) for rng in (Random(f"plain {n}") for n in range(340))]
ON_POINT = [quilts.on_point(rng) for rng in (Random(f"point {n}") for n in range(50))]
SETS = [quilts.strip_set(rng) for rng in (Random(f"set {n}") for n in range(110))]
PARTS = 10
AT_MOST = 3  # pieces that a narrow last panel is sewn of


@pytest.mark.parametrize("part", range(PARTS))
def test_backings_and_bindings(part: int) -> None:
    count = 0
    for quilt in islice(PLAIN, part, None, PARTS):
        made = printed(quilt.text)
        _backed(quilt, made)
        (_bias if quilt.join == "bias" else _bound)(quilt, made)
        count += 1
    assert count == len(PLAIN) // PARTS


def _bound(quilt: Quilt, made: Printed) -> None:
    wanted = quilt.around + quilt.extra
    loss = quilt.seam * 2 if quilt.join == "straight" else quilt.width
    cut = made.cuts("edge")
    lengths = [ruler(one["height"]) for one in cut for _ in range(one["count"])]
    assert all(ruler(one["width"]) - quilt.mark < quilt.width <= ruler(one["width"]) for one in cut)
    assert max(lengths) <= quilt.usable
    assert len(lengths) == 1 or min(lengths) >= quilt.usable / 8 - quilt.mark
    assert hand.joined(lengths, loss) >= wanted
    least = hand.fewest(wanted, quilt.usable, loss)
    assert len(lengths) == least or hand.joined([quilt.usable - quilt.mark] * least, loss) < wanted
    across = ceil(quilt.width / quilt.mark) * quilt.mark
    assert hand.bought(least * quilt.width, quilt.step) <= _steps(quilt, made, "edge")
    assert _steps(quilt, made, "edge") <= hand.bought(least * across, quilt.step) + 1
    step = made.step("Join the|The binding is one")
    told = re.search(rf"Join the (\d+) edge strips {SIZE} end|one edge strip {SIZE}\.", step["text"])
    assert told and int(told[1] or 1) == len(lengths) and shown(told[2] or told[3]) == quilt.width
    assert _told_round(quilt, step)
    joins = re.search(rf"(\d+) joins?, each of which takes up {SIZE}\.", " ".join(step["details"]))
    assert (joins is None) == (len(lengths) == 1)
    assert joins is None or (int(joins[1]), shown(joins[2])) == (len(lengths) - 1, loss)


def _bias(quilt: Quilt, made: Printed) -> None:
    wanted = quilt.around + quilt.extra
    (square,) = made.cuts("edge")
    side = exact(square["width"])
    assert square["shape"] == "square" and square["count"] == 1 and side.denominator == 1
    step = made.step("Cut the edge square")
    told = re.search(
        rf"gives (\d+) whole bands, each at least {SIZE} of strip when it is sewn: at least {SIZE}\.",
        " ".join(step["details"]),
    )
    assert told and _told_round(quilt, step) and f"for {told[1]} whole bands" in step["text"]
    laid = hand.tube(side, quilt.width, quilt.seam, quilt.seam)
    assert laid.bands == int(told[1]) >= 2
    for out in (quilt.seam, quilt.seam * 3 / 2, quilt.seam * 2):  # as the halves are laid, and a little or too far out
        real = hand.tube(side, quilt.width, quilt.seam, out)
        assert real.bands >= laid.bands and real.strip >= shown(told[3]) >= wanted and real.each >= shown(told[2])
    smaller = hand.tube(side - 1, quilt.width, quilt.seam, quilt.seam)
    out = hand.tube(side - 1, quilt.width, quilt.seam, quilt.seam * 2)
    assert smaller.bands < 2 or out.each * smaller.bands < wanted
    least = hand.least_square(wanted, quilt.width, quilt.seam)
    assert least <= side
    assert _steps(quilt, made, "edge") <= hand.bought(Fraction(least), quilt.step) + 1


def _told_round(quilt: Quilt, step: dict[str, list[str]]) -> bool:
    told = re.match(rf"The strip must be {SIZE} long: {SIZE} round the quilt, and {SIZE} for", step["details"][0])
    assert told is not None, step["details"]
    long, once, more = map(shown, told.groups())
    mark = quilt.mark
    return 0 <= long - quilt.around - quilt.extra < mark and 0 <= once - quilt.around < mark and more == quilt.extra


def _backed(quilt: Quilt, made: Printed) -> None:
    across, down = quilt.across + quilt.beyond * 2, quilt.down + quilt.beyond * 2
    step = made.step("Sew the .* panels|The backing is")
    told = read.backing(step["text"])
    # what is listed is what is told, and lies so in the plan
    cut = {(ruler(one["width"]), ruler(one["height"])): one["count"] for one in made.cuts("backing")}
    assert cut == told.panels, (quilt.text, step["text"])
    rows = {n: one for n, one in enumerate(made.data["cuts"]) if one["fabric"] == "backing"}
    planned = dict.fromkeys(cut, 0)
    for strip in made.data["strips"]:
        if strip["fabric"] == "backing":
            for piece in strip["pieces"]:
                key = ruler(rows[piece["cut"]]["width"]), ruler(rows[piece["cut"]]["height"])
                planned[key] += piece["count"]
                assert ruler(strip["height"]) >= key[1], (quilt.text, strip["text"])  # along the selvages, not turned
    assert planned == cut
    assert all(f"{one['label'].rsplit('; ', 1)[1]}".endswith("along the selvage") for one in rows.values())
    # what is drawn is what is told
    upright = _drawn(quilt, made, told, (across, down))
    assert upright or not quilt.directional
    # sewn, it is large enough, and hardly larger
    side, along = (across, down) if upright else (down, across)
    wide = hand.joined(told.widths, quilt.seam * 2)
    long = hand.joined([told.piece] * told.pieces, quilt.seam * 2)
    assert 0 <= wide - side <= quilt.mark * len(told.widths) and max(told.along, long) >= along, quilt.text
    assert 0 <= long - along <= quilt.mark * (told.pieces + 1) and max(told.widths) <= quilt.usable
    # least is bought, then fewest seams
    usable = quilt.usable // quilt.mark * quilt.mark
    upright = quilt.directional
    steps, seams = hand.least_backing(across, down, usable, quilt.seam, quilt.step, upright=upright, at_most=AT_MOST)
    own = len(told.widths) - 1 + told.pieces - 1
    assert told.pieces <= AT_MOST, quilt.text
    assert steps <= _steps(quilt, made, "backing") <= steps + 1, quilt.text
    assert _steps(quilt, made, "backing") > steps or own <= seams, quilt.text
    # and what is claimed of any piecing
    bound = exact(made.cutting("backing")["any_bound"])
    assert bound <= hand.bought(across * down / quilt.usable, quilt.step) * quilt.step, quilt.text
    _batting(quilt, step["details"], (across, down))


def test_what_it_costs_to_sew_the_last_panel_of_few_pieces() -> None:
    """Against pieces without number. Of these 340 backings, of tops of any proportion, 238 buy no more with at most
    three; 47 one step more (1/8 yd or 10 cm), 28 two, 27 three to seven. Without a limit 102 of them would have a panel
    of more than three pieces, and 58 one of more than five, up to 46."""
    more: dict[int, int] = {}
    for quilt in PLAIN:
        sides = quilt.across + quilt.beyond * 2, quilt.down + quilt.beyond * 2
        usable = quilt.usable // quilt.mark * quilt.mark
        any_, few = (
            hand.least_backing(*sides, usable, quilt.seam, quilt.step, upright=quilt.directional, at_most=most)[0]
            for most in (None, AT_MOST)
        )
        more[few - any_] = more.get(few - any_, 0) + 1
    assert dict(sorted(more.items())) == {0: 238, 1: 47, 2: 28, 3: 8, 4: 7, 5: 4, 6: 6, 7: 2}


def _drawn(quilt: Quilt, made: Printed, told: read.Backing, whole: tuple[Fraction, Fraction]) -> bool:
    """Whether the selvages run up and down in the figure; it has the seams that are told."""
    (panel,) = (
        figure.panels[0]
        for figure in made.figures.values()
        if any(arrow.role == "grain" for arrow in figure.panels[0].arrows) and len(figure.panels) == 2
    )
    (grain,) = (arrow for arrow in panel.arrows if arrow.role == "grain")
    upright = bool(grain.start[0] == grain.end[0])
    assert told.upright == upright, quilt.text
    inch = 2.54 if quilt.metric else 1.0
    wide, tall = (float(side) / inch for side in whole)
    seams = [stroke.points for stroke in panel.strokes if stroke.role == "seam"]
    # as if the selvages ran up and down, the first panel at the left
    if not upright:
        seams = [tuple((tall - y, x) for x, y in points) for points in seams]
        wide, tall = tall, wide
    long = sorted(points[0][0] for points in seams if points[0][0] == points[1][0])
    short = sorted(points[0][1] for points in seams if points[0][1] == points[1][1])
    assert len(long) + len(short) == len(seams)
    assert (len(long), len(short)) == (len(told.widths) - 1, told.pieces - 1), quilt.text
    slack = float(quilt.mark) / inch + 1e-3
    for number, at in enumerate(long, 1):
        reach = hand.joined(told.widths[:number], quilt.seam * 2) - quilt.seam
        assert abs(at - float(reach) / inch) < slack
    for number, at in enumerate(short, 1):
        reach = hand.joined([told.piece] * number, quilt.seam * 2) - quilt.seam
        assert abs(at - float(reach) / inch) < slack
    return upright


SOLD = {"crib": (45, 60), "twin": (72, 90), "full": (81, 96), "queen": (90, 108), "king": (120, 120)}


def _batting(quilt: Quilt, details: list[str], whole: tuple[Fraction, Fraction]) -> None:
    told = re.match(rf"Backing and batting: {SIZE} by {SIZE} each, {SIZE} beyond the top on every side\.", details[0])
    assert told is not None, details
    for said, side in zip(told.groups(), whole, strict=False):
        assert 0 <= shown(said) - side < quilt.mark, quilt.text
    assert shown(told[3]) == quilt.beyond
    fits = [
        name for name, (one, other) in SOLD.items() if min(whole) <= one and max(whole) <= other and not quilt.metric
    ]
    sold = [match for line in details if (match := re.match(r"A batting sold as (\w+), (\d+) by (\d+), is", line))]
    assert [(one[1], int(one[2]), int(one[3])) for one in sold] == [(fits[0], *SOLD[fits[0]])] if fits else not sold


def _steps(quilt: Quilt, made: Printed, fabric: str) -> int:
    steps = made.bought(fabric) / quilt.step
    assert steps.denominator == 1
    return int(steps)


@pytest.mark.parametrize("part", range(PARTS // 2))
def test_triangles_on_point(part: int) -> None:
    count = 0
    for quilt in islice(ON_POINT, part, None, PARTS // 2):
        made = printed(quilt.text)
        columns, rows = int(quilt.across), int(quilt.down)
        block = quilt.block - quilt.seam * 2
        needed = 2 * (columns - 1) + 2 * (rows - 1)
        # the add-ons of the trade are 1 1/4 and 7/8 in for 1/4 in of seam, with 1.414 for the root
        most = block * Fraction(1414, 1000) + quilt.seam * 5, block / Fraction(1414, 1000) + quilt.seam * Fraction(7, 2)
        for fabric, least, common, number in (
            ("side", hand.side_square(block, quilt.seam, quilt.beyond), most[0], -(-needed // 4)),
            ("corner", hand.corner_square(block, quilt.seam, quilt.beyond), most[1], 2),
        ):
            (cut,) = made.cuts(fabric)
            assert cut["shape"] == "square" and cut["count"] == number, quilt.text
            size = ruler(cut["width"])
            assert least - HAIR <= size < max(least, common + quilt.beyond * 2) + quilt.mark, quilt.text
            text = " ".join(step["text"] for step in made.data["steps"])
            told = re.search(rf"(\d+) {fabric} squares? {SIZE}", text)
            assert told and int(told[1]) == number and shown(told[2]) == size, text
        count += 1
    assert count == len(ON_POINT) // (PARTS // 2)


ROOM = {False: Fraction(1, 2), True: Fraction(1)}  # for squaring the end of a set, at most


@pytest.mark.parametrize("part", range(2))
def test_strip_sets(part: int) -> None:
    shorter = count = 0
    for quilt in islice(SETS, part, None, 2):
        made = printed(quilt.text)
        wanted, segment = quilt.sets
        room = ROOM[quilt.metric]
        lengths = [ruler(one["height"]) for one in made.cuts("sand") for _ in range(one["count"])]
        assert lengths == [ruler(one["height"]) for one in made.cuts("dusk") for _ in range(one["count"])]
        assert all(length <= quilt.usable and exact(one["width"]) >= quilt.width for length, one in zip(
            lengths, made.cuts("sand"), strict=False
        ))  # fmt: skip
        gives = [int((length + HAIR) // segment) for length in lengths]
        assert sum(gives) >= wanted, quilt.text
        assert hand.sets(wanted, segment, quilt.usable) <= len(lengths), quilt.text
        assert len(lengths) <= hand.sets(wanted, segment, quilt.usable - room), quilt.text
        last, full = min(lengths), max(gives)
        rest = wanted - full * (len(lengths) - 1)
        assert rest > 0 and 0 <= last - rest * segment < room + quilt.mark, quilt.text
        shorter += rest < full
        (unit,) = (one for one in made.data["units"] if one["name"] == "rail")
        told = re.search(rf"(\d+) full strip sets?|one (?:strip set )?{SIZE} long|: (\d+) segments?\.", unit["work"])
        assert told and re.search(rf": {wanted} segments?\.", unit["work"]), unit["work"]
        for fabric in ("sand", "dusk"):
            across = ceil(quilt.width / quilt.mark) * quilt.mark
            least = hand.sets(wanted, segment, quilt.usable) * quilt.width
            most = hand.bought(len(lengths) * across, quilt.step)
            assert hand.bought(least, quilt.step) <= _steps(quilt, made, fabric) <= most + 1, quilt.text
        count += 1
    assert count == len(SETS) // 2 and shorter


def test_there_are_five_hundred() -> None:
    every = [*PLAIN, *ON_POINT, *SETS]
    assert len(every) == 500 and 200 < sum(one.metric for one in every) < 300
