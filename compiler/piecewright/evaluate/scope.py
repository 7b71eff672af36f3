"""What a file names, and where a name is looked for: this file, the files it uses, the library."""

from __future__ import annotations

from typing import TYPE_CHECKING

from piecewright.diagnostics.model import Label
from piecewright.evaluate.bind import near
from piecewright.evaluate.definition import KINDS, Definition, ValueNode, binding, defined, may_be_name
from piecewright.evaluate.report import Problem
from piecewright.evaluate.settings import fabric_of, units_of
from piecewright.kernel.build import Fabric, Units
from piecewright.source import Span
from piecewright.syntax.ast import Call, File, Line, Name, Row, Text
from piecewright.verbs.table import VERBS
from piecewright.verbs.words import MARGIN

if TYPE_CHECKING:
    from piecewright.evaluate.session import Session


class Part:
    """A name that a definition's last cut gives one kind of its parts."""

    __slots__ = ("definition", "name")

    def __init__(self, definition: Definition, name: str) -> None:
        self.definition = definition
        self.name = name


class Margin:
    """`NAME is VALUE` at the left margin."""

    __slots__ = ("name", "node", "running", "scope", "span")

    def __init__(self, name: str, node: ValueNode, span: Span, scope: Scope) -> None:
        self.name = name
        self.node = node
        self.span = span
        self.scope = scope
        self.running = False


Entry = Definition | Part | Fabric | Margin


def words_of(text: str) -> set[str]:
    """All that may be names in some text."""
    return {word.strip('(),|"') for word in text.lower().replace("(", " ").split()}


class Scope:
    """One file. `makes` are its lines `make COUNT of PIECE`; `units` what its bare numbers are in."""

    def __init__(self, file: File, session: Session, *, library: bool = False) -> None:
        self.file = file
        self.session = session
        self.library = library
        self.units: Units = units_of(file)
        self.names: dict[str, Entry] = {}
        self.spans: dict[str, Span] = {}
        self.definitions: list[Definition] = []
        self.makes: list[Line] = []
        self.heading: Line | None = None
        self._wholes: list[Scope] = []
        self._picked: dict[str, Entry] = {}
        self._hiding = False
        self._refused = set(file.refused)

    def read(self) -> None:
        """Take in the lines at the margin, reporting those that are wrong."""
        for line in self.file.lines:
            try:
                self._line(line)
            except Problem as problem:
                self.session.report.problem(problem)
                self._refused.update(words_of(line.span.text))  # whatever it would have named is not unknown
        if self.heading.incomplete if self.heading is not None else "pattern" in self._refused:
            for definition in self.definitions:
                definition.broken = True  # its sizes hang on settings that could not be read

    def _line(self, line: Line) -> None:
        named = binding(line)
        if named is not None:
            self._name(named[0], Margin(named[0].text, named[1], named[0].span, self))
            return
        first = line.sentence.step.parts[0].members[0].items[0]
        word = first.text if isinstance(first, Name) else ""
        if word == "pattern":
            if self.heading is not None:
                raise Problem("E207", "a file has one heading", line.span)
            self.heading = line
        elif word == "fabric":
            name, fabric = fabric_of(line, self.units, self.session.settings)
            may_be_name(name)
            self._name(name, fabric)
            self.session.fabrics.setdefault(fabric.name, fabric)
        elif word in KINDS:
            self._define(line)
        elif word == "use":
            self._use(line)
        elif word == "cutter":
            pass  # read with the settings
        elif word == "make":
            self.makes.append(line)
        else:
            raise self._stray(line, word)

    def _stray(self, line: Line, word: str) -> Problem:
        first = line.sentence.step.parts[0].members[0].items[0]
        text = first.name.text if isinstance(first, Call) else first.span.text
        span = first.name.span if isinstance(first, Call) else first.span
        for child in line.children:
            items = () if isinstance(child, Row) else child.sentence.step.parts[0].members[0].items
            self._refused.update(item.text for item in items if isinstance(item, Name))
        if word in VERBS:
            return Problem(
                "E201",
                f"`{word}` is a step, and stands in no unit or block",
                span,
                "indent it under a line such as `block first (light, dark)`",
            )
        return Problem("E201", f"no line of a pattern begins with `{text}`", span, near(word, MARGIN))

    def _name(self, name: Name, entry: Entry) -> None:
        if name.text in self.names:
            raise Problem(
                "E207",
                f"`{name.text}` is defined twice",
                name.span,
                "give one of them another name",
                Label(span=self.spans[name.text], text="it is defined here first"),
            )
        self.names[name.text] = entry
        self.spans[name.text] = name.span

    def _define(self, line: Line) -> None:
        definition = defined(line, self, self.session.report)
        if definition is None:
            return
        self._name(Name(text=definition.name, span=definition.span), definition)
        self.definitions.append(definition)
        for part in definition.parts:
            may_be_name(part)
            self._name(part, Part(definition, part.text))

    def _use(self, line: Line) -> None:
        step = line.sentence.step
        text = step.parts[-1].members[0].items[-1]
        whole = len(step.parts) == 1
        form = 'write `use "FILE"` or `use NAMES from "FILE"`'
        if (
            not isinstance(text, Text)
            or line.sentence.clauses
            or line.children
            or (whole and (len(step.parts[0].members) > 1 or len(step.parts[0].members[0].items) != 2))
        ):
            raise Problem("E212", "this does not say which file to use", step.span, form)
        names: list[Name] = []
        if not whole:
            word = step.parts[1].word
            if len(step.parts) != 2 or word is None or word.text != "from":
                raise Problem("E212", "this does not say which file to use", step.span, form)
            for number, member in enumerate(step.parts[0].members):
                items = member.items[1:] if number == 0 else member.items
                name = items[0] if len(items) == 1 else None
                if not isinstance(name, Name):
                    raise Problem("E212", "this does not say what to use", member.span, form)
                names.append(name)
        used = self.session.load(text.text, text.span)
        if used is None:
            self._hiding = self._hiding or whole
            self._refused.update(name.text for name in names)
            return
        if whole:
            self._wholes.append(used)
        for name in names:
            entry = used.names.get(name.text)
            if entry is None:
                self._refused.add(name.text)
                if not used.may_hide(name.text):
                    self.session.report.problem(
                        Problem(
                            "E210",
                            f"“{text.text}” has nothing named `{name.text}`",
                            name.span,
                            near(name.text, tuple(used.names)),
                        )
                    )
                continue
            self._picked[name.text] = entry

    def find(self, name: str, span: Span) -> Entry | None:
        """What a name means here, or None. Raises `Problem` where two used files have it."""
        entry = self.names.get(name) or self._picked.get(name)
        if entry is not None:
            return entry
        found = [used for used in self._wholes if name in used.names]
        if len(found) > 1:
            raise Problem(
                "E211",
                f"two used files have `{name}`",
                span,
                f'say which: `use {name} from "FILE"`',
                *(Label(span=used.spans[name], text="here") for used in found),
            )
        if found:
            return found[0].names[name]
        return self.session.library_entry(name)

    def peek(self, name: str) -> Entry | None:
        """As `find`, but None where the name is not clear."""
        try:
            return self.find(name, self.file.span)
        except Problem:
            return None

    def has(self, name: str) -> bool:
        """Whether a unit or a part has the name."""
        return isinstance(self.peek(name), Definition | Part)

    def may_hide(self, name: str) -> bool:
        """Whether a name may be defined on a line, or in a file, that could not be read."""
        return self._hiding or name in self._refused

    def known(self) -> tuple[str, ...]:
        """All names that can be used here, but the library's."""
        names = dict.fromkeys((*self.names, *self._picked))
        for used in self._wholes:
            names.update(dict.fromkeys(used.names))
        return tuple(names)
