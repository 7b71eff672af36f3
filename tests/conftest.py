"""What holds for all tests."""

from __future__ import annotations

import shutil
import tempfile
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from hypothesis import settings
from turnstile import Turnstile

# How long one example takes says more of what else the computer does than of the code; speed is measured
# as ratios under `benchmarks`. The examples are the same in every run, so that a run can be repeated.
settings.register_profile("steady", deadline=None, derandomize=True)
settings.load_profile("steady")

SHARED = pytest.StashKey[str]()  # a folder for the workers of a run
ENTRY = pytest.StashKey[Turnstile]()


@pytest.hookimpl(optionalhook=True)
def pytest_configure_node(node: Any) -> None:
    """Before pytest-xdist starts a worker: the folder in which the workers lock files."""
    if SHARED not in node.config.stash:
        node.config.stash[SHARED] = tempfile.mkdtemp(prefix="piecewright-tests-")
    node.workerinput["shared"] = node.config.stash[SHARED]


def pytest_configure(config: pytest.Config) -> None:
    if shared := getattr(config, "workerinput", {}).get("shared"):
        config.stash[ENTRY] = Turnstile(Path(shared))


def pytest_unconfigure(config: pytest.Config) -> None:
    if ENTRY in config.stash:
        config.stash[ENTRY].close()
    if SHARED in config.stash:
        shutil.rmtree(config.stash[SHARED], ignore_errors=True)


@pytest.hookimpl(wrapper=True, tryfirst=True)
def pytest_runtest_protocol(item: pytest.Item) -> Iterator[None]:
    """A test marked `alone` runs while no other worker runs one."""
    if ENTRY not in item.config.stash:
        return (yield)
    with item.config.stash[ENTRY].passed(alone=item.get_closest_marker("alone") is not None):
        return (yield)
