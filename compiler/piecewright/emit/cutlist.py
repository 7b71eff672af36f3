"""The cut list as comma-separated values (RFC 4180)."""

from __future__ import annotations

import csv as lines_of  # this module is imported only when files are written
import io

from piecewright.plan.model import Plan

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
