"""Phrases matched against the sentences of the verbs: which words stand in which slot.

Matching looks at shapes and at words that every pattern shares, never at what a name stands for; so it
is done once for each line, however often the line is evaluated.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from piecewright.diagnostics.nearest import nearest
from piecewright.evaluate.report import Problem
from piecewright.evaluate.spoken import CLOSED, SPOKEN
from piecewright.source import Span
from piecewright.syntax.ast import Call, Item, Member, Name, Number, Part, Phrase, Text
from piecewright.verbs.registry import Verb
from piecewright.verbs.table import VERBS
from piecewright.verbs.template import LISTS, Form, FormPart, Slot, form
from piecewright.verbs.words import PLACES, WAYS


class PieceNode:
    """A piece as written: a cutting noun's sentence, or a name or call with the turns after it.

    `turns` are degrees counter-clockwise, or None for `reversed`, in the order written.
    """

    __slots__ = ("head", "noun", "span", "turns")

    def __init__(self, noun: Match | None, head: Name | Call | None, turns: tuple[int | None, ...], span: Span) -> None:
        self.noun = noun
        self.head = head
        self.turns = turns
        self.span = span


Node = Item | tuple[Item, ...] | PieceNode


class Match:
    """A verb's sentence or a clause with what stands in its slots, by the slots' names."""

    __slots__ = ("clauses", "form", "nodes", "rows", "span", "verb")

    def __init__(
        self, verb: Verb, matched: Form, nodes: dict[str, Node], span: Span, clauses: tuple[Match, ...] = ()
    ) -> None:
        self.verb = verb
        self.form = matched
        self.nodes = nodes
        self.span = span
        self.clauses = clauses
        self.rows: list[list[PieceNode]] = []  # of a table under the line

    def place(self, slot: str) -> Span:
        """Where a slot stands, named as a verb names it in `Refused`; the whole where it cannot be told."""
        name, _, rest = slot.partition(".")
        base, _, number = name.partition("[")
        if base == "CELL":
            row, column = number.rstrip("]").split("][")
            return self.rows[int(row)][int(column)].span
        if base == "clause":
            return self.clauses[int(number.rstrip("]"))].place(rest)
        node = self.nodes.get(base)
        if node is None:
            return self.span
        if isinstance(node, tuple):
            return node[int(number.rstrip("]"))].span if number else node[0].span.to(node[-1].span)
        return node.span


class Misfit(NamedTuple):
    """Why a phrase is not of a form. `score` says how much of it fits."""

    score: int
    span: Span
    message: str
    code: str = "E212"


def match(verb: Verb, step: Phrase, clauses: tuple[Phrase, ...] = (), span: Span | None = None) -> Match:
    """The step as a sentence of the verb, with its clauses. Raises `Problem`."""
    matched, nodes = _best(verb, verb.sentences, step)
    found: list[Match] = []
    seen: set[str] = set()
    for clause in clauses:
        one = _clause(verb, clause)
        word = one.form.text.split(" ", 1)[0]
        if word in seen and word not in verb.repeatable:
            raise Problem("E213", f"`{word}` is said twice in one step", clause.span)
        seen.add(word)
        found.append(one)
    return Match(verb, matched, nodes, span or step.span, tuple(found))


def _clause(verb: Verb, phrase: Phrase) -> Match:
    first = phrase.parts[0].members[0].items[0]
    word = first.text if isinstance(first, Name) else None
    candidates = tuple(text for text in verb.clauses if text.split(" ", 1)[0] == word)
    if candidates:
        matched, nodes = _best(verb, candidates, phrase)
        return Match(verb, matched, nodes, phrase.span)
    if word in PLACES:
        raise Problem(
            "E221", "places in a list are joined by `and`, not by a comma", phrase.span, f"write `and {word}`"
        )
    words = list(dict.fromkeys(text.split(" ", 1)[0] for text in verb.clauses))
    known = ", ".join(f"`{w}`" for w in words)
    hint = f"after a comma `{verb.name}` takes {known}" if known else f"`{verb.name}` takes nothing after a comma"
    raise Problem("E213", f"`{verb.name}` has no clause `{first.span.text}`", phrase.span, near(word, words) or hint)


def near(word: str | None, known: Sequence[str]) -> str | None:
    """The hint that names the nearest word, where one is close."""
    if not word:
        return None
    found = nearest(word, known)
    return f"did you mean `{found}`?" if found else None


def _best(verb: Verb, sentences: tuple[str, ...], phrase: Phrase) -> tuple[Form, dict[str, Node]]:
    """The first form the phrase fits, words of closed kinds looked at first; else the nearest misfit."""
    forms = [form(text) for text in sentences]
    for strict in (True, False) if len(forms) > 1 else (False,):
        if not strict and _opens_with_size(phrase):
            # a size is no piece: such a sentence is none that hands one over
            forms = [one for one in forms if not _is_piece(one.parts[0].tokens[-1])] or forms
        worst: tuple[int, Form, Misfit] | None = None
        for one in forms:
            nodes = _fit(one, phrase, strict)
            if not isinstance(nodes, Misfit):
                return one, _pieces(one, nodes)
            if worst is None or nodes.score > worst[0]:
                worst = nodes.score, one, nodes
    assert worst is not None
    _, nearest_form, misfit = worst
    raise Problem(misfit.code, misfit.message, misfit.span, f"it is written `{nearest_form.text}`")


def _opens_with_size(phrase: Phrase) -> bool:
    items = phrase.parts[0].members[0].items
    return len(items) > 1 and isinstance(items[1], Number)


def _is_piece(token: str | Slot) -> bool:
    return isinstance(token, Slot) and token.kind == "piece"


Raw = dict[str, Item | tuple[Item, ...] | Phrase]


def _fit(wanted: Form, phrase: Phrase, strict: bool) -> Raw | Misfit:
    nodes: Raw = {}
    score = 0
    by_word: dict[str | None, Part] = {part.word.text if part.word else None: part for part in phrase.parts}
    claimed = {part.word for part in wanted.parts}
    holder = next((p for p in wanted.parts if any(isinstance(t, Slot) and t.kind == "piece" for t in p.tokens)), None)
    extras: list[Part] = []
    stray: Part | None = None
    for part in phrase.parts[1:]:
        word = part.word.text if part.word else None
        if word in claimed:
            continue
        if holder is not None and word in ("by", "of", "at"):
            extras.append(part)
        elif stray is None:
            stray = part
    for one in wanted.parts:
        there = by_word.get(one.word)
        if there is None:
            if one.optional:
                continue
            return Misfit(score, _last(phrase.parts[-1]), f"`{_name(phrase)}` lacks `{_spoken(one)}`")
        score += 10
        problem = _part(one, there, extras if one is holder else [], nodes, strict)
        if problem is not None:
            return problem._replace(score=score + problem.score)
        score += 5
    if stray is not None and stray.word is not None:
        return Misfit(score, stray.span, f"`{stray.word.text}` has no place in this `{_name(phrase)}`")
    return nodes


def _name(phrase: Phrase) -> str:
    return phrase.parts[0].members[0].items[0].span.text


def _last(part: Part) -> Span:
    """The last thing of a part, after which something is missing."""
    return part.members[-1].items[-1].span


def _spoken(part: FormPart) -> str:
    """A part of a form as it is written in the reference: `of FABRIC`."""
    words = [token if isinstance(token, str) else token.name for token in part.tokens]
    return " ".join([part.word, *words] if part.word else words)


def _part(wanted: FormPart, part: Part, extras: list[Part], nodes: Raw, strict: bool) -> Misfit | None:
    tokens = wanted.tokens
    last = tokens[-1]
    if isinstance(last, Slot) and last.kind in LISTS:
        return _list(last, tokens[:-1], part, nodes, strict)
    if len(part.members) > 1:
        second = part.members[1]
        return Misfit(1, second.span, "only places and new names come in a list; this takes one thing", "E220")
    given = part.members[0].items
    at = 0
    for token in tokens:
        if isinstance(token, Slot) and token.kind == "piece":
            rest = given[at:]
            if not rest:
                return Misfit(at, _last(part), f"a piece is missing after `{part.span.text}`")
            if strict and isinstance(rest[0], Number):
                return Misfit(at, rest[0].span, f"`{rest[0].span.text}` is not a piece")
            nodes[token.name] = _phrase(rest, extras)
            return None
        if isinstance(token, Slot) and token.kind == "way":
            rest = given[at:]
            if not rest:
                return Misfit(at, _last(part), "it does not say which way")
            nodes[token.name] = rest
            return None
        if at >= len(given):
            missing = f"`{token}`" if isinstance(token, str) else SPOKEN[token.kind]
            return Misfit(at, _last(part), f"{missing} is missing after `{part.span.text}`")
        item = given[at]
        if isinstance(token, str):
            if not (isinstance(item, Name) and item.text == token):
                return Misfit(at, item.span, f"`{item.span.text}` stands where `{token}` belongs")
        else:
            if (strict or token.kind in CLOSED) and not _may_be(token.kind, item, strict):
                return Misfit(at, item.span, f"`{item.span.text}` is not {SPOKEN[token.kind]}")
            nodes[token.name] = item
        at += 1
    if at < len(given):
        return Misfit(at, given[at].span, f"`{given[at].span.text}` has no place here")
    return None


def _list(slot: Slot, words: tuple[str | Slot, ...], part: Part, nodes: Raw, strict: bool) -> Misfit | None:
    """A list, and before it words that stand as they are."""
    items: list[Item] = []
    for number, member in enumerate(part.members):
        given = member.items
        if not number:
            for word, item in zip(words, given, strict=False):
                if not (isinstance(item, Name) and item.text == word):
                    return Misfit(0, item.span, f"`{item.span.text}` stands where `{word}` belongs")
            if len(given) <= len(words):
                return Misfit(1, _last(part), f"{SPOKEN[slot.kind]} is missing after `{given[-1].span.text}`")
            given = given[len(words) :]
        if len(given) > 1:
            return Misfit(1, given[1].span, f"`{given[1].span.text}` has no place in this list")
        items.append(given[0])
        if strict and not _may_be(slot.kind, given[0], strict):
            return Misfit(0, member.span, f"`{given[0].span.text}` is not {SPOKEN[slot.kind]}")
    nodes[slot.name] = tuple(items)
    return None


def _may_be(kind: str, item: Item, strict: bool) -> bool:
    if kind in CLOSED:
        return isinstance(item, Name) and (not strict or item.text in CLOSED[kind])
    if kind == "text":
        return isinstance(item, Text)
    if kind in ("length", "count", "angle"):
        return not isinstance(item, Text) and not (isinstance(item, Name) and item.text in PLACES)
    return True


def _phrase(items: tuple[Item, ...], extras: list[Part]) -> Phrase:
    span = items[0].span.to(items[-1].span)
    part = Part(word=None, members=(Member(items=items, span=span),), span=span)
    return Phrase(parts=(part, *extras), span=span.to(extras[-1].span) if extras else span)


def _pieces(matched: Form, raw: Raw) -> dict[str, Node]:
    return {name: piece(node) if isinstance(node, Phrase) else node for name, node in raw.items()}


def piece(phrase: Phrase) -> PieceNode:
    """A phrase as a piece. Raises `Problem` where it cannot be one."""
    first_part = phrase.parts[0]
    items = first_part.members[0].items
    head = items[0]
    if isinstance(head, Name):
        noun = VERBS.get(head.text)
        if noun is not None:
            if noun.role != "noun":
                raise Problem("E204", f"`{head.text}` is a step, and a piece is wanted here", head.span)
            return PieceNode(match(noun, phrase), None, (), phrase.span)
    if not isinstance(head, Name | Call):
        raise Problem(
            "E204", f"`{head.span.text}` is not a piece", head.span, "a piece is cut from cloth, or is a unit"
        )
    if len(phrase.parts) > 1:
        part = phrase.parts[1]
        raise Problem("E212", f"`{part.span.text}` has no place after `{head.span.text}`", part.span, _noun_hint(head))
    if len(first_part.members) > 1:
        raise Problem(
            "E220", "only places and new names come in a list; this takes one thing", first_part.members[1].span
        )
    return PieceNode(None, head, turns(items[1:], head), phrase.span)


def _noun_hint(head: Name | Call) -> str | None:
    nouns = [name for name, verb in VERBS.items() if verb.role == "noun"]
    return near(head.text, nouns) if isinstance(head, Name) else None


def turns(items: tuple[Item, ...], head: Name | Call) -> tuple[int | None, ...]:
    """`turned left`, `turned 45 right`, `reversed`, done in the order written."""
    found: list[int | None] = []
    at = 0
    while at < len(items):
        word = items[at]
        text = word.text if isinstance(word, Name) else ""
        if text == "reversed":
            found.append(None)
            at += 1
        elif text == "turned":
            rest = items[at + 1 :]
            long = bool(rest) and isinstance(rest[0], Number)
            if not rest:
                raise Problem(
                    "E217", "`turned` does not say which way", word.span, "say `turned right`, `left` or `around`"
                )
            found.append(way(rest[: 2 if long else 1]))
            at += 3 if long else 2
        else:
            hint = near(text, ("turned", "reversed"))
            raise Problem("E212", f"`{word.span.text}` has no place after `{head.span.text}`", word.span, hint)
    return tuple(found)


def way(items: tuple[Item, ...]) -> int:
    """Degrees counter-clockwise of `right`, `left`, `around` or `45 right`. Raises `Problem`."""
    span = items[0].span.to(items[-1].span)
    last = items[-1]
    word = last.text if isinstance(last, Name) else ""
    if word == "over":
        raise Problem(
            "E217",
            "turned over, a piece shows its wrong side",
            span,
            "`turned around` turns it half round, `reversed` makes it as in a mirror",
        )
    if len(items) > 2:
        raise Problem("E217", f"`{span.text}` is no turn", span, "say `right`, `left`, `around` or `45 right`")
    degrees = 90
    if len(items) == 2:
        number = items[0]
        if not isinstance(number, Number) or number.unit or not number.value.is_rational or number.value.ratio[1] != 1:
            raise Problem(
                "E217", f"`{number.span.text}` is no angle", number.span, "an angle is whole degrees: `45 right`"
            )
        degrees = number.value.ratio[0]
        if word == "around":
            raise Problem("E217", "`around` is a half turn by itself", span, "say `around`, or `45 right`")
    if word == "around":
        return 180
    if word not in WAYS:
        hint = near(word, WAYS) or "say `right`, `left`, `around` or `45 right`"
        raise Problem("E217", f"`{last.span.text}` is no way to turn", last.span, hint)
    return degrees if word == "left" else -degrees
