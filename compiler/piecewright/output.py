"""A set of files written so that it is there whole or not at all.

Everything is written into a temporary folder beside its destination and forced to disk first; only
then is each file moved into place, which replaces a file in one act. What was there before is kept
until the last one has moved, and put back if anything stops the work, a Ctrl-C included. Files that
are not ours are never touched.
"""

from __future__ import annotations

import os
import shutil
from collections.abc import Iterable, Sequence
from pathlib import Path


def write_all(folder: Path, files: Sequence[tuple[str, str]], stale: Iterable[str] = ()) -> None:
    """Write `files`, pairs of a relative path (with `/`) and a text, under `folder` as UTF-8 with `\\n`
    line ends, and then remove the relative paths in `stale`.

    OSError, or whatever else stopped it, leaves `folder` as it was.
    """
    from tempfile import mkdtemp  # here, because only writing needs it

    made = _made_folders(folder)
    aside = None
    try:
        aside = Path(mkdtemp(prefix=".piecewright-", dir=folder))
        for number, (_, text) in enumerate(files):
            _write(aside / f"new-{number}", text)
        _swap(folder, aside, [path for path, _ in files], sorted(stale), made)
    except BaseException:
        if aside is not None:
            shutil.rmtree(aside, ignore_errors=True)
        for one in reversed(made):
            _leave(one)
        raise
    shutil.rmtree(aside, ignore_errors=True)


def _write(path: Path, text: str) -> None:
    with open(path, "w", encoding="utf-8", newline="\n") as file:
        file.write(text)
        file.flush()
        os.fsync(file.fileno())


def _made_folders(folder: Path) -> list[Path]:
    """Make a folder and those above it; which of them were not there, the outermost first."""
    missing: list[Path] = []
    above = folder
    while not above.exists():
        missing.append(above)
        above = above.parent
    made: list[Path] = []
    try:
        for one in reversed(missing):
            one.mkdir(exist_ok=True)
            made.append(one)
        if not folder.is_dir():
            folder.mkdir()  # a file of that name: let the system say so
    except BaseException:
        for one in reversed(made):
            _leave(one)
        raise
    return made


def _swap(folder: Path, aside: Path, names: list[str], stale: list[str], made: list[Path]) -> None:
    done: list[tuple[Path, Path | None]] = []
    try:
        for number, name in enumerate(names):
            target = folder / name
            made.extend(_made_folders(target.parent))
            old = _kept(target, aside / f"old-{number}")
            done.append((target, old))
            os.replace(aside / f"new-{number}", target)
        for number, name in enumerate(stale, len(names)):
            target = folder / name
            old = _kept(target, aside / f"old-{number}")
            done.append((target, old))
            target.unlink(missing_ok=True)
        for parent in sorted({(folder / name).parent for name in stale} - {folder}):
            _leave(parent)
    except BaseException:
        for target, old in reversed(done):
            if old is not None:
                target.parent.mkdir(parents=True, exist_ok=True)
                os.replace(old, target)
            else:
                target.unlink(missing_ok=True)
        raise


def _kept(target: Path, spare: Path) -> Path | None:
    """A second name for what stands at `target`, so that it can be put back; None if nothing does."""
    if not target.is_symlink() and not target.exists():
        return None
    try:
        os.link(target, spare, follow_symlinks=False)
    except OSError:  # a disk without second names, or a folder, which copying refuses with its reason
        shutil.copy2(target, spare, follow_symlinks=False)
    return spare


def _leave(folder: Path) -> None:
    """Remove a folder if it is empty."""
    try:
        folder.rmdir()
    except OSError:
        return
