"""What the README and DEVELOPERS.md say of the project is true of it, and the project keeps its shape."""

from __future__ import annotations

import re
import tomllib
from fnmatch import fnmatch
from pathlib import Path

import click
import piecewright
import pytest
from piecewright.cli.commands import cli

ROOT = Path(__file__).parents[2]
PACKAGE = ROOT / "compiler" / "piecewright"
DOCS = ("README.md", "DEVELOPERS.md")
TOP = {"README.md", "DEVELOPERS.md", "pyproject.toml", "grammar", "compiler", "stdlib", "examples", "tests"}
RESULTS = (
    "build/*",
    "figures/*",
    "templates/*",
    "foundations/*",
    "pattern.html",
    "pattern.md",
    "cut-list.csv",
    "kits.csv",
    "press.piece",
    "cutting.csv",
    "plan.json",
    "arrangements.html",
    "arrangements.svg",
    ".venv/*",
    "out/*",
)
PATH = re.compile(
    r"[\w.*-]*[\w*](?:/[\w.*-]+)+/?"  # with folders
    r"|[\w*-]+/"  # a folder
    r"|[\w*-]+\.(?:md|py|toml|piece|lark|csv|json|html|svg|jinja|j2)"  # a file
)


def read(name: str) -> str:
    return (ROOT / name).read_text(encoding="utf-8")


def commands(text: str) -> list[str]:
    """What stands between single backticks, and every line of a block of commands."""
    blocks = re.findall(r"^```sh\n(.*?)^```", text, re.MULTILINE | re.DOTALL)
    rest = re.sub(r"^```.*?^```", "", text, flags=re.MULTILINE | re.DOTALL)
    return re.findall(r"`([^`\n]+)`", rest) + [line for block in blocks for line in block.splitlines()]


def links(text: str) -> list[str]:
    found = re.findall(r"\]\(([^)\s#]+)[^)]*\)", text) + re.findall(r"(?:src|href|srcset)=\"([^\"#]+)\"", text)
    return [one for one in found if "://" not in one]


def ignored(name: str) -> bool:
    return any(fnmatch(name, line.rstrip("/")) for line in read(".gitignore").split())


@pytest.mark.parametrize("name", DOCS)
def test_every_path_that_is_named_is_there(name: str) -> None:
    """From the top, from the package, or from a folder named in the same line."""
    text = read(name)
    gone = [one for one in links(text) if not (ROOT / one).exists()]
    for line in text.splitlines():
        named = [one for one in re.findall(r"`([^`]+)`", line) if PATH.fullmatch(one)]
        folders = [ROOT, PACKAGE, *(ROOT / one for one in named if (ROOT / one).is_dir())]
        gone += [
            one
            for one in named
            if not any(fnmatch(one, result) for result in RESULTS)
            and not any(list(folder.glob(one.rstrip("/"))) for folder in folders)
        ]
    assert gone == []


@pytest.mark.parametrize("name", DOCS)
def test_every_path_in_a_command_is_there(name: str) -> None:
    gone = [
        word
        for line in commands(read(name))
        for word in line.replace('"', " ").split()
        if word.startswith(("examples/", "tests/", "grammar/", "compiler/", "stdlib/", ".ci/"))
        and not (ROOT / word).exists()
    ]
    assert gone == []


@pytest.mark.parametrize("name", DOCS)
def test_every_command_that_is_named_is_there(name: str) -> None:
    """Each `piecewright …` names a command with options it has; each program in `.venv/bin` is one of ours."""
    programs = {"python", "python3", "pip", "pytest", "ruff", "mypy", "lint-imports", "piecewright"}
    for line in commands(read(name)):
        for part in re.split(r"&&|\||;", line):
            words = part.split()
            if not words:
                continue
            if words[0].startswith(".venv/bin/"):
                assert words[0].removeprefix(".venv/bin/") in programs, part
            if words[0].removeprefix(".venv/bin/") == "piecewright" and len(words) > 1:
                known(words[1:])


def known(words: list[str]) -> None:
    """Fails unless these are words the command understands. Capitals and … stand for what is handed in."""
    if words[0].startswith("-"):
        assert words[0] in ("--version", "--help", "-h"), words
        return
    command = cli.commands.get(words[0])
    assert command is not None, words
    options = {option for one in command.params if isinstance(one, click.Option) for option in one.opts}
    options |= {"--help", "-h"}
    for word in words[1:]:
        if word.startswith("-") and word != "-":
            assert word.split("=")[0] in options, words


def test_the_checks_are_where_they_are_said_to_be() -> None:
    run = ROOT / ".ci" / "run"
    assert run.read_text(encoding="utf-8").startswith("#!/usr/bin/env bash\n")
    assert run.stat().st_mode & 0o100


def test_quick_start_is_two_commands() -> None:
    parts = re.split(r"^## ", read("README.md"), flags=re.MULTILINE)
    (section,) = (part for part in parts if part.startswith("Quick start\n"))
    blocks = re.findall(r"^```(\w*)\n(.*?)^```", section, re.MULTILINE | re.DOTALL)
    assert [language for language, _ in blocks].count("sh") == 2
    first, second = (text for language, text in blocks if language == "sh")
    assert first.count("\n") == second.count("\n") == 1
    assert ".venv" in first and "piecewright build examples/" in first
    assert ".venv" in second and "pytest" in second


def test_nothing_else_stands_at_the_top() -> None:
    there = {one.name for one in ROOT.iterdir() if not one.name.startswith(".") and not ignored(one.name)}
    assert there == TOP


def written() -> list[Path]:
    """The source files of the project that people wrote."""
    found: list[Path] = []
    for folder in ("compiler", "grammar", "stdlib", "tests"):
        found.extend(sorted((ROOT / folder).rglob("*.py")))
    return [path for path in found if "do not edit" not in path.read_text(encoding="utf-8")[:200]]


def test_no_file_is_longer_than_one_concept() -> None:
    lengths = {
        path.relative_to(ROOT).as_posix(): len(path.read_text(encoding="utf-8").splitlines()) for path in written()
    }
    assert lengths
    assert {name: lines for name, lines in lengths.items() if lines > 400} == {}


def test_every_package_is_installed_and_every_module_has_its_layer() -> None:
    project = tomllib.loads(read("pyproject.toml"))
    packages = set(project["tool"]["setuptools"]["packages"])
    folders = {
        ".".join(one.parent.relative_to(PACKAGE.parent).parts) for one in PACKAGE.rglob("__init__.py")
    } | {"piecewright.grammar", "piecewright.stdlib"}
    assert packages == folders
    (layers,) = (one["layers"] for one in project["tool"]["importlinter"]["contracts"] if one["type"] == "layers")
    named = {name.strip() for layer in layers for name in layer.split("|")}
    modules = {f"piecewright.{one.stem}" for one in PACKAGE.glob("*.py") if not one.stem.startswith("__")}
    modules |= {f"piecewright.{one.parent.name}" for one in PACKAGE.glob("*/__init__.py")}
    assert named == modules


def test_there_is_one_version() -> None:
    assert tomllib.loads(read("pyproject.toml"))["project"]["version"] == piecewright.__version__
