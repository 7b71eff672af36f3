"""`piecewright arrange`: a count, a sheet and a page to choose from."""

from __future__ import annotations

import re
from pathlib import Path
from xml.etree import ElementTree

import html5lib
import pytest
from cli.test_cli import Run

SVG = "{http://www.w3.org/2000/svg}"
PATTERN = """pattern "Trial"
fabric sand, colour "#efe0c0"
fabric dusk, colour "#3d3355"

block step (light, dark)
    rectangle 2 1/2 by 4 1/2 of dark
    join rectangle 2 1/2 by 4 1/2 of light on right
"""


@pytest.fixture
def run(capfd: pytest.CaptureFixture[str], tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Run:
    monkeypatch.chdir(tmp_path)
    Path("trial.piece").write_text(PATTERN, encoding="utf-8")
    return Run(capfd)


def test_all_are_counted_and_drawn(run: Run) -> None:
    ended = run("arrange", "trial.piece", "step(sand,dusk)")
    assert ended.code == 0
    assert ended.err == f"wrote {Path('build/trial')}: arrangements.html, arrangements.svg\n"
    said = re.fullmatch(r"There are (\d+) different arrangements, turned and mirrored ones counted once\.\n", ended.out)
    assert said is not None
    tree = ElementTree.parse("build/trial/arrangements.svg")
    numbers = [text.text for text in tree.iter(f"{SVG}text") if (text.text or "").isdigit()]
    assert numbers == [str(one) for one in range(1, int(said[1]) + 1)]
    drawn = [one for one in tree.iter(f"{SVG}g") if one.get("id", "").startswith("look-")]
    assert len(drawn) == 4
    uses = list(tree.iter(f"{SVG}use"))
    assert len(uses) == int(said[1]) * 16
    assert {use.get("href") for use in uses} == {f"#{one.get('id')}" for one in drawn}


def test_the_page_stands_alone_and_names_its_pictures(run: Run) -> None:
    run("arrange", "trial.piece", "step(sand, dusk)", "--to", "html", "-o", "there")
    assert sorted(path.name for path in Path("there").iterdir()) == ["arrangements.html"]
    text = Path("there/arrangements.html").read_text(encoding="utf-8")
    parser = html5lib.HTMLParser(strict=True)
    parser.parse(text)
    assert not re.search(r"https?://(?!www\.w3\.org/)", text)
    assert "lay 4 by 4\n    step(sand, dusk)" in text
    assert text.count('role="img"') == text.count("<h3>")


def test_a_number_before_a_block(run: Run) -> None:
    ended = run("arrange", "trial.piece", "1 of step(sand, dusk)", "step(sand, sand)", "--table", "2x1", "--repeating")
    assert ended.code == 0
    assert ended.out == (
        "There are 2 different arrangements with 1 of step(sand, dusk), turned and mirrored ones counted once, as are"
        " those that repeat to the same pattern.\n"
    )
    ended = run("arrange", "trial.piece", "1 of step(sand, dusk)", "2 of step(sand, sand)", "--table", "2x1")
    assert ended.code == 1
    assert "are more than the 2 blocks of the table" in ended.err
    ended = run("arrange", "trial.piece", "0 of step(sand, dusk)")
    assert ended.code == 2
    ended = run("arrange", "trial.piece", "step(sand, dusk)", "--table", "2x1", "--mirrors-apart", "-o", "apart")
    assert "turned ones counted once, mirrored ones apart" in ended.out
    assert "turned ones counted once, mirrored ones apart" in Path("apart/arrangements.html").read_text("utf-8")


def test_the_same_asked_twice_gives_the_same_bytes(run: Run) -> None:
    for folder in ("one", "two"):
        run("arrange", "trial.piece", "step(sand, dusk)", "step(dusk, sand)", "--table", "2x1", "-o", folder)
    for name in ("arrangements.html", "arrangements.svg"):
        assert (Path("one") / name).read_bytes() == (Path("two") / name).read_bytes()


def test_a_large_table_says_how_many(run: Run) -> None:
    ended = run("arrange", "trial.piece", "step(sand, dusk)", "--table", "4x4")
    assert ended.code == 0
    assert re.search(r"There are \d{3}\u202f\d{3}\u202f\d{3} different arrangements", ended.out)
    assert "They are too many to draw" in ended.out


@pytest.mark.parametrize(
    ("arguments", "code", "said"),
    [
        (("step(sand, dusk)", "--table", "2"), 2, "write how many blocks across and down, such as 2x2"),
        (("step(sand, dusk)", "--table", "0x2"), 2, "from 1 to 12 blocks each way"),
        (("step(sand, dusk)", "--to", "pdf"), 2, "there are html and svg"),
        (("stop(sand, dusk)",), 1, "did you mean `step`?"),
        (("step(sand, dusk",), 1, "E104"),
        (("square 4 of sand",), 1, "E113"),
        (("step(sand, dusk)", "pinwheel(sand, dusk)"), 1, "finishes at 4 by 4 and pinwheel(sand, dusk) at 6 by 6"),
    ],
)
def test_mistakes_are_told(run: Run, arguments: tuple[str, ...], code: int, said: str) -> None:
    ended = run("arrange", "trial.piece", *arguments)
    assert ended.code == code
    assert said in ended.err
    assert not Path("build").exists()
