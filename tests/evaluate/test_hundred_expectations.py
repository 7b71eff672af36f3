"""A hundred small patterns by chance, each with what is true of it worked out here in fractions: every true `expect`
passes, and every one that is off by a little is found at its line, with its code. Roots are written with `diagonal`,
which is a size times √2."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from fractions import Fraction
from random import Random
from typing import NamedTuple

import pytest
from piecewright.evaluate.run import evaluate
from piecewright.reading import Reader, read_nothing

F = Fraction
CLOTHS = ("sand", "dusk", "glow")
SIZE, COUNT, SHOWS, PIECES = "E401", "E402", "E403", "E404"


class Fact(NamedTuple):
    """An `expect` that is true, one that is not, and the code that the latter is told with."""

    true: str
    false: str
    code: str


class Drawn(NamedTuple):
    """A pattern's steps and what is true after them; `before`: definitions that it needs."""

    steps: list[str]
    facts: list[Fact]
    before: str = ""


def text(number: F) -> str:
    return f"{number.numerator}/{number.denominator}" if number.denominator > 1 else str(number.numerator)


class Sizes:
    """Random sizes in the units of the pattern, and expectations about sizes."""

    def __init__(self, chance: Random, metric: bool) -> None:
        self.chance = chance
        self.seam = chance.choice((F(3, 4), F(3, 5), F(1)) if metric else (F(1, 4), F(3, 8), F(1, 8), F(1, 2)))
        self.least = 4 * self.seam + 1

    def any(self, more: int = 24) -> F:
        return self.least + F(self.chance.randrange(0, more * 2), self.chance.choice((2, 4, 8)))

    def cloth(self) -> str:
        return self.chance.choice(CLOTHS)

    def off(self) -> F:
        """By how much a false size is off, larger or smaller."""
        return self.chance.choice((F(1, 64), F(1, 16), F(1, 3), F(1, 1000), F(-1, 64), F(-1, 8), F(-1, 1000)))

    def size(self, wide: F, high: F) -> Iterator[Fact]:
        """All forms about a rectangle, raw and finished, exact and within."""
        for less, end in ((F(0), ""), (2 * self.seam, ", finished")):
            across, down, off = wide - less, high - less, self.off()
            yield self.pair(across, down, across + off, down, end)
            yield self.pair(across, down, across, down - off, end)
            yield self.one("width", text(across), text(across + off), end)
            yield self.one("height", text(down), text(down + off), end)
            edge = self.chance.choice(("left", "right", "top", "bottom"))
            long = down if edge in ("left", "right") else across
            yield self.one(edge, text(long), text(long - off), end)
            lee = abs(off)
            held, not_held = f" within {text(lee)}{end}", f" within {text(lee * F(63, 64))}{end}"
            yield self.pair(across + off, down, across + off, down, held, not_held)
            yield self.one("width", text(across - off), text(across - off), held, not_held)

    def pair(self, wide: F, high: F, no_wide: F, no_high: F, end: str, no_end: str | None = None) -> Fact:
        return Fact(f"{text(wide)} by {text(high)}{end}", f"{text(no_wide)} by {text(no_high)}{no_end or end}", SIZE)

    def one(self, what: str, true: str, false: str, end: str = "", no_end: str | None = None) -> Fact:
        return Fact(f"{what} {true}{end}", f"{what} {false}{no_end or end}", SIZE)

    def shows(self, cloth: str, place: str) -> Fact:
        other = self.chance.choice([one for one in CLOTHS if one != cloth])
        return Fact(f"{cloth} at {place}", f"{other} at {place}", SHOWS)

    def copies(self, number: int) -> Fact:
        return Fact(f"{number} copies", f"{number + self.chance.choice((1, -1) if number > 1 else (1,))} copies", COUNT)

    def pieces(self, number: int, what: str) -> Fact:
        more = self.chance.choice((1, 2, -1) if number > 1 else (1, 2))
        return Fact(f"{number} of {what}", f"{number + more} of {what}", PIECES)


def table(s: Sizes) -> Drawn:
    """Rectangles in rows and columns, with a count of those that are alike whichever side lies across."""
    across, down = s.chance.randrange(1, 5), s.chance.randrange(1, 4)
    widths, heights = [s.any() for _ in range(across)], [s.any() for _ in range(down)]
    cloths = [[s.cloth() for _ in range(across)] for _ in range(down)]
    rows = [
        "        " + "| " * (across == 1)
        + " | ".join(f"rectangle {text(w)} by {text(h)} of {c}" for w, c in zip(widths, row, strict=True))
        for h, row in zip(heights, cloths, strict=True)
    ]  # fmt: skip
    wide = sum(widths) - 2 * s.seam * (across - 1)
    high = sum(heights) - 2 * s.seam * (down - 1)
    facts = [*s.size(wide, high), s.copies(1)]
    facts += [s.shows(cloths[0][0], "top-left"), s.shows(cloths[0][-1], "top-right")]
    facts += [s.shows(cloths[-1][0], "bottom-left"), s.shows(cloths[-1][-1], "bottom-right")]
    kinds = [
        (min(w, h), max(w, h), c)
        for h, row in zip(heights, cloths, strict=True)
        for w, c in zip(widths, row, strict=True)
    ]
    one, other, cloth = s.chance.choice(kinds)
    facts.append(s.pieces(kinds.count((one, other, cloth)), "patch"))
    named = f"    patch is rectangle {text(other)} by {text(one)} of {cloth}"
    return Drawn(["    lay, press open", *rows, named], facts)


def framed(s: Sizes) -> Drawn:
    """A piece with borders in an order by chance, each as long as the work is by then."""
    wide, high, heart = s.any(), s.any(), s.cloth()
    steps = [f"    rectangle {text(wide)} by {text(high)} of {heart}"]
    for side in s.chance.sample(("left", "right", "top", "bottom"), s.chance.randrange(1, 5)):
        border, cloth = s.any(8), s.cloth()
        steps.append(f"    border {text(border)} of {cloth} on {side}, press open")
        if side in ("left", "right"):
            wide += border - 2 * s.seam
        else:
            high += border - 2 * s.seam
        corner = {side: cloth}
    facts = [*s.size(wide, high)]
    side, cloth = corner.popitem()  # the last one runs from end to end
    ends = ("top", "bottom") if side in ("left", "right") else ("left", "right")
    facts += [s.shows(cloth, f"{side}-{end}" if side in ("top", "bottom") else f"{end}-{side}") for end in ends]
    facts.append(s.shows(cloth, side))
    return Drawn(steps, facts)


def strips(s: Sizes) -> Drawn:
    """A strip set, cut in segments: as many as go into 40 in."""
    widths = [s.any(6) for _ in range(s.chance.randrange(2, 5))]
    cloths = [s.cloth() for _ in widths]
    segment = s.any(6)
    steps = [f"    strip {text(widths[0])} of {cloths[0]}"]
    steps += [
        f"    join strip {text(w)} of {c} on bottom, press open" for w, c in zip(widths[1:], cloths[1:], strict=True)
    ]
    high = sum(widths) - 2 * s.seam * (len(widths) - 1)
    steps.append(f"    subcut {text(segment)}")
    usable = F(40) * (F(254, 100) if s.seam in METRIC else 1)
    shown = [s.shows(cloths[0], "top"), s.shows(cloths[-1], "bottom")]
    room = F(1) if s.seam in METRIC else F(1, 2)  # for the first cut, which squares the end of the set
    return Drawn(steps, [*s.size(segment, high), s.copies(int((usable - room) // segment)), *shown])


METRIC = (F(3, 4), F(3, 5), F(1))


def halves(s: Sizes) -> Drawn:
    """A square cut on one diagonal: the long edge is √2 sides, and an edge finishes two allowances and √2 shorter."""
    size, cloth, off = s.any(), s.cloth(), text(s.off())
    long = f"diagonal({text(size)})"
    facts = [
        s.copies(2), s.one("long-edge", long, f"{long} + {off}"), s.one("left", text(size), f"{text(size)} - {off}"),
        s.one("bottom", f"{text(size - 2 * s.seam)} - diagonal({text(s.seam)})", text(size - 2 * s.seam), ", finished"),
        s.one(
            "long-edge", f"{long} - {text(2 * s.seam)} - 2 * diagonal({text(s.seam)})",
            f"{long} - {text(s.seam)}", ", finished",
        ),
        s.pair(size, size, size, size + F(1, 64), ""), s.shows(cloth, "bottom-left"),
    ]  # fmt: skip
    return Drawn([f"    square {text(size)} of {cloth}", "    cut once on diagonal"], facts)


def quarters(s: Sizes) -> Drawn:
    size, cloth = s.any(), s.cloth()
    side = f"diagonal({text(size / 2)})"
    facts = [
        s.copies(4), s.pair(size, size / 2, size, size, ""), s.one("bottom", text(size), text(size + F(1, 1000))),
        s.one("left", side, text(size)), s.one("right", side, f"{side} - 1/64"), s.shows(cloth, "bottom"),
        s.one(
            "bottom", f"{text(size - 2 * s.seam)} - 2 * diagonal({text(s.seam)})", text(size - 2 * s.seam), ", finished"
        ),
    ]  # fmt: skip
    return Drawn([f"    square {text(size)} of {cloth}", "    cut twice on diagonal"], facts)


def two_at_a_time(s: Sizes) -> Drawn:
    """Two squares sewn beside the diagonal and cut on it: the unit is √2 allowances smaller than the square."""
    size = s.any()
    light, dark = s.chance.sample(CLOTHS, 2)
    side = f"{text(size)} - diagonal({text(s.seam)})"
    steps = [
        f"    square {text(size)} of {light}", f"    place square {text(size)} of {dark}",
        "    stitch beside diagonal", "    cut once on diagonal, press open",
    ]  # fmt: skip
    facts = [
        s.copies(2), Fact(f"{side} by {side}", f"{side} by {text(size)}", SIZE),
        s.one("width", side, f"{side} + 1/1000"),
        s.shows(light, "bottom-left"), s.shows(dark, "top-right"),
        s.one("height", f"{side} - {text(2 * s.seam)}", side, ", finished"),
    ]  # fmt: skip
    return Drawn(steps, facts)


def quilted(s: Sizes) -> Drawn:
    """Units in a table that is repeated, some in rows of their own: how many of each the whole has in it."""
    size, (one, other) = s.any(), s.chance.sample(CLOTHS, 2)
    pair, columns, rows = s.chance.randrange(2, 4), s.chance.randrange(2, 6), s.chance.randrange(1, 5)
    first = s.chance.randrange(1, pair)
    cells = [f"tile({one})"] * first + [f"tile({other})"] * (pair - first)
    before = (
        f"unit tile (cloth)\n    square {text(size)} of cloth\n\n"
        f"unit part (a, b)\n    lay, press open\n        {' | '.join(cells).replace(one, 'a').replace(other, 'b')}\n\n"
    )
    steps = [f"    lay {columns} by {rows}, press open", f"        | part({one}, {other})"]
    wide = size * pair * columns - 2 * s.seam * (pair * columns - 1)
    high = size * rows - 2 * s.seam * (rows - 1)
    facts = [
        *s.size(wide, high), s.pieces(first * columns * rows, f"tile({one})"),
        s.pieces(columns * rows, f"part({one}, {other})"),
        s.pieces((pair - first) * columns * rows, f"tile({other})"), s.pieces(first * columns * rows, "patch"),
    ]  # fmt: skip
    return Drawn([*steps, f"    patch is square {text(size)} of {one}"], facts, before)


def grown(s: Sizes) -> Drawn:
    """The same border again and again."""
    size, border, rounds, (heart, cloth) = s.any(), s.any(6), s.chance.randrange(2, 5), s.chance.sample(CLOTHS, 2)
    steps = [
        f"    square {text(size)} of {heart}", f"    repeat {rounds}",
        f"        border {text(border)} of {cloth} on right, press open", "        turn left",
    ]  # fmt: skip
    wide, high = size, size
    for _ in range(rounds):
        wide, high = high, wide + border - 2 * s.seam
    steps.append(f"    middle is square {text(size)} of {heart}")
    return Drawn(steps, [*s.size(wide, high), s.shows(cloth, "top"), s.pieces(1, "middle")])


KINDS: tuple[Callable[[Sizes], Drawn], ...] = (
    table, framed, strips, halves, quarters, two_at_a_time, quilted, grown
)  # fmt: skip


def mistakes(number: int, drawn: Drawn, seam: F, tried: list[list[str]]) -> list[tuple[str, str]]:
    """What is found, with its line, in a pattern that has a block for each list of expectations: a block is not looked
    at any further after one that does not hold."""
    blocks = [
        "\n".join((f"block drawn-{n}", *drawn.steps, *lines)) for n, lines in enumerate(tried)
    ]
    pattern = "\n".join(
        (
            'pattern "One of a hundred"', f"    units {('inch', 'cm')[number % 2]}", f"    seam {text(seam)}",
            *(f"fabric {cloth}" for cloth in CLOTHS), drawn.before, *blocks, "",
        )
    )  # fmt: skip
    reader = Reader(read_nothing)
    read, wrong = reader.main("<text>", pattern)
    assert read is not None and not wrong, pattern
    _, found = evaluate(read, reader.load, {})
    return [(one.code, one.span.source.line_text(one.span.line)) for one in found if one.severity == "error"]


@pytest.mark.parametrize("number", range(100))
def test_what_is_true_holds_and_what_is_not_is_found(number: int) -> None:
    chance = Random(number)
    sizes = Sizes(chance, number % 2 == 1)
    drawn = KINDS[number // 2 % len(KINDS)](sizes)
    true = [f"    expect {fact.true}" for fact in drawn.facts]
    assert len(true) > 5 and mistakes(number, drawn, sizes.seam, [true]) == []
    false = [(fact.code, f"    expect {fact.false}") for fact in chance.sample(drawn.facts, 6)]
    assert mistakes(number, drawn, sizes.seam, [[line] for _, line in false]) == false


def test_every_form_is_among_them() -> None:
    lines = {
        (fact.code, " ".join(word for word in fact.false.split() if word.isalpha()))
        for number in range(100)
        for fact in KINDS[number // 2 % len(KINDS)](Sizes(Random(number), number % 2 == 1)).facts
    }
    for form in (
        (SIZE, "by"), (SIZE, "by finished"), (SIZE, "by within"), (SIZE, "width"), (SIZE, "height finished"),
        (COUNT, "copies"), (SHOWS, "sand at top"), (PIECES, "of patch"), (SIZE, "left"),
        (SIZE, "width within finished"),
    ):  # fmt: skip
        assert form in lines, form
