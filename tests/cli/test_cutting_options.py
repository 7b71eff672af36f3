"""`--cutter` and `--kits` of `piecewright build`."""

from __future__ import annotations

from pathlib import Path

import pytest
from cli.test_cli import Run

PATTERN = """fabric sand

block tile (light)
    square 4 1/2 of light

make 12 of tile(sand)
"""


@pytest.fixture
def run(capfd: pytest.CaptureFixture[str], tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Run:
    monkeypatch.chdir(tmp_path)
    Path("tile.piece").write_text(PATTERN, encoding="utf-8")
    Path("dies.piece").write_text("cutter press, layers 4\n    die square 4 1/2\n", encoding="utf-8")
    return Run(capfd)


def test_a_file_says_what_is_cut_with(run: Run) -> None:
    ended = run("build", "tile.piece", "--cutter", "dies.piece", "--to", "md", "-o", "there")
    assert (ended.code, ended.out) == (0, "")
    assert "to at most 4 layers in all: 3 passes cut 12" in Path("there/pattern.md").read_text(encoding="utf-8")
    assert run("build", "tile.piece", "--cutter", "rotary", "--to", "md", "-o", "there").code == 0
    assert "passes" not in Path("there/pattern.md").read_text(encoding="utf-8")


def test_a_cutter_that_is_not_there(run: Run) -> None:
    ended = run("build", "tile.piece", "--cutter", "pres")
    assert ended.code == 3
    assert ended.err == "the cutter pres cannot be read: there is no such file; or name a kind, rotary or press\n"
    assert not Path("build").exists()
    Path("none.piece").write_text("", encoding="utf-8")
    assert run("check", "tile.piece", "--cutter", "none.piece").code == 1


def test_kits(run: Run) -> None:
    assert run("build", "tile.piece", "--kits", "7", "--to", "csv", "-o", "there").code == 0
    assert sorted(path.name for path in Path("there").iterdir()) == ["cut-list.csv", "cutting.csv", "kits.csv"]
    assert run("build", "tile.piece", "--kits", "0").code == 2
