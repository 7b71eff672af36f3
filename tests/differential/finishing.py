"""The back and the edge of a quilt: panels sewn side by side, and a strip that is long enough to go round."""

from __future__ import annotations

from typing import Any

from differential.back import Back
from piecewright.exact import Exact
from piecewright.kernel import action as done
from piecewright.kernel.measure import bounds
from piecewright.kernel.pieces import rectangle


def backed(action: done.Back, back: Back) -> None:
    """The panels, sewn by the reference, are the whole backing, which reaches as far beyond the top on every side."""
    backing, fabric, s = action.backing, action.fabric, action.top.allowance
    left, bottom, right, top = bounds(action.top)
    assert backing.width - (right - left) == backing.height - (top - bottom) > 0
    assert backing.last <= backing.panel
    along, across = ((0.0, 1.0), (1.0, 0.0)) if backing.upright else ((1.0, 0.0), (0.0, 1.0))

    def panel(wide: Exact, long: Exact) -> Any:
        return back.piece(*((wide, long) if backing.upright else (long, wide)), fabric, s)

    def joined(first: Any, other: Any, way: tuple[float, float]) -> Any:
        here, there = way, (-way[0], -way[1])
        return back.sew(first, facing(first, here, back), other, facing(other, there, back), False)

    last, rest = panel(backing.last, backing.piece), backing.length
    for _ in range(1, backing.pieces):
        rest -= backing.piece - s * 2
        last = joined(last, panel(backing.last, min(rest, backing.piece)), along)  # the last one trimmed even
    whole = last
    for number in range(1, backing.panels):
        first = panel(backing.panel, backing.length)
        whole = first if number == 1 else joined(whole, first, across)
    if backing.panels > 1:
        whole = joined(whole, last, across)
    back.check(whole, rectangle(backing.width, backing.height, fabric=fabric, allowance=s))


def bound(action: done.Bind, back: Back) -> None:
    """Once round the raw edge as the reference measures it; and the strips, less what each join takes, are as long as
    is wanted, and one strip less is not."""
    binding, s = action.binding, action.top.allowance
    back.goes_round(action.top, binding.round)
    assert binding.length > binding.round
    if binding.square is not None:  # its bands lie apart along the straight edges, which are an allowance short of it
        square, apart = binding.square, binding.width * Exact.root(2)
        assert square.bands * apart <= square.side - s < (square.bands + 1) * apart
        assert square.length >= binding.length
        return
    join = binding.width if binding.join == "diagonal" else s * 2
    before = (binding.full - join) * (binding.strips - 1)  # what all but the last strip add
    assert binding.last <= binding.full and before + binding.last >= binding.length
    assert binding.strips == 1 or before + join < binding.length


def facing(unit: Any, outward: tuple[float, float], back: Back) -> int:
    """The longest edge that faces one way."""
    found = [(length, n) for n, (normal, length) in enumerate(back.normals(unit)) if near(normal, outward)]
    return max(found)[1]


def near(one: tuple[float, float], other: tuple[float, float]) -> bool:
    return abs(one[0] - other[0]) + abs(one[1] - other[1]) < 1e-9
