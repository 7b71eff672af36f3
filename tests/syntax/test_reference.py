"""The reference says what is there: each example compiles, each verb stands with its sentences and clauses."""

from __future__ import annotations

import re
from importlib.resources import files

import pytest
from piecewright.pipeline import compile_source
from piecewright.verbs.table import TABLE
from piecewright.verbs.words import RESERVED

REFERENCE = files("piecewright.grammar").joinpath("reference.md").read_text(encoding="utf-8")
GRAMMAR = files("piecewright.grammar").joinpath("piecewright.lark").read_text(encoding="utf-8")

HEAD = "block part (sand, dusk, glow, clay)\n"


def blocks(kind: str) -> list[str]:
    return re.findall(rf"^```{kind}\n(.*?)^```$", REFERENCE, re.MULTILINE | re.DOTALL)


def found(text: str) -> list[str]:
    return [f"{d.span.line}: {d.code} {d.message}" for d in compile_source(text).diagnostics if d.severity == "error"]


@pytest.mark.parametrize("text", blocks("piece"), ids=lambda text: text.split("\n")[0])
def test_whole_file(text: str) -> None:
    assert not found(text)


@pytest.mark.parametrize("text", blocks("piece-part"), ids=lambda text: text.split("\n")[0])
def test_part(text: str) -> None:
    assert not found(HEAD + "".join(f"    {line}\n" for line in text.splitlines()))


def test_there_are_examples() -> None:
    assert len(blocks("piece")) >= 5
    assert len(blocks("piece-part")) >= 8


def test_each_verb_stands_in_order_with_its_sentences_and_clauses() -> None:
    sections = re.findall(r"^### (\S+)\n(.*?)(?=^##)", REFERENCE, re.MULTILINE | re.DOTALL)
    named = [(name, text) for name, text in sections if name != "Press"]
    assert [name for name, _ in named] == [verb.name for verb in TABLE]
    for (_, text), verb in zip(named, TABLE, strict=True):
        sentences = re.findall(r"^`([^`]+)`$", text, re.MULTILINE)
        assert sorted(sentences) == sorted(verb.sentences)
        told = re.search(r"^Clauses?: (.*?[.;])", text, re.MULTILINE | re.DOTALL)
        assert (re.findall(r"`([^`]+)`", told.group(1)) if told else []) == list(verb.clauses)


def test_every_reserved_word_is_named() -> None:
    assert not [word for word in sorted(RESERVED) if not re.search(rf"\b{word}\b", REFERENCE)]


def test_the_joining_words_are_those_of_the_grammar() -> None:
    match = re.search(r"^JOINING\.2: /\(\?:([a-z|]+)\)", GRAMMAR, re.MULTILINE)
    assert match
    assert f"`{match.group(1).replace('|', ' ')}`" in REFERENCE
