"""What is said of backing, layering and binding a quilt."""

from __future__ import annotations

from piecewright.exact import Exact
from piecewright.kernel.action import Back, Bind
from piecewright.kernel.binding import BiasSquare
from piecewright.kernel.build import Made, Settings
from piecewright.kernel.measure import height, width
from piecewright.plan.model import Extent
from piecewright.plan.rounding import (
    cut_size,
    given_size,
    least_size,
    measured_extent,
    up_to_mark,
    with_unit,
    written_size,
)
from piecewright.plan.words import extent_text, plural, sentence

# as sold, in inches: names and sizes vary by maker, and the crib's is common practice, no source
BATTINGS = (("crib", 45, 60), ("twin", 72, 90), ("full", 81, 96), ("queen", 90, 108), ("king", 120, 120))


def bound_in(made: Made) -> str | None:
    """The fabric of a quilt's binding; None for what is not bound."""
    bound = (action for step in made.steps for action in step.actions if isinstance(action, Bind))
    return next((action.fabric for action in bound), None)


def bound_size(made: Made, settings: Settings) -> Extent | None:
    """How large a quilt is when it is bound; None for what is not. The strip is turned over the raw edge, and how thick
    its cloth is no pattern says, so that is the size of the raw top."""
    if bound_in(made) is None:
        return None
    return measured_extent(width(made.unit), height(made.unit), settings)


def batting(width: Exact, height: Exact) -> tuple[str, int, int] | None:
    """The smallest batting as it is sold that is as large in one direction or the other; None where none is."""
    short, long = min(width, height), max(width, height)
    return next((one for one in BATTINGS if short <= one[1] and long <= one[2]), None)


def back_text(action: Back, settings: Settings) -> tuple[str, tuple[str, ...]]:
    """How the backing is joined and the layers are put together; and the sizes of all three."""
    whole = action.backing
    across, down = (cut_size(side, settings).shown for side in (whole.width, whole.height))
    top = extent_text(measured_extent(width(action.top), height(action.top), settings))
    beyond = given_size((whole.width - width(action.top)) / 2, settings).shown
    text = _panels_text(action, settings)
    text += (
        " Lay the backing with its wrong side up, the batting on it and the top, right side up, in the middle. Baste"
        " the layers and quilt them; then trim backing and batting even with the top."
    )
    details = [
        f"backing and batting: {across} by {down} each, {beyond} beyond the top on every side",
        f"top, with its seam allowance: {top}",
    ]
    sold = batting(whole.width, whole.height) if settings.units == "inch" else None
    if sold is not None:
        details.append(f"a batting sold as {sold[0]}, {sold[1]} by {sold[2]}, is large enough")
    return sentence(text), tuple(sentence(detail) for detail in details)


def _panels_text(action: Back, settings: Settings) -> str:
    """What the backing is sewn from, with how the selvages lie."""
    whole, fabric = action.backing, action.fabric
    wide, last, length, piece = (
        cut_size(size, settings).shown for size in (whole.panel, whole.last, whole.length, whole.piece)
    )
    run = f"the selvages {'up and down' if whole.upright else 'across'} the quilt"
    beside = f"{'side by side' if whole.upright else 'one below the other'}, {run}"

    def sewn(count: int, size: str, how: str) -> str:
        return f"{plural(count, 'panel')} of {fabric}, {size}, together {how}, and press {_the_seams(count - 1)} open"

    if whole.seams == 0:
        return f"The backing is one piece of {fabric}, {last} wide and {length} along the selvages: {run}."
    narrow = f"each {last} wide and {piece} along the selvages"
    if whole.panels == 1:
        return f"Sew the {sewn(whole.pieces, narrow, f'end to end, {run}')}."
    if whole.panel == whole.last:
        size = f"each {wide} wide and {length} along the selvages"
    elif whole.panels == 2:
        size = f"{wide} and {last} wide and each {length} along the selvages"
    else:
        size = f"{whole.panels - 1} of them {wide} and one {last} wide, and each {length} along the selvages"
    if whole.pieces == 1:
        return f"Sew the {sewn(whole.panels, size, beside)}."
    more = whole.piece * whole.pieces - settings.seam * 2 * (whole.pieces - 1) - whole.length
    even = f", and trim it to {length}" if more else ""
    first = sewn(whole.pieces, narrow, "end to end")
    return f"Sew the {first}, for the narrow panel{even}. Then sew the {sewn(whole.panels, size, beside)}."


def _the_seams(count: int) -> str:
    return "the seam" if count == 1 else "the seams"


def bind_text(action: Bind, settings: Settings) -> tuple[str, tuple[str, ...]]:
    """How the strip is made and sewn on; and how long it must be."""
    made = action.binding
    wide = written_size(made.width, settings).shown
    seam = with_unit(given_size(settings.seam, settings).shown, settings.units)
    length, once = cut_size(made.length, settings).shown, cut_size(made.round, settings).shown
    more = given_size(made.length - made.round, settings).shown
    details = [f"the strip must be {length} long: {once} round the quilt, and {more} for corners and ends"]
    if made.square is not None:
        text = _bias_text(made.square, action.fabric, wide, settings)
        each, whole = (least_size(one, settings).shown for one in (made.square.band, made.square.length))
        details.append(
            f"the square gives {made.square.bands} whole bands, each at least {each} of strip when it is sewn:"
            f" at least {whole}"
        )
    elif made.strips == 1:
        text = f"The binding is one {action.fabric} strip {wide}."
    else:
        how = "on the diagonal" if made.join == "diagonal" else "with straight seams"
        text = f"Join the {made.strips} {action.fabric} strips {wide} end to end {how}, and press the seams open."
    if made.square is None and up_to_mark(made.width, settings.ruler) != made.width:
        details.append(f"the strips are cut {cut_size(made.width, settings).shown}, the next mark of the ruler")
    text += (
        " Fold the strip lengthwise, wrong sides together, and press. Sew it to the front of the quilt, all raw edges"
        f" even, with a seam of {seam}; fold a mitre at each corner, and join the ends. Turn it over the edge and sew"
        " the fold down on the back."
    )
    if made.strips > 1:
        loss = made.width if made.join == "diagonal" else settings.seam * 2
        joins = plural(made.strips - 1, "join")
        details.append(f"{joins}, each of which takes up {written_size(loss, settings).shown}")
    return sentence(text), tuple(sentence(detail) for detail in details)


def _bias_text(square: BiasSquare, fabric: str, wide: str, settings: Settings) -> str:
    """How a square becomes a strip: two halves, a slanted piece, a tube."""
    side = cut_size(square.side, settings).shown
    return (
        f"Cut the {fabric} square {side} once from corner to corner. Lay the halves right sides together, two straight"
        " edges even and each point standing out by one seam, so that the bias edges will run on straight; sew, and"
        f" press the seam open. On the wrong side of this slanted piece draw lines along a bias edge, {wide} apart, for"
        f" {square.bands} whole bands, and cut off what is left beyond the last. Sew the other two straight edges"
        " together into a tube, shifted by one band, the lines meeting on the seam line; press the seam open, and cut"
        " along the line round and round."
    )
