"""`subcut WIDTH [at ANGLE]`"""

from __future__ import annotations

from dataclasses import replace

from piecewright.exact import Exact, Vector
from piecewright.kernel.action import Line, Subcut
from piecewright.kernel.cut import cut, cut_off, is_convex
from piecewright.kernel.errors import SewingError
from piecewright.kernel.measure import bounds, height
from piecewright.kernel.slanted import slope
from piecewright.kernel.stepped import cuts_between, segment
from piecewright.kernel.unit import Unit
from piecewright.verbs.parts import kinds, unlike
from piecewright.verbs.registry import Said, Verb
from piecewright.verbs.work import Bench, Done, Redraw, Refused, Work

SHOWN = 3  # segments that are drawn of a strip set


def run(bench: Bench, said: Said) -> Done:
    """Segments from left to right. A set of strips gives as many as its usable length holds once its end
    is square, and only the first few are drawn; other work gives as many as it is long for."""
    work, width = bench.hand(), said.length("WIDTH")
    if "ANGLE" in said and said.count("ANGLE") != 90:
        return _at_angle(bench, work, width, said.count("ANGLE"))
    if work.usable is not None:
        return _strips(bench, work, work.usable, width)
    left, _, right, _ = bounds(work.unit)
    count = ((right - left) / width).floor()
    if count < 1:
        raise Refused("segment-too-long", "WIDTH", segment=width, length=right - left)
    lines, segments = _segments(work.unit, width, count)
    found = kinds(segments[:count])
    if len(found) > 1:
        raise Refused("not-alike", "", **unlike(found[0][0], found[1][0]), kinds=len(found), segments=True)
    action = Subcut(before=work.unit, lines=lines, parts=segments, kept=segments[:1], distance=width)
    return Done(work=replace(work, unit=segments[0], copies=work.copies * count), actions=(action,))


def _strips(bench: Bench, work: Work, usable: Exact, segment: Exact) -> Done:
    if not is_convex(work.unit):
        raise Refused("stepped-for-nothing", "", square=True)
    count = max(((usable - bench.settings.squaring) / segment).floor(), 0)
    shown = max(1, min(count, SHOWN))
    if bench.drawn != segment * shown:
        raise Redraw(segment * shown)
    lines, segments = _segments(work.unit, segment, shown)
    action = Subcut(before=work.unit, lines=lines, parts=segments, kept=segments[:1], distance=segment)
    after = replace(work, unit=segments[0], usable=None, segments=count, segment=segment)
    return Done(work=after, actions=(action,))


def _at_angle(bench: Bench, work: Work, width: Exact, degrees: int) -> Done:
    """Segments leaning right. Each takes width / sin a of the strips' length; the slant of the cuts wastes some at
    either end, less of it where the strips are stepped the way the cuts lean."""
    unit, usable = work.unit, work.usable
    try:
        side = slope(degrees)
    except SewingError as error:
        raise Refused(error.kind, "ANGLE", **error.facts) from error
    if usable is None:
        raise Refused("angle-without-strips", "ANGLE")
    usable -= bench.settings.squaring
    along, cotangent = width / side.y, side.x / side.y
    low, high = cuts_between(unit, cotangent)
    waste = bench.drawn - (high - low)
    if not is_convex(unit) and waste >= height(unit) * cotangent:
        raise Refused("stepped-for-nothing", "", square=False)
    count = max(((usable - waste) / along).floor(), 0)
    if not count:
        raise Refused("segment-too-long", "WIDTH", segment=along + waste, length=usable)
    shown = min(count, SHOWN)
    if bench.drawn != along * shown + waste:
        raise Redraw(along * shown + waste)
    try:
        segments = tuple(segment(unit, low + along * n, along, degrees) for n in range(shown))
    except SewingError as error:
        raise Refused(error.kind, "WIDTH", **error.facts) from error
    _, bottom, _, top = bounds(unit)
    lines = tuple(
        (Vector(x + bottom * cotangent, bottom), Vector(x + top * cotangent, top))
        for x in (low + along * n for n in range(shown + 1))
    )
    action = Subcut(before=unit, lines=lines, parts=segments, kept=segments[:1], distance=width, angle=degrees)
    after = replace(work, unit=segments[0], usable=None, segments=count, segment=along, slant=waste)
    return Done(work=after, actions=(action,))


def _segments(unit: Unit, segment: Exact, count: int) -> tuple[tuple[Line, ...], tuple[Unit, ...]]:
    """The cuts, and the segments from left to right; a rest beyond them falls away."""
    left, bottom, right, top = bounds(unit)
    up = Vector(0, 1)
    lines: list[Line] = []
    segments: list[Unit] = []
    rest = unit
    for n in range(1, count + 1):
        x = left + segment * n
        if x == right:
            break
        start = Vector(x, bottom)
        try:
            if n == count:
                # what is left beyond the last segment may be too narrow to be a part
                return (*lines, (start, Vector(x, top))), (*segments, cut_off(rest, start, up))
            part, rest = cut(rest, start, up)
        except SewingError as error:
            raise Refused(error.kind, "WIDTH", **error.facts) from error
        lines.append((start, Vector(x, top)))
        segments.append(part)
    return tuple(lines), (*segments, rest)


VERB = Verb(
    name="subcut",
    sentences=("subcut WIDTH [at ANGLE]",),
    summary="cuts a strip set into segments, as many as its length gives",
    example="subcut 2 1/2",
    on_strips=True,
    run=run,
)
