"""A seam sewn in part: only from one end to a mark, the rest left open until `close`."""

from __future__ import annotations

from piecewright.exact import Exact, Vector
from piecewright.kernel.chain import Fit, Joined, chain
from piecewright.kernel.errors import SewingError
from piecewright.kernel.measure import edge_length
from piecewright.kernel.polygon import HALF, ZERO
from piecewright.kernel.takein import marked
from piecewright.kernel.unit import Pressed, Unit


def sewn_in_part(
    first: Unit, i: int, second: Unit, j: int, *, fit: Fit, tolerance: Exact = ZERO, pressed: Pressed = "open"
) -> tuple[Unit, int, Joined, Vector]:
    """The first half of the seam between two edges, from the end at which they are even: `fit` is `start` or `end`
    of `first`'s edge.

    Gives `first` with a mark where the sewing stops, the number of its sewn edge, what was sewn, and the mark.
    Between the mark and the end that is open the edges lie against each other unsewn, so the outline runs in to the
    mark and out again. Where the edges differ, the shorter one is halved. SewingError as for `chain`.
    """
    one, other = edge_length(first, i, finished=True), edge_length(second, j, finished=True)
    along = first.directions[i]
    start, end = first.corners[i].finished, first.corners[(i + 1) % len(first.corners)].finished
    reach = along * (min(one, other) * HALF)
    mark = start + reach if fit == "start" else end - reach
    first, i = marked(first, i, mark)
    if fit == "end":
        i += 1
    joined = chain(first, i, second, j, fit=fit, tolerance=tolerance, pressed=pressed)
    return first, i, joined, mark


def slits(unit: Unit) -> tuple[int, ...]:
    """The corners at which the outline turns back along itself: where a seam sewn in part stops."""
    return tuple(n for n, along in enumerate(unit.directions) if along == -unit.directions[n - 1])


def open_seam(unit: Unit, tolerance: Exact) -> int:
    """The corner at which two edges lie against each other, equally long within the tolerance: the open end of a
    seam that was sewn in part. Of several the lowest, and of those the leftmost.

    SewingError: `not-open` where there is none, `edges-differ` where one side is longer than the other.
    """
    count = len(unit.corners)
    found = slits(unit)
    if not found:
        raise SewingError("not-open")
    lengths = [
        (edge_length(unit, (n - 1) % count, finished=True), edge_length(unit, n, finished=True)) for n in found
    ]
    ready = [n for n, (one, other) in zip(found, lengths, strict=True) if abs(one - other) <= tolerance]
    if not ready:
        one, other = lengths[0]
        raise SewingError("edges-differ", first=one, second=other, difference=abs(one - other))
    return min(ready, key=lambda n: unit.corners[n].finished.floats[::-1])
