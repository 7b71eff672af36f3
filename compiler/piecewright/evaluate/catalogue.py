"""The library as a list: what it has, how each is called, and the index of its files.

After a change of what the library defines, write its index again: `python -m piecewright.evaluate.catalogue`.
"""

from __future__ import annotations

import os
from functools import cache

from piecewright.dataclass import dataclass
from piecewright.evaluate.definition import OR, Definition
from piecewright.evaluate.library import INDEX, index, library_folder, read_library
from piecewright.evaluate.other_names import other_names, plain
from piecewright.evaluate.remarks import remark_above
from piecewright.evaluate.session import Session
from piecewright.syntax.ast import File

CREAM, RUST, INK, GOLD, MOSS, CLAY = "#f1e7d3", "#b5573a", "#2f4a6d", "#dcae52", "#6d8062", "#8a6a86"
TINTS = (  # what a fabric is for, as its name says, and the colour it stands in
    (("light", "sky", "ground", "pale", "tip"), CREAM),
    (("dark", "deep", "star", "bird"), INK),
    (("heart", "hearth", "key", "rung", "stone", "link", "stripe", "corner"), RUST),
)
CYCLE = (INK, GOLD, MOSS, RUST, CLAY, CREAM)  # for any other, in order


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """One definition of the library. `parameters` are as written, each with its default behind it (`size 6`, or `size 6
    or 16 cm` with another for patterns in centimetres);
    `fabrics` those of them that have none, which in the library are fabrics; `parts` the names that its last cut
    gives; `about` its description, whose first sentence is `title`; `others` its other names in the trade."""

    name: str
    kind: str
    file: str
    parameters: tuple[str, ...]
    fabrics: tuple[str, ...]
    parts: tuple[str, ...]
    about: str
    others: tuple[str, ...]

    @property
    def title(self) -> str:
        end = self.about.find(". ")
        return self.about if end < 0 else self.about[: end + 1]

    @property
    def also(self) -> str:
        """Its other names as a sentence, or nothing where it has none."""
        return f"Also called {', '.join(self.others)}." if self.others else ""

    @property
    def group(self) -> str:
        """What its file is about, from the file's name: `Blocks: nine patch`."""
        kind, _, what = self.file.removesuffix(".piece").partition("-")
        return f"{kind.capitalize()}: {what.replace('-', ' ')}"

    def heading(self, name: str = "") -> str:
        """The name, or one of the parts, with the parameters as they are defined."""
        return _called(name or self.name, self.parameters)

    def call(self, name: str = "") -> str:
        """A call to paste: its fabrics, and its sizes where they do not hang on others."""
        written = (one.partition(f" {OR} ")[0] for one in self.parameters)
        plain = tuple(one for one in written if one in self.fabrics or one.split(" ", 1)[1][0].isdigit())
        return _called(name or self.name, plain)


def _called(name: str, arguments: tuple[str, ...]) -> str:
    return f"{name}({', '.join(arguments)})" if arguments else name


@cache
def entries() -> tuple[Entry, ...]:
    """All definitions of the library, in the order of its files and their lines."""
    files = dict.fromkeys(file for file, _ in index().values())
    return tuple(entry for file in files for entry in entries_of(read_library(file), file))


def entries_of(file: File, name: str) -> tuple[Entry, ...]:
    """The definitions of one file. Raises ValueError where the file cannot be used, as when it defines a name twice."""
    session = Session(file, lambda text, span: (), {})
    session.main.read()
    if session.report.found:
        raise ValueError(f"{name}: {session.report.found[0].message}")
    return tuple(_entry(definition, name) for definition in session.main.definitions)


def _entry(definition: Definition, file: str) -> Entry:
    return Entry(
        name=definition.name,
        kind=definition.kind,
        file=file,
        parameters=tuple(
            f"{one.name} {' or '.join(default.span.text for default in one.defaults)}" if one.defaults else one.name
            for one in definition.parameters
        ),
        fabrics=tuple(one.name for one in definition.parameters if one.default is None),
        parts=tuple(part.text for part in definition.parts),
        about=remark_above(definition.scope.file.source, definition.line.span.line),
        others=other_names().get(definition.name, ()),
    )


def found(words: tuple[str, ...]) -> tuple[Entry, ...]:
    """The entries that have every one of the words in their names or description, all where there are none."""
    wanted = [plain(word) for word in words]
    return tuple(entry for entry in entries() if all(word in plain(_words(entry)) for word in wanted))


def _words(entry: Entry) -> str:
    return " ".join((entry.name, *entry.parts, entry.about, *entry.others))


def sample(entry: Entry, name: str) -> str:
    """A pattern that makes the entry, or the part of it with a name, once at its default size, with a colour for each
    of its fabrics."""
    colours = list(CYCLE)
    lines = ['pattern "Library"']
    for parameter in entry.fabrics:
        colour = next((tint for words, tint in TINTS if parameter in words), None) or colours[0]
        if colour in colours:
            colours.remove(colour)
        lines.append(f'fabric {parameter}, colour "{colour}"')
    lines.append(f"make 1 of {_called(name, entry.fabrics)}")
    return "\n".join(lines) + "\n"


def index_text(folder: str) -> str:
    """What the index of a folder of library files must say. Raises ValueError where two define one name."""
    lines: list[str] = []
    taken: dict[str, str] = {}
    for file in sorted(one for one in os.listdir(folder) if one.endswith(".piece")):
        names: list[str] = []
        for entry in entries_of(read_library(file), file):
            for name in (entry.name, *entry.parts):
                if name in taken:
                    raise ValueError(f"{file} and {taken[name]} both define {name}")
                taken[name] = file
            names += (entry.name, *(f"{entry.name}/{part}" for part in entry.parts))
        lines.append(f"{file}: {' '.join(names)}\n")
    return "".join(lines)


def main() -> None:
    folder = library_folder()
    with open(os.path.join(folder, INDEX), "w", encoding="utf-8", newline="\n") as out:
        out.write(index_text(folder))


if __name__ == "__main__":
    main()
