"""Expected numbers that do not hold, in craft words."""

from __future__ import annotations

from collections.abc import Callable

from piecewright.evaluate.facts import Facts, Saying
from piecewright.evaluate.shown import cloth, counted
from piecewright.exact import INCH_PER
from piecewright.kernel.build import Piece

_FEW = 3  # so many that may have been meant are named


def _other_copies(f: Facts) -> Saying:
    there, wanted = f.count("there"), f.count("wanted")
    return Saying("E402", f"these steps give {counted(there, 'copy').replace('copys', 'copies')}, not {wanted}")


def _within_all(f: Facts) -> Saying:
    within, least = f.shown(f.length("within")), f.shown(f.length("least"))
    sixteenth = "1/16" if f.settings.units == "inch" else f.shown(INCH_PER["mm"])
    return Saying(
        "E225",
        f"within {within} of {least} would be true of work of no size at all",
        f"say how far off it may be, as in `within {sixteenth}`",
    )


def _other_pieces(f: Facts) -> Saying:
    there, wanted, copies = f.count("there"), f.count("wanted"), f.count("copies")
    source = f.source("source")
    name = _called(f, source)
    if copies == 1 or there % copies == 0:
        message = f"there {_are(there // copies)} of {name} in it so far, not {wanted}"
    else:
        message = f"these {copies} copies have {there} of {name} in them together, and so not {wanted} each"
    others = f.others("others")
    if others:
        told = [f"{count} of {_called(f, one)}" for one, count in others[:_FEW]]
        hint = f"there {'is' if others[0][1] == 1 else 'are'} {_and(told)}"
    elif not there and isinstance(source, Piece):
        hint = "a piece is counted where it is cut from cloth with these sizes"
    elif not there:
        hint = "no step before this line uses it, and no unit that they use"
    else:
        hint = "what stands above this line is counted, and all that its units are made of"
    return Saying("E404", message, hint)


def _are(count: int) -> str:
    return {0: "are none", 1: "is 1"}.get(count, f"are {count}")


def _called(f: Facts, source: Piece | str) -> str:
    return f"`{source if isinstance(source, str) else cloth(source, f.settings.units)}`"


def _and(parts: list[str]) -> str:
    return parts[0] if len(parts) == 1 else ", ".join(parts[:-1]) + " and " + parts[-1]


EXPECT_SAYINGS: dict[str, Callable[[Facts], Saying]] = {
    "other-copies": _other_copies,
    "other-pieces": _other_pieces,
    "within-all": _within_all,
    "strips-not-counted": lambda f: Saying(
        "E314",
        "a strip has no ends, and how many are cut depends on the width of the cloth",
        "count the unit whose `subcut` gives the segments",
    ),
}
