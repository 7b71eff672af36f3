"""Pieces longer than the cloth: how they are joined end to end from strips."""

from __future__ import annotations

from piecewright.exact import Exact
from piecewright.plan.rounding import up_to_mark


def joined_strips(length: Exact, usable: Exact, seam: Exact) -> tuple[int, Exact]:
    """How many full strips and how long a rest make a piece; (0, length) where one strip is long enough.

    Each straight seam takes two allowances, so n strips and a rest r give n * usable + r - n * 2 * seam, and a
    rest of the full width is one strip more, with no rest.
    """
    if length <= usable:
        return 0, length
    gain = usable - 2 * seam
    full = ((length - usable) / gain).ceil()
    rest = length - gain * full
    return (full + 1, Exact(0)) if rest == usable else (full, rest)


def without_scraps(full: int, rest: Exact, usable: Exact, mark: Exact) -> tuple[int, tuple[Exact, ...]]:
    """How many full strips, and the lengths beside them: where the rest would be a scrap, less than an eighth of
    the width, one full strip is cut shorter and the rest by so much longer."""
    shortest = up_to_mark(usable / 8, mark)
    if not full or not rest or rest >= shortest:
        return full, (rest,) if rest else ()
    return full - 1, (usable - (shortest - rest), shortest)
