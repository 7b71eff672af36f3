"""The backing of a quilt: one piece of cloth, or panels joined in the way that least is bought.

Lengths are inches, exact.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator

from piecewright.dataclass import dataclass
from piecewright.exact import Exact

ROUND = Exact(4)  # inches that backing and batting reach beyond the top on every side, as quilting takes it up
ROUND_METRIC = Exact(10)  # the same in centimetres
PIECES = 3  # that the last panel is sewn of, at most: more seams are a nuisance for the cloth they save


@dataclass(frozen=True, slots=True, kw_only=True)
class Backing:
    """`width` and `height` of the whole, and of the batting. Of `panels`, all but the last are `panel` wide, the
    usable width of the cloth, and `last` is the last one; each is `length` long along the selvages. The last one may be
    sewn end to end from so many `pieces`, each `piece` long, that are cut side by side; together they are a mark or so
    too long. `upright`: the selvages and the seams between panels run up and down the quilt, else across it."""

    width: Exact
    height: Exact
    panels: int
    panel: Exact
    last: Exact
    length: Exact
    upright: bool
    pieces: int
    piece: Exact

    @property
    def cloth(self) -> Exact:
        """The length of cloth that it takes: one panel below the other, and the pieces of the last side by side."""
        return self.length * (self.panels - 1) + self.piece

    @property
    def seams(self) -> int:
        return self.panels - 1 + self.pieces - 1

    @property
    def cuts(self) -> tuple[tuple[Exact, Exact, int], ...]:
        """What is cut: across the cloth, along the selvage, and how many."""
        full = ((self.panel, self.length, self.panels - 1),) if self.panels > 1 else ()
        return (*full, (self.last, self.piece, self.pieces))


def backing(
    width: Exact,
    height: Exact,
    usable: Exact,
    seam: Exact,
    beyond: Exact,
    *,
    mark: Exact,
    buys: Callable[[Exact], Exact],
    directional: bool = False,
    whole: bool = False,
) -> Backing:
    """The backing of a top of this size, raw edges included, of cloth so wide. `buys` says what is bought so that a
    length can be cut; pieces are cut to a whole number of `mark`. The selvages of a `directional` fabric run up and
    down the quilt. `whole`: the last panel is not made of pieces. ValueError for cloth no wider than two allowances.

    Of all ways (one piece of cloth either way up, panels side by side or one below the other, the last one in one to
    `PIECES` pieces) the one is kept for which least is bought, then that with fewest seams, then with least cloth, then
    with the selvages up and down.
    """
    if usable <= seam * 2:
        raise ValueError("a panel no wider than its seams")
    across, down = width + beyond * 2, height + beyond * 2
    ways = [(across, down, True)] if directional else [(across, down, True), (down, across, False)]
    found = [
        Backing(
            width=across,
            height=down,
            panels=panels,
            panel=usable if panels > 1 else last,
            last=last,
            length=length,
            upright=upright,
            pieces=pieces,
            piece=piece,
        )
        for side, length, upright in ways
        for panels, last in (_panels(side, usable, seam),)
        for pieces, piece in _pieces(last, length, whole, usable, seam, mark)
    ]
    return min(found, key=lambda one: (buys(one.cloth), one.seams, one.cloth, not one.upright))


def _panels(side: Exact, usable: Exact, seam: Exact) -> tuple[int, Exact]:
    """How many panels make a side, and how wide the last one is.

    n of width u make n u - 2s (n - 1), so that n = ⌈(side - 2s) / (u - 2s)⌉.
    """
    count = max(1, ((side - seam * 2) / (usable - seam * 2)).ceil())
    return count, side - (usable - seam * 2) * (count - 1)


def _pieces(
    width: Exact, length: Exact, whole: bool, usable: Exact, seam: Exact, mark: Exact
) -> Iterator[tuple[int, Exact]]:
    """In how many pieces a panel may be cut, and how long each is: side by side they lie within the width.

    k of length p make k p - 2s (k - 1), so that p = (length + 2s (k - 1)) / k.
    """
    yield 1, length
    most = 1 if whole else (usable / (mark * (width / mark).ceil())).floor()
    for count in range(2, min(most, PIECES) + 1):
        piece = mark * ((length + seam * 2 * (count - 1)) / count / mark).ceil()
        if piece >= length:
            return
        yield count, piece
