"""The command as a process of its own: streams, colours, a reader that goes away."""

from __future__ import annotations

import os
import subprocess
import sys
from importlib.resources import files
from pathlib import Path

import pytest

STARTER = files("piecewright").joinpath("starter.piece").read_bytes()
COMMAND = [sys.executable, "-m", "piecewright"]


def run(*arguments: str, folder: Path, stdin: bytes = b"", **more: str) -> subprocess.CompletedProcess[bytes]:
    environment = {name: value for name, value in os.environ.items() if name not in ("NO_COLOR", "PIECEWRIGHT_DEBUG")}
    return subprocess.run(
        [*COMMAND, *arguments], cwd=folder, input=stdin, capture_output=True, env=environment | more, check=False
    )


def test_a_pattern_from_a_stream_to_a_stream(tmp_path: Path) -> None:
    (tmp_path / "star.piece").write_bytes(STARTER)
    ended = run("build", "-", "-o", "-", "--to", "html", folder=tmp_path, stdin=STARTER)
    assert ended.returncode == 0 and ended.stderr == b""
    assert b"\r" not in ended.stdout and ended.stdout.decode("utf-8").lower().startswith("<!doctype html>")
    assert sorted(path.name for path in tmp_path.iterdir()) == ["star.piece"]


def test_a_pattern_from_a_stream_into_a_folder(tmp_path: Path) -> None:
    assert run("build", "-", "--to", "csv", folder=tmp_path, stdin=STARTER).returncode == 0
    assert (tmp_path / "build" / "pattern" / "cut-list.csv").is_file()


def test_findings_in_a_stream(tmp_path: Path) -> None:
    ended = run("check", "-", "--format", "short", folder=tmp_path, stdin=b"unit a (light)\n\tsquare 3 of light\n")
    assert ended.returncode == 1 and ended.stdout == b""
    assert ended.stderr.startswith(b"<stdin>:2:1: E101 ")


def test_a_pattern_from_a_stream_uses_files_of_the_folder(tmp_path: Path) -> None:
    (tmp_path / "cloth.piece").write_text('fabric sand "oat linen", colour "#d8c7a0"\n', encoding="utf-8")
    text = b'use "cloth.piece"\nunit patch (size)\n    square size of sand\nmake 2 of patch(3)\n'
    ended = run("check", "-", folder=tmp_path, stdin=text)
    assert (ended.returncode, ended.stderr) == (0, b"-: nothing to mend\n")


@pytest.mark.skipif(sys.platform != "linux", reason="elsewhere a file's name is text")
def test_a_file_whose_name_is_no_text(tmp_path: Path) -> None:
    name = os.fsencode(tmp_path) + b"/star\xff.piece"
    with open(name, "wb") as file:
        file.write(STARTER)
    text = os.fsdecode(name)
    assert run("build", text, folder=tmp_path).returncode == 0
    assert run("check", text, folder=tmp_path).returncode == 0
    with open(name, "ab") as file:
        file.write(b"\tsquare\n")
    for form in ("human", "short", "json", "sarif"):
        assert run("check", text, "--format", form, folder=tmp_path).returncode == 1


def test_line_ends_and_a_byte_order_mark_make_no_difference(tmp_path: Path) -> None:
    plain = run("build", "-", "-o", "-", "--to", "json", folder=tmp_path, stdin=STARTER)
    marked = b"\xef\xbb\xbf" + STARTER.replace(b"\n", b"\r\n")
    assert plain.returncode == 0
    assert run("build", "-", "-o", "-", "--to", "json", folder=tmp_path, stdin=marked).stdout == plain.stdout


def test_the_same_bytes_with_any_hash_seed(tmp_path: Path) -> None:
    first = run("build", "-", "-o", "-", "--to", "html", folder=tmp_path, stdin=STARTER, PYTHONHASHSEED="1")
    second = run("build", "-", "-o", "-", "--to", "html", folder=tmp_path, stdin=STARTER, PYTHONHASHSEED="2")
    assert first.stdout == second.stdout != b""


def test_a_stream_that_shows_only_ascii(tmp_path: Path) -> None:
    ended = run("check", "-", folder=tmp_path, stdin=b"unit a (light)\n\tsquare 3 of light\n", PYTHONIOENCODING="ascii")
    assert ended.returncode == 1
    assert b"====" in ended.stderr and ended.stderr.isascii()


def test_data_is_utf8_whatever_the_terminal_is(tmp_path: Path) -> None:
    ended = run("build", "-", "-o", "-", "--to", "html", folder=tmp_path, stdin=STARTER, PYTHONIOENCODING="ascii")
    assert ended.returncode == 0
    assert "½" in ended.stdout.decode("utf-8")


@pytest.mark.skipif(sys.platform == "win32", reason="a pseudo-terminal is a thing of POSIX")
@pytest.mark.parametrize(
    ("more", "coloured"),
    [({}, True), ({"NO_COLOR": "1"}, False), ({"NO_COLOR": ""}, True), ({"TERM": "dumb"}, False)],
)
def test_colour_only_on_a_terminal_that_wants_it(tmp_path: Path, more: dict[str, str], coloured: bool) -> None:
    import pty

    (tmp_path / "bad.piece").write_bytes(b"unit a (light)\n\tsquare 3 of light\n")
    environment = {name: value for name, value in os.environ.items() if name != "NO_COLOR"}
    master, slave = pty.openpty()
    try:
        subprocess.run(
            [*COMMAND, "check", "bad.piece"],
            cwd=tmp_path,
            stderr=slave,
            env=environment | {"TERM": "xterm", "COLUMNS": "80"} | more,
            check=False,
        )
        said = os.read(master, 65536)
    finally:
        os.close(slave)
        os.close(master)
    assert b"E101" in said
    assert (b"\x1b[" in said) == coloured


def test_no_colour_in_a_pipe(tmp_path: Path) -> None:
    ended = run("check", "-", folder=tmp_path, stdin=b"unit a (light)\n\tsquare 3 of light\n")
    assert ended.returncode == 1 and b"\x1b" not in ended.stderr


def test_a_reader_that_goes_away_is_no_fault(tmp_path: Path) -> None:
    (tmp_path / "star.piece").write_bytes(STARTER)
    read, write = os.pipe()
    os.close(read)
    try:
        ended = subprocess.run(
            [*COMMAND, "build", "star.piece", "-o", "-", "--to", "html"],
            cwd=tmp_path,
            stdout=write,
            stderr=subprocess.PIPE,
            check=False,
        )
    finally:
        os.close(write)
    assert (ended.returncode, ended.stderr) == (0, b"")


def test_the_package_loads_the_compiler_only_when_asked(tmp_path: Path) -> None:
    code = (
        "import sys, piecewright\nassert 'piecewright.pipeline' not in sys.modules\nprint(piecewright.compile_source)\n"
    )
    ended = subprocess.run([sys.executable, "-c", code], cwd=tmp_path, capture_output=True, check=False)
    assert ended.returncode == 0 and b"compile_source" in ended.stdout


def test_a_check_loads_nothing_that_only_a_build_needs(tmp_path: Path) -> None:
    (tmp_path / "star.piece").write_bytes(STARTER)
    code = (
        "import sys\nfrom piecewright.cli import main\n"
        "try:\n    main(['check', 'star.piece'])\n"
        "except SystemExit as stopped:\n    assert stopped.code == 0\n"
        "heavy = {'jinja2', 'svgwrite', 'lark', 'json', 'csv', 'tempfile', 'importlib.metadata', 'piecewright.emit',\n"
        "         'piecewright.plan', 'piecewright.output'}\n"
        "print(sorted(heavy & set(sys.modules)))\n"
    )
    ended = subprocess.run([sys.executable, "-c", code], cwd=tmp_path, capture_output=True, check=False)
    assert (ended.returncode, ended.stdout) == (0, b"[]\n"), ended.stderr
