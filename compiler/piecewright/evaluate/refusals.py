"""What cannot be sewn, in craft words: one entry for each kind of refusal."""

from __future__ import annotations

from collections.abc import Callable
from typing import cast

from piecewright.evaluate.expect_refusals import EXPECT_SAYINGS
from piecewright.evaluate.facts import Facts, Saying
from piecewright.evaluate.filler_refusals import FILLER_SAYINGS
from piecewright.evaluate.finishing_refusals import FINISHING_SAYINGS
from piecewright.evaluate.paper_refusals import PAPER_SAYINGS
from piecewright.evaluate.seam_refusals import SEAM_SAYINGS
from piecewright.evaluate.setting_refusals import SETTING_SAYINGS
from piecewright.evaluate.shown import counted
from piecewright.exact import Exact
from piecewright.kernel.build import Settings


def saying(kind: str, facts: dict[str, object], settings: Settings) -> Saying:
    """How a refusal is said."""
    say = SAYINGS.get(kind)
    if say is None:
        return Saying("E310", "this cannot be sewn as it is written")
    return say(Facts(facts, settings))


def _edges_differ(f: Facts) -> Saying:
    first, second, difference = f.length("first"), f.length("second"), f.length("difference")
    longer = "longer" if second > first else "shorter"
    piece = "this" if f.has("table") else "the piece"
    message = (
        f"the edges do not match: that of the work finishes at {f.shown(first)} "
        f"and that of {piece} at {f.shown(second)}, {f.exactly(difference)} {longer}"
    )
    hint: str | None = "say how it is meant to lie: `centred`, or `even at` one end"
    if difference == f.settings.seam * 2:
        hint = f"the difference is two seams, {f.shown(difference)}: every size is a cut size, with its seams"
    elif f.has("table"):
        hint = None
    elif difference <= f.settings.tolerance * 2:
        hint = f"the pattern's tolerance is {f.shown(f.settings.tolerance)}"
    return Saying("E301", message, hint)


def _trim_too_large(f: Facts) -> Saying:
    left, right, top, bottom = f.lengths("short")
    sides = [
        f"{f.shown(short)} at the {name}"
        for name, short in (("left", left), ("right", right), ("top", top), ("bottom", bottom))
        if short
    ]
    if not sides:
        return Saying("E302", "the work does not fill this size: a corner of the ruler lies beside the cloth")
    return Saying(
        "E302", f"the work is too small for this: it lacks {_and(sides)}", "trim to less, or cut the pieces larger"
    )


def _and(parts: list[str]) -> str:
    return parts[0] if len(parts) == 1 else ", ".join(parts[:-1]) + " and " + parts[-1]


def _other_size(f: Facts) -> Saying:
    there, wanted = f.lengths("there"), f.lengths("wanted")
    measure = f.word("measure")
    finished = f.has("finished")
    is_now = "finishes at" if finished else "measures"
    what = "it" if not measure else f"its {measure}"
    said = " by ".join(f.shown(one) for one in there)
    off: list[str] = []
    for axis, one, other in zip(("across", "down"), there, wanted, strict=False):
        if one != other:
            more = "more" if one > other else "less"
            off.append(f"{f.exactly(abs(one - other))} {more}" + (f" {axis}" if len(there) > 1 else ""))
    message = f"{what} {is_now} {said}, not {' by '.join(f.shown(one) for one in wanted)}: {_and(off)}"
    if f.has("within"):
        message += f", and {f.shown(f.length('within'))} is allowed"
    seams = f.length("seams")
    hint = None
    if all(one - other == seams for one, other in zip(there, wanted, strict=True)) and not finished:
        hint = "that is its finished size: say `, finished`, or add two seams"
    elif all(other - one == seams for one, other in zip(there, wanted, strict=True)) and finished:
        hint = "that is its size with the seams: leave out `, finished`"
    return Saying("E401", message, hint)


def _not_alike(f: Facts) -> Saying:
    hint = "give each kind a name, which ends the unit: `cut … into first-part and second-part`"
    if f.has("segments"):
        return Saying("E305", "the segments are not alike", "subcut across the seams of strips that lie left to right")
    how = f.word("how")
    if how in ("layers", "held"):
        held = "some are held by one seam and open, others stay in layers"
        why = held if how == "held" else "their seams lie otherwise"
        return Saying("E305", f"the parts of this cut are not alike: {why}", "cut on lines that part the layers evenly")
    if how == "mirror":
        why = "they are mirror images of each other"
    elif how == "size":
        (a, b), (c, d) = cast(
            "tuple[tuple[Exact, Exact], tuple[Exact, Exact]]", (f.lengths("first"), f.lengths("second"))
        )
        why = f"one measures {f.shown(a)} by {f.shown(b)} and another {f.shown(c)} by {f.shown(d)}"
    else:
        why = "they show different colours or outlines, however they are turned"
    return Saying("E305", f"the parts of this cut are not alike: {why}", hint)


def _not_even(f: Facts) -> Saying:
    hint = "cut it as large as the work, or say in which corner it lies: `at top-left`"
    if not f.has("width"):
        return Saying("E321", "the piece and the work have other outlines, so their raw edges do not lie even", hint)
    mine = f"{f.shown(f.length('width'))} by {f.shown(f.length('height'))}"
    theirs = f"{f.shown(f.length('other_width'))} by {f.shown(f.length('other_height'))}"
    if mine == theirs or f.length("width") * f.length("height") == f.length("other_width") * f.length("other_height"):
        return Saying("E321", f"turned face down over this line, the piece lies {theirs} on work of {mine}")
    return Saying("E321", f"the piece measures {theirs} and the work {mine}, so raw edges do not lie even", hint)


def _names_and_kinds(f: Facts) -> Saying:
    names, kinds = f.count("names"), f.count("kinds")
    alike = "the parts are all alike" if kinds == 1 else f"there are {kinds} kinds of parts"
    hint = "leave out `into`; the parts are one pile" if kinds == 1 else "one name for each kind"
    return Saying("E312", f"{alike}, and {counted(names, 'name')} for them", hint)


def _angle(f: Facts) -> Saying:
    turn = f._facts.get("turn")
    degrees = ""
    if turn is not None:
        from math import atan2, pi  # an angle is only said, never worked with

        x, y = turn.floats  # type: ignore[attr-defined]
        degrees = f", but {abs(atan2(y, x)) * 180 / pi:.1f} degrees off it"
    return Saying(
        "E316",
        f"the seam does not run at 45 degrees{degrees}, so a square cannot be laid on it",
        "trim to the shape of the unit, or `centred`",
    )


def _strip_with_piece(f: Facts) -> Saying:
    if f.has("strip"):
        return Saying(
            "E314", f"a strip set is joined to strips, and {f.word('piece')} is none", "subcut the strips first"
        )
    return Saying(
        "E314",
        f"{f.word('piece')} has no ends, so it joins only other strips",
        "cut a rectangle of the length you need",
    )


SAYINGS: dict[str, Callable[[Facts], Saying]] = {
    "edges-differ": _edges_differ,
    "corners-miss": lambda f: Saying("E301", f"the corners miss each other by {f.exactly(f.length('difference'))}"),
    "angles-differ": lambda f: Saying("E311", "the angles of the two edges do not fit together"),
    "no-room": lambda f: Saying("E310", "the corners would lie on each other: there is no room for this seam"),
    "mark-off-edge": lambda f: Saying("E310", "the piece lies beside the edge it is sewn to"),
    "edge-too-short": lambda f: Saying("E310", "an edge is too short to take up the difference"),
    "trim-too-large": _trim_too_large,
    "cut-misses": lambda f: Saying(
        "E303", "this cut misses the work: all of it lies on one side", "measure from another edge, or less far"
    ),
    "points-meet": lambda f: Saying("E303", "both points are the same, so there is no line to cut on"),
    "cut-inner-corner": lambda f: Saying(
        "E310", "the work has an inner corner, and a straight cut across it is not worked out"
    ),
    "cloth-double": lambda f: Saying("E310", "the cloth lies double here, so this cannot be worked out"),
    "size-not-positive": lambda f: Saying("E304", "a piece of this size is nothing"),
    "too-small": lambda f: Saying(
        "E310", f"nothing of it would be seen: a piece has to be wider than two seams, {f.shown(f.settings.seam * 2)}"
    ),
    "no-such-edge": lambda f: Saying(
        "E306",
        f"no edge faces `{f.word('place')}` as it lies now",
        "an edge is named by where it lies on the table now",
    ),
    "two-such-edges": lambda f: Saying(
        "E307",
        f"two edges are `{f.word('place')}`, equally long: {f.shown(f.length('length'))} finished",
        "turn the work so that one place is clear",
    ),
    "two-edges-face": lambda f: Saying(
        "E307",
        f"no edge faces `{f.word('place')}` exactly, and several do partly",
        f"say {_or(f.words('names'))}",
    ),
    "on-a-seam": lambda f: (
        Saying("E403", f"a seam runs to `{f.word('place')}`: {_and(list(f.words('fabrics'))) or 'nothing'} meet there")
        if f.words("fabrics")
        else Saying("E306", f"there is no cloth at `{f.word('place')}`")
    ),
    "seam-angle": _angle,
    "no-such-seam": lambda f: Saying("E316", f"there is no seam to lay on `{f.word('place')}`"),
    "two-such-seams": lambda f: Saying("E316", f"two seams could lie on `{f.word('place')}`, equally long and near"),
    "no-such-point": lambda f: Saying("E316", "no two seams cross here, so there is no point to measure from"),
    "alignments-disagree": lambda f: Saying(
        "E315",
        f"the ruler cannot lie so: this is {f.exactly(f.length('difference'))} from where the clauses before put it",
        "leave one of them out, or change the size",
    ),
    "direction-outside": lambda f: Saying(
        "E311", "the diagonal of this size has no exact direction", "trim to a size with fractions"
    ),
    "cut-angle-outside": lambda f: Saying(
        "E311", "the direction of this cut cannot be worked out exactly", "trim the work to a size with fractions first"
    ),
    "turn-outside": lambda f: Saying(
        "E311",
        f"a turn by {f.count('degrees')} degrees cannot be worked out exactly",
        "turn by 15, 30, 45, 60 or 90 degrees",
    ),
    "outside-numbers": lambda f: Saying("E311", "an angle of this step cannot be worked out exactly"),
    "not-a-side": lambda f: Saying(
        "E316", f"a ruler has no `{f.word('place')}`", "measure from left, right, top or bottom"
    ),
    "nothing-on-table": lambda f: Saying("E309", "there is nothing on the table yet"),
    **EXPECT_SAYINGS,
    **FILLER_SAYINGS,
    **SEAM_SAYINGS,
    **SETTING_SAYINGS,
    **FINISHING_SAYINGS,
    **PAPER_SAYINGS,
    "not-alike": _not_alike,
    "not-stitched": lambda f: Saying(
        "E320", "the pieces that are placed are not stitched yet", "stitch them first: `stitch beside diagonal`"
    ),
    "nothing-placed": lambda f: Saying(
        "E320", "there is only one layer, so there is nothing to stitch through", "write `place PIECE` first"
    ),
    "nothing-holds": lambda f: Saying(
        "E320", "no seam holds the layers of one part together", "stitch so that each part has a seam, then cut"
    ),
    "named-layers": lambda f: Saying(
        "E320",
        "one of these parts is still in layers, and only one that can be opened is given a name",
        "cut until each part is held by one seam",
    ),
    "stitch-misses": lambda f: Saying(
        "E321", "this line does not run through a piece that was placed", "place a piece on the line first"
    ),
    "lines-disagree": lambda f: Saying(
        "E321",
        "over these lines the piece would be turned face down in different ways",
        "stitch on one line, cut and open, and then go on",
    ),
    "beside-edge": lambda f: Saying(
        "E321",
        f"there is cloth on one side of `{f.word('place')}` only",
        f"`stitch on {f.word('place')}` sews one seam inside the edge",
    ),
    "not-even": _not_even,
    "piece-hangs-over": lambda f: Saying(
        "E321",
        f"the piece, {f.shown(f.length('width'))} by {f.shown(f.length('height'))}, hangs over the work",
        "cut it no larger than the work it lies on",
    ),
    "no-such-corner": lambda f: Saying(
        "E321",
        f"the piece has no square corner to lie at `{f.word('place')}`"
        if f.has("piece")
        else f"the work has no square corner at `{f.word('place')}`",
        "raw edges lie even only in a corner whose edges run across and down",
    ),
    "corner-twice": lambda f: Saying("E321", f"`{f.word('place')}` is named twice"),
    "flip-no-square": lambda f: Saying(
        "E321",
        f"{f.word('piece')} is no square that lies straight, and only such a one is sewn corner to corner and flipped",
        "flip a square, or join a piece cut to its shape",
    ),
    "flip-short": lambda f: Saying(
        "E321",
        "opened, the square does not cover this corner of the work",
        "cut the square larger, or the work squarer",
    ),
    "corner-not-square": lambda f: Saying(
        "E322", "a quarter circle is sewn into a square corner, and this one is not", "trim the work square first"
    ),
    "curve-too-small": lambda f: Saying(
        "E322",
        f"a seam of radius {f.shown(f.length('radius'))} is too tight: the hollow would lie within the allowances",
        f"the radius is that of the seam; make it more than {f.shown(f.length('least'))}",
    ),
    "curve-too-large": lambda f: Saying(
        "E322",
        f"a seam of radius {f.shown(f.length('radius'))} reaches past the edge, which finishes at"
        f" {f.shown(f.length('most'))}",
        f"the radius is that of the seam; make it less than {f.shown(f.length('most'))}",
    ),
    "curves-cross": lambda f: Saying(
        "E322",
        "this curve would cross one that is sewn already",
        "make the radius smaller; in one corner the larger curve is sewn first",
    ),
    "melon-no-rectangle": lambda f: Saying(
        "E322", "a half melon is sewn to a side of a square or rectangle, and this work is none", "trim it first"
    ),
    "melon-too-flat": lambda f: Saying(
        "E322",
        f"this side finishes at {f.shown(f.length('side'))}: a half melon on it would be no deeper than an allowance",
        "make the side longer, or leave it straight",
    ),
    "melon-too-deep": lambda f: Saying(
        "E322",
        f"a half melon on a side that finishes at {f.shown(f.length('side'))} would reach across the work, which"
        f" finishes at {f.shown(f.length('most'))} there",
        "sew half melons to its shorter sides, or make it deeper",
    ),
    "melons-cross": lambda f: Saying(
        "E322",
        "this half melon would meet a curve that is sewn already",
        "a side takes one half melon; another across the work, or a quarter circle, needs room beside it",
    ),
    "radius-outside": lambda f: Saying(
        "E311", "a seam of this radius cannot be worked out exactly", "give a radius with fractions"
    ),
    "curves-in-layers": lambda f: Saying(
        "E320",
        "pieces with curved seams are not worked out in layers or flipped",
        "sew the curve last, or join pieces cut to their shape",
    ),
    "nothing-to-press": lambda f: Saying("E317", "this cut opens no seam, so there is nothing to press"),
    "line-angle-outside": lambda f: Saying(
        "E311", "the direction of this line cannot be worked out exactly", "place a piece of another size"
    ),
    "keep-unclear": lambda f: Saying(
        "E326",
        f"{f.count('parts')} parts of this cut lie equally far at `{f.word('place')}`",
        "name a side or corner where only one of them lies",
    ),
    "laid-by-points": lambda f: Saying(
        "E213", "the points say how the ruler lies, so this says it twice", "leave it out, or write `trim to … by …`"
    ),
    "curve-over-seams": lambda f: Saying(
        "E310", "a curve runs over other seams here, so that the area seen of each cloth is not worked out"
    ),
    "in-pieces": lambda f: Saying("E310", "a part of this would fall in pieces"),
    "one-print": lambda f: Saying(
        "E223",
        f"`{f.word('fabric')}` is one print already, and there is nothing to choose from it"
        if f.has("of")
        else f"`{f.word('fabric')}` is not assorted, so there is nothing to choose from it",
        None if f.has("of") else f"say what it is made of: `fabric {f.word('fabric')}, assorted`",
    ),
    "names-and-kinds": _names_and_kinds,
    "segment-too-long": lambda f: Saying(
        "E303", f"a segment of {f.shown(f.length('segment'))} is longer than the work, {f.shown(f.length('length'))}"
    ),
    "too-many": lambda f: Saying("E215", f"a table of more than {f.count('most')} cells is not worked out"),
    "strip-with-piece": _strip_with_piece,
    "strip-ends": lambda f: Saying(
        "E314", f"a strip has no `{f.word('place')}` end until it is subcut", "join strips on top or bottom"
    ),
    "strip-no-ends": lambda f: Saying("E314", "a strip has no ends until it is subcut", "write `subcut WIDTH` first"),
    "not-beside-seam": lambda f: Saying("E317", f"`{f.word('word')}` does not lie beside this seam"),
    "both-beside-seam": lambda f: Saying(
        "E317", f"`{f.word('word')}` lies on both sides of this seam, equally long", "name a side, or a unit"
    ),
    "side-along-seam": lambda f: Saying(
        "E317", f"the seam itself runs that way, so it is not pressed toward the {f.word('word')}"
    ),
    "centred-and-even": lambda f: Saying("E318", "a piece lies either centred or even at one end"),
    "not-an-end": lambda f: Saying(
        "E318", f"`{f.word('place')}` is not at one end of this edge", "name the end where the two edges begin together"
    ),
    "other-size": _other_size,
    "other-fabric": lambda f: Saying(
        "E403",
        f"{f.word('there')} shows at `{f.word('place')}`, not {f.word('wanted')}",
        "turn the work, or look at the figure of the step before",
    ),
}


def _or(words: tuple[str, ...]) -> str:
    quoted = [f"`{word}`" for word in words]
    return quoted[0] if len(quoted) == 1 else ", ".join(quoted[:-1]) + " or " + quoted[-1]
