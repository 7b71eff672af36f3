"""Other names under which the trade knows what the library has, from `other-names.txt` beside its index.

They are read only where something is looked for: for the list of the library, and on the way to an error.
"""

from __future__ import annotations

from collections.abc import Iterable
from functools import cache

from piecewright.diagnostics.nearest import nearest
from piecewright.evaluate.library import library_text

OTHER_NAMES = "other-names.txt"


@cache
def other_names() -> dict[str, tuple[str, ...]]:
    """For each entry that has any, its other names as they are said (`Dutchman's puzzle`), in the order of the file."""
    found: dict[str, tuple[str, ...]] = {}
    for line in library_text(OTHER_NAMES).splitlines():
        if not line.startswith("#"):
            name, _, others = line.partition(": ")
            found[name] = tuple(other.partition(" [")[0] for other in others.split(", "))
    return found


def as_name(said: str) -> str:
    """A name that is said, as it is written in a pattern: `dutchmans-puzzle`."""
    return plain(said).replace(" ", "-")


def plain(text: str) -> str:
    """A text in small letters, without apostrophes and hyphens, so that two ways to write a name are one."""
    return text.lower().replace("'", "").replace("’", "").replace("-", " ")


@cache
def called_otherwise() -> dict[str, tuple[str, ...]]:
    """The other names as they are written in a pattern, each with the entries that it stands for."""
    found: dict[str, tuple[str, ...]] = {}
    for name, others in other_names().items():
        for other in others:
            found[as_name(other)] = (*found.get(as_name(other), ()), name)
    return found


def meant(word: str, known: Iterable[str]) -> tuple[str, tuple[str, ...]] | None:
    """What a name that nothing has most likely means: a known name, or another name of an entry of the library with
    the entries that it stands for; None where nothing is near. Another name that is spelt right comes first."""
    word = as_name(word)
    otherwise = called_otherwise()
    found = word if word in otherwise else nearest(word, (*known, *otherwise))
    return None if found is None else (found, otherwise.get(found, ()))


def listed(names: tuple[str, ...]) -> str:
    """Names in a sentence: `a`, `b` or `c`."""
    quoted = [f"`{name}`" for name in names]
    return " or ".join((", ".join(quoted[:-1]), quoted[-1])) if quoted[1:] else quoted[0]
