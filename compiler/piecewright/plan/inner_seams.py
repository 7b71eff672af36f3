"""Sentences for seams that do not go from raw edge to raw edge: set in, stopped short, sewn in part, finished; and
for strips that begin a step beside each other."""

from __future__ import annotations

from collections.abc import Sequence

from piecewright.kernel.action import Sew
from piecewright.kernel.build import Settings, Step
from piecewright.plan.places import facing
from piecewright.plan.rounding import given_size, measured_size
from piecewright.plan.words import listed, sentence


def set_text(piece: str, step: Step, copies: int) -> str:
    """`Set a sand square 3⅜ into each corner: …`; `piece` with its article."""
    ways = list(step.places)
    each = " of each" if copies > 1 else ""
    if ways == ["corners"]:
        where = f"the inner corner at each corner{each}"
    else:
        told = ["each corner" if way == "corners" else f"the {way.replace('-', ' ')}" for way in ways]
        where = f"the inner corner{'s' if len(ways) > 1 else ''} at {listed(told)}{each}"
    dots = "the dot" if len(ways) == 1 and ways != ["corners"] else "each dot"
    return sentence(
        f"set {piece} into {where}: pin its corner to {dots}, and sew from the dot outward, first the one edge and then"
        " the other, with the allowances of the seam between them folded out of the way"
    )


def stop_text(sews: Sequence[Sew], settings: Settings) -> str:
    """`Stop ¼ from the raw edge, at the dot.`"""
    dots = max((len(sew.stops) for sew in sews if not sew.part), default=0)
    if not dots:
        return ""
    seam = given_size(settings.seam, settings).shown
    where = "at the dot" if dots == 1 else "at both dots"
    return f"Stop {seam} from the raw edge {where}, and sew a few stitches back."


def part_text(sew: Sew) -> str:
    """What follows the edge that is sewn in part: `, the lower ends even, but only from there to the dot`."""
    first, edge = sew.first, sew.first_edges[0]
    along = first.directions[edge].floats
    start = first.corners[edge].finished
    # the sewn part runs from the even end to the mark, whichever way the edge goes
    toward = (-along[0], -along[1]) if start != sew.stops[0] else along
    if abs(toward[0]) > abs(toward[1]):
        end = "right" if toward[0] > 0 else "left"
    else:
        end = "upper" if toward[1] > 0 else "lower"
    return f", the {end} ends even, but only from there to the dot in the middle; leave the rest open"


def step_text(sew: Sew, settings: Settings) -> str:
    """What follows the edge that a stepped strip is sewn to: `, its left end 1½ out beyond that of the strip above`."""
    assert sew.step is not None
    end = "left" if sew.step < 0 else "right"
    beside = {"bottom": "above", "top": "below"}.get(facing(sew.first, sew.first_edges[0]), "before")
    return f", its {end} end {measured_size(abs(sew.step), settings).shown} out beyond that of the strip {beside}"


def finish_text() -> str:
    """`Finish the seam that was left open, from the dot outward.`"""
    return "Finish the seam that was left open, from the dot to the raw edge."
