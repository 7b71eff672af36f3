"""Short patterns compiled by the real compiler, and what is asked of them.

Each test writes only the steps; the heading and four fabrics (`sand` and `glow` light, `clay` medium, `dusk`
dark) stand before them. The heading says `margin 0`: published tables and yardages count the cloth that is cut, with
nothing for straightening an end. Lengths in answers are the plan's exact strings, in the pattern's own units.
"""

from __future__ import annotations

import re
import unicodedata
from functools import lru_cache

from piecewright import compile_source
from piecewright.diagnostics.model import Diagnostic
from piecewright.evaluate.run import evaluate
from piecewright.exact import Exact, Vector
from piecewright.kernel.build import Build
from piecewright.kernel.unit import Unit
from piecewright.plan.model import Plan, UnitPlan
from piecewright.reading import Reader, read_nothing

FABRICS = """
fabric sand "plain", value light
fabric glow "plain", value light
fabric clay "plain", value medium
fabric dusk "plain", value dark
"""

# The pieces most constructions share. Sizes are those of the square that is cut.
TRIANGLES = """
unit half (size, cloth)
    square size of cloth
    cut once on diagonal
    expect 2 copies

unit quarter (size, cloth)
    square size of cloth
    cut twice on diagonal
    expect 4 copies

unit patch (size, cloth)
    square size of cloth

unit half-square (size, a, b)
    take half(size, a)
    join half(size, b) on long-edge

"""


def pattern(body: str, **settings: str) -> str:
    """A whole file: a heading with `settings` and `margin 0`, unless they name another, the fabrics and the steps."""
    settings = {"margin": "0"} | settings
    lines = "".join(f"    {name} {value}\n" for name, value in settings.items())
    return f'pattern "Check"\n{lines}{FABRICS}\n{body.strip()}\n'


@lru_cache(maxsize=256)
def _compiled(text: str) -> tuple[Plan | None, tuple[Diagnostic, ...]]:
    compiled = compile_source(text)
    return compiled.plan, tuple(found for found in compiled.diagnostics if found.severity == "error")


def planned(body: str, **settings: str) -> Plan:
    """The plan of a pattern that must compile."""
    plan, errors = _compiled(pattern(body, **settings))
    assert not errors, [(error.code, error.message, error.span) for error in errors]
    assert plan is not None
    return plan


@lru_cache(maxsize=64)
def _built(text: str) -> Build:
    reader = Reader(read_nothing)
    file, found = reader.main("<text>", text)
    assert file is not None, found
    build, more = evaluate(file, reader.load, {})
    assert build is not None, more
    return build


def sewn(body: str, name: str, **settings: str) -> Unit:
    """The unit called `name` as the kernel left it."""
    return next(made.unit for made in _built(pattern(body, **settings)).made if made.name == name)


def refused(body: str, **settings: str) -> Diagnostic:
    """The one error of a pattern that must not compile."""
    _, errors = _compiled(pattern(body, **settings))
    assert len(errors) == 1, [(error.code, error.message) for error in errors]
    return errors[0]


def words(found: Diagnostic) -> str:
    """Everything a diagnostic says, in one string."""
    return " ".join([found.message, *(label.text for label in found.labels), found.hint or ""])


def unit(plan: Plan, name: str) -> UnitPlan:
    """The one unit, or first variant, called `name`."""
    return next(each for each in plan.units if each.name == name)


def size(plan: Plan, name: str, *, finished: bool = False) -> tuple[str, str]:
    """Across and down, raw edges included unless `finished`."""
    made = unit(plan, name)
    extent = made.finished if finished else made.unfinished
    return extent.width.exact, extent.height.exact


def cuts(plan: Plan, fabric: str | None = None) -> dict[tuple[str, str], int]:
    """How many of each exact size are cut, of one fabric or of all; the shorter side first."""
    found: dict[tuple[str, str], int] = {}
    for cut in plan.cuts:
        if fabric in (None, cut.fabric):
            short, long = sorted((cut.width, cut.height), key=lambda side: side.value)
            key = short.exact, long.exact
            found[key] = found.get(key, 0) + cut.count
    return found


def strips(plan: Plan, fabric: str) -> dict[str, int]:
    """How many strips of each width are cut across the cloth."""
    found: dict[str, int] = {}
    for strip in plan.strips:
        if strip.fabric == fabric:
            found[strip.height.exact] = found.get(strip.height.exact, 0) + strip.strips
    return found


def cloth(plan: Plan, fabric: str) -> Exact:
    """The length of cloth the strips take, in the pattern's units."""
    return Exact.parse(dict(plan.cloth)[fabric].exact)


def bought(plan: Plan, fabric: str) -> Exact:
    """The length to buy, in the pattern's units."""
    (size,) = (one.bought for one in plan.fabric_cloth if one.fabric == fabric)
    assert size is not None
    return Exact.parse(size.exact)


def batting(plan: Plan) -> tuple[Exact, Exact]:
    """Across and down of the batting that the one quilt of a plan says to cut, in inches."""
    lines = [line for one in plan.units for step in one.steps for line in step.details]
    (found,) = (match for line in lines if (match := re.match(r"Backing and batting: (\S+) by (\S+) each", line)))
    across, down = found.groups()
    return _printed(across), _printed(down)


def _printed(size: str) -> Exact:
    """`51½` as a number."""
    apart = re.sub(r"(?<=\d)(?=[½¼¾⅛⅜⅝⅞])", " ", size)
    return number(unicodedata.normalize("NFKC", apart).replace("\u2044", "/"))


def number(trade: str) -> Exact:
    """A trade number such as `3 7/8`."""
    total = Exact(0)
    for part in trade.split():
        above, _, below = part.partition("/")
        total = total + Exact(int(above), int(below or 1))
    return total


def patch_areas(unit: Unit) -> dict[str, list[Exact]]:
    """The area that each patch shows when everything round the unit is sewn, by fabric, small to large."""
    found: dict[str, list[Exact]] = {}
    outline = [corner.finished for corner in unit.corners]
    for patch in unit.patches:
        shown = sum((_area(_within(cell, outline)) for cell in patch.cells), Exact(0))
        found.setdefault(patch.fabric, []).append(shown)
    return {fabric: sorted(areas) for fabric, areas in sorted(found.items())}


def _within(cell: tuple[Vector, ...], outline: list[Vector]) -> list[Vector]:
    """A cell clipped by every side of a convex outline."""
    kept = list(cell)
    for a, b in zip(outline, outline[1:] + outline[:1], strict=True):
        before, kept = kept, []
        for p, q in zip(before, before[1:] + before[:1], strict=True):
            here, there = (b - a).cross(p - a), (b - a).cross(q - a)
            if here >= 0:
                kept.append(p)
            if here * there < 0:
                kept.append(p + (q - p) * (here / (here - there)))
    return kept


def _area(polygon: list[Vector]) -> Exact:
    twice = sum((p.cross(q) for p, q in zip(polygon, polygon[1:] + polygon[:1], strict=True)), Exact(0))
    return twice / 2
