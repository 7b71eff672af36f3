"""What a border brings that no other unit is: rows sewn of units and posts, and strips cut for mitres.

Both are made a second time of what the step takes, in the order in which it takes it: one entry for each side, then
the posts.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from typing import Any

from differential.back import Back, Ends, ends
from piecewright.exact import Exact, Vector
from piecewright.kernel.action import Sew
from piecewright.kernel.build import Piece, Step, Supply
from piecewright.kernel.measure import height, width
from piecewright.kernel.moves import moved, rotated, settled
from piecewright.kernel.pieces import rectangle
from piecewright.kernel.unit import Unit

TURNS = {
    " turned right": Vector(Exact(0), Exact(-1)),
    " turned left": Vector(Exact(0), Exact(1)),
    " turned around": Vector(Exact(-1), Exact(0)),
}
Against = Callable[[Any, Unit, tuple[float, float], Back], tuple[int, Any, Ends]]


def brought(action: Sew, step: Step, units: Mapping[str, Unit], back: Back, against: Against) -> None:
    """What is sewn on is what the reference makes of the supplies of this side."""
    sews, supplies = _round(step, action)
    number = next(n for n, sew in enumerate(sews) if _same(sew, action))
    supply, posts = supplies[number], supplies[len(sews) :]
    lies = _lying(action)
    if len(sews[-1].first_edges) > 1:
        _cut(action, supply, units, back, lies)
        return
    if isinstance(supply.source, Piece) and (number < 2 or not posts):
        return  # a strip as it is cut, which is known by its outline
    cell = _unit(supply, units, action.first.allowance)
    for turn in re.findall("|".join(TURNS), action.name):  # each unit of the row lies as it is called
        cell = rotated(cell, TURNS[turn])
    row = [cell] * (1 if isinstance(supply.source, Piece) else supply.count)
    if posts and number >= 2:
        post = _unit(posts[0], units, action.first.allowance)
        row = [post, *row, post]
    whole = back.read(settled(row[0]))
    for cell in row[1:]:
        whole = back.sew(whole, *against(whole, settled(cell), (1.0, 0.0), back), False)
    back.check(whole, lies)


def _cut(action: Sew, supply: Supply, units: Mapping[str, Unit], back: Back, lies: Unit) -> None:
    """The strip is cut at 45 degrees from the corners of the finished side outward. A finished corner is one seam in
    from the side's raw edge, and the raw end of the strip one seam beyond the mitre."""
    strip = settled(_unit(supply, units, action.first.allowance))
    s, deep, long = strip.allowance, height(strip), width(strip)
    middle = action.first_edges[len(action.first_edges) // 2]
    start, end = ends(action.first, middle)
    side = (end - start).dot(action.first.directions[middle])
    beyond = s * Exact.root(2)  # a cut one seam from a line at 45 degrees crosses a level line so far from it
    near, far = (long - side) / 2 - beyond, (long + side) / 2 + beyond
    # on the level of the finished corner, one seam from the raw edge, which lies at the bottom
    left, right = Vector(near, s), Vector(far, s)
    parts = back.cut([back.read(strip)], left, left + Vector(Exact(1), Exact(-1)))
    parts = back.cut(parts, right, right + Vector(Exact(1), Exact(1)))
    placed = moved(lies, Vector(near - (deep - s), Exact(0)))
    for part in parts:
        try:
            back.check(part, placed)
        except AssertionError:
            continue
        return
    raise AssertionError("the strip is not what the reference cuts for a mitre")


def _lying(action: Sew) -> Unit:
    """What is sewn on, its sewn edge at the bottom."""
    edge = action.second_edges[len(action.second_edges) // 2]
    return settled(rotated(action.second, action.second.directions[edge].conjugate()))


def _unit(supply: Supply, units: Mapping[str, Unit], allowance: Exact) -> Unit:
    if isinstance(supply.source, str):
        return units[supply.source]
    piece = supply.source
    assert piece.width is not None
    return rectangle(piece.width, piece.height, fabric=piece.fabric, allowance=allowance)


def _round(step: Step, action: Sew) -> tuple[list[Sew], tuple[Supply, ...]]:
    """The seams of the first or last round of a repeat, whichever one belongs to, and what that round takes."""
    count = len(step.supplies) // step.times
    last = any(isinstance(one, Sew) and _same(one, action) for one in step.last)
    sews = [one for one in (step.last if last else step.actions) if isinstance(one, Sew)]
    return sews, step.supplies[-count:] if last else step.supplies[:count]


def _same(one: Sew, other: Sew) -> bool:
    """Whether both are the seam of one side, be it written down wrongly."""
    return one.first is other.first or one.result is other.result
