"""Work out the parser's tables from the grammar: `python -m piecewright.syntax.generate`.

Lark reads `grammar/piecewright.lark` in strict mode, so any conflict and any two terminals that
could match the same text stop it, and its LALR(1) tables are written to `_tables.py`. Lark itself
is then not needed to read a pattern: importing it takes longer than checking one.
"""

from __future__ import annotations

from importlib.resources import files
from pathlib import Path
from typing import Any

TABLES = Path(__file__).with_name("_tables.py")

_HEAD = '''"""The tables of grammar/piecewright.lark. Written by piecewright.syntax.generate: do not edit."""

# One alternative a terminal, in the order in which they are tried; a name that is not in IGNORED
# is a terminal of the grammar.
'''

_TABLE_HEAD = """
# For each state, what a symbol does: n >= 0 goes to state n; n < 0 puts RULES[~n] together.
"""

_RULES_HEAD = """
# For each rule: the symbol it makes, how many it takes, and what is done with them: "" passes the
# one on, "*" makes them a list, any other is a function of build.py; True if the last is a list.
"""


def grammar_text() -> str:
    """The text of the grammar."""
    return files("piecewright.grammar").joinpath("piecewright.lark").read_text(encoding="utf-8")


def strict_parser() -> Any:
    """Lark's own parser of a line, made in strict mode; raises lark's GrammarError or LexError."""
    from lark import Lark  # here, so that a reader of a pattern never imports lark

    return Lark(grammar_text(), parser="lalr", lexer="basic", start="line", strict=True, maybe_placeholders=False)


def tables_text() -> str:
    """The text of `_tables.py` for the grammar as it is; the same grammar gives the same bytes."""
    lark = strict_parser()
    table = lark.parser.parser._parse_table
    rules = list(lark.rules)
    numbers = {rule: number for number, rule in enumerate(rules)}
    order = [table.start_states["line"]]
    for state in order:  # grows as it is walked: states in the order in which they are first reached
        for _, (action, target) in sorted(table.states[state].items()):
            if action.name == "Shift" and target not in order:
                order.append(target)
    place = {state: number for number, state in enumerate(order)}

    out = [_HEAD]
    terminals = sorted(
        lark.terminals,
        key=lambda t: (-t.priority, -t.pattern.max_width, -len(t.pattern.value), t.name),
    )
    out.append("TERMINALS: tuple[tuple[str, str], ...] = (\n")
    out.extend(f"    ({terminal.name!r}, {terminal.pattern.to_regexp()!r}),\n" for terminal in terminals)
    out.append(")\n")
    out.append(f"IGNORED: tuple[str, ...] = {tuple(sorted(lark.ignore_tokens))!r}\n")
    out.append(_RULES_HEAD)
    out.append("RULES: tuple[tuple[str, int, str, bool], ...] = (\n")
    for rule in rules:
        origin = str(rule.origin.name)
        if origin.startswith("_"):
            does = "*"
        elif rule.options.expand1 and len(rule.expansion) == 1:
            does = ""
        else:
            does = origin
        spread = any(str(symbol.name).startswith("_") for symbol in rule.expansion)
        out.append(f"    ({origin!r}, {len(rule.expansion)}, {does!r}, {spread}),\n")
    out.append(")\n")
    out.append(_TABLE_HEAD)
    out.append("TABLE: tuple[dict[str, int], ...] = (\n")
    for state in order:
        entries = {
            str(symbol): place[target] if action.name == "Shift" else ~numbers[target]
            for symbol, (action, target) in table.states[state].items()
        }
        out.append("    {" + ", ".join(f"{symbol!r}: {entries[symbol]}" for symbol in sorted(entries)) + "},\n")
    out.append(")\n")
    out.append(f"END = {place[table.end_states['line']]}\n")
    return "".join(out)


def main() -> None:
    TABLES.write_text(tables_text(), encoding="utf-8")
    print(f"{TABLES.name} written")


if __name__ == "__main__":
    main()
