"""Random but sewable step sequences, as a pattern text and as plain steps for the references.

After every step the work is a rectangle again, so that any step may follow any other; only the last one may
leave another outline. Sizes are sixteenths of an inch. A square cut on its diagonal gives parts that are alike only
when it looks the same after half a turn, and the text has to say which: `alike` is handed in.
"""

from __future__ import annotations

import random
from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction

SIDES = ("left", "right", "top", "bottom")
FABRICS = ("sand", "dusk", "clay", "glow")
Step = tuple[object, ...]


@dataclass(frozen=True)
class Sequence:
    """`steps` begin with ("start", across, down, fabric); sizes are Fractions, in inches."""

    seam: Fraction
    steps: tuple[Step, ...]


def sequence(seed: int, alike: Callable[[Sequence], bool], length: int = 4) -> Sequence:
    """`length` steps after the start. `alike`: does what a sequence gives look the same after half a turn?"""
    rng = random.Random(seed)
    seam = rng.choice([Fraction(1, 4), Fraction(1, 4), Fraction(3, 8), Fraction(1, 2)])
    steps: list[Step] = []
    state = _State(rng, seam)
    steps.append(state.start())
    for n in range(length):
        step = state.step(last=n == length - 1)
        if step[0] in ("halve", "half"):
            step = (*step, alike(Sequence(seam, tuple(steps))))
        steps.append(step)
    return Sequence(seam, tuple(steps))


class _State:
    """What must be known of the work to choose the next step: its size in floats and what it is."""

    def __init__(self, rng: random.Random, seam: Fraction) -> None:
        self.rng = rng
        self.seam = seam
        self.across = self.down = 0.0
        self.square = True

    def size(self, low: int, high: int) -> Fraction:
        return Fraction(self.rng.randint(low * 16, high * 16), 16)

    def start(self) -> Step:
        kind = self.rng.choice(["square", "rectangle", "strips"])
        across = self.size(2, 6)
        if kind == "strips":
            heights = tuple(self.size(2, 3) for _ in range(self.rng.choice([2, 3])))
            fabrics = tuple(self.rng.sample(FABRICS, len(heights)))
            down = sum(heights, Fraction(0)) - 2 * self.seam * (len(heights) - 1)
            self._is(float(across), float(down), square=across == down)
            return ("strips", across, heights, fabrics)
        down = across if kind == "square" else self.size(2, 6)
        self._is(float(across), float(down), square=across == down)
        return ("start", across, down, self.rng.choice(FABRICS))

    def _is(self, across: float, down: float, *, square: bool) -> None:
        self.across, self.down, self.square = across, down, square

    def step(self, *, last: bool) -> Step:
        kinds = ["join", "border", "border", "tips", "turn", "slice", "trim", "halve", "halve", "lay"]
        if last:
            kinds += ["half", "roof"]
        while True:
            made = getattr(self, "_" + self.rng.choice(kinds))()
            if made is not None:
                return made  # type: ignore[no-any-return]

    def _join(self) -> Step:
        side, wide, fabric = self.rng.choice(SIDES), self.size(2, 3), self.rng.choice(FABRICS)
        self._grow(side, wide)
        self.square = False
        return ("join", side, wide, fabric)

    def _grow(self, side: str, wide: Fraction) -> None:
        if side in ("left", "right"):
            self.across += float(wide - 2 * self.seam)
        else:
            self.down += float(wide - 2 * self.seam)

    def _border(self) -> Step:
        wide, fabric = self.size(2, 3), self.rng.choice(FABRICS)
        sides = SIDES if self.rng.random() < 0.7 else tuple(self.rng.sample(SIDES, 2))
        for side in sides:
            self._grow(side, wide)
        if len(sides) < 4:
            self.square = False
        return ("border", wide, fabric, sides)

    def _tips(self) -> Step | None:
        if self.across + self.down > 20:
            return None
        total = self.across + self.down - 4 * float(self.seam)
        side = total / 2**0.5 + 2 * float(self.seam)
        self._is(side, side, square=True)
        return ("tips", self.rng.choice(FABRICS))

    def _turn(self) -> Step:
        way = self.rng.choice(["left", "right", "around"])
        if way != "around":
            self.across, self.down = self.down, self.across
        return ("turn", way)

    def _slice(self) -> Step | None:
        room = self.across / 2 - 0.6 - 2 * float(self.seam)
        if room < 0.2:
            return None
        distance = 2 * self.seam + Fraction(int((0.3 + self.rng.random() * room) * 16), 16)
        if distance == Fraction(self.across / 2).limit_denominator(1000):
            return None
        wide, fabric = self.size(1, 2) + Fraction(1, 8), self.rng.choice(FABRICS)
        self.across += float(wide - 4 * self.seam)
        self.square = False
        return ("slice", distance, wide, fabric)

    def _trim(self) -> Step | None:
        across = Fraction(int((self.across - self.rng.random()) * 8), 8)
        down = Fraction(int((self.down - self.rng.random()) * 8), 8)
        if self.square and self.rng.random() < 0.6:
            down = across
        if min(across, down) < 2 or across > self.across or down > self.down:
            return None
        self._is(float(across), float(down), square=across == down)
        return ("trim", across, down)

    def _halve(self) -> Step | None:
        if not self.square or self.across > 18:
            return None
        side = self.across - 2**0.5 * float(self.seam)
        self._is(side, side, square=True)
        return ("halve", self.rng.choice(FABRICS))

    def _lay(self) -> Step | None:
        if self.across + self.down > 14:
            return None
        turns = ["none", "left", "right", "around"] if self.square else ["none", "around"]
        chosen = tuple(self.rng.choice(turns) for _ in range(4))
        across, down = (2 * each - 2 * float(self.seam) for each in (self.across, self.down))
        self._is(across, down, square=self.square)
        return ("lay", chosen)

    def _half(self) -> Step | None:
        return ("half",) if self.square else None

    def _roof(self) -> Step | None:
        return ("roof", self.rng.choice(FABRICS)) if self.across < 14 else None


def text(made: Sequence) -> str:
    """The sequence as a pattern. Cuts into named parts and tables begin a new definition."""
    lines = [
        'pattern "Random steps"',
        f"    seam {_trade(made.seam)}",
        "fabric sand, value light",
        "fabric glow, value light",
        "fabric clay, value medium",
        "fabric dusk, value dark",
        "",
        "unit tip (long, cloth)",
        "    square diagonal(long) / 2 + 2 * seam + diagonal(seam) of cloth",
        "    cut once on diagonal",
        "",
        "unit half-plain (side, cloth)",
        "    square side of cloth",
        "    cut once on diagonal",
        "",
    ]
    part = 0
    body: list[str] = []

    def close(name: str) -> None:
        lines.extend([f"unit {name}", *("    " + line for line in body), ""])
        body.clear()

    for step in made.steps:
        kind = step[0]
        if kind == "start":
            body.append(f"rectangle {_trade(step[1])} by {_trade(step[2])} of {step[3]}")
        elif kind == "strips":
            _, across, heights, fabrics = step
            for n, (high, fabric) in enumerate(zip(heights, fabrics, strict=True)):  # type: ignore[call-overload]
                strip = f"strip {_trade(high)} of {fabric}"
                body.append(strip if n == 0 else f"join {strip} on bottom")
            body.append(f"subcut {_trade(across)}")
        elif kind == "join":
            _, side, wide, fabric = step
            sizes = f"{_trade(wide)} by height" if side in ("left", "right") else f"width by {_trade(wide)}"
            body.append(f"join rectangle {sizes} of {fabric} on {side}")
        elif kind == "border":
            _, wide, fabric, sides = step
            body.append(f"border {_trade(wide)} of {fabric} on {' and '.join(sides)}")  # type: ignore[arg-type]
        elif kind == "tips":
            part += 1
            body += [
                f"across-{part} is width",
                f"join long-edge of tip(height - 2 * seam, {step[1]}) on left and right",
                f"join long-edge of tip(across-{part} - 2 * seam, {step[1]}) on top and bottom",
                "turn 45 left",
            ]
        elif kind == "turn":
            body.append(f"turn {step[1]}")
        elif kind == "slice":
            _, distance, wide, fabric = step
            part += 1
            body.append(f"cut {_trade(distance)} from left into near-{part} and far-{part}")
            close(f"sliced-{part}")
            body += [
                f"take near-{part}",
                f"join rectangle {_trade(wide)} by height of {fabric} on right",
                f"join far-{part} on right",
            ]
        elif kind == "trim":
            body.append(f"trim to {_trade(step[1])} by {_trade(step[2])}, centred")
        elif kind in ("halve", "half"):
            part += 1
            close(f"whole-{part}")
            body.append(f"take whole-{part}")
            if step[-1]:
                body.append("cut once on diagonal")
                close(f"low-{part}")
            else:
                body.append(f"cut once on diagonal into low-{part} and high-{part}")
                close(f"parted-{part}")
            body.append(f"take low-{part}")
            if kind == "halve":
                body.append(f"join long-edge of half-plain(width(whole-{part}), {step[1]}) on long-edge")
        elif kind == "lay":
            part += 1
            close(f"cell-{part}")
            cells = [f"cell-{part}" + ("" if turn == "none" else f" turned {turn}") for turn in step[1]]  # type: ignore[attr-defined]
            body += ["lay", f"    {cells[0]} | {cells[1]}", f"    {cells[2]} | {cells[3]}"]
        elif kind == "roof":
            body.append(f"join long-edge of tip(width - 2 * seam, {step[1]}) on top")
    lines.extend(["block whole", *("    " + line for line in body), "", "make 1 of whole", ""])
    return "\n".join(lines)


def _trade(size: object) -> str:
    assert isinstance(size, Fraction)
    whole, rest = divmod(size, 1)
    return f"{whole} {rest}" if whole and rest else str(rest if rest else whole)
