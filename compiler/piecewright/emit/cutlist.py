"""The cut list and the cutting plan as comma-separated values (RFC 4180)."""

from __future__ import annotations

import csv as lines_of  # this module is imported only when files are written
import io
from collections.abc import Sequence

from piecewright.plan.model import Plan, StripPlan

HEADER = ("fabric", "shape", "width", "height", "count", "reversed", "label")


def csv(plan: Plan) -> str:
    """One line a row of the cut list, sizes as on the ruler (`6 1/2`), lines ended as RFC 4180 says. Where prints are
    chosen from an assorted fabric, the label ends with how many of one print, and how many times.

    Spreadsheets take a cell that begins with `=`, `+`, `-` or `@` for a formula. Names in a pattern begin with
    a letter and sizes with a digit, so no cell begins so and none is changed: other programs read back what
    stands in the pattern.
    """
    text = io.StringIO(newline="")
    writer = lines_of.writer(text, lineterminator="\r\n")
    writer.writerow(HEADER)
    for cut in plan.cuts:
        reversed_ = "yes" if cut.reversed else "no"
        label = cut.label
        if cut.each is not None and cut.batches is not None:
            label = f"{label} ({cut.each} of one print; {cut.batches} times)"
        writer.writerow(
            (cut.fabric, cut.shape, cut.width.ruler, cut.height.ruler, cut.count, reversed_, label)
        )
    return text.getvalue()


CUTTING = (
    "fabric", "number", "from", "strips", "strip width", "strip length", "shape", "width", "height", "pieces",
)  # fmt: skip


def cutting_csv(plan: Plan, strips: Sequence[StripPlan]) -> str:
    """The strips in cutting order, one line for each kind of piece that is cut from a kind of strip; `number` is that
    of the instruction, and `pieces` are counted over all its strips. Strips of which no piece is cut whole, but joined,
    stand with empty pieces."""
    text = io.StringIO(newline="")
    writer = lines_of.writer(text, lineterminator="\r\n")
    writer.writerow(CUTTING)
    for strip in strips:
        writer.writerows(_cut_lines(plan, strip))
    return text.getvalue()


def _cut_lines(plan: Plan, strip: StripPlan) -> list[tuple[str | int, ...]]:
    lead = (strip.fabric, strip.number, strip.source, strip.strips, strip.height.ruler, strip.length.ruler)
    lines: list[tuple[str | int, ...]] = []
    for place, count in strip.pieces:
        cut = plan.cuts[place]
        lines.append((*lead, cut.shape, cut.width.ruler, cut.height.ruler, count))
    return lines or [(*lead, "", "", "", "")]
