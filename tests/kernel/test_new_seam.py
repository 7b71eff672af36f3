"""The seam that a join reports is the one it sewed, also when both units have seams of their own."""

from __future__ import annotations

from piecewright.exact import Exact
from piecewright.kernel.chain import chain
from piecewright.kernel.pieces import rectangle
from piecewright.kernel.places import edge
from piecewright.kernel.unit import Unit

SEAM = Exact(1, 4)


def pair(one: str, other: str) -> Unit:
    left = rectangle(Exact(3), Exact(2), fabric=one, allowance=SEAM)
    right = rectangle(Exact(3), Exact(2), fabric=other, allowance=SEAM)
    return chain(left, edge(left, "right"), right, edge(right, "left")).unit


def test_the_reported_seam_lies_between_the_two_units() -> None:
    upper, lower = pair("dusk", "sand"), pair("clay", "glow")
    joined = chain(upper, edge(upper, "bottom"), lower, edge(lower, "top"), pressed="left")
    seam = joined.unit.seams[joined.seam]
    assert seam.pressed == "left"
    assert seam.start.y == seam.end.y == SEAM
    assert len(joined.unit.seams) == 3
