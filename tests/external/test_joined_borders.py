"""Borders longer than the cloth, over 500 quilts by chance: what is printed is cut and sewn on paper, with arithmetic
of its own, and what is bought and claimed is held against the least that a search of its own knows.

Common practice, no source: strips of one width are sewn end to end with straight seams, of two allowances each, and all
long borders are cut from the one long strip; or each is joined by itself; or they are cut whole along the selvage.
"""

from __future__ import annotations

import itertools
import json
import re
from collections import Counter
from collections.abc import Iterator, Sequence
from fractions import Fraction
from math import ceil
from random import Random
from typing import Any, NamedTuple

import pytest
from piecewright import compile_source
from piecewright.emit import emit

QUILTS, BATCHES = 500, 10
VULGAR = {
    sign: Fraction(value)
    for sign, value in zip("¼½¾⅓⅔⅛⅜⅝⅞", ("1/4 1/2 3/4 1/3 2/3 1/8 3/8 5/8 7/8").split(" "), strict=True)  # noqa: SIM905
}
SIZE = r"(\d*[¼½¾⅓⅔⅛⅜⅝⅞]|\d+(?:\.\d+)?|\d*[⁰¹²³⁴⁵⁶⁷⁸⁹]+⁄[₀₁₂₃₄₅₆₇₈₉]+)"
PIECES = rf"(?:(\d+) segments? {SIZE} wide, each for )?(\d+) (?:rectangles?|squares?|panels?) {SIZE}( × {SIZE})?"
SEWN = r"Sew (.*) end to end(?: in this order)?, seams pressed open; from the long strip cut (.*)\.$"


class Quilt(NamedTuple):
    """A pattern and what of it the arithmetic needs, in its own units: cloth is bought in steps, `margin` more than is
    cut and so much that washing leaves it."""

    text: str
    seam: Fraction
    usable: Fraction
    step: Fraction
    margin: Fraction
    shrinks: Fraction

    def buy(self, length: Fraction) -> Fraction:
        return ceil((length + self.margin) / (1 - self.shrinks) / self.step) * self.step


def quilt(random: Random) -> Quilt:
    metric = random.random() < 0.4
    if metric:
        unit, seam, usable = Fraction(1, 2), Fraction(3, 4), Fraction(random.choice([104, 107, 110]))
        step, sold = Fraction(10), "by 10 cm"
        top, wide = (110, 230), (5, 20)
    else:
        unit, seam, usable = Fraction(1, 4), Fraction(1, 4), Fraction(random.choice([40, 40, 42]))
        step, sold = Fraction(9, 2), "by 1/8 yard"
        top, wide = (36, 96), (2, 8)
        if random.random() < 0.3:
            step, sold = Fraction(9), "by 1/4 yard"

    def size(low: int, high: int) -> Fraction:
        return unit * random.randint(ceil(low / unit), int(high / unit))

    margin = random.choice([Fraction(0), Fraction(0), Fraction(0), Fraction(3 if metric else 1)])
    shrinks = random.choice([Fraction(0), Fraction(0), Fraction(0), Fraction(1, 20)])
    lines = ['pattern "Landing"']
    lines += ["    units cm", "    seam 0.75"] if metric else []
    dusk = f"fabric dusk, usable {shown(usable)}, margin {shown(margin)}, sold {sold}"
    dusk += f", shrinks {shown(shrinks * 100)} percent" if shrinks else ""
    lines += [f"fabric sand, usable {260 if metric else 108}", dusk, ""]
    if random.random() < 0.04:
        tile, count = size(*wide), random.randint(2, 30)
        lines += ["block tile", f"    square {shown(tile)} of dusk", "", f"make {count} of tile", ""]
    lines += ["quilt landing", f"    rectangle {shown(size(*top))} by {shown(size(*top))} of sand"]
    for _ in range(random.choice([1, 1, 1, 2])):
        lines.append(f"    border {shown(size(*wide))} of dusk{random.choice(['', '', ', posts of sand', ', mitred'])}")
    if random.random() < 0.04:
        lines.append("    back of dusk")
    lines += ["", "make 1 of landing"]
    return Quilt("\n".join(lines) + "\n", seam, usable, step, margin, shrinks)


def shown(size: Fraction) -> str:
    whole, rest = divmod(size, 1)
    if size.denominator in (1, 10, 100):
        return str(whole) if not rest else f"{float(size):g}"
    return f"{whole} {rest}" if whole and rest else str(rest or whole)


def read(text: str) -> Fraction:
    """A size as it is printed."""
    total = Fraction(0)
    if "⁄" in text:
        digits = str.maketrans("⁰¹²³⁴⁵⁶⁷⁸⁹₀₁₂₃₄₅₆₇₈₉", "01234567890123456789")
        top = re.search("[⁰¹²³⁴⁵⁶⁷⁸⁹]+⁄[₀₁₂₃₄₅₆₇₈₉]+", text)
        assert top is not None
        above, below = top[0].translate(digits).split("⁄")
        return Fraction(int(text[: top.start()] or 0)) + Fraction(int(above), int(below))
    if text[-1:] in VULGAR:
        total, text = VULGAR[text[-1]], text[:-1]
    return total + Fraction(text or 0)


class Piece(NamedTuple):
    """A row of the cut list: short side, long side, number, and whether it must lie along the cloth."""

    wide: Fraction
    long: Fraction
    number: int
    along: bool


class Printed(NamedTuple):
    pieces: list[Piece]
    strips: list[dict[str, Any]]
    cutting: dict[str, Any]
    bought: Fraction


def printed(one: Quilt) -> Printed:
    made = compile_source(one.text)
    assert made.plan is not None, (one.text, made.diagnostics)
    document = json.loads(dict(emit(made.plan, ("json",)))["plan.json"])

    def exact(size: dict[str, str]) -> Fraction:
        """As the ruler cuts it."""
        whole, _, part = size["ruler"].partition(" ")
        return Fraction(whole) + Fraction(part or 0)

    pieces = []
    for cut in document["cuts"]:
        if cut["fabric"] == "dusk":
            sides = sorted((exact(cut["width"]), exact(cut["height"])))
            pieces.append(Piece(*sides, cut["count"], cut["shape"] == "panel"))
    (cloth,) = (fabric["cutting"] for fabric in document["fabrics"] if fabric["name"] == "dusk")
    strips = [
        {**strip, "height": exact(strip["height"])} for strip in document["strips"] if strip["fabric"] == "dusk"
    ]
    return Printed(pieces, strips, cloth, exact(cloth["bought"]))


def cut_and_sewn(one: Quilt, plan: Printed) -> None:
    """Cuts the strips as they are printed and sews those that are to be joined: every piece is there, and the cloth
    suffices for it."""
    length, sewn, got = Fraction(0), Counter[tuple[Fraction, Fraction]](), Counter[tuple[Fraction, Fraction]]()
    for strip in plan.strips:
        number, high, text = strip["count"], strip["height"], strip["text"]
        length += number * high
        assert text.startswith(f"Cut {number} strip"), text
        if text.endswith(", to be joined."):
            sewn[high, one.usable] += number
            continue
        along, area = Fraction(0), Fraction(0)
        for count, wide, long in re.findall(rf"(\d+) lengths? {SIZE} × {SIZE} to be joined", text):
            sewn[read(wide), read(long)] += int(count) * number
            area += int(count) * read(long) * read(wide)
            if "segment" not in text:
                along += int(count) * read(long)
        for times, before, count, side, _, other in re.findall(PIECES, text):
            sides = sorted((read(side), read(other) if other else read(side)))
            some = int(count) * int(times or 1)
            got[sides[0], sides[1]] += some * number
            area += some * sides[0] * sides[1]
            if not before and "segment" not in text:
                along += some * (sides[1] if sides[0] == high or sides[1] > high else sides[0])
        assert area <= high * one.usable, text
        assert along <= one.usable, text
    assert one.buy(length) <= plan.bought
    for text in plan.cutting["how"]:
        for width, long, count in joined(one, text, sewn, plan):
            got[width, long] += count
    wanted: Counter[tuple[Fraction, Fraction]] = Counter()
    for piece in plan.pieces:
        wanted[piece.wide, piece.long] += piece.number
    if not any("pieces drawn" in strip["text"] for strip in plan.strips):
        assert got == wanted, one.text
    assert set(sewn.values()) <= {0}, (one.text, sewn)  # so many are cut as are joined


def joined(
    one: Quilt, text: str, sewn: Counter[tuple[Fraction, Fraction]], plan: Printed
) -> Iterator[tuple[Fraction, Fraction, int]]:
    """What one sentence on joining gives; what it takes is taken off the strips that were cut."""
    alone = re.match(rf"Each strip {SIZE} × {SIZE} is joined end to end from (.*)\.$", text)
    if alone:
        wide, long = read(alone[1]), read(alone[2])
        (piece,) = (p for p in plan.pieces if (p.wide, p.long, p.along) == (wide, long, False))
        whole = re.search(r"(\d+) full strip", alone[3])
        number = int(whole[1]) if whole else 0
        rests = [read(size) for size in re.findall(rf"a length of {SIZE}", alone[3])]
        sewn[piece.wide, one.usable] -= number * piece.number
        for rest in rests:
            sewn[piece.wide, rest] -= piece.number
        seams = number + len(rests) - 1
        assert number * one.usable + sum(rests) - 2 * one.seam * seams >= long
        yield piece.wide, long, piece.number
        return
    told = re.match(SEWN, text)
    assert told, text
    width = re.search(rf"{SIZE} wide", told[1])
    number = sum(int(n) for n in re.findall(r"(\d+) (?:more )?strips?", told[1]))
    rests = [read(size) for size in re.findall(rf"a length of {SIZE}", told[1])]
    cut = [(read(long), int(n)) for n, long in re.findall(rf"(\d+) (?:lengths? )?of {SIZE}", told[2])]
    assert width is not None, text
    wide = read(width[1])
    sewn[wide, one.usable] -= number
    for rest in rests:
        sewn[wide, rest] -= 1
    total = number * one.usable + sum(rests) - 2 * one.seam * (number + len(rests) - 1)
    assert total >= sum(long * n for long, n in cut), text
    # no scrap is sewn on where there is another way
    assert all(rest >= one.usable / 8 for rest in rests)
    for long, n in cut:
        yield wide, long, n


def least(one: Quilt, pieces: Sequence[Piece]) -> Fraction:
    """The least length that this search finds: for each row of long pieces the three ways, everything else in strips
    across the cloth, on shelves, the tallest first."""
    best = None
    long = [piece for piece in pieces if piece.long > one.usable and not piece.along]
    rest = [piece for piece in pieces if piece not in long]
    for ways in itertools.product(("together", "apart", "along"), repeat=len(long)):
        boxes: list[tuple[Fraction, Fraction]] = []  # across, down
        pooled: dict[Fraction, Fraction] = {}
        for piece, way in zip(long, ways, strict=True):
            if way == "along":
                boxes += [(piece.wide, piece.long)] * piece.number
            elif way == "together":
                pooled[piece.wide] = pooled.get(piece.wide, Fraction(0)) + piece.long * piece.number
            else:
                for _ in range(piece.number):
                    boxes += [(side, piece.wide) for side in strips_of(one, piece.long)]
        for wide, total in pooled.items():
            boxes += [(side, wide) for side in strips_of(one, total)]
        for piece in rest:
            sides = (piece.wide, piece.long) if piece.along else (piece.long, piece.wide)
            boxes += [sides] * piece.number
        length = shelves(boxes, one.usable)
        best = length if best is None else min(best, length)
    assert best is not None
    return best


def strips_of(one: Quilt, length: Fraction) -> list[Fraction]:
    """The strips that make a length, each seam two allowances; all full but the last."""
    found: list[Fraction] = []
    while length > one.usable:
        found.append(one.usable)
        length -= one.usable - 2 * one.seam
    return [*found, length]


def shelves(boxes: list[tuple[Fraction, Fraction]], width: Fraction) -> Fraction:
    room: list[Fraction] = []
    total = Fraction(0)
    for across, down in sorted(boxes, key=lambda box: (-box[1], -box[0])):
        for at, free in enumerate(room):
            if across <= free:
                room[at] -= across
                break
        else:
            room.append(width - across)
            total += down
    return total


def yards(text: str) -> Fraction:
    """`2⅛ yd` in inches, `130 cm` in centimetres."""
    number, unit = text.split("\u00a0")
    return read(number) * (36 if unit == "yd" else 1)


def claims(one: Quilt, plan: Printed, known: Fraction) -> int:
    """Every sentence that says what no plan does without, against what is bought and a plan that is known; how many
    say that nothing less will do."""
    (text,) = (text for text in plan.cutting["text"] if "needs less" in text)
    for least in re.findall(r"needs less than ([^.;]*\u00a0\w+)", text):
        assert yards(least) <= min(known, plan.bought), (text, one.text)
    if re.match("No (way|plan)", text):
        assert plan.bought <= known, (text, float(known), one.text)
        return 1
    assert text.startswith("A better plan may be found")
    return 0


@pytest.mark.parametrize("batch", range(BATCHES))
def test_borders_of_quilts_by_chance(batch: int) -> None:
    random = Random(f"borders {batch}")
    tried = joins = proved = 0
    for _ in range(QUILTS // BATCHES):
        one = quilt(random)
        plan = printed(one)
        cut_and_sewn(one, plan)
        known = one.buy(least(one, plan.pieces))
        assert plan.bought <= known + one.step, one.text
        proved += claims(one, plan, known)
        joins += bool(plan.cutting["how"])
        tried += 1
    assert tried == QUILTS // BATCHES
    assert joins > tried / 2 and proved > tried / 2


@pytest.mark.parametrize(
    ("top", "border", "bought"), [("56 1/2 by 64 1/2", "4 1/2", "⅞"), ("95 1/2 by 108 1/2", "6 1/2", "2")]
)
def test_seven_strips_make_four_borders(top: str, border: str, bought: str) -> None:
    """By hand: 7 strips of 40 are 280 - 6 / 2 = 277 for 4 times 64 1/2, which is 258; 11 are 435 for 432."""
    text = f"fabric sand, usable 108\nfabric dusk, margin 0\nquilt q\n    rectangle {top} of sand\n"
    plan = compile_source(f"{text}    border {border} of dusk\n").plan
    assert plan is not None
    (cloth,) = (one for one in plan.fabric_cloth if one.fabric == "dusk")
    assert cloth.bought_text == f"{bought}\u00a0yd" and cloth.text[1] == "No way of cutting needs less."
