"""What holds for every verb: one file, one sentence that can be matched, one saying for each refusal."""

from __future__ import annotations

import re
from importlib.resources import files

import pytest
from evaluate.pattern import parsed
from piecewright.evaluate.bind import match
from piecewright.evaluate.refusals import SAYINGS
from piecewright.syntax.ast import Line
from piecewright.verbs.registry import Verb
from piecewright.verbs.table import NOUNS, TABLE, VERBS
from piecewright.verbs.template import KINDS, Slot, form
from piecewright.verbs.words import RESERVED, in_mirror

LATER = {
    # of layers, flips, set-in and partial seams, and curves: no verb of this edition reaches them
    "cloth-double",
    "corners-miss",
    "flip-short",
    "in-pieces",
    "lines-disagree",
    "not-even",
    "not-open",
    "nothing-holds",
    "stitch-misses",
}  # fmt: skip


@pytest.mark.parametrize("verb", TABLE, ids=lambda verb: verb.name)
def test_a_verb_has_a_file_of_its_name(verb: Verb) -> None:
    text = files("piecewright.verbs").joinpath(f"{verb.name}.py").read_text(encoding="utf-8")
    assert f'name="{verb.name}"' in text
    assert VERBS[verb.name] is verb


@pytest.mark.parametrize("verb", TABLE, ids=lambda verb: verb.name)
def test_its_example_is_one_of_its_sentences(verb: Verb) -> None:
    (block,) = parsed(f"block x\n    {verb.example}\n").lines
    (line,) = block.children
    assert isinstance(line, Line)
    found = match(verb, line.sentence.step, line.sentence.clauses)
    assert found.form.text in verb.sentences


@pytest.mark.parametrize("text", [t for verb in TABLE for t in (*verb.sentences, *verb.clauses)])
def test_every_slot_has_a_kind(text: str) -> None:
    slots = [token for part in form(text).parts for token in part.tokens if isinstance(token, Slot)]
    assert all(KINDS[re.sub(r"-\d+$", "", slot.name)] == slot.kind for slot in slots)
    assert len({slot.name for slot in slots}) == len(slots)


def test_the_words_of_a_sentence_are_in_its_parts() -> None:
    found = form("cut from POINT to POINT [into NAMES]")
    assert [part.word for part in found.parts] == [None, "from", "to", "into"]
    assert [part.optional for part in found.parts] == [False, False, False, True]
    assert [part.tokens for part in found.parts] == [
        ("cut",), (Slot("POINT", "point"),), (Slot("POINT-2", "point"),), (Slot("NAMES", "names"),)
    ]  # fmt: skip


def test_nouns_start_and_are_no_other_verbs() -> None:
    assert NOUNS == ("square", "rectangle", "strip", "triangle", "diamond", "parallelogram", "trapezoid")
    assert not RESERVED & set(VERBS)


def kinds_raised(package: str, pattern: str) -> set[str]:
    found: set[str] = set()
    for file in files(package).iterdir():
        if file.name.endswith(".py"):
            found.update(re.findall(pattern, file.read_text(encoding="utf-8")))
    return found


def test_every_refusal_is_said_in_craft_words() -> None:
    raised = kinds_raised("piecewright.kernel", r'SewingError\(\s*"([a-z-]+)"')
    raised |= kinds_raised("piecewright.verbs", r'Refused\(\s*"([a-z-]+)"')
    assert len(raised) > 30
    assert raised - set(SAYINGS) <= LATER, raised - set(SAYINGS)


@pytest.mark.parametrize(
    ("word", "other"),
    [
        ("left", "right"), ("top-left", "top-right"), ("left-middle", "right-middle"), ("upper-right", "upper-left"),
        ("diagonal", "rising-diagonal"), ("top", "top"), ("long-edge", "long-edge"), ("brightest", "brightest"),
        ("copyright", "copyright"), ("left-over", "left-over"),
    ],
)  # fmt: skip
def test_words_in_the_mirror(word: str, other: str) -> None:
    assert in_mirror(word) == other
    assert in_mirror(other) == word
