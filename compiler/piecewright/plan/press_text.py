"""What is said of the press beside the strips, and of stacks under a rotary cutter."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from piecewright.kernel.build import Cutter, Fabric, Settings
from piecewright.plan.cutlist import CutRow
from piecewright.plan.model import PassPlan, RoughPlan, StripPlan
from piecewright.plan.rounding import given_size
from piecewright.plan.strip_text import pieces_text
from piecewright.plan.words import listed, plural

_UP = "all with the print the same way up"


def room_text(cutter: Cutter, settings: Settings) -> str:
    """What holds of every stack under a die."""
    leeway = given_size(cutter.leeway, settings).shown
    return (
        f"At the press, lay each stack so that it stands out on every side of the die, by {leeway} or a little more; no"
        " fold may lie within the die."
    )


def pass_text(
    one: PassPlan,
    rows: Mapping[int, CutRow],
    joined: frozenset[int],
    fabric: Fabric,
    settings: Settings,
    *,
    some: bool,
) -> str:
    """How the cloth for a die is laid, and what the passes cut. `joined`: rows whose strips are joined afterwards;
    `some`: only some of the die's rough pieces are laid so."""
    row = rows[one.pieces[0][0]]
    if one.lay == "strips":
        return f"Die {one.die}: {_strips(one)}; {_passes(one)} {_cut_strips(one, rows, joined, settings)}"
    of = f"{sum(count for _, count in one.pieces)} of " if some else ""
    if one.lay in ("folded", "folded in pairs"):
        how = (
            f"do not cut {of}its rough pieces apart. Fold {_folds(one.rough)}, and lay them on each other to at most"
            f" {one.layers} layers in all"
        )
        if one.lay == "folded in pairs":
            how += ", as many right side up as wrong side up"
    else:
        how = _apart(one, of)
    if fabric.directional and row.shape in ("triangle", "trapezoid"):
        how += f", {_UP}"
    return f"Die {one.die}: {how}: {_passes(one)} {_counted(one, rows)}."


def left_text(rows: Sequence[CutRow], settings: Settings) -> str:
    """What is cut with a ruler all the same."""
    what = listed([pieces_text(row, row.count, settings) for row in rows])
    one = len(rows) == 1 and rows[0].count == 1
    return f"No die here cuts {what} from this cloth: cut {'it' if one else 'them'} with a ruler."


def stacked_text(strips: Sequence[StripPlan], cutter: Cutter) -> tuple[str, ...]:
    """How many stacks of strips are cut on with a ruler, where several lie on each other."""
    if cutter.layers == 1 or not strips:
        return ()
    count = sum(strip.strips for strip in strips)
    stacks = sum(-(-strip.strips // cutter.layers) for strip in strips)
    told = f"{plural(count, 'strip')} in {plural(stacks, 'stack')}"
    return (f"Cut on up to {cutter.layers} strips laid on each other: {told}.",)


def _folds(rough: Sequence[RoughPlan]) -> str:
    """`lengths 3 wide to and fro, with the folds 5 apart`, of each way in which they lie."""
    return listed(
        [f"lengths {one.width.shown} wide to and fro, with the folds {one.length.shown} apart" for one in rough]
    )


def _apart(one: PassPlan, of: str) -> str:
    rough = listed([f"{part.width.shown} × {part.length.shown}" for part in one.rough])
    sides = {"right side up": "right side up", "wrong side up": "wrong side up"}.get(one.lay, "")
    if one.layers == 1:
        return f"lay {of}its rough pieces, {rough}, under it one at a time{', ' if sides else ''}{sides}"
    how = f"cut {of}its rough pieces, {rough}, apart and lay at most {one.layers} on each other"
    if one.lay == "in pairs":
        return f"{how}, as many right side up as wrong side up"
    if sides:
        return f"{how}, all {sides}, since cloth folded to and fro would give half of them mirrored"
    return how


def _strips(one: PassPlan) -> str:
    wide = listed(list(dict.fromkeys(part.width.shown for part in one.rough)))
    if one.layers == 1:
        return f"lay its rough strips, {wide} wide, under it one at a time"
    return f"lay its rough strips, {wide} wide, on each other, at most {one.layers} at a time"


def _passes(one: PassPlan) -> str:
    return f"{plural(one.passes, 'pass', 'passes')} {'cuts' if one.passes == 1 else 'cut'}"


def _counted(one: PassPlan, rows: Mapping[int, CutRow]) -> str:
    """`20`; `7 and 7 reversed`."""
    turned = sum(count for place, count in one.pieces if rows[place].reversed)
    plain = sum(count for _, count in one.pieces) - turned
    told = [str(plain)] if plain else []
    return " and ".join([*told, f"{turned} reversed"] if turned else told)


def _cut_strips(one: PassPlan, rows: Mapping[int, CutRow], joined: frozenset[int], settings: Settings) -> str:
    """What a strip die cuts, and what is cut from that with a ruler: nothing where every strip is used as it is."""
    count = sum(part.count for part in one.rough)
    text = f"{plural(count, 'strip')} {one.die.removeprefix('strip ')} wide."
    own = [(rows[place], number) for place, number in one.pieces]
    if all(row.shape == "strip" for row, _ in own) and sum(number for _, number in own) == count:
        return text
    ruled = [pieces_text(rows[place], number, settings) for place, number in one.pieces if place not in joined]
    sewn = [pieces_text(rows[place], number, settings) for place, number in one.pieces if place in joined]
    if ruled:
        text += f" From {'it' if count == 1 else 'them'} cut {listed(ruled)} with a ruler."
    if sewn:
        text += f" Join {'others' if ruled else 'them'} for {listed(sewn)}."
    return text
