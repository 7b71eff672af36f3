"""What people and files call the units: titles that tell like-named units apart, and ids that stay.

An id is made from the name and everything the unit was handed, whether or not another unit has the
same name: so a further unit or a changed step renames no figure.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from zlib import crc32

from piecewright.kernel.build import Build, Made
from piecewright.plan.assorted import Words
from piecewright.plan.words import listed, plain, typographic

_LONGEST_ID = 60
_FEW = 3  # so many fabrics are all told where one of them differs
_ENDING = re.compile(r"-(step-\d+|finished|outlines)$")
_TURNING = re.compile(r"(?: turned (?:\d+ )?(?:left|right|around)| reversed)+$")


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

    The part of a cut with unlike parts is called by its own name.
    """
    fabrics, words = {fabric.name for fabric in build.fabrics}, Words(build)
    alike: dict[str, list[Made]] = {}
    for made in build.made:
        alike.setdefault(made.name, []).append(made)
    found: dict[str, str] = {}
    for name, group in alike.items():
        differing = _differing(group)
        cloth = {parameter for made in group for parameter, value in made.arguments if value in fabrics}
        if differing & cloth and len(cloth) <= _FEW:
            differing |= cloth
        for made in group:
            values = [value for parameter, value in made.arguments if parameter in differing]
            title = name + _told(values, fabrics)
            if made.reversed and len(group) > 1:
                title += " reversed"
            found[made.key] = words.text(plain(title))
    return _told_apart(found)


def whole_name(key: str) -> str:
    """The name a definition was called by: `slashed` of `slashed(9, sand)`."""
    return key.split("(", 1)[0].split(" ", 1)[0]


def turning(name: str) -> str:
    """How a piece is turned, from what it is called: ` turned right` of `blade turned right`, else nothing."""
    match = _TURNING.search(name)
    return match.group(0) if match else ""


def _differing(group: list[Made]) -> set[str]:
    values: dict[str, set[str]] = {}
    for made in group:
        for parameter, value in made.arguments:
            values.setdefault(parameter, set()).add(value)
    holders = {parameter: sum(parameter == p for made in group for p, _ in made.arguments) for parameter in values}
    return {p for p, different in values.items() if len(different) > 1 or holders[p] < len(group)}


def _told(values: list[str], fabrics: set[str]) -> str:
    """` 2½, sand and dusk`: sizes and pieces first, then the fabrics."""
    others = [typographic(value) for value in values if value not in fabrics]
    cloth = [value for value in values if value in fabrics]
    text = ", ".join(others)
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
