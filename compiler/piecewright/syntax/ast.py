"""The tree of a pattern text: shapes of sentences, and nothing about verbs.

A `File` is lines; a line is a sentence with lines or rows under it; a sentence is phrases divided
by commas; a phrase is parts, each after the first led by a joining word; a part is members divided
by `and`; a member is items side by side. `join rectangle 2 by 4 of sky on top` is one phrase of
four parts: `join rectangle 2`, by `4`, of `sky`, on `top`.

Nodes are compared by identity: two that read alike still stand in two places.
"""

from __future__ import annotations

from piecewright.dataclass import dataclass
from piecewright.exact import Exact
from piecewright.source import Source, Span


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Number:
    """A written number. `value` is the number as written, before any change of unit; `unit` is
    `inch`, `cm`, `mm`, or None for a bare number, which is in the file's own unit."""

    value: Exact
    unit: str | None
    span: Span


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Name:
    """A word, in small letters: a verb, a place, a fabric, a unit or anything else."""

    text: str
    span: Span


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Text:
    """What stands between quotation marks, without them."""

    text: str
    span: Span


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Call:
    """`NAME ( phrase, phrase )`; `arguments` may be empty only where the name is defined."""

    name: Name
    arguments: tuple[Phrase, ...]
    span: Span


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Product:
    """`first * second / third`: `operators[i]` stands before `factors[i + 1]`."""

    factors: tuple[Factor, ...]
    operators: tuple[str, ...]
    span: Span


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Sum:
    """`first + second - third`: `operators[i]` stands before `terms[i + 1]`."""

    terms: tuple[Product | Factor, ...]
    operators: tuple[str, ...]
    span: Span


Factor = Number | Name | Call
Item = Text | Sum | Product | Number | Name | Call  # a sum or product of one thing is that thing


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Member:
    """Items side by side: `goose turned left`, `square 3 1/2`. At least one."""

    items: tuple[Item, ...]
    span: Span


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Part:
    """A joining word (None for the first part of a phrase) and its members, divided by `and`.

    `span` begins at the joining word.
    """

    word: Name | None
    members: tuple[Member, ...]
    span: Span


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Phrase:
    """Parts, each joining word at most once."""

    parts: tuple[Part, ...]
    span: Span


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Sentence:
    """The step, and its clauses after commas."""

    step: Phrase
    clauses: tuple[Phrase, ...]
    span: Span


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Row:
    """The cells of a line with a bar."""

    cells: tuple[Phrase, ...]
    span: Span


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Line:
    """A sentence and what is indented under it. `span` is that of the sentence.

    `incomplete` says that a line somewhere under it was refused and is missing here.
    """

    sentence: Sentence
    children: tuple[Line | Row, ...]
    span: Span
    incomplete: bool = False


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class File:
    """The lines at the left margin.

    `refused` holds every name that stands on a refused line or under one, in the order of the alphabet:
    such a name may well be defined there, so a later stage does not call it unknown.
    """

    source: Source
    lines: tuple[Line, ...]
    span: Span
    refused: tuple[str, ...] = ()
