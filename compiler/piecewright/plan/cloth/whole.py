"""Whole strips chosen exactly from a list of strips, with the HiGHS solver where it is installed."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, NamedTuple

from piecewright.plan.cloth.layout import Strip, Strips
from piecewright.plan.cloth.simplex import Entries


class Answer(NamedTuple):
    """`strips`: a plan that is short enough, if one was found. `least`: no shorter one can be made of these strips, or
    none at all."""

    strips: Strips | None
    least: bool


def solver(wanted: bool | None) -> Any:
    """The module highspy, or None where it is not installed or not wanted."""
    if wanted is False:
        return None
    try:
        import highspy
    except ImportError:
        return None
    return highspy


def choose(
    highspy: Any,
    strips: Sequence[Strip],
    demand: Sequence[int],
    cuts: Sequence[tuple[int, int]],
    length: int,
    enough: int,
    nodes: int,
) -> Answer:
    """The shortest plan of these strips that gives all that is wanted and is at most so long; one no longer than
    `enough` is as good. Gives up after so many nodes of the search. One thread and a fixed seed: the answer does not
    depend on the machine."""
    kinds = [kind for kind, count in enumerate(demand) if count > 0]
    row_of = {kind: row for row, kind in enumerate(kinds)}
    columns: list[tuple[int, Entries]] = []
    for strip in strips:
        entries = [(row_of[kind], count) for kind, count in sorted(strip.counts().items())]
        entries += [(len(kinds) + i, 1) for i, (high, _) in enumerate(cuts) if strip.height >= high]
        columns.append((strip.height, tuple(entries)))
    right = [demand[kind] for kind in kinds] + [count for _, count in cuts]
    amounts, least = choose_columns(highspy, columns, right, length, enough, nodes)
    if amounts is None:
        return Answer(None, least)
    chosen = [(strip, amount) for strip, amount in zip(strips, amounts, strict=True) if amount]
    return Answer(chosen, least)


def choose_columns(
    highspy: Any, columns: Sequence[tuple[int, Entries]], right: Sequence[int], most: int, enough: int, nodes: int
) -> tuple[list[int] | None, bool]:
    """Whole amounts of columns (cost and entries), of least cost, with each row at least `right` and the cost at most
    `most`; and whether it is proved that no less will do. Otherwise as `choose`."""
    starts, indices, values = [], list[int](), list[float]()
    for cost, entries in columns:
        starts.append(len(indices))
        indices += [row for row, _ in entries] + [len(right)]
        values += [float(value) for _, value in entries] + [float(cost)]
    infinity = highspy.kHighsInf
    model = highspy.HighsModel()
    programme = model.lp_
    programme.num_col_, programme.num_row_ = len(columns), len(right) + 1
    programme.col_cost_ = [float(cost) for cost, _ in columns]
    programme.col_lower_ = [0.0] * len(columns)
    programme.col_upper_ = [float(most // cost) if cost else infinity for cost, _ in columns]
    programme.row_lower_ = [float(value) for value in right] + [-infinity]
    programme.row_upper_ = [infinity] * len(right) + [float(most)]
    programme.a_matrix_.format_ = highspy.MatrixFormat.kColwise
    programme.a_matrix_.start_ = [*starts, len(indices)]
    programme.a_matrix_.index_, programme.a_matrix_.value_ = indices, values
    programme.integrality_ = [highspy.HighsVarType.kInteger] * len(columns)
    highs = highspy.Highs()
    for name, value in (
        ("output_flag", False),
        ("threads", 1),
        ("parallel", "off"),
        ("random_seed", 0),
        ("mip_max_nodes", nodes),
        ("objective_target", enough + 0.5),
        ("mip_abs_gap", 0.999),
        ("mip_rel_gap", 0.0),
        ("mip_detect_symmetry", False),
    ):
        highs.setOptionValue(name, value)
    highs.passModel(model)
    highs.run()
    status = highs.getModelStatus()
    if status == highspy.HighsModelStatus.kInfeasible:
        return None, True
    solution = highs.getSolution()
    if not solution.value_valid:
        return None, False
    amounts = [round(amount) for amount in solution.col_value]
    if not _holds(columns, amounts, right, most):
        return None, False
    return amounts, status == highspy.HighsModelStatus.kOptimal


def _holds(columns: Sequence[tuple[int, Entries]], amounts: Sequence[int], right: Sequence[int], most: int) -> bool:
    """Counted again in whole numbers, since the solver works with rounded ones."""
    got = [0] * len(right)
    for (_, entries), amount in zip(columns, amounts, strict=True):
        for row, value in entries:
            got[row] += value * amount
    cost = sum(cost * amount for (cost, _), amount in zip(columns, amounts, strict=True))
    return (
        cost <= most
        and min(amounts, default=0) >= 0
        and all(have >= want for have, want in zip(got, right, strict=True))
    )
