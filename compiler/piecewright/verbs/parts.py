"""Parts of a cut: in which order they count, and which are alike."""

from __future__ import annotations

from collections.abc import Sequence

from piecewright.exact import Exact, Vector
from piecewright.kernel.congruence import alike
from piecewright.kernel.measure import height, raw_outline, width
from piecewright.kernel.moves import mirrored
from piecewright.kernel.unit import Unit
from piecewright.verbs.registry import Said
from piecewright.verbs.work import Refused


def in_order(parts: tuple[Unit, ...]) -> tuple[Unit, ...]:
    """The part whose middle lies lowest first, and of equally low ones the leftmost."""
    return tuple(sorted(parts, key=low_and_left))


def first_kept(parts: Sequence[Unit], said: Said) -> list[int]:
    """The numbers of some parts, the one first that lies as the clause `keep` says; in order where it says nothing."""
    order = list(range(len(parts)))
    clause = said.clause("keep")
    if clause is None:
        return order
    place = clause.word("PLACE")
    x = -1 if "left" in place else 1 if "right" in place else 0
    y = -1 if "bottom" in place or "lower" in place else 1 if "top" in place or "upper" in place else 0
    reach = [middle.x * x + middle.y * y for middle in map(_middle, parts)]
    furthest = [n for n in order if reach[n] == max(reach)]
    if len(furthest) > 1:
        raise Refused("keep-unclear", clause.at("PLACE"), place=place, parts=len(furthest))
    return [*furthest, *(n for n in order if n != furthest[0])]


def kept_place(said: Said) -> str:
    """The place that the clause `keep` says, or empty."""
    clause = said.clause("keep")
    return clause.word("PLACE") if clause is not None else ""


def low_and_left(part: Unit) -> tuple[Exact, Exact]:
    """How high the middle of a part lies, and how far to the right."""
    middle = _middle(part)
    return middle.y, middle.x


def _middle(unit: Unit) -> Vector:
    """The centroid of the raw outline: triangles from one corner, each weighed by its area."""
    outline = raw_outline(unit)
    origin = outline[0]
    total, weight = Vector(0, 0), Exact(0)
    for i in range(1, len(outline) - 1):
        a, b = outline[i] - origin, outline[i + 1] - origin
        twice = a.cross(b)
        total = total + (a + b) * twice
        weight = weight + twice
    return origin + total / (weight * 3)


def kinds(parts: tuple[Unit, ...]) -> list[tuple[Unit, int]]:
    """The first part of each kind, in order, and how many there are of it."""
    found: list[tuple[Unit, int]] = []
    for part in parts:
        for i, (first, count) in enumerate(found):
            if alike(first, part) is not None:
                found[i] = (first, count + 1)
                break
        else:
            found.append((part, 1))
    return found


def unlike(first: Unit, second: Unit) -> dict[str, object]:
    """How two parts differ: `how` is `mirror`, `size` (with both sizes) or `colours`."""
    if alike(first, mirrored(second)) is not None:
        return {"how": "mirror"}
    sizes = (width(first), height(first)), (width(second), height(second))
    if sorted(sizes[0]) == sorted(sizes[1]):
        return {"how": "colours"}
    return {"how": "size", "first": sizes[0], "second": sizes[1]}
