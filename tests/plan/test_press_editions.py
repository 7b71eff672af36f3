"""Three hundred press editions by chance, each done again from what is printed: dies, rough pieces, folds, layers and
passes are read from the sentences, and nothing is taken from the compiler but plan.json.

The shapes are built here from their names with shapely and plain trigonometry. Which shapes come in two hands, how many
pieces are wanted and what a strip gives are worked out here again.
"""

from __future__ import annotations

import json
import math
import random
import re
import unicodedata
from collections import Counter
from fractions import Fraction
from typing import Any

import pytest
from piecewright import compile_source
from piecewright.diagnostics.model import Diagnostic
from piecewright.emit import emit
from piecewright.pipeline import Cutting
from shapely import affinity
from shapely.geometry import Polygon, box

Wanted = Counter[tuple[str, str, tuple[Fraction, ...], int | None, bool]]
NEAR = 1e-6
SHAPES = ("square", "rectangle", "triangle", "diamond", "parallelogram", "trapezoid", "strip")


# ── editions by chance ──────────────────────────────────────────────────────────────────────────


class Edition:
    """The text of a press edition, and what it asks for: of each fabric, shape, sizes, angle and hand how many."""

    def __init__(self, seed: int) -> None:
        self.chance = random.Random(seed)
        self.metric = self.chance.random() < 0.3
        self.layers = self.chance.choice((1, 2, 3, 4, 5, 6, 6, 8, 12))
        self.leeway = self.size(Fraction(1, 8), Fraction(1, 2), Fraction(1, 8))
        self.mark = Fraction(1, 10) if self.metric else Fraction(1, 8)
        self.wanted: Wanted = Counter()
        self.directional: set[str] = set()
        self.dies: dict[str, None] = {}
        self.body: list[str] = []
        self.makes: list[str] = []
        self.fabrics = [self._fabric(name) for name in ("sand", "dusk")[: self.chance.choice((1, 1, 2))]]
        for number in range(self.chance.choice((1, 1, 2, 2, 3))):
            self._unit(number)
        self.found: tuple[Diagnostic, ...] = ()
        self.kits = self.chance.choice((1,) * 9 + (4,))

    def size(self, low: Fraction, high: Fraction, step: Fraction) -> Fraction:
        """A length of the trade, in the pattern's units: centimetres are about two and a half times as many."""
        length = low + step * self.chance.randint(0, int((high - low) / step))
        return Fraction(round(length * 25), 10) if self.metric else length

    def text(self) -> str:
        units = "    units cm\n    seam 0.6\n    sold by 100 cm\n" if self.metric else "    sold by 1 yard\n"
        cutter = f"cutter press, layers {self.layers}, leeway {written(self.leeway)}"
        lines = [f"pattern \"Chance\"\n{units}", cutter, *(f"    die {die}" for die in self.dies), *self.fabrics]
        return "\n".join([*lines, *self.body, *self.makes, ""])

    def _fabric(self, name: str) -> str:
        line = f"fabric {name}"
        if self.chance.random() < 0.3:
            self.directional.add(name)
            line += ", directional"
        elif self.chance.random() < 0.2:
            line += ", assorted"
        how = self.chance.random()
        if how < 0.2:
            line += ", sold by fat-quarter"
        elif how < 0.3:
            line += ", usable 138" if self.metric else ", usable 54"
        elif how < 0.4:
            line += ", have 2 of fat-quarter"
        return line

    def _unit(self, number: int) -> None:
        shape, chance = self.chance.choice(SHAPES), self.chance
        angle = chance.choice((30, 45, 60)) if shape in ("triangle", "diamond", "parallelogram", "trapezoid") else None
        high = self.size(Fraction(2), Fraction(5), Fraction(1, 4))
        if shape == "square" and not self.metric and chance.random() < 0.5:  # hardly smaller than the cloth
            high = chance.choice((Fraction(18), Fraction(40))) - Fraction(chance.randint(0, 4), 4)
        sizes = (high,)
        if shape in ("rectangle", "parallelogram"):
            sizes = (self.size(Fraction(2), Fraction(8), Fraction(1, 4)), high)
        elif shape == "trapezoid":
            sizes = (2 * high * 2 + self.size(Fraction(1), Fraction(2), Fraction(1, 4)), high)  # cot 30 is below 2
        name = f"u{number}"
        at = "" if angle is None else f" at {angle}"
        said = f"{shape} {' by '.join(map(written, sizes))}{at}"
        count, fabric = chance.randint(1, 20), chance.choice(self.fabrics).split()[1].strip(",")
        if shape == "strip":
            steps = (f"{said} of c", f"join {said} of c on bottom", f"subcut {written(high)}")
            self.body.append("\n    ".join((f"unit {name} (c)", *steps)))
        else:
            self.body.append(f"unit {name} (c)\n    {said} of c")
        self.makes.append(f"make {count} of {name}({fabric})")
        hands = [(count, False)]
        if shape in ("parallelogram", "diamond") and chance.random() < 0.7:
            other = count if chance.random() < 0.4 else chance.randint(1, 20)
            self.makes.append(f"make {other} of {name}({fabric}) reversed")
            hands.append((other, True))
        if shape != "strip":
            for number_of, turned in hands:
                turned = turned and has_hands(shape, fabric in self.directional)
                self.wanted[fabric, *alike(shape, sizes, angle), turned] += number_of
        if chance.random() < 0.85:
            self._die(shape, sizes, at)

    def _die(self, shape: str, sizes: tuple[Fraction, ...], at: str) -> None:
        """The die of a piece; or for one with square corners a strip die of a side of it."""
        if shape in ("square", "rectangle") and self.chance.random() < 0.4:
            self.dies[f"strip {written(self.chance.choice(sizes))}"] = None
            return
        if shape == "rectangle":
            shape, sizes = ("square", sizes[:1]) if sizes[0] == sizes[1] else (shape, tuple(sorted(sizes)))
        self.dies[f"{shape} {' by '.join(map(written, sizes))}{at}"] = None


def has_hands(shape: str, directional: bool) -> bool:
    """A parallelogram's mirror image is no turned parallelogram; a diamond's is, but its print lies another way."""
    return shape == "parallelogram" or (shape == "diamond" and directional)


def alike(shape: str, sizes: tuple[Fraction, ...], angle: int | None) -> tuple[str, tuple[Fraction, ...], int | None]:
    """Shape, sizes and angle of a piece however its sides are written."""
    if shape == "rectangle":
        sizes = tuple(sorted(sizes))
        shape = "square" if sizes[0] == sizes[1] else shape
    return shape, sizes[-1:] if shape in ("square", "triangle", "diamond") else sizes, angle


def written(length: Fraction) -> str:
    """As in a pattern: `2 1/2`, `16.5`."""
    whole, rest = divmod(length, 1)
    if rest.denominator in (5, 10):
        return f"{float(length):.1f}"
    return f"{whole} {rest}".strip() if rest and whole else str(rest or whole)


# ── what is printed ─────────────────────────────────────────────────────────────────────────────

SIZE = r"[\d.]*[¼½¾⅛⅜⅝⅞]?"
FOLD = re.compile(rf"lengths ({SIZE}) wide to and fro, with the folds ({SIZE}) apart")
ROUGH = re.compile(r"its rough pieces?, (.+?), (?:apart|under)")
PAIR = re.compile(rf"({SIZE}) × ({SIZE})")
STRIPS = re.compile(rf"its rough strips, ({SIZE}) wide")
LAYERS = re.compile(r"at most (\d+)")
PASSES = re.compile(r"(\d+) pass(?:es)? cuts? (?:(\d+)\b(?! reversed))?(?: and )?(?:(\d+) reversed)?")
DIE = re.compile(rf"Die (\w+) ({SIZE})(?: × ({SIZE}))?(?: (?:high|wide))?(?: at (\d+)°)?: ")
RULED = re.compile(rf"(\d+) (squares?|rectangles?) ({SIZE})(?: × ({SIZE}))?")


def number(text: str) -> Fraction:
    """`2½`, `16.5`"""
    plain = "".join(c for c in text if c.isdigit() or c == ".")
    part = sum((Fraction(unicodedata.numeric(c)).limit_denominator(8) for c in text if c in "¼½¾⅛⅜⅝⅞"), Fraction(0))
    return (Fraction(plain) if plain else Fraction(0)) + part


def outline(shape: str, sizes: list[Fraction], angle: int | None) -> Polygon:
    """The piece that a die cuts, its base along the first axis."""
    w, h = float(sizes[0]), float(sizes[-1])
    run = 0.0 if angle is None else h / math.tan(math.radians(angle))
    if shape == "triangle":
        return Polygon([(0, 0), (2 * run, 0), (run, h)])
    if shape == "diamond":
        w = h / math.sin(math.radians(angle or 90))
    if shape == "trapezoid":
        return Polygon([(0, 0), (w, 0), (w - run, h), (run, h)])
    return Polygon([(0, 0), (w, 0), (w + run, h), (run, h)])


def fits(piece: Polygon, along: Fraction, across: Fraction, leeway: Fraction) -> bool:
    """Whether the cloth stands out by the leeway on all sides of a piece with its base along it."""
    low, left = piece.bounds[1], piece.bounds[0]
    cloth = box(0, 0, float(along), float(across)).buffer(NEAR, join_style="mitre")
    with_room = box(*piece.bounds).buffer(float(leeway), join_style="mitre")
    return bool(cloth.covers(affinity.translate(with_room, float(leeway) - left, float(leeway) - low)))


class Told:
    """One sentence of the press, read."""

    def __init__(self, text: str) -> None:
        named = DIE.match(text)
        assert named is not None, text
        self.text, self.shape = text, named[1]
        self.sizes = [number(size) for size in named.groups()[1:3] if size]
        self.angle = int(named[4]) if named[4] else None
        self.ways = [(number(wide), number(apart)) for wide, apart in FOLD.findall(text)]
        self.folded = bool(self.ways)
        rough = ROUGH.search(text)
        if rough is not None:
            self.ways = [(number(one), number(other)) for one, other in PAIR.findall(rough[1])]
        strips = STRIPS.search(text)
        self.strips = None if strips is None else number(strips[1])
        most = LAYERS.search(text)
        self.layers = 1 if most is None else int(most[1])
        passes = PASSES.search(text)
        assert passes is not None, text
        self.passes, self.plain, self.turned = (int(one or 0) for one in passes.groups())


@pytest.mark.parametrize("tenth", range(10))
def test_every_edition_is_cut_from_its_words(tenth: int) -> None:
    seen: Counter[str] = Counter()
    for seed in range(tenth * 30, tenth * 30 + 30):
        edition = Edition(seed)
        made = compile_source(edition.text(), cutting=Cutting(kits=edition.kits))
        assert made.plan is not None, (edition.text(), made.diagnostics)
        edition.found = made.diagnostics
        (_, text), = emit(made.plan, ("json",))
        document = json.loads(text)
        for fabric in document["fabrics"]:
            done(edition, document, fabric["name"], fabric["cutting"], document["strips"], 1, seen)
        if edition.kits > 1:
            kits = document["kits"]["fabrics"]
            assert [one["fabric"] for one in kits] == [one["name"] for one in document["fabrics"] if one["cutting"]]
            for one in kits:
                count = 1 if one["alone"] else edition.kits
                done(edition, document, one["fabric"], one["cutting"], one["strips"], count, seen)
        seen["editions"] += 1
    assert seen["editions"] == 30 and seen["folded"] > 10 and seen["apart"] > 5 and seen["strips"] > 3, seen


def done(
    edition: Edition,
    document: dict[str, Any],
    fabric: str,
    cutting: dict[str, Any] | None,
    strips: list[dict[str, Any]],
    kits: int,
    seen: Counter[str],
) -> None:
    """One fabric of an edition, or of so many kits, cut from what is printed."""
    if cutting is None:
        return
    rows = {n: cut for n, cut in enumerate(document["cuts"]) if cut["fabric"] == fabric}
    cut_list: Wanted = Counter()
    for cut in rows.values():
        if cut["shape"] != "strip":
            sizes = number(typeset(cut["width"]["ruler"])), number(typeset(cut["height"]["ruler"]))
            cut_list[fabric, *alike(cut["shape"], sizes, cut["angle"]), cut["reversed"]] += cut["count"]
    assert cut_list == Counter({key: count for key, count in edition.wanted.items() if key[0] == fabric})
    sentences = [text for text in cutting["how"] if text.startswith("Die ")]
    ruled = [text for text in cutting["how"] if text.startswith("No die here cuts ")]
    passes = cutting["passes"]
    told_large = any(one.code in ("W509", "W510", "W535", "W536") for one in edition.found)
    assert len(sentences) == len(passes) and len(ruled) <= 1
    own = [strip for strip in strips if strip["fabric"] == fabric]
    cut_by_die: Counter[int] = Counter()
    for text, one in zip(sentences, passes, strict=True):
        told = Told(text)
        cut_by_die.update({part["cut"]: part["count"] for part in one["pieces"]})
        assert edition.layers >= told.layers, text
        assert edition.layers > 1 or "fold" not in text.partition("since")[0].lower(), text
        if told.strips is not None:
            seen["strips"] += 1
            of_strips(edition, told, one, rows, kits)
        else:
            seen["folded" if told.folded else "apart"] += 1
            of_pieces(edition, told, one, rows, fabric, own, kits)
    for place, cut in rows.items():
        assert cut_by_die[place] in (0, cut["count"] * kits), (place, sentences)
        assert cut_by_die[place] or ruled, (place, sentences)
        assert cut_by_die[place] or told_large or not has_die(edition, cut), (edition.text(), cut)
    enough(cutting, own, rows, kits, any(one.code in ("W509", "W510") for one in edition.found))


def typeset(ruler: str) -> str:
    """`2 1/2` as it is printed, so that sizes are read in one way."""
    signs = {unicodedata.numeric(sign): sign for sign in "¼½¾⅛⅜⅝⅞"}
    return re.sub(r" ?(\d)/(\d)", lambda part: signs[int(part[1]) / int(part[2])], ruler)


def has_die(edition: Edition, cut: dict[str, Any]) -> bool:
    """Whether the edition has just the die of a piece; all cloth here is large enough for it."""
    sizes = tuple(number(typeset(cut[side]["ruler"])) for side in ("width", "height"))
    shape, sizes, angle = alike(cut["shape"], sizes, cut["angle"])
    at = "" if angle is None else f" at {angle}"
    return f"{shape} {' by '.join(map(written, sizes))}{at}" in edition.dies


def of_pieces(
    edition: Edition,
    told: Told,
    one: dict[str, Any],
    rows: dict[int, dict[str, Any]],
    fabric: str,
    strips: list[dict[str, Any]],
    kits: int,
) -> None:
    """A die of the shape of its pieces."""
    directional = fabric in edition.directional
    piece = outline(told.shape, told.sizes, told.angle)
    for wide, apart in told.ways:
        lying = fits(piece, apart, wide, edition.leeway)
        standing = fits(piece, wide, apart, edition.leeway)
        turned_over = directional and told.folded and told.shape in ("triangle", "trapezoid")  # by folds across
        assert lying or (standing and not turned_over), told.text
        across, high = (Fraction(piece.bounds[2]), Fraction(piece.bounds[3]))
        most = (across + 2 * edition.leeway + edition.mark) * (high + 2 * edition.leeway + edition.mark)
        assert wide * apart <= most + Fraction(1, 1000), told.text
    counts: Counter[bool] = Counter()
    for part in one["pieces"]:
        counts[rows[part["cut"]]["reversed"]] += part["count"]
    assert (told.plain, told.turned) == (counts[False], counts[True]), told.text
    wanted = told.plain + told.turned
    assert wanted <= told.layers * told.passes < wanted + told.layers, told.text
    if has_hands(told.shape, directional):
        if "as many right side up as wrong side up" in told.text:
            assert told.plain == told.turned and told.layers % 2 == 0, told.text
        else:
            assert not told.folded and ("right side up" in told.text) == (told.turned == 0), told.text
            assert ("wrong side up" in told.text) == (told.plain == 0), told.text
    if directional and told.shape in ("triangle", "trapezoid"):
        assert "with the print the same way up" in told.text
    # a strip that holds nothing else has room for its pieces as the folds lie, where they lie one way
    places = {part["cut"] for part in one["pieces"]}
    whole = wanted == sum(rows[place]["count"] for place in places) * kits
    for strip in strips if told.folded and whole and len(told.ways) == 1 else ():
        if {part["cut"] for part in strip["pieces"]} <= places:
            each = Fraction(sum(part["count"] for part in strip["pieces"]), strip["count"])
            high, long = (number(typeset(strip[side]["ruler"])) for side in ("height", "length"))
            wide, apart = told.ways[0]
            if high == wide:
                assert each <= long // apart, (strip["text"], told.text)
            elif high == apart:
                assert each <= 1, (strip["text"], told.text)  # a single one is turned on the stack


def of_strips(
    edition: Edition, told: Told, one: dict[str, Any], rows: dict[int, dict[str, Any]], kits: int
) -> None:
    """A die that cuts strips, and what is cut from them with a ruler."""
    assert told.strips is not None
    assert 0 <= told.strips - told.sizes[0] - 2 * edition.leeway < edition.mark, told.text
    count = sum(part["count"] for part in one["rough"])
    assert told.plain == count <= told.layers * told.passes < count + told.layers, told.text
    lengths = Fraction(0)
    for part in one["pieces"]:
        cut = rows[part["cut"]]
        sides = [number(typeset(cut[side]["ruler"])) for side in ("width", "height")]
        assert told.sizes[0] in sides, told.text
        long = sides[1] if cut["shape"] == "strip" or sides[0] == told.sizes[0] else sides[0]
        lengths += long * part["count"]
        if cut["shape"] != "strip":
            found = [m for m in RULED.findall(told.text.partition("cut ")[2]) if int(m[0]) == part["count"]]
            assert any(told.sizes[0] in map(number, m[2:]) for m in found), told.text
    there = sum((number(typeset(part["length"]["ruler"])) * part["count"] for part in one["rough"]), Fraction(0))
    assert abs(lengths - there) <= edition.mark * sum(part["count"] for part in one["pieces"]), told.text


def enough(
    cutting: dict[str, Any], strips: list[dict[str, Any]], rows: dict[int, dict[str, Any]], kits: int, large: bool
) -> None:
    """Every piece comes from a strip that is large enough for the rough pieces it gives, and the strips from the
    cloth that is bought."""
    given: Counter[int] = Counter()
    rough = {part["cut"]: one for one in cutting["passes"] for part in one["pieces"]}
    for strip in strips:
        high, long = (number(typeset(strip[side]["ruler"])) for side in ("height", "length"))
        area = Fraction(0)
        for part in strip["pieces"]:
            given[part["cut"]] += part["count"]
            one = rough.get(part["cut"])
            assert one is None or "rough piece" in strip["text"] or rows[part["cut"]]["shape"] == "strip", strip["text"]
            if one is not None and one["lay"] != "strips":
                wide, along = (number(typeset(one["rough"][0][side]["ruler"])) for side in ("width", "length"))
                assert (wide <= high and along <= long) or (along <= high and wide <= long), strip["text"]
                area += wide * along * part["count"]
        if cutting["proved"] is not None:
            assert area <= high * long * strip["count"], strip["text"]
    given.update({part["cut"]: part["count"] for part in cutting["missing"]})
    assert given == Counter({place: cut["count"] * kits for place, cut in rows.items()})
    assert not cutting["missing"] or large
    if cutting["bought"] is not None and cutting["proved"] is not None:
        cloth = [strip for strip in strips if strip["source"] == "cloth"]
        own = sum((number(typeset(strip["height"]["ruler"])) * strip["count"] for strip in cloth), Fraction(0))
        assert own <= number(typeset(cutting["bought"]["ruler"])), cutting["bought_text"]
