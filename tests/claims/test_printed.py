"""What the examples print as true of cloth, parts and seams is worked out anew from what it is about."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator
from fractions import Fraction
from functools import cache
from pathlib import Path

import pytest
from benchmarks import peers
from claims.congruent import alike, shown
from differential.patterns import EXAMPLES, example
from piecewright.kernel.action import Back, Lay, Press, Subcut
from piecewright.kernel.build import Made, Step
from piecewright.pipeline import compile_file
from piecewright.plan.model import Plan, StepPlan, UnitPlan

CLAIMS = re.compile(
    r"\b(no way|no plan|no other|no strip|no more|no less|alike|exactly|in all|every|all|both|same|enough|left over"
    r"|will do)\b",
    re.I,
)
# says how something is done, and nothing of sizes or numbers
MANNERS = re.compile(
    r"all layers|all raw edges|both ways|cut alongside every|of every block|both halves|both edges|all round"
    r"|all edges|all four edges|both ends|on all sides"
    r"|All prints together|both gaps|past both|at both dots|all four parts|each time",
    re.I,
)
FRACTION = {"½": "1/2", "¼": "1/4", "¾": "3/4", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8"}
SIZE = r"([\d½¼¾⅛⅜⅝⅞⁰¹²³⁴-⁹⁄₀-₉.]+(?:\s[⁰¹²³⁴-⁹]+⁄[₀-₉]+)?)"
SUPER = str.maketrans("⁰¹²³⁴⁵⁶⁷⁸⁹₀₁₂₃₄₅₆₇₈₉⁄", "01234567890123456789/")
PACKED_AT_MOST = 60  # pieces that the other packer is given
ALSO = {"twice": 2, "once": 1}


def number(text: str) -> Fraction:
    """`15½`, `46 ³⁄₁₆`, `20.5` as a fraction."""
    text = text.strip()
    for sign, plain in FRACTION.items():
        text = text.replace(sign, f" {plain}")
    return sum((Fraction(part) for part in text.translate(SUPER).split()), Fraction(0))


def often(words: str) -> int:
    return ALSO.get(words) or int(words.split()[0])


@cache
def plan(file: Path) -> Plan:
    made = compile_file(file).plan
    assert made is not None
    return made


def steps(file: Path) -> Iterator[tuple[UnitPlan, StepPlan, Made, Step]]:
    """Every step as it is printed and as it was done."""
    for unit in plan(file).units:
        for told in unit.steps:
            for made in example(file).made:
                if made.line != unit.line or made.reversed != unit.reversed or not made.steps:
                    continue
                if dict(made.arguments) != dict(unit.arguments):
                    continue
                done = [step for step in made.steps if step.line == told.line]
                if len(done) == 1:
                    yield unit, told, made, done[0]
                    break


def sentences(file: Path) -> Iterator[str]:
    made = plan(file)
    for unit in made.units:
        yield unit.work
        for step in unit.steps:
            yield from (step.text, step.repeat, *step.details, *step.measures)
    for cloth in made.fabric_cloth:
        yield from (*cloth.text, *cloth.how)
    yield from (strip.text for strip in made.strips)


# ── what is known of each kind of sentence ──────────────────────────────────────────────────────

KNOWN = (
    r"^No way of cutting needs (less|fewer)",
    r"^No plan with straight strips needs (less|fewer); no way of cutting needs",
    r"^No plan with straight strips for these panels needs (less|fewer); no way of cutting, and of piecing ",
    r"^A better plan may be found, but no ",
    r"% of the cloth is left over",
    r"^You should now have \d+, all alike\.$",
    r"^Do steps? .* in all\.$",
    r"^[A-Z]: .* in all",
    r"the same .* in all",
    r"Press (both seams|every seam)",
    r"beyond the top on every side",
    r"is large enough\.$",
    r"\(\d+ left over\)",
    r"^From the same ",
)


@pytest.mark.parametrize("file", EXAMPLES, ids=lambda file: file.stem)
def test_every_claim_is_of_a_kind_that_is_checked(file: Path) -> None:
    claims = [text for text in sentences(file) if CLAIMS.search(MANNERS.sub("", text))]
    assert [text for text in claims if not any(re.search(kind, text) for kind in KNOWN)] == []


def test_every_kind_is_among_the_examples() -> None:
    texts = [text for file in EXAMPLES for text in sentences(file)]
    assert [kind for kind in KNOWN if not any(re.search(kind, text) for text in texts)] == []
    assert sum(bool(CLAIMS.search(text)) for text in texts) > 200


def test_parts_that_are_alike_are() -> None:
    """By shapely: the parts of the last cut, turned onto each other, and as many as are said."""
    seen = 0
    for file in EXAMPLES:
        for _, told, _, done in steps(file):
            said = [re.search(r"should now have (\d+), all alike", text) for text in told.measures]
            for found in filter(None, said):
                seen += 1
                assert int(found[1]) == done.copies
                for action in done.actions:
                    parts = action.kept if isinstance(action, Subcut) else ()
                    if len(parts) > 1 and not any(patch.discs for part in parts for patch in part.patches):
                        first = shown(parts[0])
                        assert all(alike(shown(part), first) for part in parts[1:]), (file.stem, told.text)
    assert seen >= 20


def test_a_part_in_a_mirror_is_not_alike() -> None:
    from shapely.affinity import scale

    leaning = None
    for file in EXAMPLES:
        for made in example(file).made:
            if made.name == "reed" or "reed" in made.name:
                leaning = leaning or shown(made.unit)
    assert leaning is not None
    mirrored = {fabric: scale(shape, xfact=-1, origin=(0, 0)) for fabric, shape in leaning.items()}
    turned = {fabric: scale(shape, xfact=-1, yfact=-1, origin=(0, 0)) for fabric, shape in leaning.items()}
    assert alike(turned, leaning) and not alike(mirrored, leaning)


def test_steps_are_repeated_as_often_as_is_said() -> None:
    seen = 0
    for file in EXAMPLES:
        for unit, told, _, done in steps(file):
            if not told.repeat:
                continue
            seen += 1
            found = re.search(r"(\d+ times|twice|once) in all", told.repeat)
            assert found is not None
            assert often(found[1]) == done.times == len(done.rounds) if len(done.rounds) > 1 else True
            numbers = [int(n) for n in re.findall(r"\d+", told.repeat.partition(" one after")[0])]
            inside = [step.number for step in unit.steps if step.round == told.round]
            assert numbers[0] == min(inside) and numbers[-1] == max(inside)
    assert seen >= 5


def test_seams_are_pressed_as_is_said_of_all() -> None:
    seen: Counter[str] = Counter()
    for file in EXAMPLES:
        for _, told, _, done in steps(file):
            found = re.search(r"Press (both seams|every seam) (open|toward [^.,;]+)", told.text)
            presses = [one for actions in done.rounds for one in actions if isinstance(one, Press)]
            if found is None or not presses:
                continue
            seen[found[1]] += 1
            of_one = [one for one in done.actions if isinstance(one, Press)]
            assert len({one.toward for one in of_one}) == 1, told.text
            if found[1] == "both seams":
                assert len(of_one) == 2, told.text
            ways = {one.result.seams[one.seam].pressed for one in of_one}
            assert ("open" in ways) == (found[2] == "open") and (len(ways) == 1 or "open" not in ways)
    assert seen["both seams"] >= 20 and seen["every seam"] >= 3


def test_letters_are_counted() -> None:
    seen = 0
    for file in EXAMPLES:
        for _, told, _, done in steps(file):
            lays = [one for one in done.actions if isinstance(one, Lay)]
            for text in told.details:
                counts = [int(n) for n in re.findall(r"(?:[A-Z]: [^;]*?, )(\d+) in all", text)]
                if counts and lays:
                    seen += 1
                    laid = Counter(key for row in lays[0].keys for key in row if key)
                    assert sorted(counts) == sorted(laid.values()), text
    assert seen >= 4


def test_backings_reach_as_far_beyond_as_is_said_and_battings_are_large_enough() -> None:
    seen = 0
    for file in EXAMPLES:
        for _, told, _, done in steps(file):
            for back in (one for one in done.actions if isinstance(one, Back)):
                seen += 1
                points = [p for corner in back.top.corners for p in corner.raw]
                xs, ys = [float(p.x) for p in points], [float(p.y) for p in points]
                top = max(xs) - min(xs), max(ys) - min(ys)
                per = {"inch": 1.0, "cm": 1 / 2.54, "mm": 1 / 25.4}[plan(file).units_of_length]
                for text in told.details:
                    found = re.search(rf"(?:about )?{SIZE} by {SIZE} each, {SIZE}.* beyond", text)
                    if found is not None:
                        sizes = [float(number(one)) * per for one in found.groups()]
                        for side, whole in zip(top, sizes[:2], strict=True):
                            assert whole >= side + 2 * sizes[2] - 1 / 16, text
                    found = re.search(r"sold as \w+, (\d+) by (\d+)", text)
                    if found is not None:
                        short, long = sorted(int(one) for one in found.groups())
                        beyond = float(number(re.search(rf"each, {SIZE}", " ".join(told.details))[1])) * per  # type: ignore[index]
                        assert short >= min(top) + 2 * beyond - 1 / 16 and long >= max(top) + 2 * beyond - 1 / 16
    assert seen >= 2


# ── cloth ───────────────────────────────────────────────────────────────────────────────────────


def least(pieces: list[tuple[Fraction, Fraction, bool]], width: Fraction) -> Fraction:
    """A length that any way of cutting whole pieces needs: their area; the narrowest side of one; and of pieces of
    which no two lie side by side, nor any turned, one below another."""
    area = sum(wide * high for wide, high, _ in pieces) / width
    tall = max(min(wide, high) if turns else high for wide, high, turns in pieces)
    below = sum(
        min(one for one, other in ((high, wide), (wide, high)) if other <= width) if turns else high
        for wide, high, turns in pieces
        if (min(wide, high) if turns else wide) * 2 > width
    )
    return max(area, tall, Fraction(below))


def test_what_is_said_to_be_least_is() -> None:
    """Of cloth by the length, whose pieces are whole: no packing by another program is shorter than what no way of
    cutting is said to need less than; and most claims follow from area and sides alone."""
    seen = confirmed = packed = 0
    for file in EXAMPLES:
        made = plan(file)
        for cloth in made.fabric_cloth:
            said = [text for text in cloth.text if "o way of cutting needs" in text]
            if not said or cloth.bought is None or cloth.scraps or cloth.any_bound is None:
                continue
            seen += 1
            rows = [cut for cut in made.cuts if cut.fabric == cloth.fabric]
            if any(cut.angle is not None for cut in rows):
                continue
            fabric = next(one for one in made.fabrics if one.name == cloth.fabric)
            width = Fraction((fabric.usable or made.usable).exact)
            pieces = [
                (number(cut.width.shown), number(cut.height.shown), not fabric.directional)
                for cut in rows
                for _ in range(cut.count)
                if cut.radius is None and cut.shape != "strip"
            ]
            if not pieces or any(min(wide, high) > width or max(wide, high) > width for wide, high, _ in pieces):
                continue
            claimed = Fraction(cloth.any_bound.exact)
            margin = 1 if made.units_of_length == "inch" else 3  # for straightening an end, which is bought as well
            step = Fraction(9, 2) if made.units_of_length == "inch" else Fraction(10)
            assert least(pieces, width) <= Fraction(cloth.bought.exact), (file.stem, cloth.fabric)
            if least(pieces, width) + margin > claimed - step:
                confirmed += 1
            if len(pieces) <= PACKED_AT_MOST and not any(cut.shape == "strip" for cut in rows):
                marks = [(int(w * 40), int(h * 40), turns) for w, h, turns in pieces]
                length = peers.rectpack_default(int(width * 40), int(step * 40), marks)
                if length is not None:
                    packed += 1
                    bought = -(-(Fraction(length, 40) + margin) // step) * step  # its step upward may be all the margin
                    assert bought >= claimed, (file.stem, cloth.fabric)
    assert seen >= 40 and confirmed >= 20 and packed >= 15
