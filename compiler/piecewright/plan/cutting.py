"""Sentences for what takes cloth apart: cuts and trims."""

from __future__ import annotations

from piecewright.exact import Exact, Vector
from piecewright.kernel.action import Ruler, Subcut, Trim
from piecewright.kernel.build import Made, Settings, Step
from piecewright.kernel.measure import bounds, height, width
from piecewright.kernel.unit import Unit
from piecewright.plan.places import edges_words, is_edge, is_point, line_words, point_words
from piecewright.plan.rounding import given_size, measured_extent, measured_size, written_size
from piecewright.plan.words import extent_text, listed, plural, sentence, spoken_size

_SIDES = ("left", "right", "top", "bottom")


def subcut_text(action: Subcut, step: Step, made: Made, settings: Settings) -> str:
    """`Cut once corner to corner, from top left to bottom right: 2 triangles.`"""
    if step.verb == "subcut":
        return _segments_text(action, made, settings)
    before = 1 if action.names else max(step.copies // len(action.parts), 1)
    what = "cut each" if before > 1 else "cut"
    text = f"{what} {cut_where(action, step, settings)}: {_parts(action, before, settings)}."
    if not action.names and len(action.parts) > 1:
        text += f" {turned_text(action)}"
    return sentence(text)


def turned_text(action: Subcut) -> str:
    """`Turn the second to lie like the first.`, and where the step says it, which one is left as it lies."""
    two = len(action.parts) == 2
    if not action.keep:
        return f"Turn {'the second' if two else 'the others'} to lie like the first."
    others = "the other" if two else "the others"
    return f"Leave the one {_at(action.keep)} as it lies, and turn {others} to lie like it."


def trim_text(action: Trim, step: Step, settings: Settings) -> str:
    """`Trim to 8 by 8, the ruler's diagonal on the seam; about ⁵⁄₁₆ comes off each side.`"""
    each = "each " if step.copies > 1 else ""
    beyond = beyond_points(action.ruler)
    if beyond is not None:
        there = extent_text(measured_extent(action.width, action.height, settings))
        lead = f"trim {each}{given_size(beyond, settings).shown} beyond the outermost points on every side, to {there}"
        return sentence(f"{lead}; {_off(action.off, settings)}")
    size = f"{written_size(action.width, settings).shown} by {written_size(action.height, settings).shown}"
    text = f"trim {each}to {size}"
    for aligned in _alignments(action.ruler, settings):
        text += f", {aligned}"
    return sentence(f"{text}; {_off(action.off, settings)}")


def beyond_points(ruler: Ruler) -> Exact | None:
    """How far beyond the outermost points a ruler lies on all four sides, where they alone say how large it is."""
    laid = [(word, distance) for word, _, distance in ruler.alignments]
    return laid[0][1] if len(laid) == 4 and laid[0][0] == "point" and len(set(laid)) == 1 else None


def _at(place: str) -> str:
    """`at the bottom left`, of a part among others."""
    return f"at the {place.replace('-', ' ')}"


def _segments_text(action: Subcut, made: Made, settings: Settings) -> str:
    wide = _written(action.distance, settings)
    text = f"Cut the strips across into segments {wide} wide"
    if action.angle is not None:
        start, end = action.lines[0]
        lean = "right" if end.x > start.x else "left"
        text = (
            f"Lay the ruler's {action.angle}° line on the long edge of the strips and cut off the end, leaning {lean}."
            f" Cut segments beside it, {wide} wide, measured square to the cut"
        )
    if made.segments:
        text += f": {made.segments} from a full strip set"
    return sentence(text)


def cut_where(action: Subcut, step: Step, settings: Settings) -> str:
    """`once corner to corner, from top left to bottom right`, `3 from the left edge`."""
    edges = [place for place in step.places if is_edge(place)]
    points = [place for place in step.places if is_point(place)]
    if action.distance is not None and edges:
        return f"{_written(action.distance, settings)} from {edges_words(edges[:1])}"
    if len(points) >= 2 and action.distance is None:
        return f"from {point_words(points[0])} to {point_words(points[1])}"
    if len(action.lines) == 2:
        return "twice corner to corner, both ways"
    start, end = action.lines[0]
    across = line_words(start, end, bounds(action.before))
    return f"once corner to corner, {across}" if across else "once along the line shown"


def _parts(action: Subcut, before: int, settings: Settings) -> str:
    if action.names:
        return listed(
            [f"{name}{_size_of(part, settings)}" for name, part in zip(action.names, action.kept, strict=False)]
        )
    triangles = all(len(part.corners) == 3 for part in action.parts)
    text = plural(len(action.parts), "triangle" if triangles else "piece")
    return f"{text} from each, {before * len(action.parts)} in all" if before > 1 else text


def _size_of(part: Unit, settings: Settings) -> str:
    """` (3 × 9)` for a part with square corners; nothing for others, which the figure shows."""
    if len(part.corners) != 4 or any(way.x and way.y for way in part.directions):
        return ""
    return f" ({_shown(width(part), settings)} × {_shown(height(part), settings)})"


def _shown(length: Exact | None, settings: Settings) -> str:
    return "" if length is None else measured_size(length, settings).shown


def _written(length: Exact | None, settings: Settings) -> str:
    return "" if length is None else written_size(length, settings, measured=True).shown


def _alignments(ruler: Ruler, settings: Settings) -> list[str]:
    texts = []
    for word, line, distance in ruler.alignments:
        if word == "centre":
            texts.append("centred")
        elif distance is None:
            texts.append(f"the ruler's diagonal on the {word}")
        else:
            side = _side(ruler, line, distance)
            where = f"{_written(distance, settings)} from the {side}" if side else "as shown"
            texts.append(f"the {word} {where}")
    return texts


def _side(ruler: Ruler, line: tuple[Vector, Vector], distance: Exact) -> str:
    """The side of the ruler that both ends of the line lie that far within."""
    low_left, low_right, high_right, high_left = ruler.corners
    sides = (
        ("left", high_left, low_left),
        ("right", low_right, high_right),
        ("top", high_right, high_left),
        ("bottom", low_left, low_right),
    )
    for name, start, end in sides:
        along = end - start
        reach = distance * distance * along.squared()
        if all((gap := along.cross(point - start)) >= 0 and gap * gap == reach for point in line):
            return name
    return ""


def _off(off: tuple[Exact, Exact, Exact, Exact], settings: Settings) -> str:
    """What comes off: `about ⁵⁄₁₆ comes off each side`, `¼ comes off the left and the right edge`."""
    by_amount: dict[Exact, list[str]] = {}
    for side, amount in zip(_SIDES, off, strict=True):
        by_amount.setdefault(amount, []).append(side)
    if len(by_amount) > 1:
        by_amount.pop(Exact(0), None)  # where something comes off, the sides that keep all need no word
    elif by_amount:
        return f"{_amount(off[0], settings)} comes off each side"
    return listed([f"{_amount(amount, settings)} comes off {edges_words(at)}" for amount, at in by_amount.items()])


def _amount(amount: Exact, settings: Settings) -> str:
    if not amount:
        return "nothing"
    size = measured_size(amount, settings)
    if size.ruler == "0":
        return "a thread"
    return spoken_size(size)
