"""The warnings of a pattern: what a look over its work finds, each at the line that causes it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from piecewright.craft.finding import Finding
from piecewright.craft.look import look_over
from piecewright.evaluate.cut_off import cut_off
from piecewright.evaluate.definition import Definition, Statement
from piecewright.evaluate.warnings import warned
from piecewright.kernel.build import Build, Made
from piecewright.source import Span

if TYPE_CHECKING:
    from piecewright.evaluate.session import Session

NOTED = {
    "bias-edge": "bias",
    "both-hands": "fold",
    "off-the-mark": "ruler's marks",
    "table-cut-off": "cut off",
    "one-way": "direction",
}
"""What may be meant so, and the word by which a note tells of it."""


def judge(session: Session, build: Build) -> None:
    """Reports what is found in a build without mistakes."""
    report, words = session.report, session.print_words()
    for made, finding in (*look_over(build), *cut_off(session, build)):
        if _is_said(build, made, finding):
            continue
        definition, calls = session.origin(made.key)
        report.calls = list(calls)
        finding.facts = words.facts(finding.facts)
        said = warned(finding, session.settings.units)
        span = definition.span if finding.step is None else _line(definition, finding.step.line, session)
        report.add(said.code, "warning", said.message, span, said.hint, home=session.main.file.source)
    report.calls = []


def _is_said(build: Build, made: Made, finding: Finding) -> bool:
    """Whether a note of the designer's tells of it, so that whoever sews the pattern knows: a note of that definition,
    or any one where the finding is about the pattern as a whole or the note names the fabric."""
    word = NOTED.get(finding.kind)
    if word is None:
        return False
    for one in build.made:
        for note in (note.lower() for step in one.steps for note in step.notes):
            own = one is made or finding.kind == "both-hands"
            if word in note and (own or (finding.kind == "one-way" and str(finding.facts["fabric"]) in note)):
                return True
    return False


def _line(definition: Definition, line: int, session: Session) -> Span:
    pending: list[Statement] = list(definition.statements(session.report))
    while pending:
        statement = pending.pop()
        if statement.line == line:
            return statement.span
        pending += statement.children
    return definition.span
