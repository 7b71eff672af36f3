"""Two SVG texts compared by what they draw: the order of attributes and the last decimals do not count."""

from __future__ import annotations

import re
from xml.etree import ElementTree

_NUMBER = re.compile(r"-?\d*\.?\d+")
TOLERANCE = 0.05  # points

Canon = tuple[str, tuple[tuple[str, object], ...], str, tuple["Canon", ...]]


def canonical(text: str) -> Canon:
    """Tag, attributes by name, text, children; numbers within attributes taken out of their spelling."""
    return _canonical(ElementTree.fromstring(text))


def _canonical(element: ElementTree.Element) -> Canon:
    attributes = tuple(sorted((name, _value(value)) for name, value in element.attrib.items()))
    words = " ".join((element.text or "").split())
    return element.tag, attributes, words, tuple(_canonical(child) for child in element)


def _value(value: str) -> tuple[str, tuple[float, ...]]:
    """The form of a value and the numbers in it; of colours and references the text alone."""
    if value.startswith(("#", "url(")):
        return value, ()
    return _NUMBER.sub("#", value), tuple(float(n) for n in _NUMBER.findall(value))


def differences(one: str, other: str) -> list[str]:
    """Where two drawings differ, in words; empty when they are alike."""
    found: list[str] = []
    _compare(canonical(one), canonical(other), "svg", found)
    return found


def _compare(one: Canon, other: Canon, path: str, found: list[str]) -> None:
    if one[0] != other[0]:
        found.append(f"{path}: {one[0]} and {other[0]}")
        return
    mine, theirs = dict(one[1]), dict(other[1])
    for name in sorted(mine.keys() | theirs.keys()):
        a, b = mine.get(name), theirs.get(name)
        if a is None or b is None or not _alike(a, b):
            found.append(f"{path} {name}: {a} and {b}")
    if one[2] != other[2]:
        found.append(f"{path} text: {one[2]!r} and {other[2]!r}")
    if len(one[3]) != len(other[3]):
        found.append(f"{path}: {len(one[3])} and {len(other[3])} children")
    for number, (a, b) in enumerate(zip(one[3], other[3], strict=False)):
        _compare(a, b, f"{path}/{number}", found)


def _alike(a: tuple[str, tuple[float, ...]], b: tuple[str, tuple[float, ...]]) -> bool:
    same_form = a[0] == b[0] and len(a[1]) == len(b[1])
    return same_form and all(abs(x - y) <= TOLERANCE for x, y in zip(a[1], b[1], strict=True))
