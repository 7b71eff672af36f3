"""Sentences for sewing onto a paper foundation, and the sheet that is printed for it."""

from __future__ import annotations

from piecewright.kernel.action import Add
from piecewright.kernel.build import Made, Step
from piecewright.kernel.foundation import Foundation, beside, in_glass, sewn
from piecewright.kernel.measure import bounds_of
from piecewright.kernel.unit import Polygon
from piecewright.plan.model import FoundationArea, FoundationPlan, Point
from piecewright.plan.rounding import drawn_point, given_size, measured_extent
from piecewright.plan.tongue import Tongue, brought
from piecewright.plan.words import article, listed, sentence

CAUTIONS = (
    "Print foundations at true size, not fitted to the page, and measure the check marks before you sew.",
    "A foundation is the mirror image of the unit: the cloth lies on the side without print, and you sew on the "
    "printed side.",
    "Shorten the stitch for sewing on paper; it holds better and the paper tears off more easily.",
    "Leave the paper in until all edges of the unit are sewn, then tear it off.",
)


def add_text(action: Add, step: Step, tongue: Tongue) -> str:
    """`Lay a sky rough piece 3 × 5 on it, right sides together, its edge past the line between areas 1 and 2. Turn the
    paper over and sew on that line, ¼ past both ends. Trim ¼ beyond the seam, open the piece and press it.`"""
    foundation, number = action.foundation, action.number
    seam = given_size(foundation.allowance, tongue.settings).shown
    sources = brought(step)
    piece = article(tongue.called(sources[0] if sources else None, f"{foundation.pieces[number].fabric} rough piece"))
    last = number == len(foundation.pieces) - 1
    texts: list[str]
    if not number:
        texts = [
            "print the foundation at true size, one for each unit",
            f"lay {piece} on the side without print, right side up, so that it covers area 1 with more than {seam} to "
            "spare all round, and pin it",
        ]
    else:
        line = _line(foundation, number)
        texts = [
            f"lay {piece} on it, right sides together, over area{'s' if len(beside(foundation, number)) > 1 else ''} "
            f"{_areas(beside(foundation, number))}, its edge more than {seam} past {line}",
            f"turn the paper over and sew on that line, {seam} past both ends",
            f"fold the paper back and trim {seam} beyond the seam, open the piece over area {number + 1} and press it",
        ]
    if last:
        texts.append("trim all round on the broken line of the paper, and leave the paper in")
    return " ".join(sentence(text) for text in texts)


def _line(foundation: Foundation, number: int) -> str:
    """`the line between areas 1 and 2`, `the line between area 4 and areas 1 to 3`."""
    others = beside(foundation, number)
    if len(others) == 1:
        return f"the line between areas {others[0] + 1} and {number + 1}"
    return f"the line between area {number + 1} and areas {_areas(others)}"


def _areas(numbers: tuple[int, ...]) -> str:
    return listed([str(one + 1) for one in numbers])


def foundation_of(made: Made) -> Foundation | None:
    """What the steps of a unit sew onto, or None."""
    for step in made.steps:
        for action in step.actions:
            if isinstance(action, Add):
                return action.foundation
    return None


def foundation_plan(foundation: Foundation, name: str, title: str, count: int, tongue: Tongue) -> FoundationPlan:
    """What is printed, as in a mirror. `count`: how many are wanted."""
    printed = in_glass(foundation)
    s = printed.allowance
    return FoundationPlan(
        id=name,
        title=title,
        count=count,
        size=measured_extent(printed.width, printed.height, tongue.settings),
        width=float(printed.width),
        height=float(printed.height),
        allowance=float(s),
        areas=tuple(
            FoundationArea(
                number=number,
                fabric=piece.fabric,
                outline=tuple(drawn_point(p) for p in piece.seen),
                at=middle(piece.finished),
            )
            for number, piece in enumerate(printed.pieces, 1)
        ),
        lines=tuple(
            (drawn_point(start), drawn_point(end))
            for number in range(1, len(printed.pieces))
            for start, end in (sewn(printed, number),)
        ),
    )


def middle(polygon: Polygon) -> Point:
    """Where a number stands well in a convex area: its centre of gravity, in inches."""
    left, bottom, _, _ = bounds_of(polygon)
    x0, y0 = float(left), float(bottom)
    corners = [(x - x0, y - y0) for x, y in (p.floats for p in polygon)]
    whole = across = up = 0.0
    for (a, b), (c, d) in zip(corners, corners[1:] + corners[:1], strict=True):
        part = a * d - b * c
        whole, across, up = whole + part, across + (a + c) * part, up + (b + d) * part
    return round(x0 + across / (3 * whole), 4), round(y0 + up / (3 * whole), 4)
