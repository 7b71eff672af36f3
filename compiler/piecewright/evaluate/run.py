"""A parsed file evaluated: what it asks for is made, and every line of it is looked at."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from piecewright.diagnostics.model import Diagnostic
from piecewright.evaluate.asked import asked, asked_for
from piecewright.evaluate.circles import refuse_circles
from piecewright.evaluate.definition import Definition
from piecewright.evaluate.env import Value
from piecewright.evaluate.judge import judge
from piecewright.evaluate.products import in_order
from piecewright.evaluate.proportion import check_fabrics, check_ruler
from piecewright.evaluate.report import Problem, Silent
from piecewright.evaluate.scope import Margin
from piecewright.evaluate.session import Load, Session
from piecewright.evaluate.unused import fabrics_used, tell_unused
from piecewright.evaluate.values import UNKNOWN, Unknown
from piecewright.kernel.build import Build, Demand, Fabric, Made
from piecewright.syntax.ast import File, Line

NOTHING: Mapping[str, str] = {}


def evaluate(
    file: File, load: Load, settings: Mapping[str, str] = NOTHING, cutter: File | None = None
) -> tuple[Build | None, tuple[Diagnostic, ...]]:
    """What a pattern makes, and what is wrong with it; no build where there is an error.

    `load` gives the file that a `use` names, or what is wrong with that. `settings` take the place of the
    pattern's settings or of names at its left margin, each written as there; `cutter` is a file whose line `cutter`
    takes the place of the pattern's.
    """
    session = Session(file, load, settings, cutter)
    build = _build(session)
    if not session.report.failed:
        judge(session, build)
    return (None if session.report.failed else build), tuple(session.report.found)


def evaluate_lines(
    file: File, load: Load, asked_lines: Iterable[Line], settings: Mapping[str, str] = NOTHING
) -> tuple[Build | None, tuple[Diagnostic, ...]]:
    """What lines `make COUNT of PIECE` of another text make of a pattern's definitions: one demand a line, in order.
    What the pattern itself asks for is left aside; only mistakes are told."""
    session = Session(file, load, settings)
    session.main.read()
    refuse_circles(session.main)
    session.check_overrides()
    demands: list[Demand] = []
    for line in asked_lines:
        try:
            one = asked_for(line, session.main)
            demands.append(Demand(key=one.product.key, count=one.number))
        except Problem as problem:
            session.report.problem(problem)
        except Silent:
            continue
    made = in_order(session.products, (demand.key for demand in demands))
    build = Build(
        settings=session.settings,
        fabrics=_fabrics(session, fabrics_used(session, made)),
        made=made,
        demands=tuple(demands),
    )
    return (None if session.report.failed else build), tuple(session.report.found)


def _build(session: Session) -> Build:
    """Everything that is asked for, made; and every line looked at."""
    session.main.read()
    refuse_circles(session.main)
    session.check_overrides()
    wanted = asked(session)
    _look_through(session)
    counts: dict[str, int] = {}
    for one in wanted:
        counts[one.product.key] = counts.get(one.product.key, 0) + one.number
    made = in_order(session.products, counts)
    _proportions(session, made)
    used = fabrics_used(session, made)
    if not session.report.failed:
        tell_unused(session, wanted, made, used)
    return Build(
        settings=session.settings,
        fabrics=_fabrics(session, used),
        made=made,
        demands=tuple(Demand(key=key, count=count) for key, count in counts.items()),
    )


def _proportions(session: Session, made: tuple[Made, ...]) -> None:
    """What stands in no proportion to the cloth, or to what is made of it."""
    check_fabrics(session.main, session.settings, session.report)
    if not session.report.failed:
        file, cutter = session.main.file, session.cutter
        check_ruler(file, cutter, made, session.settings, session.overrides, session.report)


def _look_through(session: Session) -> None:
    """Every name at the margin and every definition of this file that was not evaluated yet."""
    for entry in session.main.names.values():
        if isinstance(entry, Margin):
            try:
                session.margin(entry)
            except Problem as problem:
                session.report.problem(problem)
            except Silent:
                continue
    for definition in session.main.definitions:
        definition.statements(session.report)
        if not definition.used:
            _look_at(session, definition)


def _look_at(session: Session, definition: Definition) -> None:
    """Made with defaults and stand-ins where that says everything, else only looked through."""
    session.parameter_kinds(definition)
    values: dict[str, Value] = {}
    for parameter in definition.parameters:
        try:
            if parameter.default is not None:
                values[parameter.name] = session.default(definition, parameter, values)
            elif parameter.kind in ("fabric", None):
                values[parameter.name] = session.stand_in(definition, parameter)
            else:
                values[parameter.name] = UNKNOWN
        except Silent:
            values[parameter.name] = UNKNOWN
    if definition.running or definition.broken or any(isinstance(v, Unknown) for v in values.values()):
        session.run(definition, values, {})
        return
    try:
        session.made(definition, values, {}, None)
    except Silent:
        return


def _fabrics(session: Session, used: set[str]) -> tuple[Fabric, ...]:
    """The fabrics of this file, and of others and stand-ins those that are used."""
    return tuple(f for name, f in session.fabrics.items() if name in used or session.main.names.get(name) is f)
