"""What is said of a table on point: how it is laid out, sashed, filled, sewn in diagonal rows and trimmed."""

from __future__ import annotations

from collections.abc import Sequence

from piecewright.exact import Exact
from piecewright.kernel.action import Lay
from piecewright.kernel.build import Piece, Settings, Step
from piecewright.plan.quartered import squares
from piecewright.plan.rounding import cut_size, given_size, with_unit
from piecewright.plan.tongue import Source, Tongue
from piecewright.plan.words import listed, plural, sentence

OPEN = "Press every seam open."
SIDE, CORNER = "side triangle", "corner triangle"
POST = " post"
LONGER = " longer post"  # behind its fabric
END = "end strip"


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
    if blocks == 1:
        return "Lay the block on point, as the figure shows."
    if blocks in (wide, len(action.rows)):
        way = "side by side" if blocks == wide else "one below the other"
        return f"Lay out {blocks} blocks on point, {way}, as the figure shows; do not sew them yet."
    rows = (len(action.rows) + 1) // 2
    between = f"a row of {wide - 1}" if rows == 2 else f"rows of {wide - 1}"
    return (
        f"Lay out {plural(blocks, 'block')} on point, {plural(rows, 'row')} of {wide} with {between} between them, as"
        " the figure shows; do not sew them yet."
    )


def sashes_text(counts: Sequence[tuple[Source, int]], action: Lay, tongue: Tongue) -> str:
    """`Lay the sashes with them, on all sides of every block: …`; where there are posts these come last, the longer
    ones behind the others."""
    names = {name for row in action.names for name in row}
    longer = any(name.endswith(LONGER) for name in names)
    posts = ["posts"] if any(name.endswith(POST) and not name.endswith(LONGER) for name in names) else []
    posts += ["longer posts"] if longer else []
    strips = len(counts) - len(posts)
    named = []
    for number, (source, count) in enumerate(counts):
        is_strip = isinstance(source, Piece) and source.shape == "rectangle" and number < strips
        what = tongue.counted(source, count, noun="strip" if is_strip else "")
        named.append(what if number < strips else f"{what} as {posts[number - strips]}")
    text = f"Lay the sashes with them, on all sides of every block, as the figure shows: {listed(named)}."
    beyond = "reach beyond the edge, where they are trimmed later"
    if longer:
        text += f" The longer posts lie at the ends of the diagonal rows and {beyond}."
    elif not posts:
        further = f" and {beyond}" if _long(action, 0) > _long(action, 1) else ""
        text += f" The longer strips lie along the diagonal rows{further}."
    return f"{text} Do not sew them yet."


def _long(action: Lay, row: int) -> Exact:
    """How far a diagonal row reaches from end to end, finished, in inches."""
    ends = [corner.finished.dot(action.along) for unit in action.rows[row] for corner in unit.corners]
    return max(ends) - min(ends)


def fill_text(action: Lay, step: Step, tongue: Tongue, pressing: str) -> str:
    """What the triangles are cut from, how all is sewn and where the edges are trimmed."""
    targets = sorted(step.places, reverse=True)  # sides first, as they are supplied
    cut = [
        _cut(target, square, count, action, tongue.settings)
        for target, (square, count) in zip(targets, squares(step), strict=True)
    ]
    ends = [tongue.counted(one.source, one.count) for one in step.supplies if one.source not in dict(squares(step))]
    text = sentence(f"cut {', and '.join(cut)}")
    if ends:
        text += f" Cut {listed(ends)} as end strips."
    if not action.sewn:
        where = "at the sides, the long sides outward" if "sides" in step.places else "at the corners"
        also = ", with an end strip at either end of each row of sashes" if ends else ""
        return f"{text} Lay them {where}{also}, as the figure shows; do not sew them yet."
    assert action.trimmed is not None
    sashed, floats = is_sashed(action), any(name.endswith(END) for row in action.names for name in row)
    points = "points of the blocks"
    if sashed:
        points = "outermost points of the sashes" if floats else "middles of the outer posts"
    if sashed and pressing != OPEN:
        pressing = "Press every seam toward the sashes"
        pressing += ", those of the end strips toward these." if floats else "."
    outside = with_unit(given_size(action.trimmed, tongue.settings).shown, tongue.settings.units)
    return (
        f"{text} {_sewing(action, 'strip' if sashed else 'block', floats=floats)} {pressing} Trim all four edges"
        f" straight, {outside} beyond the {points}."
    )


def _sewing(action: Lay, beside: str, *, floats: bool) -> str:
    """How the diagonal rows are laid and sewn."""
    sides = any(name.endswith(SIDE) for row in action.names for name in row)
    if not sides and beside == "block":
        return (
            "Sew a triangle to each of two opposite sides of the block, the middle of its long side on the middle of"
            " the side. Cut off the tips that reach beyond, then sew the other two to the other sides."
        )
    laid = "Lay the triangles round the blocks, the long sides of the side triangles outward"
    how = f"the middle of the long side of a corner triangle on the middle of the {beside}"
    if sides:
        how = f"the square corner of a side triangle even with the corner of the {beside} beside it, {how}"
    else:
        laid = "Lay the triangles round the block, the long sides toward it"
    if floats:
        laid = f"{laid}, and an end strip at either end of each row of sashes"
    return (
        f"{laid}. Sew each diagonal row together: {how}. Cut off the tips that reach beyond, then sew the rows to each"
        " other."
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
