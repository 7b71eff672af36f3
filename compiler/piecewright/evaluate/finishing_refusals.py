"""Refusals about the backing and the binding of a quilt."""

from __future__ import annotations

from collections.abc import Callable

from piecewright.evaluate.facts import Facts, Saying

FINISHING_SAYINGS: dict[str, Callable[[Facts], Saying]] = {
    "binding-too-narrow": lambda f: Saying(
        "E342",
        f"a binding of {f.shown(f.length('width'))} is too narrow: folded lengthwise, it is sewn one seam from the edge"
        " and turned over it",
        f"make it wider than four seams, {f.shown(f.settings.seam * 4)}; 2 1/4 in is common",
    ),
    "more-than-work": lambda f: Saying(
        "E227",
        f"{f.shown(f.length('size'))} all round is more than the work itself, which is"
        f" {f.shown(f.length('least'))} at its narrowest",
        "name the size in the pattern's units, or with its own, as in `5 cm`",
    ),
    "two-joins": lambda f: Saying(
        "E212", "a binding is joined `straight` or cut on the `bias`, not both", "leave one of them out"
    ),
    "cloth-too-narrow": lambda f: Saying(
        "E342",
        f"cloth that is {f.shown(f.length('usable'))} wide is used up by its own seams",
        "say how wide the cloth is: `usable 40`",
    ),
}
