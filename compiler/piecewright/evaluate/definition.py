"""Definitions as they are written, each line matched to its verb once."""

from __future__ import annotations

from typing import TYPE_CHECKING

from piecewright.evaluate.bind import Match, PieceNode, match, near, piece
from piecewright.evaluate.report import Problem, Report
from piecewright.kernel.build import Kind
from piecewright.source import Span
from piecewright.syntax.ast import Call, Item, Line, Name, Number, Phrase, Product, Row, Sum, Text
from piecewright.verbs.registry import Verb
from piecewright.verbs.table import VERBS
from piecewright.verbs.words import RESERVED

if TYPE_CHECKING:
    from piecewright.evaluate.scope import Scope

ValueNode = Item | PieceNode
KINDS: dict[str, Kind] = {"unit": "unit", "block": "block", "quilt": "quilt"}
OR = "or"  # between a default for patterns in inches and one for the others
MEASURING = ("width", "height", "diagonal")  # calls that give a size
WELL_KNOWN = {"press": "`press` stands after a comma: `join … on left, press open`"}


class Parameter:
    """`kind` follows from the use: `size`, `count`, `fabric`, `piece`, `place`, or None when it has none. `metric` is
    the default for patterns that are not in inches, where one is written for them."""

    __slots__ = ("default", "kind", "metric", "name", "span")

    def __init__(self, name: str, span: Span, default: ValueNode | None, metric: ValueNode | None = None) -> None:
        self.name = name
        self.span = span
        self.default = default
        self.metric = metric
        self.kind: str | None = None

    @property
    def defaults(self) -> tuple[ValueNode, ...]:
        """The default as it is written: none, one, or one for each system."""
        return tuple(one for one in (self.default, self.metric) if one is not None)


class Statement:
    """One line of a definition: a verb's sentence, or `NAME is VALUE` (then `verb` is None)."""

    __slots__ = ("children", "line", "match", "name", "rows", "span", "value", "verb")

    def __init__(self, span: Span) -> None:
        self.span = span
        self.line = span.line
        self.verb: Verb | None = None
        self.match: Match | None = None
        self.name: Name | None = None
        self.value: ValueNode | None = None
        self.children: list[Statement] = []
        self.rows: list[list[PieceNode]] = []


class Definition:
    """A unit, block or quilt. `parts` are the names its last cut gives its parts.

    `broken`: a line of it could not be matched, so that nothing can be made of it; `hidden` are the words of
    such lines. `used`: it was evaluated. `settled`: the kinds of its parameters are known.
    """

    __slots__ = (
        "_statements", "broken", "hidden", "kind", "line", "name", "parameters", "parts", "running", "scope", "settled",
        "span", "used",
    )  # fmt: skip

    def __init__(
        self,
        name: str,
        kind: Kind,
        parameters: tuple[Parameter, ...],
        line: Line,
        span: Span,
        scope: Scope,
    ) -> None:
        self.name = name
        self.kind = kind
        self.parameters = parameters
        self.line = line
        self.span = span
        self.scope = scope
        self.parts = part_names(line)
        self.broken = line.incomplete
        self.hidden: set[str] = set()
        self.used = False
        self.running = False
        self._statements: list[Statement] | None = None
        self.settled = False

    def statements(self, report: Report) -> list[Statement]:
        """The lines, matched; what cannot be matched is reported the first time."""
        if self._statements is None:
            self._statements = []
            if not self.line.children:
                if not self.broken:
                    report.problem(
                        Problem("E218", f"`{self.name}` has no steps", self.span, "indent its steps under it")
                    )
                self.broken = True
            self._statements = self._matched(self.line.children, report)
        return self._statements

    def _matched(self, lines: tuple[Line | Row, ...], report: Report) -> list[Statement]:
        found: list[Statement] = []
        for line in lines:
            try:
                if isinstance(line, Row):
                    raise Problem("E219", "a row stands only under `lay`", line.span)
                statement = self._statement(line, report)
            except Problem as problem:
                report.problem(problem)
                self.broken = True
                self.hidden.update(word.lower() for word in line.span.text.split())
                continue
            found.append(statement)
        return found

    def _statement(self, line: Line, report: Report) -> Statement:
        sentence = line.sentence
        statement = Statement(line.span)
        named = binding(line)
        if named is not None:
            statement.name, statement.value = named
            return statement
        first = sentence.step.parts[0].members[0].items[0]
        verb = VERBS.get(first.text) if isinstance(first, Name) else None
        if verb is None:
            raise self._no_verb(first)
        statement.verb = verb
        statement.match = match(verb, sentence.step, sentence.clauses, sentence.span)
        if verb.under == "lines":
            statement.children = self._matched(line.children, report)
        elif verb.under == "rows":
            statement.rows = statement.match.rows = self._rows(line, report)
        elif line.children:
            raise Problem("E219", f"nothing can stand under `{verb.name}`", line.children[0].span)
        if verb.under and not line.children and not line.incomplete:
            what = "the steps to repeat" if verb.under == "lines" else "a table with `|` between its cells"
            raise Problem("E218", f"nothing stands under `{verb.name}`", line.span, f"indent {what} under it")
        return statement

    def _rows(self, line: Line, report: Report) -> list[list[PieceNode]]:
        rows: list[list[PieceNode]] = []
        for row in line.children:
            if not isinstance(row, Row):
                raise Problem(
                    "E219", "under `lay` stand rows", row.span, "a row of one cell starts with a bar: `| goose`"
                )
            cells: list[PieceNode] = []
            for cell in row.cells:
                try:
                    cells.append(piece(cell))
                except Problem as problem:
                    report.problem(problem)
                    self.broken = True
            rows.append(cells)
        return rows

    def _no_verb(self, first: Item) -> Problem:
        word = first.text if isinstance(first, Name) else first.name.text if isinstance(first, Call) else ""
        text = first.span.text if not isinstance(first, Call) else word
        message = f"no step begins with `{text}`"
        span = first.name.span if isinstance(first, Call) else first.span
        if word in WELL_KNOWN:
            return Problem("E201", message, span, WELL_KNOWN[word])
        if self.scope.has(word):
            return Problem("E201", message, span, f"to bring it to the table write `take {first.span.text}`")
        return Problem("E201", message, span, near(word, tuple(VERBS)))


def binding(line: Line) -> tuple[Name, ValueNode] | None:
    """The name and the value of `NAME is VALUE`, or None. Raises `Problem`."""
    step = line.sentence.step
    if len(step.parts) < 2 or step.parts[1].word is None or step.parts[1].word.text != "is":
        return None
    items = step.parts[0].members[0].items
    name = items[0]
    if len(step.parts[0].members) > 1 or len(items) > 1 or not isinstance(name, Name):
        raise Problem("E212", "one name stands before `is`", step.parts[0].span, "write `NAME is VALUE`")
    may_be_name(name)
    if line.sentence.clauses:
        raise Problem("E213", "`is` has no clauses", line.sentence.clauses[0].span)
    if line.children:
        raise Problem("E219", "nothing can stand under `is`", line.children[0].span)
    part = step.parts[1]
    rest = Phrase(
        parts=(type(part)(word=None, members=part.members, span=part.members[0].span), *step.parts[2:]),
        span=part.members[0].span.to(step.span),
    )
    return name, value_node(rest)


def may_be_name(name: Name) -> None:
    """Raises `Problem` for a word that the language keeps for itself."""
    if name.text in VERBS or name.text in RESERVED:
        what = "a verb" if name.text in VERBS else "a word of the language"
        raise Problem("E208", f"`{name.text}` is {what}, and cannot be a name", name.span, "choose another name")


def value_node(phrase: Phrase) -> ValueNode:
    """A phrase as arithmetic, a name or a piece. Raises `Problem`."""
    members = phrase.parts[0].members
    if len(members) > 1:
        raise Problem("E220", "only places and new names come in a list; this takes one thing", members[1].span)
    items = members[0].items
    first = items[0]
    if isinstance(first, Text):
        raise Problem("E204", "a text is no value", first.span)
    if isinstance(first, Number | Sum | Product) or (isinstance(first, Call) and first.name.text in MEASURING):
        over = items[1].span if len(items) > 1 else phrase.parts[1].span if len(phrase.parts) > 1 else None
        if over is not None:
            raise Problem("E212", f"`{over.text}` has no place after a size", over)
        return first
    if isinstance(first, Name) and len(items) == 1 and len(phrase.parts) == 1 and first.text not in VERBS:
        return first
    return piece(phrase)


def part_names(line: Line) -> tuple[Name, ...]:
    """The names that a definition's cuts give their parts, read off the page alone."""
    for child in line.children:
        if not isinstance(child, Line):
            continue
        step = child.sentence.step
        first = step.parts[0].members[0].items[0]
        if isinstance(first, Name) and first.text == "cut":
            for part in step.parts[1:]:
                if part.word is not None and part.word.text == "into":
                    return tuple(m.items[0] for m in part.members if isinstance(m.items[0], Name))
    return ()


def defined(line: Line, scope: Scope, report: Report) -> Definition | None:
    """The definition of a line `unit NAME (parameters)`; None where its heading is wrong. Raises `Problem`."""
    step = line.sentence.step
    items = step.parts[0].members[0].items
    kind = items[0]
    assert isinstance(kind, Name)
    if line.sentence.clauses:
        raise Problem("E213", f"`{kind.text}` has no clauses", line.sentence.clauses[0].span)
    if len(step.parts) > 1 or len(step.parts[0].members) > 1 or len(items) != 2:
        over = items[2].span if len(items) > 2 else step.span
        raise Problem("E212", f"this is no heading of a {kind.text}", over, f"write `{kind.text} name (light, dark)`")
    head = items[1]
    if not isinstance(head, Name | Call):
        raise Problem("E212", f"`{head.span.text}` is no name", head.span, f"write `{kind.text} name (light, dark)`")
    name = head if isinstance(head, Name) else head.name
    may_be_name(name)
    parameters: list[Parameter] = []
    if isinstance(head, Call):
        for phrase in head.arguments:
            parameters.append(_parameter(phrase, parameters))
    return Definition(name.text, KINDS[kind.text], tuple(parameters), line, name.span, scope)


def _parameter(phrase: Phrase, before: list[Parameter]) -> Parameter:
    items = phrase.parts[0].members[0].items
    name = items[0]
    if not isinstance(name, Name):
        raise Problem(
            "E212", f"`{name.span.text}` is no name", name.span, "a parameter is a name: `unit tip (size, cloth)`"
        )
    may_be_name(name)
    if any(one.name == name.text for one in before):
        raise Problem("E207", f"the parameter `{name.text}` is named twice", name.span)
    if len(items) == 1 and len(phrase.parts) == 1:
        last = before[-1] if before else None
        if last is not None and last.default is not None:
            raise Problem(
                "E212",
                f"`{name.text}` has no default, and stands after `{last.name}` which has one",
                name.span,
                "parameters with defaults come last",
            )
        return Parameter(name.text, name.span, None)
    if len(items) == 1:
        raise Problem(
            "E212",
            f"`{phrase.parts[1].span.text}` has no place here",
            phrase.parts[1].span,
            "a default is written as name and value: `size 6`",
        )
    if len(items) > 2 and len(phrase.parts) == 1 and isinstance(items[2], Name) and items[2].text == OR:
        if len(items) == 3:
            hint = f"write both: `{name.text} 6 {OR} 16 cm`"
            raise Problem("E212", f"after `{OR}` the default in centimetres is missing", items[2].span, hint)
        if len(items) > 4:
            raise Problem("E212", f"`{items[4].span.text}` has no place after two defaults", items[4].span)
        return Parameter(name.text, name.span, *(_default(phrase, items[at : at + 1]) for at in (1, 3)))
    return Parameter(name.text, name.span, _default(phrase, items[1:]))


def _default(phrase: Phrase, items: tuple[Item, ...]) -> ValueNode:
    """Some words of a parameter, and what stands after the first part of it, as a value."""
    span = items[0].span.to(items[-1].span if len(phrase.parts) == 1 else phrase.span)
    first = phrase.parts[0]
    member = type(first.members[0])(items=items, span=span)
    rest = Phrase(parts=(type(first)(word=None, members=(member,), span=span), *phrase.parts[1:]), span=span)
    return value_node(rest)
