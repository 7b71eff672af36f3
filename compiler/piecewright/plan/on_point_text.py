"""What is said of a table on point: how it is laid out, sashed, filled, sewn in diagonal rows and trimmed."""

from __future__ import annotations

from collections.abc import Sequence

from piecewright.kernel.action import Lay
from piecewright.kernel.build import Piece, Settings, Step
from piecewright.plan.quartered import squares
from piecewright.plan.rounding import cut_size, given_size, with_unit
from piecewright.plan.tongue import Source, Tongue
from piecewright.plan.words import listed, plural, sentence

OPEN = "Press every seam open."
SIDE, CORNER = "side triangle", "corner triangle"
LONGER = " longer post"  # behind its fabric


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


def sashes_text(counts: Sequence[tuple[Source, int]], action: Lay, tongue: Tongue) -> str:
    """`Lay the sashes with them, on all sides of every block: …`; where there are posts the last two are these, and
    the longer ones last."""
    posts = len(counts) - 2 if len(action.rows[0]) > 1 else len(counts)
    named = []
    for number, (source, count) in enumerate(counts):
        is_strip = isinstance(source, Piece) and source.shape == "rectangle" and number < posts
        what = tongue.counted(source, count, noun="strip" if is_strip else "")
        named.append(what if number < posts else f"{what} as {'longer posts' if number > posts else 'posts'}")
    if posts < len(counts):
        longer = "posts lie at the ends of the diagonal rows"
    else:
        longer = "strips lie along the diagonal rows"
    return (
        f"Lay the sashes with them, on all sides of every block, as the figure shows: {listed(named)}. The longer"
        f" {longer} and reach beyond the edge, where they are trimmed later. Do not sew them yet."
    )


def fill_text(action: Lay, step: Step, tongue: Tongue, pressing: str) -> str:
    """What the triangles are cut from, how all is sewn and where the edges are trimmed."""
    counts = [one.count for one in step.supplies]
    targets = sorted(step.places, reverse=True)  # sides first, as they are supplied
    cut = [
        _cut(target, square, count, action, tongue.settings)
        for target, square, count in zip(targets, squares(step), counts, strict=True)
    ]
    text = sentence(f"cut {', and '.join(cut)}")
    if not action.sewn:
        where = "at the sides, the long sides outward" if "sides" in step.places else "at the corners"
        return f"{text} Lay them {where}, as the figure shows; do not sew them yet."
    assert action.trimmed is not None
    sashed = is_sashed(action)
    points = "middles of the outer posts" if sashed else "points of the blocks"
    beside = "strip" if sashed else "block"
    if sashed and pressing != OPEN:
        pressing = "Press every seam toward the sashes."
    outside = with_unit(given_size(action.trimmed, tongue.settings).shown, tongue.settings.units)
    return (
        f"{text} Lay the triangles round the blocks, the long sides of the side triangles outward. Sew each diagonal"
        f" row together: the square corner of a side triangle even with the corner of the {beside} beside it, the"
        f" middle of the long side of a corner triangle on the middle of the {beside}. Cut off the tips that reach"
        f" beyond, then sew the rows to each other. {pressing} Trim all four edges straight, {outside} beyond the"
        f" {points}."
    )


def _cut(target: str, source: Piece, count: int, action: Lay, settings: Settings) -> str:
    size = with_unit(cut_size(source.height, settings).shown, settings.units)
    what = f"{count} {source.fabric} {'square' if count == 1 else 'squares'} {size}"
    if target == "corners":
        return f"{what} once from corner to corner, for 4 corner triangles"
    needed = sum(name.endswith(SIDE) for row in action.names for name in row)
    spare = count * 4 - needed
    left = f" ({spare} left over)" if spare else ""
    return f"{what} twice from corner to corner, for {needed} side triangles{left}"
