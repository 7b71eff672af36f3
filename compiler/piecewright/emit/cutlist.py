"""The cut list as comma-separated values (RFC 4180)."""

from __future__ import annotations

import csv as lines_of  # this module is imported only when files are written
import io

from piecewright.plan.model import Plan

HEADER = ("fabric", "shape", "width", "height", "count", "reversed", "label", "each", "batches")


def csv(plan: Plan) -> str:
    """One line a row of the cut list, sizes as on the ruler (`6 1/2`), lines ended as RFC 4180 says. Where prints are
    chosen from an assorted fabric, the last two columns say how many of each print, and how many prints.

    Spreadsheets take a cell that begins with `=`, `+`, `-` or `@` for a formula. Names in a pattern begin with
    a letter and sizes with a digit, so no cell begins so and none is changed: other programs read back what
    stands in the pattern.
    """
    text = io.StringIO(newline="")
    writer = lines_of.writer(text, lineterminator="\r\n")
    writer.writerow(HEADER)
    for cut in plan.cuts:
        reversed_ = "yes" if cut.reversed else "no"
        row = (cut.fabric, cut.shape, cut.width.ruler, cut.height.ruler, cut.count, reversed_, cut.label)
        writer.writerow((*row, "" if cut.each is None else cut.each, "" if cut.batches is None else cut.batches))
    return text.getvalue()
