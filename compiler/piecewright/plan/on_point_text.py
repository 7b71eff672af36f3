"""What is said of a table on point: how it is laid out, sashed, filled, sewn in diagonal rows and trimmed."""

from __future__ import annotations

from piecewright.kernel.action import Lay
from piecewright.kernel.build import Piece, Settings, Step
from piecewright.plan.rounding import cut_size, measured_size, with_unit
from piecewright.plan.tongue import Tongue
from piecewright.plan.words import listed, plural, sentence

OPEN = "Press every seam open."
SIDE, CORNER = "side triangle", "corner triangle"


def is_filler(name: str) -> bool:
    """Whether a piece of a table is a triangle at its edge or corner."""
    return name.endswith((SIDE, CORNER))


def is_sashed(action: Lay) -> bool:
    """Whether a table on point that is sewn has sashes: then its rows of blocks do not end in triangles alone."""
    return not is_filler(action.names[1][0])


def set_out_text(action: Lay) -> str:
    """`Lay out 18 blocks on point, 4 rows of 3 with rows of 2 between them, as the figure shows; …`"""
    blocks = sum(len(row) for row in action.rows)
    wide = len(action.rows[0])
    rows = (len(action.rows) + 1) // 2
    between = f"a row of {wide - 1}" if rows == 2 else f"rows of {wide - 1}"
    return (
        f"Lay out {plural(blocks, 'block')} on point, {plural(rows, 'row')} of {wide} with {between} between them, as"
        " the figure shows; do not sew them yet."
    )


def sashes_text(pieces: str, action: Lay) -> str:
    """`Lay the sashes with them, on all sides of every block: …`"""
    long = any(len(row) == 1 for row in action.rows)
    longer = "strips" if long else "posts"
    return (
        f"Lay the sashes with them, on all sides of every block, as the figure shows: {pieces}. The longer {longer} lie"
        f" {'along the diagonal rows' if long else 'at the ends of the diagonal rows'} and reach beyond the edge, where"
        " they are trimmed later. Do not sew them yet."
    )


def fill_text(action: Lay, step: Step, tongue: Tongue, pressing: str) -> str:
    """What the triangles are cut from, how all is sewn and where the edges are trimmed."""
    squares = [one for one in step.supplies if isinstance(one.source, Piece)]
    cut = [
        _cut(target, squares[n].source, squares[n].count, action, tongue.settings)
        for n, target in enumerate(sorted(step.places, reverse=True))
        if n < len(squares)
    ]
    text = sentence(f"cut {listed(cut)}")
    if not action.sewn:
        return f"{text} Lay them round the blocks; do not sew them yet."
    assert action.trimmed is not None
    sashed = is_sashed(action)
    points = "middles of the outer posts" if sashed else "points of the blocks"
    if sashed and pressing != OPEN:
        pressing = "Press every seam toward the sashes."
    outside = with_unit(measured_size(action.trimmed, tongue.settings).shown, tongue.settings.units)
    return (
        f"{text} Lay the triangles round the blocks, the long sides of the side triangles outward. Sew each diagonal"
        f" row together, then the rows to each other. {pressing} Trim all four edges straight, {outside} beyond the"
        f" {points}."
    )


def _cut(target: str, source: object, count: int, action: Lay, settings: Settings) -> str:
    assert isinstance(source, Piece)
    size = with_unit(cut_size(source.height, settings).shown, settings.units)
    what = f"{count} {source.fabric} {'square' if count == 1 else 'squares'} {size}"
    if target == "corners":
        return f"{what} once from corner to corner, for 4 corner triangles"
    needed = sum(name.endswith(SIDE) for row in action.names for name in row) if action.sewn else 0
    spare = count * 4 - needed
    left = f" ({spare} left over)" if needed and spare else ""
    return f"{what} twice from corner to corner, for {needed or 'the'} side triangles{left}"
