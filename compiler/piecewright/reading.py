"""Pattern texts read from files, and the files they use."""

from __future__ import annotations

import errno
import os
from collections.abc import Callable

from piecewright.diagnostics.model import Diagnostic, Label
from piecewright.source import Source, Span
from piecewright.syntax.ast import File
from piecewright.syntax.parse import parse

Read = Callable[[str], bytes | str]
"""Gives the contents of a file by its name, or raises OSError."""

MARK = b"\xef\xbb\xbf"  # the byte order mark of UTF-8

ABSENT = {errno.ENOENT, errno.ENOTDIR, errno.EISDIR, errno.ENAMETOOLONG, errno.ELOOP}
WORDS = {
    errno.ENOENT: "there is no such file",
    errno.ENOTDIR: "there is no such file",
    errno.EISDIR: "it is a folder",
    errno.EACCES: "reading it is not allowed",
    errno.EPERM: "reading it is not allowed",
    errno.ENAMETOOLONG: "its name is too long",
    errno.ELOOP: "its links lead round in a circle",
}


def read_disk(name: str) -> bytes:
    """The bytes of a file of this computer."""
    try:
        with open(name, "rb") as file:
            return file.read()
    except ValueError as error:  # a name no file can have, such as one with a zero character
        raise FileNotFoundError(errno.ENOENT, "no such file", name) from error


def read_nothing(name: str) -> bytes:
    """For a text that stands alone: there are no other files."""
    raise FileNotFoundError(errno.ENOENT, "no such file", name)


def why(error: OSError) -> str:
    """What went wrong with a file, in plain words."""
    return WORDS.get(error.errno or 0) or (error.strerror or "the disk gave no reason").lower()


def decoded(name: str, contents: bytes | str) -> Source | Diagnostic:
    """The text of a file: UTF-8 with or without a byte order mark, every line end made `\\n`."""
    if isinstance(contents, str):
        return Source(name, _lines(contents.removeprefix("\ufeff")))
    try:
        return Source(name, _lines(contents.removeprefix(MARK).decode()))
    except UnicodeDecodeError:
        return _not_utf8(name, contents)


def _lines(text: str) -> str:
    return text.replace("\r\n", "\n").replace("\r", "\n") if "\r" in text else text


def _not_utf8(name: str, contents: bytes) -> Diagnostic:
    hint = "save the file again with the encoding UTF-8"
    if contents[:2] in (b"\xff\xfe", b"\xfe\xff"):
        span = Span(Source(name, ""), 0, 0)
        return _error("E190", "the file is saved as UTF-16, and a pattern is read as UTF-8", span, hint)
    body = contents.removeprefix(MARK)
    try:
        body.decode("utf-8")
    except UnicodeDecodeError as error:
        before = _lines(body[: error.start].decode("utf-8"))
        source = Source(name, _lines(body.decode("utf-8", "replace")))
        span = Span(source, len(before), len(before) + 1)
        return _error("E190", "this character is not saved as UTF-8, so it cannot be read", span, hint)
    raise AssertionError("the bytes were refused before")


def _error(code: str, message: str, span: Span, hint: str | None = None, *others: Label) -> Diagnostic:
    return Diagnostic(code=code, severity="error", message=message, labels=(Label(span=span), *others), hint=hint)


class Reader:
    """Reads the files of one compilation, each once, and knows which uses which.

    `found` gathers what is wrong in used files that could be read in part.
    """

    def __init__(self, read: Read) -> None:
        self.found: list[Diagnostic] = []
        self._read = read
        self._files: dict[str, File | None] = {}
        self._sources: dict[str, Source] = {}
        self._uses: dict[str, dict[str, Span]] = {}

    def main(self, name: str, contents: bytes | str | None = None) -> tuple[File | None, tuple[Diagnostic, ...]]:
        """The file a compilation starts at; `contents` where they are known already."""
        if contents is None:
            try:
                contents = self._read(name)
            except OSError as error:
                span = Span(Source(name, ""), 0, 0)
                return None, (_error("E901", f"{name} cannot be read: {why(error)}", span),)
        return self._parsed(name, contents)

    def load(self, written: str, span: Span) -> File | tuple[Diagnostic, ...]:
        """The file named at `span`, relative to the file that names it, or why there is none.

        Each reason is given once: asked again for a file that could not be had, it gives no diagnostics.
        """
        using = span.source.name
        name = os.path.normpath(os.path.join(os.path.dirname(using), written))
        circle = self._path(name, os.path.normpath(using))
        if circle is not None:
            return (_circle(written, span, circle),)
        self._uses.setdefault(os.path.normpath(using), {})[name] = span
        if name in self._files:
            return self._files[name] or ()
        self._files[name] = None
        try:
            contents = self._read(name)
        except OSError as error:
            return (self._missing(written, name, span, error),)
        file, diagnostics = self._parsed(name, contents)
        if file is None:
            return diagnostics
        self._files[name] = file
        self.found.extend(diagnostics)
        return file

    def source(self, name: str) -> Source | None:
        """The text of a file that was read, by the name that it was read under."""
        return self._sources.get(name)

    def _parsed(self, name: str, contents: bytes | str) -> tuple[File | None, tuple[Diagnostic, ...]]:
        source = decoded(name, contents)
        if isinstance(source, Diagnostic):
            return None, (source,)
        self._sources[source.name] = source
        return parse(source)

    def _path(self, start: str, goal: str) -> list[Span] | None:
        """The uses that lead from one file to another, or None; no uses if they are the same file."""
        trails: list[tuple[str, list[Span]]] = [(start, [])]
        seen = {start}
        while trails:
            name, trail = trails.pop(0)
            if name == goal:
                return trail
            for used, span in self._uses.get(name, {}).items():
                if used not in seen:
                    seen.add(used)
                    trails.append((used, [*trail, span]))
        return None

    def _missing(self, written: str, name: str, span: Span, error: OSError) -> Diagnostic:
        if error.errno not in ABSENT:
            return _error("E901", f"the used file “{written}” cannot be read: {why(error)}", span)
        hint = None
        if self._read is read_disk:
            near = _neighbour(name)
            if near is not None:
                hint = f"there is “{near}” in that folder"
        elif self._read is read_nothing:
            hint = "this text stands alone; save it as a file to use others"
        reason = "it is a folder" if error.errno == errno.EISDIR else "there is no such file"
        return _error("E280", f"the used file “{written}” cannot be read: {reason}", span, hint)


def _circle(written: str, span: Span, circle: list[Span]) -> Diagnostic:
    message = f"“{written}” already uses this file" if circle else f"“{written}” is this file itself"
    others = tuple(Label(span=use, text="which uses it here") for use in circle)
    return _error("E281", message, span, "put what both need into a file of its own", *others)


def _neighbour(name: str) -> str | None:
    """A pattern file in the same folder whose name is close to the one written."""
    from piecewright.diagnostics.nearest import nearest  # only on the way to an error

    folder, wanted = os.path.split(name)
    try:
        there = sorted(one for one in os.listdir(folder or ".") if one.endswith(".piece"))
    except OSError:
        return None
    return wanted + ".piece" if wanted + ".piece" in there else nearest(wanted, there)
