"""The backing of a quilt: how many panels of cloth, joined in the direction that takes the least.

Lengths are inches, exact.
"""

from __future__ import annotations

from piecewright.dataclass import dataclass
from piecewright.exact import Exact

ROUND = Exact(4)  # inches that backing and batting reach beyond the top on every side, as quilting takes it up
ROUND_METRIC = Exact(10)  # the same in centimetres


@dataclass(frozen=True, slots=True, kw_only=True)
class Backing:
    """`width` and `height` of the whole, and of the batting. Of `panels`, all but the last are `panel` wide, the
    usable width of the cloth, and `last` is the last one; each is `length` long along the cloth. `upright`: the
    seams between them run up and down the quilt, else across it."""

    width: Exact
    height: Exact
    panels: int
    panel: Exact
    last: Exact
    length: Exact
    upright: bool

    @property
    def cloth(self) -> Exact:
        """The length of cloth that the panels take, side by side none of them fitting twice."""
        return self.length * self.panels


def backing(width: Exact, height: Exact, usable: Exact, seam: Exact, beyond: Exact) -> Backing:
    """The backing of a top of this size, raw edges included, of cloth so wide. ValueError for cloth no wider than
    two allowances.

    Panels n of usable width u make n * u - (n - 1) * 2s, so that n = ceil((w - 2s) / (u - 2s)). Of the two directions
    the one that takes less cloth is kept, and with equal lengths the one with fewer seams, then upright seams.
    """
    if usable <= seam * 2:
        raise ValueError("a panel no wider than its seams")
    across, down = width + beyond * 2, height + beyond * 2

    def paneled(side: Exact, length: Exact, upright: bool) -> Backing:
        count = max(1, ((side - seam * 2) / (usable - seam * 2)).ceil())
        last = side + seam * 2 * (count - 1) - usable * (count - 1)
        return Backing(
            width=across,
            height=down,
            panels=count,
            panel=usable if count > 1 else last,
            last=last,
            length=length,
            upright=upright,
        )

    upright, level = paneled(across, down, True), paneled(down, across, False)
    return level if (level.cloth, level.panels) < (upright.cloth, upright.panels) else upright
