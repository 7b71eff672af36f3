"""A text parsed: line by line, so that each line that cannot be read is one diagnostic and no more."""

from __future__ import annotations

import re
from typing import Any

from piecewright.diagnostics.model import Diagnostic
from piecewright.source import Source, Span
from piecewright.syntax import slips
from piecewright.syntax._tables import END, RULES, TABLE
from piecewright.syntax.ast import File, Row, Sentence
from piecewright.syntax.build import ACTIONS
from piecewright.syntax.layout import TextLine, layout, tree
from piecewright.syntax.slips import Slip, Token
from piecewright.syntax.words import Sizes, words

_RULES = tuple((made, taken, ACTIONS.get(does), does == "*", spread) for made, taken, does, spread in RULES)
_PASSED: dict[tuple[int, int, str], int] = {}  # drawn from the tables alone, so the same in every run


def parse(source: Source) -> tuple[File | None, tuple[Diagnostic, ...]]:
    """The tree of the lines that can be read, and a diagnostic for each line that cannot.

    No tree at all where the text holds nothing but blanks and remarks.
    """
    sizes: Sizes = {}
    found: list[Diagnostic] = []
    lines = layout(source)
    for line in lines:
        if line.slip is None:
            try:
                line.node = sentence_or_row(source, words(source, line.start, line.end, sizes))
                line.check()
            except Slip as slip:
                line.slip = slip
        if line.slip is not None:
            line.node = None
            found.append(line.slip.diagnostic)
    whole = Span(source, 0, len(source.text))
    if not lines:
        nothing = Slip(
            "E115",
            "there is nothing to make in this file",
            Span(source, 0, 0),
            hint="begin with a block: `block first (light)`, and under it, indented, the steps of making it",
        )
        return None, (nothing.diagnostic,)
    refused = _names_left_out(source, lines) if found else ()
    return File(source=source, lines=tree(lines), span=whole, refused=refused), tuple(found)


def _names_left_out(source: Source, lines: list[TextLine]) -> tuple[str, ...]:
    """What looks like a name on the lines that the tree leaves out."""
    names: set[str] = set()
    for line in lines:
        if line.left_out:
            names.update(re.findall(r"[^\W\d_][^\W_]*(?:-[^\W_]+)*", source.text[line.start : line.end].lower()))
    return tuple(sorted(names))


def sentence_or_row(source: Source, tokens: list[Token]) -> Sentence | Row:
    """The node of one line, by the tables of the grammar; raises `Slip`."""
    states = [0]
    values: list[Any] = []
    depth = 0
    for index, (kind, value, start, end) in enumerate(tokens):
        while True:
            state = states[-1]
            does = TABLE[state].get(kind)
            if does is None:
                if state == END and kind == "$END":
                    node: Sentence | Row = values[0]
                    return node
                raise value if isinstance(value, Slip) else slips.misfit(source, tokens, index)
            if does >= 0:
                states.append(does)
                values.append(value)
                break
            made, taken, action, is_list, spread = _RULES[~does]
            if action is not None:
                took = values[-taken:]
                del values[-taken:], states[-taken:]
                if spread:
                    took = [one for some in took for one in (some if type(some) is list else (some,))]
                values.append(action(took))
                states.append(TABLE[states[-1]][made])
            elif is_list:
                took = values[-taken:]
                del values[-taken:], states[-taken:]
                if type(took[0]) is list:
                    took[0].extend(took[1:])
                    took = took[0]
                values.append(took)
                states.append(TABLE[states[-1]][made])
            else:
                key = (states[-2], state, kind)
                states[-1] = _PASSED.get(key) or _passed_on(key)
        if kind == "LPAR":
            depth += 1
            if depth > slips.DEEPEST:
                raise slips.too_deep(Span(source, start, end), "brackets")
        elif kind == "RPAR":
            depth -= 1
    raise AssertionError("every list of words ends in $END or in a slip")


def _passed_on(key: tuple[int, int, str]) -> int:
    """The state above the first one once all rules are through that only pass on the one value at the second.

    Never the first state of all, 0, which no rule leads to.
    """
    below, state, kind = key
    while True:
        does = TABLE[state].get(kind, 0)
        if does >= 0 or _RULES[~does][2] is not None or _RULES[~does][3]:
            break
        state = TABLE[below][_RULES[~does][0]]
    _PASSED[key] = state
    return state
