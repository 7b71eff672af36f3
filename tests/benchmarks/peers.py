"""What general packing libraries buy for the same pieces: rectpack, and opcut where it is installed.

Both pack a panel of fixed size. Each is run on a panel without end, which is cut off behind the last piece, and on
panels of every length from the least thinkable, in steps, until all pieces fit; the shorter of the two counts.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from itertools import product
from typing import Any

import rectpack
from rectpack import guillotine

try:
    from opcut import common, libopcut
except ImportError as error:
    common = libopcut = None
    NO_OPCUT = f"opcut left out: {error}"
else:
    NO_OPCUT = ""

Piece = tuple[int, int, bool]  # width, height, whether it may turn
Pack = Callable[[int, int], int | None]  # the length used of a panel of a width and height; None if not all fit

CHOICES = ("Bssf", "Blsf", "Baf")
SPLITS = ("Sas", "Las", "Slas", "Llas", "Maxas", "Minas")
GUILLOTINE = [getattr(guillotine, f"Guillotine{choice}{split}") for choice, split in product(CHOICES, SPLITS)]
SORTS = (rectpack.SORT_AREA, rectpack.SORT_PERI, rectpack.SORT_SSIDE, rectpack.SORT_LSIDE)
ENDLESS = 10**6


def rectpack_default(width: int, step: int, pieces: Sequence[Piece]) -> int | None:
    """What is bought with rectpack as it comes. It need not cut through."""
    return _bought(width, step, pieces, [_rectpack(pieces)])


def rectpack_best(width: int, step: int, pieces: Sequence[Piece]) -> int | None:
    """The best of its 18 guillotine variants, each with 4 orders of the pieces."""
    ways = [_rectpack(pieces, pack_algo=way, sort_algo=order) for way, order in product(GUILLOTINE, SORTS)]
    return _bought(width, step, pieces, ways)


def opcut_greedy(width: int, step: int, pieces: Sequence[Piece]) -> int | None:
    """opcut's fast method; None also where it is not installed."""
    if libopcut is None:
        return None
    items = [common.Item(str(place), *piece) for place, piece in enumerate(pieces)]

    def pack(wide: int, high: int) -> int | None:
        panel = common.Panel("cloth", wide, high)
        try:
            result = libopcut.calculate(common.Method.GREEDY_NATIVE, common.Params(0, False, [panel], items))
        except common.UnresolvableError:
            return None
        return max(int(one.y + (one.item.width if one.rotate else one.item.height)) for one in result.used)

    return _bought(width, step, pieces, [pack])


def _rectpack(pieces: Sequence[Piece], **options: Any) -> Pack:
    # rectpack turns all pieces or none.
    turns = all(turn or wide == high for wide, high, turn in pieces)

    def pack(wide: int, high: int) -> int | None:
        packer = rectpack.newPacker(rotation=turns, **options)
        packer.add_bin(wide, high)
        for across, down, _ in pieces:
            packer.add_rect(across, down)
        packer.pack()
        found = packer.rect_list()
        return max(y + h for _, _, y, _, h, _ in found) if len(found) == len(pieces) else None

    return pack


def _bought(width: int, step: int, pieces: Sequence[Piece], ways: Sequence[Pack]) -> int | None:
    """The least length in whole steps over all ways; None if none of them fits all pieces."""
    lengths = [length for pack in ways if (length := pack(width, ENDLESS)) is not None]
    if not lengths:
        return None
    most = -(-min(lengths) // step)
    least = -(-sum(wide * high for wide, high, _ in pieces) // (width * step))
    for steps in range(least, most):
        if any(pack(width, steps * step) is not None for pack in ways):
            return steps * step
    return most * step
