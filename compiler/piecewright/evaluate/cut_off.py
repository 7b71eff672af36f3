"""Tables of a quilt that are repeated and do not come out: what is cut off is hardly ever meant."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import lcm
from typing import TYPE_CHECKING

from piecewright.craft.finding import Finding
from piecewright.evaluate.definition import Statement
from piecewright.kernel.action import Lay
from piecewright.kernel.build import Build, Made

if TYPE_CHECKING:
    from piecewright.evaluate.session import Session

REPEATED = "lay COLUMNS by ROWS"
Grid = Sequence[Sequence[str]]


def cut_off(session: Session, build: Build) -> Iterator[tuple[Made, Finding]]:
    """Each table in several rows and columns of which part of the last repeat is cut off, unless that leaves both ends
    alike across and down, as in a checkerboard of odd numbers."""
    for made in build.made:
        if made.kind != "quilt":
            continue
        statements = session.origin(made.key)[0].statements(session.report)
        for step in made.steps:
            statement = next((one for one in statements if one.line == step.line), None)
            laid = next((action for action in step.actions if isinstance(action, Lay)), None)
            if step.verb != "lay" or statement is None or laid is None or not _is_repeated(statement):
                continue
            across, down = len(laid.names[0]), len(laid.names)
            wide, high = lcm(*(len(row) for row in statement.rows)), len(statement.rows)
            is_cut = bool(across % wide or down % high)
            if is_cut and across > 1 and down > 1 and not _is_alike(laid.names):
                names = [[cell.span.text for cell in row] for row in statement.rows]
                near = ((across, down - 1), (across, down + 1), (across - 1, down), (across + 1, down))
                alike = tuple(one for one in near if min(one) > 1 and _is_alike(_laid(names, *one)))
                yield made, Finding(
                    "table-cut-off",
                    step,
                    setting=(across, down),
                    table=(wide, high),
                    alike=tuple(one for one in alike if one[0] % wide or one[1] % high),
                )


def _is_repeated(statement: Statement) -> bool:
    return statement.match is not None and statement.match.form.text == REPEATED


def _is_alike(grid: Grid) -> bool:
    """Whether both ends are alike, across and down."""
    rows = [tuple(row) for row in grid]
    return rows == rows[::-1] and all(row == row[::-1] for row in rows)


def _laid(table: Grid, across: int, down: int) -> Grid:
    rows = [table[r % len(table)] for r in range(down)]
    return [[row[c % len(row)] for c in range(across)] for row in rows]
