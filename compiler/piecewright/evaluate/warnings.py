"""What a look over finished work found, in craft words: one entry for each kind of finding."""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple, cast

from piecewright.craft.direction import Turned
from piecewright.craft.finding import Finding
from piecewright.craft.retrim import Retrim
from piecewright.evaluate.shown import exactly, shown
from piecewright.exact import Exact
from piecewright.kernel.build import Units


class Warned(NamedTuple):
    code: str
    message: str
    hint: str


def warned(finding: Finding, units: Units) -> Warned:
    """How a finding is said."""
    said = WORDS[finding.kind](finding.facts, units)
    return said if finding.rounds is None else said._replace(message=said.message + _when(*finding.rounds))


def _when(first: int, many: int, rounds: int) -> str:
    """In which rounds of a repeat it is so; what is said is true of the first of them."""
    if many == rounds:
        return ", in every round"
    if many == 1:
        return f", in round {first} of {rounds}"
    return f", in {many} of {rounds} rounds and first in round {first}"


Facts = dict[str, object]


def _length(f: Facts, name: str) -> Exact:
    return cast(Exact, f[name])


def _bias(f: Facts, units: Units) -> Warned:
    fabrics = cast("tuple[str, ...]", f["fabrics"])
    ways = cast("tuple[str, ...]", f["ways"])
    edges = f"the {_and(ways)} edge{'s' if len(ways) > 1 else ''}" if len(ways) < 4 else "all edges"
    run = "run" if len(ways) > 1 else "runs"
    degrees = f"{cast(float, f['angle']):.0f} degrees"
    return Warned(
        "W502",
        f"{edges} of `{f['name']}` {run} on the bias of {_and(fabrics)}, {degrees} off the grain, and will stretch",
        "cut the square the other way (quarter it instead of halving it, or halve it instead of quartering it); where"
        " it is meant so, add a straight border or a `note` that says bias",
    )


def _lost(f: Facts, units: Units) -> Warned:
    return Warned(
        "W503",
        f"this seam cuts off a point of {f['fabric']}{_in(f)}: the point lies {exactly(_length(f, 'by'), units)}"
        " beyond the seam line",
        _onto_the_seam(f, units),
    )


def _floats(f: Facts, units: Units) -> Warned:
    return Warned(
        "W503",
        f"a point of {f['fabric']}{_in(f)} stops {exactly(_length(f, 'by'), units)} short of this seam",
        _onto_the_seam(f, units),
    )


def _lost_on_paper(f: Facts, units: Units) -> Warned:
    return Warned(
        "W503",
        f"a point of {f['fabric']}{_in(f)} lies in the seam of the paper, {exactly(_length(f, 'by'), units)} beyond the"
        f" seam line{_toward(f)}",
        _onto_the_seam(f, units),
    )


def _floats_on_paper(f: Facts, units: Units) -> Warned:
    return Warned(
        "W503",
        f"a point of {f['fabric']}{_in(f)} stops {exactly(_length(f, 'by'), units)} short of the seam line of the paper"
        f"{_toward(f)}",
        _onto_the_seam(f, units),
    )


def _toward(f: Facts) -> str:
    return f" at the {f['way']}" if f["way"] else ""


def _onto_the_seam(f: Facts, units: Units) -> str:
    """The mend of a point that the seam does not meet."""
    mend, seam = cast(Retrim, f["mend"]), shown(_length(f, "seam"), units)
    if mend.how == "paper":
        return f"draw the two lines of the foundation so that they cross {seam} inside the edge of the paper"
    at = f"point {seam} from {mend.side}"
    if mend.size is not None:
        at = f"trim to {shown(mend.size[0], units)} by {shown(mend.size[1], units)}, {at}"
    if mend.how == "again":
        return f"lay the ruler by the point{f' in `{mend.name}`' if mend.name else ''}: `{at}`"
    where = f"as the last step of `{mend.name}`" if mend.name else "before this step"
    if mend.how == "outside":
        return f"trim by the points, {where}: `trim {seam} outside points`"
    if mend.how == "first":
        return f"trim by the point, {where}: `{at}`"
    assert mend.more is not None
    there = f" at the {mend.side}" if mend.side else ""
    of = f" of `{mend.name}`" if mend.name else ""
    return (
        f"the point has to lie {seam} inside the raw edge: cut the pieces{of} {shown(mend.more, units)} larger, so that"
        f" there is so much more cloth beyond it{there}"
    )


def _miss(f: Facts, units: Units) -> Warned:
    return Warned(
        "W504",
        f"two seams that should meet at this one miss each other by {exactly(_length(f, 'by'), units)},"
        f" and {shown(_length(f, 'tolerance'), units)} is eased",
        "cut both sides so that their seams lie equally far from the end",
    )


def _not_nested(f: Facts, units: Units) -> Warned:
    return Warned(
        "W505",
        f"{f['layers']} layers lie on one another where two seams cross this one, since both are pressed the same way",
        f"press one of the two the other way, so that they nest ({f['nested']} layers), turn one piece around, or"
        " press this seam open",
    )


def _off_the_mark(f: Facts, units: Units) -> Warned:
    return Warned(
        "W506",
        f"the {f['piece']} of {exactly(_length(f, 'exact'), units)} lies between the ruler's marks; it is cut"
        f" {shown(_length(f, 'cut'), units)}, and no later trim takes the excess off",
        "choose a size on the mark, set a finer `ruler`, or trim the unit later; where it is meant so, a `note` that"
        " speaks of the ruler's marks tells so",
    )


def _scant(f: Facts, units: Units) -> Warned:
    sixteenth = shown(Exact(1, 16), units) if units == "inch" else shown(Exact(1, 16), units).removeprefix("about ")
    message = f"this trim takes off only {exactly(_length(f, 'off'), units)} at the {f['side']}, less than {sixteenth}"
    if f["larger"] is None:
        return Warned("W507", message, "cut the pieces one mark larger, so that there is something to trim")
    size, larger, exact = (shown(_length(f, name), units) for name in ("size", "larger", "exact"))
    return Warned(
        "W507",
        f"{message}: squares of {size} are too large to be sewn to size and too small for a trim",
        f"cut the squares {larger} if you mean to trim; or cut them {exact} and sew exactly",
    )


def _both_hands(f: Facts, units: Units) -> Warned:
    plain, turned = cast(int, f["plain"]), cast(int, f["turned"])
    both, more = min(plain, turned), abs(plain - turned)
    rest = "mirrored" if turned > plain else "as it is"
    cuts = f"{both} cut{'s' if both > 1 else ''} through folded cloth"
    give = f"{cuts} give{'' if both > 1 else 's'} {both} of each"
    if not more:
        said, hint = f"{give} and nothing over", "cut them all through folded cloth"
    else:
        other = "as it is" if turned > plain else "mirrored"
        said = f"{give}, and {more} more {'are' if more > 1 else 'is'} needed {rest}"
        hint = (
            f"cut {both} through folded cloth and the other {more} from a single layer; all cut folded would leave"
            f" {more} over {other}"
        )
    return Warned(
        "W508",
        f"the {f['piece']} is needed {_times(plain)} as it is and {_times(turned)} mirrored: {said}",
        f"{hint}; a `note` that says folded tells so",
    )


def _cut_off(f: Facts, units: Units) -> Warned:
    (across, down), (wide, high) = cast("tuple[int, int]", f["setting"]), cast("tuple[int, int]", f["table"])
    lost = [
        f"{_part_of(-count % size, size, one)} {way}"
        for count, size, one, way in ((across, wide, "column", "at the right"), (down, high, "row", "at the bottom"))
        if count % size
    ]
    fits = [
        f"{columns} by {rows}" for columns in _multiples(across, wide) for rows in _multiples(down, high)
    ]
    alike = [f"{columns} by {rows}" for columns, rows in cast("tuple[tuple[int, int], ...]", f["alike"])]
    cut = f", or {_or(alike)}, where it is cut off alike at all four sides" if alike else ""
    return Warned(
        "W511",
        f"the table under it, {wide} by {high}, does not divide {across} by {down}: of the last repeat"
        f" {_and(tuple(lost))}",
        f"lay {_or(fits)}, which it divides{cut}; where it is meant so, a `note` that says cut off tells so",
    )


def _part_of(count: int, of: int, one: str) -> str:
    """`1 of 2 columns is cut off`."""
    return f"{count} of {of} {one}s {'is' if count == 1 else 'are'} cut off"


def _multiples(count: int, of: int) -> tuple[int, ...]:
    """The nearest multiples of a number, from below and from above."""
    below = count - count % of
    return (count,) if below == count else tuple(one for one in (below, below + of) if one)


def _one_way(f: Facts, units: Units) -> Warned:
    ways = cast("tuple[Turned, ...]", f["ways"])
    lying = _and(tuple(_lies(way, cast(int, f["pieces"])) for way in ways))
    first = ways[0]
    if first.keep:
        mend = f"say at its cut which part stays as it lies: `cut …, keep {first.keep}`"
    elif first.way == 180:
        mend = "turn it around before it is sewn"
    else:
        mend = "cut it as it will lie, across first and then down"
    return Warned(
        "W515",
        f"`{f['fabric']}` has a direction, and in `{f['name']}` {lying}",
        f"{mend}; or take a print without a direction for it; where it is meant so, a `note` that speaks of the"
        " direction tells so",
    )


def _lies(turned: Turned, total: int) -> str:
    """`the triangle at the top right lies upside down`, or of several how many, and where one of them is."""
    its = "its" if turned.many == 1 else "their"
    lying = {180: "upside down", 90: f"on {its} right side", 270: f"on {its} left side"}.get(turned.way)
    if lying is None:
        to = "right" if turned.way < 180 else "left"
        lying = f"aslant, turned {min(turned.way, 360 - turned.way)} degrees to the {to}"
    if total == 1:
        return f"the {turned.shape} lies {lying}"
    one = f"the {turned.shape} {f'at the {turned.where}' if turned.where else 'in the middle'}"
    if turned.many == 1:
        return f"{one} lies {lying}"
    return f"{turned.many} of {total} pieces lie {lying} (one is {one})"


WORDS: dict[str, Callable[[Facts, Units], Warned]] = {
    "bias-edge": _bias,
    "point-lost": _lost,
    "point-floats": _floats,
    "paper-point-lost": _lost_on_paper,
    "paper-point-floats": _floats_on_paper,
    "seams-miss": _miss,
    "not-nested": _not_nested,
    "off-the-mark": _off_the_mark,
    "scant-trim": _scant,
    "both-hands": _both_hands,
    "table-cut-off": _cut_off,
    "one-way": _one_way,
}


def _times(count: int) -> str:
    return "once" if count == 1 else f"{count} times"


def _in(f: Facts) -> str:
    return f" in {f['name']}" if f["name"] else ""


def _or(words: list[str]) -> str:
    return words[0] if len(words) == 1 else ", ".join(words[:-1]) + " or " + words[-1]


def _and(words: tuple[str, ...]) -> str:
    return words[0] if len(words) == 1 else ", ".join(words[:-1]) + " and " + words[-1]
