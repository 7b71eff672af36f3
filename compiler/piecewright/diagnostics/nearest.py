"""The nearest word, and only where it is close enough to be what was meant."""

from __future__ import annotations

from collections.abc import Iterable


def distance(first: str, second: str, limit: int) -> int:
    """How many slips of the pen lie between two words: a letter left out, put in, changed, or two
    neighbours swapped, each letter touched at most once (the optimal string alignment distance, a
    restriction of Damerau, CACM 7(3), 1964). Past `limit` it stops and answers `limit + 1`.
    """
    if abs(len(first) - len(second)) > limit:
        return limit + 1
    before: list[int] = []
    last = list(range(len(second) + 1))
    for i, a in enumerate(first, 1):
        row = [i]
        for j, b in enumerate(second, 1):
            best = min(last[j] + 1, row[j - 1] + 1, last[j - 1] + (a != b))
            if i > 1 and j > 1 and a == second[j - 2] and b == first[i - 2]:
                best = min(best, before[j - 2] + 1)
            row.append(best)
        if min(row) > limit and min(last) > limit:
            return limit + 1
        before, last = last, row
    return min(last[-1], limit + 1)


def nearest(word: str, known: Iterable[str]) -> str | None:
    """The known word most likely meant by `word`, or None if none is close.

    Close is one slip in a word of up to five letters, two in up to nine, three in longer ones, and
    never in a word of two letters or fewer; a hyphen too many or too few is always close. Of equally
    close ones the word with the same first letter is taken, then the first in alphabetical order.
    """
    word = word.lower()
    bare = word.replace("-", "")
    limit = 0 if len(bare) < 3 else 1 if len(bare) <= 5 else 2 if len(bare) <= 9 else 3
    best: tuple[int, bool, str] | None = None
    for other in known:
        if other == word:
            continue
        slips = 0 if other.replace("-", "") == bare else distance(word, other, limit)
        if slips <= limit:
            found = (slips, other[:1] != word[:1], other)
            if best is None or found < best:
                best = found
    return best[2] if best else None
