"""Random needs and cloth to cut them from."""

from __future__ import annotations

import random

from piecewright.plan.cloth.model import Need, Sheet, Stock


def small(seed: int) -> tuple[list[Need], Stock]:
    """Few enough pieces to try every way of cutting them; each fits the width."""
    rng = random.Random(seed)
    width = rng.randint(4, 12)
    needs: list[Need] = []
    left = rng.randint(1, 5)
    while left:
        count = rng.randint(1, min(left, 3))
        left -= count
        turns = rng.random() < 0.7
        high = rng.randint(1, 9)
        needs.append(Need(width=rng.randint(1, width), height=high, count=count, turns=turns))
    return needs, Stock(width=width, step=rng.choice([1, 1, 2, 5]))


def small_sheets(seed: int) -> tuple[list[Need], Stock]:
    """The same from sheets of one size, which may be too small for a piece."""
    needs, cloth = small(seed)
    return needs, Stock(width=0, sheets=(Sheet(width=cloth.width, height=random.Random(seed).randint(4, 10)),))


def any_size(seed: int) -> tuple[list[Need], Stock]:
    """Cloth by length or sheets, with or without scraps, directional or not, and at times pieces that nothing fits."""
    rng = random.Random(seed)
    width = rng.choice([rng.randint(6, 40), rng.randint(41, 360)])
    directional = rng.random() < 0.25
    longest = width * rng.choice([1, 2, 3]) // rng.choice([2, 3, 4, 8])
    needs: list[Need] = []
    for _ in range(rng.choice([1, 2, 3, 4, 6, 9])):
        across, down = rng.randint(1, max(longest, 1)), rng.randint(1, max(longest, 1))
        if rng.random() < 0.2:
            down = across
        turns = not directional and rng.random() < 0.9
        needs.append(Need(width=across, height=down, count=rng.choice([1, 1, 2, 4, 12, 30]), turns=turns))
    if rng.random() < 0.1:
        needs.append(rng.choice(needs))
    scraps = [
        Sheet(width=rng.randint(1, width), height=rng.randint(1, width), count=rng.choice([1, 1, 1, 2, 3, None]))
        for _ in range(rng.choice([0, 0, 0, 1, 2]))
    ]
    if rng.random() < 0.7:
        return needs, Stock(width=width, step=rng.choice([1, 4, 9, 36]), scraps=tuple(scraps))
    sheets = [
        Sheet(
            width=rng.randint(width // 3, width),
            height=rng.randint(width // 3, width),
            count=rng.choice([None, None, 1, 2, 5]),
        )
        for _ in range(rng.choice([1, 1, 2]))
    ]
    return needs, Stock(width=0, scraps=tuple(scraps), sheets=tuple(sheets))
