"""Tests that must have the computer to themselves, among workers that run tests at the same time.

Two files are locked. Whoever is about to run a test passes the *gate*, one at a time, and takes the *room*: together
with others, or alone. Who waits to be alone stays in the gate, so that nobody else enters before. The locks are
those of the system, which gives them back when a worker dies.
"""

from __future__ import annotations

import fcntl
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path


class Turnstile:
    """`folder` holds the two files; all workers of a run share it."""

    def __init__(self, folder: Path) -> None:
        self._gate = open(folder / "gate", "a")  # noqa: SIM115 (kept open as long as this worker runs)
        self._room = open(folder / "room", "a")  # noqa: SIM115

    @contextmanager
    def passed(self, *, alone: bool) -> Iterator[None]:
        """Waits until this worker may run a test, and keeps others out meanwhile where it must be alone."""
        fcntl.flock(self._gate, fcntl.LOCK_EX)
        fcntl.flock(self._room, fcntl.LOCK_EX if alone else fcntl.LOCK_SH)
        fcntl.flock(self._gate, fcntl.LOCK_UN)
        try:
            yield
        finally:
            fcntl.flock(self._room, fcntl.LOCK_UN)

    def close(self) -> None:
        self._gate.close()
        self._room.close()
