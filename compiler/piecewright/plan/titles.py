"""What people and files call the units: titles that tell like-named units apart, and ids that stay.

An id is made from the name and everything the unit was handed, whether or not another unit has the
same name: so a further unit or a changed step renames no figure.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import replace
from zlib import crc32

from piecewright.exact import Exact
from piecewright.kernel.build import Build, Handed, Made, Piece
from piecewright.plan.assorted import Words
from piecewright.plan.rounding import given_size
from piecewright.plan.tongue import Tongue
from piecewright.plan.words import listed, plain, spoken_size, typographic

_LONGEST_ID = 60
_FEW = 3  # so many fabrics are all told where one of them differs
_ENDING = re.compile(r"-(step-\d+|finished|outlines)$")


def ids(keys: Iterable[str]) -> dict[str, str]:
    """An id for each key: small letters, digits and single hyphens, fit for a file name on any system.

    Never ends like a figure's id; a checksum of the key stands behind where letters were lost or two would be alike.
    """
    plain = {key: _slug(key) for key in keys}  # each once, though parts name their whole again
    seen: dict[str, int] = {}
    for slug in plain.values():
        seen[slug] = seen.get(slug, 0) + 1
    return {key: slug if _is_fit(key, slug) and seen[slug] == 1 else _checked(key, slug) for key, slug in plain.items()}


def titles(build: Build) -> dict[str, str]:
    """A title for each key: `half-square`, or `half-square 2½, sand and dusk` where another has the name.

    The part of a cut with unlike parts is called by its own name; the whole has a title too.
    """
    parts = {made.whole: made for made in build.made if made.whole is not None}
    wholes = [replace(made, key=key, name=whole_name(key)) for key, made in parts.items()]
    naming = _Naming(build, (*build.made, *wholes))
    return _told_apart({made.key: naming.title(made) for made in (*build.made, *wholes)})


class _Naming:
    """The titles of what is made, from the values it was handed."""

    def __init__(self, build: Build, named: Iterable[Made]) -> None:
        self._words = Words(build)
        self._fabrics = {fabric.name for fabric in build.fabrics}
        self._made = {made.key: made for made in build.made}
        directional = frozenset(fabric.name for fabric in build.fabrics if fabric.directional)
        self._tongue = Tongue(settings=build.settings, made=self._made, titles={}, directional=directional)
        self._alike: dict[str, list[Made]] = {}
        for made in named:
            self._alike.setdefault(made.name, []).append(made)
        self._differing = {name: self._telling(group) for name, group in self._alike.items()}
        self._known: dict[str, str] = {}

    def title(self, made: Made) -> str:
        """The name, and what it was handed that tells it from others of the name."""
        found = self._known.get(made.key)
        if found is None:
            handed = {one.parameter: one for one in made.handed}
            values = [pair for pair in made.arguments if pair[0] in self._differing[made.name]]
            others = [self._said(handed[p]) if p in handed else v for p, v in values if v not in self._fabrics]
            title = made.name + _told(others, [v for _, v in values if v in self._fabrics])
            if made.reversed and len(self._alike[made.name]) > 1:
                title += " reversed"
            found = self._known[made.key] = self._words.text(plain(title))
        return found

    def _telling(self, group: list[Made]) -> set[str]:
        """The parameters whose values tell these apart."""
        differing = _differing(group)
        cloth = {parameter for made in group for parameter, value in made.arguments if value in self._fabrics}
        return differing | cloth if differing & cloth and len(cloth) <= _FEW else differing

    def _said(self, handed: Handed) -> str:
        """`2½`, `about 8½`, `dusk square 2½`, `(half-square in sand and dusk) turned left`."""
        value = handed.value
        if isinstance(value, Exact):
            return spoken_size(given_size(value, self._tongue.settings))
        if isinstance(value, Piece):
            return self._tongue.piece(value) + handed.turned
        made = self._made.get(value)
        title = self.title(made) if made is not None else whole_name(value)
        return (f"({title})" if " " in title else title) + handed.turned


def whole_name(key: str) -> str:
    """The name a definition was called by: `slashed` of `slashed(9, sand)`."""
    return key.split("(", 1)[0].split(" ", 1)[0]


def _differing(group: list[Made]) -> set[str]:
    values: dict[str, set[str]] = {}
    for made in group:
        for parameter, value in made.arguments:
            values.setdefault(parameter, set()).add(value)
    holders = {parameter: sum(parameter == p for made in group for p, _ in made.arguments) for parameter in values}
    return {p for p, different in values.items() if len(different) > 1 or holders[p] < len(group)}


def _told(others: list[str], cloth: list[str]) -> str:
    """` 2½, sand and dusk`: sizes and pieces first, then the fabrics."""
    text = ", ".join(typographic(one) for one in others)
    if cloth:
        text += (", " if others else "in ") + listed(cloth)
    return f" {text}" if text else ""


def _told_apart(found: dict[str, str]) -> dict[str, str]:
    """Titles still alike (the same name in two files) get a number, in the order of work."""
    count: dict[str, int] = {}
    for title in found.values():
        count[title] = count.get(title, 0) + 1
    number: dict[str, int] = {}
    for key, title in found.items():
        if count[title] > 1:
            number[title] = number.get(title, 0) + 1
            found[key] = f"{title} (no. {number[title]})"
    return found


def _slug(key: str) -> str:
    return re.sub(r"[^a-z0-9]+", "-", key.lower()).strip("-")


def _is_fit(key: str, slug: str) -> bool:
    return bool(slug) and key.isascii() and len(slug) <= _LONGEST_ID and not _ENDING.search(slug)


def _checked(key: str, slug: str) -> str:
    short = slug[: _LONGEST_ID - 9].strip("-")
    return f"{short}-{crc32(key.encode()):08x}".strip("-")


def figure_id(unit_id: str, what: int | str) -> str:
    """The id of a figure of a unit: of a step by its number, or `finished`, `outlines`."""
    return f"{unit_id}-step-{what}" if isinstance(what, int) else f"{unit_id}-{what}"
