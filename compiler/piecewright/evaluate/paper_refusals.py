"""Refusals about sewing onto a paper foundation."""

from __future__ import annotations

from collections.abc import Callable

from piecewright.evaluate.facts import Facts, Saying

_ENDS = "say two points, `from left-middle to top-right`, or measure along edges, `top 2 from left, left 3 from top`"


def _line_ends(f: Facts) -> Saying:
    ends = f.count("ends")
    told = {0: "no point of it is", 1: "one point of it is"}.get(ends, f"{ends} points of it are")
    return Saying("E323", f"a line runs through two points, and {told} said", _ENDS)


def _not_beside(f: Facts) -> Saying:
    beside = "`left` or `right`" if f.word("place") in ("top", "bottom") else "`top` or `bottom`"
    message = f"`{f.word('other')}` is not at an end of the {f.word('place')} edge"
    return Saying("E323", message, f"measure from {beside}")


PAPER_SAYINGS: dict[str, Callable[[Facts], Saying]] = {
    "not-on-paper": lambda f: Saying(
        "E325",
        "the work in hand is not on a paper foundation, so nothing can be added to it",
        "begin with `foundation ACROSS by DOWN of FABRIC`, and add all pieces before anything else is done",
    ),
    "line-ends": _line_ends,
    "line-of-one-point": lambda f: Saying("E323", "both points are the same, so there is no line to sew on", _ENDS),
    "line-on-edge": lambda f: Saying(
        "E323", f"both points lie on the {f.word('place')} edge, so the line does not cross the paper", _ENDS
    ),
    "edge-twice": lambda f: Saying(
        "E323", f"the {f.word('place')} edge is measured along twice", "a line meets each edge of the paper once"
    ),
    "not-beside": _not_beside,
    "beyond-edge": lambda f: Saying(
        "E323",
        f"the {f.word('place')} edge is {f.shown(f.length('length'))} long, and this point lies "
        f"{f.shown(f.length('distance') - f.length('length'))} beyond its end",
    ),
    "line-off-paper": lambda f: Saying(
        "E323",
        "on one side of this line lies nothing but the seam allowance of the paper",
        f"the outer seams run {f.shown(f.settings.seam)} inside the edges of the paper",
    ),
    "place-on-line": lambda f: Saying(
        "E323",
        f"the line runs through `{f.word('place')}`, so it does not say on which side the piece lies",
        "name a place that lies on one side of the line",
    ),
    "piece-covered": lambda f: Saying(
        "E324",
        f"this piece covers all that is left of piece {f.count('number')}, which is {f.word('fabric')}",
        "sew it earlier, or leave the covered piece out",
    ),
    "sewing-line-outside": lambda f: Saying(
        "E311", "the direction of this line cannot be worked out exactly", "measure its ends in fractions"
    ),
}
