"""What cannot be done of borders and sashes, in craft words."""

from __future__ import annotations

from collections.abc import Callable

from piecewright.evaluate.facts import Facts, Saying
from piecewright.evaluate.shown import counted


def _units_do_not_fill(f: Facts) -> Saying:
    each, edge, fitting = f.length("each"), f.length("edge"), f.count("fitting")
    where = f" at {'the ' if f.word('where') == 'sides' else ''}{f.word('where')}" if f.has("where") else ""
    if not fitting:
        message = f"one `{f.word('piece')}` finishes at {f.shown(each)}, longer than the edge{where}: {f.shown(edge)}"
    else:
        message = (
            f"{fitting} `{f.word('piece')}` of {f.shown(each)} finish at {f.shown(each * fitting)}, and the edge{where}"
            f" at {f.shown(edge)}: {f.exactly(f.length('rest'))} is left over"
        )
    if not f.has("where"):
        return Saying("E328", message, "hand it what fits the edge, or sew a strip to it first")
    sides, ends = f.length("sides"), f.length("ends")
    if sides == ends:
        return Saying("E328", message, f"sew spacers first: `border {f.shown(sides)} of FABRIC`")
    parts = []
    if sides:
        parts.append(f"`border {f.shown(sides)} of FABRIC on left and right`")
    if ends:
        parts.append(f"`border {f.shown(ends)} of FABRIC on top and bottom`")
    return Saying("E328", message, f"sew spacers first: {' and '.join(parts)}")


def _point_sizes_differ(f: Facts) -> Saying:
    first, second = f.length("first"), f.length("second")
    message = (
        f"`{f.word('piece')}` finishes at {f.shown(first)} and `{f.word('other')}` at {f.shown(second)}, and on point"
        " all blocks are of one size"
    )
    lacking = abs(second - first) / 2
    smaller = f.word("piece") if first < second else f.word("other")
    return Saying(
        "E330",
        message,
        f"frame `{smaller}` in a unit of its own: `border {f.shown(lacking + f.settings.seam * 2)} of FABRIC`"
        f" ({f.shown(lacking)} wide finished)",
    )


def _floating(f: Facts, name: str) -> str:
    return f"float by {f.shown(f.length(name))}" if f.given(name) else "do not float"


def _squares_too_small(f: Facts) -> Saying:
    size, least, block = f.length("size"), f.length("least"), f.length("block")
    ruler = f.settings.ruler
    up = ruler * (least / ruler).ceil()
    one = "a side triangle" if f.word("target") == "sides" else "a corner triangle"
    how = "a quarter" if f.word("target") == "sides" else "half"
    floats = f" and an edge that floats by {f.shown(f.length('floats'))}" if f.given("floats") else ""
    return Saying(
        "E331",
        f"{one} that is {how} of a square of {f.shown(size)} is too small for blocks that finish at"
        f" {f.shown(block)}{floats}: the square has to be at least {f.exactly(least)}",
        f"cut the squares {f.shown(up)} or larger; what is too much is trimmed",
    )


SETTING_SAYINGS: dict[str, Callable[[Facts], Saying]] = {
    "units-do-not-fill": _units_do_not_fill,
    "corners-need-all": lambda f: Saying(
        "E329",
        "a mitre joins strips of one width on all four edges"
        if f.has("mitred")
        else "posts stand at all four corners",
        "leave `on …` out; strips of different widths meet butted, one after the other",
    ),
    "posts-and-mitres": lambda f: Saying(
        "E329", "a corner has either a post or a mitre", "leave one of the two clauses out"
    ),
    "mitre-of-units": lambda f: Saying(
        "E329",
        "units that have their ends make no mitre, which cuts through the ends of a strip",
        "hand it a strip set, or say `posts of FABRIC`",
    ),
    "mitre-needs-square": lambda f: Saying(
        "E329", "a border is mitred round a rectangle that lies straight", "trim the work first"
    ),
    "lengthwise-pieced": lambda f: Saying(
        "E329", "pieced work is not cut along the selvage", "leave `lengthwise` out"
    ),
    "fill-nowhere": lambda f: Saying(
        "E330",
        "there is no table on point here with gaps to be filled",
        "write `fill` below `lay 3 by 4 on point`, before any other step but `sash`",
    ),
    "filled-already": lambda f: Saying(
        "E330", f"the {f.word('place')} are filled already", "name `sides` and `corners` once"
    ),
    "fill-floats-differ": lambda f: Saying(
        "E330",
        f"the triangles before {_floating(f, 'first')} and these {_floating(f, 'second')}, and one edge cuts both off",
        "give both lines the same `float`, or fill them in one: `fill sides and corners of FABRIC`",
    ),
    "point-no-sides": lambda f: Saying(
        "E330",
        "one block alone has no side triangles: four corner triangles lie round it",
        "write `fill corners of FABRIC`",
    ),
    "squares-of-one-size": lambda f: Saying(
        "E331",
        "side triangles and corner triangles are cut from squares of two sizes",
        f"give each a line of its own: `fill sides of {f.word('fabric')}, squares {f.shown(f.length('size'))}`, and"
        f" `fill corners of {f.word('fabric')}` with a size of its own",
    ),
    "squares-too-small": _squares_too_small,
    "point-in-block": lambda f: Saying(
        "E340",
        "blocks are set on point only in a quilt, where triangles fill its sides and corners",
        "write `quilt` for `block` or `unit` where this definition begins",
    ),
    "point-not-square": lambda f: Saying(
        "E330",
        f"`{f.word('piece')}` finishes {f.shown(f.length('first'))} by {f.shown(f.length('second'))}, and on point"
        " every block is a square that lies straight"
        if f.length("first") != f.length("second")
        else f"`{f.word('piece')}` is no square with four plain corners that lies straight, as a block on point is",
        "trim it to a square first",
    ),
    "point-sizes-differ": _point_sizes_differ,
    "point-all-round": lambda f: Saying(
        "E330", "on point sashes lie on all sides of every block anyway", "leave `all-round` out"
    ),
    "point-units-need-posts": lambda f: Saying(
        "E330",
        "without posts strips lie along whole rows on point, which no units come out for",
        "write `posts of FABRIC`, so that each lies along one block; or hand it a strip set without ends",
    ),
    "point-sash-slants": lambda f: Saying(
        "E330",
        f"`{f.word('piece')}` is no rectangle with four plain corners that lies straight, as a sash on point is",
        "trim it first",
    ),
    "point-units-eased": lambda f: Saying(
        "E330",
        f"{f.count('count')} `{f.word('piece')}` finish at {f.shown(f.length('each') * f.count('count'))} and a block"
        f" at {f.shown(f.length('edge'))}, and on point nothing is eased",
        f"make each {f.shown(f.length('edge') / f.count('count'))} long finished",
    ),
    "pressed-before-sewn": lambda f: Saying(
        "E317",
        "this step only sets out, and leaves no seam to press",
        f"write it at the step that sews: `{f.word('sewer')} …, press open`",
    ),
    "strip-is-cut-anyway": lambda f: Saying(
        "E328",
        f"the step cuts a {f.word('fabric')} strip as long as each edge is, so none is handed to it",
        f"write its width and its fabric alone: `{f.shown(f.length('width'))} of {f.word('fabric')}`",
    ),
    "sash-nowhere": lambda f: Saying(
        "E327",
        "there are no cells laid out here for strips to lie between",
        "write `sash` right below a `lay`, before any other step",
    ),
    "sash-one-cell": lambda f: Saying(
        "E327", "one cell has no other beside it for a strip to lie between", "write `all-round`, or lay more cells"
    ),
    "sash-no-crossing": lambda f: Saying(
        "E327", "no strips cross here, so there is no place for posts", "leave `posts` out, or write `all-round`"
    ),
    "sash-rows-differ": lambda f: Saying(
        "E327",
        f"this row has {counted(f.count('second'), 'cell')} and the first has {f.count('first')}, so the strips between"
        " them do not meet",
        "give every row as many cells",
    ),
}
