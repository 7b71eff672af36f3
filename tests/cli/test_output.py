"""A set of files is written whole or not at all."""

from __future__ import annotations

import os
from collections.abc import Callable
from pathlib import Path

import pytest
from piecewright import output
from piecewright.output import write_all

FIRST = (("pattern.html", "<p>one</p>\n"), ("figures/a-1.svg", "<svg>1</svg>\n"), ("figures/a-2.svg", "<svg>2</svg>\n"))
SECOND = (("pattern.html", "<p>two</p>\n"), ("figures/a-1.svg", "<svg>new</svg>\n"), ("more/b.csv", "x\n"))


def tree(folder: Path) -> dict[str, bytes | None]:
    """Everything under a folder: the bytes of a file, None for a folder."""
    return {
        path.relative_to(folder).as_posix(): path.read_bytes() if path.is_file() else None
        for path in sorted(folder.rglob("*"))
    }


def test_what_is_written(tmp_path: Path) -> None:
    folder = tmp_path / "a" / "b"
    write_all(folder, FIRST)
    assert tree(folder) == {
        "figures": None,
        "figures/a-1.svg": b"<svg>1</svg>\n",
        "figures/a-2.svg": b"<svg>2</svg>\n",
        "pattern.html": b"<p>one</p>\n",
    }


def test_a_second_set_replaces_the_first_and_takes_the_stale_away(tmp_path: Path) -> None:
    write_all(tmp_path, FIRST)
    (tmp_path / "figures" / "mine.svg").write_text("my own")
    write_all(tmp_path, SECOND, ["figures/a-2.svg"])
    assert tree(tmp_path) == {
        "figures": None,
        "figures/a-1.svg": b"<svg>new</svg>\n",
        "figures/mine.svg": b"my own",
        "more": None,
        "more/b.csv": b"x\n",
        "pattern.html": b"<p>two</p>\n",
    }


def test_a_folder_left_empty_by_the_stale_goes_too(tmp_path: Path) -> None:
    write_all(tmp_path, FIRST)
    write_all(tmp_path, FIRST[:1], ["figures/a-1.svg", "figures/a-2.svg"])
    assert tree(tmp_path) == {"pattern.html": b"<p>one</p>\n"}


def failing(function: Callable[..., object], turn: int, error: BaseException) -> Callable[..., object]:
    """The function, raising at its call number `turn`, counted from 1; later calls work."""
    calls = 0

    def stand_in(*arguments: object, **named: object) -> object:
        nonlocal calls
        calls += 1
        if calls == turn:
            raise error
        return function(*arguments, **named)

    return stand_in


ERRORS = [OSError(28, "No space left on device"), KeyboardInterrupt()]


@pytest.mark.parametrize("error", ERRORS, ids=["disk full", "interrupt"])
@pytest.mark.parametrize("function", ["fsync", "replace", "link"])
@pytest.mark.parametrize("turn", [1, 2, 3])
def test_whatever_stops_it_leaves_the_earlier_files(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, error: BaseException, function: str, turn: int
) -> None:
    write_all(tmp_path, FIRST)
    (tmp_path / "mine.txt").write_text("my own")
    before = tree(tmp_path)
    stand_in = failing(getattr(os, function), turn, error)
    monkeypatch.setattr(output.os, function, stand_in)
    if function == "link" and isinstance(error, OSError):  # a disk without second names: a copy serves
        write_all(tmp_path, SECOND, ["figures/a-2.svg"])
        assert tree(tmp_path)["pattern.html"] == b"<p>two</p>\n"
        return
    with pytest.raises(type(error)):
        write_all(tmp_path, SECOND, ["figures/a-2.svg"])
    assert tree(tmp_path) == before


@pytest.mark.parametrize("error", ERRORS, ids=["disk full", "interrupt"])
def test_stopped_at_the_stale_it_leaves_the_earlier_files(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, error: BaseException
) -> None:
    write_all(tmp_path, FIRST)
    before = tree(tmp_path)
    monkeypatch.setattr(output.Path, "unlink", failing(Path.unlink, 1, error))
    with pytest.raises(type(error)):
        write_all(tmp_path, SECOND[:2], ["figures/a-2.svg"])
    assert tree(tmp_path) == before


@pytest.mark.parametrize("function", ["fsync", "replace"])
def test_stopped_the_first_time_it_leaves_nothing(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, function: str
) -> None:
    monkeypatch.setattr(output.os, function, failing(getattr(os, function), 2, OSError(28, "No space left on device")))
    with pytest.raises(OSError, match="No space"):
        write_all(tmp_path / "build" / "first", FIRST)
    assert tree(tmp_path) == {}


def test_a_file_in_the_way_of_a_folder_is_left(tmp_path: Path) -> None:
    (tmp_path / "out").write_text("mine")
    with pytest.raises(OSError):
        write_all(tmp_path / "out", FIRST)
    with pytest.raises(OSError):
        write_all(tmp_path / "out" / "deeper", FIRST)
    assert tree(tmp_path) == {"out": b"mine"}


def test_a_folder_in_the_way_of_a_file_is_left(tmp_path: Path) -> None:
    (tmp_path / "figures" / "a-2.svg" / "inner").mkdir(parents=True)
    before = tree(tmp_path)
    with pytest.raises(OSError):
        write_all(tmp_path, FIRST)
    assert tree(tmp_path) == before
