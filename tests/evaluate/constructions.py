"""The constructions of the trade, taken apart: which of them this compiler can make."""

from __future__ import annotations

import re
from pathlib import Path

from piecewright.source import Source
from piecewright.syntax.ast import Call, File, Line, Name
from piecewright.syntax.parse import parse
from piecewright.verbs.table import VERBS

TEXT = (Path(__file__).parent.parent / "data" / "constructions.piece").read_text(encoding="utf-8")


def parsed(text: str) -> File:
    file, diagnostics = parse(Source("constructions.piece", text))
    assert file is not None and not diagnostics
    return file


def first(line: Line) -> str:
    item = line.sentence.step.parts[0].members[0].items[0]
    return item.text if isinstance(item, Name) else ""


def defined(line: Line) -> str:
    head = line.sentence.step.parts[0].members[0].items[1]
    assert isinstance(head, Name | Call)
    return head.text if isinstance(head, Name) else head.name.text


def blocks() -> list[tuple[Line, str]]:
    """The lines at the left margin with all the text that belongs to each."""
    file = parsed(TEXT)
    starts = [line.span.start for line in file.lines]
    ends = [*starts[1:], len(TEXT)]
    return [(line, TEXT[start:end]) for line, start, end in zip(file.lines, starts, ends, strict=True)]


def sayable() -> tuple[dict[str, str], list[str], list[str]]:
    """The text of each definition that says nothing this compiler does not know, itself and in what it uses;
    the lines that ask for some of them; and the heading and fabrics."""
    definitions: dict[str, tuple[str, list[str]]] = {}
    makes: list[str] = []
    heading: list[str] = []
    for line, text in blocks():
        word = first(line)
        if word in ("unit", "block", "quilt"):
            parts = re.findall(r" into ([a-z-]+(?: and [a-z-]+)*)$", text, re.MULTILINE)
            names = [defined(line), *(name for part in parts for name in part.split(" and "))]
            definitions[names[0]] = (text if _known(line) else "", names)
        elif word == "make":
            makes.append(text)
        else:
            heading.append(text)
    owner = {name: whole for whole, (_, names) in definitions.items() for name in names}
    while True:
        broken = [
            whole
            for whole, (text, names) in definitions.items()
            if text and any(not definitions[owner[used]][0] for used in _used(text, owner) if owner[used] != whole)
        ]
        if not broken:
            break
        for whole in broken:
            definitions[whole] = ("", definitions[whole][1])
    found = {whole: text for whole, (text, _) in definitions.items() if text}
    wanted = [text for text in makes if all(owner[used] in found for used in _used(text, owner))]
    return found, wanted, heading


def _used(text: str, owner: dict[str, str]) -> set[str]:
    plain = re.sub(r"#.*", "", text)
    return {word for word in re.findall(r"[a-z][a-z0-9-]*(?=\()|(?<=^make \d\d of )[a-z-]+", plain) if word in owner}


def _known(line: Line) -> bool:
    for child in line.children:
        if not isinstance(child, Line):
            continue
        sentence = child.sentence
        named = len(sentence.step.parts) > 1 and sentence.step.parts[1].span.text.startswith("is ")
        if not named:
            verb = VERBS.get(first(child))
            if verb is None:
                return False
            clauses = {text.split(" ", 1)[0] for text in verb.clauses}
            if any(clause.span.text.split(" ", 1)[0] not in clauses for clause in sentence.clauses):
                return False
        if not _known(child):
            return False
    return True
