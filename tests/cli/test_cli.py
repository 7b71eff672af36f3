"""The commands: what they write, what they say, and how they end."""

from __future__ import annotations

import json
import os
from importlib.resources import files
from pathlib import Path

import pytest
from piecewright import __version__, cli, output, pipeline

STARTER = files("piecewright").joinpath("starter.piece").read_text(encoding="utf-8")
WRONG = STARTER.replace("strip 2 1/2 of ends\n", "strp 2 1/2 of ends\n", 1)


class Ended:
    """How a command ended: its exit code and what it said."""

    def __init__(self, code: int, out: str, err: str) -> None:
        self.code, self.out, self.err = code, out, err


class Run:
    """Runs the command in the test's own folder, in this process."""

    def __init__(self, capfd: pytest.CaptureFixture[str]) -> None:
        self._capfd = capfd

    def __call__(self, *arguments: str) -> Ended:
        with pytest.raises(SystemExit) as stopped:
            cli.main(arguments)
        said = self._capfd.readouterr()
        assert isinstance(stopped.value.code, int)
        return Ended(stopped.value.code, said.out, said.err)


@pytest.fixture
def run(capfd: pytest.CaptureFixture[str], tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Run:
    monkeypatch.chdir(tmp_path)
    Path("star.piece").write_text(STARTER, encoding="utf-8")
    Path("wrong.piece").write_text(WRONG, encoding="utf-8")
    return Run(capfd)


def tree(folder: str) -> dict[str, bytes]:
    return {
        path.relative_to(folder).as_posix(): path.read_bytes() for path in Path(folder).rglob("*") if path.is_file()
    }


# ── new ─────────────────────────────────────────────────────────────────────────────────────────


def test_new_writes_a_pattern_that_builds(run: Run) -> None:
    ended = run("new", "first")
    assert (ended.code, ended.out) == (0, "")
    assert ended.err == "wrote first.piece\nnext: piecewright build first.piece\n"
    assert run("build", "first.piece").code == 0
    assert Path("build/first/pattern.html").is_file()


def test_new_leaves_what_is_there(run: Run) -> None:
    Path("first.piece").write_text("mine", encoding="utf-8")
    ended = run("new", "first.piece")
    assert ended.code == 3 and "is there already" in ended.err
    assert Path("first.piece").read_text(encoding="utf-8") == "mine"


def test_new_in_a_folder_that_is_not_there(run: Run) -> None:
    ended = run("new", "gone/first.piece")
    assert ended.code == 3 and ended.err.startswith("gone/first.piece cannot be written: ")


# ── build ───────────────────────────────────────────────────────────────────────────────────────


def test_build_writes_every_format_beside_its_name(run: Run) -> None:
    ended = run("build", "star.piece")
    assert ended.code == 0 and ended.out == ""
    assert ended.err.splitlines()[-1].startswith(
        "wrote build/star: pattern.html, pattern.md, cut-list.csv, cutting.csv, plan.json, "
    )
    names = set(tree("build/star"))
    pages = {"pattern.html", "pattern.md", "cut-list.csv", "cutting.csv", "plan.json"}
    assert pages < names
    assert all(name.startswith("figures/") for name in names - pages)


def test_build_gives_the_same_bytes_in_any_folder(run: Run, tmp_path: Path) -> None:
    run("build", "star.piece")
    Path("deep/er").mkdir(parents=True)
    Path("deep/er/star.piece").write_text(STARTER, encoding="utf-8")
    run("build", str(tmp_path / "deep" / "er" / "star.piece"), "-o", "again")
    assert tree("again") == tree("build/star")


def test_build_only_what_is_asked_for(run: Run) -> None:
    assert run("build", "star.piece", "-o", "out", "--to", "csv,json").code == 0
    assert set(tree("out")) == {"cut-list.csv", "cutting.csv", "plan.json"}


def test_build_puts_several_into_folders_of_their_own(run: Run) -> None:
    Path("other.piece").write_text(STARTER, encoding="utf-8")
    assert run("build", "star.piece", "other.piece", "-o", "out", "--to", "csv").code == 0
    files = ("cut-list.csv", "cutting.csv")
    assert set(tree("out")) == {f"{name}/{file}" for name in ("star", "other") for file in files}


def test_build_writes_nothing_where_there_is_an_error(run: Run) -> None:
    ended = run("build", "wrong.piece")
    assert ended.code == 1 and "error E" in ended.err and ended.out == ""
    assert not Path("build").exists()


def test_an_error_leaves_the_earlier_build(run: Run) -> None:
    run("build", "star.piece")
    before = tree("build/star")
    Path("star.piece").write_text(WRONG, encoding="utf-8")
    assert run("build", "star.piece").code == 1
    assert tree("build/star") == before


def test_one_wrong_file_does_not_stop_the_others(run: Run) -> None:
    assert run("build", "wrong.piece", "star.piece", "--to", "csv").code == 1
    assert set(tree("build")) == {"star/cut-list.csv", "star/cutting.csv"}


@pytest.mark.parametrize("error", [OSError(28, "No space left on device"), KeyboardInterrupt()])
def test_a_build_that_is_stopped_leaves_the_earlier_one(
    run: Run, monkeypatch: pytest.MonkeyPatch, error: BaseException
) -> None:
    run("build", "star.piece")
    before = tree("build/star")
    Path("star.piece").write_text(STARTER.replace("window", "lantern"), encoding="utf-8")
    calls = 0
    replace = os.replace

    def stops(*arguments: str) -> None:
        nonlocal calls
        calls += 1
        if calls == 3:
            raise error
        replace(*arguments)

    monkeypatch.setattr(output.os, "replace", stops)
    ended = run("build", "star.piece")
    if isinstance(error, OSError):
        assert ended.code == 3 and "E902" in ended.err and "no space left on device" in ended.err
    else:
        assert ended.code == 130
    assert tree("build/star") == before


def test_figures_of_an_earlier_build_go_and_foreign_files_stay(run: Run) -> None:
    run("build", "star.piece")
    first = set(tree("build/star"))
    Path("build/star/figures/mine.svg").write_text("<svg/>", encoding="utf-8")
    Path("build/star/notes.txt").write_text("mine", encoding="utf-8")
    Path("star.piece").write_text(STARTER.replace("window", "lantern"), encoding="utf-8")
    run("build", "star.piece")
    second = set(tree("build/star"))
    assert {"figures/mine.svg", "notes.txt"} <= second
    assert any("window" in name for name in first) and not any("window" in name for name in second)


def test_set_changes_a_setting_of_the_pattern(run: Run) -> None:
    ended = run("build", "star.piece", "--to", "json", "--set", "ruler=1/16", "-o", "-")
    assert ended.code == 0
    assert json.loads(ended.out) != json.loads(run("build", "star.piece", "--to", "json", "-o", "-").out)


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (["build"], "FILE"),
        (["sew"], "sew"),
        (["build", "star.piece", "--to", "htlm"], "did you mean html?"),
        (["build", "star.piece", "--to", ""], "there are html, md, svg, csv, json"),
        (["build", "star.piece", "--set", "seam"], "--set seam=3/8"),
        (["build", "star.piece", "--set", "seam=1/4", "--set", "seam=3/8"], "seam twice"),
        (["build", "star.piece", "sub/star.piece"], "star.piece and sub/star.piece would both be built into"),
        (["build", "star.piece", "-o", "-"], "one format"),
        (["build", "star.piece", "other.piece", "-o", "-", "--to", "html"], "one FILE"),
        (["build", "star.piece", "-o", "-", "--to", "svg"], "a file for each figure"),
        (["check", "-", "-"], "only one FILE"),
        (["check", "star.piece", "--format", "xml"], "xml"),
        (["explain", "E9O1"], "did you mean E901?"),
        (["explain", "banana"], "there is no code banana"),
    ],
)
def test_what_is_not_understood_ends_with_2(run: Run, arguments: list[str], said: str) -> None:
    ended = run(*arguments)
    assert (ended.code, ended.out) == (2, "")
    assert said in ended.err
    assert not Path("build").exists()


# ── check ───────────────────────────────────────────────────────────────────────────────────────


def test_check_of_a_clean_pattern(run: Run) -> None:
    ended = run("check", "star.piece")
    assert (ended.code, ended.out, ended.err) == (0, "", "star.piece: nothing to mend\n")
    assert not Path("build").exists()


def test_check_says_what_is_wrong_on_stderr(run: Run) -> None:
    ended = run("check", "wrong.piece", "--format", "short")
    assert (ended.code, ended.out) == (1, "")
    assert ended.err.startswith("wrong.piece:14:5: E2")


@pytest.mark.parametrize("form", ["json", "sarif"])
def test_check_gives_data_on_stdout(run: Run, form: str) -> None:
    ended = run("check", "wrong.piece", "--format", form)
    assert (ended.code, ended.err) == (1, "")
    whole = json.loads(ended.out)
    found = whole["diagnostics"] if form == "json" else whole["runs"][0]["results"]
    assert len(found) == 1
    clean = run("check", "star.piece", "--format", form)
    assert clean.code == 0 and json.loads(clean.out)


def test_strict_counts_warnings(run: Run, monkeypatch: pytest.MonkeyPatch) -> None:
    from diagnostics.samples import WARNING

    monkeypatch.setattr(pipeline, "check_file", lambda *_, **__: (WARNING,))
    assert run("check", "star.piece").code == 0
    assert run("check", "star.piece", "--strict").code == 1


def test_a_file_that_is_not_there_ends_with_3(run: Run) -> None:
    for command in ("check", "build"):
        ended = run(command, "gone.piece", "star.piece")
        assert ended.code == 3
        assert "error E901  gone.piece cannot be read: there is no such file" in ended.err


def test_a_folder_is_no_pattern(run: Run) -> None:
    Path("folder.piece").mkdir()
    ended = run("check", "folder.piece")
    assert ended.code == 3 and "it is a folder" in ended.err


@pytest.mark.parametrize(
    ("contents", "code"),
    [
        (b"", "E115"),
        (b"   \n# nothing\n", "E115"),
        ("fabric cr\xe8me\n".encode("latin-1"), "E190"),
        ("fabric sand\n".encode("utf-16"), "E190"),
        (b'use "gone.piece"\n', "E280"),
        (b"unit a (light)\n\tsquare 3 of light\n", "E101"),
    ],
)
def test_a_bad_text_is_a_finding_and_nothing_is_written(run: Run, contents: bytes, code: str) -> None:
    Path("bad.piece").write_bytes(contents)
    ended = run("build", "bad.piece")
    assert ended.code == 1 and f"error {code}" in ended.err
    assert not Path("build").exists()


# ── explain, version, our own faults ────────────────────────────────────────────────────────────


def test_explain_gives_the_page(run: Run) -> None:
    ended = run("explain", "e901")
    assert ended.code == 0 and ended.out.startswith("# E901: the file cannot be read\n")


def test_version(run: Run) -> None:
    ended = run("--version")
    assert (ended.code, ended.out) == (0, f"piecewright {__version__}\n")


@pytest.mark.parametrize("debug", [False, True])
def test_a_fault_of_ours_ends_with_4_and_an_apology(run: Run, monkeypatch: pytest.MonkeyPatch, debug: bool) -> None:
    def fails(*_: object, **__: object) -> None:
        raise KeyError("bobbin")

    monkeypatch.setattr(pipeline, "check_file", fails)
    if debug:
        monkeypatch.setenv("PIECEWRIGHT_DEBUG", "1")
    else:
        monkeypatch.delenv("PIECEWRIGHT_DEBUG", raising=False)
    ended = run("check", "star.piece")
    assert (ended.code, ended.out) == (4, "")
    assert "not of your pattern" in ended.err and "bobbin" in ended.err
    assert ("Traceback" in ended.err) == debug
    assert debug or ended.err.count("\n") == 1
