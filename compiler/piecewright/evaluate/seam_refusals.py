"""Refusals about pieces cut at an angle, inner corners, seams that stop short of an end and stepped strips."""

from __future__ import annotations

from collections.abc import Callable

from piecewright.evaluate.facts import Facts, Saying


def _no_inner_corner(f: Facts) -> Saying:
    names = " and ".join(f"`{name}`" for name in f.words("names"))
    hint = f"there are some that open toward {names}" if names else "it has none at all"
    return Saying("E306", f"no inner corner of the work opens toward `{f.word('place')}`", hint)


SEAM_SAYINGS: dict[str, Callable[[Facts], Saying]] = {
    "angle-outside": lambda f: Saying(
        "E311",
        f"an angle of {f.count('degrees')} degrees cannot be worked out exactly",
        "cut at 15, 30, 45, 60 or 75 degrees",
    ),
    "angle-not-sharp": lambda f: Saying(
        "E311",
        f"a slanted side stands between 0 and 90 degrees, not at {f.count('degrees')}",
        "cut at 15, 30, 45, 60 or 75 degrees"
        if f.count("degrees") != 90
        else "at 90 degrees a piece is a square or a rectangle",
    ),
    "no-short-side": lambda f: Saying(
        "E304",
        f"its slanted sides meet below the top: at this height and angle they take {f.shown(f.length('run'))} of the"
        f" long side, which is {f.shown(f.length('base'))}",
        "make the long side longer, or cut a `triangle`",
    ),
    "no-inner-corner": _no_inner_corner,
    "two-inner-corners": lambda f: Saying(
        "E307", f"two inner corners open toward `{f.word('place')}`", "turn the work so that one place is clear"
    ),
    "no-corner-fits": lambda f: Saying(
        "E311", f"no corner of {f.word('piece')} has the angle that is open toward `{f.word('place')}`"
    ),
    "side-of-two": lambda f: Saying(
        "E317",
        f"`{f.word('word')}` means one way at one of these two seams and the other way at the other",
        "press toward a fabric or a unit beside them",
    ),
    "no-end-to-stop-at": lambda f: Saying(
        "E319", "no end of this seam becomes an inner corner, so there is nothing to stop short of", "leave it out"
    ),
    "part-without-end": lambda f: Saying(
        "E319",
        "it does not say at which end the part begins that is sewn",
        "say where the piece lies even: `even at bottom, part sewn`",
    ),
    "not-open": lambda f: Saying(
        "E319", "no seam of this work is open", "a seam is left open by `join …, part sewn`"
    ),
    "stepped-not-strips": lambda f: Saying(
        "E314", "only strips without ends are stepped", "say `centred`, or `even at` one end"
    ),
    "not-a-strip-end": lambda f: Saying(
        "E314", f"a strip has no end at `{f.word('place')}`", "step from `left` or `right`"
    ),
    "stepped-for-nothing": lambda f: Saying(
        "E314",
        "the strips are stepped, and cuts square to them waste what is stepped"
        if f.has("square")
        else "the strips are stepped against the way the cuts lean, which wastes cloth",
        "cut at an angle, or leave out `stepped`" if f.has("square") else "step them from the other end",
    ),
    "angle-without-strips": lambda f: Saying(
        "E314", "segments at an angle are cut from strips without ends", "begin with `strip`"
    ),
    "segment-gap": lambda f: Saying("E303", "the cloth does not fill a segment of this width"),
}
