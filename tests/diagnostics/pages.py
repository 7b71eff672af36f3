"""The pages of the codes, taken apart."""

from __future__ import annotations

import re
from importlib.resources import files
from typing import NamedTuple

HEADINGS = ("What", "Why", "Example", "Use instead")
FENCE = re.compile(r"^```(\w+)([^\n]*)\n(.*?)^```$", re.MULTILINE | re.DOTALL)


class Block(NamedTuple):
    """A fenced block: `piece` or `sh`, the name of its file and whether that is written, its encoding, its text."""

    language: str
    name: str
    named: bool
    encoding: str
    text: str


def names() -> list[str]:
    """The codes that have a page."""
    folder = files("piecewright.diagnostics.pages")
    return sorted(one.name.removesuffix(".md") for one in folder.iterdir() if one.name.endswith(".md"))


def text(code: str) -> str:
    return files("piecewright.diagnostics.pages").joinpath(f"{code}.md").read_text(encoding="utf-8")


def sections(code: str) -> dict[str, str]:
    """What stands under each heading of the second order, in order."""
    parts = re.split(r"^## (.+)\n", text(code), flags=re.MULTILINE)
    return dict(zip(parts[1::2], parts[2::2], strict=True))


def blocks(section: str) -> list[Block]:
    """The fenced blocks of a section. A `piece` block without a name is a pattern by itself, and the ones with
    names are files it may use."""
    found: list[Block] = []
    for match in FENCE.finditer(section):
        words = match[2].split()
        name = next((word for word in words if word.endswith(".piece")), "")
        encoding = next((word for word in words if not word.endswith(".piece")), "utf-8")
        found.append(Block(match[1], name or "example.piece", bool(name), encoding, match[3]))
    return found
