"""Whatever is written, the answer is a plan or a finding with its place, never an exception."""

from __future__ import annotations

import random
import re
from pathlib import Path

import pytest
from diagnostics.pages import blocks, names, sections
from piecewright import pipeline
from piecewright.diagnostics.render import human
from piecewright.diagnostics.sarif import sarif

EXAMPLES = Path(__file__).parents[2] / "examples"
LARGE = 2600  # characters; a slip in a small text is found as well, and sooner
TOKEN = re.compile(r"\n *|[^\W_][\w-]*|\S")
ODD = ("0", "-1", "1/0", "99999", "0.0001", "6 5/4", "⅓", "100 cm", '"', "(", ")", ",", "|", "\t", "\n", "\n    ", "\0")


def texts() -> list[str]:
    """The smaller examples and the examples of the pages, right ones and wrong ones."""
    found = [path.read_text(encoding="utf-8") for path in sorted(EXAMPLES.glob("*.piece"))]
    for code in names():
        for section in sections(code).values():
            found.extend(block.text for block in blocks(section) if block.language == "piece")
    return [text for text in found if len(text) <= LARGE]


TEXTS = texts()
WORDS = [token for text in TEXTS for token in TOKEN.findall(text)]


def slipped(text: str, dice: random.Random) -> str:
    """The text with one slip of the pen: a word changed, left out, doubled or moved, or two lines swapped."""
    lines = text.split("\n")
    if dice.random() < 0.1:
        i, j = dice.randrange(len(lines)), dice.randrange(len(lines))
        lines[i], lines[j] = lines[j], lines[i]
        return "\n".join(lines)
    place = dice.choice(list(TOKEN.finditer(text)) or [re.match("", text)])
    assert place is not None
    word = dice.choice((dice.choice(WORDS), "", f"{place[0]} {dice.choice(WORDS)}", dice.choice(ODD), place[0] * 2))
    return text[: place.start()] + word + text[place.end() :]


def load(name: str) -> str:
    return (EXAMPLES / name).read_text(encoding="utf-8")


@pytest.mark.parametrize("seed", range(20))
def test_slips_of_the_pen(seed: int) -> None:
    dice = random.Random(seed)
    for _ in range(40):
        text = dice.choice(TEXTS)
        for _ in range(dice.choice((1, 1, 2, 4))):
            text = slipped(text, dice)
        compiled = pipeline.compile_source(text, name="slip.piece", load=load)
        assert (compiled.plan is None) == compiled.failed, text
        for one in compiled.diagnostics:
            assert one.span.start <= one.span.end <= len(one.span.source.text), text
        assert human(compiled.diagnostics) or not compiled.diagnostics
        assert sarif(compiled.diagnostics, version="0")


@pytest.mark.parametrize("seed", range(5))
def test_any_characters(seed: int) -> None:
    dice = random.Random(seed)
    for _ in range(60):
        text = "".join(chr(dice.choice((dice.randrange(128), dice.randrange(0x3000)))) for _ in range(60))
        compiled = pipeline.compile_source(text, name="odd.piece")
        assert compiled.failed or text.strip() == "" or compiled.plan is not None
        assert human(compiled.diagnostics) or not compiled.diagnostics
