"""How a point is brought onto its seam: the trims that a designer could write, tried until one does it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from piecewright.craft.joins import NEAR, Side
from piecewright.exact import Exact, OutsideNumbers, Vector
from piecewright.kernel.action import Trim
from piecewright.kernel.build import Build, Made
from piecewright.kernel.errors import SewingError
from piecewright.kernel.foundation import ROUGH
from piecewright.kernel.measure import height, width
from piecewright.kernel.points import Tip, points, points_on
from piecewright.kernel.trim import Alignment, PointFrom, outside_points, trim
from piecewright.kernel.unit import Unit

SIDES = {(0, 1): "top", (0, -1): "bottom", (-1, 0): "left", (1, 0): "right"}


class Retrim(NamedTuple):
    """What is written: `how` is `again` (a trim of `name` laid otherwise), `first` (one line more, at the end of `name`
    or, where that is empty, before the seam), `outside` (as `first`, by all outermost points), `larger` (no trim alone
    does it: `more` inches of cloth are wanted at the side) or `paper` (the lines of a foundation). `size`: across and
    down, inches."""

    how: str
    name: str = ""
    side: str = ""
    size: tuple[Exact, Exact] | None = None
    more: Exact | None = None


def retrim(build: Build, made: Made, number: int, side: Side, tip: Tip) -> Retrim:
    """What brings a tip onto the seam that step `number` sews."""
    if tip.cut.startswith(ROUGH):
        return Retrim("paper", side.name)
    tolerance = build.settings.tolerance
    for owner, before in _nearest_first(build, made, number):
        for step in reversed(owner.steps[:before]):
            for action in reversed(step.actions):
                if not isinstance(action, Trim):
                    continue
                for where in _where(action.result, tip):
                    again = (PointFrom(distance=tip.allowance, side=where),)
                    if _mends(action.before, action.width, action.height, again, where, tip, tolerance):
                        name = "" if owner is made else owner.name
                        return Retrim("again", name, where, (action.width, action.height))
    found = _used_unit(build, made, number if side.name else 0, number, tip)
    if not side.name:
        return _trimmed(build, side.unit, "", found[1] if found is not None else "", tip)
    if found is None:
        return Retrim("larger", side.name, "", None, _up(abs(tip.beyond), build))
    return _trimmed(build, *found, found[1], tip)


def _trimmed(build: Build, unit: Unit, name: str, of: str, tip: Tip) -> Retrim:
    """A trim of the whole unit, where one does it, else more cloth for the pieces `of` a unit."""
    off = [one for one in points(unit) if one.beyond and not is_right(one, build.settings.tolerance)]
    for where in _where(unit, tip):
        level = where in ("top", "bottom")
        sizes = (width(unit), height(unit))
        less = tuple(size - tip.beyond if (n == 1) == level else size for n, size in enumerate(sizes))
        across, down = (build.settings.ruler * (size / build.settings.ruler).floor() for size in less)
        again = (PointFrom(distance=tip.allowance, side=where),)
        sound = (across, down)[not level] == sizes[not level]
        ways: list[Retrim] = []
        if sound and tip.beyond > 0 and _mends(unit, across, down, again, where, tip, build.settings.tolerance):
            ways.append(Retrim("first", name, where, (across, down)))
        try:
            wide, high, all_sides = outside_points(unit, tip.allowance)
            if _mends(unit, wide, high, all_sides, where, tip, build.settings.tolerance):
                ways.append(Retrim("outside", name))
        except SewingError:
            pass
        if ways:
            return ways[-1 if len({one.edge for one in off}) > 1 else 0]
    sides = _where(unit, tip)
    return Retrim("larger", of, sides[0] if len(sides) == 1 else "", None, _up(abs(tip.beyond), build))


def _up(length: Exact, build: Build) -> Exact:
    return build.settings.ruler * (length / build.settings.ruler).ceil()


def _nearest_first(build: Build, made: Made, number: int) -> Iterator[tuple[Made, int]]:
    """The work up to a step, and what it uses, each with how many of its steps come before."""
    by_key = {one.key: one for one in build.made}
    pending, seen = [(made, number)], {made.key}
    while pending:
        owner, before = pending.pop(0)
        yield owner, before
        steps = owner.steps[: before + 1] if owner is made else owner.steps
        for step in reversed(steps):
            for supply in step.supplies:
                used = by_key.get(supply.source) if isinstance(supply.source, str) else None
                if used is not None and used.key not in seen:
                    seen.add(used.key)
                    pending.append((used, len(used.steps)))


def _used_unit(build: Build, made: Made, first: int, last: int, tip: Tip) -> tuple[Unit, str] | None:
    """The unit that brings the tip to some steps, as it lies when it is finished."""
    keys = {supply.source for step in made.steps[first : last + 1] for supply in step.supplies}
    for one in build.made:
        if one.key in keys and _where(one.unit, tip):
            return one.unit, one.name
    return None


def _where(unit: Unit, tip: Tip) -> list[str]:
    """The level and upright sides toward which a tip of that fabric stands as far off."""
    found: dict[str, None] = {}
    for one in points(unit):
        if one.fabric == tip.fabric and one.beyond == tip.beyond:
            way = outward(unit.directions[one.edge])
            if way:
                found[way] = None
    return list(found)


def outward(along: Vector) -> str:
    """The side that an edge faces, empty where it is neither level nor upright."""
    x, y = along.right().floats
    return SIDES.get((round(x), round(y)), "") if min(abs(x), abs(y)) < NEAR else ""


def _mends(
    unit: Unit, across: Exact, down: Exact, laid: tuple[Alignment, ...], side: str, tip: Tip, tolerance: Exact
) -> bool:
    """Whether so trimmed, all points toward a side lie right, and one of them does."""
    try:
        trimmed = trim(unit, across, down, laid).unit
    except (SewingError, OutsideNumbers):
        return False
    for edge, along in enumerate(trimmed.directions):
        if outward(along) == side:
            tips = [one for one in points_on(trimmed, edge) if one.fabric == tip.fabric]
            return bool(tips) and all(is_right(one, tolerance) for one in tips)
    return False


def is_right(tip: Tip, tolerance: Exact) -> bool:
    """Whether a point is met, to the eye: its blunt end is seen from half of the tolerance on."""
    return tip.beyond <= tolerance if tip.beyond > 0 else -tip.beyond * 2 <= tolerance
